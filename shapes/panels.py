"""Panels: a frame of stiles and rails around a field that lies back on both faces."""

import numpy as np

from shapes.cells import solid_of_cells
from shapes.errors import ShapeError
from shapes.grid import size_units, to_mm
from shapes.solids import Solid

FACES = ("front", "back", "edge")


def panel(width: float, depth: float, height: float, *, frame: float, recess: float) -> Solid:
    """Return a frame-and-panel board that stands upright.

    Args:
        width: along x [mm].
        depth: thickness of the frame, along y [mm].
        height: along z [mm].
        frame: width of the stiles and rails [mm].
        recess: how far the field lies back from the frame, on both faces [mm].

    Returns:
        A solid with the faces front and back (frame, field and the step between) and edge.

    Raises:
        ShapeError: a size out of range, a frame or a recess that leaves no field.

    Source: flat area w h, and the step 2 (w - 2f + h - 2f) r for each face; elementary.

    >>> panel(400, 20, 600, frame=50, recess=6).area_mm2_of["front"]
    249600.0
    """
    size = size_units("width", width), size_units("depth", depth), size_units("height", height)
    rail, back = size_units("frame", frame), size_units("recess", recess)
    for axis, name in ((0, "width"), (2, "height")):
        if 2 * rail >= size[axis]:
            raise ShapeError("frame", f"less than half of the {name}", frame, to_mm(size[axis]) / 2)
    if 2 * back >= size[1]:
        raise ShapeError("recess", "less than half of the depth", recess, to_mm(size[1]) / 2)
    cuts = (
        [0, rail, size[0] - rail, size[0]],
        [0, back, size[1] - back, size[1]],
        [0, rail, size[2] - rail, size[2]],
    )
    filled = np.ones((3, 3, 3), dtype=np.bool_)
    filled[1, 0, 1] = filled[1, 2, 1] = False
    return solid_of_cells(cuts, filled, _face_name, FACES)


def _face_name(axis: int, sign: int, cell: tuple[int, int, int]) -> str:
    if axis == 1:
        return "back" if sign > 0 else "front"
    if cell[axis] in (0, 2) and cell[axis] == (2 if sign > 0 else 0):
        return "edge"
    return "front" if cell[1] == 0 else "back"
