"""What is measured on a piece: lengths, counts, and whether something is there.

Ranges and proposed sizes (`piece_kinds` says where they come from) catch a misread tape or a wrong
unit, and a measure beyond them is taken when it is confirmed.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from surfacecalc.problems import is_slip
from surfacecalc.starting.answers import Answer, AnswerError, Doubt
from surfacecalc.starting.scales import UNITS, Scale
from surfacecalc.starting.typed_lengths import COMMA_REMARK, TypedLength, read_lengths
from surfacecalc.starting.wordings import WORDINGS
from surfacecalc.units.known import find_unit
from surfacecalc.units.number_words import spelled_out

ABSENT = ("none", "no", "0")
PRESENT = ("yes", "y")
UNUSUAL = "unusual"
"""What a measure beyond its usual range has to be confirmed as."""
LONGEST_COUNT = 6
"""Letters of a number of things: a word up to twelve, or digits."""
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
        what: its name in a question, such as "Leg height".
        how: what follows "Measure" or "Count", from where to where.
        least: least usual value, in inches or a count.
        most: greatest usual value.
        proposed: a common value to take with one key, None where it must be measured.
        same_as: the measure whose answer is proposed.
        sort: a length, a count, or whether it is there.
        hint: sentences to read with the question, such as how to answer where there is nothing to
            measure; empty for none.
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
    hint: str = ""
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
        """Return the greatest usual value, as a plain number where other measures limit it."""
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
        """Return the usual range as people say it, its unit once."""
        if self.sort == "presence":
            return "yes or no"
        limits = self.limits(sizes)
        if not limits.most:
            return "only 0 fits" if self.sort == "count" else 'only "none" fits'
        if self.sort == "count":
            return self._span(limits.usual_least, limits.usual_most, sizes.scale)
        span = self._span(limits.usual_least, self._plain_most(limits, sizes), sizes.scale)
        return f"{span}, or none" if self.may_be_none else span

    def _span(self, least: Fraction, most: Fraction, scale: Scale) -> str:
        low, high = self.words(least, scale), self.words(most, scale)
        return high if low == high else f"{low.removesuffix(f' {scale.unit}')} to {high}"

    def before(self) -> str:
        """Return what is read before the question: what to measure or count."""
        hint = f" {self.hint}" if self.hint else ""
        if self.sort == "presence":
            return self.hint
        return f"{'Count' if self.sort == 'count' else 'Measure'} {self.how}.{hint}"

    def prompt(self, sizes: Sizes) -> str:
        """Return the measure's name with its range; only lengths may go beyond theirs."""
        usually = "usually " if self.sort == "length" and self.limits(sizes).most else ""
        return f"{self.what} ({usually}{self.range_words(sizes)})"

    def help(self, sizes: Sizes) -> str:
        """Return what the question itself does not say: what counts, and what is usual."""
        more = WORDINGS[self.key].help
        if self.sort == "presence":
            return f'{more} Type "yes" or "no".'
        limits, scale = self.limits(sizes), sizes.scale
        if self.sort == "count":
            span = self._span(limits.least, limits.most, scale)
            number = f"a whole number from {span}" if limits.most else "0: nothing else fits"
            return f"{more} Type {number}."
        if not limits.most:
            return more
        return f"{more} Usual is {self.range_words(sizes)}; anything else is asked about first."

    def how_to_type(self, scale: Scale) -> str:
        """Return how a length may be typed, for the first question of many; empty for the rest."""
        if self.sort != "length":
            return ""
        example = "22 1/2 or 22.5" if scale.unit == "in" else "57.2"
        return (
            f"Type a number in {UNITS[scale.unit]}, such as {example}, or a number with its unit,"
            ' such as "5 ft 2 in" or "113 cm". Read the tape to its nearest mark.'
        )

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
        """Return the answer that was typed.

        Raises:
            AnswerError: it is not such a measure, or does not fit the answers so far.
        """
        typed = self._typed(text.strip(), sizes.scale)
        limits, scale = self.limits(sizes), sizes.scale
        low, high = typed.low_mm, typed.high_mm
        words = self._span(low, high, scale)
        middle = low if low == high else scale.on_mark((low + high) / 2)
        answer = Answer(
            middle, words, None, self._taken_as(typed, middle, scale), scale.up(typed.spread_mm)
        )
        if (self.may_be_none and not high) or self.sort == "presence":
            return answer
        if not limits.least <= low <= high <= limits.most:
            raise AnswerError(f"{words} is not possible; {self._possible(limits, scale)}")
        if not limits.usual_least <= low <= high <= limits.usual_most:
            found = f"{words} is unusual (usually {self.range_words(sizes)})"
            return replace(answer, doubt=Doubt(found, "Use it anyway?", UNUSUAL))
        return answer

    def _taken_as(self, typed: TypedLength, middle: Fraction, scale: Scale) -> str:
        """Return what is said of an answer that is not taken as it was typed; empty for nothing."""
        if typed.spread_mm:
            span = self._span(typed.low_mm, typed.high_mm, scale)
            return f"{span}: the parts get the middle, {self.words(middle, scale)}"
        return f"{self.words(middle, scale)} ({COMMA_REMARK})" if typed.has_comma else ""

    def _possible(self, limits: Limits, scale: Scale) -> str:
        if not limits.most:
            return "nothing fits with the other measurements"
        span = self._span(limits.least, limits.most, scale)
        if self.sort == "count" and limits.most == Fraction(self.most):
            return f"it must be from {span}"
        unit = f" (plain numbers are {UNITS[scale.unit]})" if self.sort == "length" else ""
        beside = "" if self.room is None else "with the other measurements "
        return f"{beside}it must be from {span}{unit}"

    def _typed(self, text: str, scale: Scale) -> TypedLength:
        is_absent = self.may_be_none and (text.lower() in ABSENT or text.lower().startswith("no "))
        if self.sort == "length" and not is_absent:
            self._check_near_none(text)
            return read_lengths(text, scale)
        value = Fraction(0) if is_absent else self._value(text)
        return TypedLength(value, value)

    def _check_near_none(self, text: str) -> None:
        is_near = self.may_be_none and spelled_out(text) is None
        if is_near and is_slip(text.lower(), ABSENT[0]):
            raise AnswerError(f'"{text}" is not an answer; did you mean "{ABSENT[0]}"?')

    def _value(self, text: str) -> Fraction:
        if self.sort == "presence":
            if text.lower() in PRESENT:
                return Fraction(1)
            if text.lower() in ("n", *ABSENT):
                return Fraction(0)
            raise AnswerError(f'"{text}" is not an answer; type "yes" or "no"')
        self._check_near_none(text)
        return _count(text)


def _count(text: str) -> Fraction:
    """Return a whole number in digits or in words; what is counted may follow it: "2 doors"."""
    number, _, what = text.partition(" ")
    things = what.lower().split()
    is_thing = find_unit(what) is None and all(
        word.isalpha() and word not in ("or", "to", "and") for word in things
    )
    count = int(number) if number.isascii() and number.isdigit() else spelled_out(number)
    if is_thing and count is not None and len(number) <= LONGEST_COUNT:
        return Fraction(count)
    raise AnswerError(f'"{text}" is not a whole number; type it in digits, such as 2')
