"""Drawers: a front board with an open box behind it."""

import numpy as np

from shapes.cells import side_name, solid_of_cells
from shapes.errors import ShapeError
from shapes.grid import size_units, to_mm
from shapes.solids import Solid

FACES = ("front", "edge", "left", "right", "back", "bottom", "inside")


def drawer(width: float, depth: float, height: float, *, front: float, board: float) -> Solid:
    """Return a drawer: a front board, and behind it a box as wide and as high, open above.

    Args:
        width: along x [mm].
        depth: along y, with the front board [mm].
        height: along z [mm].
        front: thickness of the front board [mm].
        board: thickness of the sides, the back and the bottom [mm].

    Returns:
        A solid with the faces front; edge (the four narrow sides of the front board and the top
        rims of the box); left, right, back, bottom (outside of the box behind the front board);
        inside.

    Raises:
        ShapeError: a size out of range, or boards that leave no room inside.

    Source: area of boxes, elementary.

    >>> drawer(400, 450, 150, front=20, board=12).area_mm2_of["left"]
    64500.0
    """
    size = size_units("width", width), size_units("depth", depth), size_units("height", height)
    facing, wall = size_units("front", front), size_units("board", board)
    if facing + wall >= size[1]:
        limit = to_mm(size[1] - wall)
        raise ShapeError("front", "less than the depth without the back board", front, limit)
    if 2 * wall >= size[0]:
        raise ShapeError("board", "less than half of the width", board, to_mm(size[0]) / 2)
    if wall >= size[2]:
        raise ShapeError("board", "less than the height", board, to_mm(size[2]))
    cuts = (
        [0, wall, size[0] - wall, size[0]],
        [0, facing, size[1] - wall, size[1]],
        [0, wall, size[2]],
    )
    filled = np.ones((3, 3, 2), dtype=np.bool_)
    filled[1, 1, 1] = False
    return solid_of_cells(cuts, filled, _face_name, FACES)


def _face_name(axis: int, sign: int, cell: tuple[int, int, int]) -> str:
    last = (2, 2, 1)
    if cell[axis] != (last[axis] if sign > 0 else 0):
        return "inside"
    side = side_name(axis, sign)
    in_front_board = cell[1] == 0 and axis != 1
    return "edge" if in_front_board or side == "top" else side
