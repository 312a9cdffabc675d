"""Whether closed bodies run through themselves, or touch themselves, by lines laid through them.

Along a line through a body whose skin nowhere crosses itself, wood and air take turns. Where the
skin is entered twice before it is left, the body overlaps itself and part of its skin is hidden;
where it is left and entered at one place, it touches itself. The lines stand in a square lattice
along two directions that are square to each other and askew to the axes of the piece. A line that
passes at an edge meets just one of the two triangles there, so the turns always add up.

Promises to find what is a few steps of the lattice wide, seen along either; what is finer may be
missed, and hides little.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from shapes.meshes.repair import rounding_units
from shapes.solids import Floats, Ints

LINES, FEWER_LINES = 40_000, 10_000
"""Crossings of lines and skin wanted along each direction, about: a skin of 1 m2 meets a lattice of
3.5 mm, and a thousandth of it some 80 times in all. Half as fine, with 7 mm and some 20 times, in a
mesh of many triangles, where each line costs more."""

MANY_TRIANGLES = 200_000

AXES: Floats = np.array([[13, 104, 52], [88, -43, 64], [76, 32, -83]]) / 117
"""Three directions, rows, right-handed; each 27 degrees or more from every axis of the piece and 6
degrees or more from every plane of two of them."""

DIRECTIONS = (0, 1)
"""Those along which lines are laid: what lies along the one is seen along the other."""

STEEPEST = 117 / 13
"""Rounding moves the crossing with a face that is square to an axis at most so many times as far
along the line."""

CHUNK_ROWS = 60_000
"""Rows of the lattice within triangles that are taken together: some 10 MB."""

DEPTH_BITS = 24
"""Depths are kept to 1 in 16 million of the mesh's size, as fine as the numbers in a mesh file."""
GROUP_BITS = 63 - DEPTH_BITS - 1
"""What is left in a whole number for the body and the line."""


@dataclass(frozen=True)
class Crossings:
    """What the lines met.

    Attributes:
        met: how often a line crossed the skin.
        within: how many of these crossings lie within wood of the same body, or bound an inside out
            part of it.
        touching: how many lie where the body touches itself; two for each place.
    """

    met: int
    within: int
    touching: int

    @property
    def hidden(self) -> float:
        """Share of the skin that bodies hide from themselves, about."""
        return (self.within + self.touching) / max(self.met, 1)


def crossings(vertices: Floats, triangles: Ints, body_of: Ints, area: float) -> Crossings:
    """Return what lines through closed bodies meet; each body is judged by itself.

    Args:
        vertices: corners [grid units], shape (v, 3).
        triangles: corner numbers, outward; no side without its opposite in one body, shape (t, 3).
        body_of: body of each triangle, shape (t,).
        area: of all triangles [square grid units].
    """
    turned = AXES @ vertices.T
    turned -= turned.min(axis=1, keepdims=True)
    size = float(turned.max())
    bodies = int(body_of.max()) + 1
    # never so fine that body, line and depth do not fit into one whole number
    lines = FEWER_LINES if len(triangles) > MANY_TRIANGLES else LINES
    step = max(np.sqrt(area / 2 / lines), size * np.sqrt(bodies) / 2 ** ((GROUP_BITS - 1) // 2))
    slack = STEEPEST * rounding_units(vertices) / size * 2**DEPTH_BITS
    corners = np.ascontiguousarray(triangles.T)
    counts = np.zeros(3, dtype=np.int64)
    for k in DIRECTIONS:
        columns, rows = turned[(k + 1) % 3] / step, turned[(k + 2) % 3] / step
        found = _Lattice(columns, rows, turned[k] / size, corners, body_of)
        counts += _judged(np.sort(np.concatenate(list(found.keys()))), slack + 1)
    met, within, touching = counts.tolist()
    return Crossings(met, within, touching)


class _Lattice:
    """Lines along one direction, through the whole numbers of two coordinates.

    Args:
        columns: first coordinate of the corners, from 0 up, shape (v,).
        rows: second coordinate.
        depths: third one, along the lines, from 0 to 1.
        corners: first, second and third corner of the triangles, shape (3, t).
        body_of: body of each triangle, shape (t,).
    """

    def __init__(
        self, columns: Floats, rows: Floats, depths: Floats, corners: Ints, body_of: Ints
    ) -> None:
        self._columns, self._rows, self._depths = columns, rows, depths
        self._corners, self._body_of = corners, body_of
        self._above = np.ceil(rows).astype(np.int32)
        self._width = int(self._above.max()) + 1
        self._lines = self._width * (int(np.ceil(columns.max())) + 1)

    def keys(self) -> Iterator[Ints]:
        """Yield a number for each crossing: body and line, then depth, then whether it leaves."""
        chosen, first, count = self._crossed()
        ends = np.cumsum(count)
        cuts = np.searchsorted(ends, np.arange(0, ends[-1] if len(ends) else 0, CHUNK_ROWS)[1:])
        yield np.zeros(0, dtype=np.int64)
        for mine in np.split(np.arange(len(chosen)), cuts):
            number = np.repeat(mine, count[mine])
            starts = np.cumsum(count[mine]) - count[mine]
            row = first[number] + np.arange(len(number)) - np.repeat(starts, count[mine])
            yield self._keys_of(chosen[number], row)

    def _crossed(self) -> tuple[Ints, Ints, Ints]:
        """Return the triangles that rows and columns may cross, their first row, and how many."""
        a, b, c = (self._above[corner] for corner in self._corners)
        chosen = np.flatnonzero((a != b) | (b != c))
        right = np.ceil(self._columns).astype(np.int32)
        left, middle, other = (right[corner[chosen]] for corner in self._corners)
        chosen = chosen[(left != middle) | (middle != other)]
        a, b, c = a[chosen], b[chosen], c[chosen]
        first = np.minimum(np.minimum(a, b), c).astype(np.int64)
        return chosen, first, np.maximum(np.maximum(a, b), c) - first

    def _keys_of(self, triangle: Ints, row: Ints) -> Ints:
        """Return the keys of crossings in given rows of given triangles.

        In a row, a triangle reaches from its side that runs down to its side that runs up; seen
        from the far end of the line, it faces that way if the latter lies to the right.
        """
        corners = self._corners[:, triangle]
        is_below = self._above[corners] <= row
        next_below = is_below[[1, 2, 0]]
        x_up, z_up = self._crossing(corners, (is_below & ~next_below).argmax(axis=0), row, 0)
        x_down, z_down = self._crossing(corners, (next_below & ~is_below).argmax(axis=0), row, 1)
        up, down = np.ceil(x_up).astype(np.int64), np.ceil(x_down).astype(np.int64)
        count = np.abs(up - down)
        number = np.repeat(np.arange(len(row)), count)
        starts = np.cumsum(count) - count
        column = np.minimum(up, down)[number] + np.arange(len(number)) - np.repeat(starts, count)
        share = (column - x_down[number]) / (x_up - x_down)[number]
        depth = z_down[number] + share * (z_up - z_down)[number]
        leaves = (up > down)[number]
        group = self._body_of[triangle[number]] * self._lines + column * self._width + row[number]
        whole = (depth * (2**DEPTH_BITS - 1)).astype(np.int64)
        keys: Ints = ((group << DEPTH_BITS) + whole << 1) + leaves
        return keys

    def _crossing(self, corners: Ints, side: Ints, row: Ints, upper: int) -> tuple[Floats, Floats]:
        """Return column and depth where a row crosses a side of triangles.

        Reckoned from the lower end to the upper one, so that both triangles at a side agree.

        Args:
            corners: of the triangles, shape (3, n).
            side: from which corner to the next, shape (n,).
            row: shape (n,).
            upper: 0 where the side runs up, 1 where it runs down.
        """
        place = np.arange(len(side))
        low = corners[(side + upper) % 3, place]
        high = corners[(side + 1 - upper) % 3, place]
        share = (row - self._rows[low]) / (self._rows[high] - self._rows[low])
        columns = self._columns[low] + share * (self._columns[high] - self._columns[low])
        depths = self._depths[low] + share * (self._depths[high] - self._depths[low])
        return columns, depths


def _judged(keys: Ints, slack: float) -> Ints:
    """Return how many crossings there are, how many within wood, and how many where it touches.

    Crossings nearer to each other than `slack` are taken as one place.
    """
    if not len(keys):
        return np.zeros(3, dtype=np.int64)
    depth = keys >> 1  # body and line are in front of the depth: another line is far away
    deep = np.cumsum(1 - 2 * (keys & 1))
    is_last: npt.NDArray[np.bool_] = np.append(np.diff(depth) > slack, True)
    last = np.flatnonzero(is_last)
    count = np.diff(np.append(-1, last))
    after = deep[last]
    before = np.append(0, after[:-1])
    is_within = np.minimum(before, after) < 0
    is_between = np.minimum(before, after) >= 1
    is_touching = is_between & (before == 1) & (after == 1)
    within = count[is_within | (is_between & ~is_touching)].sum()
    return np.array([len(keys), within, count[is_touching].sum()])
