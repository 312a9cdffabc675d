"""The units that a piece file may use, and their exact sizes.

The words are matched here, by a small list; `pint` says how large each unit is. Exact fractions are
kept, so that 1/64 in is not a rounded number of millimetres.
"""

import difflib
import sys
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Any, Literal

Dimension = Literal["length", "area", "volume", "weight", "time"]


@dataclass(frozen=True)
class Unit:
    """A unit of the piece file.

    Attributes:
        name: as it is written in a piece file.
        dimension: what it measures.
        pint_name: what `pint` calls it; US units of volume are the liquid ones.
        spellings: other ways people write it, lower case.
    """

    name: str
    dimension: Dimension
    pint_name: str
    spellings: tuple[str, ...] = ()


UNITS = (
    Unit("mm", "length", "millimeter", ("millimetre", "millimeter", "millimetres", "millimeters")),
    Unit("cm", "length", "centimeter", ("centimetre", "centimeter", "centimetres", "centimeters")),
    Unit("m", "length", "meter", ("metre", "meter", "metres", "meters")),
    Unit("in", "length", "inch", ('"', "inch", "inches", "in.")),
    Unit("ft", "length", "foot", ("'", "foot", "feet", "ft.")),
    Unit("yd", "length", "yard", ("yard", "yards", "yds")),
    Unit("um", "length", "micrometer", ("\u03bcm", "micron", "microns")),
    Unit("mil", "length", "thou", ("mils",)),
    Unit("m2", "area", "meter**2", ("sq m", "sqm")),
    Unit("ft2", "area", "foot**2", ("sq ft", "sqft", "sq. ft.", "square feet", "square foot")),
    Unit("ml", "volume", "milliliter", ("millilitre", "milliliter", "millilitres", "milliliters")),
    Unit("L", "volume", "liter", ("litre", "liter", "litres", "liters")),
    Unit("fl oz", "volume", "US_fluid_ounce", ("fl. oz.", "fl. oz", "floz", "fluid ounces")),
    Unit("pint", "volume", "US_pint", ("pints", "pt")),
    Unit("quart", "volume", "US_liquid_quart", ("quarts", "qt", "qts")),
    Unit("gallon", "volume", "US_liquid_gallon", ("gallons", "gal", "gals")),
    Unit("g", "weight", "gram", ("gram", "grams")),
    Unit("kg", "weight", "kilogram", ("kilogram", "kilograms", "kilo", "kilos")),
    Unit("oz", "weight", "ounce", ("ounce", "ounces", "oz.")),
    Unit("lb", "weight", "pound", ("lbs", "pound", "pounds", "lb.")),
    Unit("min", "time", "minute", ("minute", "minutes")),
    Unit("h", "time", "hour", ("hour", "hours", "hr", "hrs")),
    Unit("days", "time", "day", ("day",)),
)
BASE: dict[Dimension, str] = {
    "length": "millimeter",
    "area": "meter**2",
    "volume": "liter",
    "weight": "kilogram",
    "time": "hour",
}
"""What amounts are kept in: mm, m2, L, kg, h."""

EXAMPLES_OF_UNIT = {"mm": "620", "cm": "62", "m": "0.62", "in": "24.5", "ft": "2"}
"""A likely measure of a piece in each unit that a piece file may be written in."""

_BY_WORD = {
    word.lower(): unit for unit in UNITS for word in (unit.name, unit.pint_name, *unit.spellings)
}


def find_unit(word: str) -> Unit | None:
    """Return the unit that a word means, whatever its case, or None."""
    return _BY_WORD.get(" ".join(word.lower().split()))


def nearest_unit(word: str, dimension: Dimension) -> str | None:
    """Return the unit of a dimension whose spelling is nearest to a word, or None."""
    words = [text for text, unit in _BY_WORD.items() if unit.dimension == dimension]
    near = difflib.get_close_matches(word.lower(), words, n=1, cutoff=0.5)
    return _BY_WORD[near[0]].name if near else None


def unit_names(dimension: Dimension) -> str:
    """Return the units of a dimension as a list to read."""
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
    quantity = _registry().Quantity(Fraction(1), unit.pint_name)
    return Fraction(quantity.to(BASE[unit.dimension]).magnitude)


@cache
def _registry() -> Any:
    """Return pint's registry, without scipy, which pint loads where it finds it and never needs."""
    found = sys.modules.get("scipy")
    sys.modules["scipy"] = None  # type: ignore[assignment]  # an import of it now fails
    try:
        import pint
    finally:
        del sys.modules["scipy"]
        if found is not None:
            sys.modules["scipy"] = found
    return pint.UnitRegistry(non_int_type=Fraction)
