"""A plan as an iCalendar file (RFC 5545), for any calendar.

Times are local without a zone ("floating"): the workshop's clock, wherever it is. Each session has
a UID that stays the same when the plan is made again, so a calendar moves the entry instead of
adding another.
"""

import uuid
from collections.abc import Iterable, Mapping
from datetime import datetime

from icalendar import Calendar, Event

from surfacecalc.plans.plan import Plan, PlanEntry
from surfacecalc.problems import printable
from surfacecalc.work.task_words import format_hours, format_moment

_NAMES = uuid.UUID("5d1a3c0e-6f0b-4c55-9a3f-7b9b8f0d2a61")
"""Where the UIDs are made from; must never change."""


def calendar_of(
    name: str, plan: Plan, bench: Mapping[tuple[str, int], Iterable[str]], stamp: datetime
) -> bytes:
    """Return a calendar with an event for each session, and for what can be done when.

    Args:
        name: the piece's name.
        plan: its plan.
        bench: what the bench needs for a task, in sentences, by zone and number of the task.
        stamp: when the calendar is made, in UTC.
    """
    calendar = Calendar()
    calendar.add("prodid", "-//surfacecalc//plan//EN")
    calendar.add("version", "2.0")
    for entry in plan.entries:
        for number, (start, end) in enumerate(entry.sessions):
            event = _event(name, _key(entry, number), start, stamp)
            event.add("dtend", end)
            event.add("summary", _summary(name, entry, number))
            needed = bench.get((entry.task.zone, entry.task.number), ())
            event.add("description", _description(entry, needed))
            calendar.add_component(event)
    ends = {"handled": plan.handled, "used": plan.used, "delivered": plan.delivered}
    for what, at in ends.items():
        if at is not None:
            event = _event(name, what, at, stamp)
            event.add("summary", f"{printable(name)}: can be {what}")
            event.add("transp", "TRANSPARENT")
            calendar.add_component(event)
    return bytes(calendar.to_ical())


def _event(name: str, key: str, start: datetime, stamp: datetime) -> Event:
    event = Event()
    event.add("uid", str(uuid.uuid5(_NAMES, f"{name}\n{key}")))
    event.add("dtstamp", stamp)
    event.add("dtstart", start)
    return event


def _key(entry: PlanEntry, number: int) -> str:
    return f"{entry.task.zone}\n{entry.task.number}\n{number}"


def _summary(name: str, entry: PlanEntry, number: int) -> str:
    again = " (continued)" if number else ""
    return printable(f"{name}, {entry.task.place}: {entry.task.words}{again}")


def _description(entry: PlanEntry, needed: Iterable[str]) -> str:
    """Return the number of the step, what the bench needs, and the wait, one under the other."""
    task = entry.task
    lines = [f"Step {task.step}.", *map(printable, needed)]
    if task.wait.next_h:
        wait = format_hours(task.wait.next_h)
        lines.append(f"Then wait {wait}, until {format_moment(entry.next_from)}.")
    return "\n".join(lines)
