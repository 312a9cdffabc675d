"""Money as people and programs read it: the one place that writes an amount of it."""

from decimal import Decimal

from surfacecalc.units.coins import coin_of, rounded

SIGNS = {"USD": "$", "EUR": "\N{EURO SIGN}", "GBP": "\N{POUND SIGN}"}
"""Of currencies whose sign everybody reads; assumed."""


def format_money(amount: Decimal, currency: str | None, *, is_column: bool = False) -> str:
    """Return money in whole coins of its currency, without the name of the currency.

    Args:
        amount: how much.
        currency: its code, None where it is not given.
        is_column: whether whole amounts get their decimals too, as in the column of a bill.

    >>> [format_money(Decimal(text), "USD") for text in ("1480", "9.5")]
    ['1,480', '9.50']
    >>> format_money(Decimal(9), "USD", is_column=True), format_money(Decimal("9.125"), "KWD")
    ('9.00', '9.125')
    """
    coins = rounded(amount, coin_of(currency))
    is_short = not is_column and coins == coins.to_integral_value()
    return f"{coins:,.0f}" if is_short else f"{coins:,f}"


def money_with_code(amount: Decimal, currency: str | None, *, is_column: bool = False) -> str:
    """Return money with the code of its currency after it: "9.50 EUR"."""
    return f"{format_money(amount, currency, is_column=is_column)} {currency or ''}".rstrip()


def money_with_sign(amount: Decimal, currency: str | None) -> str:
    """Return money with the sign of its currency, or with its code where no sign is common.

    >>> money_with_sign(Decimal(480), "USD"), money_with_sign(Decimal(480), "CHF")
    ('$480', '480 CHF')
    """
    sign = SIGNS.get(currency or "")
    if sign is None:
        return money_with_code(amount, currency)
    text = format_money(amount, currency)
    return f"-{sign}{text[1:]}" if text.startswith("-") else f"{sign}{text}"


def json_number(amount: Decimal | None) -> float | int | None:
    """Return a decimal as a JSON number, whole where it is whole."""
    if amount is None:
        return None
    return int(amount) if amount == amount.to_integral_value() else float(amount)
