"""One list for one trip to the store, for several pieces."""

from surfacecalc.api import MeasuredPiece
from surfacecalc.cautions import cautions_together
from surfacecalc.pictures.marks import safe
from surfacecalc.sheets.drawing import size_words
from surfacecalc.sheets.rounded_words import area_text, need_text
from surfacecalc.sheets.safety_section import cautions_body, notes_body
from surfacecalc.sheets.sheet_frame import Paper, SheetSection, page
from surfacecalc.sheets.shopping_html import Walk
from surfacecalc.supplies.together import Trip
from surfacecalc.units.display import Units


def trip_sheet(jobs: list[MeasuredPiece], trip: Trip, units: Units, paper: Paper) -> str:
    """Return the list of several pieces as the text of an HTML file."""
    cautions = cautions_together((job.piece, job.measured) for job in jobs)
    walk = Walk(trip.piece, trip.supplies, units, trip.as_written)
    sections = [
        SheetSection("pieces", "For these pieces", _pieces(jobs, trip, units)),
        SheetSection("apart", "Look at these first", _remarks(jobs, trip)),
        SheetSection("supplies", "To buy", walk.body(first_tick=0)),
        SheetSection("takes", "What each piece takes", _takes(trip, units)),
        SheetSection("mind", "Mind", cautions_body(cautions)),
    ]
    title = " + ".join(trip.pieces)
    lead = (
        '<p class="soft">Packs are shared: what all pieces take is summed first, then rounded up to'
        ' packs once.</p><p class="screen"><button type="button" id="clear" hidden>Clear all ticks'
        "</button></p>"
    )
    return page(title, "Store list", lead, sections, paper)


def _pieces(jobs: list[MeasuredPiece], trip: Trip, units: Units) -> str:
    rows = "".join(
        f'<tr><th scope="row"><bdi>{safe(label)}</bdi></th>'
        f"<td>{safe(size_words(job.measured, units))}</td>"
        f'<td class="number">{area_text(job.measured.exposed_m2, units)}</td></tr>'
        for label, job in zip(trip.pieces, jobs, strict=True)
    )
    return (
        '<table aria-labelledby="pieces"><thead><tr><th scope="col">Piece</th>'
        '<th scope="col">Width x depth x height</th>'
        f'<th scope="col" class="number">Surface</th></tr></thead><tbody>{rows}</tbody></table>'
    )


def _remarks(jobs: list[MeasuredPiece], trip: Trip) -> str:
    """Return what was decided for all pieces, then what was remarked on each."""
    items = "".join(f"<li><bdi>{safe(text)}.</bdi></li>" for text in trip.remarks)
    parts = [f'<ul class="plain">{items}</ul>'] if items else []
    for label, job in zip(trip.pieces, jobs, strict=True):
        if job.notes:
            parts.append(f"<h3><bdi>{safe(label)}</bdi></h3>{notes_body(job.notes)}")
    return "\n".join(parts)


def _takes(trip: Trip, units: Units) -> str:
    """Return how much of each supply each piece takes, a column for each."""
    heads = "".join(
        f'<th scope="col" class="number"><bdi>{safe(label)}</bdi></th>' for label in trip.pieces
    )
    rows = "".join(
        f'<tr><th scope="row"><bdi>{safe(supply.title)}</bdi></th>'
        + "".join(
            _cell(trip.taken(supply).get(label, 0.0), supply.unit, units) for label in trip.pieces
        )
        + f'<td class="number">{need_text(supply.need.buy_for, supply.unit, units)}</td></tr>'
        for supply in trip.supplies
    )
    return (
        '<div class="wide" tabindex="0" role="group" aria-label="What each piece takes"><table>'
        "<caption>Each amount is rounded up by itself, so that they may add up to more than the"
        f' last column</caption><thead><tr><th scope="col">Supply</th>{heads}'
        '<th scope="col" class="number">Together</th></tr></thead>'
        f"<tbody>{rows}</tbody></table></div>"
    )


def _cell(amount: float, unit: str, units: Units) -> str:
    return f'<td class="number">{need_text(amount, unit, units) if amount else ""}</td>'
