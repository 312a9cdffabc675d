"""How many hours of a plan come from each assumed figure; worked by hand."""

from collections.abc import Callable

import pytest

from surfacecalc.model.inputs import Input
from surfacecalc.plans.assumed_hours import hands_on_by_input, hours_by_input

STEP = 'do = "coat"\nproduct = "paint"\ncoats = 2\nby = "roller"'
AREA_M2 = 2 * 1 + 4 * 0.1  # a board of 1 x 1 x 0.1 m


def test_work_and_set_up_are_added_up_over_the_coats(plan: Callable, step_zone: Callable) -> None:
    """2.4 m2 at 8 m2/h are 0.3 h for each coat, and each has 10 min of set-up and clean-up."""
    found = {one.what: hours for one, hours in hours_by_input(plan(step_zone("one", STEP))).items()}
    assert pytest.approx(2 * AREA_M2 / 8) == found[Input("rate", of="coat", by="roller")]
    assert pytest.approx(2 / 6) == found[Input("set-up", of="coat")]


def test_the_file_s_own_times_are_not_assumed(plan: Callable, step_zone: Callable) -> None:
    found = plan(step_zone("one", f'{STEP}\ntime = "1 h"'))
    assert [Input("set-up", of="coat")] == [one.what for one in hours_by_input(found)]
    hands_on = hands_on_by_input(entry.task for entry in found.entries)
    assert pytest.approx(1) == sum(
        hours for one, hours in hands_on.items() if one.what.quantity == "time"
    )


VARNISH = '[[product]]\nname = "varnish"\nkind = "oil varnish"\ncovers = "10 m2/L"\n'
WARM = '[workshop]\ntemperature = "20 C"\nset_up = "0 min"\n'


def test_waits_are_added_up_and_curing_counts_once(plan: Callable, step_zone: Callable) -> None:
    """Oil varnish may be recoated after 24 h and is cured after 21 days (catalogue, assumed).

    Two coats wait twice 24 h; both cure 21 days, and the last one says when it can be used.
    """
    step = 'do = "coat"\nproduct = "varnish"\ncoats = 2\nby = "brush"\ntime = "1 h"'
    found = {
        one.what: hours
        for one, hours in hours_by_input(plan(WARM + VARNISH, step_zone("one", step))).items()
    }
    assert 48 == pytest.approx(found[Input("recoat", of="varnish")])
    assert 21 * 24 == pytest.approx(found[Input("cure", of="varnish")])


def test_what_cures_before_the_last_coat_does_moves_nothing(
    plan: Callable, step_zone: Callable
) -> None:
    """The board "two" gets its varnish days after "one" and is cured last."""
    coat = 'do = "coat"\nproduct = "{}"\ncoats = 1\nby = "brush"\ntime = "1 h"\nwait = "3 days"'
    early = VARNISH.replace('"varnish"', '"early"', 1)
    first = step_zone("one", coat.format("early"))
    second = step_zone("two", coat.format("varnish") + '\nafter = ["one"]')
    made = plan(WARM + VARNISH + early, first, second)
    found = {one.what: hours for one, hours in hours_by_input(made).items()}
    assert 0 == found[Input("cure", of="early")]
    assert 21 * 24 == found[Input("cure", of="varnish")]
