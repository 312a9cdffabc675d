"""One list for one trip to the store, for several pieces."""

from surfacecalc import api
from surfacecalc.api import MeasuredPiece
from surfacecalc.cautions import cautions_together
from surfacecalc.elements import Content, Element, element, name
from surfacecalc.sheets.drawing import size_words
from surfacecalc.sheets.rounded_words import need_text
from surfacecalc.sheets.safety_section import cautions_body, notes_body
from surfacecalc.sheets.sheet_frame import (
    CLEAR_ALL,
    Paper,
    SheetPage,
    SheetSection,
    amount,
    cell,
    column,
    page,
    row,
    table,
)
from surfacecalc.sheets.shopping_html import Walk
from surfacecalc.supplies.shopping import Supply
from surfacecalc.supplies.together import Trip
from surfacecalc.units.display import Units
from surfacecalc.zones.area_words import to_finish_text

HOW_MUCH = "How much each piece needs"
SHARED = (
    "The pieces share packs: what they need is added up first, then rounded up to whole packs once."
)
ROUNDED = "Each amount is rounded up on its own, so they can add up to more than the total"


def trip_sheet(jobs: list[MeasuredPiece], trip: Trip, units: Units, paper: Paper) -> SheetPage:
    """Return the list of several pieces."""
    cautions = cautions_together((job.piece, job.measured) for job in jobs)
    walk = Walk(trip.piece, trip.supplies, units, trip.as_written, api.needed_too(*jobs))
    sections = [
        SheetSection("pieces", "For these pieces", _pieces(jobs, trip, units)),
        SheetSection("notes", "Look at these first", _notes(jobs, trip)),
        SheetSection("supplies", "To buy", walk.body(first_tick=0)),
        SheetSection("shares", HOW_MUCH, _shares(trip, units)),
        SheetSection("safety", "Safety", cautions_body(cautions)),
    ]
    lead = [element("p", SHARED, look="soft"), CLEAR_ALL]
    return page(" + ".join(trip.pieces), "Store list", lead, sections, paper)


def _pieces(jobs: list[MeasuredPiece], trip: Trip, units: Units) -> Element:
    rows = [
        row(
            name(label),
            cell(size_words(job.measured, units)),
            amount(to_finish_text(job.measured, units)),
        )
        for label, job in zip(trip.pieces, jobs, strict=True)
    ]
    heads = [column("Piece"), column("Width x depth x height"), column("To finish", "number")]
    return table(None, heads, rows, aria_labelledby="pieces")


def _notes(jobs: list[MeasuredPiece], trip: Trip) -> list[Content]:
    """Return what was decided for all pieces, then the notes on each."""
    items = [element("li", name(f"{text}.")) for text in trip.remarks]
    parts: list[Content] = [element("ul", items, look="plain")] if items else []
    for label, job in zip(trip.pieces, jobs, strict=True):
        if job.notes:
            parts.append([element("h3", name(label)), notes_body(job.notes)])
    return parts


def _shares(trip: Trip, units: Units) -> Element:
    """Return how much of each supply each piece needs, a column for each."""
    pieces = [column(name(label), "number") for label in trip.pieces]
    rows = [_share_row(trip, supply, units) for supply in trip.supplies]
    shares = table(ROUNDED, [column("Supply"), *pieces, column("Total", "number")], rows)
    return element("div", shares, look="wide", tabindex=0, role="group", aria_label=HOW_MUCH)


def _share_row(trip: Trip, supply: Supply, units: Units) -> Element:
    shares = trip.taken(supply)
    needed = [shares.get(label, 0.0) for label in trip.pieces]
    texts = [need_text(one, supply.unit, units) if one else None for one in needed]
    total = need_text(supply.need.buy_for, supply.unit, units)
    return row(name(supply.title), *map(amount, [*texts, total]))
