"""`swap` at a zone: its schedule with other products, so that a second colour needs no copy.

The schedule is read again with the other names in it. So whatever a step takes from its product,
such as its loss or its first coat, is that of the product that is really used.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from surfacecalc.model.steps import Step
from surfacecalc.problems import suggestion
from surfacecalc.reading.steps.step import read_steps
from surfacecalc.reading.steps.stock import Stock, check_known
from surfacecalc.reading.tables import Table

EXAMPLE = '{ "moss green" = "cream" }'
NAMING = ("product", "products")
"""Keys of a step, or of a table in it, that name what may be swapped."""


def with_swaps(
    zone: Table, schedule: str, steps: tuple[Step, ...], document: Table, stock: Stock
) -> tuple[Step, ...]:
    """Return the steps of a zone's schedule with the products that the zone has in their place.

    What goes on hardware keeps its product: hardware is done once for all zones of a schedule.

    Args:
        zone: the zone.
        schedule: the name of its schedule.
        steps: the schedule as it is.
        document: the file.
        stock: what steps may use.
    """
    if not steps:  # what is wrong with the schedule is told there
        return steps
    written = document.values["schedule"][schedule]
    swaps = _read_swaps(zone, list(dict.fromkeys(_named(written))), stock)
    if not swaps:
        return steps
    tables = [_swapped(values, swaps) for values in written]
    context = replace(zone.context, problems=[])
    again = Table({schedule: tables}, ("schedule",), "", context)
    found = read_steps(again, schedule, f'schedule "{schedule}"', stock)
    known = set(zone.context.problems)
    for problem in context.problems:
        if problem not in known:  # it is this product that does not fit the step
            record = zone.mend if problem.level == "mend" else zone.note
            record(f"swap: line {problem.line}: {problem.message}", "swap")
    return found


def _read_swaps(zone: Table, used: Sequence[str], stock: Stock) -> dict[str, str]:
    """Return the new name of each product that is swapped; mistakes are recorded."""
    table = zone.table("swap", EXAMPLE)
    if table is None:
        return {}
    if not table.values:
        zone.refuse("swap", f"is empty; write swap = {EXAMPLE}, or leave it off")
    for old, new in table.values.items():
        if not isinstance(new, str) or not new.strip():
            table.refuse(old, f"must be the name of a product in quotes, as in swap = {EXAMPLE}")
            continue
        if old not in used:
            hint = suggestion(old, used) if used else "its steps use no product"
            table.mend(f'"{old}" is not a product that this schedule uses; {hint}', old)
        check_known(table, old, new, stock.product_lines, "product")
    return dict(table.values) if zone.is_sound and table.is_sound else {}


def _named(value: object, key: str = "") -> Iterator[str]:
    """Yield the names of products in steps that may be swapped."""
    if isinstance(value, dict) and "hardware" not in value:
        for inner, found in value.items():
            yield from _named(found, inner)
    elif isinstance(value, list):
        for one in value:
            yield from _named(one, key)
    elif isinstance(value, str) and key in NAMING:
        yield value


def _swapped(values: Mapping[str, Any], swaps: Mapping[str, str]) -> dict[str, Any]:
    """Return a step, or a table in it, with the other products."""
    if "hardware" in values:
        return dict(values)
    return {key: _new_value(key, value, swaps) for key, value in values.items()}


def _new_value(key: str, value: object, swaps: Mapping[str, str]) -> object:
    if isinstance(value, dict):
        return _swapped(value, swaps)
    if key not in NAMING:
        return value
    if isinstance(value, list):
        return [swaps.get(name, name) if isinstance(name, str) else name for name in value]
    return swaps.get(value, value) if isinstance(value, str) else value
