"""What an assumed figure moves is worth so much of a pack; compared with what a price makes of it.

How far a figure goes is the same in both jobs of a test, so the ratio of what it moves is that of
two prices, worked out by hand, whatever the catalogue says.
"""

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest
from piece_texts import measured, piece_text

from surfacecalc.api import supplies
from surfacecalc.model.inputs import Input
from surfacecalc.model.ranges import Factor, Range
from surfacecalc.plans.tasks import tasks_of
from surfacecalc.prices.assumed_figures import (
    figures_of_hours,
    figures_of_quote,
    figures_of_supplies,
)
from surfacecalc.prices.materials import Material
from surfacecalc.prices.quotes import Quote, quote

DISCS = [{"count": 10, "price": 8}]
PAINT = [{"size": "250 ml", "price": 11}, {"size": "1 L", "price": 36}]
AVERAGE = (8 + 11) / 2
"""What a smallest pack costs on average: ten discs, or 250 ml of paint."""
LIFE, OF_PRIMER = Input("abrasive life", of="disc", grit=120), Input("loss", by="roller")
BY_CLOTH = Input("loss", by="cloth")
EXACT = 1e-9  # floating point alone


def coat(product: str, by: str, **more: str) -> dict[str, Any]:
    return {"do": "coat", "product": product, "coats": 1, "by": by, **more}


def job_text(
    *more: dict[str, Any],
    discs: Any = DISCS,
    paint: Any = PAINT,
    primer: Any = None,
    wax: Any = None,
    **tables: Any,
) -> str:
    """A board of 0.436 m2 that is sanded, primed and painted; `more` steps follow."""
    goods = {"discs": discs, "paint": paint, "primer": primer, "wax": wax}
    packs = {name: {"packs": found} if found else {} for name, found in goods.items()}
    return piece_text(
        {"do": "sand", "grits": [120], "with": "disc"},
        coat("primer", "roller"),
        coat("paint", "brush"),
        *more,
        piece={"currency": "EUR"},
        abrasive={"name": "disc", "form": "125 mm disc", **packs["discs"]},
        product=[
            {"name": "primer", "kind": "primer", "covers": "10 m2/L", **packs["primer"]},
            {"name": "paint", "kind": "paint", "covers": "10 m2/L", **packs["paint"]},
            {"name": "wax", "kind": "paste wax", "covers": "20 m2/kg", **packs["wax"]},
            *tables.pop("products", []),
        ],
        **tables,
    )


def moved(*steps: dict[str, Any], **given: Any) -> dict[Input, float]:
    job = measured(job_text(*steps, **given))
    found = figures_of_supplies(job.piece, supplies(job))
    return {one.factor.what: one.by for one in found}


def test_discs_without_a_price_count_as_five_for_the_price_of_a_small_tin() -> None:
    ratio = moved(discs=None)[LIFE] / moved()[LIFE]
    assert (11 / 5) / (8 / 10) == pytest.approx(ratio, rel=EXACT)


def test_what_has_no_price_counts_as_half_a_litre_for_the_average_of_all_small_packs() -> None:
    """The smallest packs are 10 discs at 8 and 250 ml at 11, not a litre at 36."""
    ratio = moved()[OF_PRIMER] / moved(primer=[{"size": "1 L", "price": 20}])[OF_PRIMER]
    assert (AVERAGE / 0.5) / 20 == pytest.approx(ratio, rel=EXACT)


def test_what_has_no_price_but_packs_counts_as_the_smallest_of_them() -> None:
    packs = [{"size": "2 L"}, {"size": "100 ml"}]
    ratio = moved(primer=packs)[OF_PRIMER] / moved()[OF_PRIMER]
    assert (AVERAGE / 0.1) / (AVERAGE / 0.5) == pytest.approx(ratio, rel=EXACT)


def test_what_is_sold_by_weight_counts_as_half_a_kilo() -> None:
    step = coat("wax", "cloth")
    ratio = moved(step)[BY_CLOTH] / moved(step, wax=[{"size": "1 kg", "price": 20}])[BY_CLOTH]
    assert (AVERAGE / 0.5) / 20 == pytest.approx(ratio, rel=EXACT)


def test_a_thinner_without_packs_counts_as_well() -> None:
    """A tenth of spirits beside each litre of oil, as dear as that: a tenth more."""
    oil = [{"name": "oil", "kind": "oil", "covers": "10 m2/L"}]
    plain, thinned = (
        moved(coat("oil", "cloth", **keys), products=oil)[BY_CLOTH]
        for keys in ({}, {"thin": "10 %"})
    )
    assert 1.1 == pytest.approx(thinned / plain, rel=EXACT)


def mixed(white: Any, black: Any) -> float:
    """Return what the loss of a mix moves, one part of black in three of white."""
    parts = [{"product": "white", "parts": 3}, {"product": "black", "parts": 1}]
    products = [
        {
            "name": "white",
            "kind": "paint",
            "covers": "10 m2/L",
            **({"packs": white} if white else {}),
        },
        {
            "name": "black",
            "kind": "paint",
            "covers": "10 m2/L",
            **({"packs": black} if black else {}),
        },
    ]
    steps = [coat("grey", "spray"), {**coat("white", "spray"), "loss": "30 %"}]
    mix = {"name": "grey", "recipe": parts, "measure": "10 ml"}
    return moved(*steps, products=products, mix=mix)[Input("loss", by="spray")]


def test_a_mix_is_worth_its_parts() -> None:
    """Three quarters of white at 20 and a quarter of black at 60 are 30 a litre."""
    white, black = ([{"size": "1 L", "price": price}] for price in (20, 60))
    both, only_white = mixed(white, black), mixed(white, None)
    neither = mixed(None, None)
    assert (15 + 15) / 15 == pytest.approx(both / only_white, rel=EXACT)
    assert (15 + 15) / (AVERAGE / 0.5) == pytest.approx(both / neither, rel=EXACT)


def test_hours_alone_are_compared_in_hours() -> None:
    """From 0 to 2 h, likely 1 h, and 10 h come from it: 20 h more or less."""
    some = Factor(Input("set-up", of="coat"), Range(0.0, 1.0, 2.0), "assumed", unit="h")
    assert [20.0] == [one.by for one in figures_of_hours({some: 10.0})]


@pytest.fixture
def quoted() -> Any:
    def run(**price: Any) -> tuple[Any, Quote]:
        job = measured(job_text(primer=PAINT, price=price))
        found = quote(job.piece, supplies(job), 2.0)
        assert isinstance(found, Quote)
        return job, found

    return run


def test_hours_that_cost_money_matter_as_much_as_hours_that_earn_it(quoted: Any) -> None:
    job, found = quoted(asked=1)
    tasks = [task for chain in tasks_of(job.piece, job.measured).values() for task in chain]
    assert found.given
    assert found.given.rate < 0
    assert all(one.by >= 0 for one in figures_of_quote(job.piece, found, tasks))


def test_only_what_nobody_measured_is_called_assumed(quoted: Any) -> None:
    hours = "hours come from the plan, which uses assumed figures"
    _, planned = quoted(rate=30)
    _, given = quoted(rate=30, hours=3)
    needs = "needs use assumed figures, see the supply list: disc, primer, paint"
    assert (hours, needs) == planned.assumed
    assert (needs,) == given.assumed
    known = [
        replace(item, supply=replace(item.supply, factors=()))
        if item.supply.what == "product"
        else item
        for item in planned.materials
    ]
    assert (
        "needs use assumed figures, see the supply list: disc"
        == replace(given, materials=tuple(known)).assumed[0]
    )
    assert (hours,) == replace(planned, materials=()).assumed
    assert () == replace(given, materials=()).assumed


def test_what_has_no_price_keeps_nothing_and_two_packs_cost_twice_as_much(quoted: Any) -> None:
    _, found = quoted(rate=30)
    supply = next(item.supply for item in found.materials if item.supply.name == "paint")
    ((pack, _),) = supply.buy
    assert (False, Decimal(0)) == (Material(supply, ()).is_counted, Material(supply, ()).kept)
    two = Material(supply, ((pack, 2),))
    assert (Decimal(22), Decimal(44)) == (two.paid, two.per_unit)
