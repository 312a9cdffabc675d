"""Working hours as people write them: "mon-fri 18:00-21:30"."""

import itertools
import re

from surfacecalc.model.workshop import MINUTES_IN_DAY, WEEKDAYS, Window
from surfacecalc.problems import suggestion

_WINDOW = re.compile(r"(?P<days>.*?)\s+(?P<start>\S+?)\s*[-\u2013]\s*(?P<end>\S+)")
_TIME = re.compile(r"(?P<hour>\d{1,2}):(?P<minute>\d{2})")
_FULL = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
EXAMPLE = '"mon-fri 18:00-21:30"'


class HoursError(ValueError):
    """A text gives no working hours; says why and what would be right."""


def parse_hours(text: str) -> tuple[Window, ...]:
    """Return the windows of a text, one for each day.

    Raises:
        HoursError: the text cannot be read, or its hours end before they begin.

    >>> parse_hours("sat 09:00-17:00")
    (Window(day=5, starts_min=540, ends_min=1020),)
    """
    match = _WINDOW.fullmatch(text.strip())
    if match is None:
        raise HoursError(f"is not a day with hours; write it like {EXAMPLE}")
    days = _days(match["days"])
    start, end = _minutes(match["start"]), _minutes(match["end"])
    if end == 0 and start > 0:
        raise HoursError("ends at 00:00, where the day begins; write 24:00 for midnight")
    if end == start:
        raise HoursError(f"begins and ends at the same time; write it like {EXAMPLE}")
    if end < start:
        day = WEEKDAYS[days[0]]
        after = WEEKDAYS[(days[0] + 1) % 7]
        raise HoursError(
            "ends before it begins; write hours past midnight as two:"
            f' "{day} {match["start"]}-24:00" and "{after} 00:00-{match["end"]}"'
        )
    return tuple(Window(day, start, end) for day in days)


def overlap(windows: list[Window]) -> tuple[Window, Window] | None:
    """Return the first two windows that overlap, the one written later second; None if none do."""
    for later, window in enumerate(windows):
        for earlier in windows[:later]:
            if (
                earlier.day == window.day
                and earlier.starts_min < window.ends_min
                and window.starts_min < earlier.ends_min
            ):
                return earlier, window
    return None


def window_text(window: Window) -> str:
    """Return a window as it is written."""
    start, end = (f"{m // 60:02}:{m % 60:02}" for m in (window.starts_min, window.ends_min))
    return f"{WEEKDAYS[window.day]} {start}-{end}"


def _days(text: str) -> list[int]:
    """Return the days that a text like "mon-wed, fri" names."""
    days: list[int] = []
    for part in text.split(","):
        ends = [_day(word.strip()) for word in re.split("[-\u2013]", part)]
        if len(ends) > 2:
            raise HoursError(f"has more than two days joined with a dash; write it like {EXAMPLE}")
        count = (ends[-1] - ends[0]) % 7 + 1
        days += [(ends[0] + more) % 7 for more in range(count)]
    twice = next((day for day, run in itertools.groupby(sorted(days)) if len(list(run)) > 1), None)
    if twice is not None:
        raise HoursError(f"has {WEEKDAYS[twice]} twice; keep one")
    return days


def _day(word: str) -> int:
    lower = word.lower()
    if lower in WEEKDAYS:
        return WEEKDAYS.index(lower)
    if lower in _FULL:
        return _FULL.index(lower)
    if not lower:
        raise HoursError(f"has no day; write it like {EXAMPLE}")
    hint = suggestion(lower, WEEKDAYS)
    raise HoursError(f'has "{word}", which is not a day; {hint}')


def _minutes(text: str) -> int:
    match = _TIME.fullmatch(text)
    if match is None:
        raise HoursError(
            f'has "{text}", which is not a time of day; write hours and minutes, such as 18:30'
        )
    minutes = int(match["hour"]) * 60 + int(match["minute"])
    if minutes > MINUTES_IN_DAY or int(match["minute"]) > 59:
        raise HoursError(f"has {text}, which is not a time of day; a day goes from 00:00 to 24:00")
    return minutes
