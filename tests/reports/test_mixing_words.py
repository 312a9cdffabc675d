"""What goes into the cup, in the reader's measures, and how its amounts were worked out.

The board is 1 m x 1 m, its top the only zone: a coat is 1 m2 / 10 m2/L = 100 ml of the mixed stuff.
"""

import re
from collections.abc import Sequence
from typing import Any

import pytest
from piece_texts import exact, measured, piece_text

from surfacecalc import api
from surfacecalc.reports.arithmetic import why
from surfacecalc.reports.mixing_words import mixing_lines, session_words
from surfacecalc.units.display import Units

COAT = {"do": "coat", "product": "clear", "coats": 2, "by": "brush", "loss": "0 %",
        "first_coat": "100 %"}  # fmt: skip
HARD = {"name": "hard", "kind": "hardener", "packs": [{"size": "100 ml"}]}
CLEAR = {"name": "clear", "kind": "two-part varnish", "covers": "10 m2/L"}
BY_VOLUME = {**COAT, "hardener": {"product": "hard", "parts": "4 : 1"}, "pot_life": "4 h"}


def job(*steps: dict[str, Any], product: Sequence[dict[str, Any]] = (CLEAR, HARD)):
    """Return the measured piece, every number as it is given."""
    zones: list[dict[str, Any]] = [
        {"name": "top", "faces": ["board.top"], "surface": "bare", "step": list(steps)},
        {"name": "rest", "faces": ["board"], "leave": True},
    ]
    part = {"name": "board", "shape": "board", "width": 1, "depth": 1, "height": 0.1}
    text = piece_text(piece={"unit": "m"}, part=part, zone=zones, product=list(product))
    return measured(exact(text))


def lines(*steps, units=Units.METRIC, **given):
    return list(mixing_lines(api.sessions(job(*steps, **given)), units))


def why_lines(name, *steps, **given):
    """Return the arithmetic of one supply."""
    found = job(*steps, **given)
    (supply,) = [one for one in api.supplies(found) if one.name == name]
    return [line.text for line in why(found.piece, supply, Units.METRIC) if "top: " in line.text]


def test_each_coat_has_its_line_in_metric_and_in_us_measures():
    first, second = lines(BY_VOLUME)
    made = "first coat of clear, by brush (top): 80.0 ml clear, 20.0 ml hard, used within 4 h"
    assert (made, made.replace("first", "second")) == (first, second)
    us, _ = lines(BY_VOLUME, units=Units.US)
    assert us.endswith("(top): 2.71 fl oz clear, 0.68 fl oz hard, used within 4 h")


def test_batches_and_sides_are_said():
    short = {**BY_VOLUME, "pot_life": "10 min", "rate": "2 m2/h", "sides": 2}
    assert 4 == len(lines(short))
    assert (
        "second coat of clear, by brush, side 2 (top): 40.0 ml clear, 10.0 ml hard, in 2 batches,"
        " each used within 10 min"
    ) == lines(short)[3]


def test_what_nothing_is_stirred_into_is_not_listed():
    plain = {"name": "clear", "kind": "waterborne varnish", "covers": "10 m2/L"}
    assert [] == lines(COAT, product=[plain])
    (thinned,) = lines({**COAT, "coats": 1, "thin": "10 %"}, product=[plain])
    assert "one coat of clear, by brush (top): 100 ml clear, 10.0 ml thinner for clear" == thinned


def test_a_wash_is_the_cleaner_its_water_and_the_rinse():
    """5 m2/L: 200 ml twice, a tenth of it cleaner; rinsed with 1 m2 / 4 m2/L = 250 ml each time."""
    wash = {"do": "wash", "product": "soap", "strength": "10 %", "covers": "5 m2/L", "times": 2,
            "rinse": "4 m2/L"}  # fmt: skip
    first, second = api.sessions(job(wash, product=[{"name": "soap", "kind": "cleaner"}]))
    amounts = {part.role: part.amount for part in second.parts}
    assert pytest.approx({"cleaner": 0.02, "water": 0.18, "rinse": 0.25}) == amounts
    assert "wash, first time (top): " in session_words(first, Units.METRIC)


def test_a_filling_that_shrinks_is_filled_again_with_less():
    """A groove of 100 cm3, a fifth of it the second time; 1 kg/L, 2 % of hardener on top."""
    fill = {"do": "fill", "product": "putty", "loss": "0 %", "shrinkage": "20 %",
            "applications": 2, "hardener": {"product": "hard", "share": "2 %"},
            "grooves": [{"length": "1 m", "width": "10 mm", "depth": "10 mm"}]}  # fmt: skip
    putty = {"name": "putty", "kind": "two-part filler", "density": "1 kg/L"}
    paste = {"name": "hard", "kind": "hardener"}
    found = lines(fill, product=[putty, paste])
    assert ["fill, first time (top): 100 g putty, 2.00 g hard",
            "fill, second time (top): 20.0 g putty, 0.40 g hard"] == found  # fmt: skip


def test_why_shows_how_product_and_hardener_come_from_what_is_mixed():
    assert [
        "top: 1.000 m2 / 10 m2/L x (1 / 100 % + 2 - 1) / (1 - 0 %) x (1 + 0 %) x 80 % clear in the"
        " mix = 160 ml",
        "top: left of one batch for each coat when the mix sets, thrown away = 0 ml",
    ] == why_lines("clear", BY_VOLUME)
    assert why_lines("hard", BY_VOLUME)[0].endswith(
        "x 80 % clear in the mix x 25 % hardener by volume = 40.0 ml"
    )


def test_why_shows_what_is_thrown_away_of_how_many_batches():
    """2 : 1 is 66.7 ml a coat; 2 sides of 2 batches of 16.7 ml make 4 of 20, 13.3 ml too much."""
    short = {**BY_VOLUME, "pot_life": "10 min", "rate": "2 m2/h", "sides": 2,
             "hardener": {"product": "hard", "parts": "2 : 1"}}  # fmt: skip
    assert (
        "top: left of 4 batches for each coat when the mix sets, thrown away = 26.7 ml"
        == why_lines("clear", short)[1]
    )


@pytest.mark.parametrize(
    ("by", "product", "pack", "ending"),
    [
        ("weight", {"covers": "10 m2/L"}, "1 L", "x 1.2 kg/L x 20 % hardener by weight / 1.5 kg/L"),
        ("weight", {"covers": "10 m2/L"}, "1 kg", "x 1.2 kg/L x 20 % hardener by weight"),
        ("weight", {"covers": "10 m2/kg"}, "1 kg", "x 20 % hardener by weight"),
        (
            "volume",
            {"covers": "10 m2/kg"},
            "1 kg",
            "/ 1.2 kg/L x 20 % hardener by volume x 1.5 kg/L",
        ),
    ],
)
def test_why_shows_the_densities_that_turn_a_hardener_over(by, product, pack, ending):
    """The line comes out at the amount it ends with."""
    step = {**COAT, "hardener": {"product": "hard", "share": "20 %", "by": by}}
    clear = {**CLEAR, **product, "density": "1.2 kg/L"}
    hard = {"name": "hard", "kind": "hardener", "density": "1.5 kg/L", "packs": [{"size": pack}]}
    line, _ = why_lines("hard", step, product=[clear, hard])
    made, _, amount = line.removeprefix("top: ").rpartition(" = ")
    assert made.endswith(ending)
    sum_of = re.sub(r" (m2/L|m2/kg|kg/L|m2|clear in the mix|hardener by \w+)", "", made)
    sum_of = re.sub(r"([\d.]+) %", r"(\1 / 100)", sum_of).replace(" x ", " * ")
    worked_out = eval(sum_of)  # noqa: S307 - a line of our own
    unit = 1000  # ml or g
    assert worked_out * unit == pytest.approx(float(amount.split()[0]), rel=0.002)
