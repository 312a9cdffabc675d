"""Relief: faces whose true area is more than flat, by a ratio instead of a model.

A ratio is true area over flat area: of a carving an estimate, of flutes, reeds and beaded boards a
closed form. It is not the multiplier by which painters price work. Those (double for a balustrade,
1.5 for a cupboard) pay for time as well as paint, and would buy too much of it; they are listed
here only so that they can be refused by name.
"""

import math
from collections.abc import Sequence
from dataclasses import replace

from shapes.errors import ShapeError
from shapes.grid import position_units, size_units
from shapes.solids import Solid

SUGGESTED = {
    "carved": 2.00,
    "match boarding": 1.05,
    "weather boarding": 1.20,
}
"""Ratios for want of better ones. Source: IS 1200 (Part 15), 4th revision (1987), coefficients on
the flat area of each side, read in copies. They are coefficients of measurement: 1.05 and 1.20 are
near what the boards' edges add; 2.00 for carved or enriched work is a ceiling, not a measure."""

PRICING = {
    "panelled": 1.30,
    "flush": 1.20,
    "fully glazed": 0.80,
    "louvred": 1.80,
    "trellis": 2.00,
    "balustrade": 4.00,
    "cupboard": 1.50,
    "fluted column": 2.00,
}
"""Multipliers that mix area and labour. Sources: IS 1200 (Part 15); G. D. Armstrong, Cyclopedia of
Painting (1908), p. 127; Radford's Cyclopedia of Construction, vol. 10."""

LARGEST_RATIO = 10.0


def relief(solid: Solid, faces: Sequence[str], ratio: float | str) -> Solid:
    """Return a solid with the true area of faces multiplied; nothing else changes.

    What hides a share of such a face hides that share of its relief.

    Args:
        solid: the solid.
        faces: names of the faces.
        ratio: true area over flat area, from 1 to 10, or the name of a suggested one.

    Raises:
        ShapeError: an unknown face or name, a ratio out of range, or the name of a multiplier that
            is for pricing.

    >>> from shapes.boards import board
    >>> relief(board(100, 20, 50), ["front"], "carved").area_mm2_of["front"]
    10000.0
    """
    for face in faces:
        if face not in solid.faces:
            raise ShapeError("faces", f"faces of {', '.join(solid.faces)}, not {face}")
    factor = ratio_named(ratio) if isinstance(ratio, str) else ratio
    if not 1 <= factor <= LARGEST_RATIO:
        raise ShapeError("ratio", f"from 1 to {LARGEST_RATIO:g}, true area over flat area")
    patches = tuple(
        replace(patch, area_mm2=patch.area_mm2 * factor) if patch.face in faces else patch
        for patch in solid.patches
    )
    return replace(solid, patches=patches)


def ratio_named(name: str) -> float:
    """Return a suggested ratio.

    Raises:
        ShapeError: an unknown name, or a multiplier that is for pricing and is no area.

    >>> ratio_named("match boarding")
    1.05
    """
    if name in PRICING:
        raise ShapeError(
            "ratio", f"true area over flat area; {name} {PRICING[name]:.2f} is a rule for pricing"
        )
    if name not in SUGGESTED:
        raise ShapeError("ratio", f"a number or one of {', '.join(SUGGESTED)}, not {name}")
    return SUGGESTED[name]


def fluting_ratio(width: float, fillet: float = 0.0, *, sink: float | None = None) -> float:
    """Return the ratio of flutes side by side; reeds, which stand out instead, have the same.

    Args:
        width: of a flute or reed [mm].
        fillet: of the flat between two [mm].
        sink: how deep a flute is at its middle [mm]; left out, half its width (a semicircle).

    Raises:
        ShapeError: a size out of range.

    Source: arc of chord c and rise s: angle 4 atan(2 s / c), radius (c2 / 4 + s2) / (2 s); a
    semicircle pi / 2. Elementary.

    >>> round(fluting_ratio(12), 6), round(fluting_ratio(12, 3), 6)
    (1.570796, 1.456637)
    """
    size_units("width", width)
    if position_units("fillet", fillet) < 0:
        raise ShapeError("fillet", "0 or more", fillet)
    return (_arc_length(width, sink) + fillet) / (width + fillet)


def beaded_ratio(pitch: float, bead: float, *, groove: Sequence[float] = (0.0, 0.0)) -> float:
    """Return the ratio of beaded boarding: a half-round bead and a square groove on each board.

    Args:
        pitch: from one bead to the next [mm].
        bead: diameter of the bead [mm].
        groove: width and depth of the groove beside it [mm].

    Raises:
        ShapeError: a size out of range, or bead and groove wider than the pitch.

    Source: semicircle pi / 2 of its width, and two walls of the groove; elementary.

    >>> round(beaded_ratio(90, 6, groove=(2, 3)), 6)
    1.10472
    """
    size_units("pitch", pitch)
    width, deep = groove
    for value in (width, deep):
        if position_units("groove", value) < 0:
            raise ShapeError("groove", "0 or more", value)
    if bead + width > pitch:
        raise ShapeError("bead", "no wider than the pitch, with its groove", bead, pitch - width)
    return (pitch - bead + _arc_length(bead, None) + 2 * deep) / pitch


def _arc_length(chord: float, rise: float | None) -> float:
    size_units("bead" if rise is None else "sink", chord / 2 if rise is None else rise)
    if rise is None:
        return math.pi / 2 * chord
    return 4 * math.atan(2 * rise / chord) * (chord * chord / 4 + rise * rise) / (2 * rise)
