"""`[price]` becomes a `Pricing`: what was paid, what an hour shall bring, what is asked."""

import re
from decimal import Decimal

from surfacecalc.model.pricing import Basis, Pricing
from surfacecalc.reading.tables import Table
from surfacecalc.units.coins import coin_of
from surfacecalc.units.grammar import AmountError, parse_share

KEYS = (
    "piece", "rate", "asked", "hours", "supplies", "overhead", "margin", "tax", "deposit",
    "delivery",
)  # fmt: skip
MARK_UPS = ("markup", "mark_up", "mark-up")
LEAST_HOURS, MOST_HOURS = Decimal("0.01"), 10_000
MOST_OVERHEAD = Decimal(10)
ALL = Decimal(1)
MOST_MARGIN = Decimal("0.99")
"""A price of a hundred times the cost; more is a slip of the finger."""
_MONEY_TEXT = re.compile(
    r"\s*(?P<before>[A-Z]{3}|\D)?\s*(?P<number>\d{1,9}(\.\d{1,4})?)\s*(?P<behind>[A-Z]{3}|\D)?\s*"
)


def read_pricing(document: Table, currency: str | None) -> Pricing | None:
    """Return what [price] says, None where there is none or it has a mistake.

    Args:
        document: the whole file.
        currency: the code that [piece] gives; whole coins are told by it.
    """
    if "price" not in document:
        return None
    table = document.table("price", "[price]")
    if table is None:
        return None
    table.where = "price"
    _refuse_strays(table)
    coin = coin_of(currency)
    pricing = Pricing(
        line=table.line,
        piece=_coins(table, "piece", coin) or Decimal(0),
        rate=_money(table, "rate"),
        asked=_coins(table, "asked", coin),
        hours=_hours(table),
        supplies=_basis(table),
        overhead=_share(table, "overhead", MOST_OVERHEAD),
        margin=_share(table, "margin", MOST_MARGIN, ", a share of the price itself"),
        tax=_share(table, "tax", ALL),
        deposit=_share(table, "deposit", ALL),
        delivery=_coins(table, "delivery", coin) or Decimal(0),
    )
    if "rate" not in table and "asked" not in table:
        table.mend(
            "has neither rate nor asked; add rate = 40, what an hour shall bring,"
            " or asked = 250, what the customer pays in all"
        )
    return pricing if table.is_sound else None


def _refuse_strays(table: Table) -> None:
    """Record keys that do not belong here; two of them deserve more than the nearest word."""
    table.only((*KEYS, *MARK_UPS, "currency"))
    if "currency" in table:
        table.mend('has a currency; it stands once, in [piece]: currency = "EUR"', "currency")
    for key in MARK_UPS:
        if key in table:
            table.refuse(key, f"is a share of the cost; {_as_margin(table.values[key])}")


def _as_margin(value: object) -> str:
    """Return what to write instead of a mark-up: the margin that is the same."""
    try:
        share = parse_share(value) if isinstance(value, str) else None
    except AmountError:
        share = None
    if share is None or share < 0:
        return 'write margin = "20 %", a share of the price, for a mark-up of 25 %'
    return f'write the margin that is the same: margin = "{float(100 * share / (1 + share)):.6g} %"'


def _coins(table: Table, key: str, coin: Decimal) -> Decimal | None:
    """Return money in whole coins, None where it is not said or wrong."""
    amount = _money(table, key)
    if amount is not None and amount % coin:
        table.refuse(key, f"is finer than the smallest coin, {coin}")
        return None
    return amount


def _money(table: Table, key: str) -> Decimal | None:
    """Return money, None where it is not said or wrong."""
    if key not in table:
        return None
    value = table.values[key]
    if isinstance(value, str):
        table.refuse(key, _plain_number(key, value))
        return None
    if table.number(value, key) is None:
        return None
    amount = Decimal(str(value))
    if amount < 0:
        table.refuse(key, "must be zero or more")
    return abs(amount)


def _plain_number(key: str, text: str) -> str:
    """Return what to write instead of money in quotes."""
    match = _MONEY_TEXT.fullmatch(text)
    number = match["number"] if match else "250"
    codes = [match["before"], match["behind"]] if match else []
    code = next((word for word in codes if word and len(word) == 3), "EUR")
    return (
        f"must be a plain number, {key} = {number}; the currency stands once, in [piece]:"
        f' currency = "{code}"'
    )


def _hours(table: Table) -> Decimal | None:
    """Return the hands-on time [h]: a plain number of hours, or a text such as "90 min"."""
    if "hours" not in table:
        return None
    value = table.values["hours"]
    hours: Decimal | None = None
    if isinstance(value, str):
        time_h = table.amount(value, "time", "hours")
        hours = None if time_h is None else Decimal(str(time_h))
    elif table.number(value, "hours") is not None:
        hours = Decimal(str(value))
    if hours is not None and not LEAST_HOURS <= hours <= MOST_HOURS:
        table.refuse("hours", f"must be from {LEAST_HOURS} to {MOST_HOURS:,} hours")
    return hours


def _basis(table: Table) -> Basis:
    if "supplies" not in table:
        return "used"
    return "bought" if table.choice("supplies", ("used", "bought")) == "bought" else "used"


def _share(table: Table, key: str, most: Decimal, what: str = "") -> Decimal:
    """Return a share as a fraction of one, 0 where it is not said or wrong."""
    share = table.share(table.values[key], key) if key in table else None
    found = Decimal(0) if share is None else Decimal(str(share))
    if not 0 <= found <= most:
        table.refuse(key, f"must be from 0 % to {100 * most:.0f} %{what}")
        return Decimal(0)
    return abs(found)
