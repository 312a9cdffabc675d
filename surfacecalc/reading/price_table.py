"""`[price]` becomes a `Pricing`: what was paid, what an hour should earn, what is asked."""

from decimal import Decimal

from surfacecalc.model.pricing import Basis, Pricing
from surfacecalc.reading.prices_read import is_in_coins, read_money
from surfacecalc.reading.tables import Table, shown
from surfacecalc.units.coins import is_currency
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


def read_pricing(document: Table) -> Pricing | None:
    """Return what [price] says, None where there is none or it has a mistake.

    Args:
        document: the whole file; [piece] was read before, since it has the currency.
    """
    if "price" not in document:
        return None
    table = document.table("price", "[price]")
    if table is None:
        return None
    table.where = "price"
    _refuse_strays(table)
    pricing = Pricing(
        line=table.line,
        piece=_coins(table, "piece") or Decimal(0),
        rate=_money(table, "rate"),
        asked=_coins(table, "asked"),
        hours=_hours(table),
        supplies=_basis(table),
        overhead=_share(table, "overhead", MOST_OVERHEAD),
        margin=_share(table, "margin", MOST_MARGIN, ", a share of the price itself"),
        tax=_share(table, "tax", ALL),
        deposit=_share(table, "deposit", ALL),
        delivery=_coins(table, "delivery") or Decimal(0),
    )
    if "rate" not in table and "asked" not in table:
        table.mend(
            "has neither rate nor asked; add rate = 40, what you want to earn an hour,"
            " or asked = 320, the total the customer pays; see: surfacecalc guide price"
        )
    return pricing if table.is_sound else None


def _refuse_strays(table: Table) -> None:
    """Record keys that do not belong here; two of them deserve more than the nearest word."""
    table.only((*KEYS, *MARK_UPS, "currency"))
    if "currency" in table:
        table.mend(f"has a currency; {_own_currency(table)}", "currency")
    for key in MARK_UPS:
        if key in table:
            table.refuse(key, f"is a share of your cost; {_as_margin(table.values[key])}")


def _own_currency(table: Table) -> str:
    """Return where to put the currency that [price] has, which is that of [piece]."""
    if table.context.currency is not None:
        return f"take it out: [piece] says that money is in {table.context.currency}"
    value = table.values["currency"]
    own = f": currency = {shown(value)}" if is_currency(value) else ""
    return f"it is set once, in [piece]{own}"


def _as_margin(value: object) -> str:
    """Return what to write instead of a mark-up: the margin that is the same."""
    try:
        share = parse_share(value) if isinstance(value, str) else None
    except AmountError:
        share = None
    if share is None or share < 0:
        return 'write a share of the price: for a mark-up of 25 % it is margin = "20 %"'
    return (
        f'the same as a share of the price is margin = "{float(100 * share / (1 + share)):.6g} %"'
    )


def _coins(table: Table, key: str) -> Decimal | None:
    """Return money in whole coins, None where it is not said or wrong."""
    amount = _money(table, key)
    return amount if amount is not None and is_in_coins(table, key, amount) else None


def _money(table: Table, key: str) -> Decimal | None:
    """Return money, None where it is not said or wrong."""
    if key not in table:
        return None
    amount = read_money(table, key, "180")
    if amount is None:
        return None
    if amount < 0:
        table.refuse(key, "must be zero or more")
    return abs(amount)


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
