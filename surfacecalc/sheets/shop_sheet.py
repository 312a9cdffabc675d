"""The sheet for the shop's wall and the walk to the store."""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from itertools import groupby

from surfacecalc.cautions import cautions
from surfacecalc.cautions.lead_tests import LEAD_TEST, tasks_after_lead_test
from surfacecalc.elements import Content, Element, element, name
from surfacecalc.gear.needed_too import needed_too
from surfacecalc.model.pieces import Piece
from surfacecalc.plans.plan import Plan, PlanEntry
from surfacecalc.problems import Problem
from surfacecalc.reports.input_words import input_text
from surfacecalc.reports.plan_screen import DUST_MARK
from surfacecalc.reports.plan_words import (
    SPREAD,
    calendar_words,
    likely_ends_words,
    rules_words,
)
from surfacecalc.sheets.bench_words import BenchLines
from surfacecalc.sheets.drawing import figure, size_words
from surfacecalc.sheets.rounded_words import days_text, hours_text, series, wait_text
from surfacecalc.sheets.safety_section import cautions_body, notes_body
from surfacecalc.sheets.sheet_frame import (
    CLEAR_ALL,
    Paper,
    SheetPage,
    SheetSection,
    amount,
    cell,
    column,
    facts,
    folded,
    page,
    row,
    table,
    tick,
)
from surfacecalc.sheets.shopping_html import Walk
from surfacecalc.supplies.shopping import Supply
from surfacecalc.units.display import Units, format_worked_area
from surfacecalc.units.shown_areas import format_area
from surfacecalc.work.task_words import (
    TaskKey,
    format_clock,
    format_date,
    format_day,
    format_moment,
    format_week,
)
from surfacecalc.zones.area_words import (
    exposed_text,
    left_text,
    lines_to_mask,
    to_finish_text,
)
from surfacecalc.zones.areas import Measured, ZoneArea


@dataclass(frozen=True)
class Session:
    """A stretch of work on one day.

    Attributes:
        start: when it begins.
        end: when it ends.
        entry: the work.
        number: which stretch of the same work it is, from 0.
    """

    start: datetime
    end: datetime
    entry: PlanEntry
    number: int

    @property
    def is_last(self) -> bool:
        """Whether the work is finished in it."""
        return self.number == len(self.entry.sessions) - 1


ASSUMED = element("span", "assumed", look="assumed")


def shop_sheet(
    piece: Piece,
    measured: Measured,
    supplies: list[Supply],
    plan: Plan,
    bench: BenchLines,
    notes: Iterable[Problem],
    units: Units,
    paper: Paper,
) -> SheetPage:
    """Return the shop sheet of a measured piece."""
    walk = Walk(piece, supplies, units, too=needed_too(piece, measured))
    tested = tasks_after_lead_test(piece, plan)
    steps = _steps(piece, measured, plan, tested, bench)
    days = [*_days(plan, tested, units), CLEAR_ALL] if plan.entries else None
    sections = [
        SheetSection("drawing", "The piece", figure(piece, measured, units)),
        SheetSection("notes", "Look at these first", notes_body(notes)),
        SheetSection("areas", "Areas", _areas(measured, units)),
        SheetSection("safety", "Safety", cautions_body(cautions(piece, measured))),
        SheetSection("supplies", "To buy", walk.body(first_tick=len(plan.entries) + len(tested))),
        SheetSection("steps", "The work, step by step", steps),
        SheetSection("plan", "Day by day", days),
    ]
    lead = _lead(piece.settings.count, measured, plan, units)
    return page(piece.settings.title, "Shop sheet", lead, sections, paper)


def _lead(count: int, measured: Measured, plan: Plan, units: Units) -> Element:
    pairs: list[tuple[str, Content]] = []
    if size := size_words(measured, units):
        pairs.append(("Width x depth x height", size))
    if count > 1:
        pairs.append(("To finish on each", to_finish_text(measured.one, units)))
    of_all = f" on all {count}" if count > 1 else ""
    pairs.append((f"To finish{of_all}", to_finish_text(measured, units)))
    if measured.left_m2:
        pairs.append((f"Left as it is{of_all}", left_text(measured, units)))
    if plan.entries:
        sessions = [session for entry in plan.entries for session in entry.sessions]
        hours = f"{hours_text(plan.hands_on_h)} over {days_text(sessions)}"
        pairs.append(("Hands-on time", hours))
    if plan.entries and count > 1:
        pairs.append(("Hands-on time for each", hours_text(plan.hands_on_h / count)))
    early = "not before " if plan.unknown else ""
    for title, time in (("Ready for delivery", plan.delivered), ("Ready for full use", plan.used)):
        if time is not None:
            pairs.append((title, f"{early}{format_day(time)}"))
    if plan.entries:
        pairs.append(("How sure that is", likely_ends_words(plan)))
    return facts(pairs)


def _areas(measured: Measured, units: Units) -> Element:
    pairs = zip(measured.zones, measured.one.zones, strict=True)
    rows = [_area_row(zone, one, units) for zone, one in pairs]
    if measured.in_no_zone:
        both = (measured.one, measured) if measured.of_one else (measured,)
        shown = (amount(format_area(one.in_no_zone_m2, units)) for one in both)
        rows.append(row("in no zone", cell(None), *shown))
    totals = [exposed_text(measured, units)]
    heads = [column("Zone"), column("Line to mask"), column("Area", "number")]
    if measured.of_one:
        totals.insert(0, exposed_text(measured.one, units))
        heads[2:] = [column("On each", "number"), column("On all", "number")]
    foot = row("Total", cell(None), *map(amount, totals))
    return table("Exposed area by finish zone", heads, rows, foot)


def _area_row(zone: ZoneArea, one: ZoneArea, units: Units) -> Element:
    """Return a zone with its area; of a set with that of one piece before."""
    left = [element("br"), element("small", "left as it is")] if zone.zone.leave else None
    meets: list[Content] = [
        [f"{length} to ", name(other)] for other, length in lines_to_mask(zone, units)
    ]
    faces: list[Content] = [
        [name(face.part), f", {face.face}: {format_worked_area(face.area_m2, units)}"]
        for face in one.faces
    ]
    why = folded(["Why ", element("span", name(zone.zone.name), look="screen")], faces)
    areas = [zone.area_m2] if one is zone else [one.area_m2, zone.area_m2]
    shown = (amount(format_area(area_m2, units)) for area_m2 in areas)
    return row([name(zone.zone.name), left, why], cell(_on_lines(meets)), *shown)


def _on_lines(lines: list[Content]) -> Content:
    """Return things one under the other."""
    return [[element("br") if number else None, line] for number, line in enumerate(lines)]


def _steps(
    piece: Piece,
    measured: Measured,
    plan: Plan,
    tested: Collection[TaskKey],
    bench: BenchLines,
) -> list[Content]:
    """Return the finish schedule of each zone as numbered boxes to tick, in working order."""
    parts: list[Content] = []
    count = 0
    for zone in measured.zones:
        entries = [entry for entry in plan.entries if zone.zone.name in entry.task.zones]
        entries.sort(key=lambda entry: (entry.starts, entry.task.number))
        items: list[Element] = []
        for entry in entries:
            if (zone.zone.name, entry.task.number) in tested:
                items.append(_lead_test(piece, zone, count + len(items), len(items) + 1))
            lines = bench.get((entry.task.zone, entry.task.number), ())
            words = _step(piece, zone, entry, count + len(items), len(items) + 1, lines)
            items.append(element("li", words))
        count += len(items)
        if items:
            after = dict.fromkeys(other for entry in entries for other in entry.task.after)
            heading = element("h3", name(zone.zone.name))
            steps = element("ol", items, look="lines")
            parts.append(element("div", heading, _after(list(after)), steps, look="zone"))
    return parts


def _lead_test(piece: Piece, zone: ZoneArea, count: int, number: int) -> Element:
    key = f"{piece.settings.name}|lead|{zone.zone.name}"
    words = element("span", element("b", f"{number}. {LEAD_TEST}"), look="task")
    return element("li", tick(key, count, words))


def _after(names: list[str]) -> Element | None:
    if not names:
        return None
    return element("p", "Part of this waits for ", name(series(names)), ".", look="soft")


def _step(
    piece: Piece,
    zone: ZoneArea,
    entry: PlanEntry,
    count: int,
    number: int,
    bench: Iterable[str],
) -> list[Element]:
    task = entry.task
    key = f"{piece.settings.name}|step|{zone.zone.name}|{task.number}|{task.words}"
    title = element("span", name(f"{number}. {_capital(task.words)}"), look="task")
    if zone.zone.name != task.zone:  # what is mixed once is said once
        there = element(
            "span", "in one session with ", name(task.zone), ": amounts and time are there",
            look="then",
        )  # fmt: skip
        return tick(key, count, [title, there])
    then = [hours_text(task.hands_on_h)]
    if task.wait.next_h > 0:
        then.append(f"then wait {wait_text(task.wait.next_h)}")
    if task.wait.unknown:
        then.append("drying time not known: follow the label")
    words = [
        title,
        *(element("span", name(line), look="amounts") for line in bench),
        element("span", ", ".join(then), look="then"),
    ]
    others = series(one for one in task.zones if one != zone.zone.name)
    if others:
        words.insert(1, element("span", "in one session with ", name(others), look="then"))
    return tick(key, count, words)


def _days(plan: Plan, tested: Collection[TaskKey], units: Units) -> Iterator[Content]:
    sessions = [
        Session(start, end, entry, number)
        for entry in plan.entries
        for number, (start, end) in enumerate(entry.sessions)
    ]
    sessions.sort(key=lambda one: one.start)
    if plan.dust:
        yield element("p", f"{DUST_MARK} {plan.dust}", look="soft")
    for _, found in groupby(sessions, lambda one: one.start.date()):
        same_day = list(found)
        heading = element("h3", format_date(same_day[0].start))
        lines = [line for one in same_day for line in _lines(one, plan, tested)]
        yield element("div", heading, element("ol", lines), look="day")
    hours = f"Working hours: {format_week(plan.windows)}"
    end: Content = "." if plan.has_own_hours else [", ", ASSUMED, "."]
    air = [f" {text}" for text in plan.mind[: plan.has_usual_air]]
    yield element("p", hours, end, air, look="soft")
    yield (element("p", text) for text in plan.mind[plan.has_usual_air :])
    yield (element("p", text) for text in (*calendar_words(plan), *rules_words(plan)))
    rests: list[Content] = [SPREAD]
    rests += [[name(input_text(one, units)), ": ", ASSUMED] for one in plan.assumed]
    yield folded("Where these times come from", rests)


def _lines(session: Session, plan: Plan, tested: Collection[TaskKey]) -> Iterator[Element]:
    """Yield the line of a session, and before it that of the lead test that it has to wait for."""
    task = session.entry.task
    is_first = session.number == 0
    if is_first and (task.zone, task.number) in tested:
        yield _day_line("", task.zone, [LEAD_TEST[:1].lower() + LEAD_TEST[1:]])
    is_dusty = is_first and (task.zone, task.number) in plan.dusty
    yield _session(session, f" {DUST_MARK}" if is_dusty else "")


def _session(session: Session, mark: str) -> Element:
    entry, end = session.entry, session.end
    words = entry.task.words + (" (continued)" if session.number else "") + mark
    then: Content = None
    if session.is_last and entry.task.wait.next_h > 0:
        is_same_day = entry.next_from.date() == end.date()
        when = format_clock(entry.next_from) if is_same_day else format_moment(entry.next_from)
        then = [" ", element("small", f"· next step from {when}")]
    span = f"{format_clock(session.start)}\N{EN DASH}{format_clock(end)}"
    return _day_line(span, entry.task.place, [name(words), then])


def _day_line(span: str, zone: str, words: list[Content]) -> Element:
    """Return a line of a day: when, where, and what."""
    where = element("b", name(f"{_capital(zone)}:"))
    return element("li", element("span", span, look="clock"), element("span", where, " ", words))


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
