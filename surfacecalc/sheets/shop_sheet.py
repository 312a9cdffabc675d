"""The sheet for the shop's wall and the walk to the store."""

from collections.abc import Iterable
from datetime import datetime
from itertools import groupby

from surfacecalc.cautions import cautions
from surfacecalc.model.pieces import Piece
from surfacecalc.pictures.marks import safe
from surfacecalc.plans.plan import Plan, PlanEntry
from surfacecalc.problems import Problem
from surfacecalc.reports.input_words import input_text
from surfacecalc.sheets.drawing import figure, size_words
from surfacecalc.sheets.rounded_words import area_text, days_text, hours_text, need_text, wait_text
from surfacecalc.sheets.safety_section import cautions_body, notes_body
from surfacecalc.sheets.sheet_frame import Paper, SheetSection, facts, folded, page, tick
from surfacecalc.sheets.shopping_html import Walk
from surfacecalc.supplies.shopping import Supply
from surfacecalc.units.display import Units, format_area
from surfacecalc.work.task_words import format_clock, format_day, format_week
from surfacecalc.zones.areas import Measured, ZoneArea

ASSUMED = '<span class="assumed">assumed</span>'


def shop_sheet(
    piece: Piece,
    measured: Measured,
    supplies: list[Supply],
    plan: Plan,
    notes: Iterable[Problem],
    units: Units,
    paper: Paper,
) -> str:
    """Return the shop sheet of a measured piece as the text of an HTML file."""
    steps = _steps(piece, measured, plan)
    walk = Walk(piece, supplies, units)
    clear = '<p class="screen"><button type="button" id="clear" hidden>Clear all ticks</button></p>'
    sections = [
        SheetSection("drawing", "The piece", figure(piece, measured, units)),
        SheetSection("notes", "Look at these first", notes_body(notes)),
        SheetSection("areas", "Areas", _areas(measured, units)),
        SheetSection("mind", "Before you begin", cautions_body(cautions(piece, measured))),
        SheetSection("supplies", "To buy", walk.body(first_tick=len(plan.entries))),
        SheetSection("steps", "The work, step by step", steps),
        SheetSection("plan", "Day by day", _days(plan, units) + clear if plan.entries else ""),
    ]
    return page(piece.settings.name, "Shop sheet", _lead(measured, plan, units), sections, paper)


def _lead(measured: Measured, plan: Plan, units: Units) -> str:
    pairs = []
    if size := size_words(measured, units):
        pairs.append(("Width x depth x height", safe(size)))
    pairs.append(("Surface, loose parts included", area_text(measured.exposed_m2, units)))
    if plan.entries:
        sessions = [session for entry in plan.entries for session in entry.sessions]
        pairs.append(("Hands on", f"{hours_text(plan.hands_on_h)}, on {days_text(sessions)}"))
    early = "not before " if plan.unknown else ""
    for name, time in (("Can be delivered", plan.delivered), ("Can be used", plan.used)):
        if time is not None:
            pairs.append((name, f"{early}{format_day(time)}"))
    return facts(pairs)


def _areas(measured: Measured, units: Units) -> str:
    rows = "".join(_area_row(zone, units) for zone in measured.zones)
    if measured.in_no_zone:
        area = area_text(measured.in_no_zone_m2, units)
        rows += f'<tr><th scope="row">in no zone</th><td></td><td class="number">{area}</td></tr>'
    total = area_text(measured.exposed_m2, units)
    return f"""<table>
<caption>What is really exposed, by finish zone</caption>
<thead><tr><th scope="col">Zone</th><th scope="col">Meets</th>\
<th scope="col" class="number">Area</th></tr></thead>
<tbody>{rows}</tbody>
<tfoot><tr><th scope="row">All</th><td></td><td class="number">{total}</td></tr></tfoot>
</table>"""


def _area_row(zone: ZoneArea, units: Units) -> str:
    left = "<br><small>left as it is</small>" if zone.zone.leave else ""
    meets = "<br>".join(
        f"<bdi>{safe(other)}</bdi> along {need_text(length_m, 'm', units)}"
        for other, length_m in zone.meets_m.items()
    )
    faces = [
        f"<bdi>{safe(face.part)}</bdi>, {safe(face.face)}: {format_area(face.area_m2, units)}"
        for face in zone.faces
    ]
    why = folded(f'Why <span class="screen"><bdi>{safe(zone.zone.name)}</bdi></span>', faces)
    return (
        f'<tr><th scope="row"><bdi>{safe(zone.zone.name)}</bdi>{left}{why}</th>'
        f'<td>{meets}</td><td class="number">{area_text(zone.area_m2, units)}</td></tr>'
    )


def _steps(piece: Piece, measured: Measured, plan: Plan) -> str:
    """Return the finish schedule of each zone as boxes to tick, in working order."""
    parts, count = [], 0
    for zone in measured.zones:
        entries = [entry for entry in plan.entries if entry.task.zone == zone.zone.name]
        entries.sort(key=lambda entry: entry.task.number)
        items = []
        for entry in entries:
            items.append(f"<li>{_step(piece, entry, count)}</li>")
            count += 1
        if items:
            after = dict.fromkeys(name for entry in entries for name in entry.task.after)
            parts.append(
                f"<h3><bdi>{safe(zone.zone.name)}</bdi></h3>{_after(list(after))}"
                f'<ol class="lines">{"".join(items)}</ol>'
            )
    return "\n".join(parts)


def _after(names: list[str]) -> str:
    if not names:
        return ""
    return f'<p class="soft">Part of it waits for <bdi>{safe(", ".join(names))}</bdi>.</p>'


def _step(piece: Piece, entry: PlanEntry, count: int) -> str:
    task = entry.task
    key = f"{piece.settings.name}|step|{task.zone}|{task.number}|{task.words}"
    then = [hours_text(task.hands_on_h)]
    if task.wait.next_h > 0:
        then.append(f"then wait {wait_text(task.wait.next_h)}")
    if task.wait.unknown:
        then.append("drying time not known: follow the label")
    words = (
        f'<span class="task"><bdi>{safe(_capital(task.words))}</bdi></span>'
        f'<span class="then">{", ".join(then)}</span>'
    )
    return tick(key, count, words)


def _days(plan: Plan, units: Units) -> str:
    rows = [
        (start, end, entry, number)
        for entry in plan.entries
        for number, (start, end) in enumerate(entry.sessions)
    ]
    rows.sort(key=lambda row: row[0])
    days = "".join(
        f'<div class="day"><h3>{_without_year(date)}</h3><ol>'
        f"{''.join(_session(*row) for row in found)}</ol></div>"
        for date, found in (
            (items[0][0], items)
            for items in (list(group) for _, group in groupby(rows, lambda row: row[0].date()))
        )
    )
    hours = f"Working hours: {format_week(plan.windows)}"
    hours += "." if plan.has_own_hours else f", {ASSUMED}."
    mind = "".join(f"<p>{safe(text)}</p>" for text in plan.mind)
    lines = [f"<bdi>{safe(input_text(one, units))}</bdi>: {ASSUMED}" for one in plan.assumed]
    why = folded("Why these times: what they rest on", lines)
    return f'{days}<p class="soft">{hours}</p>{mind}{why}'


def _without_year(time: datetime) -> str:
    return format_day(time).rsplit(" ", 1)[0]


def _session(start: datetime, end: datetime, entry: PlanEntry, number: int) -> str:
    words = entry.task.words + (", goes on" if number else "")
    is_last = number == len(entry.sessions) - 1
    then = ""
    if is_last and entry.task.wait.next_h > 0:
        when = format_clock(entry.next_from)
        if entry.next_from.date() != end.date():
            when = f"{_without_year(entry.next_from)} {when}"
        then = f" <small>· next from {when}</small>"
    span = f"{format_clock(start)}&#8211;{format_clock(end)}"
    return (
        f'<li><span class="clock">{span}</span><span><bdi>{safe(_capital(words))}</bdi>'
        f" <small><bdi>{safe(entry.task.zone)}</bdi></small>{then}</span></li>"
    )


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
