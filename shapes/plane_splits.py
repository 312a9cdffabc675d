"""Triangles split where a plane square to an axis crosses them.

Neighbours are split at the same points, so a closed mesh stays closed. No area is added or lost.
"""

import numpy as np
import numpy.typing as npt

from shapes.solids import Floats, Ints

Halved = tuple[Floats, Ints, Ints]
"""Corners, triangles, and the triangle that each one is a piece of."""


def split_at(
    vertices: Floats, triangles: Ints, axis: int, level: float, *, near: float = 0.0
) -> Halved:
    """Return triangles with every one that crosses a plane split there.

    Args:
        vertices: corners, shape (v, 3).
        triangles: corner numbers, shape (t, 3).
        axis: what the plane is square to: 0, 1 or 2.
        level: where the plane lies along that axis.
        near: corners nearer to it than this lie in it.

    >>> corners = np.array([[0, 0, 0], [4, 0, 0], [0, 0, 4]], dtype=np.float64)
    >>> split_at(corners, np.array([[0, 1, 2]]), 2, 2.0)[2].tolist()
    [0, 0, 0]
    """
    off = vertices[:, axis] - level
    side = np.where(np.abs(off) <= near, 0, np.sign(off)).astype(np.int64)
    sides = side[triangles]
    crosses = (sides.min(axis=1) < 0) & (sides.max(axis=1) > 0)
    if not crosses.any():
        return vertices, triangles, np.arange(len(triangles))
    through = crosses & (sides == 0).any(axis=1)
    across = crosses & ~through
    cut = _CutEdges(triangles[crosses], side, len(vertices))
    pieces, owners = [triangles[~crosses]], [np.flatnonzero(~crosses)]
    for chosen, split in ((through, _halves), (across, _thirds)):
        new = split(triangles[chosen], side, cut)
        pieces.append(new)
        owners.append(np.tile(np.flatnonzero(chosen), len(new) // max(int(chosen.sum()), 1)))
    corners = np.concatenate([vertices, cut.points(vertices, axis, level)])
    return corners, np.concatenate(pieces), np.concatenate(owners)


class _CutEdges:
    """The edges that cross the plane, each once, and the corner that each one gets there."""

    def __init__(self, triangles: Ints, side: Ints, count: int) -> None:
        ends = np.sort(triangles[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1)
        cross = side[ends[:, 0]] * side[ends[:, 1]] < 0
        self._count = count
        self._keys = np.unique(self._key(ends[cross, 0], ends[cross, 1]))

    def _key(self, low: Ints, high: Ints) -> Ints:
        return low * self._count + high

    def corner(self, start: Ints, end: Ints) -> Ints:
        """Return the number of the new corner on each edge, the same for both its triangles."""
        key = self._key(np.minimum(start, end), np.maximum(start, end))
        return self._count + np.searchsorted(self._keys, key)

    def points(self, vertices: Floats, axis: int, level: float) -> Floats:
        """Return the new corners."""
        a, b = vertices[self._keys // self._count], vertices[self._keys % self._count]
        share = (level - a[:, axis]) / (b[:, axis] - a[:, axis])
        points: Floats = a + share[:, None] * (b - a)
        points[:, axis] = level
        return points


def _halves(chosen: Ints, side: Ints, cut: _CutEdges) -> Ints:
    """Split triangles with a corner in the plane and one on either side of it."""
    a, b, c = _turned(chosen, side[chosen] == 0)
    new = cut.corner(b, c)
    return np.concatenate([np.stack([a, b, new], axis=1), np.stack([a, new, c], axis=1)])


def _thirds(chosen: Ints, side: Ints, cut: _CutEdges) -> Ints:
    """Split triangles with one corner on one side of the plane and two on the other."""
    sides = side[chosen]
    a, b, c = _turned(chosen, sides == -np.sign(sides.sum(axis=1))[:, None])
    to_b, to_c = cut.corner(a, b), cut.corner(a, c)
    thirds = [(a, to_b, to_c), (to_b, b, to_c), (b, c, to_c)]
    return np.concatenate([np.stack(third, axis=1) for third in thirds])


def _turned(triangles: Ints, first: npt.NDArray[np.bool_]) -> tuple[Ints, Ints, Ints]:
    """Return the corners of triangles, turned so that the marked one comes first."""
    shift = first.argmax(axis=1)
    a, b, c = (triangles[np.arange(len(triangles)), (shift + k) % 3] for k in range(3))
    return a, b, c
