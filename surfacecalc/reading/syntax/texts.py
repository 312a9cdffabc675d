"""Texts that are not closed, and backslashes in them."""

import re

from surfacecalc.reading.syntax.slip import Slip, Told


def quotes(slip: Slip) -> Told:
    """Tell a text that is not closed."""
    if slip.said.startswith("Unterminated string"):
        return _open_text(slip, '"') or "a text is opened with quotes and never closed"
    if slip.said.startswith("Expected \"'"):
        return _open_text(slip, "'")
    if not slip.said.startswith(("Illegal character", "Found invalid character")):
        return None
    if not slip.said.endswith((r"'\n'", r"'\r'")):
        return f"a sign that cannot be seen stands in column {slip.column}; type the line anew"
    pair = re.match(r"""^\s*([\w-]+)\s*=\s*"([^"#\\\[{]*)$""", slip.line)
    own = f': {pair[1]} = "{pair[2].strip()}"' if pair and pair[2].strip() else ""
    return f"a text has no closing quote{own or '; a text stands between two quotes'}"


def _open_text(slip: Slip, mark: str) -> tuple[int, str] | None:
    """Return the first line that opens a text with a mark and does not close it."""
    for number, line in enumerate(slip.lines, start=1):
        if line.split("#")[0].count(mark) % 2:
            return number, f"a text has no closing quote; it needs a second {mark} at its end"
    return None


def backslash(slip: Slip) -> Told:
    """Tell a backslash that is not doubled, as in the name of a file."""
    if not slip.said.startswith(("Unescaped", "Invalid hex", "Escaped character")):
        return None
    text = re.search(r'"([^"\']*)"', slip.line)
    own = f"'{text[1]}'" if text else "'...'"
    return (
        "a backslash in double quotes means something else; write the text in single quotes,"
        f" {own}, or each backslash twice"
    )
