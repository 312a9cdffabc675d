"""Assumed figures are ranked by the money that each of them moves; worked by hand."""

import doctest

import pytest

from surfacecalc.api import measure, read_piece, supplies
from surfacecalc.model.inputs import Input
from surfacecalc.model.ranges import Factor, Range
from surfacecalc.plans.tasks import tasks_of
from surfacecalc.prices import assumed_figures
from surfacecalc.prices.assumed_figures import (
    figures_of_hours,
    figures_of_quote,
    figures_of_supplies,
)
from surfacecalc.prices.quotes import Quote, quote

LOSS, ALLOWANCE = Input("loss", by="brush"), Input("allowance")
DISC = Input("abrasive life", of="disc", grit=120)
EXACT = 1e-9  # floating point alone


@pytest.fixture
def moved(written, tmp_path):
    def make(**changes):
        text = written("rate = 30\nhours = 2", **changes)
        text = text.replace('loss = "0 %"\nallowance = "0 %"\n', "").replace(
            'life = "0.4 m2"\n', ""
        )
        file = tmp_path / "shelf.toml"
        file.write_text(text, encoding="utf-8")
        job = measure(read_piece(file))
        figures = figures_of_supplies(job.piece, supplies(job))
        return {one.factor.what: one.by for one in figures}

    return make


def test_each_figure_moves_what_its_supply_costs(moved):
    """1.06 m2. A disc P120 lasts for 0.3 to 0.8 m2 (catalogue) and costs 8 / 10.

    1.06 / 0.3 - 1.06 / 0.8 = 2.208333 discs, 1.766667 EUR. Two coats take 0.2 L less the loss,
    10 % and so 9 % to 11 %: 0.2 / 0.89 - 0.2 / 0.91 = 0.00493888 L at 11 for 250 ml: 0.217311 EUR.
    No allowance stays none.
    """
    found = moved()
    assert [DISC, LOSS, ALLOWANCE] == list(found)
    assert 1.06 / 0.3 * 0.8 - 1.06 / 0.8 * 0.8 == pytest.approx(found[DISC], rel=EXACT)
    assert (0.2 / 0.89 - 0.2 / 0.91) * 44 == pytest.approx(found[LOSS], rel=EXACT)
    assert 0 == found[ALLOWANCE]


def test_what_has_no_price_counts_as_an_average_small_pack_of_the_others(moved):
    """Ten discs cost 8; so then does a small pack of paint, 0.5 L where the file gives none."""
    found = moved(paint="")
    assert (0.2 / 0.89 - 0.2 / 0.91) * 8 / 0.5 == pytest.approx(found[LOSS], rel=EXACT)


WASHED = """
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
name = "all"
faces = ["*"]
surface = "varnished"
[[zone.step]]
do = "wash"
product = "cleaner"
strength = "3 %"
[[zone.step]]
do = "coat"
product = "paint"
coats = 2
by = "brush"
[[product]]
name = "cleaner"
kind = "alkaline cleaner"
[[product]]
name = "paint"
kind = "waterborne furniture paint"
"""


@pytest.mark.parametrize("packs", ["", 'packs = [{ size = "1 L" }]'])
def test_without_prices_the_spoonful_of_cleaner_does_not_come_first(packs, tmp_path):
    """The wash solution covers 5 to 20 m2 a litre, a wider range than that of the paint."""
    file = tmp_path / "shelf.toml"
    file.write_text(WASHED.replace('cleaner"\n[[', f'cleaner"\n{packs}\n[['), encoding="utf-8")
    job = measure(read_piece(file))
    order = [one.factor.what.quantity for one in figures_of_supplies(job.piece, supplies(job))]
    assert ["hand", "coverage"] == order[:2]
    assert order.index("wash coverage") > order.index("coverage")


def test_hours_move_with_a_time_and_against_a_speed():
    """Ten hours that come from a speed take 10 / 0.9 - 10 / 1.1 = 2.0202 h more at the low end."""
    speed = Factor(Input("rate", of="sand", by="hand"), Range.fixed(2), "assumed", unit="m2/h")
    each = Factor(Input("set-up", of="coat"), Range.fixed(0.5), "assumed", unit="h")
    own = Factor(Input("time", where="here"), Range.fixed(3), "piece file", unit="h")
    found = figures_of_hours({each: 10.0, own: 50.0, speed: 10.0}, 30.0)
    assert [speed, each] == [one.factor for one in found]
    assert (10 / 0.9 - 10 / 1.1) * 30 == pytest.approx(found[0].by, rel=EXACT)
    assert 2 * 30 == pytest.approx(found[1].by, rel=EXACT)


def test_examples_in_the_docstrings_hold():
    result = doctest.testmod(assumed_figures)
    assert result.attempted > 0
    assert 0 == result.failed


def test_a_quote_ranks_supplies_with_a_price_and_the_hours_at_their_rate(written, tmp_path):
    """Paint without a price moves nothing. At 30 an hour the hours move more than a disc.

    1.06 m2 at 5 m2/h and two coats by brush are 0.424 h: 0.424 x (1 / 0.9 - 1 / 1.1) x 30 = 2.57.
    """
    text = written("rate = 30", paint="").replace('loss = "0 %"\n', "")
    text = text.replace('life = "0.4 m2"\n', "")
    file = tmp_path / "shelf.toml"
    file.write_text(text, encoding="utf-8")
    job = measure(read_piece(file))
    piece, measured = job.piece, job.measured
    tasks = [task for chain in tasks_of(piece, measured).values() for task in chain]
    hours = sum(task.hands_on_h for task in tasks)
    found = quote(piece, supplies(job), hours)
    assert isinstance(found, Quote)
    moved = {one.factor.what: one.by for one in figures_of_quote(piece, found, tasks)}
    coating = 2 * 1.06 / 5 * (1 / 0.9 - 1 / 1.1) * 30
    assert coating == pytest.approx(moved[Input("rate", of="coat", by="brush")], rel=EXACT)
    assert (1.06 / 0.3 - 1.06 / 0.8) * 0.8 == pytest.approx(moved[DISC], rel=EXACT)
    assert 0 == moved[LOSS]
    assert sorted(moved.values(), reverse=True) == list(moved.values())
