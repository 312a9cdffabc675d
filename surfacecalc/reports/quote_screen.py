"""A quote for people, in three narrow columns: what, how it was made, how much."""

from collections.abc import Collection, Iterable
from decimal import Decimal

from rich.console import Console

from surfacecalc.model.pieces import Piece
from surfacecalc.model.pricing import Basis, Pricing
from surfacecalc.model.ranges import Factor
from surfacecalc.prices.materials import Material
from surfacecalc.prices.quotes import Quote
from surfacecalc.prices.statements import Statement
from surfacecalc.problems import printable
from surfacecalc.reports.assumed_screen import print_all_assumed, print_assumed
from surfacecalc.reports.table_style import Column, plain_table
from surfacecalc.supplies.pack_words import bought_text
from surfacecalc.units.coins import rounded
from surfacecalc.units.display import Units, format_amount, format_share
from surfacecalc.units.money import format_money, money_with_code

Row = tuple[str, str, str]
"""What a line is, how it was made, and its amount."""
WIDTHS = (24, 38, 14)
"""Letters of each column; with two spaces between them 80."""
NOTHING = Decimal(0)
COLUMNS: tuple[Column, ...] = (("", "left"), ("", "left"), ("", "right"))
CHARGED: dict[Basis, str] = {
    "used": "only what you use",
    "bought": "whole packs",
}


def print_quote(
    out: Console, piece: Piece, found: Quote, units: Units, figures: list[Factor], *, why: bool
) -> None:
    """Print the price and what it pays; where asked for, each supply and every assumed figure.

    Args:
        out: where to print.
        piece: the piece.
        found: its quote.
        units: which units are shown.
        figures: the assumed figures, the one that moves the price most first.
        why: whether to print what the numbers come from.
    """
    out.print(printable(f"{piece.settings.title}: quote"), style="bold")
    per_hour = _named(found, found.job.pricing.rate or Decimal(0))
    if found.wanted is not None:
        _print_table(out, f"Price to charge to earn {per_hour} an hour", _price_rows(found))
    if found.given is not None:
        asked = _named(found, found.given.total)
        _print_table(out, f"What you earn at {asked}", _pay_rows(found, found.given))
    if why:
        _print_table(out, "Supplies", _supply_rows(found, units))
    for text in _notes(found, why=why):
        out.print(printable(text))
    if why:
        print_all_assumed(out, figures, units)
    else:
        print_assumed(out, figures, units, mark="* ")


def _print_table(out: Console, title: str, rows: Iterable[Row]) -> None:
    table = plain_table(*COLUMNS, headings=False, widths=WIDTHS)
    for row in rows:
        table.add_row(*(printable(cell) for cell in row))
    out.print(printable(title), style="bold")
    out.print(table)
    out.print()


def _price_rows(found: Quote) -> list[Row]:
    """Return the lines from the cost up to the total."""
    told, terms = found.wanted, found.job.pricing
    assert told is not None  # noqa: S101 - the caller asks only where there is one
    hours = f"{_hours(found)} x {_money(found, told.rate)}"
    mark_up = terms.margin / (1 - terms.margin)
    rows = [
        ("The piece", "what you paid for it", told.piece),
        (f"Supplies{_mark(found)}", CHARGED[terms.supplies], told.supplies),
        (f"Hours{_hours_mark(found)}", hours, told.work),
        ("Overhead", f"{_share(terms.overhead)} of supplies and hours", told.overhead),
        ("Cost", "", told.cost if terms.margin else NOTHING),
        ("Margin", f"{_share(terms.margin)} of the price (mark-up {_share(mark_up)})", told.margin),
        ("Price", f"cost / (1 - {_share(terms.margin)})", told.price if terms.margin else NOTHING),
        ("Delivery", "from the file", told.delivery),
        ("Tax", f"{_share(terms.tax)} of {_money(found, told.net)}", told.tax),
        ("Total", "the customer pays", told.total),
    ]
    always = {f"Supplies{_mark(found)}", f"Hours{_hours_mark(found)}", "Total", *_sums_with(terms)}
    return _shown(found, rows, always) + _deposit(found, told)


def _pay_rows(found: Quote, told: Statement) -> list[Row]:
    """Return the lines from the total down to what an hour earns."""
    terms = found.job.pricing
    tax = f"{_share(terms.tax)} tax inside the {_money(found, told.total)}"
    overhead = "supplies and hours" if told.work >= 0 else "supplies"
    rows = [
        ("Tax", tax, -told.tax),
        ("Delivery", "from the file", -told.delivery),
        ("Price", "", told.price if terms.margin else NOTHING),
        ("Margin", f"{_share(terms.margin)} of the price", -told.margin),
        ("The piece", "what you paid for it", -told.piece),
        (f"Supplies{_mark(found)}", CHARGED[terms.supplies], -told.supplies),
        ("Overhead", f"{_share(terms.overhead)} of {overhead}", -told.overhead),
        ("Left to pay you", "", told.work),
    ]
    always = {f"Supplies{_mark(found)}", "Left to pay you", *_sums_with(terms)}
    found_rows = _shown(found, rows, always)
    each = f"{_money(found, told.work)} / {_hours(found)}"
    found_rows.append((f"Each hour{_hours_mark(found)}", each, _money(found, told.rate)))
    if told.margin:
        both = _money(found, found.with_margin(told))
        found_rows.append(("Each hour, with margin", "if you also keep the margin", both))
    return found_rows + _deposit(found, told)


def _sums_with(terms: Pricing) -> tuple[str, ...]:
    """Return the sums that are lines of their own only where there is a margin between them."""
    return ("Cost", "Price") if terms.margin else ()


def _shown(
    found: Quote, rows: Iterable[tuple[str, str, Decimal]], always: Collection[str]
) -> list[Row]:
    """Return the lines that say something: some always do, the others only where not zero."""
    return [
        (word, how, _money(found, amount)) for word, how, amount in rows if amount or word in always
    ]


def _deposit(found: Quote, told: Statement) -> list[Row]:
    share = found.job.pricing.deposit
    if not share:
        return []
    return [
        ("Deposit", f"{_share(share)} of the total, before the work", _money(found, told.deposit)),
        ("Balance", "when it is done", _money(found, told.balance)),
    ]


def _supply_rows(found: Quote, units: Units) -> list[Row]:
    """Return what is used of each supply, then what is used, bought and kept in total."""
    rows = [
        (_name(item), _how(found, item, units), _money(found, coins.used))
        if item.is_counted
        else (_name(item), f"{_amount(item, units)}, no price", "not counted")
        for item, coins in zip(found.materials, found.coins[0], strict=True)
    ]
    return [*rows, *_sums(found)]


def _sums(found: Quote) -> list[Row]:
    """Return what the supplies come to: used, and from where; what is bought and what is left."""
    _, coins = found.coins
    rows = [("Used", "the likely need", _money(found, coins.used))]
    if found.job.pricing.supplies == "bought":
        how = "packs to buy, and used of what you have"
        rows.append(("Charged", how, _money(found, coins.charged)))
    rows.append(("To buy", "whole packs", _money(found, coins.bought)))
    if any(item.on_hand for item in found.materials):
        rows.append(("On hand", "at the price of its packs", _money(found, coins.on_hand)))
    return [*rows, ("Left over", "bought and on hand less used", _money(found, coins.kept))]


def _notes(found: Quote, *, why: bool) -> list[str]:
    """Return what the numbers mean, and what they do not count."""
    texts = [_meaning(found)] if found.given else []
    if found.count > 1:
        texts.append(_each(found))
    if not why:
        sums = ", ".join(f"{amount} {word.lower()}" for word, _, amount in _sums(found))
        texts.append(f"Supplies: {sums} (each: --why).")
    if found.not_counted:
        texts.append(f"Not counted: {', '.join(found.not_counted)} (no price).")
    if not found.currency:
        texts.append("No currency is given; amounts are shown with two decimals.")
    return texts + [f"* {text}" for text in found.assumed if why]


def _meaning(found: Quote) -> str:
    """Return in words what you earn at a given price, and how it differs from the wanted one."""
    given = found.given
    assert given is not None  # noqa: S101 - the caller asks only where there is one
    loss = ""
    if given.rate < 0:
        lost = _named(found, abs(given.rate))
        loss = f"You lose {lost} an hour: the price does not cover your other costs. "
    if found.difference is None or found.wanted is None:
        earned = _named(found, given.rate)
        return loss.strip() or f"You earn {earned} an hour."
    wanted = _named(found, found.wanted.rate)
    if not found.difference:
        return f"{loss}Your price is exactly the price for {wanted} an hour."
    by = _named(found, abs(found.difference))
    more = "more" if found.difference > 0 else "less"
    return f"{loss}Your price is {by} {more} than the price for {wanted} an hour."


def _each(found: Quote) -> str:
    """Return what one piece of a set costs the customer, and its hours."""
    told = [found.wanted, found.given]
    totals = [_named(found, found.each(one.total)) for one in told if one is not None]
    hours = _hours_of(found.job.hours / found.count)
    return f"For each of the {found.count}, about: {' or '.join(totals)}, {hours}."


def _name(item: Material) -> str:
    return f"{item.supply.title}{'*' if item.supply.assumed else ''}"


def _how(found: Quote, item: Material, units: Units) -> str:
    if not item.priced_by:
        parts = ", made of its parts" if item.supply.what == "product" else ""
        return f"{_amount(item, units)}{parts}"
    packs = ", ".join(bought_text(pack, count, item.supply.unit) for pack, count in item.priced_by)
    hand = "" if item.supply.buy else " on hand"
    return f"{_amount(item, units)}{hand}, at {format_money(item.paid, found.currency)} for {packs}"


def _amount(item: Material, units: Units) -> str:
    return format_amount(float(item.amount), item.supply.unit, units)


def _mark(found: Quote) -> str:
    return "*" if any(item.supply.assumed for item in found.materials) else ""


def _hours_mark(found: Quote) -> str:
    return "*" if found.are_hours_planned else ""


def _hours(found: Quote) -> str:
    return _hours_of(found.job.hours)


def _hours_of(hours: Decimal) -> str:
    return f"{rounded(hours, Decimal('0.01')).normalize():f} h"


def _money(found: Quote, amount: Decimal) -> str:
    """Return money as a column of a bill has it."""
    return format_money(amount, found.currency, is_column=True)


def _named(found: Quote, amount: Decimal) -> str:
    """Return money with its currency, as the columns beside have it."""
    return money_with_code(amount, found.currency, is_column=True)


def _share(share: Decimal) -> str:
    return format_share(float(share))
