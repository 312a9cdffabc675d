"""Flat faces of a mesh that lie square to the axes, told apart from all that is not.

What lies in one plane and looks one way becomes one patch with a normal, so that it can count as
touching a board across narrow air, and so that flush faces have one owner, just as between boards.
Sloping flat faces are not told apart: whole grid units leave them not quite flat.
"""

import numpy as np

from shapes.grid import to_mm2
from shapes.solids import Floats, Ints, Patch, sums, triangle_areas

CURVED = 6
"""Way of the triangles that are not square to an axis; 0 to 5 are left, right, front, back, down
and up."""


def facets(
    vertices: Floats, triangles: Ints, region_of: Ints, regions: tuple[str, ...]
) -> tuple[Ints, tuple[Patch, ...]]:
    """Return the patch of each triangle, and the patches: of each region the flat ones, the rest.

    Args:
        vertices: corners [grid units], shape (v, 3).
        triangles: corner numbers, outward, shape (t, 3).
        region_of: region of each triangle, shape (t,).
        regions: their names.

    >>> corners = np.array([[0, 0, 0], [3, 0, 0], [0, 4, 0], [0, 0, 5]], dtype=np.float64)
    >>> faces = np.array([[0, 2, 1], [0, 1, 3], [0, 3, 2], [1, 2, 3]])
    >>> _, patches = facets(corners * 80_000, faces, np.zeros(4, np.int64), ("all",))
    >>> [(patch.area_mm2, patch.normal) for patch in patches[:2]]
    [(10.0, (-1.0, 0.0, 0.0)), (7.5, (0.0, -1.0, 0.0))]
    """
    areas = triangle_areas(vertices, triangles)
    way, level = _ways(vertices, triangles)
    _adopt_needles(way, level, areas, region_of)
    levels, level_number = np.unique(level, return_inverse=True)
    keys = (region_of * (CURVED + 1) + way) * len(levels) + level_number
    present, patch_of = np.unique(keys, return_inverse=True)
    totals = sums(patch_of, areas, len(present))
    kinds = (present // len(levels)).tolist()
    return patch_of, tuple(
        Patch(regions[kind // (CURVED + 1)], to_mm2(total), _normal(kind % (CURVED + 1)))
        for kind, total in zip(kinds, totals.tolist(), strict=True)
    )


def _ways(vertices: Floats, triangles: Ints) -> tuple[Ints, Floats]:
    """Return the way that each triangle looks, and the level of its plane [grid units]."""
    way = np.full(len(triangles), CURVED)
    level = np.zeros(len(triangles))
    a, b, c = (vertices[triangles[:, k]] for k in range(3))
    for axis in range(3):
        flat = np.flatnonzero((a[:, axis] == b[:, axis]) & (b[:, axis] == c[:, axis]))
        one, two = ((axis + 1) % 3, (axis + 2) % 3)
        u, v = b[flat] - a[flat], c[flat] - a[flat]
        facing = u[:, one] * v[:, two] - u[:, two] * v[:, one]
        for side in (0, 1):
            chosen = flat[facing > 0] if side else flat[facing < 0]
            way[chosen] = 2 * axis + side
            level[chosen] = a[chosen, axis]
    return way, level


def _adopt_needles(way: Ints, level: Floats, areas: Floats, region_of: Ints) -> None:
    """Add triangles without area to a patch of their region, so that none makes one alone."""
    needles = np.flatnonzero((areas == 0) & (way == CURVED))
    if not len(needles):
        return
    broad = np.flatnonzero(areas > 0)
    regions, first = np.unique(region_of[broad], return_index=True)
    place = np.minimum(np.searchsorted(regions, region_of[needles]), len(regions) - 1)
    host = broad[first[place]]
    has_host = region_of[host] == region_of[needles]
    way[needles[has_host]] = way[host[has_host]]
    level[needles[has_host]] = level[host[has_host]]


def _normal(way: int) -> tuple[float, float, float] | None:
    if way == CURVED:
        return None
    x, y, z = (float(2 * (way % 2) - 1) if way // 2 == axis else 0.0 for axis in range(3))
    return x, y, z
