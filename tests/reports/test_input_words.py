"""Inputs are said in the words of the shop, from their fields alone."""

import doctest
import json
from importlib.resources import files
from typing import get_args

import pytest
import tomli

from surfacecalc.model.inputs import Input, Quantity
from surfacecalc.model.ranges import Factor, Range
from surfacecalc.model.step_facts import is_by_area
from surfacecalc.model.steps import HandWord
from surfacecalc.reports import chances, input_words
from surfacecalc.reports.input_words import TIMED, WORK, input_text, value_words
from surfacecalc.reports.input_words import input_words as words
from surfacecalc.units.display import Units

SAID = [
    (Input("coverage", of="moss green"), "coverage of moss green"),
    (Input("left in the tools", by="roller"), "left in the tray and roller after each coat"),
    (Input("loss", by="brush"), "lost when applied by brush"),
    (Input("loss", by="cloth"), "lost when applied with a cloth"),
    (Input("first coat", of="sealer"), "coverage of the first coat of sealer on bare wood"),
    (Input("abrasive life", of="disc", grit=120), "area one disc P120 lasts for"),
    (Input("filler loss"), "filler smeared or sanded off"),
    (Input("rate", of="sand", by="machine"), "sanding by machine"),
    (Input("rate", of="denib", by="hand"), "sanding between coats by hand"),
    (Input("time each", of="hole"), "time for each hole"),
    (Input("set-up", of="coat"), "set-up and clean-up for each coat"),
    (Input("extra coats", by="dark to light"), "extra coats for going dark to light"),
    (Input("cure", of="moss green"), "moss green fully cured"),
    (Input("hardener"), "hardener for the filler"),
    (Input("coat hardener", of="floor varnish"), "hardener for floor varnish"),
    (Input("pot life", of="varnish"), "how long varnish stays usable once mixed"),
    (Input("coats", where='zone "top" step 2'), 'number of coats (zone "top" step 2)'),
]


@pytest.mark.parametrize(("what", "said"), SAID, ids=[said for _, said in SAID])
def test_an_input_is_said_as_in_the_shop(what, said):
    assert said == words(what)


@pytest.mark.parametrize("quantity", get_args(Quantity))
def test_every_quantity_has_words(quantity):
    assert words(Input(quantity, of="it", by="brush"))


@pytest.mark.parametrize(
    ("values", "unit", "metric", "us"),
    [
        # 2 m2/L is 2 x 0.946353 x 10.7639 = 20.37 sq ft a quart
        ((2, 2.5, 3), "m2/L", "2 to 3 m2 a litre, most likely 2.5",
         "20 to 31 sq ft a quart, most likely 25"),
        ((0.1,) * 3, "share", "10 %", "10 %"),
        ((504,) * 3, "h", "21 days", "21 days"),
        ((2,) * 3, "m2/h", "2 m2 an hour", "22 sq ft an hour"),
        ((10,) * 3, "C", "10 C", "50 F"),
        ((0.5, 1, 2), "m2", "0.5 to 2 m2, most likely 1",
         "5.4 to 22 sq ft, most likely 11"),
        ((1,) * 3, "jobs", "1 job", "1 job"),
    ],
)  # fmt: skip
def test_a_value_is_said_in_its_own_unit(values, unit, metric, us):
    factor = Factor(Input("coverage", of="it"), Range(*values), "assumed", unit=unit)
    assert (metric, us) == (value_words(factor, Units.METRIC), value_words(factor, Units.US))


def test_a_value_that_somebody_wrote_keeps_its_digits():
    """Two digits are enough for a figure that is only assumed."""
    what, values = Input("coverage", of="it"), Range(2, 2.5, 3)
    written = Factor(what, values, "piece file", unit="m2/L")
    expected = "20.37 to 30.56 sq ft a quart, most likely 25.47"
    assert expected == value_words(written, Units.US)


def test_a_short_text_leaves_the_likely_value_out():
    factor = Factor(Input("coverage", of="moss green"), Range(2, 2.5, 3), "assumed", unit="m2/L")
    assert "coverage of moss green, 2 to 3 m2 a litre" == input_text(
        factor, Units.METRIC, short=True
    )


def test_a_zone_named_like_a_source_is_not_taken_for_one(run_why):
    """The zone is called "top: assumed", and everything about it is written in the file."""
    (paint,) = [one for one in run_why if one["supply"] == "paint"]
    hand = "how much more or less your hand uses than the label says"
    assert paint["assumed"][0].startswith(hand)
    assert all("hand" in one or "one job" in one for one in paint["assumed"])
    assert 3 == len([line for line in paint["why"] if line.endswith(": assumed")])
    assert any(line.startswith("top: assumed: ") for line in paint["why"])


@pytest.mark.parametrize("module", [input_words, chances])
def test_examples_in_the_docstrings_hold(module):
    result = doctest.testmod(module)
    assert result.attempted > 0
    assert 0 == result.failed


PIECE = """\
[piece]
name = "Shelf"
unit = "m"

[[part]]
name = "board"
shape = "board"
width = 1
depth = 0.5
height = 0.02

[[zone]]
name = "top: assumed"
faces = ["*"]
surface = "sealed"

[[zone.step]]
do = "coat"
product = "paint"
coats = 2
by = "brush"
loss = "5 %"
allowance = "0 %"

[[product]]
name = "paint"
kind = "paint"
covers = "10 m2/L"
"""


@pytest.fixture
def run_why(tmp_path, run):
    path = tmp_path / "shelf.toml"
    path.write_text(PIECE, encoding="utf-8")
    return json.loads(run("supplies", path, "--json").stdout)["supplies"]


RUBBED = """\
[[zone.step]]
do = "rub out"
grits = [1000]
with = "pad"
product = "wax"

[[abrasive]]
name = "pad"
form = "finishing pad"
life = "3 m2"

[[product]]
name = "wax"
kind = "paste wax"
covers = "20 m2/kg"
"""


def test_the_loss_is_named_by_its_field_also_where_the_tape_may_be_off(tmp_path, run):
    """1.06 m2 / 20 m2/kg / (1 - 15 %) is 62.4 g; the tape's share of 100 % is not the loss."""
    head = PIECE[: PIECE.index("[[zone.step]]")].replace('"m"\n', '"m"\nmeasured_to = "2 mm"\n', 1)
    path = tmp_path / "rubbed.toml"
    path.write_text(head + RUBBED, encoding="utf-8")
    supplies = json.loads(run("supplies", path, "--json").stdout)["supplies"]
    (wax,) = [one for one in supplies if one["supply"] == "wax"]
    assert "/ (1 - 15 %), rubbed in = 62.4 g" in wax["why"][0]
    assert any(line.startswith("measured area of top: assumed against") for line in wax["why"])


RATES = tomli.loads(files("surfacecalc.catalogue").joinpath("rates.toml").read_text("utf-8"))
COUNTED = [word for word in get_args(HandWord) if not is_by_area(word)]


@pytest.mark.parametrize("word", RATES["rate"])
def test_every_word_with_a_rate_is_said_as_work(word):
    """ "sanding by machine", and never "sand by machine"."""
    assert word in WORK


@pytest.mark.parametrize("word", COUNTED)
def test_every_word_that_is_counted_is_said_as_one_of_them(word):
    assert word in TIMED
