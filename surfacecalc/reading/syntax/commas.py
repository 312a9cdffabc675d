"""Numbers inside a list or an inner table: decimal commas, signs of money, a comma too many."""

import re

from surfacecalc.reading.syntax.slip import Slip, Told

_IN_BRACKETS = re.compile(r"(?<=[=\[,{])\s*(\d+),(\d+)(?=\s*[}\]]|\s*,\s*[A-Za-z])")
_MONEY = re.compile(r"=\s*[$\u00a3\u20ac\u00a5]\s*([\d.,]+)")
_TEXT = re.compile(r'"[^"]*"|\'[^\']*\'')


def decimal_comma(slip: Slip) -> Told:
    """Tell a number with a decimal comma in what stands in { }; there a comma ends an item."""
    if not slip.said.startswith("Expected"):
        return None
    line = _without_texts(slip.line)
    found = next((m for m in _IN_BRACKETS.finditer(line) if "{" in line[: m.start()]), None)
    return found and f"a decimal has a point, not a comma: {found[1]}.{found[2]}"


def money(slip: Slip) -> Told:
    """Tell an amount of money with its sign."""
    found = _MONEY.search(_without_texts(slip.line))
    if found is None:
        return None
    plain = found[1].replace(",", ".").strip(".")
    return f"money is a plain number, {plain}; its currency stands once, in [piece]"


def two_commas(slip: Slip) -> Told:
    """Tell a comma too many between two items."""
    is_twice = re.search(r",\s*,", _without_texts(slip.line))
    return "between two items stands one comma, not two" if is_twice else None


def _without_texts(line: str) -> str:
    """Return a line without what stands in quotes and behind a #, everything else in its place."""
    plain = _TEXT.sub(lambda found: "_" * len(found[0]), line)
    return plain.split("#", maxsplit=1)[0]
