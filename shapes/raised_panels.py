"""Panels with a raised field, and open ones: glazed doors, frames, panelled doors.

All stand upright as `shapes.panels` does, with its face names. A door is any of them, loose.
"""

from collections.abc import Sequence

import numpy as np

from shapes.cells import FaceName, Filled, solid_of_cells
from shapes.errors import ShapeError
from shapes.grid import position_units, size_units, to_mm
from shapes.parts import Part
from shapes.placement import ORIGIN, Place, place
from shapes.solids import Floats, Ints, Solid, flat_patch

FACES = ("front", "back", "edge", "reveal")
Steps = list[tuple[int, int]]
"""Rectangles from the outside in: (inset from the edge, depth below the frame) [grid units]."""


def raised_panel(
    width: float,
    depth: float,
    height: float,
    *,
    frame: float,
    recess: float,
    bevel: float,
    field: float = 0.0,
    step: float = 0.0,
    raised_back: bool = False,
) -> Solid:
    """Return a frame with a panel whose field is raised by a bevel all round.

    Args:
        width: along x [mm].
        depth: thickness of the frame, along y [mm].
        height: along z [mm].
        frame: width of the stiles and rails [mm].
        recess: how far the panel lies back where it meets the frame, on both faces [mm].
        bevel: width of the bevel, seen from the front [mm].
        field: how far the raised field lies back from the frame [mm], 0 for flush.
        step: height of the square step between bevel and field [mm], 0 for none.
        raised_back: whether the back is raised too; else it is a flat panel, `recess` deep.

    Returns:
        A solid with the faces front and back (frame, step, bevel and field) and edge.

    Raises:
        ShapeError: a size out of range, or sizes that leave no field.

    Source: bevels are trapezia, (a + b) / 2 times slant; steps are perimeter times height;
    elementary.

    >>> door = raised_panel(400, 22, 600, frame=60, recess=9, bevel=40, field=1)
    >>> round(door.area_mm2_of["front"], 3)
    254757.332
    """
    size = size_units("width", width), size_units("depth", depth), size_units("height", height)
    rail, back, slope = (
        size_units(name, mm)
        for name, mm in (("frame", frame), ("recess", recess), ("bevel", bevel))
    )
    level, rise = _from_zero("field", field), _from_zero("step", step)
    if level + rise > back:
        raise ShapeError("field", "less deep than the recess, with the step", field, recess - step)
    if 2 * back >= size[1]:
        raise ShapeError("recess", "less than half of the depth", recess, depth / 2)
    for axis, name in ((0, "width"), (2, "height")):
        room = size[axis] / 2 - slope
        if rail >= room:
            rule = f"less than half of the {name}, less the bevel"
            raise ShapeError("frame", rule, frame, to_mm(room))
    flat: Steps = [(0, 0), (rail, 0), (rail, back)]
    raised: Steps = [*flat, (rail + slope, level + rise)]
    if rise:
        raised.append((rail + slope, level))
    return _stepped(size, raised, raised if raised_back else flat)


def _from_zero(argument: str, mm: float) -> int:
    units = position_units(argument, mm)
    if units < 0:
        raise ShapeError(argument, "0 or more", mm)
    return units


def _stepped(size: tuple[int, int, int], front: Steps, back: Steps) -> Solid:
    """Return a board whose faces go in steps and slopes through rectangles to a flat field."""
    loops = [_loop(size, inset, deep) for inset, deep in front]
    loops += [_loop(size, inset, size[1] - deep) for inset, deep in back]
    groups: list[tuple[str, Ints]] = []
    for face, first, count, sign in (
        ("front", 0, len(front), 1),
        ("back", len(front), len(back), -1),
    ):
        for k in range(first, first + count - 1):
            groups += [(face, side[:, ::sign]) for side in _band(4 * k, 4 * k + 4)]
        inner = 4 * (first + count - 1)
        groups.append((face, np.array([[inner, inner + 1, inner + 2, inner + 3]])[:, ::sign]))
    groups += [("edge", side[:, ::-1]) for side in _band(0, 4 * len(front))]
    vertices = np.concatenate(loops)
    patches = tuple(flat_patch(face, vertices[quads[0]]) for face, quads in groups)
    quads = np.concatenate([quads for _, quads in groups])
    triangles = quads[:, [0, 1, 2, 0, 2, 3]].reshape(-1, 3)
    return Solid(vertices, triangles, np.repeat(np.arange(len(groups)), 2), patches, size)


def _loop(size: tuple[int, int, int], inset: int, y: int) -> Floats:
    """Return a rectangle's corners, counter-clockwise seen from the front."""
    right, top = size[0] - inset, size[2] - inset
    corners = [(inset, y, inset), (right, y, inset), (right, y, top), (inset, y, top)]
    return np.array(corners, dtype=np.float64)


def _band(outer: int, inner: int) -> list[Ints]:
    """Return the four sides between two rectangles, one quad each, seen from the front."""
    return [
        np.array([[outer + k, outer + (k + 1) % 4, inner + (k + 1) % 4, inner + k]])
        for k in range(4)
    ]


def open_panel(
    width: float,
    depth: float,
    height: float,
    *,
    frame: float,
    panes: Sequence[int] = (1, 1),
    bar: float = 0.0,
) -> Solid:
    """Return a frame without a field: a glazed door (its glass is not finished) or a bare frame.

    Args:
        width: along x [mm].
        depth: thickness, along y [mm].
        height: along z [mm].
        frame: width of the stiles and rails [mm].
        panes: how many openings across and up.
        bar: width of the glazing bars between them, as thick as the frame [mm].

    Returns:
        A solid with the faces front, back, edge (outside) and reveal (inside the openings).

    Raises:
        ShapeError: a size out of range, or frame and bars that leave no opening.

    Source: area of boxes, elementary.

    >>> open_panel(400, 20, 600, frame=50).area_mm2_of["reveal"]  # 2 (300 + 500) 20
    32000.0
    """
    size = size_units("width", width), size_units("depth", depth), size_units("height", height)
    columns = _openings("width", size[0], frame, panes[0], bar)
    rows = _openings("height", size[2], frame, panes[1], bar)
    filled = np.ones((len(columns) - 1, 1, len(rows) - 1), dtype=np.bool_)
    filled[1::2, :, 1::2] = False
    return solid_of_cells((columns, [0, size[1]], rows), filled, _face_name(filled), FACES)


def panelled_door(
    width: float,
    depth: float,
    height: float,
    *,
    frame: float,
    recess: float,
    panels: Sequence[int] = (2, 2),
    rail: float | None = None,
) -> Solid:
    """Return a frame with several flat panels that lie back on both faces, side by side and above.

    Args:
        width: along x [mm].
        depth: thickness of the frame, along y [mm].
        height: along z [mm].
        frame: width of the outer stiles and rails [mm].
        recess: how far the panels lie back, on both faces [mm].
        panels: how many across and up.
        rail: width of the rails and muntins between them [mm]; left out, the frame.

    Returns:
        A solid with the faces front and back (frame, panels and the steps between) and edge.

    Raises:
        ShapeError: a size out of range, or rails that leave no panel.

    Source: flat area, and the perimeter of each panel times the recess; elementary.

    >>> door = panelled_door(900, 40, 2000, frame=110, recess=12, panels=(2, 2))
    >>> door.area_mm2_of["front"]  # 1.8 m2 + 4 x 2 (285 + 835) x 12
    1907520.0
    """
    size = size_units("width", width), size_units("depth", depth), size_units("height", height)
    back, between = size_units("recess", recess), frame if rail is None else rail
    if 2 * back >= size[1]:
        raise ShapeError("recess", "less than half of the depth", recess, depth / 2)
    columns = _openings("width", size[0], frame, panels[0], between)
    rows = _openings("height", size[2], frame, panels[1], between)
    filled = np.ones((len(columns) - 1, 3, len(rows) - 1), dtype=np.bool_)
    filled[1::2, ::2, 1::2] = False
    cuts = (columns, [0, back, size[1] - back, size[1]], rows)
    return solid_of_cells(cuts, filled, _face_name(filled), FACES)


def _openings(side: str, length: int, frame: float, count: int, bar: float) -> list[int]:
    """Return cuts along one side: frame, opening, bar, opening, ... frame [grid units]."""
    edge, between = size_units("frame", frame), _from_zero("bar", bar) if count > 1 else 0
    if count < 1 or (count > 1 and between == 0):
        raise ShapeError("bar", "more than zero, and at least one opening each way", bar)
    room = length - 2 * edge - (count - 1) * between
    if room < count:
        rule = f"such that an opening is left along the {side}"
        raise ShapeError("frame", rule, frame, to_mm(length - (count - 1) * between) / 2)
    cuts = [0]
    for number in range(count):
        start = edge + number * between + room * number // count
        cuts += [start, start - room * number // count + room * (number + 1) // count]
    return [*cuts, length]


def _face_name(filled: Filled) -> FaceName:
    """Return the rule that names faces: edge outside, reveal through, else front or back."""
    layers = filled.shape[1]

    def name(axis: int, sign: int, cell: tuple[int, int, int]) -> str:
        if axis == 1:
            return "back" if sign > 0 else "front"
        if cell[axis] == (filled.shape[axis] - 1 if sign > 0 else 0):
            return "edge"
        if layers == 1:
            return "reveal"
        return "front" if cell[1] == 0 else "back"

    return name


def door(name: str, solid: Solid, at: Place = ORIGIN) -> Part:
    """Return a panel, or any solid, as a door: taken off its hinges and finished by itself.

    Raises:
        ShapeError: a position that is not finite or beyond 10 m.
    """
    return place(name, solid, at, loose=True)
