"""Days as people write them: 2026-12-24, "24 December 2026", "2026-12-28 to 2027-01-03"."""

import re
from calendar import monthrange
from datetime import date

from surfacecalc.model.workshop import WEEKDAYS, ClosedDays

EARLIEST_YEAR, LATEST_YEAR = 1900, 2200
MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September",
    "October", "November", "December",
)  # fmt: skip
EXAMPLE = '[2026-12-24, "2026-12-28 to 2027-01-03"]'
WORDS_OF_DAY = (
    r"(?P<day>\d{1,2})(?:st|nd|rd|th)?\.? (?P<month>[a-z]{3,9})\.?,?(?: (?P<year>\d{4}))?"
)
"""A day as it is said: 24 December 2026, 24 Dec."""
_LEAP_YEAR = 2028
"""In the place of a year that is not given: it has every day that any year has."""
_NUMBERS = re.compile(r"(?P<year>\d{4})-(?P<month>\d{1,2})-(?P<day>\d{1,2})")
_WORDS = tuple(
    re.compile(form)
    for form in (
        WORDS_OF_DAY,
        r"(?P<month>[a-z]{3,9})\.? (?P<day>\d{1,2})(?:st|nd|rd|th)?,?(?: (?P<year>\d{4}))?",
    )
)
_OTHER_NUMBERS = re.compile(r"\d{1,4}[./]\d{1,2}[./]\d{1,4}")
_RANGE = re.compile(r"(.+?)(?:\s+(?:to|until|till|-)\s+|\s*[\u2013\u2014]\s*)(.+)")


class DayError(ValueError):
    """A text is no day; says why and what would be right."""


def parse_days(text: str) -> ClosedDays:
    """Return the days of a text, one or a range with both its ends.

    Raises:
        DayError: it cannot be read, has a day that does not exist, or ends before it begins.

    >>> parse_days("2026-12-28 to 2027-01-03").last
    datetime.date(2027, 1, 3)
    """
    ends = _RANGE.fullmatch(text.strip())
    if ends is None:
        day = parse_day(text)
        return ClosedDays(day, day)
    first, last = _end(ends[1]), _end(ends[2])
    if last < first:
        raise DayError(f'ends before it begins; the earlier day comes first: "{last} to {first}"')
    return ClosedDays(first, last)


def _end(text: str) -> date:
    try:
        return parse_day(text)
    except DayError as error:
        link = ": " if str(error).startswith("there ") else ", which "
        raise DayError(f'has "{text.strip()}"{link}{error}') from error


def parse_day(text: str) -> date:
    """Return the day of a text.

    Raises:
        DayError: it cannot be read, or there is no such day.

    >>> parse_day("24 December 2026")
    datetime.date(2026, 12, 24)
    """
    plain = " ".join(text.lower().split())
    numbers = _NUMBERS.fullmatch(plain)
    if numbers:
        return day_of(*map(int, numbers.group("year", "month", "day")))
    for form in _WORDS:
        words = form.fullmatch(plain)
        if words and (month := month_of(words["month"])):
            return _of_words(int(words["day"]), month, words["year"])
    raise DayError(_unread(plain))


def day_of(year: int, month: int, day: int) -> date:
    """Return a day.

    Raises:
        DayError: there is no such day, or its year is out of reach.
    """
    missing = missing_day(year, month, day)
    if missing:
        raise DayError(missing)
    if not EARLIEST_YEAR <= year <= LATEST_YEAR:
        raise DayError(f"must be from {EARLIEST_YEAR} to {LATEST_YEAR}")
    return date(year, month, day)


def missing_day(year: int | None, month: int, day: int) -> str:
    """Return why there is no such day, nothing where there is one.

    >>> missing_day(2026, 2, 30)
    'there is no 30 February 2026: that February has 28 days'
    """
    if not 1 <= month <= len(MONTHS):
        return f"there is no month {month}: a date is year-month-day, such as 2026-12-24"
    name = MONTHS[month - 1]
    days = monthrange(year or _LEAP_YEAR, month)[1]
    if 1 <= day <= days:
        return ""
    written = f"{day} {name}" if year is None else f"{day} {name} {year}"
    whose = f"that {name}" if month == 2 and year is not None else name
    return f"there is no {written}: {whose} has {days} days"


def _of_words(day: int, month: int, year: str | None) -> date:
    if year:
        return day_of(int(year), month, day)
    missing = missing_day(None, month, day)
    raise DayError(missing or f"has no year; write it like {_LEAP_YEAR}-{month:02}-{day:02}")


def month_of(word: str) -> int:
    """Return the number of a month from its name or the first letters of it; 0 for none."""
    low = word.lower()
    found = [k for k, name in enumerate(MONTHS, start=1) if name.lower().startswith(low)]
    return found[0] if len(found) == 1 else 9 if low == "sept" else 0


def _unread(plain: str) -> str:
    if re.fullmatch(rf"({'|'.join(WEEKDAYS)})[a-z]*", plain):
        return "is a day of the week; leave it off in hours instead"
    if _OTHER_NUMBERS.fullmatch(plain):
        return "is not read as a date; write it as year-month-day, such as 2026-12-24"
    return "is not a date; write it like 2026-12-24"
