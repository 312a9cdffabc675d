"""Hands-on time, waits and what is used up: the same keys in every step."""

from typing import Any, Literal

from surfacecalc.model.inputs import Input
from surfacecalc.model.ranges import Factor
from surfacecalc.model.steps import Work
from surfacecalc.reading.steps.stock import Stock, read_names
from surfacecalc.reading.tables import Table, shown
from surfacecalc.units.grammar import AmountError, parse_rate

WORK_KEYS = ("time", "rate", "wait", "sides", "after", "uses")
LONGEST_H = 10_000.0
"""h; a longer wait than a year is a wrong unit."""
FASTEST_M2_PER_H = 1_000.0


def read_work(table: Table, stock: Stock) -> Work:
    """Return what a step says of its work; zones in `after` are checked once all are read."""
    return Work(
        time_h=_hours(table, "time"),
        rate_m2_per_h=_rate(table),
        wait_h=_hours(table, "wait"),
        sides=table.whole("sides", 1, 6) if "sides" in table else 1,
        after=tuple(dict.fromkeys(table.texts("after", '["legs"]'))) if "after" in table else (),
        uses=read_names(table, "uses", stock.consumable_lines, "consumable", '["gloves"]'),
    )


def _hours(table: Table, key: Literal["time", "wait"]) -> Factor | None:
    def read(value: Any, *keys: str | int) -> float | None:
        return table.amount(value, "time", *keys)

    written = table.range(key, read, _time_rule) if key in table else None
    what = Input(key, where=table.where)
    return None if written is None else Factor(what, written, "piece file", unit="h")


def _time_rule(value: float) -> str | None:
    if value < 0:
        return "must be zero or more"
    return "is over a year; check the unit" if value > LONGEST_H else None


def _rate(table: Table) -> Factor | None:
    def read(value: Any, *keys: str | int) -> float | None:
        try:
            if not isinstance(value, str):
                raise AmountError('has no unit; write an area per time, such as "2 m2/h"')
            return float(parse_rate(value))
        except AmountError as error:
            table.mend(f"rate = {shown(value)} {error}", *keys)
            return None

    if "rate" not in table:
        return None
    if "time" in table:
        table.mend("has both time and rate; keep one of them", "rate")
    written = table.range("rate", read, _rate_rule)
    what = Input("rate", where=table.where)
    return None if written is None else Factor(what, written, "piece file", unit="m2/h")


def _rate_rule(value: float) -> str | None:
    if value <= 0:
        return "must be more than zero"
    return "is over 1,000 m2 an hour; check the unit" if value > FASTEST_M2_PER_H else None
