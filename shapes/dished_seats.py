"""Dished seats: a board of an outline with a shallow bowl sunk into its top.

The bowl is an elliptic paraboloid, deepest in its middle: an assumed form. A seat that is saddled
by hand has a ridge in front and is deeper behind. A round bowl adds to the flat area the square of
its depth over half its width, 1 % for 15 in 150, so that another form of it changes little.
"""

import math
from collections.abc import Sequence

import manifold3d
import numpy as np

from shapes.errors import ShapeError
from shapes.grid import size_units, to_mm, to_mm2
from shapes.outline_boards import as_ring, outline_board
from shapes.outlines import Points, Ring, moved, oval
from shapes.solids import Floats, Ints, Patch, Solid
from shapes.tolerances import CURVE_SEGMENTS

FACES = ("top", "bottom", "edge", "hole", "dish")
RINGS = 48
"""Rings of triangles that stand for the bowl from its rim to its middle. With 24 a block that
reaches into it nearly to its bottom was off by 1.9e-4 of the bowl, with 48 by less than 1e-4."""

LEAST_RIM = 1e-3
"""Of the bowl's size, what must be left around it; its polygon lies inside it by 8e-5."""


def dished_seat(
    outline: Ring | Points,
    thickness: float,
    *,
    dish: Sequence[float],
    deep: float,
    centre: Sequence[float] | None = None,
    holes: Sequence[Ring | Points] = (),
) -> Solid:
    """Return a board that lies flat, with a bowl in its top.

    Args:
        outline: as for `shapes.outline_boards.outline_board`.
        thickness: of the board [mm].
        dish: width and depth of the bowl at its rim, along x and y [mm].
        deep: how deep it is in its middle [mm].
        centre: where its middle lies, in the axes of the outline [mm]; left out, in the middle of
            the outline's box.
        holes: as for `outline_board`.

    Returns:
        A solid with the faces top (around the bowl), bottom, edge, hole and dish.

    Raises:
        ShapeError: a size out of range, a bowl as deep as the board is thick, one that is not
            clear of the edge and of the holes.

    Source: area of a graph, the integral of sqrt(1 + slope2); along each ray from the middle in
    closed form, ((1 + k2)^(3/2) - 1) / (3 k2), around it a smooth periodic sum.

    >>> seat = dished_seat([[0, 0], [400, 0], [400, 400], [0, 400]], 40, dish=[300, 300], deep=15)
    >>> round(seat.area_mm2_of["dish"], 3)  # pi r / (6 d2) ((r2 + 4 d2)^(3/2) - r3)
    71388.05
    """
    flat = outline_board(outline, thickness, holes=holes)
    sunk = size_units("dish depth", deep)
    if sunk >= flat.size[2]:
        raise ShapeError("dish depth", "less than the board is thick", deep, thickness)
    rings = _rings(outline, holes, dish, centre)
    rim = rings[-1]
    patches = list(flat.patches)
    top = patches[0].area_mm2 - to_mm2(rim.area)
    patches[0] = Patch("top", top, patches[0].normal)
    keep = flat.patch_of != 0
    loops = [rings[0].points, *[ring.points[::-1] for ring in rings[1:]]]
    corners = len(flat.vertices) // 2
    around = np.array(manifold3d.triangulate(loops, -1.0), dtype=np.int64) + corners
    middle = (rim.box[0] + rim.box[1]) / 2
    half = (rim.box[1] - rim.box[0]) / 2
    bowl, bands = _bowl(rim, middle, (len(flat.vertices), flat.size[2], sunk))
    areas = _band_areas(half, float(sunk))
    count = len(patches)
    patches += [Patch("dish", to_mm2(float(area)), None) for area in areas]
    groups = [flat.triangles[keep], around, *bands]
    numbers = [flat.patch_of[keep], np.zeros(len(around), dtype=np.int64)]
    numbers += [np.full(len(band), count + k) for k, band in enumerate(bands)]
    return Solid(
        np.concatenate([flat.vertices, bowl]),
        np.concatenate(groups),
        np.concatenate(numbers),
        tuple(patches),
        flat.size,
    )


def _rings(
    outline: Ring | Points,
    holes: Sequence[Ring | Points],
    dish: Sequence[float],
    centre: Sequence[float] | None,
) -> list[Ring]:
    """Return outline, holes and the rim of the bowl, the outline's box at the origin."""
    import shapely

    outer = as_ring(outline, "outline")
    inner = [as_ring(hole, f"hole {number}") for number, hole in enumerate(holes, start=1)]
    if centre is None:
        centre = [to_mm(float(value)) for value in outer.box.mean(axis=0)]
    rim = oval(dish[0], dish[1], centre=centre)
    middle = rim.box.mean(axis=0)
    inside = shapely.Polygon(middle + (1 + LEAST_RIM) * (rim.points - middle))
    if not shapely.Polygon(outer.points).contains_properly(inside):
        raise ShapeError("dish", "inside the outline and clear of its edge")
    if not all(inside.disjoint(shapely.Polygon(hole.points)) for hole in inner):
        raise ShapeError("dish", "clear of the holes")
    origin: Floats = -np.round(outer.box[0])
    shift = float(origin[0]), float(origin[1])
    return [moved(ring, shift) for ring in [outer, *inner, rim]]


def _bowl(rim: Ring, middle: Floats, places: tuple[int, int, int]) -> tuple[Floats, list[Ints]]:
    """Return the corners of a bowl, its rim first, and the triangles of each of its bands.

    Args:
        rim: its rim.
        middle: of the rim.
        places: the number of its first corner, the level of its rim, its depth.
    """
    first, level, sunk = places
    # the rim is walked as the loop of the top around it is, the other way round
    around = rim.points[::-1] - middle
    shares = 1 - np.arange(RINGS) / RINGS
    rings = [
        np.column_stack(
            [middle + share * around, np.full(len(around), level - sunk * (1 - share**2))]
        )
        for share in shares
    ]
    here = np.arange(CURVE_SEGMENTS)
    after = np.roll(here, -1)
    bands: list[Ints] = []
    for k in range(RINGS):
        a, b = first + k * CURVE_SEGMENTS + here, first + k * CURVE_SEGMENTS + after
        c, d = a + CURVE_SEGMENTS, b + CURVE_SEGMENTS
        if k == RINGS - 1:
            c = np.full(CURVE_SEGMENTS, first + RINGS * CURVE_SEGMENTS)
            bands.append(np.stack([b, a, c], axis=1))
        else:
            bands.append(np.concatenate([np.stack([b, a, c], axis=1), np.stack([b, c, d], axis=1)]))
    bottom = np.array([[middle[0], middle[1], float(level - sunk)]])
    return np.concatenate([*rings, bottom]), bands


def _band_areas(half: Floats, sunk: float) -> Floats:
    """Return the true area of each band of a bowl, from its rim inward [square grid units]."""
    angles = 2 * math.pi * np.arange(CURVE_SEGMENTS) / CURVE_SEGMENTS
    slope2 = 4 * sunk**2 * ((np.cos(angles) / half[0]) ** 2 + (np.sin(angles) / half[1]) ** 2)
    shares = 1 - np.arange(RINGS + 1) / RINGS
    within = ((1 + np.outer(shares**2, slope2)) ** 1.5 / (3 * slope2)).mean(axis=1)
    areas: Floats = -np.diff(within) * 2 * math.pi * float(half[0] * half[1])
    return areas
