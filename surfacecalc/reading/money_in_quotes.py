"""Money that was put in quotes: what to write instead, as a plain number."""

import re

from surfacecalc.reading.context import Context

_MONEY = re.compile(
    r"\s*(?P<before>[A-Z]{3}|\D)?\s*(?P<number>\d{1,9}(\.\d{1,4})?)\s*(?P<after>[A-Z]{3}|\D)?\s*"
)


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
