"""Numbers inside a list or { }: decimal commas, signs of money, a comma too many."""

import re

from surfacecalc.reading.syntax.slip import Slip, Told, without_quoted

_IN_BRACKETS = re.compile(r"(?<=[=\[,{])\s*(\d+),(\d+)(?=\s*[}\]]|\s*,\s*[A-Za-z])")
_SIGNS = "$\u00a3\u20ac\u00a5"
_MONEY = re.compile(rf"\s*[{_SIGNS}]\s*([\d.,]+)")
_SIGN_AFTER = re.compile(rf"=\s*([\d.,]+)\s*(?:[{_SIGNS}]|[A-Z]{{3}}\b)")


def decimal_comma(slip: Slip) -> Told:
    """Explain a number with a decimal comma in { }; there a comma ends an item."""
    if slip.bracket is None or slip.bracket.mark != "{":
        return None
    line = without_quoted(slip.line)
    for found in _IN_BRACKETS.finditer(line):
        between = line[found.end() : slip.column - 1]
        if found.start(2) < slip.column and not between.strip():
            return f"use a decimal point, not a comma: {found[1]}.{found[2]}"
    return None


def money(slip: Slip) -> Told:
    """Explain an amount of money with its sign."""
    found = _MONEY.match(slip.text, slip.at) or _sign_after(slip)
    if found is None:
        return None
    plain = found[1].replace(",", ".").strip(".")
    return (
        f"write money as a plain number, {plain}, without a currency symbol;"
        " the currency is set once, in [piece]"
    )


def _sign_after(slip: Slip) -> re.Match[str] | None:
    """Return the amount whose sign, or three letters, is where the parser stopped."""
    hits = _SIGN_AFTER.finditer(slip.line)
    return next((hit for hit in hits if hit.start() < slip.column - 1 < hit.end()), None)


def two_commas(slip: Slip) -> Told:
    """Explain a comma too many between two items."""
    is_twice = slip.sign == "," and slip.text[: slip.at].rstrip().endswith(",")
    return "use one comma between two items, not two" if is_twice else None
