"""Tasks, times and waits in words."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from fractions import Fraction
from typing import assert_never

from surfacecalc.closeness import whole_down, whole_up
from surfacecalc.model.step_facts import coat_nature
from surfacecalc.model.steps import Coat, HandWord
from surfacecalc.model.workshop import WEEKDAYS, Window
from surfacecalc.units.number_words import mixed_number, ordinal

TaskKey = tuple[str, int]
"""The zone of a task of the plan, and its number in it."""

_DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MONTHS = (
    "Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec",
)  # fmt: skip
DAYS_FROM_H = 72.0
"""Waits [h] from here on are given in days."""

WHOLE_HOURS_FROM_H = 8.0
"""Work [h] from here on is given in whole hours, below in halves."""


def coat_words(step: Coat, number: int, count: int, pieces: str = "") -> str:
    """Return what a coat is, such as "second coat of slate blue, by roller".

    Args:
        step: its step.
        number: of the coat, from 0.
        count: how many coats the step has.
        pieces: how many pieces of hardware it goes on, such as " (12 total)".
    """
    which = f"{ordinal(number)} coat" if count > 1 else "one coat"
    trade = "" if coat_nature(step.do) == "plain" else f"{step.do}: "
    on = f" on {step.hardware}{pieces}" if step.hardware else ""
    way = "with a cloth" if step.by == "cloth" else f"by {step.by}"
    return f"{trade}{which} of {step.product}{on}, {way}"


@dataclass(frozen=True)
class GritPass:
    """One pass with one grit.

    Attributes:
        do: the word of the trade.
        grit: of the abrasive.
        by: how it is done.
    """

    do: str
    grit: int
    by: str


def grit_words(passes: Sequence[GritPass]) -> str:
    """Return what passes that follow each other are.

    >>> grit_words([GritPass("sand", 120, "hand"), GritPass("sand", 180, "hand")])
    'sand P120, P180, by hand'
    """
    grits = ", ".join(f"P{one.grit}" for one in passes)
    return f"{passes[0].do} {grits}, by {passes[0].by}"


def hand_words(word: HandWord) -> str:
    """Return what is done in handwork, before what it is done to: "put on" for decals."""
    match word:
        case "repair" | "take off" | "refit" | "dust off":
            return word
        case "decal":
            return "put on"
        case "decorate":
            return "decorate with"
        case _:
            assert_never(word)


def time_words(number: int, count: int) -> str:
    """Return which of several times it is, from 0; nothing where there is one."""
    return "" if count == 1 else f", {ordinal(number)} time"


def format_date(time: datetime) -> str:
    """Return a day without its year: Sat 28 Nov."""
    return f"{_DAYS[time.weekday()]} {time.day} {_MONTHS[time.month - 1]}"


def format_day(time: datetime) -> str:
    """Return a day as people say it: Sat 28 Nov 2026."""
    return f"{format_date(time)} {time.year}"


def format_until(time: datetime, now: datetime) -> str:
    """Return a moment to wait for, as short as it is clear on the day on which one waits.

    >>> day = datetime(2026, 11, 29, 10)
    >>> [format_until(datetime(2026, *at), day) for at in ((11, 29, 17), (11, 30, 9), (12, 8, 9))]
    ['17:00', 'Mon 09:00', '8 Dec 09:00']
    """
    days = (time.date() - now.date()).days
    if days == 0:
        return format_clock(time)
    if days < len(_DAYS):
        return f"{_DAYS[time.weekday()]} {format_clock(time)}"
    return f"{time.day} {_MONTHS[time.month - 1]} {format_clock(time)}"


def format_clock(time: datetime) -> str:
    """Return the time of day: 09:05."""
    return f"{time.hour:02}:{time.minute:02}"


def format_moment(time: datetime) -> str:
    """Return day and time without the year: Sat 28 Nov 09:05."""
    return f"{format_date(time)} {format_clock(time)}"


def format_span(start: datetime, end: datetime) -> str:
    """Return a span within a day: 09:00-10:15; midnight at its end is 24:00."""
    at_midnight = end.date() > start.date() and (end.hour, end.minute) == (0, 0)
    return f"{format_clock(start)}-{'24:00' if at_midnight else format_clock(end)}"


def format_hours(hours: float) -> str:
    """Return a time that passes: 35 min, 2 h, 2 h 35 min, 14 days.

    >>> format_hours(2.58), format_hours(96)
    ('2 h 35 min', '4 days')
    """
    minutes = round(hours * 60)
    if hours >= DAYS_FROM_H:
        return f"{minutes / 24 / 60:.3g} days"
    whole, rest = divmod(minutes, 60)
    texts = [f"{whole} h"] if whole else []
    return " ".join([*texts, f"{rest} min"] if rest or not whole else texts)


def format_hours_span(low_h: float, high_h: float) -> str:
    """Return how long work takes, from the least to the most, rounded outwards.

    >>> format_hours_span(18.9, 24.2), format_hours_span(1.75, 3.1), format_hours_span(0.4, 0.75)
    ('18 to 25 hours', '1 1/2 to 3 1/2 hours', '20 to 45 minutes')
    """
    steps = 12 if high_h < 1 else 2 if high_h < WHOLE_HOURS_FROM_H else 1
    low = Fraction(max(1, whole_down(low_h * steps)), steps)
    high = Fraction(whole_up(high_h * steps), steps)
    size, name = (60, "minutes") if high_h < 1 else (1, "hours")
    least, most = (mixed_number(hours * size) for hours in (low, high))
    if low == high:
        return f"{most} {name if high != 1 else 'hour'}"
    return f"{least} to {most} {name}"


def format_week(windows: Iterable[Window]) -> str:
    """Return working hours, neighbouring days with the same hours as one run.

    >>> format_week([Window(0, 1080, 1260), Window(1, 1080, 1260), Window(5, 540, 1020)])
    'mon-tue 18:00-21:00, sat 09:00-17:00'
    """
    days: dict[tuple[int, int], list[int]] = {}
    for window in sorted(windows, key=lambda window: (window.day, window.starts_min)):
        days.setdefault((window.starts_min, window.ends_min), []).append(window.day)
    runs = [(*run, *span) for span, found in days.items() for run in _runs(found)]
    return ", ".join(
        f"{WEEKDAYS[first]}{f'-{WEEKDAYS[last]}' if last > first else ''}"
        f" {start // 60:02}:{start % 60:02}-{end // 60:02}:{end % 60:02}"
        for first, last, start, end in sorted(runs)
    )


def _runs(days: list[int]) -> list[tuple[int, int]]:
    """Return the first and the last day of each run of neighbouring days."""
    runs: list[tuple[int, int]] = []
    for day in days:
        if runs and runs[-1][1] == day - 1:
            runs[-1] = (runs[-1][0], day)
        else:
            runs.append((day, day))
    return runs
