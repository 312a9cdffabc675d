"""Amounts, times and packs as people say them, rounded to what can be measured.

Needs and waits are rounded up, so that a rounded number never leaves the job short.
"""

from collections.abc import Iterable
from datetime import datetime
from fractions import Fraction

from surfacecalc.closeness import whole_down, whole_up
from surfacecalc.model.shelf import Pack
from surfacecalc.supplies.pack_words import bought_text
from surfacecalc.units.display import Units
from surfacecalc.units.known import factor
from surfacecalc.units.number_words import CARDINALS, mixed_number

EVENING_FROM = 17
"""Hour from which a day on which nothing is done earlier counts as an evening."""


def count_word(count: int) -> str:
    """Return a number in words up to twelve.

    >>> count_word(2), count_word(20)
    ('two', '20')
    """
    if count == 0:
        return "no"
    return CARDINALS[count] if count < len(CARDINALS) else str(count)


def plural(count: int, one: str, many: str = "") -> str:
    """Return a count with its thing: "one coat", "three coats"."""
    return f"{count_word(count)} {one if count == 1 else many or one + 's'}"


def series(words: Iterable[str]) -> str:
    """Return words as one says them.

    >>> series(["1 quart", "1 pint", "1 half-pint"])
    '1 quart, 1 pint and 1 half-pint'
    """
    found = list(words)
    return " and ".join([", ".join(found[:-1]), found[-1]]) if len(found) > 1 else "".join(found)


def packs_text(buy: Iterable[tuple[Pack, int]], unit: str) -> str:
    """Return what to buy as one asks for it in a store: "1 quart and 1 half-pint".

    Args:
        buy: packs and how many of each.
        unit: what the supply is counted in: "L", "kg", "each", "m" or "m2".
    """
    return series(bought_text(pack, count, unit) for pack, count in buy)


def need_text(amount: float, unit: str, units: Units) -> str:
    """Return a need, rounded up to what can be measured out in the shop."""
    if unit == "each":
        return f"{whole_up(amount):,}"
    if unit == "m":
        return _up(amount, "ft" if units is Units.US else "m", 1, length=True)
    if unit == "m2" and units is Units.METRIC:
        return f"{whole_up(amount * 10) / 10:g} m2"
    if unit == "m2":
        return f"{whole_up(amount / float(factor('ft2'))):,} sq ft"
    if units is Units.US:
        return _us_need(amount, unit)
    large, small = ("L", "ml") if unit == "L" else ("kg", "g")
    if amount < 1:
        in_small = amount * 1000
        return _up_to(in_small, 1 if in_small < 10 else 5 if in_small < 100 else 10, small)
    return f"{whole_up(amount * 10) / 10:g} {large}"


def stock_text(amount: float, unit: str, units: Units) -> str:
    """Return what is on hand, rounded down to what can be measured out in the shop.

    >>> stock_text(0.158, "L", Units.US), stock_text(0.158, "L", Units.METRIC)
    ('5 1/4 fl oz', '150 ml')
    """
    size, steps, name = _measure(amount, unit, units)
    marks = Fraction(whole_down(amount / size * steps), steps)
    if not marks:
        return f"under {mixed_number(Fraction(1, steps))} {name}".rstrip()
    if name == "quart" and marks != 1:
        name = "quarts"
    number = mixed_number(marks) if units is Units.US else f"{float(marks):,g}"
    return f"{number} {name}".rstrip()


def _measure(amount: float, unit: str, units: Units) -> tuple[float, Fraction, str]:
    """Return the size of a unit that suits an amount, how many marks it has, and its name."""
    if unit == "each":
        return 1.0, Fraction(1), ""
    if unit in ("m", "m2"):
        names = {"m": ("m", "ft"), "m2": ("m2", "ft2")}[unit]
        name = names[units is Units.US]
        size = float(factor(name)) / (1000 if unit == "m" else 1)
        return size, Fraction(1), "sq ft" if name == "ft2" else name
    large, small = _POURED[unit, units]
    if amount >= float(factor(large)):
        return float(factor(large)), Fraction(4 if units is Units.US else 10), large
    in_small = amount / float(factor(small))
    if units is Units.US:
        return float(factor(small)), Fraction(4), small
    step = 1 if in_small < 10 else 5 if in_small < 100 else 10
    return float(factor(small)), Fraction(1, step), small


_POURED = {
    ("L", Units.METRIC): ("L", "ml"),
    ("kg", Units.METRIC): ("kg", "g"),
    ("L", Units.US): ("quart", "fl oz"),
    ("kg", Units.US): ("lb", "oz"),
}


def _us_need(amount: float, unit: str) -> str:
    """Return volumes in quarters of a quart or a fluid ounce, weights of a pound or an ounce."""
    names = ("quart", "fl oz") if unit == "L" else ("lb", "oz")
    large = amount >= float(factor(names[0]))
    name = names[0] if large else names[1]
    value = amount / float(factor(name))
    steps = 4 if large or value < 4 else 2
    marks = Fraction(whole_up(value * steps), steps)
    if marks == Fraction(1, 4):
        return f"up to 1/4 {name}"
    if name == "quart":
        name = "quart" if marks == 1 else "quarts"
    return f"{mixed_number(marks)} {name}"


def _up(amount: float, name: str, step: int, *, length: bool) -> str:
    size = float(factor(name)) / 1000 if length else float(factor(name))
    return _up_to(amount / size, step, name)


def _up_to(value: float, step: int, name: str) -> str:
    return f"{whole_up(value / step) * step:,} {name}"


def hours_text(hours: float) -> str:
    """Return a hands-on time as people say it.

    >>> hours_text(0.2), hours_text(1.6), hours_text(20.3)
    ('about a quarter of an hour', 'about 1 1/2 hours', 'about 20 hours')
    """
    if hours <= 0.125:
        return "a few minutes"
    if hours < 0.875:
        parts = ("a quarter of an hour", "half an hour", "three quarters of an hour")
        return f"about {parts[max(0, min(2, round(hours * 4) - 1))]}"
    if hours >= 8:
        return f"about {round(hours)} hours"
    halves = Fraction(round(hours * 2), 2)
    return "about an hour" if halves == 1 else f"about {mixed_number(halves)} hours"


def wait_text(hours: float) -> str:
    """Return a wait, rounded up.

    >>> wait_text(0.7), wait_text(5.1), wait_text(31)
    ('45 minutes', '5 1/2 hours', '1 1/2 days')
    """
    if hours < 1:
        return f"{whole_up(hours * 12) * 5} minutes"
    size, name = (24, "day") if hours >= 24 else (1, "hour")
    halves = Fraction(whole_up(hours / size * 2), 2)
    return f"{mixed_number(halves)} {name}{'' if halves <= 1 else 's'}"


def days_text(sessions: Iterable[tuple[datetime, datetime]]) -> str:
    """Return on how many evenings and other days there is something to do."""
    first: dict[object, int] = {}
    for start, _ in sessions:
        first[start.date()] = min(first.get(start.date(), 24), start.hour)
    evenings = sum(hour >= EVENING_FROM for hour in first.values())
    others = len(first) - evenings
    texts = [plural(evenings, "evening")] if evenings else []
    return series([*texts, *([plural(others, "day")] if others else [])])
