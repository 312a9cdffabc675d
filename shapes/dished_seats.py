"""Dished seats: a shallow bowl sunk into the flat top of a board.

The bowl is an elliptic paraboloid, deepest in its middle: an assumed form. A seat that is saddled
by hand has a ridge in front and is deeper behind. A round bowl adds to the flat area the square of
its depth over half its width, 1 % for 15 in 150, so that another form of it changes little.
"""

import math
from collections.abc import Sequence
from dataclasses import replace

import manifold3d
import numpy as np

from shapes.errors import ShapeError
from shapes.grid import size_units, to_mm, to_mm2
from shapes.outlines import Ring, oval
from shapes.solids import Floats, Ints, Patch, Solid
from shapes.tolerances import CURVE_SEGMENTS

FACE = "dish"
RINGS = 48
"""Rings of triangles that stand for the bowl from its rim to its middle. With 24 a block that
reaches into it nearly to its bottom was off by 1.9e-4 of the bowl, with 48 by less than 1e-4."""

LEAST_RIM = 1e-3
"""Of the bowl's size, what must be left around it; its polygon lies inside it by 8e-5."""


def dished(
    board: Solid, size: Sequence[float], deep: float, *, centre: Sequence[float] | None = None
) -> Solid:
    """Return a board with a bowl in its top.

    Args:
        board: one with a flat face `top`, of any outline, with holes or without.
        size: width and depth of the bowl at its rim, along x and y [mm].
        deep: how deep it is in its middle [mm].
        centre: where its middle lies, from the left front corner of the board's box [mm]; left
            out, in the middle of that box.

    Returns:
        The board; its top is what is left around the bowl, which is a face `dish`.

    Raises:
        ShapeError: a size out of range, a bowl as deep as the board is thick, one that is not
            clear of the edge and of the holes, a board without a flat top.

    Source: area of a graph, the integral of sqrt(1 + slope2); along each ray from the middle in
    closed form, ((1 + k2)^(3/2) - 1) / (3 k2), around it a smooth periodic sum.

    >>> from shapes.boards import board
    >>> seat = dished(board(400, 400, 40), [300, 300], 15)
    >>> round(seat.area_mm2_of["dish"], 3)  # pi r / (6 d2) ((r2 + 4 d2)^(3/2) - r3)
    71388.05
    """
    sunk, level = size_units("dish depth", deep), board.size[2]
    if sunk >= level:
        raise ShapeError("dish depth", "less than the board is thick", deep, to_mm(level))
    if centre is None:
        centre = [to_mm(length) / 2 for length in board.size[:2]]
    rim = oval(size[0], size[1], centre=centre)
    top = _top(board)
    loops = _loops(board.triangles[board.patch_of == top])
    _check_clear(rim, [board.vertices[loop, :2] for loop in loops])
    first = len(board.vertices)
    bowl, bands = _bowl(rim, (first, level, sunk))
    rings = [*[board.vertices[loop, :2] for loop in loops], rim.points[::-1]]
    numbers = np.concatenate([*loops, first + np.arange(CURVE_SEGMENTS)])
    around = numbers[np.array(manifold3d.triangulate(rings, -1.0), dtype=np.int64)]
    patches, kept = list(board.patches), board.patch_of != top
    # a relief on the top stays what it is
    share = 1 - rim.area / float(board.patch_mesh_areas[top])
    patches[top] = replace(patches[top], area_mm2=patches[top].area_mm2 * share)
    areas = _band_areas((rim.box[1] - rim.box[0]) / 2, float(sunk))
    patches += [Patch(FACE, to_mm2(float(area)), None) for area in areas]
    patch_of = [board.patch_of[kept], np.full(len(around), top)]
    patch_of += [np.full(len(band), len(board.patches) + k) for k, band in enumerate(bands)]
    return replace(
        board,
        vertices=np.concatenate([board.vertices, bowl]),
        triangles=np.concatenate([board.triangles[kept], around, *bands]),
        patch_of=np.concatenate(patch_of),
        patches=tuple(patches),
    )


def _top(board: Solid) -> int:
    """Return the number of the flat patch that is the top of a board."""
    highest = board.vertices[board.triangles][:, :, 2].min(axis=1) == board.size[2]
    for number in np.unique(board.patch_of[highest]).tolist():
        if board.patches[number].face == "top":
            return int(number)
    raise ShapeError("dish", "in a board with a flat top")


def _loops(triangles: Ints) -> list[Ints]:
    """Return the closed lines around some triangles: the outline, and the holes the other way."""
    edges = {(a, b) for t in triangles.tolist() for a, b in zip(t, [*t[1:], t[0]], strict=True)}
    after = {a: b for a, b in edges if (b, a) not in edges}
    loops = []
    while after:
        start, loop = next(iter(after)), []
        while start in after:
            loop.append(start)
            start = after.pop(start)
        loops.append(np.array(loop, dtype=np.int64))
    return loops


def _check_clear(rim: Ring, loops: list[Floats]) -> None:
    import shapely

    middle = rim.box.mean(axis=0)
    inside = shapely.Polygon(middle + (1 + LEAST_RIM) * (rim.points - middle))
    outer, *holes = sorted(map(shapely.Polygon, loops), key=lambda loop: -loop.area)
    if not outer.contains_properly(inside):
        raise ShapeError("dish", "inside the outline and clear of its edge")
    if not all(inside.disjoint(hole) for hole in holes):
        raise ShapeError("dish", "clear of the holes")


def _bowl(rim: Ring, places: tuple[int, int, int]) -> tuple[Floats, list[Ints]]:
    """Return the corners of a bowl, its rim first, and the triangles of each of its bands.

    Args:
        rim: its rim.
        places: the number of its first corner, the level of its rim, its depth.
    """
    first, level, sunk = places
    middle = rim.box.mean(axis=0)
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
