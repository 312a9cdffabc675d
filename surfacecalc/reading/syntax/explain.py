"""From the position where the parser stopped to what is wrong, in the user's words and values.

The parser stops at the first mistake and says where. What was meant is worked out from the text at
that position alone: the parser's own words are neither shown nor read, so that another version of
it, with other words, changes nothing here.
"""

from collections.abc import Callable

import tomli

from surfacecalc.reading.syntax import commas, dates, headers, lists, texts, values
from surfacecalc.reading.syntax.slip import Slip, Told

_RULES: tuple[Callable[[Slip], Told], ...] = (
    texts.invisible,
    texts.backslash,
    texts.quotes,
    headers.brackets,
    headers.table_twice,
    headers.key_twice,
    dates.date,
    commas.decimal_comma,
    commas.money,
    commas.two_commas,
    values.equals,
    lists.unclosed,
    values.value,
)
LONGEST_LINE = 4_000
"""Characters of a line that somebody may have typed; a longer one is not worked out, as it could
take minutes."""
LONGEST = 300
"""Characters of an explanation, which may repeat what was typed."""
_ANYTHING_ELSE = (
    "it should be a heading such as [[part]], a name and its value such as"
    ' name = "leg", or a comment after a #'
)


def explain(error: tomli.TOMLDecodeError) -> tuple[int, str]:
    """Return the line of a mistake in writing and what is wrong with it."""
    slip = _slip(error)
    for rule in _RULES if len(slip.line) <= LONGEST_LINE else ():
        found = rule(slip)
        if found is not None:
            line, words = found if isinstance(found, tuple) else (slip.number, found)
            return line, words if len(words) <= LONGEST else f"{words[: LONGEST - 3]}..."
    return slip.number, _ANYTHING_ELSE


def _slip(error: tomli.TOMLDecodeError) -> Slip:
    """Return where the parser stopped; the end of the text is the end of its last line."""
    text, at = error.doc, error.pos
    if at < len(text) or not text.endswith("\n"):
        return Slip(text, at, error.lineno, error.colno)
    line = text.count("\n")
    return Slip(text, at, line, len(text.split("\n")[line - 1]) + 1)
