"""A plan on the screen, day by day, and as JSON."""

from datetime import datetime
from itertools import groupby
from typing import overload

from rich.console import Console
from rich.padding import Padding
from rich.table import Table

from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Factor
from surfacecalc.plans.plan import Plan, PlanEntry
from surfacecalc.problems import printable
from surfacecalc.reports.json_shapes import SCHEMA, PlanData, TaskData, printed
from surfacecalc.reports.table_style import plain_table
from surfacecalc.units.display import Units
from surfacecalc.units.known import factor as size_of
from surfacecalc.work.task_words import (
    format_day,
    format_hours,
    format_moment,
    format_span,
    format_week,
)

COLUMNS = ("When", "Zone", "Step", "What", "Wait until")


def print_plan(out: Console, piece: Piece, plan: Plan, units: Units) -> None:
    """Print what to do day by day, when the piece can be handled and used, and what is assumed."""
    out.print(printable(f"{piece.settings.name}: plan"), style="bold")
    if not plan.entries:
        out.print("There is nothing to do: no zone has a step.")
        return
    out.print()
    _print_days(out, plan)
    _print_ends(out, plan)
    assumed = "" if plan.has_own_hours else " (assumed: [workshop] gives no hours)"
    out.print(f"Working hours: {format_week(plan.windows)}{assumed}.")
    out.print(_quality(plan))
    if plan.mind:
        out.print()
        out.print("Air and drying", style="bold")
        for text in plan.mind:
            out.print(Padding(printable(text), (0, 0, 0, 4), expand=False))
    if plan.assumed:
        out.print()
        out.print("Assumed; write your own in the piece file:")
        for factor in plan.assumed:
            text = printable(assumed_time(factor, units))
            out.print(Padding(text, (0, 0, 0, 4), expand=False))


def _print_days(out: Console, plan: Plan) -> None:
    table = plain_table(*((name, "left") for name in COLUMNS))
    table.columns[0].no_wrap = True
    rows = [
        (start, end, entry, number)
        for entry in plan.entries
        for number, (start, end) in enumerate(entry.sessions)
    ]
    rows.sort(key=lambda row: row[0])
    for k, (_, of_day) in enumerate(groupby(rows, key=lambda row: row[0].date())):
        if k:
            table.add_row()
        for first, (start, end, entry, number) in enumerate(of_day):
            if first == 0:
                table.add_row(_short_day(start), style="bold")
            table.add_row(*_row(start, end, entry, number))
    out.print(table)


def _short_day(time: datetime) -> str:
    return format_moment(time).rsplit(" ", 1)[0]


def _row(start: datetime, end: datetime, entry: PlanEntry, number: int) -> tuple[str, ...]:
    task = entry.task
    words = f"{task.words}, goes on" if number else task.words
    is_last = number == len(entry.sessions) - 1
    wait = format_moment(entry.next_from) if is_last and task.wait.next_h else ""
    span = format_span(start, end)
    return span, printable(task.zone), str(task.step), printable(words), wait


def _print_ends(out: Console, plan: Plan) -> None:
    days = f"{plan.days} day{'s' if plan.days != 1 else ''}"
    out.print()
    out.print(
        f"Hands on: {format_hours(plan.hands_on_h)} on {days}, {format_hours(plan.set_up_h)} of it"
        " setting out and cleaning up."
    )
    table = Table(box=None, pad_edge=False, show_header=False, padding=(0, 2, 0, 0))
    ends = {
        "Work is over": plan.worked,
        "Can be handled": plan.handled,
        "Can be delivered": plan.delivered,
        "Can be used": plan.used,
    }
    for what, time in ends.items():
        if time is not None:
            clock = format_moment(time).rsplit(" ", 1)[1]
            early = "not before " if plan.unknown else ""
            table.add_row(what, f"{early}{format_day(time)} {clock}")
    out.print(table)


def _quality(plan: Plan) -> str:
    if plan.is_shortest:
        return "No order of this work is over sooner."
    return "A good order; a shorter one may exist, the job is too large to try them all."


def plan_json(piece: Piece, plan: Plan) -> str:
    """Return a plan as one JSON object: hours, and local times without a zone."""
    value: PlanData = {
        "schema": SCHEMA,
        "piece": piece.settings.name,
        "working_hours": format_week(plan.windows),
        "working_hours_assumed": not plan.has_own_hours,
        "hands_on_h": plan.hands_on_h,
        "set_up_h": plan.set_up_h,
        "days": plan.days,
        "shortest": plan.is_shortest,
        "worked": _time(plan.worked),
        "handled": _time(plan.handled),
        "delivered": _time(plan.delivered),
        "used": _time(plan.used),
        "tasks": [_task(entry) for entry in plan.entries],
        "drying_unknown": list(plan.unknown),
        "mind": list(plan.mind),
        "assumed": [assumed_time(factor, Units.METRIC) for factor in plan.assumed],
    }
    return printed(value)


def _task(entry: PlanEntry) -> TaskData:
    task = entry.task
    return {
        "zone": task.zone,
        "step": task.step,
        "task": task.words,
        "line": task.line,
        "sessions": [{"from": _time(start), "to": _time(end)} for start, end in entry.sessions],
        "hands_on_h": task.hands_on_h,
        "set_up_h": task.set_up_h,
        "can_pause": task.can_pause,
        "wait_h": task.wait.next_h,
        "next_from": _time(entry.next_from),
        "handled_from": _time(entry.handled_from),
        "used_from": _time(entry.used_from),
    }


@overload
def _time(time: datetime) -> str: ...
@overload
def _time(time: None) -> None: ...
def _time(time: datetime | None) -> str | None:
    return None if time is None else time.isoformat(timespec="minutes")


def assumed_time(factor: Factor, units: Units) -> str:
    """Return an assumed rate or time with its name."""
    value = factor.range.likely
    if not factor.key.startswith("rate "):
        return f"{factor.key} {format_hours(value)}"
    if units is Units.METRIC:
        return f"{factor.key} {value:.3g} m2/h"
    return f"{factor.key} {value / float(size_of('ft2')):.3g} sq ft/h"
