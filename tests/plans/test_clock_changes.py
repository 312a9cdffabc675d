"""Waits over a change of the clock, against the zones that Python knows."""

import os
import subprocess
import sys
import time
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from surfacecalc.plans.clock_changes import LocalClock, local_clock
from surfacecalc.plans.hours import moment, time_of
from surfacecalc.plans.plan import Plan, make_plan

BERLIN, NEW_YORK, SYDNEY, LORD_HOWE, CASABLANCA, KOLKATA = ZONES = (
    "Europe/Berlin", "America/New_York", "Australia/Sydney", "Australia/Lord_Howe",
    "Africa/Casablanca", "Asia/Kolkata",
)  # fmt: skip
"""Lord Howe changes by half an hour; Casablanca twice within five weeks; Kolkata never."""


def offset_of(zone: str) -> Callable[[datetime], timedelta]:
    return lambda utc: utc.astimezone(ZoneInfo(zone)).utcoffset() or timedelta()


def clock_of(zone: str, start: datetime, days: int = 800) -> LocalClock:
    return local_clock(moment(start), moment(start + timedelta(days=days)), offset_of(zone))


CLOCKS = {zone: clock_of(zone, datetime(2026, 1, 1)) for zone in ZONES}


def really_later(zone: str, start: datetime, minutes: int) -> datetime:
    """Return the local time after a real wait, as the zones of Python count."""
    utc = start.replace(tzinfo=ZoneInfo(zone)).astimezone(UTC) + timedelta(minutes=minutes)
    return utc.astimezone(ZoneInfo(zone))


@pytest.mark.parametrize(
    ("zone", "start", "hours", "end"),
    [
        # Berlin: on 28 March 2027 the clock goes from 2:00 to 3:00, on 31 October from 3:00 to 2:00
        (BERLIN, datetime(2027, 3, 27, 20), 12, datetime(2027, 3, 28, 9)),
        (BERLIN, datetime(2027, 10, 30, 20), 12, datetime(2027, 10, 31, 7)),
        (BERLIN, datetime(2027, 3, 28, 1, 30), 1, datetime(2027, 3, 28, 3, 30)),
        (BERLIN, datetime(2027, 3, 27, 12), 12, datetime(2027, 3, 28, 0)),
        (BERLIN, datetime(2027, 3, 27, 14), 12, datetime(2027, 3, 28, 3)),
        (BERLIN, datetime(2027, 10, 30, 16), 12, datetime(2027, 10, 31, 3)),
        (BERLIN, datetime(2027, 3, 28, 3), 12, datetime(2027, 3, 28, 15)),
        (BERLIN, datetime(2027, 10, 31, 3), 12, datetime(2027, 10, 31, 15)),
        # New York: on 14 March 2027 forward, on 7 November back
        (NEW_YORK, datetime(2027, 3, 13, 20), 12, datetime(2027, 3, 14, 9)),
        (NEW_YORK, datetime(2027, 11, 6, 20), 12, datetime(2027, 11, 7, 7)),
        (SYDNEY, datetime(2027, 4, 3, 20), 12, datetime(2027, 4, 4, 7)),
        (LORD_HOWE, datetime(2027, 4, 3, 20), 12, datetime(2027, 4, 4, 7, 30)),
        (KOLKATA, datetime(2027, 3, 27, 20), 12, datetime(2027, 3, 28, 8)),
        # over both changes, an hour each way
        (BERLIN, datetime(2027, 3, 27, 20), 24 * 300, datetime(2028, 1, 21, 20)),
    ],
)
def test_a_wait_over_a_change_is_real_time(
    zone: str, start: datetime, hours: int, end: datetime
) -> None:
    assert end == time_of(CLOCKS[zone].later(moment(start), 60 * hours))
    assert end == really_later(zone, start, 60 * hours).replace(tzinfo=None)


@settings(deadline=None, max_examples=400)
@example(BERLIN, 452 * 1440, 720)
@given(st.sampled_from(ZONES), st.integers(0, 780 * 1440), st.integers(0, 15 * 1440))
def test_waits_are_never_short_and_late_only_in_the_hour_that_comes_twice(
    zone: str, start_min: int, wait: int
) -> None:
    start = datetime(2026, 1, 1) + timedelta(minutes=start_min)
    exists = really_later(zone, start, 0).replace(tzinfo=None) == start
    if not exists:  # the clock leaves this time out; no plan begins or ends in it
        return
    found = time_of(CLOCKS[zone].later(moment(start), wait))
    real = really_later(zone, start, wait)
    if real.fold:
        over = moment(found) - moment(real.replace(tzinfo=None))
        assert 0 < over <= 60
        assert any(moment(found) == change.at for change in CLOCKS[zone].changes)
    else:
        assert real.replace(tzinfo=None) == found


@pytest.mark.parametrize("zone", ZONES)
def test_every_change_is_found(zone: str) -> None:
    """Against a look at each day; Casablanca's clock goes back for one month only."""
    offset = offset_of(zone)
    days = [datetime(2026, 1, 1, tzinfo=UTC) + timedelta(days=k) for k in range(801)]
    forward = [
        (after - before) // timedelta(minutes=1)
        for before, after in pairwise(map(offset, days))
        if after != before
    ]
    end = moment(days[-1].replace(tzinfo=None))
    assert forward == [c.forward_min for c in CLOCKS[zone].changes if c.at < end]
    assert (zone == KOLKATA) == (not forward)


@pytest.mark.parametrize("zone", [BERLIN, LORD_HOWE])
def test_later_begun_is_never_sooner_over(zone: str) -> None:
    """So the search for the best order may go on the local clock."""
    clock = CLOCKS[zone]
    for change in clock.changes:
        starts = range(change.at - 1500, change.at + 100)
        ends = [clock.later(start, 720) for start in starts]
        assert ends == sorted(ends)


def test_years_that_the_system_knows_nothing_of_have_no_changes() -> None:
    def nothing(_: datetime) -> timedelta:
        raise OverflowError

    clock = local_clock(moment(datetime(2027, 1, 1)), moment(datetime(2028, 1, 1)), nothing)
    assert () == clock.changes


COAT = 'do = "coat"\nproduct = "paint"\ncoats = 2\nby = "roller"\ntime = "2 h"\nwait = "12 h"'
NIGHT = '[workshop]\nset_up = "0 min"\nhours = ["mon-sun 00:00-24:00"]\n'


@pytest.mark.parametrize(
    ("start", "second_coat", "changes"),
    [
        ("2027-03-27T19:00:00", datetime(2027, 3, 28, 9), 1),
        ("2027-10-30T19:00:00", datetime(2027, 10, 31, 7), 1),
        ("2027-03-20T19:00:00", datetime(2027, 3, 21, 8), 0),
    ],
)
def test_plan_counts_twelve_real_hours_and_says_so(
    job: Callable, step_zone: Callable, start: str, second_coat: datetime, changes: int
) -> None:
    found = job(NIGHT + f"start = {start}\n", step_zone("one", COAT))
    plan = make_plan(found.piece, found.measured, datetime(2027, 1, 1), offset_of(BERLIN))
    assert isinstance(plan, Plan)
    assert second_coat == plan.entries[0].next_from == plan.entries[1].starts
    assert changes == len(plan.clock_changes)
    if changes:
        assert second_coat.date() == plan.clock_changes[0]


@pytest.mark.parametrize(
    ("start", "hours"), [("2027-03-27T19:00:00", 1), ("2027-10-30T19:00:00", -1)]
)
def test_dates_in_nine_of_ten_cases_are_real_time_too(
    job: Callable, step_zone: Callable, start: str, hours: int
) -> None:
    """One coat on the evening before, so that every wait goes over the change."""
    step = COAT.replace("coats = 2", "coats = 1")
    found = job(NIGHT + f"start = {start}\n", step_zone("one", step))
    one, other = (
        make_plan(found.piece, found.measured, datetime(2027, 1, 1), offset_of(zone)).likely_ends
        for zone in (BERLIN, "UTC")
    )
    assert one.worked == other.worked
    moved = timedelta(hours=hours)
    assert (other.handled + moved, other.used + moved) == (one.handled, one.used)
    assert other.delivered + moved == one.delivered


def test_nobody_works_in_the_hour_that_the_clock_leaves_out(
    job: Callable, step_zone: Callable
) -> None:
    sand = 'do = "sand"\ngrits = [120]\nwith = "disc"\ntime = "2 h"'
    found = job(NIGHT + "start = 2027-03-28T01:00:00\n", step_zone("one", sand))
    plan = make_plan(found.piece, found.measured, datetime(2027, 1, 1), offset_of(BERLIN))
    assert isinstance(plan, Plan)
    assert [
        (datetime(2027, 3, 28, 1), datetime(2027, 3, 28, 2)),
        (datetime(2027, 3, 28, 3), datetime(2027, 3, 28, 4)),
    ] == list(plan.entries[0].sessions)


PRINT_OFFSETS = """
from datetime import UTC, datetime
from surfacecalc import clock
for month in (1, 7):
    print(clock.offset(datetime(2027, month, 1, tzinfo=UTC)))
"""


@pytest.mark.skipif(not hasattr(time, "tzset"), reason="this system's zone is set elsewhere")
@pytest.mark.parametrize(
    ("zone", "offsets"),
    [(BERLIN, ["1:00:00", "2:00:00"]), ("UTC", ["0:00:00", "0:00:00"])],
)
def test_clock_of_the_computer_is_asked(zone: str, offsets: list[str]) -> None:
    shown = subprocess.run(
        [sys.executable, "-c", PRINT_OFFSETS],
        env={**os.environ, "TZ": zone},
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert offsets == shown.stdout.split()
