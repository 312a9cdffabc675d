"""Drawers: a front board with an open box behind it.

The front may be larger than the box (a lip), and the sides and the back lower than it.
"""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from shapes.cells import Cuts, FaceName, side_name, solid_of_cells
from shapes.errors import ShapeError
from shapes.grid import position_units, size_units, to_mm
from shapes.solids import Solid

FACES = ("front", "edge", "left", "right", "back", "bottom", "inside")
LIPS = ("left", "right", "top", "bottom")
"""The sides on which a front may be larger than its box."""


@dataclass(frozen=True)
class _Box:
    """The box behind the front [grid units].

    Attributes:
        low: its left end and its underside.
        high: its right end and its top.
        sides: height of its sides.
        back: height of its back.
    """

    low: tuple[int, int]
    high: tuple[int, int]
    sides: int
    back: int


def drawer(
    width: float,
    depth: float,
    height: float,
    *,
    front: float,
    board: float,
    lip: Mapping[str, float] | None = None,
    lip_thickness: float | None = None,
    side_height: float | None = None,
    back_height: float | None = None,
) -> Solid:
    """Return a drawer: a front board, and behind it a box that is open above.

    Args:
        width: of the front, along x [mm].
        depth: along y, with the front board [mm].
        height: of the front, along z [mm].
        front: thickness of the front board [mm].
        board: thickness of the sides, the back and the bottom [mm].
        lip: how far the front is larger than the box on its left, right, top and bottom [mm]; left
            out, the box is as wide and as high as the front.
        lip_thickness: of a front that is rebated behind its lip [mm]; left out, the whole front.
        side_height: of the sides, from the underside of the box [mm]; left out, up to the lip.
        back_height: of the back, from there too [mm]; left out, as high as the sides.

    Returns:
        A solid with the faces front; edge (the narrow sides of the front board, what its lip shows
        behind, and the top rims of the box); left, right, back, bottom (outside of the box behind
        the front board); inside (with the back of the front board above low sides).

    Raises:
        ShapeError: a size out of range, or boards that leave no room inside.

    Source: area of boxes, elementary.

    >>> drawer(400, 450, 150, front=20, board=12).area_mm2_of["left"]
    64500.0
    >>> low = drawer(400, 450, 150, front=20, board=12, lip={"left": 10}, side_height=100)
    >>> low.area_mm2_of["left"]
    43000.0
    """
    size = size_units("width", width), size_units("depth", depth), size_units("height", height)
    facing, wall = size_units("front", front), size_units("board", board)
    if facing + wall >= size[1]:
        limit = to_mm(size[1] - wall)
        raise ShapeError("front", "less than the depth without the back board", front, limit)
    box = _box(size, lip or {})
    inner = box.high[0] - box.low[0]
    if 2 * wall >= inner:
        raise ShapeError("board", "less than half of the width", board, to_mm(inner) / 2)
    if wall >= box.high[1] - box.low[1]:
        raise ShapeError("board", "less than the height", board, to_mm(box.high[1] - box.low[1]))
    box = _lowered(box, wall, side_height, back_height)
    return _built(size, box, (facing, _lip_depth(lip_thickness, facing), wall))


def _box(size: tuple[int, int, int], lip: Mapping[str, float]) -> _Box:
    """Return the box that a lip leaves behind the front."""
    units = dict.fromkeys(LIPS, 0)
    for side, mm in lip.items():
        if side not in units:
            raise ShapeError("lip", f"on sides of {', '.join(LIPS)}, not {side}")
        units[side] = position_units(f"lip {side}", mm)
        if units[side] < 0:
            raise ShapeError(f"lip {side}", "0 or more", mm)
    for one, other, length, name in (
        ("left", "right", size[0], "width"),
        ("top", "bottom", size[2], "height"),
    ):
        if units[one] + units[other] >= length:
            raise ShapeError("lip", f"narrower: two of its sides leave no {name} for the box")
    low = units["left"], units["bottom"]
    high = size[0] - units["right"], size[2] - units["top"]
    return _Box(low, high, high[1] - low[1], high[1] - low[1])


def _lowered(box: _Box, wall: int, sides: float | None, back: float | None) -> _Box:
    """Return a box with lower sides and a lower back."""
    heights = [box.sides, box.sides]
    for k, (name, mm, than) in enumerate(
        (("side_height", sides, "the box"), ("back_height", back, "the sides"))
    ):
        most = heights[0]
        heights[k] = most if mm is None else size_units(name, mm)
        if mm is not None and heights[k] > most:
            raise ShapeError(name, f"no higher than {than}", mm, to_mm(most))
        if mm is not None and heights[k] <= wall:
            raise ShapeError(name, "higher than the bottom is thick", mm, to_mm(wall))
    return _Box(box.low, box.high, *heights)


def _lip_depth(thickness: float | None, facing: int) -> int:
    if thickness is None:
        return facing
    units = size_units("lip thickness", thickness)
    if units > facing:
        raise ShapeError("lip thickness", "no more than the front", thickness, to_mm(facing))
    return units


def _built(size: tuple[int, int, int], box: _Box, thick: tuple[int, int, int]) -> Solid:
    """Return the drawer of a front, its lip and its boards, all [grid units]."""
    facing, lip, wall = thick
    (left, under), (right, top) = box.low, box.high
    rims = {under + wall, under + box.sides, under + box.back}
    across = {0, left, left + wall, right - wall, right, size[0]}
    along = {0, lip, facing, size[1] - wall, size[1]}
    cuts = sorted(across), sorted(along), sorted({0, under, top, size[2], *rims})
    x, y, z = np.meshgrid(*[np.array(cut[:-1]) for cut in cuts], indexing="ij")
    in_box = (left <= x) & (x < right) & (under <= z) & (z < top)
    is_side = (x < left + wall) | (x >= right - wall)
    walls = np.where(is_side, box.sides, np.where(y >= size[1] - wall, box.back, wall))
    filled = (y < lip) | (in_box & ((y < facing) | (z < under + walls)))
    return solid_of_cells(cuts, filled, _face_name(cuts, size, box, (facing, wall)), FACES)


def _face_name(
    cuts: Cuts, size: tuple[int, int, int], box: _Box, thick: tuple[int, int]
) -> FaceName:
    """Return the rule that names the faces of front and box."""
    (left, under), (right, top) = box.low, box.high
    facing, wall = thick
    outer = ((left, right), (-1, size[1]), (under, -1))

    def of_front(axis: int, sign: int, x: int, z: int) -> str:
        if axis != 1:
            return "edge"
        in_box = left <= x < right and under <= z < top
        return "front" if sign < 0 else "inside" if in_box else "edge"

    def name(axis: int, sign: int, cell: tuple[int, int, int]) -> str:
        x, y, z = (cuts[k][number] for k, number in enumerate(cell))
        if y < facing:
            return of_front(axis, sign, x, z)
        if cuts[axis][cell[axis] + (sign > 0)] == outer[axis][sign > 0]:
            return side_name(axis, sign)
        is_floor = left + wall <= x < right - wall and y < size[1] - wall
        return "inside" if axis != 2 or is_floor else "edge"

    return name
