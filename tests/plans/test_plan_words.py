"""A plan in sentences: how sure it is, closed days, changes of the clock."""

import json
from collections.abc import Callable
from dataclasses import replace
from datetime import date

import pytest

from surfacecalc.model.workshop import ClosedDays
from surfacecalc.plans.plan import Plan
from surfacecalc.reports.plan_json import plan_json
from surfacecalc.reports.plan_words import calendar_words, likely_ends_words

COATS = 'do = "coat"\nproduct = "paint"\ncoats = 2\nby = "roller"\ntime = "4 h"'


@pytest.fixture
def made(plan: Callable, step_zone: Callable) -> Plan:
    """Second coat on Saturday until 17:40 or, where it does not fit, on Sunday; dry 4 h later."""
    hours = '[workshop]\nset_up = "20 min"\nhours = ["sat 09:00-18:00", "sun 09:00-13:00"]\n'
    found: Plan = plan(hours, step_zone("one", COATS))
    return found


def test_dates_and_hours_are_one_sentence(made: Plan) -> None:
    """Two coats of 2 h 20: 4 h 40, in nine of ten cases from 3.2 to 6.8 h (-31 %, +46 %)."""
    assert (
        "Ready by Sat 5 Dec 2026 in 9 of 10 cases, with 3 to 7 hours of work."
        == likely_ends_words(made)
    )


def test_no_date_is_promised_where_a_drying_time_is_not_known(made: Plan) -> None:
    unknown = replace(made, unknown=("paint",))
    assert "It is 3 to 7 hours of work in 9 of 10 cases." == likely_ends_words(unknown)


def test_nothing_to_do_says_nothing(plan: Callable) -> None:
    assert "" == likely_ends_words(plan('[[zone]]\nname = "one"\nfaces = ["one"]\nleave = true'))


def test_closed_days_and_changes_of_the_clock_are_named(made: Plan) -> None:
    assert [] == list(calendar_words(made))
    day = date(2026, 12, 24)
    full = replace(
        made,
        closed=(ClosedDays(day, day), ClosedDays(date(2026, 12, 28), date(2027, 1, 3))),
        clock_changes=(date(2027, 3, 28), date(2027, 10, 31)),
    )
    assert [
        "Closed: Thu 24 Dec, Mon 28 Dec to Sun 3 Jan.",
        "The clock changes on Sun 28 Mar and Sun 31 Oct; waits are counted in real hours.",
    ] == list(calendar_words(full))


def test_json_has_no_latest_date_where_a_drying_time_is_not_known(
    job: Callable, step_zone: Callable
) -> None:
    found = job(step_zone("one", COATS))
    made = found.plan()
    known = json.loads(plan_json(found.piece, made, {}))
    unknown = json.loads(plan_json(found.piece, replace(made, unknown=("paint",)), {}))
    for by in ("worked_by", "handled_by", "delivered_by", "used_by"):
        assert known[by] >= known[by.removesuffix("_by")]
        assert None is unknown[by]
    for end in ("hands_on_low_h", "hands_on_high_h"):
        assert known[end] == unknown[end]
    assert known["hands_on_low_h"] < known["hands_on_h"] < known["hands_on_high_h"]
    assert 0.9 == known["cases"]
