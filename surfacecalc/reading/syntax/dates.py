"""Dates without quotes that the parser stops at: days that do not exist, and ranges of days."""

import re

from surfacecalc.reading.syntax.slip import Slip, Told, without_quoted
from surfacecalc.reading.written_days import (
    EARLIEST_YEAR,
    LATEST_YEAR,
    WORDS_OF_DAY,
    missing_day,
    month_of,
)

_DATE = re.compile(r"(?<![\w.-])(\d{4})-(\d{1,2})-(\d{1,2})(?!\d)")
_RANGE = re.compile(rf"({_DATE.pattern})\s*(?:to|until|till|-|\u2013)\s*({_DATE.pattern})")
_WORDS = re.compile(rf"(?<![\w.-]){WORDS_OF_DAY}", re.IGNORECASE)
_OTHER_ORDER = re.compile(r"(?<![\w.-])\d{1,2}([./])\d{1,2}\1\d{4}(?!\d)")


_WRITTEN = "write a date as year-month-day, such as 2026-12-24"


def date(slip: Slip) -> Told:
    """Explain a date at which the parser stopped; the year of a piece is explained elsewhere."""
    line = without_quoted(slip.line)
    if line.lstrip().startswith("built"):
        return None
    if found := _stopped_at(_DATE, line, slip.column):
        told = _date(found)
        if told:
            return told
    if found := _stopped_at(_RANGE, line, slip.column):
        return f'put quotes around a range of days: "{found[1]} to {found[5]}"'
    if found := _stopped_at(_OTHER_ORDER, line, slip.column):
        return f"{_WRITTEN}, instead of {found[0]}"
    found = _stopped_at(_WORDS, line, slip.column)
    month = month_of(found["month"]) if found else 0
    if not found or not month:
        return None
    year = int(found["year"]) if found["year"] else None
    missing = missing_day(year, month, int(found["day"]))
    return missing or f"{_WRITTEN}, instead of {found[0]}"


def _stopped_at(what: re.Pattern[str], line: str, column: int) -> re.Match[str] | None:
    """Return what is written where the parser stopped, at its beginning, in it or after it."""
    return next((m for m in what.finditer(line) if m.start() < column <= m.end() + 1), None)


def _date(found: re.Match[str]) -> str | None:
    written, (year, month, day) = found[0], map(int, found.groups())
    missing = missing_day(year, month, day)
    if missing:
        return missing
    if not year:
        return f"{written} is not a date; a year is from {EARLIEST_YEAR} to {LATEST_YEAR}"
    right = f"{year:04}-{month:02}-{day:02}"
    if written != right:
        return f"write month and day of a date with two digits each: {right}"
    return None
