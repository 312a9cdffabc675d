"""Air between joined parts that a tape measure left there.

Two flat faces of different parts that look at each other across less air than the widest gap are
found, nearest first, with the region where their projections overlap. What a nearer face hides is
not counted again behind it.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from shapes.overlaps import share_an_area
from shapes.skins import Skin
from shapes.solids import Floats, Ints
from shapes.tolerances import (
    GRID_PER_MM,
    LEAST_PATCH_MM2,
    LEVEL_UNITS,
    NO_UNITS,
    SAME_DIRECTION,
    TOUCHING_UNITS,
)

MANY_PAIRS = 200_000
"""Pairs of faces at matching levels beyond which a spatial index finds those that overlap."""


@dataclass(frozen=True, eq=False)
class Gap:
    """Air between two patches that look at each other.

    Attributes:
        low: the patch that looks along the direction.
        high: the patch that looks back.
        distance: of the two planes [grid units]; 0 where the kernel left touching faces.
        level: of the low plane along the direction [grid units].
        frame: right-handed axes of the plane and the direction, shape (3, 3).
        region: where the projections overlap, a shapely polygon in the first two axes.
    """

    low: int
    high: int
    distance: float
    level: float
    frame: Floats
    region: Any

    @property
    def area(self) -> float:
        """Area of the overlap [square grid units]."""
        return float(self.region.area)

    @property
    def is_touching(self) -> bool:
        """Whether there is no air but what rounding of places left."""
        return self.distance < (LEVEL_UNITS if self.is_square else TOUCHING_UNITS)

    @property
    def is_square(self) -> bool:
        """Whether the planes are square to the axes, and so their levels whole numbers."""
        return bool(np.isin(self.frame, (-1.0, 0.0, 1.0)).all())

    @property
    def is_fault(self) -> bool:
        """Whether the faces lie in one plane: the union should have hidden both."""
        return self.distance < NO_UNITS


@dataclass(frozen=True, eq=False)
class _Planes:
    """Flat, exposed patches that look along one direction or back.

    Attributes:
        frame: right-handed axes of the planes and the direction, shape (3, 3).
        patches: patch numbers, shape (n,).
        along: whether each looks along the direction, shape (n,).
        levels: of the planes along the direction [grid units], shape (n,).
        boxes: least and greatest coordinates in the plane [grid units], shape (n, 4).
    """

    frame: Floats
    patches: Ints
    along: npt.NDArray[np.bool_]
    levels: Floats
    boxes: Floats


def find_gaps(skin: Skin, normals: Floats, part_of: Ints, widest: float) -> list[Gap]:
    """Return the gaps between faces of different parts, nearest first.

    Args:
        skin: the joined skin.
        normals: outward unit normals of the patches, NaN where curved, shape (patches, 3).
        part_of: the part of each patch, shape (patches,).
        widest: greatest distance that counts [grid units].
    """
    triangles = np.flatnonzero(~skin.sealed & ~np.isnan(normals[skin.patch_of, 0]))
    candidates = [
        (distance, low, high, planes)
        for planes in _planes(skin, normals, triangles)
        for distance, low, high in _facing_pairs(planes, part_of, widest)
    ]
    if not candidates:
        return []
    candidates.sort(key=lambda candidate: candidate[:3])
    return list(_overlaps(skin, triangles, candidates))


def _planes(skin: Skin, normals: Floats, triangles: Ints) -> Iterator[_Planes]:
    """Group the exposed flat patches by direction."""
    patches, which = np.unique(skin.patch_of[triangles], return_inverse=True)
    directions, signs = _directions(normals[patches])
    # With counts, numpy spares itself its masked arrays, which it takes 10 ms to import.
    distinct, _ = np.unique(directions, axis=0, return_counts=True)
    for direction in distinct:
        chosen = np.flatnonzero((np.abs(directions - direction) <= SAME_DIRECTION).all(axis=1))
        if not (signs[chosen].min() < 0 < signs[chosen].max()):
            continue
        frame = _frame(normals[patches[chosen[0]]] * signs[chosen[0]])
        position = np.full(len(patches), -1)
        position[chosen] = np.arange(len(chosen))
        mine = position[which] >= 0
        corners = skin.vertices[skin.triangles[triangles[mine]]] @ frame.T
        place = position[which[mine]]
        low = np.full((len(chosen), 3), np.inf)
        high = np.full((len(chosen), 3), -np.inf)
        np.minimum.at(low, place, corners.min(axis=1))
        np.maximum.at(high, place, corners.max(axis=1))
        boxes = np.concatenate([low[:, :2], high[:, :2]], axis=1)
        levels = (low[:, 2] + high[:, 2]) / 2
        yield _Planes(frame, patches[chosen], signs[chosen] > 0, levels, boxes)


def _directions(normals: Floats) -> tuple[Floats, Ints]:
    """Return each normal with its first component that is not zero made positive, and its sign."""
    rounded = np.round(normals / SAME_DIRECTION) * SAME_DIRECTION + 0.0
    first = (rounded != 0).argmax(axis=1)
    signs = np.sign(rounded[np.arange(len(rounded)), first]).astype(np.int64)
    return rounded * signs[:, None] + 0.0, signs


def _frame(direction: Floats) -> Floats:
    """Return right-handed axes with the direction last; exact for the axes of the piece.

    Args:
        direction: a unit normal as it is; a rounded one is no unit vector, and areas measured in
            its plane are off by as much.
    """
    direction = np.where(np.abs(direction) >= 1 - SAME_DIRECTION, np.sign(direction), direction)
    least = np.eye(3)[np.abs(direction).argmin()]
    second = np.cross(direction, least)
    second /= np.linalg.norm(second)
    return np.stack([np.cross(second, direction), second, direction])


def _facing_pairs(
    planes: _Planes, part_of: Ints, widest: float
) -> Iterator[tuple[float, int, int]]:
    """Yield (distance, low patch, high patch) of faces near each other whose boxes overlap."""
    lows = np.flatnonzero(planes.along)
    highs = np.flatnonzero(~planes.along)
    highs = highs[np.argsort(planes.levels[highs], kind="stable")]
    levels = planes.levels[highs]
    start = np.searchsorted(levels, planes.levels[lows] - LEVEL_UNITS, side="right")
    end = np.searchsorted(levels, planes.levels[lows] + widest, side="right")
    for low, high in _overlapping(planes.boxes, lows, highs, start, end):
        if part_of[planes.patches[low]] != part_of[planes.patches[high]]:
            distance = max(0.0, float(planes.levels[high] - planes.levels[low]))
            yield distance, int(planes.patches[low]), int(planes.patches[high])


def _overlapping(
    boxes: Floats, lows: Ints, highs: Ints, start: Ints, end: Ints
) -> Iterator[tuple[int, int]]:
    """Yield pairs of which the high one is within its window and the boxes overlap."""
    counts = end - start
    if counts.sum() > MANY_PAIRS:
        yield from _overlapping_by_index(boxes, lows, highs, start, end)
        return
    low = np.repeat(lows, counts)
    offsets = np.arange(counts.sum()) - np.repeat(np.cumsum(counts) - counts, counts)
    high = highs[np.repeat(start, counts) + offsets]
    a, b = boxes[low], boxes[high]
    meet = (np.minimum(a[:, 2:], b[:, 2:]) > np.maximum(a[:, :2], b[:, :2])).all(axis=1)
    yield from zip(low[meet].tolist(), high[meet].tolist(), strict=True)


def _overlapping_by_index(
    boxes: Floats, lows: Ints, highs: Ints, start: Ints, end: Ints
) -> Iterator[tuple[int, int]]:
    """Do the same with a spatial index for each run of faces at one level."""
    import shapely

    order = np.lexsort([end, start])
    windows = np.stack([start, end], axis=1)[order]
    first = np.flatnonzero(np.append(True, (np.diff(windows, axis=0) != 0).any(axis=1)))
    for members, (begin, stop) in zip(
        np.split(lows[order], first[1:]), windows[first].tolist(), strict=True
    ):
        others = highs[begin:stop]
        if len(others):
            tree = shapely.STRtree(shapely.box(*boxes[others].T))
            hits = tree.query(shapely.box(*boxes[members].T))
            yield from zip(members[hits[0]].tolist(), others[hits[1]].tolist(), strict=True)


def _overlaps(
    skin: Skin, triangles: Ints, candidates: list[tuple[float, int, int, _Planes]]
) -> Iterator[Gap]:
    """Yield the gaps, taking from both faces what a nearer face has covered."""
    least = LEAST_PATCH_MM2 * GRID_PER_MM**2
    left: dict[int, Any] = {}
    by_patch = triangles[np.argsort(skin.patch_of[triangles], kind="stable")]
    numbers = skin.patch_of[by_patch]
    for distance, low, high, planes in candidates:
        flat = {
            patch: _flattened(skin, by_patch, numbers, patch, planes.frame) for patch in (low, high)
        }
        if not share_an_area(flat[low], flat[high]):
            continue
        for patch in (low, high):
            if patch not in left:
                left[patch] = _region(flat[patch])
        region = _polygons(left[low].intersection(left[high]))
        if region.area <= least:
            continue
        for patch in (low, high):
            left[patch] = left[patch].difference(region)
        level = float(planes.levels[planes.patches == low][0])
        yield Gap(low, high, distance, level, planes.frame, region)


def _flattened(skin: Skin, triangles: Ints, numbers: Ints, patch: int, frame: Floats) -> Floats:
    """Return a patch's triangles in the plane of a frame, shape (t, 3, 2).

    Args:
        skin: the joined skin.
        triangles: of flat, exposed patches, in the order of the patches.
        numbers: the patch of each.
        patch: which patch.
        frame: axes of the plane and its direction.
    """
    span = slice(*np.searchsorted(numbers, [patch, patch + 1]))
    flat: Floats = skin.vertices[skin.triangles[triangles[span]]] @ frame[:2].T
    return flat


def _region(flat: Floats) -> Any:
    """Return the union of triangles as a polygon."""
    import shapely

    return shapely.union_all(shapely.polygons(flat))


def _polygons(shape: Any) -> Any:
    """Keep what has area of the result of an overlay."""
    import shapely

    pieces = [piece for piece in shapely.get_parts(shape) if piece.geom_type == "Polygon"]
    return shapely.MultiPolygon(pieces)
