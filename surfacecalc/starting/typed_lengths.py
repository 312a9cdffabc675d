"""Lengths as people type them: a decimal comma is taken as a point, two values as a span."""

import re
from dataclasses import dataclass
from fractions import Fraction

from surfacecalc.starting.answers import AnswerError
from surfacecalc.starting.scales import Scale
from surfacecalc.units.grammar import AmountError
from surfacecalc.units.number_words import spelled_out

COMMA_REMARK = "the decimal comma is taken as a point"
WIDEST_SPAN_MM = 96
"""How far two values may lie apart [mm]: half of it, at the next mark, is within the 50 mm that
`measured_to` takes."""
_COMMA = re.compile(r"(?<![\d,.])(\d+),(\d{1,2})(?![\d,])")
_TO = re.compile(r"\s+(?:to|and|or)\s+|\s*[\u2013\u2014]\s*", re.IGNORECASE)
_DASH = re.compile(r"(?<=\d)\s*-\s*(?=\d)")
_UNIT_BEHIND = re.compile(r"[\d./\s]*\d\s*(?P<unit>[^\d\s./].*)$")


@dataclass(frozen=True)
class TypedLength:
    """A length that was typed, or two of them.

    Attributes:
        low_mm: the length, or the smaller of two [mm].
        high_mm: the same length, or the larger of two [mm].
        has_comma: whether a decimal comma was taken as a point.
    """

    low_mm: Fraction
    high_mm: Fraction
    has_comma: bool = False

    @property
    def spread_mm(self) -> Fraction:
        """How far each of two values is from their middle [mm]; 0 for one value."""
        return (self.high_mm - self.low_mm) / 2


def read_lengths(text: str, scale: Scale) -> TypedLength:
    """Return the length that a text says, or both ends of a span such as "180 to 184".

    Raises:
        AnswerError: it is neither.
    """
    plain = _COMMA.sub(r"\1.\2", text)
    ends = _ends(plain)
    found = sorted(_length(end, text, scale) for end in ends)
    if found[-1] - found[0] > WIDEST_SPAN_MM:
        apart, most = scale.words(found[-1] - found[0]), scale.words(scale.plain_down(_WIDEST))
        raise AnswerError(
            f'"{text}" has two values {apart} apart, and {most} is the most; measure again, or type'
            " one of them"
        )
    return TypedLength(found[0], found[-1], has_comma=plain != text)


_WIDEST = Fraction(WIDEST_SPAN_MM)


def _ends(text: str) -> list[str]:
    """Return the two values of a span, the unit of the second for both; else the one text.

    >>> _ends("180 to 184 cm"), _ends("180-184"), _ends("44-1/2")
    (['180 cm', '184 cm'], ['180', '184'], ['44-1/2'])
    """
    ends = _TO.split(text.strip())
    if len(ends) == 1 and "/" not in text:
        ends = _DASH.split(text.strip())
    if len(ends) != 2 or not all(ends):
        return [text]
    unit = _UNIT_BEHIND.fullmatch(ends[1])
    if unit is not None and _UNIT_BEHIND.fullmatch(ends[0]) is None:
        ends[0] = f"{ends[0]} {unit['unit']}"
    return ends


def _length(end: str, text: str, scale: Scale) -> Fraction:
    number, _, rest = end.partition(" ")
    count = spelled_out(number)
    if count is not None:
        digits = f"{count} {rest}".strip()
        raise AnswerError(f'"{text}" has a number in words; type it in digits: {digits}')
    try:
        return scale.read(end)
    except AmountError as error:
        raise AnswerError(f'"{text}" {error}') from None
