"""Working hours against a clock that looks at every minute."""

from collections.abc import Sequence
from datetime import datetime

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from surfacecalc.model.workshop import DEFAULT_WINDOWS, MINUTES_IN_DAY, Window
from surfacecalc.plans.hours import WEEK, WorkingHours, moment, time_of

USUAL = WorkingHours(DEFAULT_WINDOWS)
ALWAYS = [Window(day, 0, MINUTES_IN_DAY) for day in range(7)]
OVER_MIDNIGHT = [Window(6, 22 * 60, MINUTES_IN_DAY), Window(0, 0, 120)]
MONDAY = datetime(2026, 11, 23)


def at(day: int, hour: int, minute: int = 0) -> int:
    """Return a moment of the week of Monday 23 Nov 2026."""
    return moment(MONDAY) + (day * 24 + hour) * 60 + minute


Spans = Sequence[tuple[int, int]]
QUARTERS = st.tuples(st.integers(0, 3 * 7 * 96), st.integers(1, 3 * 96))
CLOSED = st.lists(QUARTERS.map(lambda at: (15 * at[0], 15 * (at[0] + at[1]))), max_size=4)
"""Spans of up to three days within three weeks, which may touch or overlap."""


@st.composite
def windows(draw: st.DrawFn) -> list[Window]:
    """Draw windows that do not overlap, in quarters of an hour."""
    marks = draw(st.lists(st.integers(0, 7 * 96), min_size=2, max_size=8, unique=True).map(sorted))
    found = []
    for start, end in zip(marks[::2], marks[1::2], strict=False):
        for day in range(7):
            first, last = max(start, day * 96), min(end, (day + 1) * 96)
            if first < last:
                found.append(Window(day, (first - day * 96) * 15, (last - day * 96) * 15))
    return found


def open_minutes(given: list[Window], closed: Spans, start: int, end: int) -> np.ndarray:
    """Return the open minutes from one to another, by looking at each."""
    week = np.zeros(WEEK, bool)
    for w in given:
        week[w.day * MINUTES_IN_DAY + w.starts_min : w.day * MINUTES_IN_DAY + w.ends_min] = True
    is_open = np.tile(week, end // WEEK + 1)[:end]
    for first, last in closed:
        is_open[first:last] = False
    return start + np.flatnonzero(is_open[start:])


@pytest.mark.parametrize("time", [MONDAY, datetime(1999, 12, 31, 23, 59), datetime(2200, 2, 28)])
def test_moment_and_time_are_inverse(time: datetime) -> None:
    assert time == time_of(moment(time))


def test_moment_of_a_time_with_seconds_is_the_next_minute() -> None:
    assert moment(datetime(2026, 11, 23, 0, 1)) == moment(datetime(2026, 11, 23, 0, 0, 30))


def test_work_begins_at_the_next_opening() -> None:
    assert at(0, 18) == USUAL.opening(at(0, 7))
    assert at(0, 19) == USUAL.opening(at(0, 19))
    assert at(1, 18) == USUAL.opening(at(0, 21))
    assert at(7, 18) == USUAL.opening(at(6, 17))


def test_work_that_can_pause_stops_at_closing_time_and_goes_on() -> None:
    assert (at(0, 20), at(1, 19)) == USUAL.span(at(0, 20), 120, can_pause=True)
    assert [(at(0, 20), at(0, 21)), (at(1, 18), at(1, 19))] == list(
        USUAL.stretches(at(0, 20), at(1, 19))
    )


def test_coat_waits_for_hours_that_hold_it() -> None:
    assert (at(1, 18), at(1, 20)) == USUAL.span(at(0, 20), 120, can_pause=False)
    assert (at(5, 9), at(5, 13)) == USUAL.span(at(0, 20), 240, can_pause=False)


def test_coat_that_just_fits_ends_at_closing_time() -> None:
    assert (at(0, 19), at(0, 21)) == USUAL.span(at(0, 19), 120, can_pause=False)


def test_hours_that_touch_are_one_stretch() -> None:
    hours = WorkingHours([Window(0, 540, 720), Window(0, 720, 1020)])
    assert 480 == hours.longest
    assert (at(0, 9), at(0, 17)) == hours.span(at(0, 9), 480, can_pause=False)


def test_hours_over_midnight_and_over_the_end_of_the_week_are_one_stretch() -> None:
    hours = WorkingHours(OVER_MIDNIGHT)
    assert 240 == hours.longest
    assert (at(6, 22), at(7, 2)) == hours.span(at(3, 0), 240, can_pause=False)


def test_night_at_the_end_of_the_week_goes_on_into_monday_morning_only() -> None:
    """22 to 24 on Sunday and 0 to 2 on Monday are 4 h; an evening in the week adds none to them."""
    hours = WorkingHours([*OVER_MIDNIGHT, Window(2, 18 * 60, 21 * 60)])
    assert 240 == hours.longest
    assert [(at(6, 23), at(7, 2)), (at(9, 18), at(9, 19))] == list(
        hours.stretches(at(6, 23), at(9, 19))
    )


def test_sunday_night_is_over_at_midnight_where_monday_begins_later() -> None:
    hours = WorkingHours([Window(6, 22 * 60, MINUTES_IN_DAY), Window(0, 60, 120)])
    assert 120 == hours.longest
    assert [(at(6, 23), at(7, 0)), (at(7, 1), at(7, 2))] == list(
        hours.stretches(at(6, 23), at(7, 2))
    )


def test_monday_morning_does_not_follow_a_sunday_that_ends_before_midnight() -> None:
    hours = WorkingHours([Window(6, 22 * 60, 23 * 60), Window(0, 0, 120)])
    assert 120 == hours.longest
    assert [(at(6, 22), at(6, 23)), (at(7, 0), at(7, 2))] == list(
        hours.stretches(at(6, 22), at(7, 2))
    )


def test_hours_that_never_end_have_no_longest_stretch() -> None:
    hours = WorkingHours(ALWAYS)
    assert hours.longest is None
    assert (at(6, 23), at(8, 5)) == hours.span(at(6, 23), 30 * 60, can_pause=False)
    assert [(at(6, 23), at(8, 5))] == list(hours.stretches(at(6, 23), at(8, 5)))
    year = 365 * MINUTES_IN_DAY
    assert [(at(0, 0), at(0, 0) + year)] == list(hours.stretches(at(0, 0), at(0, 0) + year))


@settings(deadline=None)
@given(windows(), CLOSED, st.integers(0, 2 * WEEK), st.integers(1, 3000))
def test_pausing_work_takes_the_first_open_minutes(
    given: list[Window], closed: Spans, ready: int, work: int
) -> None:
    hours = WorkingHours(given, closed)
    start, end = hours.span(ready, work, can_pause=True)
    found = open_minutes(given, closed, ready, end)
    assert (work, start, end - 1) == (len(found), found[0], found[-1])
    worked = [np.arange(one, other) for one, other in hours.stretches(start, end)]
    assert np.array_equal(found, np.concatenate(worked))
    assert end == hours.end(ready, work)  # asked at a closed moment as well


@settings(deadline=None)
@given(windows(), CLOSED, st.integers(0, 2 * WEEK), st.integers(1, 600))
def test_work_at_a_stretch_takes_the_first_hours_that_hold_it(
    given: list[Window], closed: Spans, ready: int, work: int
) -> None:
    hours = WorkingHours(given, closed)
    if hours.longest is not None and work > hours.longest:
        return
    start, end = hours.span(ready, work, can_pause=False)
    assert end == start + work
    found = open_minutes(given, closed, ready, end)
    assert np.array_equal(np.arange(start, end), found[-work:])
    runs = np.split(found, np.flatnonzero(np.diff(found) > 1) + 1)
    runs[-1] = runs[-1][:-1]  # no earlier run of open minutes is as long
    assert all(len(run) < work for run in runs)


DAY = MINUTES_IN_DAY


def test_closed_days_are_skipped_and_the_longest_hours_stay_the_longest() -> None:
    saturday = at(5, 0)
    hours = WorkingHours(
        DEFAULT_WINDOWS, [(saturday + DAY, saturday + 2 * DAY), (saturday, saturday + DAY)]
    )
    assert 480 == hours.longest
    assert at(7, 18) == hours.opening(at(5, 9))
    assert (at(4, 20), at(7, 19)) == hours.span(at(4, 20), 120, can_pause=True)
    assert (at(12, 9), at(12, 15)) == hours.span(at(4, 20), 360, can_pause=False)


def test_hours_that_never_end_stop_at_a_closed_day() -> None:
    hours = WorkingHours(ALWAYS, [(at(2, 0), at(3, 0))])
    assert (at(1, 20), at(3, 4)) == hours.span(at(1, 20), 480, can_pause=True)
    assert (at(3, 0), at(3, 8)) == hours.span(at(1, 20), 480, can_pause=False)
    assert [(at(1, 20), at(2, 0)), (at(3, 0), at(3, 4))] == list(
        hours.stretches(at(1, 20), at(3, 4))
    )


def test_work_longer_than_all_hours_begins_in_the_longest_and_runs_over() -> None:
    """Only a drawn time is so long: a plan with such a task is refused."""
    assert (at(5, 9), at(5, 19)) == USUAL.span(at(0, 18), 600, can_pause=False)


QUARTER_OVER = WorkingHours(DEFAULT_WINDOWS, over=15)


@pytest.mark.parametrize(
    ("ready", "work", "can_pause", "span"),
    [
        # by hand: Monday has 18:00 to 21:00, and 15 min over
        (at(0, 18), 195, True, (at(0, 18), at(0, 21, 15))),
        (at(0, 18), 196, True, (at(0, 18), at(1, 18, 16))),
        (at(0, 20, 50), 25, True, (at(0, 20, 50), at(0, 21, 15))),
        (at(0, 20, 50), 26, True, (at(0, 20, 50), at(1, 18, 16))),
        (at(0, 20, 50), 10, True, (at(0, 20, 50), at(0, 21))),
        (at(0, 20, 50), 25, False, (at(0, 20, 50), at(0, 21, 15))),
        (at(0, 20, 50), 26, False, (at(1, 18), at(1, 18, 26))),
        (at(0, 18), 195, False, (at(0, 18), at(0, 21, 15))),
        (at(0, 18), 196, False, (at(5, 9), at(5, 12, 16))),
        # nothing begins at closing time or after it
        (at(0, 21), 10, True, (at(1, 18), at(1, 18, 10))),
        (at(0, 21, 5), 10, False, (at(1, 18), at(1, 18, 10))),
    ],
)
def test_task_runs_over_closing_time_by_what_is_allowed_and_no_minute_more(
    ready: int, work: int, can_pause: bool, span: tuple[int, int]
) -> None:
    assert span == QUARTER_OVER.span(ready, work, can_pause=can_pause)


def test_session_that_runs_over_is_one() -> None:
    assert [(at(0, 18), at(0, 21, 15))] == [*QUARTER_OVER.stretches(at(0, 18), at(0, 21, 15))]
    assert [(at(0, 20), at(0, 21)), (at(1, 18), at(1, 21, 15))] == [
        *QUARTER_OVER.stretches(at(0, 20), at(1, 21, 15))
    ]


def test_longest_stretch_has_what_is_allowed_over_with_it() -> None:
    assert (8 * 60, 8 * 60 + 15) == (USUAL.longest, QUARTER_OVER.longest)
    ten_apart = [Window(0, 540, 600), Window(0, 610, 660)]
    assert 70 == WorkingHours(ten_apart, over=15).longest
    assert WorkingHours(ALWAYS, over=15).longest is None


def test_task_does_not_run_over_into_a_closed_day_or_the_next_hours() -> None:
    """By hand: open on Monday up to midnight, Tuesday closed; and 9 to 10, then 10:10 to 11."""
    late = [Window(0, 22 * 60, 24 * 60), Window(2, 9 * 60, 12 * 60)]
    free = WorkingHours(late, over=15)
    shut = WorkingHours(late, [(at(1, 0), at(2, 0))], over=15)
    assert (at(0, 22), at(1, 0, 15)) == free.span(at(0, 22), 135, can_pause=True)
    assert (at(0, 22), at(2, 9, 15)) == shut.span(at(0, 22), 135, can_pause=True)
    assert (at(2, 9), at(2, 11, 15)) == shut.span(at(0, 22), 135, can_pause=False)
    twice = WorkingHours([Window(0, 540, 600), Window(0, 610, 660)], over=15)
    assert (at(0, 9), at(0, 10, 10)) == twice.span(at(0, 9), 70, can_pause=False)
    assert (at(0, 9), at(0, 10, 21)) == twice.span(at(0, 9), 71, can_pause=True)
    assert [(at(0, 9), at(0, 10, 10))] == [*twice.stretches(at(0, 9), at(0, 10, 10))]


def test_widened_hours_are_the_hours_and_what_is_allowed_over() -> None:
    """The evenings of the week end at 21:15, Saturday and Sunday at 17:15."""
    wide = QUARTER_OVER.widened()
    assert [(at(0, 20), at(0, 21, 15)), (at(1, 18), at(1, 19))] == [
        *wide.stretches(at(0, 20), at(1, 19))
    ]
    assert (at(5, 17, 14), at(6, 9)) == (wide.opening(at(5, 17, 14)), wide.opening(at(5, 17, 15)))
    assert 8 * 60 + 15 == wide.longest
    assert (USUAL.longest, at(1, 18)) == (480, USUAL.widened().opening(at(0, 21)))


@pytest.mark.parametrize(
    ("closes_min", "over_min", "longest_min"), [(23 * 60 + 45, 15, 195), (24 * 60, 30, 210)]
)
def test_a_sunday_night_is_widened_up_to_midnight_or_into_monday(
    closes_min: int, over_min: int, longest_min: int
) -> None:
    """Sunday from 22:00 on, and Monday's three hours with what is allowed over."""
    night = [Window(6, 22 * 60, closes_min), Window(0, 18 * 60, 21 * 60)]
    wide = WorkingHours(night, over=over_min).widened()
    ends = at(6, 0) + closes_min + over_min
    assert (ends - 1, at(7, 18)) == (wide.opening(ends - 1), wide.opening(ends))
    assert longest_min == wide.longest


def test_hours_that_never_end_stay_so_whatever_is_allowed_over() -> None:
    hours = WorkingHours(ALWAYS, over=15)
    for one in (hours, hours.widened()):
        assert one.longest is None
        assert (at(6, 23), at(8, 5)) == one.span(at(6, 23), 30 * 60, can_pause=False)
        assert [(at(0, 1), at(0, 3)), (at(0, 3), at(0, 4))] == one.spans(at(0, 1), [120, 60])


FAR = 40 * WEEK
"""400 min at a quarter of an hour a week take 27 weeks, after three that may be closed."""


def end_by_looking(given: list[Window], closed: Spans, over: int, start: int, work: int) -> int:
    """Return when pausable work is over, minute by minute from an open one on."""
    is_open = np.zeros(FAR, bool)
    is_open[open_minutes(given, closed, 0, FAR)] = True
    shut = {minute for first, last in closed for minute in range(first, last)}
    now = start
    while work:
        close = now + int(np.argmin(is_open[now:]))
        coming = close + int(np.argmax(is_open[close:]))
        may = next((k for k in range(over) if close + k in shut), over)
        if work <= close - now + min(may, coming - close):
            return now + work
        work -= close - now
        now = coming
    return now


@settings(deadline=None)
@given(windows(), CLOSED, st.sampled_from([5, 15, 40]), st.integers(0, WEEK), st.integers(1, 400))
def test_end_of_work_that_may_run_over_is_found_by_looking_at_each_minute(
    given: list[Window], closed: Spans, over: int, ready: int, work: int
) -> None:
    hours = WorkingHours(given, closed, over=over)
    if hours.longest is None:
        return
    start, end = hours.span(ready, work, can_pause=True)
    assert end_by_looking(given, closed, over, start, work) == end
    assert work == sum(last - first for first, last in hours.stretches(start, end))
    assert end >= hours.widened().end(start, work)


@pytest.mark.parametrize(
    ("ready", "works", "spans"),
    [
        # by hand: 2 h fit the evening from 18:30 on
        (at(0, 18, 30), (60, 60), [(18 * 60 + 30, 60), (19 * 60 + 30, 60)]),
        # from 19:30 on they do not, but the next evening they do
        (at(0, 19, 30), (60, 60), [(42 * 60, 60), (43 * 60, 60)]),
        # 3 h are just what the next evening has
        (at(0, 19, 30), (90, 90), [(42 * 60, 90), (43 * 60 + 30, 90)]),
        # 4 h fit no evening: what fits is done, the rest follows
        (at(0, 19, 30), (60, 120, 60), [(19 * 60 + 30, 60), (42 * 60, 120), (44 * 60, 60)]),
        (at(0, 20, 30), (60, 120, 60), [(42 * 60, 60), (43 * 60, 120), (66 * 60, 60)]),
        # on Friday evening they wait for Saturday, which has room for all
        (at(4, 18), (60, 120, 60), [(129 * 60, 60), (130 * 60, 120), (132 * 60, 60)]),
    ],
)
def test_works_that_cannot_pause_are_done_at_one_go_where_today_or_the_next_hours_allow(
    ready: int, works: tuple[int, ...], spans: list[tuple[int, int]]
) -> None:
    expected = [(at(0, 0) + start, at(0, 0) + start + work) for start, work in spans]
    assert expected == USUAL.spans(ready, works)
    assert expected == USUAL.spans(expected[0][0], works)


@given(st.integers(0, WEEK), st.integers(0, 600), st.lists(st.integers(5, 100), min_size=1))
def test_works_that_may_begin_later_are_never_over_sooner(
    ready: int, later: int, works: list[int]
) -> None:
    for hours in (USUAL, QUARTER_OVER):
        assert hours.spans(ready, works)[-1][1] <= hours.spans(ready + later, works)[-1][1]


def test_widened_hours_hold_what_runs_over_midnight_and_into_the_next_week() -> None:
    """Sunday 22:00 to midnight and an hour over: until Monday 1:00, and nothing else."""
    wide = WorkingHours([Window(6, 22 * 60, MINUTES_IN_DAY)], over=60).widened()
    assert [(at(6, 22), at(7, 1))] == list(wide.stretches(at(6, 22), at(7, 1)))
    assert at(13, 22) == wide.opening(at(7, 1))
    assert at(7, 1) == wide.end(at(6, 22), 180)
    plain = WorkingHours([Window(6, 22 * 60, MINUTES_IN_DAY)])
    assert plain is plain.widened()
    always = WorkingHours(ALWAYS, over=60)
    assert always is always.widened()
