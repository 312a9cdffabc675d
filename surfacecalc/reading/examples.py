"""Examples for messages: a likely measure for each key, in the unit of the piece.

The sizes are those of common furniture (common practice); they are shown, never used.
"""

import re
from fractions import Fraction

from surfacecalc.units.known import factor
from surfacecalc.units.number_words import mixed_number

SIZES_MM = {
    "width": 620, "depth": 400, "height": 750, "length": 600, "thickness": 18, "board": 18,
    "front": 19, "frame": 60, "recess": 6, "bevel": 30, "rail": 60, "foot": 25, "neck": 35,
    "straight": 100, "diameter": 45, "radius": 12, "circle": 300, "apart": 200, "set_in": 12,
    "tenon": 12,
}  # fmt: skip
"""A likely size [mm] by key, whatever the table."""
SIZES_MM_OF = {
    "board": {"height": 19},
    "drawer": {"height": 120, "board": 12, "side_height": 90, "back_height": 75},
    "dish": {"circle": 320, "depth": 12},
    "rod": {"diameter": 20},
    "lip": {"thickness": 10},
    "leg": {"width": 45, "depth": 45, "height": 400, "chamfer": 8, "stop_length": 25},
    "panel": {"depth": 19, "arch": 60},
    "door": {"depth": 19, "arch": 60},
    "on_hand": {"depth": 50, "diameter": 75, "width": 75, "length": 75, "height": 100},
    "profile": {"depth": 12, "height": 15, "diameter": 12},
    "edge_profile": {"depth": 12, "height": 15, "diameter": 12},
}
"""What is likely in a shape, or in a table with a name, where that differs."""
OTHER_SIZE_MM = 25

FINEST_INCH = Fraction(1, 4)
"""What examples in inches are rounded to."""


def size_example(key: str, of: str, unit: str | None) -> str:
    """Return a likely size for a key as it is written in a piece file.

    Args:
        key: the key.
        of: the shape, or the name of the table that it stands in.
        unit: unit of the piece, None where it is not known.

    >>> size_example("board", "case", "in")
    '0.75'
    """
    size_mm = SIZES_MM_OF.get(of, {}).get(key, SIZES_MM.get(key, OTHER_SIZE_MM))
    if unit in (None, "ft"):
        return f'"{mixed_number(_inches(size_mm))} in"'
    return _number(size_mm, unit)


def in_unit(example: str, unit: str | None) -> str:
    """Return an example whose numbers are mm with its numbers in another unit.

    >>> in_unit("[[0, 30], [400, 45]]", "in")
    '[[0, 1.25], [15.75, 1.75]]'
    """
    return re.sub(r"\d+(?:\.\d+)?", lambda number: _number(float(number[0]), unit), example)


def amount_example(value: str, dimension: str, unit: str | None) -> str:
    """Return a number with units that it may have meant, as texts of a piece file.

    >>> amount_example("300", "volume", "mm")
    '"300 ml" or "300 L"'
    """
    metric, us = _UNITS[dimension]
    return " or ".join(f'"{value} {name}"' for name in (us if is_us(unit) else metric))


def area_example(unit: str | None) -> str:
    """Return the life of an abrasive as it is written in a piece file."""
    return '"5 ft2"' if is_us(unit) else '"0.5 m2"'


def is_us(unit: str | None) -> bool:
    """Whether a piece is measured in inches or feet."""
    return unit in ("in", "ft")


def _number(mm: float, unit: str | None) -> str:
    if unit == "in":
        return f"{float(_inches(mm)):g}"
    return f"{mm / float(factor(unit or 'mm')):.4g}"


def _inches(mm: float) -> Fraction:
    """Return inches to a quarter, never nothing of something."""
    quarters = round(Fraction(mm) / factor("in") / FINEST_INCH) * FINEST_INCH
    return quarters or (FINEST_INCH if mm else Fraction(0))


_UNITS = {
    "length": (("mm", "m"), ("in", "ft")),
    "area": (("m2",), ("ft2",)),
    "volume": (("ml", "L"), ("fl oz", "quart")),
    "weight": (("g", "kg"), ("oz", "lb")),
    "time": (("min", "h"), ("min", "h")),
}
"""Likely units of an amount: metric ones, US ones."""
