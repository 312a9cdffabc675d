"""A plan on the screen: day by day, when it is over, and where asked for what it comes from."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from rich.cells import cell_len
from rich.console import Console

from surfacecalc.cautions.lead_tests import LEAD_TEST, tasks_after_lead_test
from surfacecalc.model.pieces import Piece
from surfacecalc.plans.assumed_hours import hours_by_input
from surfacecalc.plans.plan import Plan, PlanEntry
from surfacecalc.plans.rounded_minutes import ROUNDED_MIN, work_min
from surfacecalc.prices.assumed_figures import figures_of_hours
from surfacecalc.problems import printable
from surfacecalc.reports.assumed_screen import print_all_assumed, print_assumed
from surfacecalc.reports.plan_words import (
    SPREAD,
    calendar_words,
    likely_ends_words,
    rules_words,
    together_words,
)
from surfacecalc.reports.table_style import Column, fitted_table, plain_table
from surfacecalc.units.display import Units
from surfacecalc.work.task_words import (
    TaskKey,
    format_clock,
    format_date,
    format_day,
    format_hours,
    format_span,
    format_until,
    format_week,
    grit_words,
)

COLUMNS: tuple[Column, ...] = (
    ("Day", "left"), ("When", "left"), ("Zone", "left"), ("Step", "left"), ("What", "left"),
    ("Next from", "left"),
)  # fmt: skip
DAY, WHEN, ZONE, STEP, WAIT = 0, 1, 2, 3, 5
BENCH_COLUMNS: tuple[Column, ...] = (
    ("Zone", "left"), ("Step", "left"), ("What", "left"), ("At the bench", "left"),
)  # fmt: skip
ZONE_USED, STEP_USED = 0, 1
DUST_MARK = "!"
"""Marks work that makes dust while a coat is wet."""


@dataclass(frozen=True)
class _Row:
    """What is done at one go: one session of a task, or passes that follow each other at once."""

    starts: datetime
    ends: datetime
    entries: tuple[PlanEntry, ...]
    session: int

    @property
    def last(self) -> PlanEntry:
        return self.entries[-1]

    @property
    def tasks(self) -> list[TaskKey]:
        """Zone and number of each task in it."""
        return [(entry.task.zone, entry.task.number) for entry in self.entries]

    @property
    def is_over(self) -> bool:
        """Whether its task is over with it, and does not stop for the day."""
        return self.session == len(self.last.sessions) - 1


def print_plan(
    out: Console,
    piece: Piece,
    plan: Plan,
    units: Units,
    bench: Mapping[TaskKey, Iterable[str]],
    *,
    why: bool,
) -> None:
    """Print what to do day by day, and when the piece can be handled and used.

    Args:
        out: where to print.
        piece: the piece.
        plan: its plan.
        units: which units are shown.
        bench: what the bench needs for each task, in sentences.
        why: whether to print that, and what the plan comes from: steps, air, and every assumed
            figure.
    """
    out.print(printable(f"{piece.settings.title}: plan{_shortest(plan)}"), style="bold")
    if not plan.entries:
        out.print("There is nothing to do: no zone has a step.")
        return
    _print_days(out, plan, tasks_after_lead_test(piece, plan), why=why)
    if why:
        _print_bench(out, plan, bench)
    _print_ends(out, plan, piece.settings.count)
    for text in _notes(plan, why=why):
        out.print(printable(text))
    figures = [one.factor for one in figures_of_hours(hours_by_input(plan))]
    if why:
        print_all_assumed(out, figures, units)
    else:
        beside = "" if plan.has_own_hours else "the working hours"
        print_assumed(out, figures, units, beside=beside)


def _shortest(plan: Plan) -> str:
    """Return that no plan is over sooner, where that is proven."""
    if not plan.is_shortest or not plan.entries:
        return ""
    if plan.rules_cost.days:
        return " (the shortest schedule that keeps to its rules)"
    return " (the shortest possible schedule)"


def _print_days(out: Console, plan: Plan, tested: frozenset[TaskKey], *, why: bool) -> None:
    rows: list[Sequence[str]] = []
    day = ""
    for one in _rows(plan):
        begun, day = day, format_date(one.starts)
        shown = "" if day == begun else day
        if one.session == 0 and not tested.isdisjoint(one.tasks):
            rows.append((shown, "", printable(one.last.task.zone), "", LEAD_TEST, ""))
            shown = ""
        is_dusty = one.session == 0 and not plan.dusty.isdisjoint(one.tasks)
        rows.append(_cells(one, shown, why=why, is_dusty=is_dusty))
    out.print(fitted_table(out, COLUMNS, rows, DAY, WHEN, *_whole(out, rows, ZONE), WAIT))


def _print_bench(out: Console, plan: Plan, bench: Mapping[TaskKey, Iterable[str]]) -> None:
    """Print what the bench needs, task by task, in the order of the plan."""
    rows = [
        (printable(task.place), str(task.step), printable(task.words), printable(" ".join(lines)))
        for task in (entry.task for entry in plan.entries)
        if (lines := bench.get((task.zone, task.number)))
    ]
    if rows:
        whole = _whole(out, rows, ZONE_USED)
        out.print(fitted_table(out, BENCH_COLUMNS, rows, *whole, STEP_USED))


def _whole(out: Console, rows: Sequence[Sequence[str]], zone: int) -> tuple[int, ...]:
    """Return the column of zones if its cells stay on one line: not those of long sessions."""
    return (zone,) if max(cell_len(row[zone]) for row in rows) <= out.width // 4 else ()


def _rows(plan: Plan) -> Iterator[_Row]:
    """Yield what is done at one go, in order: grits that follow each other at once are one."""
    sessions = [
        _Row(start, end, (entry,), number)
        for entry in plan.entries
        for number, (start, end) in enumerate(entry.sessions)
    ]
    open_row: _Row | None = None
    for one in sorted(sessions, key=lambda row: row.starts):
        if open_row is not None and _follows(open_row, one):
            open_row = _Row(open_row.starts, one.ends, open_row.entries + one.entries, one.session)
            continue
        if open_row is not None:
            yield open_row
        open_row = one
    if open_row is not None:
        yield open_row


def _follows(before: _Row, after: _Row) -> bool:
    """Whether a pass with the next grit of the same step begins where one with a grit ends."""
    one, other = before.last, after.last
    return (
        one.task.grit_pass is not None
        and other.task.grit_pass is not None
        and (one.task.zone, one.task.step) == (other.task.zone, other.task.step)
        and len(one.sessions) == len(other.sessions) == 1
        and before.ends == after.starts
        and before.starts.date() == after.starts.date()
    )


def _cells(one: _Row, day: str, *, why: bool, is_dusty: bool) -> Sequence[str]:
    task = one.last.task
    passes = [entry.task.grit_pass for entry in one.entries if entry.task.grit_pass]
    words = grit_words(passes) if len(one.entries) > 1 else task.words
    words += " (continued)" if one.session else ""
    words += f" {DUST_MARK}" if is_dusty else ""
    wait = ""
    if one.is_over and task.wait.next_h:
        wait = format_until(one.last.next_from, one.ends)
    step = str(task.step) if why else ""
    return (
        day,
        format_span(one.starts, one.ends),
        printable(task.place),
        step,
        printable(words),
        wait,
    )


def _print_ends(out: Console, plan: Plan, count: int) -> None:
    days = f"{plan.days} day{'s' if plan.days != 1 else ''}"
    out.print(
        f"Hands-on time: {format_hours(plan.hands_on_h)} over {days}, of which"
        f" {format_hours(plan.set_up_h)} set-up and clean-up."
    )
    if count > 1:
        each = format_hours(work_min(plan.hands_on_h / count) / 60)
        out.print(f"That is about {each} for each of the {count}.")
    early = "not before " if plan.unknown else ""
    ends = (
        ("Work is over", plan.worked, "Can be handled", plan.handled),
        ("Can be delivered", plan.delivered, "Can be used", plan.used),
    )
    table = plain_table(*(("", "left") for _ in range(4)), headings=False)
    for what, time, then, later in ends:
        if time is not None and later is not None:
            table.add_row(what, f"{early}{_moment(time)}", then, f"{early}{_moment(later)}")
    out.print(table)
    out.print(likely_ends_words(plan))


def _moment(time: datetime) -> str:
    return f"{format_day(time)} {format_clock(time)}"


def _notes(plan: Plan, *, why: bool) -> Iterator[str]:
    """Yield what to know about the hours, the order and the air."""
    if why:
        assumed = "" if plan.has_own_hours else " (assumed)"
        yield f"Working hours{assumed}: {format_week(plan.windows)}."
        yield (
            f"Hands-on times are rounded to {ROUNDED_MIN} minutes, waits up to the next"
            f" {ROUNDED_MIN}; the total is the sum of the hands-on times in the table."
        )
        yield SPREAD
        yield from together_words(plan)
    yield from calendar_words(plan)
    if not plan.is_shortest:
        yield "A good schedule, but the job is too big to prove it is the shortest."
    yield from rules_words(plan)
    yield from plan.mind if why else plan.mind[plan.has_usual_air :]
    if plan.dust:
        yield f"{DUST_MARK} {plan.dust}"
