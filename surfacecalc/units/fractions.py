"""What is wrong with a fraction: typing mistakes, and what no tape measure shows.

A fraction is less than one; of inches and feet it is one that a tape shows: halves, quarters, and
so on to 64ths. Says what is wrong and what would be right, for a message about the text.
"""

import math
import re
from dataclasses import dataclass
from fractions import Fraction

from surfacecalc.units.number_words import short_ordinal

TAPE_UNITS = {"in": "inches", "ft": "feet"}
"""Units whose fractions are read off a tape measure, and what they are called."""
TAPE_DENOMINATORS = (2, 4, 8, 16, 32, 64)
"""The bottom numbers of a fraction on a tape measure in inches."""
FINEST_DENOMINATOR = 64
"""Finest fraction of other units; 1/100, 1/128 and 1/1000 are read as well."""
_POINTED = re.compile(r"(\d)\s*[,.]\s*(\d{1,2})\s*/\s*(\d)")
"""A comma or a point in the place of the space before a fraction."""


@dataclass(frozen=True)
class Written:
    """A fraction as it was written.

    Attributes:
        whole: the figures of the whole number before it, empty for none.
        top: its figures above the line.
        slash: the line, with the spaces around it.
        bottom: its figures below the line.
        unit: name of its unit, or what else follows it.
    """

    whole: str
    top: str
    slash: str
    bottom: str
    unit: str

    @property
    def value(self) -> Fraction:
        """The fraction without its whole number; the figures below the line are not zero."""
        return Fraction(int(self.top), int(self.bottom))

    def __str__(self) -> str:
        return f"{self.top}/{self.bottom}"


def fault(written: Written) -> str | None:
    """Return what is wrong with a fraction and what would be right, None for nothing.

    >>> fault(Written("", "337", "/", "8", "in")).partition("; ")[2]
    'write the whole inches first, with a space: "33 7/8 in" or "42 1/8 in"'
    """
    if int(written.bottom) == 0:
        return "has a fraction with 0 as its bottom number"
    if written.slash.startswith("/") != written.slash.endswith("/"):
        return 'has a space on one side of its "/"; write it like "17 3/8 in"'
    return _fault_below(written) or (_fault_of_one(written) if written.value >= 1 else None)


def _fault_below(written: Written) -> str | None:
    """Return what is wrong below the line; over one is whole, and no fault of it."""
    bottom = int(written.bottom)
    if written.unit in TAPE_UNITS:
        if bottom in (1, *TAPE_DENOMINATORS):
            return None
        *first, last = map(str, TAPE_DENOMINATORS)
        return (
            f"has the fraction {written}; no tape measure has {short_ordinal(bottom)}s: the bottom"
            f" number must be {', '.join(first)} or {last}"
        )
    if bottom > FINEST_DENOMINATOR and bottom not in (100, 128, 1000):
        return f"has the fraction {written}; nothing is measured that finely"
    return None


def _fault_of_one(written: Written) -> str:
    """Return what is wrong with a fraction of one or more."""
    if written.whole:
        return (
            f"has a fraction of one or more after a whole number: {written}; write it like"
            ' "17 3/8 in"'
        )
    whole, part = divmod(written.value, 1)
    numbers = dict.fromkeys([*_lost_blanks(written), f"{whole} {part}" if part else str(whole)])
    right = " or ".join(f'"{number} {written.unit}"' for number in numbers)
    what = TAPE_UNITS.get(written.unit, "number")
    return f"has the fraction {written}; write the whole {what} first, with a space: {right}"


def _lost_blanks(written: Written) -> list[str]:
    """Return what a fraction may have been before a blank was lost: 17 3/8 for 173/8.

    Tapes are read off in the simplest fraction, so 13 2/8 is no such reading.
    """
    top, bottom = written.top, int(written.bottom)
    splits = [(top[:place], top[place:]) for place in range(1, len(top))]
    return [
        f"{whole} {part}/{bottom}"
        for whole, part in splits
        if not (whole.startswith("0") or part.startswith("0"))
        if int(part) < bottom and math.gcd(int(part), bottom) == 1
    ]


def with_blank(text: str) -> str:
    """Return a text with a blank where a comma or a point stands before a fraction.

    >>> with_blank("42,3/8 in")
    '42 3/8 in'
    """
    return _POINTED.sub(r"\1 \2/\3", text)
