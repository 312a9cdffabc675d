"""Boards: plain rectangular solids."""

import numpy as np

from shapes.cells import side_name, solid_of_cells
from shapes.grid import size_units, to_mm2
from shapes.solids import Patch, Solid

FACES = ("front", "back", "left", "right", "top", "bottom")


def board(width: float, depth: float, height: float) -> Solid:
    """Return a board: a box with six faces.

    Args:
        width: along x [mm].
        depth: along y [mm].
        height: along z [mm].

    Returns:
        A solid with the faces front, back, left, right, top and bottom.

    Raises:
        ShapeError: a size is not above zero or is longer than 10 m.

    Source: area 2 (wd + wh + dh), elementary.

    >>> board(1000, 500, 20).area_mm2_of["top"]
    500000.0
    """
    return box_solid(
        (size_units("width", width), size_units("depth", depth), size_units("height", height))
    )


def box_solid(size: tuple[int, int, int]) -> Solid:
    """Return a box of the given size [grid units] with six faces."""
    width, depth, height = size
    across = {"front": width * height, "left": depth * height, "top": width * depth}
    across |= {"back": across["front"], "right": across["left"], "bottom": across["top"]}
    patches = tuple(
        Patch(patch.face, to_mm2(across[patch.face]), patch.normal) for patch in _UNIT_BOX.patches
    )
    vertices = _UNIT_BOX.vertices * np.array(size, dtype=np.float64)
    return Solid(vertices, _UNIT_BOX.triangles, _UNIT_BOX.patch_of, patches, size)


_UNIT_BOX = solid_of_cells(
    ([0, 1], [0, 1], [0, 1]),
    np.ones((1, 1, 1), dtype=np.bool_),
    lambda axis, sign, cell: side_name(axis, sign),
    FACES,
)
"""Only its size tells one box from another, and pieces are made of many."""
