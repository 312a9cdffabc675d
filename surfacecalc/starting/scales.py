"""Lengths of a new piece, kept to the marks of a tape and written as a tape shows them.

Every length is an exact fraction of a millimetre on a mark, so sums of lengths are on a mark again
and parts that should touch do.
"""

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from surfacecalc.units.grammar import AmountError, parse_amount
from surfacecalc.units.known import factor
from surfacecalc.units.number_words import mixed_number

UNITS = {"in": "inches", "cm": "centimetres", "mm": "millimetres"}
"""Units that a new piece may be measured in: those that tapes are marked in."""
FINEST_INCH = Fraction(1, 64)
FINEST_MM = Fraction(1, 10)
"""Finest marks that a length is kept to: 1/64 in, or a tenth of a millimetre."""
PLAIN_INCH = Fraction(1, 8)
PLAIN_MM = Fraction(1)
"""Marks that a limit which follows from other measures is put at, to be read with ease."""
COARSE_FROM_MM = 100
"""Common sizes [mm] from here on are rounded to whole centimetres, smaller ones to millimetres."""


@dataclass(frozen=True)
class Scale:
    """The tape that a piece is measured with.

    Attributes:
        unit: "in", "cm" or "mm"; a bare number counts in it.
    """

    unit: str

    @property
    def mark_mm(self) -> Fraction:
        """Distance of the finest marks [mm]."""
        return FINEST_INCH * factor("in") if self.unit == "in" else FINEST_MM

    @property
    def system(self) -> str:
        """Which sizes shops have: "us" or "metric"."""
        return "us" if self.unit == "in" else "metric"

    def on_mark(self, length_mm: Fraction) -> Fraction:
        """Return the nearest mark [mm]."""
        return round(length_mm / self.mark_mm) * self.mark_mm

    def down(self, length_mm: Fraction) -> Fraction:
        """Return the mark at or below a length [mm]."""
        return length_mm // self.mark_mm * self.mark_mm

    def up(self, length_mm: Fraction) -> Fraction:
        """Return the mark at or above a length [mm]."""
        return -(-length_mm // self.mark_mm) * self.mark_mm

    def plain_down(self, length_mm: Fraction) -> Fraction:
        """Return the plain mark at or below a length [mm]; below the first, the finest mark.

        >>> Scale("in").words(Scale("in").plain_down(Fraction("275.8")))
        '10 3/4 in'
        """
        step = PLAIN_INCH * factor("in") if self.unit == "in" else PLAIN_MM
        return length_mm // step * step or self.down(length_mm)

    def common(self, inches: str) -> Fraction:
        """Return a common size [mm]: as it is in inches, and in round numbers on a metric tape.

        >>> float(Scale("mm").common("3/4"))
        19.0
        """
        return _common(inches, self.unit)

    def read(self, text: str) -> Fraction:
        """Return a length as it was typed [mm], on a mark; a bare number counts in the unit.

        Raises:
            AmountError: what was typed is not a length.

        >>> Scale("in").words(Scale("in").read("22 1/2"))
        '22 1/2 in'
        """
        marks = "\"'\u2032\u2033\u2019\u201d"
        is_bare = not any(letter.isalpha() or letter in marks for letter in text)
        if is_bare and not text.strip():
            raise AmountError("is empty")
        return self.on_mark(parse_amount(f"{text} {self.unit}" if is_bare else text, "length"))

    def words(self, length_mm: Fraction) -> str:
        """Return a length on a mark as it is read off, such as 22 1/2 in."""
        return f"{_number(length_mm / factor(self.unit), self.unit)} {self.unit}"

    def toml(self, length_mm: Fraction) -> str:
        """Return a length on a mark as the piece file has it: a plain number, or a fraction."""
        number = length_mm / factor(self.unit)
        if self.unit != "in" or number.denominator == 1:
            return _number(number, self.unit)
        return f'"{_number(number, self.unit)} in"'


def _number(number: Fraction, unit: str) -> str:
    if unit != "in":
        return f"{float(number):.2f}".rstrip("0").rstrip(".")
    return mixed_number(number)


@cache
def _common(inches: str, unit: str) -> Fraction:
    length_mm = parse_amount(f"{inches} in", "length")
    if unit == "in" or not length_mm:
        return length_mm
    step = 10 if length_mm >= COARSE_FROM_MM else 1
    return Fraction(round(length_mm / step) * step)
