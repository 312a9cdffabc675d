"""What is measured on a piece: lengths, counts, and whether something is there.

Ranges and proposed sizes (`kinds` says where they come from) catch a slip of the tape or a wrong
unit, and a measure beyond them is taken when it is confirmed.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from surfacecalc.starting.answers import Answer, AnswerError, Doubt
from surfacecalc.starting.scales import UNITS, Scale
from surfacecalc.units.grammar import AmountError

ABSENT = ("none", "no", "0")
PRESENT = ("yes", "y")
UNUSUAL = "unusual"
"""What a measure beyond its usual range has to be confirmed as."""
BEYOND = 2
"""A length is taken, once confirmed, down to half of its usual least and up to twice its most."""


@dataclass(frozen=True)
class Sizes:
    """What was measured so far.

    Attributes:
        values: lengths [mm] and counts, by the measure's key.
        scale: the tape.
    """

    values: Mapping[str, Fraction]
    scale: Scale

    def __getitem__(self, key: str) -> Fraction:
        return self.values[key]

    def count(self, key: str) -> int:
        """Return how many there are of something that is counted."""
        return int(self.values[key])

    def common(self, inches: str) -> Fraction:
        """Return a common size [mm]."""
        return self.scale.common(inches)

    def part_of(self, length_mm: Fraction, divisor: int) -> Fraction:
        """Return a length divided, at the mark below [mm]."""
        return self.scale.down(length_mm / divisor)


@dataclass(frozen=True)
class Limits:
    """How far a measure may go [mm, or a count]: the usual range, and what can be at all."""

    least: Fraction
    usual_least: Fraction
    usual_most: Fraction
    most: Fraction


@dataclass(frozen=True)
class Measure:
    """One measure of a kind of piece.

    Attributes:
        key: its name and that of its option.
        what: what it is called in a question.
        how: what to measure, from where to where.
        least: least usual value, in inches or a count.
        most: greatest usual value.
        proposed: a common value to take with one key, None where it must be measured.
        same_as: the measure whose answer is proposed.
        sort: a length, a count, or whether it is there.
        may_be_none: whether the thing may be absent: 0.
        room: the most that fits beside the answers so far [mm, or a count].
        asked: whether it is asked, by the answers so far.
    """

    key: str
    what: str
    how: str
    least: str
    most: str
    proposed: str | None = None
    sort: Literal["length", "count", "presence"] = "length"
    may_be_none: bool = False
    room: Callable[[Sizes], Fraction] | None = None
    asked: Callable[[Sizes], bool] = lambda sizes: True
    same_as: str | None = None

    def limits(self, sizes: Sizes) -> Limits:
        """Return how far it may go beside the answers so far."""
        if self.sort == "length":
            least, most = sizes.common(self.least), sizes.common(self.most)
            lowest, highest = least / BEYOND, most * BEYOND
        else:
            least, most = Fraction(self.least), Fraction(self.most)
            lowest, highest = least, most
        if self.room is not None:
            room = max(Fraction(0), self.room(sizes))
            whole = sizes.scale.down(room) if self.sort == "length" else Fraction(int(room))
            highest = min(highest, whole)
        return Limits(min(lowest, highest), min(least, highest), min(most, highest), highest)

    def _plain_most(self, limits: Limits, sizes: Sizes) -> Fraction:
        """Return the greatest usual value, in plain figures where other measures limit it."""
        most = limits.usual_most
        is_own = self.sort != "length" or most == sizes.common(self.most)
        if is_own or self.same_as is not None:
            return most
        return max(limits.usual_least, sizes.scale.plain_down(most))

    def words(self, value: Fraction, scale: Scale) -> str:
        """Return a value as people say it."""
        if self.sort == "presence":
            return "yes" if value else "no"
        if not value and self.may_be_none and self.sort == "length":
            return "none"
        return scale.words(value) if self.sort == "length" else str(value)

    def range_words(self, sizes: Sizes) -> str:
        """Return the usual range as people say it."""
        if self.sort == "presence":
            return "yes or no"
        limits = self.limits(sizes)
        if not limits.most:
            return "none fits"
        if self.sort == "count":
            return f"{limits.usual_least} to {limits.usual_most}"
        ends = limits.usual_least, self._plain_most(limits, sizes)
        low, high = (self.words(end, sizes.scale) for end in ends)
        span = f"{low} to {high}" if low != high else low
        return f"{span}, or none" if self.may_be_none else span

    def explained(self, sizes: Sizes) -> str:
        """Return what an answer may look like."""
        if self.sort == "presence":
            return "Answer yes or no."
        unit = UNITS[sizes.scale.unit]
        kind = "A whole number"
        if self.sort == "length":
            example = "22 1/2 or 22.5" if sizes.scale.unit == "in" else "57.2"
            kind = f'A number of {unit}, such as {example}, or one with its unit: "5 ft 2 in"'
        absent = ", or none where there is none" if self.may_be_none else ""
        return f"{kind}{absent}. Usual: {self.range_words(sizes)}."

    def proposal(self, sizes: Sizes) -> str | None:
        """Return the value to take with one key, in words."""
        if self.same_as is not None:
            return self.words(sizes[self.same_as], sizes.scale)
        if self.proposed is None:
            return None
        if self.sort == "presence":
            return self.proposed
        is_length = self.sort == "length"
        value = sizes.common(self.proposed) if is_length else Fraction(self.proposed)
        limits = self.limits(sizes)
        if value or not self.may_be_none:
            value = min(max(value, limits.usual_least), self._plain_most(limits, sizes))
        return self.words(value, sizes.scale)

    def read(self, text: str, sizes: Sizes) -> Answer:
        """Return the answer that a text gives.

        Raises:
            AnswerError: it is no such measure, or cannot be beside the answers so far.
        """
        value = self._value(text.strip(), sizes.scale)
        limits = self.limits(sizes)
        words = self.words(value, sizes.scale)
        if (self.may_be_none and not value) or self.sort == "presence":
            return Answer(value, words)
        if not limits.least <= value <= limits.most:
            raise AnswerError(f"{words} cannot be; {self._possible(limits, sizes.scale)}")
        if not limits.usual_least <= value <= limits.usual_most:
            found = f"{words} is unusual (usually {self.range_words(sizes)})"
            return Answer(value, words, Doubt(found, "Take it all the same?", UNUSUAL))
        return Answer(value, words)

    def _possible(self, limits: Limits, scale: Scale) -> str:
        if not limits.most:
            return "none fits beside the other measures"
        low, high = self.words(limits.least, scale), self.words(limits.most, scale)
        if self.sort == "count" and limits.most == Fraction(self.most):
            return f"it is from {low} to {high}"
        unit = f" (plain numbers are {UNITS[scale.unit]})" if self.sort == "length" else ""
        beside = "" if self.room is None else "beside the other measures "
        return f"{beside}it is from {low} to {high}{unit}"

    def _value(self, text: str, scale: Scale) -> Fraction:
        if self.sort == "presence":
            if text.lower() in PRESENT:
                return Fraction(1)
            if text.lower() in ("n", *ABSENT):
                return Fraction(0)
            raise AnswerError(f'"{text}" is neither yes nor no')
        if self.may_be_none and text.lower() in ABSENT:
            return Fraction(0)
        return _length(text, scale) if self.sort == "length" else _count(text)


def _length(text: str, scale: Scale) -> Fraction:
    try:
        return scale.read(text)
    except AmountError as error:
        raise AnswerError(f'"{text}" {error}') from None


def _count(text: str) -> Fraction:
    if text.isascii() and text.isdigit() and len(text) <= 4:
        return Fraction(int(text))
    raise AnswerError(f'"{text}" is no whole number')
