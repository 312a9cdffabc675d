"""`closed` of [workshop]: days on which nobody works, single ones and ranges."""

from datetime import date, datetime
from typing import Any

from surfacecalc.model.workshop import ClosedDays
from surfacecalc.reading.tables import Table, shown
from surfacecalc.reading.written_days import EXAMPLE, DayError, day_of, parse_days


def read_closed_days(table: Table) -> tuple[ClosedDays, ...]:
    """Return the days on which nobody works, in the order of the file; none where it has none."""
    if "closed" not in table:
        return ()
    value = table.values["closed"]
    if not isinstance(value, list):
        found = _days(table, value)
        return () if found is None else (found,)
    days = [_days(table, item, number) for number, item in enumerate(value)]
    return tuple(one for one in days if one is not None)


def _days(table: Table, value: Any, *number: int) -> ClosedDays | None:
    """Return the days of one value, or None after recording what is wrong with it."""
    try:
        return _read(value)
    except DayError as error:
        table.mend(f"closed: {_said(shown(value), str(error))}", "closed", *number)
        return None


def _read(value: Any) -> ClosedDays:
    if isinstance(value, str) and value.strip():
        return parse_days(value)
    if isinstance(value, datetime):
        raise DayError(f"has a time of day; a closed day is a whole one, {value.date()}")
    if not isinstance(value, date):
        raise DayError(f"must be dates, such as closed = {EXAMPLE}")
    day = day_of(value.year, value.month, value.day)
    return ClosedDays(day, day)


def _said(value: str, message: str) -> str:
    """Return a message with the value that it is about; a day that does not exist names itself."""
    return message if message.startswith("there is ") else f"{value} {message}"
