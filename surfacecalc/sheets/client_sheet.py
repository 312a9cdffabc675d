"""The sheet for the client: what is done, how it looks, the price, the dates, how to care for it.

What the job costs the shop, and the hours it takes, are nowhere in it.
"""

from decimal import Decimal

from surfacecalc.cautions import furniture
from surfacecalc.model.pieces import Piece, Zone
from surfacecalc.model.steps import Step
from surfacecalc.pictures.marks import safe
from surfacecalc.plans.plan import Plan
from surfacecalc.prices.quotes import Quote
from surfacecalc.prices.statements import Statement
from surfacecalc.sheets.client_words import (
    ZoneFinish,
    care,
    families_on_top,
    look_of_zone,
    work_in_words,
)
from surfacecalc.sheets.drawing import figure, size_words
from surfacecalc.sheets.rounded_words import series
from surfacecalc.sheets.safety_section import cautions_body
from surfacecalc.sheets.sheet_frame import Paper, SheetSection, facts, page
from surfacecalc.units.display import Units, format_money
from surfacecalc.work.task_words import format_day
from surfacecalc.zones.areas import Measured

BLANK = '<span class="blank" role="img" aria-label="to be filled in"></span>'
SAY_NOTHING = ("paint", "stain", "dye")
"""Names of products that tell a client no colour; it is written in by hand."""
IN_USE = (furniture.lid, furniture.tip_over, furniture.nursery, furniture.food)
"""Cautions on the piece in use; those on the work are for the shop."""


def client_sheet(
    piece: Piece,
    measured: Measured,
    plan: Plan,
    quote: Quote | None,
    units: Units,
    paper: Paper,
) -> str:
    """Return the client's sheet of a measured piece as the text of an HTML file.

    Args:
        piece: the piece.
        measured: its measures.
        plan: tells when it is ready.
        quote: tells the price; None where it is to be agreed.
        units: which units are shown.
        paper: what it is printed on.
    """
    found = [rule(piece, measured) for rule in IN_USE]
    mind = cautions_body([caution for caution in found if caution is not None])
    sections = [
        SheetSection("drawing", "The piece", figure(piece, measured, units, has_areas=False)),
        SheetSection("work", "What will be done", _work(piece)),
        SheetSection("look", "Colour and sheen", _looks(piece)),
        SheetSection("care", "Care", _care(piece, plan)),
        SheetSection("mind", "For your safety", mind),
        SheetSection("price", "Price and dates", _price(piece, plan, quote) + _agreed()),
    ]
    size = size_words(measured, units)
    pairs = [("Width x depth x height", safe(size))] if size else []
    lead = facts([*pairs, ("Client", BLANK), ("Shop", BLANK), ("Date", BLANK)])
    return page(piece.settings.name, "For the client", lead, sections, paper)


def _work(piece: Piece) -> str:
    parts = []
    for zones in _finished_alike(piece):
        names = series(f"<bdi>{safe(zone.name)}</bdi>" for zone in zones)
        texts = work_in_words(zones[0])
        items = "".join(f"<li><bdi>{safe(text)}</bdi></li>" for text in texts)
        parts.append(f'<h3>{names}</h3><ul class="plain">{items}</ul>')
    return "\n".join(parts)


def _finished_alike(piece: Piece) -> list[list[Zone]]:
    """Return zones by their finish schedule, so that what it counts is told once."""
    found: dict[tuple[Step, ...], list[Zone]] = {}
    for zone in piece.zones:
        found.setdefault(() if zone.leave else zone.steps, []).append(zone)
    return list(found.values())


def _looks(piece: Piece) -> str:
    looks = [look for look in (look_of_zone(piece, zone) for zone in piece.zones) if look]
    if not looks:
        return ""
    rows = "".join(_look(look) for look in looks)
    return f"""<table>
<caption>Please look at a sample before you sign</caption>
<thead><tr><th scope="col">Zone</th><th scope="col">Colour</th><th scope="col">Clear finish</th>\
<th scope="col">Sheen</th></tr></thead>
<tbody>{rows}</tbody>
</table>"""


def _look(look: ZoneFinish) -> str:
    colour = look.colour or "the wood itself"
    texts = (colour, look.finish or "none", look.sheen or "as the sample")
    cells = [f"<td><bdi>{safe(text)}</bdi></td>" for text in texts]
    if colour.lower() in SAY_NOTHING:
        cells[0] = f"<td>{BLANK}</td>"
    return f'<tr><th scope="row"><bdi>{safe(look.zone)}</bdi></th>{"".join(cells)}</tr>'


def _price(piece: Piece, plan: Plan, quote: Quote | None) -> str:
    pairs = [("Price", BLANK)]
    told = None if quote is None else quote.given or quote.wanted
    if told is not None:
        pairs = _paid(told, piece.settings.currency)
    if plan.delivered is not None:
        early = "not before " if plan.unknown else ""
        pairs.append(("Ready for delivery", f"{early}{format_day(plan.delivered)}"))
    if plan.used is not None:
        early = "not before " if plan.unknown else ""
        pairs.append(("Ready for full use", f"{early}{format_day(plan.used)}"))
    return facts(pairs)


def _paid(told: Statement, currency: str | None) -> list[tuple[str, str]]:
    """Return what is paid and when, all in."""
    extras = [name for name, sum_ in (("tax", told.tax), ("delivery", told.delivery)) if sum_]
    included = f"<br><small>{' and '.join(extras)} included</small>" if extras else ""
    pairs = [("Price", _money(told.total, currency) + included)]
    if told.deposit:
        pairs.append(("Deposit, before the work", _money(told.deposit, currency)))
        pairs.append(("Balance, when it is done", _money(told.balance, currency)))
    return pairs


def _money(amount: Decimal, currency: str | None) -> str:
    return f"{format_money(amount)} {safe(currency or '')}".rstrip()


def _care(piece: Piece, plan: Plan) -> str:
    lines = []
    if plan.used is not None:
        early = "not before " if plan.unknown else ""
        lines.append(
            "A finish is dry long before it is hard. Until it has cured,"
            f" {early}{format_day(plan.used)}, handle it gently: nothing heavy, hot or wet on it,"
            " no cover over it, no cleaner."
        )
    lines += care(families_on_top(piece))
    items = "".join(f"<li>{line}</li>" for line in lines)
    return (
        f'<ul class="plain">{items}</ul>'
        '<p class="soft">Care as is common practice; what a product\'s label says comes first.</p>'
    )


def _agreed() -> str:
    return (
        "<h3>Agreed</h3><p>I agree to the work, the look and the price as described here.</p>"
        '<div class="signs"><p>Client, date</p><p>Shop, date</p></div>'
    )
