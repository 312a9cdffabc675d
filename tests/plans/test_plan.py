"""The plan of a job: what is done when, what makes it impossible, what it rests on."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime, timedelta
from itertools import pairwise

import pytest

from surfacecalc.model.inputs import Input
from surfacecalc.plans.plan import Plan, PlanEntry
from surfacecalc.plans.tasks import hands_on_h
from surfacecalc.problems import Problem
from surfacecalc.work.task_words import format_moment

COAT = 'do = "coat"\nproduct = "paint"\ncoats = {}\nby = "roller"\ntime = "{}"'
SAND = 'do = "sand"\ngrits = [120]\nwith = "disc"\ntime = "{}"'
NO_SET_UP = '[workshop]\nset_up = "0 min"\n'
WEEKEND = f'{NO_SET_UP}hours = ["sat-sun 09:00-17:00"]\n'


def times(entries: tuple[PlanEntry, ...]) -> list[tuple[str, str, str]]:
    """Return zone, beginning and end of each task."""
    return [
        (entry.task.zone, format_moment(entry.starts), format_moment(entry.ends))
        for entry in entries
    ]


def test_one_zone_is_worked_while_the_other_dries(plan: Callable, step_zone: Callable) -> None:
    """By hand: paint waits 4 h, so both first coats come before both second ones."""
    found = plan(WEEKEND, *(step_zone(name, COAT.format(2, "2 h")) for name in ("one", "two")))
    assert [
        ("one", "Sat 28 Nov 09:00", "Sat 28 Nov 10:00"),
        ("two", "Sat 28 Nov 10:00", "Sat 28 Nov 11:00"),
        ("one", "Sat 28 Nov 14:00", "Sat 28 Nov 15:00"),
        ("two", "Sat 28 Nov 15:00", "Sat 28 Nov 16:00"),
    ] == times(found.entries)
    assert (4.0, 0.0, 1) == (found.hands_on_h, found.set_up_h, found.days)
    assert datetime(2026, 11, 28, 16) == found.worked
    assert datetime(2026, 11, 28, 20) == found.handled  # hard enough for a coat more after 4 h
    assert datetime(2026, 11, 29, 9) == found.delivered
    assert datetime(2026, 12, 12, 16) == found.used  # cured after 14 days
    assert found.is_shortest


def test_piece_is_not_delivered_before_the_wait_of_a_last_step_is_over(
    plan: Callable, step_zone: Callable
) -> None:
    found = plan(WEEKEND, step_zone("one", COAT.format(1, "1 h") + '\nwait = "3 days"'))
    assert datetime(2026, 12, 1, 10) == found.handled
    assert datetime(2026, 12, 5, 9) == found.delivered  # the next Saturday


def test_step_waits_for_the_zones_it_follows(plan: Callable, step_zone: Callable) -> None:
    after = COAT.format(1, "1 h") + '\nafter = ["two"]'
    found = plan(WEEKEND, step_zone("one", after), step_zone("two", COAT.format(1, "1 h")))
    assert [
        ("two", "Sat 28 Nov 09:00", "Sat 28 Nov 10:00"),
        ("one", "Sat 28 Nov 14:00", "Sat 28 Nov 15:00"),
    ] == times(found.entries)


def test_sanding_stops_at_closing_time_and_goes_on(plan: Callable, step_zone: Callable) -> None:
    found = plan(WEEKEND, step_zone("one", SAND.format("10 h")))
    (entry,) = found.entries
    assert (
        (datetime(2026, 11, 28, 9), datetime(2026, 11, 28, 17)),
        (datetime(2026, 11, 29, 9), datetime(2026, 11, 29, 11)),
    ) == entry.sessions
    assert (datetime(2026, 11, 28, 9), datetime(2026, 11, 29, 11)) == (entry.starts, entry.ends)
    assert 2 == found.days


def test_coat_that_does_not_fit_any_more_waits_for_the_next_hours(
    plan: Callable, step_zone: Callable
) -> None:
    steps = SAND.format("5 h"), COAT.format(1, "4 h")
    found = plan(WEEKEND, step_zone("one", *steps))
    assert [
        ("one", "Sat 28 Nov 09:00", "Sat 28 Nov 14:00"),
        ("one", "Sun 29 Nov 09:00", "Sun 29 Nov 13:00"),
    ] == times(found.entries)


def test_coat_longer_than_all_hours_is_told_with_its_line(
    job: Callable, step_zone: Callable
) -> None:
    found = job(WEEKEND, step_zone("one", COAT.format(1, "9 h"))).plan()
    (problem,) = found
    assert isinstance(problem, Problem)
    assert 'zone "one" step 1' == problem.where
    assert "needs 9 h without a break" in problem.message
    assert "longest working hours are 8 h" in problem.message
    assert problem.line is not None
    assert problem.line > 40


def test_coat_longer_than_the_usual_hours_is_told_that_they_are_assumed(
    job: Callable, step_zone: Callable
) -> None:
    (problem,) = job(step_zone("one", COAT.format(1, "9 h"))).plan()
    assert "(mon-fri 18:00-21:00, sat-sun 09:00-17:00, assumed)" in problem.message


def test_zones_that_wait_for_each_other_are_told_once(job: Callable, step_zone: Callable) -> None:
    one = COAT.format(1, "1 h") + '\nafter = ["two"]'
    two = COAT.format(1, "1 h") + '\nafter = ["one"]'
    (problem,) = job(step_zone("one", one), step_zone("two", SAND.format("1 h"), two)).plan()
    assert 'zone "one"' == problem.where
    assert 'waits for "two", which waits for "one"' in problem.message


def test_work_of_many_years_is_told(job: Callable, step_zone: Callable) -> None:
    hours = '[workshop]\nhours = ["sat 09:00-10:00"]'
    (problem,) = job(hours, step_zone("one", SAND.format("9000 h"))).plan()
    assert "workshop" == problem.where
    assert "more than 10 years" in problem.message


def test_plan_begins_at_the_next_hours_from_now(job: Callable, step_zone: Callable) -> None:
    found = job(step_zone("one", SAND.format("1 h"))).plan(datetime(2026, 11, 25, 22, 7))
    assert datetime(2026, 11, 26, 18) == found.entries[0].starts


def test_start_of_the_file_goes_before_now(job: Callable, step_zone: Callable) -> None:
    start = "[workshop]\nstart = 2027-01-04"
    found = job(start, step_zone("one", SAND.format("1 h"))).plan()
    assert datetime(2027, 1, 4, 18) == found.entries[0].starts


def test_nothing_to_do_has_no_dates(plan: Callable) -> None:
    found = plan('[[zone]]\nname = "one"\nfaces = ["one"]\nleave = true')
    assert () == found.entries
    assert (None,) * 4 == (found.worked, found.handled, found.delivered, found.used)
    assert (0, 0) == (found.days, found.hands_on_h)


def test_every_assumed_rate_is_told_once(plan: Callable, step_zone: Callable) -> None:
    step = 'do = "coat"\nproduct = "paint"\ncoats = 2\nby = "roller"'
    found = plan(step_zone("one", step), step_zone("two", step))
    found_inputs = [factor.what for factor in found.assumed]
    assert [Input("rate", of="coat", by="roller"), Input("set-up", of="coat")] == found_inputs


def test_what_the_file_gives_is_not_assumed(plan: Callable, step_zone: Callable) -> None:
    assert () == plan(NO_SET_UP, step_zone("one", COAT.format(1, "1 h"))).assumed


def test_product_without_drying_times_is_told_unless_the_step_says_the_wait(
    job: Callable, step_zone: Callable
) -> None:
    def planned(*steps: str) -> Plan:
        found = job(WEEKEND, step_zone("one", *steps))
        paint = replace(found.piece.shelf.products["paint"], drying=None)
        shelf = found.piece.shelf
        shelf = replace(shelf, products={**shelf.products, "paint": paint})
        piece = replace(found.piece, shelf=shelf)
        made = replace(found, piece=piece).plan()
        assert isinstance(made, Plan)
        return made

    without = planned(COAT.format(2, "1 h"))
    assert ("paint",) == without.unknown
    assert any("No drying time is known" in text and "paint" in text for text in without.mind)
    assert datetime(2026, 11, 28, 10) == without.handled  # no wait is made up
    assert () == planned(COAT.format(2, "1 h") + '\nwait = "2 h"').unknown


def test_waits_of_the_plan_are_held_and_hands_do_one_thing_at_a_time(
    plan: Callable, step_zone: Callable
) -> None:
    """Each task of a zone begins after the wait before it, in hours, and no two overlap."""
    step = COAT.format(3, "90 min")
    found: Plan = plan(
        '[workshop]\ntemperature = "14 C"\nhours = ["mon-sun 08:00-11:30"]',
        *(step_zone(name, SAND.format("2 h"), step) for name in ("one", "two")),
    )
    assert sum(len(entry.sessions) for entry in found.entries) >= 8
    for entry, later in pairwise(found.entries):
        assert entry.ends <= later.starts
    for name in ("one", "two"):
        chain = [entry for entry in found.entries if entry.task.zone == name]
        for entry, later in pairwise(chain):
            assert later.starts >= entry.next_from
            assert entry.next_from >= entry.ends + timedelta(hours=entry.task.wait.next_h)
    for entry in found.entries:
        assert entry.task.work_min == sum(
            (end - start) // timedelta(minutes=1) for start, end in entry.sessions
        )
        assert entry.task.can_pause or len(entry.sessions) == 1
        for start, end in entry.sessions:
            assert (8, 0) <= (start.hour, start.minute) <= (end.hour, end.minute) <= (11, 30)


@pytest.mark.parametrize(
    ("time", "minutes"), [("1 min", 5), ("7 min", 5), ("7.5 min", 10), ("12 min", 10)]
)
def test_work_is_rounded_to_the_nearest_five_minutes_but_never_to_none(
    plan: Callable, step_zone: Callable, time: str, minutes: int
) -> None:
    (entry,) = plan(WEEKEND, step_zone("one", SAND.format(time))).entries
    assert timedelta(minutes=minutes) == entry.ends - entry.starts


def test_closed_days_that_leave_none_are_told_with_their_years(
    job: Callable, step_zone: Callable
) -> None:
    closed = '[workshop]\nstart = 2026-11-28\nclosed = "2026-11-01 to 2199-12-31"'
    (problem,) = job(closed, step_zone("one", SAND.format("1 h"))).plan()
    assert "workshop" == problem.where
    assert (
        "closed leaves no day to work within 10 years of Sat 28 Nov 2026; check its dates"
        == problem.message
    )


def test_closed_days_are_named_where_work_would_take_too_many_years(
    job: Callable, step_zone: Callable
) -> None:
    closed = '[workshop]\nstart = 2026-11-28\nclosed = "2026-11-29 to 2199-12-31"'
    (problem,) = job(closed, step_zone("one", SAND.format("20 h"))).plan()
    assert "check hours, closed, and every time, rate and wait" in problem.message


def test_lines_add_up_to_the_total_that_is_shown_and_charged(
    job: Callable, step_zone: Callable
) -> None:
    """Of 12 min each, rounded to 10: not one of these sums may be of other numbers."""
    found = job(WEEKEND, *(step_zone(name, SAND.format("12 min")) for name in ("one", "two")))
    made = found.plan()
    minutes = [(end - start).seconds // 60 for e in made.entries for start, end in e.sessions]
    assert [10, 10] == minutes
    assert sum(minutes) / 60 == made.hands_on_h == hands_on_h(found.piece, found.measured)
    assert made.hands_on_h == sum(entry.task.hands_on_h for entry in made.entries)


def test_only_closed_days_that_a_plan_goes_round_are_named(
    plan: Callable, step_zone: Callable
) -> None:
    """10 h of sanding from a Saturday at midnight: the rest is done on the Saturday after.

    The days before end as the work may start, those of the year after come when it is over.
    """
    days = ["2027-06-01", "2026-11-29", "2026-11-20 to 2026-11-27"]
    closed = f"start = 2026-11-28\nclosed = {days}\n"
    found = plan(WEEKEND + closed, step_zone("one", SAND.format("10 h")))
    assert [datetime(2026, 11, 28, 9), datetime(2026, 12, 5, 9)] == [
        start for start, _ in found.entries[0].sessions
    ]
    assert [(date(2026, 11, 29), date(2026, 11, 29))] == [
        (one.first, one.last) for one in found.closed
    ]
