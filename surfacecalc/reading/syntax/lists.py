"""Lists and { } that are not closed, or lack a comma."""

import re

from surfacecalc.reading.syntax.scan import Opened
from surfacecalc.reading.syntax.slip import Slip, Told, without_quoted
from surfacecalc.reading.syntax.values import quoted_measure

_HEADER = re.compile(r"\s*\[\[?\s*[A-Za-z][\w. \"'-]*\]")
_PAIR = re.compile(r"\s*[\w-]+\s*=")


def unclosed(slip: Slip) -> Told:
    """Explain a list or { } that is not closed, or has no comma between two items."""
    opened = _opened(slip)
    if opened is None:
        return None
    measure = quoted_measure(_item(slip.line, slip.column), slip.unit)
    if measure:
        return f"put quotes around a measurement that has a unit or a fraction: {measure}"
    is_closed_below = _is_closed_below(opened, slip)
    if _runs_on(opened, slip) and not is_closed_below:
        return _not_closed(opened, slip)
    awaits = slip.before.awaits
    if awaits == "," and slip.sign == ";":
        return "use a comma between two items, not a semicolon"
    if awaits == "," and slip.sign and slip.sign not in "]}":
        return _comma_missing(opened, slip)
    if awaits in ("key", "=") and slip.sign not in ("", "[", "{") and opened.mark == "{":
        return _key_in_braces(slip)
    if awaits == "value" and slip.sign:
        return None
    return _not_closed(opened, slip)


def _opened(slip: Slip) -> Opened | None:
    """Return the innermost open bracket; on the line of a header, that of a line above."""
    if _HEADER.match(slip.line):
        above = [found for found in slip.before.opened if found.line < slip.number]
        return above[-1] if above else None
    return slip.bracket


def _runs_on(opened: Opened, slip: Slip) -> bool:
    """Return whether a bracket of a line above is open where the next key or header begins."""
    if opened.line == slip.number:
        return False
    begins = "=" not in slip.line[: slip.column - 1]
    return bool(_HEADER.match(slip.line) or (begins and _PAIR.match(slip.line)))


def _is_closed_below(opened: Opened, slip: Slip) -> bool:
    """Return whether { } over several lines is closed before another one opens."""
    if opened.mark == "[":
        return False
    for line in slip.lines[slip.number - 1 :]:
        marks = re.findall(r"[{}]", without_quoted(line))
        if marks:
            return bool(marks[0] == "}")
    return False


def _comma_missing(opened: Opened, slip: Slip) -> tuple[int, str]:
    """Return that a comma is missing, on the line where the item before it ends."""
    before = slip.number
    if not slip.line[: slip.column - 1].strip():
        before -= 1
        while not without_quoted(slip.lines[before - 1]).strip():
            before -= 1
    where = "in a list" if opened.mark == "[" else "inside { }"
    return before, f"a comma is missing between two items {where}"


def _key_in_braces(slip: Slip) -> str:
    """Return what is wrong with an item between { } that is not written name = value."""
    if slip.sign == ":":
        return "use = between a name and its value, not a colon"
    words = re.search(r"([A-Za-z]++(?: ++[A-Za-z]++)++)\s*+=", slip.line)
    if words:
        own = re.sub(r" +", "_", words[1])
        return f"write {own}, with _ and no space"
    return "write every item between { and } as a name and its value, as in { of = 2 }"


def _not_closed(opened: Opened, slip: Slip) -> tuple[int, str]:
    close = "]" if opened.mark == "[" else "}"
    comma = (
        ", or a comma is missing after an item" if slip.number > opened.line and slip.sign else ""
    )
    return opened.line, f"the {opened.mark} on this line is not closed with {close}{comma}"


def _item(line: str, column: int) -> str:
    """Return the item of a list in which a column of a line lies."""
    start = max(line.rfind(sign, 0, max(column - 1, 0)) for sign in ",[{=") + 1
    return re.split(r"[,\]}#]", line[start:], maxsplit=1)[0].strip()
