"""Units beyond the listed ones, by name: rods, square yards, cubic inches, imperial pints.

A word is read only where it means one thing to everybody: a whole name or a usual short form from
the list below, "square" or "cubic" before a length, 2 or 3 after a short one, "imperial" or "US"
before a measure of liquids. `pint` knows many more words, and would take "kin" for a thousand
inches and "point" for a printer's measure, so it is never asked what a word means.

Not read, since they mean several things: a cup, a spoon and a gill differ from country to country;
tons are short, long or metric; a dram is a weight or a volume; months and years differ in length.
"""

import re
from dataclasses import replace

from surfacecalc.units.table import BY_WORD, UNITS, Dimension, Unit

RARE_UNITS = (
    Unit("dm", "length", "decimeter", ("decimetre", "decimeter", "decimetres", "decimeters")),
    Unit("km", "length", "kilometer", ("kilometre", "kilometer", "kilometres", "kilometers")),
    Unit("rod", "length", "rod", ("rods",)),
    Unit("mile", "length", "mile", ("miles",)),
    Unit("ha", "area", "hectare", ("hectare", "hectares")),
    Unit("acre", "area", "acre", ("acres",)),
    Unit("cl", "volume", "centiliter", ("centilitre", "centiliter", "centilitres", "centiliters")),
    Unit("dl", "volume", "deciliter", ("decilitre", "deciliter", "decilitres", "deciliters")),
    Unit("hl", "volume", "hectoliter", ("hectolitre", "hectoliter", "hectolitres", "hectoliters")),
    Unit("cc", "volume", "cubic_centimeter"),
    Unit("mg", "weight", "milligram", ("milligram", "milligrams")),
    Unit("grain", "weight", "grain", ("grains",)),
    Unit("stone", "weight", "stone", ("stones",)),
    Unit("tonne", "weight", "metric_ton", ("tonnes", "metric ton", "metric tons")),
    Unit("short ton", "weight", "short_ton", ("short tons",)),
    Unit("long ton", "weight", "long_ton", ("long tons",)),
    Unit("seconds", "time", "second", ("second", "sec", "secs")),
    Unit("weeks", "time", "week", ("week",)),
    Unit("fortnight", "time", "fortnight", ("fortnights",)),
)
"""`pint` takes the rod and the acre as land is surveyed in the US: 2 parts in a million longer."""

_RARE = {word.lower(): unit for unit in RARE_UNITS for word in (unit.name, *unit.spellings)}
_SHORT_LENGTHS = ("mm", "cm", "dm", "m", "km", "in", "ft", "yd")
_LENGTHS = {
    word: unit
    for unit in (*UNITS, *RARE_UNITS)
    if unit.name in (*_SHORT_LENGTHS, "rod", "mile")
    for word in (unit.name, *unit.spellings)
}
_LIQUIDS = {
    word.lower(): unit
    for unit in UNITS
    if unit.pint_name.startswith("US_")
    for word in (unit.name, *unit.spellings)
}
_POWERS: dict[int, Dimension] = {2: "area", 3: "volume"}
_BEFORE = re.compile(r"(?:(?P<square>square |sq\.? ?)|(?:cubic |cu\.? ))(?P<length>[a-z]+)\.?")
_AFTER = re.compile(r"(?P<length>[a-z]+)(?P<power>[23])")
_COUNTRY = re.compile(r"(?:(?P<us>us|u\.s\.)|imperial|imp\.?|uk|u\.k\.) (?P<liquid>.+)")

LONG_NAMES = {
    **{word: unit for word, unit in _RARE.items() if len(word) > 3},
    **{
        f"imperial {name}": replace(unit, name=f"imperial {name}")
        for name, unit in _LIQUIDS.items()
        if name in ("pint", "quart", "gallon")
    },
}
"""Words that a misspelt one is compared with; shorter ones are like too many others."""


def rare_unit(word: str) -> Unit | None:
    """Return the unit beyond the listed ones that a word means, or None.

    Args:
        word: in lower case, with single spaces.

    >>> rare_unit("cubic inches").name, rare_unit("imp. pints").name, rare_unit("kin")
    ('in3', 'imperial pint', None)
    """
    return _RARE.get(word) or _power_of_length(word) or _liquid_of_country(word)


def _power_of_length(word: str) -> Unit | None:
    """Return a square or cubic length."""
    before, after = _BEFORE.fullmatch(word), _AFTER.fullmatch(word)
    if before:
        length, power = _LENGTHS.get(before["length"]), 2 if before["square"] else 3
    elif after and after["length"] in _SHORT_LENGTHS:
        length, power = _LENGTHS[after["length"]], int(after["power"])
    else:
        return None
    if length is None:
        return None
    if length.name in _SHORT_LENGTHS:
        name = f"{length.name}{power}"
    else:
        name = f"{'square' if power == 2 else 'cubic'} {length.name}"
    return BY_WORD.get(name) or Unit(name, _POWERS[power], f"{length.pint_name}**{power}")


def _liquid_of_country(word: str) -> Unit | None:
    """Return an imperial measure of liquids, or the listed one where the word says US."""
    match = _COUNTRY.fullmatch(word)
    unit = _LIQUIDS.get(match["liquid"]) if match else None
    if match is None or unit is None or match["us"]:
        return unit
    name = "fluid_ounce" if unit.name == "fl oz" else unit.name
    return Unit(f"imperial {unit.name}", "volume", f"imperial_{name}")
