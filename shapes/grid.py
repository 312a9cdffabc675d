"""Lengths in whole grid units.

Every size and position is rounded to the grid once, before any arithmetic. Sums of whole numbers
are exact, so two faces that should touch do touch. Nothing else in `shapes` rounds a length.
"""

import math

from shapes.errors import ShapeError
from shapes.tolerances import GRID_PER_MM, MAX_LENGTH_MM


def size_units(argument: str, mm: float) -> int:
    """Return a size in grid units.

    Args:
        argument: name of the size, for the error.
        mm: the size [mm], above zero and at most 10 m.

    Raises:
        ShapeError: zero, negative, not finite, or longer than 10 m.
    """
    units = position_units(argument, mm)
    if units <= 0:
        raise ShapeError(argument, "more than zero", mm)
    return units


def position_units(argument: str, mm: float) -> int:
    """Return a position in grid units.

    Args:
        argument: name of the position, for the error.
        mm: the position [mm], at most 10 m from the origin.

    Raises:
        ShapeError: not finite, or further than 10 m.
    """
    if not math.isfinite(mm):
        raise ShapeError(argument, "a finite length", mm)
    if abs(mm) > MAX_LENGTH_MM:
        raise ShapeError(argument, "at most 10 m", mm, MAX_LENGTH_MM)
    return round(mm * GRID_PER_MM)


def to_mm(units: float) -> float:
    """Return a length in grid units as millimetres."""
    return units / GRID_PER_MM


def to_mm2(units2: float) -> float:
    """Return an area in square grid units as square millimetres."""
    return units2 / GRID_PER_MM**2
