"""One table of a piece file, read key by key; mistakes are collected, not raised.

A reader that finds a mistake records it and returns a harmless stand-in, so that reading goes on
and finds the next one. No stand-in ever reaches a number: a file with a mistake yields no piece.
"""

import math
import pathlib
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from shapes.tolerances import MAX_LENGTH_MM
from surfacecalc.problems import Problem, listing, suggestion
from surfacecalc.ranges import Range
from surfacecalc.reading.positions import Lines, Path, line_of
from surfacecalc.units.grammar import EXAMPLES, AmountError, parse_amount, parse_share
from surfacecalc.units.known import EXAMPLES_OF_UNIT, Dimension, factor

LARGEST_SHOWN = 10**30
"""Whole numbers beyond it are not spelled out."""
LARGEST_NUMBER = 10**9
"""No measure, count or price of a piece is larger; keeps huge numbers out of exact arithmetic."""


@dataclass
class Context:
    """What all tables of one file share.

    Attributes:
        lines: the line of each key.
        unit: unit of bare lengths, None where the file does not say.
        folder: where the piece file lies; other files are read from there only.
        problems: what was found so far.
    """

    lines: Lines
    unit: str | None = None
    folder: pathlib.Path = field(default_factory=pathlib.Path)
    problems: list[Problem] = field(default_factory=list)

    def length_text(self, mm: float) -> str:
        """Return a length in the unit of the file."""
        unit = self.unit or "mm"
        return f"{mm / float(factor(unit)):.6g} {unit}"


class Table:
    """One table of the file.

    Attributes:
        values: its keys and values.
        path: where it stands in the document.
        where: what it is called in messages, such as 'part "leg"'.
        context: what all tables share.
        is_sound: whether no mistake was found in it so far.
    """

    def __init__(self, values: dict[str, Any], path: Path, where: str, context: Context) -> None:
        self.values = values
        self.path = path
        self.where = where
        self.context = context
        self.is_sound = True

    def __contains__(self, key: str) -> bool:
        return key in self.values

    @property
    def line(self) -> int:
        """Line where the table starts."""
        return line_of(self.context.lines, self.path)

    def line_of(self, *keys: str | int) -> int:
        """Return the line of a key, or of the table where it has none."""
        return line_of(self.context.lines, (*self.path, *keys))

    def mend(self, message: str, *keys: str | int) -> None:
        """Record a mistake at a key, or at the table."""
        self.spoil()
        self.context.problems.append(Problem("mend", self.line_of(*keys), self.where, message))

    def note(self, message: str, *keys: str | int) -> None:
        """Record a remark at a key, or at the table."""
        self.context.problems.append(Problem("note", self.line_of(*keys), self.where, message))

    def spoil(self) -> None:
        """Mark the table as one that nothing may be made of."""
        self.is_sound = False

    def refuse(self, key: str, message: str, *more: int | str) -> None:
        """Record what is wrong with the value of a key: `key = value message`."""
        value = self.values[key]
        for step in more:
            value = value[step]
        self.mend(f"{key} = {shown(value)} {message}", key, *more)

    def only(self, keys: Iterable[str]) -> None:
        """Record every key that does not belong here."""
        keys = list(keys)
        for key in self.values:
            if key not in keys:
                self.mend(f"{shown_key(key)} is not known here; {suggestion(key, keys)}", key)

    def has(self, key: str, example: str) -> bool:
        """Whether a key that must be there is there; record that it is missing."""
        if key in self.values:
            return True
        self.mend(f"has no {key}; add {key} = {example}")
        return False

    def text(self, key: str, example: str = '"..."') -> str:
        """Return a text that must be there and not empty."""
        if not self.has(key, example):
            return ""
        value = self.values[key]
        if isinstance(value, str) and value.strip():
            return value
        self.refuse(key, f"must be a text in quotes, such as {key} = {example}")
        return ""

    def choice(self, key: str, words: Iterable[str]) -> str:
        """Return one of a few words that must be there."""
        words = list(words)
        if not self.has(key, f'"{words[0]}" (or {listing(words[1:])})'):
            return words[0]
        value = self.values[key]
        if isinstance(value, str) and value in words:
            return value
        self.refuse(key, f"is not known; {suggestion(shown_text(value), words)}")
        return words[0]

    def texts(self, key: str, example: str) -> list[str]:
        """Return a list of texts that must be there and not empty."""
        if not self.has(key, example):
            return []
        value = self.values[key]
        if isinstance(value, list) and value and all(isinstance(item, str) for item in value):
            return value
        self.refuse(key, f"must be a list of texts, such as {key} = {example}")
        return []

    def whole(self, key: str, least: int, most: int, example: str = "2") -> int:
        """Return a whole number that must be there."""
        if not self.has(key, example):
            return least
        value = self.values[key]
        if isinstance(value, int) and not isinstance(value, bool) and least <= value <= most:
            return value
        self.refuse(key, f"must be a whole number from {least} to {most:,}")
        return least

    def number(self, value: Any, *keys: str | int) -> Fraction | None:
        """Return a bare number as an exact fraction, or None after recording what is wrong."""
        if isinstance(value, bool) or not isinstance(value, int | float):
            self.mend(f"{_label(keys)} = {shown(value)} must be a number", *keys)
        elif isinstance(value, float) and not math.isfinite(value):
            self.mend(f"{_label(keys)} = {shown(value)} must be a finite number", *keys)
        elif abs(value) > LARGEST_NUMBER:
            self.mend(f"{_label(keys)} = {shown(value)} is far too large", *keys)
        else:
            return Fraction(str(value))
        return None

    def length_mm(self, value: Any, *keys: str | int) -> float | None:
        """Return a length [mm], or None after recording what is wrong."""
        if isinstance(value, str):
            return self._parsed(value, "length", *keys)
        number = self.number(value, *keys)
        if self.context.unit is None:
            self.spoil()  # that the unit is missing is recorded once, at [piece]
            return None
        return None if number is None else float(number * factor(self.context.unit))

    def size_mm(self, key: str) -> float:
        """Return a length above zero and at most 10 m that must be there [mm]."""
        if not self.has(key, EXAMPLES_OF_UNIT.get(self.context.unit or "", '"24 1/2 in"')):
            return 1.0
        length = self.length_mm(self.values[key], key)
        if length is not None and length <= 0:
            self.refuse(key, "must be more than zero")
        elif length is not None and length > MAX_LENGTH_MM:
            self.refuse(key, "is over 10 m; check the number and the unit")
        return length or 1.0

    def place_mm(self, key: str, example: str = "[0, 0, 0]") -> tuple[float, float, float]:
        """Return three lengths that must be there [mm]."""
        value = self.values[key]
        if not isinstance(value, list) or len(value) != 3:
            self.refuse(key, f"must be three lengths x, y, z, such as {key} = {example}")
            return 0.0, 0.0, 0.0
        x, y, z = (self._coordinate(item, key, number) for number, item in enumerate(value))
        return x, y, z

    def _coordinate(self, value: Any, key: str, number: int) -> float:
        length = self.length_mm(value, key, number)
        if length is not None and abs(length) > MAX_LENGTH_MM:
            axis = "xyz"[number]
            self.mend(f"{key}: {axis} = {shown(value)} is over 10 m away; check the unit", key)
        return length or 0.0

    def amount(self, value: Any, dimension: Dimension, *keys: str | int) -> float | None:
        """Return an amount in its base unit, or None after recording what is wrong."""
        if isinstance(value, str):
            return self._parsed(value, dimension, *keys)
        found = f"{_label(keys)} = {shown(value)}"
        self.mend(f"{found} has no unit; write a text such as {EXAMPLES[dimension]}", *keys)
        return None

    def _parsed(self, value: str, dimension: Dimension, *keys: str | int) -> float | None:
        try:
            return float(parse_amount(value, dimension))
        except AmountError as error:
            self.mend(f"{_label(keys)} = {shown(value)} {error}", *keys)
            return None

    def share(self, value: Any, *keys: str | int) -> float | None:
        """Return a share as a fraction of one, or None after recording what is wrong."""
        try:
            if not isinstance(value, str):
                raise AmountError('is no share; write it with a per cent sign, such as "10 %"')
            return float(parse_share(value))
        except AmountError as error:
            self.mend(f"{_label(keys)} = {shown(value)} {error}", *keys)
            return None

    def range(
        self,
        key: str,
        read: Callable[..., float | None],
        check: Callable[[float], str | None],
    ) -> Range | None:
        """Return a value or a range [low, likely, high], or None after recording what is wrong.

        Args:
            key: the key, which must be there.
            read: reads one value: (value, *keys).
            check: says what is wrong with a value, or None.
        """
        value = self.values[key]
        if not isinstance(value, list):
            found = self._checked(value, read, check, key)
            return None if found is None else Range.fixed(found)
        if len(value) != 3:
            self.refuse(key, "must be one value or three: [low, likely, high]")
            return None
        values = [self._checked(item, read, check, key, k) for k, item in enumerate(value)]
        low, likely, high = values
        if low is None or likely is None or high is None:
            return None
        if not low <= likely <= high:
            self.refuse(key, "must rise: [low, likely, high]")
            return None
        return Range(low, likely, high)

    def _checked(
        self,
        value: Any,
        read: Callable[..., float | None],
        check: Callable[[float], str | None],
        *keys: str | int,
    ) -> float | None:
        found = read(value, *keys)
        wrong = None if found is None else check(found)
        if wrong is None:
            return found
        self.mend(f"{_label(keys)} = {shown(value)} {wrong}", *keys)
        return None

    def table(self, key: str, example: str) -> "Table | None":
        """Return a table in this one, or None after recording that it is none."""
        value = self.values[key]
        if isinstance(value, dict):
            return self.inner(value, (key,))
        self.refuse(key, f"must be written {key} = {example}")
        return None

    def tables(self, key: str, example: str) -> Iterator["Table"]:
        """Yield the tables of a list in this one; record what is none."""
        value = self.values.get(key, [])
        if not isinstance(value, list):
            self.mend(f"{shown_key(key)} must be written {example}", key)
            return
        for number, item in enumerate(value):
            if isinstance(item, dict):
                yield self.inner(item, (key, number))
            else:
                self.refuse(key, f"must be written {example}", number)

    def inner(self, values: dict[str, Any], keys: tuple[str | int, ...]) -> "Table":
        """Return a table that stands in this one under some keys."""
        return _InnerTable(values, (*self.path, *keys), self.where, self.context, self)


class _InnerTable(Table):
    """A table in a table; its mistakes make the outer one unsound too."""

    def __init__(
        self, values: dict[str, Any], path: Path, where: str, context: Context, outer: Table
    ) -> None:
        super().__init__(values, path, where, context)
        self._outer = outer

    def spoil(self) -> None:
        """Mark this table and the one around it."""
        super().spoil()
        self._outer.spoil()


def shown(value: Any, depth: int = 2) -> str:
    """Return a value as a message shows it, cut short where it is long, deep or huge."""
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, int) and abs(value) > LARGEST_SHOWN:
        return "a huge number"
    if isinstance(value, dict):
        return "{...}"
    if isinstance(value, list):
        items = [shown(item, depth - 1) for item in value[:4]] if depth else ["..."]
        return f"[{', '.join(items)}{', ...' * (len(value) > 4)}]"
    text = f'"{value}"' if isinstance(value, str) else str(value)
    return text if len(text) <= 60 else f"{text[:57]}..."


def shown_text(value: Any) -> str:
    """Return a text to compare with known words; nothing for what is no text."""
    return value if isinstance(value, str) else ""


def shown_key(key: str) -> str:
    """Return a key as a message shows it, cut short where it is long."""
    return f'"{key}"' if len(key) <= 60 else f'"{key[:57]}..."'


def _label(keys: tuple[str | int, ...]) -> str:
    """Return the last named key of a path."""
    return next(str(key) for key in reversed(keys) if isinstance(key, str))
