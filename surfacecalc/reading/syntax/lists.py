"""Lists and tables in a line that are not closed, or lack a comma."""

import re

from surfacecalc.reading.syntax.slip import PAIR, Slip, Told
from surfacecalc.reading.syntax.values import quoted_measure


def unclosed(slip: Slip) -> Told:
    """Tell a list or an inner table that is not closed, or has no comma between two items."""
    if not slip.said.startswith(("Unclosed", "Invalid initial", "Invalid value")):
        return None
    opened = _opened_at(slip)
    if opened is None:
        return None
    number, mark = opened
    close = "]" if mark == "[" else "}"
    what = "a list" if mark == "[" else "what stands in { }"
    here = slip.lines[slip.number - 1]
    measure = quoted_measure(_item(here, slip.column), slip.unit)
    if measure:
        return slip.number, f"a measure with a unit or a fraction stands in quotes: {measure}"
    if slip.said.startswith("Unclosed") and number == slip.number and close in here:
        return number, f"a comma is missing between two items of {what}"
    if mark == "{" and number == slip.number and close in here:
        return number, "before the closing } stands no comma, and every item is a key = value"
    if mark == "{":
        return number, "what is opened with { is not closed with } on the same line"
    if slip.said.startswith("Invalid value") and slip.column and close in here:
        return None
    comma = ", or a comma is missing in it" if slip.number > number else ""
    return number, f"{what} is opened with {mark} and not closed with {close}{comma}"


def _item(line: str, column: int) -> str:
    """Return the item of a list in which a column of a line lies."""
    start = max(line.rfind(sign, 0, column - 1) for sign in ",[{=") + 1
    return re.split(r"[,\]}#]", line[start:], maxsplit=1)[0].strip()


def _opened_at(slip: Slip) -> tuple[int, str] | None:
    """Return the line and the sign of the innermost bracket that is open where it stopped.

    It is looked for from the last key on, and from the key before that: the parser stops at what
    follows a list that is not closed.
    """
    keys = [n for n in range(slip.number, 0, -1) if PAIR.match(slip.lines[n - 1])]
    for start in keys[:2] or [slip.number]:
        opened = _still_open(slip, start)
        if opened:
            return opened[-1]
    return None


def _still_open(slip: Slip, start: int) -> list[tuple[int, str]]:
    """Return the brackets that are open where it stopped, counted from a line on."""
    opened: list[tuple[int, str]] = []
    for number in range(start, slip.number + 1):
        line = slip.lines[number - 1]
        if number == slip.number and slip.column:
            line = line[: slip.column - 1]
        line = re.sub(r'"[^"]*"|\'[^\']*\'', "", line)
        for sign in line.split("#", maxsplit=1)[0]:
            if sign in "[{":
                opened.append((number, sign))
            elif sign in "]}" and opened:
                opened.pop()
    return opened
