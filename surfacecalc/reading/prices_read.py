"""Money as a file has it: a plain number in whole coins of the currency of [piece]."""

import re
from decimal import Decimal

from surfacecalc.reading.context import Context
from surfacecalc.reading.tables import Table
from surfacecalc.units.coins import coin_of

_MONEY = re.compile(
    r"\s*(?P<before>[A-Z]{3}|\D)?\s*(?P<number>\d{1,9}(\.\d{1,4})?)\s*(?P<after>[A-Z]{3}|\D)?\s*"
)


def read_money(table: Table, key: str, example: str) -> Decimal | None:
    """Return an amount of money, None after recording a mistake; no coins are asked for yet."""
    value = table.values[key]
    if isinstance(value, str):
        table.refuse(key, plain_number(key, value, table.context, example))
        return None
    return None if table.number(value, key) is None else Decimal(str(value))


def is_in_coins(table: Table, key: str, amount: Decimal) -> bool:
    """Whether an amount is in whole coins; one that is not is recorded as a mistake."""
    currency = table.context.currency
    coin = coin_of(currency)
    if not amount % coin:
        return True
    if currency is None:
        rule = f"{coin}, the smallest coin where [piece] gives no currency"
    else:
        rule = f"the smallest coin of {currency}, {coin}"
    table.refuse(key, f"has more decimals than {rule}")
    return False


def plain_number(key: str, words: str, context: Context, example: str) -> str:
    """Return what is wrong with money in quotes, and the number to write.

    The currency is spoken of only where the file does not give it yet, or gives another one.

    Args:
        key: the key that has it.
        words: what is in the quotes.
        context: of the file.
        example: a number for words that are not an amount of money.
    """
    money = _MONEY.fullmatch(words)
    number = money["number"] if money else example
    signs = [money["before"], money["after"]] if money else []
    code = next((sign for sign in signs if sign and len(sign) == 3), None)
    return f"must be a plain number: {key} = {number}{_of_currency(code, context)}"


def _of_currency(code: str | None, context: Context) -> str:
    if context.currency is not None:
        other = code not in (None, context.currency)
        return f"; [piece] says that money is in {context.currency}" if other else ""
    if context.file:
        return ""
    own = f': currency = "{code}"' if code else ""
    return f"; the currency is set once, in [piece]{own}"
