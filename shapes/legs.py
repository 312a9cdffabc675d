"""Legs: square, tapered, round and turned. They stand upright, foot at the bottom."""

from collections.abc import Sequence

import numpy as np

from shapes.boards import FACES as SIX_SIDES
from shapes.boards import box_solid
from shapes.errors import ShapeError
from shapes.grid import size_units, to_mm
from shapes.solids import Solid, flat_patch
from shapes.tolerances import MAX_LENGTH_MM
from shapes.turnings import TURNED_FACES, profile_units, turned_solid

__all__ = ["TURNED_FACES", "round_leg", "square_leg", "tapered_leg", "turned_leg"]


def square_leg(height: float, width: float, depth: float | None = None) -> Solid:
    """Return a square leg: a board that stands on its end.

    Args:
        height: along z [mm].
        width: along x [mm].
        depth: along y [mm]; left out, the width.

    Returns:
        A solid with the faces front, back, left, right, top and bottom.

    Raises:
        ShapeError: a size is not above zero or is longer than 10 m.

    Source: area 2 (wd + wh + dh), elementary.

    >>> square_leg(200, 60).area_mm2_of["front"]
    12000.0
    """
    units = size_units("height", height)
    across = size_units("width", width)
    return box_solid((across, across if depth is None else size_units("depth", depth), units))


def tapered_leg(
    height: float,
    width: float,
    depth: float | None = None,
    *,
    foot: float,
    straight: float = 0.0,
) -> Solid:
    """Return a leg whose four sides run evenly to another size at the floor.

    Args:
        height: along z [mm].
        width: along x at the top [mm].
        depth: along y at the top [mm]; left out, the width.
        foot: width at the floor [mm]; the depth there is foot x depth / width, both centred.
        straight: how far down from the top it stays square, beside the aprons [mm]; 0, it tapers
            from the very top.

    Returns:
        A solid with the faces front, back, left, right, top and bottom.

    Raises:
        ShapeError: a size is not above zero or is longer than 10 m, or the leg is straight all the
            way down.

    Source: lateral face of a frustum of a rectangular pyramid, (a + b) / 2 times slant height.

    >>> round(tapered_leg(400, 50, foot=30).area_mm2_of["front"], 6)
    16004.999219
    >>> round(tapered_leg(500, 50, foot=30, straight=100).area_mm2_of["front"], 6)
    21004.999219
    """
    units = size_units("height", height)
    across = size_units("width", width)
    along = across if depth is None else size_units("depth", depth)
    foot_across = size_units("foot", foot)
    foot_along = foot_across * along / across
    if to_mm(foot_along) > MAX_LENGTH_MM:
        raise ShapeError("foot", "narrower: the depth at the floor would be over 10 m", foot)
    if straight:
        if size_units("straight", straight) >= units:
            raise ShapeError("straight", "less than the height", straight, height)
        return _below_a_block(height, straight, (to_mm(across), to_mm(along)), foot)
    return _frustum((across, along), (foot_across, foot_along), units)


def _below_a_block(height: float, straight: float, size: tuple[float, float], foot: float) -> Solid:
    """Return a leg that stays square for a length below its top and tapers from there [mm]."""
    from shapes.lofts import shaped_leg

    floor = [0.0, foot, foot * size[1] / size[0]]
    return shaped_leg([floor, [height - straight, *size], [height, *size]])


def _frustum(top: tuple[float, float], foot: tuple[float, float], height: int) -> Solid:
    """Return the solid between two centred rectangles [grid units]."""
    size = [max(top[k], foot[k]) for k in range(2)]
    rings = [
        [((size[0] + sx * ring[0]) / 2, (size[1] + sy * ring[1]) / 2, z)
         for sx, sy in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
        for ring, z in ((foot, 0.0), (top, float(height)))
    ]  # fmt: skip
    vertices = np.array(rings[0] + rings[1])
    quads = {
        "front": (0, 1, 5, 4),
        "back": (2, 3, 7, 6),
        "left": (3, 0, 4, 7),
        "right": (1, 2, 6, 5),
        "top": (4, 5, 6, 7),
        "bottom": (3, 2, 1, 0),
    }
    patches = tuple(flat_patch(name, vertices[list(quads[name])]) for name in SIX_SIDES)
    corners = np.array([quads[name] for name in SIX_SIDES])
    triangles = corners[:, [0, 1, 2, 0, 2, 3]].reshape(-1, 3)
    box = (round(size[0]), round(size[1]), height)
    return Solid(vertices, triangles, np.repeat(np.arange(6), 2), patches, box)


def round_leg(height: float, width: float) -> Solid:
    """Return a round leg of one diameter.

    Args:
        height: along z [mm].
        width: its diameter [mm].

    Returns:
        A solid with the faces side, top and bottom.

    Raises:
        ShapeError: a size is not above zero or is longer than 10 m.

    Source: cylinder, 2 pi r h; first theorem of Pappus, CRC Concise Encyclopedia of
    Mathematics, "Pappus's Centroid Theorem".

    >>> round(round_leg(200, 60).area_mm2_of["side"], 3)
    37699.112
    """
    units, across = size_units("height", height), size_units("width", width)
    return turned_solid([(0, across), (units, across)])


def turned_leg(profile: Sequence[Sequence[float]]) -> Solid:
    """Return a leg turned on a lathe, straight between the points of its profile.

    Args:
        profile: (height, diameter) pairs [mm] from height 0 upward. Equal heights make a
            shoulder, which is part of the side. A diameter of 0 may stand only at an end.

    Returns:
        A solid with the faces side, top and bottom; an end of diameter 0 has no face.

    Raises:
        ShapeError: fewer than two points, not starting at height 0, going down, more than two
            points at one height, the same point twice, a diameter of 0 between the ends, or a
            size out of range.

    Source: first theorem of Pappus, CRC Concise Encyclopedia of Mathematics, "Pappus's Centroid
    Theorem"; lateral area of a frustum of a cone, pi (r1 + r2) l.

    >>> round(turned_leg([[0, 0], [8, 8]]).area_mm2_of["side"], 4)  # cone, 16 sqrt(5) pi
    112.397
    """
    return turned_solid(profile_units(profile))
