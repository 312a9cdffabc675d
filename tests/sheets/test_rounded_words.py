"""Amounts and times as people say them; needs and waits never rounded down."""

from datetime import datetime
from fractions import Fraction

import pytest

from surfacecalc.model.shelf import Pack
from surfacecalc.sheets import rounded_words
from surfacecalc.units.display import Units
from surfacecalc.units.known import factor


@pytest.mark.parametrize(
    ("buy", "unit", "expected"),
    [
        ([("1 quart", 1), ("8 fl oz", 1)], "L", "1 quart and 1 half-pint"),
        ([("1 gallon", 2), ("1 pint", 1)], "L", "2 gallons and 1 pint"),
        ([("750 ml", 2)], "L", "2 packs of 750 ml"),
        ([("55 m", 1)], "m", "1 roll of 55 m"),
        ([("", 2)], "each", "2 packs of 5"),
    ],
)
def test_packs_are_told_as_one_asks_for_them(buy, unit, expected):
    found = [(Pack(5.0, text, None), count) for text, count in buy]
    assert expected == rounded_words.packs_text(found, unit)


@pytest.mark.parametrize(
    ("amount", "unit", "units", "expected"),
    [
        (2.60 * float(factor("quart")), "L", Units.US, "2 3/4 quarts"),
        (float(factor("quart")), "L", Units.US, "1 quart"),
        (10.1 * float(factor("fl oz")), "L", Units.US, "10 1/2 fl oz"),
        (0.02 * float(factor("oz")), "kg", Units.US, "up to 1/4 oz"),
        (0.4931, "L", Units.METRIC, "500 ml"),
        (1.21, "L", Units.METRIC, "1.3 L"),
        (0.0042, "kg", Units.METRIC, "5 g"),
        (13.2, "each", Units.US, "14"),
        (6.0000000001, "each", Units.US, "6"),
        (19.864, "m", Units.US, "66 ft"),
        (10.1 * float(factor("ft2")), "m2", Units.US, "11 sq ft"),
        (1.01, "m2", Units.METRIC, "1.1 m2"),
    ],
)
def test_needs_are_rounded_up_to_what_can_be_measured_out(amount, unit, units, expected):
    assert expected == rounded_words.need_text(amount, unit, units)


@pytest.mark.parametrize(
    ("amount", "unit", "units", "expected"),
    [
        (5.33 * float(factor("fl oz")), "L", Units.US, "5 1/4 fl oz"),
        (0.1 * float(factor("fl oz")), "L", Units.US, "under 1/4 fl oz"),
        (2.2 * float(factor("quart")), "L", Units.US, "2 quarts"),
        (0.158, "L", Units.METRIC, "150 ml"),
        (1.29, "L", Units.METRIC, "1.2 L"),
        (0.0999, "kg", Units.METRIC, "95 g"),
        (3, "each", Units.US, "3"),
        (19.9, "m", Units.METRIC, "19 m"),
    ],
)
def test_stock_is_rounded_down_to_what_can_be_measured_out(amount, unit, units, expected):
    assert expected == rounded_words.stock_text(amount, unit, units)


@pytest.mark.parametrize("units", list(Units))
@pytest.mark.parametrize("unit", ["L", "kg"])
def test_no_stock_is_said_to_be_more_than_there_is(unit, units):
    for k in range(1, 400):
        amount = 0.0137 * k
        text = rounded_words.stock_text(amount, unit, units)
        if text.startswith("under "):
            continue
        *number, name = text.removesuffix(" fl oz").split() + (["fl oz"] * text.endswith("fl oz"))
        told = float(sum(Fraction(part) for part in number))
        assert told * float(factor(name.removesuffix("s"))) <= amount * (1 + 1e-9), text


@pytest.mark.parametrize("hours", [0.01, 0.26, 0.99, 1, 3.1, 23.7, 24, 31, 336])
def test_no_wait_is_rounded_down(hours):
    *number, unit = rounded_words.wait_text(hours).split()
    size = {"minutes": 1 / 60, "hour": 1, "hours": 1, "day": 24, "days": 24}[unit]
    told = float(sum(Fraction(part) for part in number)) * size
    assert hours <= told + 1e-9
    assert told <= hours + max(size / 2, 5 / 60)


def test_days_on_which_nothing_is_done_before_five_are_evenings():
    times = [(30, 18), (30, 20), (28, 9), (28, 19), (29, 17)]
    sessions = [(datetime(2026, 11, day, hour), datetime(2026, 11, day, hour, 30))
                for day, hour in times]  # fmt: skip
    assert "two evenings and one day" == rounded_words.days_text(sessions)
