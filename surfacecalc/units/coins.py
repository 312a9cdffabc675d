"""The smallest coin of a currency, and sums that are rounded to it and still add up."""

from collections.abc import Sequence
from decimal import ROUND_FLOOR, Context, Decimal

WIDE = Context(prec=100)
"""So that a price far beyond any piece's is still a number, not a fault."""
USUAL_PLACES = 2
"""Decimal places of every currency that is not listed below."""
PLACES = {
    0: "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF",
    3: "BHD IQD JOD KWD LYD OMR TND",
    4: "CLF UYW",
}
"""Decimal places of the other currencies, by code.

Source: ISO 4217:2015, list one, column "minor unit", as of 1 January 2026.
"""
_PLACES_OF = {code: places for places, codes in PLACES.items() for code in codes.split()}


def is_currency(value: object) -> bool:
    """Whether a value is written like the code of a currency: three capitals."""
    return isinstance(value, str) and len(value) == 3 and value.isascii() and value.isupper()


def coin_of(currency: str | None) -> Decimal:
    """Return the smallest coin of a currency; a hundredth where the currency is not said.

    >>> coin_of("EUR"), coin_of("JPY"), coin_of("KWD")
    (Decimal('0.01'), Decimal('1'), Decimal('0.001'))
    """
    places = _PLACES_OF.get(currency or "", USUAL_PLACES)
    return Decimal(1).scaleb(-places)


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
