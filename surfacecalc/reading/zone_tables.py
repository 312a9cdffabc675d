"""`[[zone]]` and `[[schedule.NAME]]` tables become zones with their steps."""

from collections.abc import Mapping
from typing import get_args

from surfacecalc.model.pieces import Surface, Wood, Zone
from surfacecalc.model.steps import Step
from surfacecalc.problems import suggestion
from surfacecalc.reading.fitted_hardware import with_fitted_hardware
from surfacecalc.reading.part_tables import read_name
from surfacecalc.reading.steps.put_on_together import check_sessions
from surfacecalc.reading.steps.shares import read_flag
from surfacecalc.reading.steps.step import check_zone_names, read_steps
from surfacecalc.reading.steps.stock import Stock
from surfacecalc.reading.swaps import with_swaps
from surfacecalc.reading.tables import Table
from surfacecalc.reading.wood import KEYS as WOOD_KEYS
from surfacecalc.reading.wood import read_wood

KEYS = (
    "name", "faces", "surface", "leave", "schedule", "step", "thirsty", "effort", "no_film",
    "knots", "swap",
    *WOOD_KEYS,
)  # fmt: skip
SURFACES: tuple[Surface, ...] = get_args(Surface)

Schedules = dict[str, tuple[Step, ...]]


def read_schedules(document: Table, stock: Stock) -> Schedules:
    """Return the steps of every schedule by its name; mistakes are recorded."""
    if "schedule" not in document:
        return {}
    table = document.table("schedule", "[[schedule.NAME]]")
    if table is None:
        return {}
    schedules = {}
    for name in table.values:
        if not name.strip():
            table.mend("has a schedule with an empty name; write [[schedule.NAME]]", name)
        schedules[name] = read_steps(table, name, f'schedule "{name}"', stock)
        if table.values[name] == []:
            table.mend(f'schedule "{name}" has no step; add one as [[schedule.NAME]]', name)
    return schedules


def read_zones(
    document: Table, schedules: Schedules, stock: Stock, wood: Wood
) -> list[tuple[Table, Zone]]:
    """Return the zones in the order of the file, each with its table; mistakes are recorded.

    Args:
        document: the file.
        schedules: the schedules that zones may share.
        stock: everything that steps may use.
        wood: what zones are made of that do not say it themselves.
    """
    found = []
    lines: dict[str, int] = {}
    for table in document.tables("zone", "[[zone]]"):
        zone = _zone(table, lines, document, schedules, stock, wood)
        if zone is not None:
            found.append((table, zone))
    for table, zone in found:
        check_zone_names(zone.steps, zone.name, list(lines), table.context)
    found = with_fitted_hardware(found, stock.shelf.hardware, list(lines))
    for table, _ in found[:1]:
        table.context.problems.extend(check_sessions([zone for _, zone in found]))
    return found


def _zone(
    table: Table,
    lines: dict[str, int],
    document: Table,
    schedules: Schedules,
    stock: Stock,
    wood: Wood,
) -> Zone | None:
    name = read_name(table, "zone", lines)
    table.only(KEYS)
    selectors = tuple(table.texts("faces", '["top", "leg *"]'))
    leave = read_flag(table, "leave")
    surface = _surface(table, leave)
    has_knots = read_flag(table, "knots")
    own_wood = read_wood(table, wood)
    steps = _finish(table, name, leave, document, schedules, stock)
    if not name or not selectors:
        return None
    return Zone(
        name, selectors, surface, leave, steps, table.line, has_knots=has_knots, wood=own_wood
    )


def _surface(table: Table, leave: bool) -> Surface | None:
    if leave and "surface" not in table:
        return None
    word = table.choice("surface", SURFACES)
    return next(surface for surface in SURFACES if surface == word)


def _finish(
    table: Table, name: str, leave: bool, document: Table, schedules: Schedules, stock: Stock
) -> tuple[Step, ...]:
    """Return the steps: exactly one of leave, schedule and own steps must be there."""
    given = [key for key in ("leave", "schedule", "step") if key in table and table.values[key]]
    if not given:
        table.mend('has no finish; add leave = true, or schedule = "NAME", or [[zone.step]]')
    elif len(given) > 1:
        named = " and ".join({"step": "its own steps"}.get(key, key) for key in given)
        table.mend(f"has both {named}; keep one of them", given[1])
    steps = read_steps(table, "step", f'zone "{name}"', stock)
    if "schedule" in table:
        wanted = table.text("schedule", '"NAME"')
        if wanted and wanted not in schedules:
            table.refuse("schedule", f"is not a schedule in this file; {_hint(wanted, schedules)}")
        found = schedules.get(wanted, ())
        return with_swaps(table, wanted, found, document, stock) if "swap" in table else found
    if "swap" in table:
        table.refuse("swap", "has no schedule to change; name the product in the steps themselves")
    return () if leave else steps


def _hint(wanted: str, schedules: Mapping[str, tuple[Step, ...]]) -> str:
    return suggestion(wanted, schedules) if schedules else "add one as [[schedule.NAME]]"
