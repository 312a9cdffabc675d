"""Lime wax and decals: what they need, worked out by hand, and how a list explains it.

The top is 1 m x 1 m. Two coats of white wax that covers 25 m2/kg with 20 % lost in the cloth need
1 / 25 x 2 / 0.8 = 0.1 kg at that coverage. Half of the coverages from 15 over 25 to 40 m2/kg are
below 40 - sqrt(25 x 15 / 2) = 26.307 m2/kg, so half of the jobs need 2 / 26.307 / 0.8 = 0.09503 kg.
Six decals with 2 ml of fluid each need 12 ml, whatever the area.
"""

from collections.abc import Callable

import pytest
from piece_texts import piece_text

from surfacecalc.needs.draws import Draws
from surfacecalc.reports.use_lines import use_line
from surfacecalc.supplies.shopping import Supply, supplies_of
from surfacecalc.units.display import Units

PIECE = piece_text(
    piece={"name": "board", "unit": "m"},
    part=[
        {"name": "board", "shape": "board", "width": 1, "depth": 1, "height": 0.1},
    ],
    zone=[
        {"name": "top", "faces": ["board.top"], "surface": "bare", "step": [
            {"do": "lime wax", "product": "white wax", "coats": 2, "loss": "20 %"},
            {"do": "decal", "what": "rose decals", "count": 6, "product": "fluid",
             "each": "2 ml"},
        ]},
        {"name": "rest", "faces": ["board"], "leave": True},
    ],
    product=[
        {"name": "white wax", "kind": "liming wax", "packs": [{"size": "50 g"}]},
        {"name": "fluid", "kind": "glue", "packs": [{"size": "50 ml"}]},
    ],
)  # fmt: skip
EXACT = 1e-12
"""A few float64 operations."""


@pytest.fixture
def supplies(job: Callable) -> dict[str, Supply]:
    found = job(PIECE)
    return {s.name: s for s in supplies_of(found.piece, list(found.needs.values()), Draws())}


def test_needs_are_those_worked_out_by_hand(supplies: dict[str, Supply]) -> None:
    assert pytest.approx(0.1, rel=EXACT) == supplies["white wax"].worked_out
    # 1e-4: half a slice of the draws, and the last digit worked out
    assert pytest.approx(0.09503, rel=1e-4) == supplies["white wax"].need.likely
    assert pytest.approx(0.012, rel=EXACT) == supplies["fluid"].need.likely
    assert ("kg", "L") == (supplies["white wax"].unit, supplies["fluid"].unit)


def test_coverage_of_liming_wax_is_marked_assumed(supplies: dict[str, Supply]) -> None:
    (covers,) = [f for f in supplies["white wax"].factors if f.what.quantity == "coverage"]
    assert ("assumed", 25.0) == (covers.source, covers.range.likely)


def test_spread_of_the_coverage_is_bought_for(supplies: dict[str, Supply]) -> None:
    """Nine times in ten the wax goes further than 19 m2/kg, and 100 g are not enough."""
    wax = supplies["white wax"]
    assert 0.1 < wax.need.buy_for < 2 / 15 / 0.8
    assert [(0.05, 3)] == [(pack.size, count) for pack, count in wax.buy]


def test_list_explains_both(job: Callable, supplies: dict[str, Supply]) -> None:
    piece = job(PIECE).piece
    lines = {
        name: use_line(piece, supply, supply.uses[0], Units.METRIC)
        for name, supply in supplies.items()
    }
    assert lines["fluid"] == "top: rose decals: 6 x 2.00 ml = 12.0 ml"
    assert lines["white wax"].startswith("top: 1.000 m2 / 25 m2/kg x (1 / 100 % + 2 - 1)")


def test_decals_without_a_product_need_nothing(job: Callable) -> None:
    text = PIECE.replace('product = "fluid"\neach = "2 ml"\n', "")
    text = text[: text.index('[[product]]\nname = "fluid"')]
    assert {("white wax", None)} == set(job(text).needs)
