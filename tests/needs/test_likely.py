"""What is called likely is what half of all jobs stay below: in needs, plans and prices."""

from decimal import Decimal
from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from piece_texts import exact, measured, piece_text

from surfacecalc import api
from surfacecalc.model.inputs import Input
from surfacecalc.model.ranges import Factor, Range
from surfacecalc.model.step_facts import coat_of, likely_coats
from surfacecalc.model.steps import Coat
from surfacecalc.needs.coating import coat_count
from surfacecalc.needs.draws import Draws

CUBE = {"shape": "board", "width": "1 m", "depth": "1 m", "height": "1 m"}
RANGES = [(1, 1, 1), (2, 2, 3), (1, 1, 4), (2, 3, 3), (1, 2, 6), (1, 4, 4), (2, 2, 4)]
CHANGES = [None, "dark to light", "to clear red"]


def job(coats, covers, *, change=None, more=""):
    step = {"do": "coat", "product": "paint", "coats": coats, "by": "brush", "loss": "0 %"}
    zone = {"name": "all", "faces": ["*"], "surface": "sealed"}
    if change:
        step["change"] = change
    paint = {"name": "paint", "kind": "waterborne paint", "covers": covers,
             "packs": [{"size": "1 L", "price": 20}]}  # fmt: skip
    text = piece_text(
        step, piece={"currency": "EUR"}, part=CUBE, zone=zone, product=paint,
        price={"rate": 30, "hours": 1},
    )  # fmt: skip
    return measured(text + more)


@settings(max_examples=20, deadline=None)
@given(
    st.sampled_from(RANGES),
    st.lists(st.floats(2, 40), min_size=3, max_size=3).map(sorted),
    st.sampled_from(CHANGES),
)
def test_half_of_all_draws_are_below_the_likely_need(coats, covers, change):
    low, likely, high = (f"{value:.3f} m2/L" for value in covers)
    (line,) = api.supplies(job(list(coats), [low, likely, high], change=change))
    assert np.median(line.drawn) == line.need.likely
    assert line.need.low <= line.need.likely <= line.need.high


def coat_of_range(values, more) -> Coat:
    """Return a step whose coats, and whose extra coats, are ranges."""

    def share(quantity):
        return Factor(Input(quantity), Range.fixed(1.0), "assumed")

    coats = Factor(Input("coats", where="here"), Range(*values), "piece file", unit="coats")
    extra = None
    if more:
        extra = Factor(Input("extra coats", by="it"), Range(*more), "assumed", unit="coats")
    return Coat("paint", coats, "brush", share("loss"), share("allowance"), share("first coat"),
                None, 1, more_coats=extra)  # fmt: skip


@pytest.mark.parametrize(
    ("values", "more"), list(product(RANGES, [None, (0, 1, 2), (1, 2, 3), (0, 0, 1), (0, 0, 3)]))
)
def test_likely_coats_are_the_median_of_the_drawn_ones(values, more):
    coat = coat_of_range(values, more)
    drawn = np.broadcast_to(coat_count(coat, Draws()), 65_536)
    # where just half of all jobs need no more coats, either number is the middle
    below = [np.mean(drawn <= number) for number in (likely_coats(coat) - 1, likely_coats(coat))]
    assert below[0] < 0.503
    assert below[1] > 0.497


@pytest.mark.parametrize(("coats", "likely"), [([1, 1, 4], 2), ([2, 2, 3], 2), ([2, 3, 3], 3)])
def test_a_plan_has_the_likely_coats(coats, likely):
    """Of 1 to 4 coats, 1 the most often: half of all jobs need 2, as 4 - sqrt(4.5) is 1.88."""
    found = job(coats, "10 m2/L")
    assert likely == len(list(api.plan(found).entries))
    (line,) = api.supplies(found)
    coat = coat_of(line.uses[0].step)
    assert coat is not None
    assert likely == likely_coats(coat)


def test_what_is_used_is_priced_at_what_half_of_all_jobs_need():
    """6 m2 at 14 - sqrt(6 x 4 / 2) = 10.536 m2/L are 0.5695 L of 20 a litre; at 10 m2/L 0.6 L."""
    found = job(1, ["8 m2/L", "10 m2/L", "14 m2/L"], more='[workshop]\nown_spread = "0 %"\n')
    (material,) = api.quote(found).materials
    assert Decimal("11.39") == round(material.used, 2)


def test_likely_needs_of_zones_add_up_to_the_likely_need():
    (line,) = api.supplies(job([2, 2, 3], ["8 m2/L", "10 m2/L", "14 m2/L"]))
    # 1e-12: a sum of shares
    assert line.need.likely == pytest.approx(sum(line.by_zone.values()), rel=1e-12)


def test_numbers_taken_as_given_are_all_points():
    text = piece_text(
        {"do": "coat", "product": "paint", "coats": 2, "by": "brush"},
        zone={"surface": "sealed"},
        product={"name": "paint", "kind": "waterborne paint", "covers": "10 m2/L"},
    )
    (line,) = api.supplies(measured(exact(text)))
    # the usual loss is one number as well, and its assumed band goes with it
    assert line.need.low == line.need.high == line.worked_out
