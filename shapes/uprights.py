"""Uprights from one part up to another: spindles between a seat and its crest rail.

Only boxes count: an upright runs from the top of the box below to the underside of the box above,
and goes a tenon's depth into each. Where it leans, what runs so is the line through the middles of
its ends; the ends are square to it, and a tenon hides that one corner of an end is lower.
"""

import math

import numpy as np

from shapes.errors import ShapeError
from shapes.grid import position_units, to_mm
from shapes.parts import Part
from shapes.placement import MOST_IN_A_ROW
from shapes.relations import Insets, within
from shapes.solids import Floats, Solid
from shapes.tolerances import GRID_PER_MM

STEEPEST_LEAN = 60.0
"""Degrees from the vertical beyond which nothing stands between two parts."""


def upright_length(solid: Solid, below: Part, above: Part, *, tenon: float) -> float:
    """Return how long an upright has to be [mm].

    Args:
        solid: an upright of any length that leans as it is to lean.
        below: the part that it starts from.
        above: the part that it ends at.
        tenon: how far down and up its ends go into them [mm].

    Raises:
        ShapeError: parts that are not above each other, or a solid that lies rather than stands.

    >>> from shapes.boards import board
    >>> from shapes.legs import round_leg
    >>> from shapes.placement import place
    >>> seat = place("seat", board(400, 400, 30))
    >>> crest = place("crest", board(400, 20, 50), (0, 0, 430))
    >>> upright_length(round_leg(100, 12), seat, crest, tenon=10)
    420.0
    """
    inside = position_units("tenon", tenon)
    if inside < 0:
        raise ShapeError("tenon", "0 or more", tenon)
    rise = above.at[2] - below.at[2] - below.solid.size[2]
    if rise <= 0:
        raise ShapeError("above", f"a part that is higher than {below.name}")
    foot, head = _ends(solid)
    line = head - foot
    upward = float(line[2] / np.linalg.norm(line))
    if upward < math.cos(math.radians(STEEPEST_LEAN)):
        raise ShapeError("degrees", f"at most {STEEPEST_LEAN:g} for a part between two others")
    return float((rise + 2 * inside) / upward / GRID_PER_MM)


def uprights(
    name: str,
    solid: Solid,
    below: Part,
    *,
    of: int,
    tenon: float,
    axis: str = "x",
    set_in: Insets | None = None,
    loose: bool | str = False,
) -> list[Part]:
    """Return equal uprights with equal air between them, side by side over the part below.

    Args:
        name: what they are called before the number.
        solid: the solid of each, as long as `upright_length` says.
        below: the part that they start from.
        of: how many.
        tenon: how far down they go into it [mm].
        axis: along which they follow each other, x or y.
        set_in: in the box of the part below; left out, over its whole width and centred.
        loose: as in `Part`.

    Raises:
        ShapeError: too many, or no room for them.

    >>> from shapes.boards import board
    >>> from shapes.legs import round_leg
    >>> from shapes.placement import place
    >>> seat = place("seat", board(400, 300, 30))
    >>> row = uprights("spindle", round_leg(420, 20), seat, of=4, tenon=10)
    >>> [tuple(to_mm(units) for units in part.at) for part in row][:2]
    [(64.0, 140.0, 20.0), (148.0, 140.0, 20.0)]
    """
    if axis not in ("x", "y"):
        raise ShapeError("axis", "x or y")
    if not 1 <= of <= MOST_IN_A_ROW:
        raise ShapeError("of", f"from 1 to {MOST_IN_A_ROW}")
    k = "xy".index(axis)
    ends = ("left", "right") if axis == "x" else ("front", "back")
    insets = dict(set_in or {})
    low, high = (position_units(f"set_in {end}", insets.pop(end, 0.0)) for end in ends)
    start, room = below.at[k] + low, below.solid.size[k] - low - high
    air = room - of * solid.size[k]
    if air < 0:
        rule = f"such that they fit on {below.name}"
        raise ShapeError("of", rule, to_mm(of * solid.size[k]), to_mm(room))
    place = list(within(solid, below, set_in=insets))
    foot = round(float(_ends(solid)[0][2]))
    place[2] = below.at[2] + below.solid.size[2] - position_units("tenon", tenon) - foot
    parts = []
    for number in range(1, of + 1):
        place[k] = start + (number - 1) * solid.size[k] + air * number // (of + 1)
        at = place[0], place[1], place[2]
        parts.append(Part(f"{name} {number}", solid, at, loose, name))
    return parts


def _ends(solid: Solid) -> tuple[Floats, Floats]:
    """Return the middle of its lower and of its upper end [grid units]."""
    if solid.rings:
        starts = np.append(solid.rings, len(solid.vertices))
        first, last = (solid.vertices[starts[k] : starts[k + 1]] for k in (0, -2))
        return first.mean(axis=0), last.mean(axis=0)
    foot, head = (_middle(solid, face) for face in ("bottom", "top"))
    return foot, head


def _middle(solid: Solid, face: str) -> Floats:
    patches = enumerate(solid.patches)
    numbers = [k for k, patch in patches if solid.names_of(patch.face)[0] == face]
    corners = np.unique(solid.triangles[np.isin(solid.patch_of, numbers)])
    middle: Floats = solid.vertices[corners].mean(axis=0)
    return middle
