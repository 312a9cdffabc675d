"""CSV for spreadsheets: metric, exact, and safe to open: no cell is run as a formula."""

import csv
import io
from collections.abc import Iterable, Iterator
from datetime import datetime
from typing import TYPE_CHECKING, Any

from surfacecalc.model.pieces import Piece
from surfacecalc.problems import printable
from surfacecalc.reports.input_words import input_text
from surfacecalc.supplies.pack_words import bought_text
from surfacecalc.supplies.shopping import Supply
from surfacecalc.units.display import Units

if TYPE_CHECKING:  # of no use to the other lists, which start sooner without them
    from surfacecalc.plans.plan import Plan, PlanEntry
    from surfacecalc.supplies.bench import Bench
    from surfacecalc.supplies.portions import Portion
    from surfacecalc.supplies.together import Trip

SUPPLY_COLUMNS = (
    "supply", "kind", "grit", "unit", "need_low", "need_likely", "need_high", "need_buy_for",
    "on_hand", "buy", "cost", "currency", "left_over", "assumed",
)  # fmt: skip
PLAN_COLUMNS = (
    "from", "to", "zone", "step", "task", "part", "parts", "hands_on_h", "wait_h", "next_from",
    "amounts",
)  # fmt: skip
"""A task that goes on another day has a row for each part; its hours and amounts are in the first,
its wait in the last, so that columns may be added up."""
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")
"""A cell that starts with one of these is run as a formula by spreadsheets."""


def supplies_csv(piece: Piece, supplies: list[Supply]) -> str:
    """Return the supply list as CSV with a header."""
    return _csv(SUPPLY_COLUMNS, (_supply_row(piece, supply) for supply in supplies))


def trip_csv(trip: "Trip") -> str:
    """Return one list for several pieces as CSV; what each piece takes has a column of its own."""
    columns = (*SUPPLY_COLUMNS, *(f"takes: {label}" for label in trip.pieces))
    rows = ([*_supply_row(trip.piece, supply), *_taken(trip, supply)] for supply in trip.supplies)
    return _csv(columns, rows)


def plan_csv(plan: "Plan", bench: "Bench") -> str:
    """Return a plan as CSV, a row for each time that something is done: hours, local times."""
    return _csv(PLAN_COLUMNS, (row for entry in plan.entries for row in _task_rows(entry, bench)))


def _supply_row(piece: Piece, supply: Supply) -> list[Any]:
    need = supply.need
    row: list[Any] = [supply.name, supply.kind, supply.grit, supply.unit]
    row += [need.low, need.likely, need.high, need.buy_for, supply.on_hand]
    row.append("; ".join(bought_text(pack, count, supply.unit) for pack, count in supply.buy))
    row += [supply.cost, piece.settings.currency, supply.left_over]
    assumed = (input_text(factor, Units.METRIC) for factor in supply.assumed)
    return [*row, "; ".join(assumed)]


def _taken(trip: "Trip", supply: Supply) -> list[float]:
    taken = trip.taken(supply)
    return [taken.get(label, 0.0) for label in trip.pieces]


def _task_rows(entry: "PlanEntry", bench: "Bench") -> Iterator[list[Any]]:
    task = entry.task
    needed = bench.get((task.zone, task.number))
    portions = needed.portions if needed else ()
    used = "; ".join(map(_portion, portions))
    for number, (start, end) in enumerate(entry.sessions, 1):
        is_last = number == len(entry.sessions)
        waits = [task.wait.next_h, _time(entry.next_from)] if is_last else [None, None]
        counted = [number, len(entry.sessions), task.hands_on_h if number == 1 else None]
        amounts = used if number == 1 else None
        row = [_time(start), _time(end), task.place, task.step, task.words, *counted, *waits]
        yield [*row, amounts]


def _portion(one: "Portion") -> str:
    role = "" if one.role == "step" else f" ({one.role})"
    return f"{one.amount:.4g} {one.unit} {one.supply}{role}"


def _time(time: datetime | None) -> str | None:
    return None if time is None else time.isoformat(sep=" ", timespec="minutes")


def _csv(columns: Iterable[str], rows: Iterable[Iterable[Any]]) -> str:
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow([_cell(name) for name in columns])
    writer.writerows([_cell(value) for value in row] for row in rows)
    return text.getvalue()


def _cell(value: Any) -> str:
    if value is None:
        return ""
    if not isinstance(value, str):
        return str(value)
    text = printable(value)
    return f"'{text}" if value.startswith(FORMULA_STARTS) else text
