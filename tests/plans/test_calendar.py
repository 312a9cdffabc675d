"""The calendar is read again by a parser of RFC 5545 and says what the plan says."""

from collections.abc import Callable
from datetime import UTC, datetime

import pytest
from icalendar import Calendar, Event

from surfacecalc.plans.calendar import calendar_of
from surfacecalc.plans.plan import Plan

NAME = 'Grandma\'s "hall table", oak; 1930'
STAMP = datetime(2026, 11, 27, 8, 30, tzinfo=UTC)
SAND = 'do = "sand"\ngrits = [120]\nwith = "disc"\ntime = "10 h"'
COAT = 'do = "coat"\nproduct = "paint"\ncoats = 2\nby = "roller"\ntime = "2 h"'


@pytest.fixture
def made(plan: Callable[..., Plan], step_zone: Callable[..., str]) -> Plan:
    hours = 'hours = ["sat-sun 09:00-17:00", "mon-fri 18:00-21:00"]'
    return plan(
        f'[workshop]\nset_up = "0 min"\n{hours}',
        step_zone("one", SAND, COAT),
        step_zone("two") + "leave = true",
    )


def events(content: bytes) -> list[Event]:
    found = Calendar.from_ical(content).walk("VEVENT")
    return [one for one in found if isinstance(one, Event)]


def test_every_session_is_an_event_with_its_time(made: Plan) -> None:
    found = events(calendar_of(NAME, made, {}, STAMP))
    sessions = [session for entry in made.entries for session in entry.sessions]
    assert len(sessions) == 4  # sanding on two days, two coats
    assert sessions == [(e.decoded("dtstart"), e.decoded("dtend")) for e in found[:4]]
    texts = [str(event["summary"]) for event in found]
    assert f"{NAME}, one: sand P120, by machine" == texts[0]
    assert f"{NAME}, one: sand P120, by machine (continued)" == texts[1]
    assert [f"{NAME}: can be {word}" for word in ("handled", "used", "delivered")] == texts[4:]
    assert made.handled == found[4].decoded("dtstart")


def test_an_event_says_its_step_and_the_wait_after_it(made: Plan) -> None:
    """No wait after sanding; each coat of 1 h on Sunday from 11 on may be coated after 4 h."""
    found = [str(e["description"]) for e in events(calendar_of(NAME, made, {}, STAMP))[:4]]
    first, again, coat, second = found
    assert first == again == "Step 1."
    assert "Step 2.\nThen wait 4 h, until Sun 29 Nov 16:00." == coat
    assert "Step 2.\nThen wait 4 h, until Sun 29 Nov 21:00." == second


def test_an_event_says_what_the_bench_needs_before_the_wait(made: Plan) -> None:
    needs = {("one", 2): ("8 1/2 fl oz for this coat.", "With under 9 left, stop.\x1b")}
    first, _, coat, second = events(calendar_of(NAME, made, needs, STAMP))[:4]
    assert "Step 1." == str(first["description"])
    assert (
        "Step 2.\n8 1/2 fl oz for this coat.\nWith under 9 left, stop.\\x1b\n"
        "Then wait 4 h, until Sun 29 Nov 16:00."
    ) == str(coat["description"])
    assert "Step 2.\nThen wait 4 h, until Sun 29 Nov 21:00." == str(second["description"])


def test_times_float_and_the_stamp_is_in_utc(made: Plan) -> None:
    content = calendar_of(NAME, made, {}, STAMP)
    assert b"DTSTART:20261128T090000\r\n" in content
    assert b"TZID" not in content
    assert all(event.decoded("dtstart").tzinfo is None for event in events(content))
    assert {STAMP} == {event.decoded("dtstamp") for event in events(content)}


def test_uids_differ_and_stay_the_same_when_the_plan_is_made_again(
    made: Plan, job: Callable, step_zone: Callable
) -> None:
    found = [str(event["uid"]) for event in events(calendar_of(NAME, made, {}, STAMP))]
    assert len(found) == len(set(found)) == 7
    later = job('[workshop]\nset_up = "0 min"', step_zone("one", SAND, COAT)).plan(
        datetime(2027, 3, 6, 9)
    )
    again = [str(e["uid"]) for e in events(calendar_of(NAME, later, {}, datetime.now(UTC)))]
    assert found == again
    other = [str(e["uid"]) for e in events(calendar_of("Another piece", made, {}, STAMP))]
    assert not set(found) & set(other)


def test_lines_are_folded_at_75_octets(made: Plan) -> None:
    lines = calendar_of("t\u00e4ble " * 40, made, {}, STAMP).split(b"\r\n")
    assert max(map(len, lines)) <= 75


def test_name_with_control_characters_cannot_add_lines(made: Plan) -> None:
    content = calendar_of("a\r\nATTENDEE:mailto:x@example.org\x1b", made, {}, STAMP)
    assert 7 == len(events(content))
    assert not any(line.startswith(b"ATTENDEE") for line in content.split(b"\r\n"))


def test_nothing_to_do_is_an_empty_calendar(plan: Callable) -> None:
    empty = plan('[[zone]]\nname = "one"\nfaces = ["one"]\nleave = true')
    assert [] == events(calendar_of(NAME, empty, {}, STAMP))


def test_control_characters_in_names_are_spelled_out(made: Plan) -> None:
    texts = [str(event["summary"]) for event in events(calendar_of("a\x1b[2Jb", made, {}, STAMP))]
    assert texts
    assert all(text.startswith("a\\x1b[2Jb") for text in texts)
