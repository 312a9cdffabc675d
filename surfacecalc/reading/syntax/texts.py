"""Words in quotes that are not closed, backslashes in them, and characters that nobody can see."""

import re
import unicodedata

from surfacecalc.reading.syntax.slip import Slip, Told, without_quoted

_ESCAPE = re.compile(r"\\(?:[befnrt\"\\\n ]|x[\da-fA-F]{2}|u[\da-fA-F]{4}|U[\da-fA-F]{8})")

_OPEN_NUMBER = re.compile(r"""([\w-]+)\s*=\s*"\s*(\d+(?:[.,]\d+)?)\s*(?:[}\],][^"]*|#[^"]*)?$""")
"""A number at the end of a line with a quote before it only."""


def invisible(slip: Slip) -> Told:
    """Explain a character that cannot be seen."""
    if slip.sign in ("", "\n", "\r") or unicodedata.category(slip.sign) not in ("Cc", "Cf", "Zs"):
        return None
    if slip.sign in " \t":
        return None
    return f"there is an invisible character at column {slip.column}; type the line again"


def backslash(slip: Slip) -> Told:
    """Explain a backslash that is not doubled, as in the name of a file."""
    quote = slip.quote
    if quote is None or "'" in quote.mark:
        return None
    inside = slip.text[quote.at + len(quote.mark) : slip.at]
    if "\\" not in _ESCAPE.sub("", inside):
        return None
    words = re.match(r'"([^"\n]*)"', slip.text[quote.at :])
    own = f"'{words[1]}'" if words and "'" not in words[1] else "'...'"
    return (
        "a backslash has a meaning of its own between double quotes; use single quotes,"
        f" {own}, or type each backslash twice"
    )


def quotes(slip: Slip) -> Told:
    """Explain words in quotes whose closing quote is missing."""
    quote = slip.quote
    if quote is not None:
        return quote.line, _no_closing_quote(slip.lines[quote.line - 1], quote.mark)
    # '["top, "leg"]': the quote before leg closes, and the parser stops at leg.
    is_inside = slip.before.awaits == "," and re.match(r"[\w-]", slip.sign)
    if is_inside and without_quoted(slip.line).count('"') % 2:
        return 'a closing quote is missing; put a " before and after every name'
    return None


def _no_closing_quote(line: str, mark: str) -> str:
    """Return what is wrong with a line whose quote is not closed, with the line as it should be."""
    number = _OPEN_NUMBER.search(line)
    if number:
        return f"a number needs no quotes: {number[1]} = {number[2].replace(',', '.')}"
    pair = re.match(r"""^\s*([\w-]+)\s*=\s*"([^"#\\\[{]*)$""", line)
    if pair and pair[2].strip():
        return f'the closing quote is missing: {pair[1]} = "{pair[2].strip()}"'
    return f"the closing quote is missing; put {mark} at the end of the words as well"
