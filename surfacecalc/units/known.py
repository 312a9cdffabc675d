"""The units that a piece file may use, and their exact sizes.

Words are matched here, by small lists. The sizes of the listed units are a table of exact
fractions, so that 1/64 in is not a rounded number of millimetres; `pint` is asked only for a unit
outside it.
"""

import difflib
from fractions import Fraction
from functools import cache

from surfacecalc.units.sizes import SIZES
from surfacecalc.units.table import BASE, BY_WORD, UNITS, Dimension, Unit

__all__ = [
    "BASE",
    "EXAMPLES_OF_UNIT",
    "UNITS",
    "Dimension",
    "Unit",
    "factor",
    "find_unit",
    "nearest_unit",
    "unit_names",
]

EXAMPLES_OF_UNIT = {"mm": "620", "cm": "62", "m": "0.62", "in": "24.5", "ft": "2"}
"""A likely measure of a piece in each unit that a piece file may be written in."""


def find_unit(word: str) -> Unit | None:
    """Return the unit that a word means, whatever its case, or None."""
    plain = " ".join(word.lower().split())
    if plain in BY_WORD:
        return BY_WORD[plain]
    from surfacecalc.units.rare import rare_unit

    return rare_unit(plain)


def nearest_unit(word: str, *dimensions: Dimension) -> str | None:
    """Return the unit of some dimensions whose spelling is nearest to a word, or None."""
    from surfacecalc.units.rare import LONG_NAMES

    known = {**LONG_NAMES, **BY_WORD}
    words = [text for text, unit in known.items() if unit.dimension in dimensions]
    near = difflib.get_close_matches(word.lower(), words, n=1, cutoff=0.5)
    return known[near[0]].name if near else None


def unit_names(dimension: Dimension) -> str:
    """Return the listed units of a dimension as a list to read."""
    return ", ".join(unit.name for unit in UNITS if unit.dimension == dimension)


@cache
def factor(name: str) -> Fraction:
    """Return how many base units (mm, m2, L, kg, h) one of the named unit is, exactly.

    >>> factor("in")
    Fraction(127, 5)
    """
    unit = find_unit(name)
    if unit is None:
        raise KeyError(name)
    if unit.name in SIZES:
        return SIZES[unit.name]
    from surfacecalc.units.registry import size_of

    return size_of(unit)
