"""Inputs of the arithmetic in the words of the shop; the only place that spells them."""

from collections.abc import Callable

from surfacecalc.model.inputs import Input, InputUnit, Quantity
from surfacecalc.model.ranges import Factor
from surfacecalc.units.display import (
    Units,
    format_amount,
    format_coverage_words,
    format_share,
)
from surfacecalc.units.known import factor as size_of
from surfacecalc.work.task_words import format_hours

TOOLS = {
    "brush": "brush",
    "roller": "tray and roller",
    "cloth": "cloth",
    "spray": "spray gun",
}
WORK = {
    "sand": "sanding",
    "rub out": "rubbing out",
    "strip": "stripping",
    "denib": "sanding between coats",
    "wash": "washing",
    "coat": "coating",
    "fill grain": "filling grain",
    "glaze": "glazing",
    "lime wax": "lime waxing",
    "wax hardware": "waxing hardware",
    "dust off": "dusting off",
    "distress": "distressing worn places",
    "decorate": "decorating",
}
"""What the hands do, by the word of the file."""
TIMED = {
    "repair": "repair",
    "decal": "decal put on",
    "take off": "piece of hardware taken off",
    "refit": "piece of hardware refitted",
    "m2 of film": "square metre of film",
}
"""What is timed one by one, where its own word does not say it."""
SET_UP = {
    "coat": "coat",
    "sand": "sanding",
    "wash": "washing",
    "fill": "filling",
    "mask": "masking",
    "test": "test patch",
    "handwork": "handwork",
}
_WAYS = {
    "cloth": "with a cloth",
    "hvlp": "with an HVLP gun",
    "airless": "with an airless gun",
    "conventional": "with a conventional gun",
}
_DEGREES_F = (9 / 5, 32)
DIGITS, ROUGH_DIGITS = 4, 2
"""Digits of an area or a coverage: as it was written, or of one that is only assumed."""


def _grit(one: Input) -> str:
    return f" P{one.grit}" if one.grit else ""


def _speed(one: Input) -> str:
    return f"{WORK.get(one.of, one.of)} {way_words(one.by)}" if one.of else "speed of the step"


def _set_up(one: Input) -> str:
    return f"set-up and clean-up for each {SET_UP.get(one.of, one.of) or 'task'}"


def _supply_words(one: Input) -> str:
    return f"{one.of} {way_words(one.by)}" if one.by else one.of


def _with(one: Input) -> str:
    return f" with {_supply_words(one)}" if one.of else ""


_WORDS: dict[Quantity, Callable[[Input], str]] = {
    "coverage": lambda one: f"coverage of {one.of}",
    "solids": lambda one: f"solids in {one.of}",
    "dry film": lambda one: f"dry film of {one.of}",
    "first coat": lambda one: f"coverage of the first coat of {one.of} on bare wood",
    "loss": lambda one: f"lost when applied {way_words(one.by)}",
    "sprayed past": lambda _: "sprayed past slender parts, besides",
    "cup": lambda _: "what the cup of the gun holds",
    "allowance": lambda _: "extra for touch-ups and what stays in the can",
    "coats": lambda _: "number of coats",
    "extra coats": lambda one: f"extra coats for going {one.by}",
    "left in the tools": lambda one: f"left in the {TOOLS[one.by]} after each coat",
    "thinner": lambda _: "thinner added",
    "spots": lambda _: "part of the zone that is spotted in",
    "tint": lambda _: "tint added",
    "abrasive life": lambda one: f"area one {one.of}{_grit(one)} lasts for",
    "consumable life": lambda one: f"how long one {one.of} lasts",
    "wash coverage": lambda _: "coverage of the wash solution",
    "rinse coverage": lambda _: "coverage of the rinse water",
    "strength": lambda _: "strength of the wash solution",
    "filler loss": lambda _: "filler smeared or sanded off",
    "shrinkage": lambda _: "filler lost to shrinking",
    "hardener": lambda _: "hardener for the filler",
    "coat hardener": lambda one: f"hardener for {one.of}",
    "pot life": lambda one: f"how long {one.of} stays usable once mixed",
    "tape overlap": lambda _: "extra tape for corners and ends",
    "amount each": lambda _: "amount for each one",
    "measuring": lambda one: f"measured area of {one.of} against the true one",
    "rate": _speed,
    "time each": lambda one: f"time for each {TIMED.get(one.of, one.of)}",
    "set-up": _set_up,
    "drying after": lambda one: f"drying after {WORK.get(one.of, one.of)}",
    "time": lambda _: "time for the step",
    "wait": lambda _: "wait after the step",
    "dry": lambda one: f"{one.of} dry to the touch",
    "recoat": lambda one: f"{one.of} ready to recoat",
    "cure": lambda one: f"{one.of} fully cured",
    "rub out": lambda one: f"{one.of} hard enough to rub out or wax",
    "coldest": lambda one: f"lowest temperature for {one.of}",
    "loss in coverage": lambda one: f"loss beside the published coverage of {one.of}",
    "life between coats": lambda _: "area one lasts for between coats, of that in sanding",
    "hand": lambda _: "how much more or less your hand uses than the label says",
    "hand with a supply": lambda one: f"your hand with {_supply_words(one) or 'one supply'}",
    "worn": lambda _: "part of the zone that is distressed",
    "decorated": lambda _: "part of the zone that is decorated",
    "hand in a job": lambda one: f"one job beside the next{_with(one)}",
}
_SHORTER: dict[Quantity, str] = {
    "hand": "how your hand differs from the label",
    "hand in a job": "one job to the next",
}
"""What is said instead where only a few figures are named in one sentence."""
_OF_NORMAL: dict[Quantity, str] = {"first coat": " of normal"}
"""What a share is of, where its words leave that open."""


def input_words(what: Input) -> str:
    """Return what an input is, such as "coverage of moss green".

    >>> input_words(Input("rate", of="denib", by="hand"))
    'sanding between coats by hand'
    """
    return f"{_WORDS[what.quantity](what)}{f' ({what.where})' if what.where else ''}"


def input_text(factor: Factor, units: Units, *, short: bool = False) -> str:
    """Return an input with its value, such as "coverage of moss green, 2 to 3 m2 a litre".

    Args:
        factor: the input.
        units: which units are shown.
        short: leave the likely value of a range out, and say it in few words.
    """
    words = _SHORTER.get(factor.what.quantity) if short else None
    return f"{words or input_words(factor.what)}, {value_words(factor, units, short=short)}"


def source_words(factor: Factor) -> str:
    """Return where the value of an input comes from."""
    return f"published, {factor.reference}" if factor.reference else factor.source


def way_words(by: str) -> str:
    """Return how something is put on.

    >>> way_words("brush"), way_words("cloth")
    ('by brush', 'with a cloth')
    """
    return _WAYS.get(by, f"by {by}")


def value_words(factor: Factor, units: Units, *, short: bool = False) -> str:
    """Return the value of an input, or its range, in its own unit."""
    known = factor.range
    end = _OF_NORMAL.get(factor.what.quantity, "")
    if known.is_fixed:
        return f"{_one(factor, known.likely, units)}{end}"
    low, likely, high = (_one(factor, v, units) for v in (known.low, known.likely, known.high))
    span = f"{_number_alone(low, high)} to {high}{end}"
    if factor.is_band_assumed and factor.source != "assumed":
        return f"{likely}{end}, taken as {_number_alone(low, high)} to {high}{end}"
    return span if short else f"{span}, most likely {_number_alone(likely, high)}"


def _number_alone(text: str, other: str) -> str:
    """Return the number of a text whose unit is said beside it, else the whole text."""
    number, _, unit = text.partition(" ")
    return number if unit == other.partition(" ")[2] else text


def _one(factor: Factor, value: float, units: Units) -> str:
    """Return one value in the unit of its input."""
    unit, digits = factor.unit, ROUGH_DIGITS if factor.source == "assumed" else DIGITS
    if unit in ("L", "kg"):
        return format_amount(value, unit, units)
    if unit == "coats":  # its words say that coats are counted
        return f"{value:g}"
    if unit in ("sessions", "jobs"):
        return f"{value:g} {unit.removesuffix('s') if value == 1 else unit}"
    return _VALUES[unit](value, units, digits)


def _area(value: float, units: Units, digits: int) -> str:
    if units is Units.METRIC:
        return f"{_to_digits(value, digits)} m2"
    return f"{_to_digits(value / float(size_of('ft2')), digits)} sq ft"


def _to_digits(value: float, digits: int) -> str:
    """Return a number with so many digits that count, never an exponent."""
    return f"{float(f'{value:.{digits}g}'):,.15g}"


def _degrees(celsius: float, units: Units, _: int) -> str:
    if units is Units.METRIC:
        return f"{celsius:.3g} C"
    return f"{celsius * _DEGREES_F[0] + _DEGREES_F[1]:.3g} F"


_VALUES: dict[InputUnit, Callable[[float, Units, int], str]] = {
    "m2/L": lambda value, units, digits: format_coverage_words(value, "L", units, digits),
    "m2/kg": lambda value, units, digits: format_coverage_words(value, "kg", units, digits),
    "m2": _area,
    "m2/h": lambda value, units, digits: f"{_area(value, units, digits)} an hour",
    "h": lambda value, *_: format_hours(value),
    "C": _degrees,
    "share": lambda value, *_: format_share(value),
    "um": lambda value, *_: f"{value:g} um",
    "times": lambda value, *_: f"{100 * value:.0f} %",
}
