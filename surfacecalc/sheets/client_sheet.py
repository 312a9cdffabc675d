"""The sheet for the client: what is done, how it looks, the price, the dates, how to care for it.

What the job costs the shop, and the hours it takes, are nowhere in it.
"""

from datetime import datetime

from surfacecalc.cautions import cautions
from surfacecalc.elements import Content, Element, element, name
from surfacecalc.model.pieces import Piece, Zone
from surfacecalc.model.steps import Step
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
from surfacecalc.sheets.safety_section import cautions_for_owner
from surfacecalc.sheets.sheet_frame import (
    Paper,
    SheetPage,
    SheetSection,
    cell,
    column,
    facts,
    page,
    row,
    table,
)
from surfacecalc.units.display import Units
from surfacecalc.units.money import money_with_sign
from surfacecalc.work.task_words import format_day
from surfacecalc.zones.areas import Measured

TO_FILL_IN = element("span", look="fill-in", role="img", aria_label="to be filled in")
HOW_SURE = "These dates hold in 9 of 10 cases; cold or damp weather slows drying."
SAY_NOTHING = ("paint", "stain", "dye")
"""Names of products that say no colour to a client; it is written in by hand."""


def client_sheet(
    piece: Piece,
    measured: Measured,
    plan: Plan,
    quote: Quote | None,
    units: Units,
    paper: Paper,
) -> SheetPage:
    """Return the client's sheet of a measured piece.

    Args:
        piece: the piece.
        measured: its measures.
        plan: says when it is ready.
        quote: says the price; None where it is to be agreed.
        units: which units are shown.
        paper: what it is printed on.
    """
    safety = cautions_for_owner(cautions(piece, measured))
    price: Content = [_price(piece, plan, quote), _agreed()]
    sections = [
        SheetSection("drawing", "The piece", figure(piece, measured, units, for_owner=True)),
        SheetSection("work", "What will be done", _work(piece)),
        SheetSection("look", "Colour and sheen", _looks(piece)),
        SheetSection("care", "Care", _care(piece, plan)),
        SheetSection("safety", "For your safety", safety),
        SheetSection("price", "Price and dates", price),
    ]
    size = size_words(measured, units)
    pairs: list[tuple[str, Content]] = [("Width x depth x height", size)] if size else []
    pairs += [(title, TO_FILL_IN) for title in ("Client", "Shop")]
    return page(piece.settings.title, "For the client", facts(pairs), sections, paper)


def _work(piece: Piece) -> list[Content]:
    parts: list[Content] = []
    for zones in _same_finish(piece):
        texts = work_in_words(piece, zones[0])
        items = [element("li", name(text)) for text in texts]
        heading = element("h3", _series([zone.name for zone in zones]))
        parts.append([heading, element("ul", items, look="plain")])
    return parts


def _series(names: list[str]) -> list[Content]:
    """Return names as one says them, with a capital: "and" before the last, unless one has it."""
    last = len(names) - 1
    link = ", " if any(" and " in one for one in names) else " and "
    between = [None, *(link if k == last else ", " for k in range(1, len(names)))]
    shown = [names[0][:1].upper() + names[0][1:], *names[1:]]
    return [[before, name(one)] for before, one in zip(between, shown, strict=True)]


def _same_finish(piece: Piece) -> list[list[Zone]]:
    """Return zones by their finish schedule, so that what it counts is said once."""
    found: dict[tuple[Step, ...], list[Zone]] = {}
    for zone in piece.zones:
        found.setdefault(() if zone.leave else zone.steps, []).append(zone)
    return list(found.values())


def _looks(piece: Piece) -> Element | None:
    looks = [look for look in (look_of_zone(piece, zone) for zone in piece.zones) if look]
    if not looks:
        return None
    heads = [column(text) for text in ("Part", "Colour", "Clear finish", "Sheen")]
    return table("Please look at a sample before you sign", heads, map(_look, looks))


def _look(look: ZoneFinish) -> Element:
    colour = name(look.colour or "the wood itself")
    shown = TO_FILL_IN if look.colour.lower() in SAY_NOTHING else colour
    texts = (look.finish or "none", look.sheen or "as the sample")
    return row(name(look.zone), cell(shown), *(cell(name(text)) for text in texts))


def _price(piece: Piece, plan: Plan, quote: Quote | None) -> list[Content]:
    pairs: list[tuple[str, Content]] = [("Price", TO_FILL_IN)]
    statement = None if quote is None else quote.given or quote.wanted
    if quote is not None and statement is not None:
        pairs = _paid(quote, statement, piece.settings.currency)
    ends = plan.likely_ends
    if ends is None or plan.delivered is None or plan.used is None:
        return [facts(pairs)]
    pairs.append(("Ready for delivery", _latest(plan, plan.delivered, ends.delivered)))
    pairs.append(("Ready for full use", _latest(plan, plan.used, ends.used)))
    return [facts(pairs), None if plan.unknown else element("p", HOW_SURE, look="soft")]


def _latest(plan: Plan, planned: datetime, latest: datetime) -> str:
    """Return by when it is ready; where a drying time is not known, before when it is not."""
    if plan.unknown:
        return f"not before {format_day(planned)}"
    return f"by {format_day(latest)}"


def _paid(quote: Quote, statement: Statement, currency: str | None) -> list[tuple[str, Content]]:
    """Return what is paid and when, all of it included."""
    sums = (("tax", statement.tax), ("delivery", statement.delivery))
    extras = [title for title, sum_ in sums if sum_]
    included = [element("br"), element("small", f"{' and '.join(extras)} included")]
    pairs: list[tuple[str, Content]] = [
        ("Price", [money_with_sign(statement.total, currency), included if extras else None])
    ]
    if quote.count > 1:
        each = money_with_sign(quote.each(statement.total), currency)
        pairs = [(f"Price for all {quote.count}", pairs[0][1]), ("For each, about", each)]
    if statement.deposit:
        pairs.append(("Deposit, before the work", money_with_sign(statement.deposit, currency)))
        pairs.append(("Balance, when it is done", money_with_sign(statement.balance, currency)))
    return pairs


def _care(piece: Piece, plan: Plan) -> list[Element]:
    lines = []
    if plan.used is not None and plan.likely_ends is not None:
        cured = _latest(plan, plan.used, plan.likely_ends.used)
        lines.append(
            "A finish is dry long before it is hard. Handle it gently until it has cured,"
            f" {cured}: put nothing heavy, hot or wet on it, and do not cover"
            " it or use cleaners on it."
        )
    items = [element("li", line) for line in [*lines, *care(families_on_top(piece))]]
    usual = "This is the usual care; follow the product's label where it differs."
    return [element("ul", items, look="plain"), element("p", usual, look="soft")]


def _agreed() -> list[Element]:
    agreed = "I agree to the work, the look and the price as described here."
    lines = element("div", element("p", "Client, date"), element("p", "Shop, date"), look="signs")
    return [element("h3", "Agreed"), element("p", agreed), lines]
