"""Narrow air between curved faces: a round tenon in its hole, with play all around.

Curved faces are triangles here. Where two of different parts look at each other, the one is laid
onto the plane of the other, and the air between is measured in the middle of what they share. Each
face has its own share: the hole's is wider than the tenon's.

Promises nothing where a third part is in between, and fills nothing: what such air seals stays
exposed.
"""

from collections import defaultdict
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from shapes.skins import Skin
from shapes.solids import Floats, Ints
from shapes.tolerances import GRID_PER_MM, LEAST_PATCH_MM2, NO_UNITS, TOUCHING_UNITS

Bools = npt.NDArray[np.bool_]

FACING = -0.9
"""Two triangles look at each other when the cosine between their normals is below this: within 26
degrees of straight, which leaves out the rims of rounded edges."""


@dataclass(frozen=True)
class CurvedAir:
    """Narrow air in front of a curved patch.

    Attributes:
        patch: the patch.
        other: the patch that looks back.
        distance: mean distance [grid units].
        area: of the patch that looks at the other one [square grid units].
    """

    patch: int
    other: int
    distance: float
    area: float

    @property
    def is_touching(self) -> bool:
        """Whether there is no air but what rounding of places left."""
        return self.distance < TOUCHING_UNITS


def curved_air(
    skin: Skin, is_flat: Bools, among: Bools, part_of: Ints, widest: float, gap: float
) -> tuple[list[CurvedAir], list[CurvedAir]]:
    """Return the narrow air in front of curved patches: narrower than the gap, and wider.

    Args:
        skin: the joined skin.
        is_flat: whether each patch is flat; two flat ones are not looked at, shape (patches,).
        among: which patches are looked at: curved ones, and facets of round faces.
        part_of: the part of each patch, shape (patches,).
        widest: greatest distance that counts [grid units].
        gap: distance from which air is wide [grid units].
    """
    triangles = np.flatnonzero(~skin.sealed & among[skin.patch_of])
    parts = part_of[skin.patch_of[triangles]]
    if not len(triangles) or parts.min() == parts.max():
        return [], []
    corners = skin.vertices[skin.triangles[triangles]]
    first, second = _facing(corners, parts, widest)
    flat = is_flat[skin.patch_of[triangles]]
    mixed = ~(flat[first] & flat[second])
    first, second = first[mixed], second[mixed]
    if not len(first):
        return [], []
    first, second, areas, distances = _shared(corners, first, second)
    kept = (distances > -NO_UNITS) & (distances <= widest)
    patches = skin.patch_of[triangles]
    is_close = distances < gap
    return (
        _totals(patches, first, second, areas, distances, kept & is_close),
        _totals(patches, first, second, areas, distances, kept & ~is_close),
    )


def _facing(corners: Floats, parts: Ints, widest: float) -> tuple[Ints, Ints]:
    """Return pairs of triangles of different parts near each other that look at each other."""
    low, high = corners.min(axis=1), corners.max(axis=1)
    near = _near_other_parts(low, high, parts, widest)
    if not len(near):
        return near, near
    import shapely

    boxes = np.concatenate([low[near, :2] - widest, high[near, :2] + widest], axis=1)
    tree = shapely.STRtree(shapely.box(*np.concatenate([low[near, :2], high[near, :2]], axis=1).T))
    one, other = tree.query(shapely.box(*boxes.T))
    one, other = near[one], near[other]
    kept = parts[one] != parts[other]
    kept &= (low[one, 2] - widest <= high[other, 2]) & (low[other, 2] <= high[one, 2] + widest)
    one, other = one[kept], other[kept]
    units = _normals(corners)
    facing = (units[one] * units[other]).sum(axis=1) < FACING  # a needle looks nowhere
    return one[facing], other[facing]


def _near_other_parts(low: Floats, high: Floats, parts: Ints, widest: float) -> Ints:
    """Return the triangles whose box is near the box of another part's curved triangles."""
    order = np.argsort(parts, kind="stable")
    _, starts = np.unique(parts[order], return_index=True)
    least = np.minimum.reduceat(low[order], starts) - widest
    most = np.maximum.reduceat(high[order], starts) + widest
    groups = np.split(order, starts[1:])
    is_near = np.zeros(len(parts), dtype=np.bool_)
    for number, mine in enumerate(groups):
        meets = ((least[number] <= most) & (least <= most[number])).all(axis=1)
        meets[number] = False
        for other in np.flatnonzero(meets).tolist():
            is_near[mine] |= ((low[mine] <= most[other]) & (high[mine] >= least[other])).all(axis=1)
    return np.flatnonzero(is_near)


def _normals(corners: Floats) -> Floats:
    crossed = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    units: Floats = crossed / np.maximum(np.linalg.norm(crossed, axis=1, keepdims=True), 1e-300)
    return units


def _shared(corners: Floats, first: Ints, second: Ints) -> tuple[Ints, Ints, Floats, Floats]:
    """Return which pairs of triangles share an area, how much, and how far apart they are there.

    Args:
        corners: of all triangles, shape (t, 3, 3).
        first: those in whose planes it is measured, shape (n,).
        second: the others, which are laid onto these planes, shape (n,).
    """
    import shapely

    units = _normals(corners)
    start = corners[first, 0]
    along = corners[first, 1] - start
    along /= np.maximum(np.linalg.norm(along, axis=1, keepdims=True), 1e-300)
    frames = np.stack([along, np.cross(units[first], along)], axis=1)
    one, other = (
        shapely.polygons(np.einsum("nkl,nml->nmk", frames, corners[of] - start[:, None, :]))
        for of in (first, second)
    )
    shared: Any = shapely.intersection(one, other)
    areas: Floats = shapely.area(shared)
    has = areas > 0
    first, second = first[has], second[has]
    middle = shapely.get_coordinates(shapely.centroid(shared[has]))
    spot = start[has] + (frames[has] * middle[:, :, None]).sum(axis=1)
    # along the normal of the first from the spot to the plane of the second
    above = ((corners[second, 0] - spot) * units[second]).sum(axis=1)
    return first, second, areas[has], above / (units[first] * units[second]).sum(axis=1)


def _totals(
    patches: Ints, first: Ints, second: Ints, areas: Floats, distances: Floats, kept: Any
) -> list[CurvedAir]:
    """Return what is kept, one for each patch and each that it looks at."""
    area: dict[tuple[int, int], float] = defaultdict(float)
    volume: dict[tuple[int, int], float] = defaultdict(float)
    for k in np.flatnonzero(kept).tolist():
        pair = int(patches[first[k]]), int(patches[second[k]])
        area[pair] += float(areas[k])
        volume[pair] += float(areas[k] * distances[k])
    least = LEAST_PATCH_MM2 * GRID_PER_MM**2
    return [
        CurvedAir(patch, other, max(0.0, volume[patch, other] / total), total)
        for (patch, other), total in area.items()
        if total > least
    ]
