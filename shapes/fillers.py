"""Solids that fill closed gaps, so that what counts as touching also seals and meets.

A filler is the gap's region, as thick as the gap. Joined with the parts it buries both faces, seals
what they seal, and shows one narrow wall for each stretch of the line along which they would meet.
Leaning faces do not lie on its ends to the last digit; there it reaches a little into the wood.
"""

from dataclasses import dataclass

import manifold3d
import numpy as np

from shapes.gaps import Gap
from shapes.solids import Floats, Ints, Patch, Solid
from shapes.tolerances import BITE_UNITS

CAPS = 2
"""A filler's first patches are its two ends; every further one is a wall."""


@dataclass(frozen=True, eq=False)
class Filler:
    """The solid that fills a gap.

    Attributes:
        solid: in place, its two ends first and then a patch for each wall.
        frame: right-handed axes, the last one across the gap, shape (3, 3).
        levels: of the two faces along the last axis [grid units].
        walls: start of each wall and its unit direction, in the plane, shape (walls, 2, 2).
    """

    solid: Solid
    frame: Floats
    levels: tuple[float, float]
    walls: Floats


def filler(gap: Gap) -> Filler:
    """Return the solid that fills a gap."""
    rings = [ring for polygon in gap.region.geoms for ring in _rings(polygon)]
    flat = np.concatenate(rings)
    count = len(flat)
    after = np.concatenate([_next_in_ring(rings, k) for k in range(len(rings))])
    cap = np.array(manifold3d.triangulate(list(rings), -1.0), dtype=np.int64)
    here = np.arange(count)
    walls = np.stack([[here, after, after + count], [here, after + count, here + count]])
    triangles = np.concatenate([cap[:, ::-1], cap + count, walls.transpose(2, 0, 1).reshape(-1, 3)])
    patch_of = np.concatenate([np.repeat([0, 1], len(cap)), np.repeat(here + CAPS, 2)])
    levels = (gap.level, gap.level + gap.distance)
    bite = 0.0 if gap.is_square else BITE_UNITS
    ends = [
        np.column_stack([flat, np.full(count, level)])
        for level in (levels[0] - bite, levels[1] + bite)
    ]
    vertices = np.concatenate(ends) @ gap.frame
    patches = (Patch("filler", 0.0, None),) * (count + CAPS)
    along = flat[after] - flat
    along /= np.linalg.norm(along, axis=1, keepdims=True)
    solid = Solid(vertices, triangles, patch_of, patches, (0, 0, 0))
    return Filler(solid, gap.frame, levels, np.stack([flat, along], axis=1))


def _rings(polygon: object) -> list[Floats]:
    """Return the outline counter-clockwise and the holes clockwise, without the repeated end."""
    import shapely

    turned = shapely.orient_polygons(polygon)
    outlines = [turned.exterior, *turned.interiors]
    return [np.ascontiguousarray(shapely.get_coordinates(ring)[:-1]) for ring in outlines]


def _next_in_ring(rings: list[Floats], number: int) -> Ints:
    start = sum(len(ring) for ring in rings[:number])
    return start + np.roll(np.arange(len(rings[number])), -1)
