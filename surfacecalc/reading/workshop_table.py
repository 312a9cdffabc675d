"""`[workshop]` becomes a `Workshop`: its air, its hours, and when the work may begin."""

from datetime import date, datetime, time
from typing import Any

from surfacecalc.model.workshop import Window, Workshop
from surfacecalc.reading.closed_days import read_closed_days
from surfacecalc.reading.steps.shares import read_flag
from surfacecalc.reading.tables import Table, shown
from surfacecalc.reading.working_hours import (
    EXAMPLE,
    HoursError,
    overlap,
    parse_hours,
    window_text,
)
from surfacecalc.reading.workshop_country import read_country
from surfacecalc.reading.written_days import EARLIEST_YEAR, LATEST_YEAR
from surfacecalc.units.grammar import AmountError, parse_temperature

KEYS = (
    "temperature", "humidity", "hours", "closed", "start", "set_up", "over", "sand_near_wet",
    "own_spread", "country",
)  # fmt: skip
COLDEST_C, WARMEST_C = -10.0, 45.0
"""degrees Celsius; nobody finishes furniture in colder or warmer air."""
LONGEST_SET_UP_H = 8.0
LONGEST_OVER_H = 2.0
WIDEST_OWN_SPREAD = 2.0
"""Who may need three times as much as is worked out has a wrong coverage, not a wide spread."""


def read_workshop(document: Table) -> Workshop:
    """Return what [workshop] says; the defaults where there is none or it has a mistake."""
    if "workshop" not in document:
        return Workshop()
    table = document.table("workshop", "[workshop]")
    if table is None:
        return Workshop()
    table.where = "workshop"
    table.only(KEYS)
    return Workshop(
        temperature_c=_temperature(table),
        humidity=_humidity(table),
        windows=_windows(table),
        closed=read_closed_days(table),
        start=_start(table),
        set_up_h=_set_up(table),
        over_min=_over_min(table),
        sand_near_wet=read_flag(table, "sand_near_wet"),
        own_spread=_own_spread(table),
        country=read_country(table),
        line=table.line,
    )


def _temperature(table: Table) -> float | None:
    if "temperature" not in table:
        return None
    value = table.values["temperature"]
    try:
        if not isinstance(value, str):
            raise AmountError('has no unit; write it with one, such as "15 C" or "59 F"')
        temperature = float(parse_temperature(value))
    except AmountError as error:
        table.refuse("temperature", str(error))
        return None
    if not COLDEST_C <= temperature <= WARMEST_C:
        table.refuse(
            "temperature",
            f"is outside the range for a workshop; it must be from {COLDEST_C:g} C to"
            f" {WARMEST_C:g} C (14 F to 113 F)",
        )
    return temperature


def _humidity(table: Table) -> float | None:
    if "humidity" not in table:
        return None
    humidity = table.share(table.values["humidity"], "humidity")
    if humidity is not None and not 0 <= humidity <= 1:
        table.refuse("humidity", "must be from 0 % to 100 %")
    return humidity


def _windows(table: Table) -> tuple[Window, ...] | None:
    """Return the working hours, None where the table does not say."""
    if "hours" not in table:
        return None
    value = table.values["hours"]
    if value == []:
        table.refuse("hours", f"is empty; write when you can work, such as hours = [{EXAMPLE}]")
        return None
    windows: list[Window] = []
    for number, text in enumerate(table.texts("hours", f"[{EXAMPLE}]")):
        try:
            found = parse_hours(text)
        except HoursError as error:
            table.mend(f"hours: {shown(text)} {error}", "hours", number)
            continue
        both = overlap([*windows, *found])
        if both is not None:
            one, other = map(window_text, both)
            table.mend(
                f"hours: {shown(text)} overlaps with other hours: {other} and {one}",
                "hours",
                number,
            )
        windows += found
    return tuple(windows) or None


def _start(table: Table) -> datetime | None:
    if "start" not in table:
        return None
    value = table.values["start"]
    if not isinstance(value, date):
        table.refuse("start", f"must be {_START_EXAMPLE}{_quoted(value)}")
        return None
    if isinstance(value, datetime) and value.tzinfo is not None:
        table.refuse("start", f"has a time zone; write local time without it, {_START_EXAMPLE}")
        return None
    if not EARLIEST_YEAR <= value.year <= LATEST_YEAR:
        table.refuse("start", f"must be from {EARLIEST_YEAR} to {LATEST_YEAR}")
        return None
    return value if isinstance(value, datetime) else datetime.combine(value, time())


def _quoted(value: Any) -> str:
    return ", without quotes" if isinstance(value, str) else ""


_START_EXAMPLE = "a date or a date with a time, such as 2026-11-28 or 2026-11-28 09:00:00"


def _set_up(table: Table) -> float | None:
    if "set_up" not in table:
        return None
    hours = table.amount(table.values["set_up"], "time", "set_up")
    if hours is not None and not 0 <= hours <= LONGEST_SET_UP_H:
        table.refuse("set_up", "must be from 0 min to 8 h")
    return hours


def _over_min(table: Table) -> int:
    """Return how long a task may run over closing time [min], none where it is not said."""
    if "over" not in table:
        return 0
    hours = table.amount(table.values["over"], "time", "over")
    if hours is None:
        return 0
    if not 0 <= hours <= LONGEST_OVER_H:
        table.refuse("over", "must be from 0 min to 2 h; give longer hours instead")
        return 0
    return round(hours * 60)


def _own_spread(table: Table) -> float | None:
    """Return how much more or less than worked out the workshop uses, None where it is not said."""
    if "own_spread" not in table:
        return None
    spread = table.share(table.values["own_spread"], "own_spread")
    if spread is not None and not 0 <= spread <= WIDEST_OWN_SPREAD:
        table.refuse(
            "own_spread",
            "must be from 0 % to 200 %: how much more than worked out your jobs use at most, 19"
            " times out of 20",
        )
        return None
    return spread
