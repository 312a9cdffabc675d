"""From what the standard parser says to what is wrong, in the user's words and values.

The parser stops at the first slip and says where; what was meant is worked out from the line
itself. Its own words are never shown.
"""

import re
from collections.abc import Callable

from surfacecalc.reading.syntax import commas, headers, lists, texts, values
from surfacecalc.reading.syntax.slip import Slip, Told

_AT = re.compile(r"\s*\((?:at line (\d+), column (\d+)|at end of document)\)$")
_RULES: tuple[Callable[[Slip], Told], ...] = (
    texts.quotes,
    texts.backslash,
    headers.brackets,
    headers.table_twice,
    headers.key_twice,
    commas.decimal_comma,
    commas.money,
    commas.two_commas,
    values.equals,
    lists.unclosed,
    values.value,
)
_ANYTHING_ELSE = (
    "this line is none that a piece file has: a header such as [[part]], a key and its value"
    ' such as name = "leg", or a remark behind a #'
)


def explain(text: str, message: str) -> tuple[int, str]:
    """Return the line of a slip and what is wrong with it, from what the parser says of a text."""
    lines = text.splitlines() or [""]
    at = _AT.search(message)
    number, column = (int(at[1]), int(at[2])) if at and at[1] else (len(lines), 0)
    if number > len(lines):
        number, column = len(lines), 0
    slip = Slip(_AT.sub("", message), lines, number, column)
    for told in _RULES:
        found = told(slip)
        if found is not None:
            return found if isinstance(found, tuple) else (slip.number, found)
    return slip.number, _ANYTHING_ELSE
