"""Inputs of a step that may be left out; a default is marked as assumed."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from surfacecalc.model.bands import LOSS_BAND, banded
from surfacecalc.model.inputs import Input, InputUnit
from surfacecalc.model.ranges import Factor, Range
from surfacecalc.model.shelf import Basis
from surfacecalc.reading.coverage_keys import one_coverage
from surfacecalc.reading.tables import Table, shown


def read_share(
    table: Table, key: str, default: Factor, rule: Callable[[float], str | None]
) -> Factor:
    """Return a share that is written, or its default."""
    if key not in table:
        return default
    written = table.range(key, table.share, rule)
    return default if written is None else default.written(written, table.where)


def read_loss(
    table: Table, key: str, default: Factor, rule: Callable[[float], str | None]
) -> Factor:
    """Return a share that is lost: one number gets an assumed band, a range stays as it is."""
    found = read_share(table, key, default, rule)
    below = 1.0 if rule is below_one else float("inf")
    return banded(found, LOSS_BAND, below) if table.is_one_number(key) else found


def read_covers(table: Table, key: str, default: Factor, wanted: Basis = "volume") -> Factor:
    """Return area per litre or kilo [m2/L or m2/kg] that is written, or its default."""

    def read(value: Any, *keys: str | int) -> float | None:
        coverage, basis = one_coverage(table, value, key, *keys)
        if basis is not None and basis != wanted:
            right = '"8 m2/kg"' if wanted == "weight" else '"10 m2/L"'
            table.mend(
                f"{key} = {shown(value)} must be an area per {wanted}, such as {right}", *keys
            )
        return coverage

    if key not in table:
        return default
    written = table.range(key, read, above_zero)
    return default if written is None else default.written(written, table.where)


def read_amount(
    table: Table, key: str, what: Input, basis: Basis, rule: Callable[[float], str | None]
) -> Factor | None:
    """Return an amount [L or kg] as a value or a range, None where it is not written."""

    def read(value: Any, *keys: str | int) -> float | None:
        return table.amount(value, basis, *keys)

    written = table.range(key, read, rule) if key in table else None
    if written is None:
        return None
    unit: InputUnit = "kg" if basis == "weight" else "L"
    return Factor(replace(what, where=table.where), written, "piece file", unit=unit)


def assumed(what: Input, values: Range, unit: InputUnit = "share") -> Factor:
    """Return a default that is assumed."""
    return Factor(what, values, "assumed", unit=unit)


def read_flag(table: Table, key: str) -> bool:
    """Return true or false; false where it is not written."""
    value = table.values.get(key, False)
    if not isinstance(value, bool):
        table.refuse(key, "must be true or false")
    return value is True


def below_one(value: float) -> str | None:
    """Say what is wrong with a share that something is divided by one less of."""
    return None if 0 <= value < 1 else "must be from 0 % to below 100 %"


def zero_or_more(value: float) -> str | None:
    """Say what is wrong with a share of something extra."""
    return None if 0 <= value <= 10 else "must be from 0 % to 1000 %"


def part_of_one(value: float) -> str | None:
    """Say what is wrong with a share that something is divided by."""
    return None if 0 < value <= 1 else "must be more than 0 % and at most 100 %"


def above_zero(value: float) -> str | None:
    """Say what is wrong with an amount that there must be some of."""
    return None if value > 0 else "must be more than zero"


def small_amount(value: float) -> str | None:
    """Say what is wrong with an amount that a tray keeps or a joint takes [L or kg]."""
    return None if 0 <= value <= 10 else "must be from zero to 10 litres or kilos"
