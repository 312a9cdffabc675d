"""Long turned parts, cut where nothing is near, so that only what meets something is joined.

A solid that is stacked from rings may be cut at any ring that lies between all the rings below and
all those above. Of such a solid only the stretches near another solid are given to the kernel, each
closed by flat lids. A stretch that nothing comes near lies all outside the others, or all in one:
where the union leaves its lids it is left as well, whole, and its triangles need not be looked at.
"""

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from shapes.refinement import MANY, refined
from shapes.shared_patches import overlapping_boxes
from shapes.solids import Floats, Ints, Solid, sums
from shapes.tolerances import NEAR_UNITS, THINNEST_STRETCH_UNITS

MOST_PAIRS = 2_000_000
"""Pairs of boxes compared at once; keeps the memory of it below some 200 MB."""

Bools = npt.NDArray[np.bool_]


@dataclass(frozen=True, eq=False)
class Lid:
    """A flat lid that closes a piece where it was cut.

    Attributes:
        stretch: the stretch on its other side.
        area: of its triangles [square grid units].
    """

    stretch: int
    area: float


@dataclass(frozen=True, eq=False)
class CutPiece:
    """A solid, or what is cut out of it.

    Attributes:
        number: of the solid.
        vertices: corners, in place [grid units], shape (v, 3).
        triangles: corner numbers, outward, shape (t, 3).
        patch_of: patch of each triangle in its solid; lids are counted after its patches.
        corner: where the corner of its box stands [grid units], shape (3,).
        lids: where it was cut.
    """

    number: int
    vertices: Floats
    triangles: Ints
    patch_of: Ints
    corner: Floats
    lids: tuple[Lid, ...] = ()


class Stack:
    """A solid as the stretches that it may be cut into, from the foot up; often one only."""

    def __init__(self, solid: Solid) -> None:
        self.solid = solid
        self._starts = np.append(solid.rings, len(solid.vertices)).astype(np.int64)
        self._cuts = _cuts(solid, self._starts)
        self.count = len(self._cuts) + 1
        ring_of = np.searchsorted(self._starts, solid.triangles.min(axis=1), side="right") - 1
        # the upper end lies in the last ring alone, all else between its lowest ring and the next
        self._stretch_of = np.searchsorted(self._cuts, ring_of, side="right")

    @cached_property
    def box(self) -> Floats:
        """Lowest and highest corner, shape (2, 3)."""
        return np.stack([self.solid.vertices.min(axis=0), self.solid.vertices.max(axis=0)])

    @cached_property
    def boxes(self) -> Floats:
        """Lowest and highest corner of each stretch, or of each triangle where there is but one."""
        corners = self.solid.vertices[self.solid.triangles]
        low, high = corners.min(axis=1), corners.max(axis=1)
        if self.count > 1:
            order = np.argsort(self._stretch_of, kind="stable")
            first = np.searchsorted(self._stretch_of[order], np.arange(self.count))
            low = np.minimum.reduceat(low[order], first)
            high = np.maximum.reduceat(high[order], first)
        return np.stack([low, high], axis=1)

    @cached_property
    def stretch_of_patch(self) -> Ints:
        """The stretch that each patch lies in, shape (patches,)."""
        numbers = np.zeros(len(self.solid.patches), dtype=np.int64)
        numbers[self.solid.patch_of] = self._stretch_of
        return numbers

    @cached_property
    def has_flat(self) -> Bools:
        """Whether each stretch has a flat patch, which may look at another one across air."""
        flat = [float(patch.normal is not None) for patch in self.solid.patches]
        return sums(self.stretch_of_patch, np.array(flat), self.count) > 0

    def piece(self, number: int, place: Floats, first: int, last: int) -> CutPiece:
        """Return some stretches in place, closed by lids.

        Args:
            number: of the solid.
            place: where the corner of its box stands [grid units].
            first: the first stretch.
            last: the last stretch.
        """
        solid = self.solid
        if (first, last) == (0, self.count - 1):
            return CutPiece(number, solid.vertices + place, solid.triangles, solid.patch_of, place)
        chosen = (self._stretch_of >= first) & (self._stretch_of <= last)
        groups, patch_of = [solid.triangles[chosen]], [solid.patch_of[chosen]]
        lids: list[Lid] = []
        for stretch, cut, inward in ((first - 1, first - 1, 1), (last + 1, last, -1)):
            if 0 <= stretch < self.count:
                fan, area = self._lid(int(self._cuts[cut]), inward)
                groups.append(fan)
                patch_of.append(np.full(len(fan), len(solid.patches) + len(lids)))
                lids.append(Lid(stretch, area))
        used, triangles = np.unique(np.concatenate(groups), return_inverse=True)
        vertices = solid.vertices[used] + place
        return CutPiece(
            number,
            vertices,
            triangles.reshape(-1, 3),
            np.concatenate(patch_of),
            vertices.min(axis=0),
            tuple(lids),
        )

    def _lid(self, ring: int, inward: int) -> tuple[Ints, float]:
        """Return the triangles over a ring, and their area.

        Args:
            ring: number of the ring.
            inward: 1 where the wood lies towards the next ring, -1 where towards the one before.
        """
        fan = _fan(self._starts[ring], self._starts[ring + 1])
        first, second, third = (self.solid.vertices[fan[:, k]] for k in range(3))
        normal = np.cross(second - first, third - first).sum(axis=0)
        wood = self.solid.vertices[self._starts[ring + inward]] - first[0]
        return (fan[:, ::-1] if normal @ wood > 0 else fan), float(np.linalg.norm(normal)) / 2


def stacks(solids: Sequence[Solid]) -> list[Stack]:
    """Return the stretches of solids; those of a solid that is there often are found once."""
    found = {id(solid): solid for solid in solids}
    stacked = {key: Stack(solid) for key, solid in found.items()}
    return [stacked[id(solid)] for solid in solids]


def near_stretches(stacked: Sequence[Stack], places: Floats) -> tuple[list[Stack], list[Bools]]:
    """Return which stretches of each solid come near another solid; at least one of each.

    A solid that many others are near is returned with more triangles; see `refinement`.

    Args:
        stacked: the solids.
        places: where the corner of each one's box stands [grid units], shape (solids, 3).
    """
    others = np.zeros(len(stacked), dtype=np.int64)
    near = [np.zeros(stack.count, dtype=np.bool_) for stack in stacked]
    boxes = np.array([stack.box for stack in stacked]) + places[:, None]
    boxes += np.array([-NEAR_UNITS, NEAR_UNITS])[:, None]
    for first, second in overlapping_boxes(boxes[:, 0], boxes[:, 1]):
        pair = stacked[first], stacked[second]
        shift = places[second] - places[first]
        for number, stack, found in zip((first, second), pair, _near(*pair, shift), strict=True):
            near[number] |= found if stack.count > 1 else bool(found.any())
            others[number] += found.any()
    for found in near:
        found[0] |= not found.any()
    finer = [
        Stack(refined(stack.solid, int(count))) if stack.count == 1 and count > MANY else stack
        for stack, count in zip(stacked, others, strict=True)
    ]
    return finer, near


def _near(first: Stack, second: Stack, shift: Floats) -> tuple[Bools, Bools]:
    """Return which boxes of each of two solids are near a box of the other one.

    Args:
        first: one solid.
        second: the other one.
        shift: from the place of the first to that of the second [grid units], shape (3,).
    """
    boxes = first.boxes, second.boxes + shift
    found = _meet(boxes[0], second.box + shift), _meet(boxes[1], first.box)
    a, b = (each[rows] for each, rows in zip(boxes, found, strict=True))
    if first.count == second.count == 1 or len(a) * len(b) > MOST_PAIRS:
        return found  # neither is cut, or too much to look at: what is near the box is near
    low = np.maximum(a[:, None, 0], b[None, :, 0]) - NEAR_UNITS
    meet: Bools = np.all(low <= np.minimum(a[:, None, 1], b[None, :, 1]), axis=2)
    found[0][found[0]] = meet.any(axis=1)
    found[1][found[1]] = meet.any(axis=0)
    return found


def _meet(boxes: Floats, box: Floats) -> Bools:
    """Return which boxes are near a box, shape (n,)."""
    above, below = boxes[:, 1] >= box[0] - NEAR_UNITS, boxes[:, 0] <= box[1] + NEAR_UNITS
    meet: Bools = np.logical_and(above, below).all(axis=1)
    return meet


def runs(chosen: Bools) -> Iterator[tuple[int, int]]:
    """Yield the first and the last number of each run of chosen things.

    >>> list(runs(np.array([True, True, False, True])))
    [(0, 1), (3, 3)]
    """
    steps = np.flatnonzero(np.diff(chosen, prepend=False, append=False))
    yield from zip(steps[::2].tolist(), (steps[1::2] - 1).tolist(), strict=True)


def _fan(start: int, end: int) -> Ints:
    """Return the triangles of a convex polygon from its first corner."""
    spokes = np.arange(start + 1, end - 1)
    return np.stack([np.full_like(spokes, start), spokes, spokes + 1], axis=1)


def _cuts(solid: Solid, starts: Ints) -> Ints:
    """Return the rings at which a solid may be cut: above all before them, below all after."""
    if len(solid.rings) < 3:
        return np.zeros(0, dtype=np.int64)
    middles = np.array(
        [solid.vertices[low:high].mean(axis=0) for low, high in itertools.pairwise(starts)]
    )
    widest = int(np.argmax(np.diff(starts)))
    corners = solid.vertices[starts[widest] : starts[widest + 1]] - middles[widest]
    normal = np.cross(corners, np.roll(corners, -1, axis=0)).sum(axis=0)
    levels = middles @ (normal / np.linalg.norm(normal))
    levels *= np.sign(levels[-1] - levels[0])
    below = np.maximum.accumulate(levels)[:-2] + THINNEST_STRETCH_UNITS
    above = np.minimum.accumulate(levels[::-1])[::-1][2:] - THINNEST_STRETCH_UNITS
    return np.flatnonzero((below < levels[1:-1]) & (levels[1:-1] < above)) + 1
