"""The units that are listed to users, and the words people write for them."""

from dataclasses import dataclass
from typing import Literal

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
    Unit(
        "ft2",
        "area",
        "foot**2",
        ("sq ft", "sqft", "sq. ft.", "sq. ft", "sq ft.", "sq.ft.", "square feet", "square foot"),
    ),
    Unit("ml", "volume", "milliliter", ("millilitre", "milliliter", "millilitres", "milliliters")),
    Unit("L", "volume", "liter", ("litre", "liter", "litres", "liters")),
    Unit(
        "fl oz",
        "volume",
        "US_fluid_ounce",
        ("fl. oz.", "fl. oz", "floz", "fluid ounce", "fluid ounces"),
    ),
    Unit("pint", "volume", "US_pint", ("pints", "pt", "pt.", "pts")),
    Unit("quart", "volume", "US_liquid_quart", ("quarts", "qt", "qts", "qt.")),
    Unit("gallon", "volume", "US_liquid_gallon", ("gallons", "gal", "gals", "gal.")),
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

BY_WORD = {
    word.lower(): unit for unit in UNITS for word in (unit.name, unit.pint_name, *unit.spellings)
}
"""The listed unit that a word in lower case means."""
