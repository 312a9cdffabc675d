"""The smallest coin of a currency, and sums that are rounded to it and still add up."""

from collections.abc import Sequence
from decimal import ROUND_FLOOR, Context, Decimal

WIDE = Context(prec=100)
"""So that a price far beyond any piece's is still a number, not a fault."""
USUAL_COIN = Decimal("0.01")
"""The smallest coin of the currencies below, and of prices whose currency is not given."""
EVERYDAY = ("USD", "EUR", "GBP", "CAD", "AUD", "NZD", "CHF")
"""Currencies of which nothing is looked up, so that a start with one of them reads no table."""


def is_code(value: object) -> bool:
    """Whether a value is written like the code of a currency: three capitals."""
    return isinstance(value, str) and len(value) == 3 and value.isascii() and value.isupper()


def is_currency(value: object) -> bool:
    """Whether a value is the code of a currency in which something can be priced today."""
    return is_code(value) and _smallest(str(value)) is not None


def coin_of(currency: str | None) -> Decimal:
    """Return the smallest coin of a currency; a hundredth where the currency is not said.

    Source: ISO 4217, list one, column "minor unit", as the package iso4217 has it.

    >>> coin_of("EUR"), coin_of("JPY"), coin_of("KWD")
    (Decimal('0.01'), Decimal('1'), Decimal('0.001'))
    """
    return (_smallest(currency) if currency else None) or USUAL_COIN


def _smallest(code: str) -> Decimal | None:
    """Return the smallest coin; None for what is not a currency, and for gold and its like."""
    if code in EVERYDAY:
        return USUAL_COIN
    from iso4217 import Currency  # its table takes 18 ms to read

    try:
        places = Currency(code).exponent
    except ValueError:
        return None
    return None if places is None else Decimal(1).scaleb(-places)


def rounded(amount: Decimal, coin: Decimal) -> Decimal:
    """Return an amount in whole coins, half a coin rounded up.

    Half a coin goes up below zero as well, so that whole coins more or less change nothing.

    >>> rounded(Decimal("2.345"), Decimal("0.01")), rounded(Decimal("-2.345"), Decimal("0.01"))
    (Decimal('2.35'), Decimal('-2.34'))
    """
    return _whole_coins(amount + coin / 2, coin)


def apportioned(amounts: Sequence[Decimal], total: Decimal, coin: Decimal) -> tuple[Decimal, ...]:
    """Return amounts in whole coins that add up to a total.

    Each is its amount rounded down or up; those that lost most by rounding down are rounded up
    first. So what is in whole coins already stays as it is.

    Args:
        amounts: the exact amounts.
        total: what they shall add up to, in whole coins, and less than a coin off their sum.
        coin: the smallest coin.
    """
    lines = [_whole_coins(amount, coin) for amount in amounts]
    lost = [amount - line for amount, line in zip(amounts, lines, strict=True)]
    missing = int((total - sum(lines)) / coin)
    for number in sorted(range(len(lines)), key=lambda k: -lost[k])[:missing]:
        lines[number] += coin
    return tuple(lines)


def _whole_coins(amount: Decimal, coin: Decimal) -> Decimal:
    """Return an amount rounded down to whole coins, never a negative zero."""
    return amount.quantize(coin, rounding=ROUND_FLOOR, context=WIDE) + 0
