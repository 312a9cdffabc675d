"""One table of a piece file, read key by key; mistakes are collected, not raised.

A reader that finds a mistake records it and returns a harmless stand-in, so that reading goes on
and finds the next one. No stand-in ever reaches a number: a file with a mistake yields no piece.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from fractions import Fraction
from typing import Any, Literal

from surfacecalc.model.ranges import Range
from surfacecalc.problems import Problem, is_close, is_slip, listing, suggestion
from surfacecalc.reading import amounts, unknown_keys
from surfacecalc.reading.context import Context
from surfacecalc.reading.positions import Path, line_of
from surfacecalc.reading.shown import shown, shown_at, shown_key, shown_text
from surfacecalc.units.known import Dimension

__all__ = ["Context", "Table", "shown", "shown_key", "shown_text"]


class Table:
    """One table of the file.

    Attributes:
        values: its keys and values.
        path: where it stands in the document.
        where: what it is called in messages, such as 'part "leg"'.
        context: what all tables share.
        is_sound: whether no mistake was found in it so far.
    """

    def __init__(
        self,
        values: dict[str, Any],
        path: Path,
        where: str,
        context: Context,
        *,
        outer: "Table | None" = None,
        name: str = "",
    ) -> None:
        """Make a table; one in another table has that one and its own name there."""
        self.values = values
        self.path = path
        self.where = where
        self.context = context
        self.is_sound = True
        self._outer = outer
        self._name = name
        self._missing: dict[str, Problem] = {}
        self._meant: set[str] = set()
        self._respelt: dict[str, str] = {}
        self._told: set[Problem] = set()

    def __contains__(self, key: str) -> bool:
        return key in self.values

    @property
    def line(self) -> int:
        """Line where the table starts."""
        return line_of(self.context.lines, self.path)

    @property
    def kind(self) -> str:
        """Name of a table in a table, else the shape of a part."""
        inner = next((step for step in reversed(self.path[2:]) if isinstance(step, str)), "")
        return inner or shown_text(self.values.get("shape"))

    def line_of(self, *keys: str | int) -> int:
        """Return the line of a key, or of the table where it has none."""
        return line_of(self.context.lines, (*self.path, *keys))

    def mend(self, message: str, *keys: str | int) -> None:
        """Record a mistake at a key, or at the table; the same one is recorded once."""
        self.spoil()
        self._record("mend", message, *keys)

    def note(self, message: str, *keys: str | int) -> None:
        """Record a note at a key, or at the table."""
        self._record("note", message, *keys)

    def _record(self, level: Literal["mend", "note"], message: str, *keys: str | int) -> Problem:
        inside = self._inside()
        if inside and not message.startswith(f"{inside} "):
            mark = "" if message.startswith("has ") else ":"
            message = f"{inside}{mark} {message}"
        line, file = self.line_of(*keys), self.context.file
        problem = Problem(level, line, self.where, message, file)
        if problem not in self._told:
            self._told.add(problem)
            self.context.problems.append(problem)
        return problem

    def _inside(self) -> str:
        """Return the names of the table in the one that `where` names, outermost first."""
        if self._outer is None or self._outer.where != self.where:
            return ""
        return f"{self._outer._inside()} {self._name}".strip()

    def spoil(self) -> None:
        """Mark the table, and those around it, as ones that nothing may be made of."""
        self.is_sound = False
        if self._outer is not None:
            self._outer.spoil()

    def refuse(self, key: str, message: str, *more: int | str) -> None:
        """Record what is wrong with the value of a key: `key = value message`."""
        value = self.values[key]
        for step in more:
            value = value[step]
        self.mend(f"{shown_at((key, *more), value)} {message}", key, *more)

    def only(self, keys: Iterable[str]) -> None:
        """Record every key that does not belong here."""
        unknown_keys.record_strays(self, list(keys))

    def misspelt(self, key: str, keys: Sequence[str]) -> str | None:
        """Return the key that an unknown one means, and let it count as that one."""
        if key in self._respelt:
            return self._respelt[key]
        meant = unknown_keys.meant_key(self, key, keys)
        if meant is None or (self.path and not is_close(key, meant)):
            return meant
        if meant not in self._meant:
            unknown_keys.take_as(self, key, meant)
        self._meant.add(meant)
        missing = self._missing.pop(meant, None)
        if missing is not None:
            self.context.problems.remove(missing)
        return meant

    def respell(self, key: str) -> None:
        """Let a key that is missing be the one that differs from it by a slip of the finger."""
        slip = next((other for other in self.values if is_slip(other, key)), None)
        if slip is not None and key not in self.values:
            unknown_keys.take_as(self, slip, key)
            self._respelt[slip] = key

    def has(self, key: str, example: str) -> bool:
        """Whether a key that must be there is there; record that it is missing, once."""
        if key in self.values:
            return True
        self.spoil()
        if key not in self._meant and key not in self._missing:
            self._missing[key] = self._record("mend", f"has no {key}; add {key} = {example}")
        return False

    def text(self, key: str, example: str = '"..."') -> str:
        """Return a text that must be there and not empty."""
        if not self.has(key, example):
            return ""
        value = self.values[key]
        if isinstance(value, str) and value.strip():
            return value
        right = f"{key} = {example}"
        is_empty = isinstance(value, str)
        wrong = "is empty; write it like" if is_empty else "must be words in quotes, such as"
        self.refuse(key, f"{wrong} {right}")
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
        self.refuse(key, f"must be a list of words in quotes, such as {key} = {example}")
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
        return amounts.number(self, value, *keys)

    def length_mm(self, value: Any, *keys: str | int) -> float | None:
        """Return a length [mm], or None after recording what is wrong."""
        return amounts.length_mm(self, value, *keys)

    def size_mm(self, key: str) -> float:
        """Return a length above zero and at most 10 m that must be there [mm]."""
        return amounts.size_mm(self, key)

    def place_mm(self, key: str, example: str = "[0, 0, 0]") -> tuple[float, float, float]:
        """Return three lengths that must be there [mm]; the example is in mm."""
        return amounts.place_mm(self, key, example)

    def amount(self, value: Any, dimension: Dimension, *keys: str | int) -> float | None:
        """Return an amount in its base unit, or None after recording what is wrong."""
        return amounts.amount(self, value, dimension, *keys)

    def share(self, value: Any, *keys: str | int) -> float | None:
        """Return a share as a fraction of one, or None after recording what is wrong."""
        return amounts.share(self, value, *keys)

    def range(
        self,
        key: str,
        read: Callable[..., float | None],
        check: Callable[[float], str | None],
    ) -> Range | None:
        """Return a value or a range; see `amounts.value_range`."""
        return amounts.value_range(self, key, read, check)

    def is_one_number(self, key: str) -> bool:
        """Whether a key is given and its value is not a range, not even one of equal ends."""
        return key in self and not isinstance(self.values[key], list)

    def table(self, key: str, example: str) -> "Table | None":
        """Return a table in this one, or None after recording that it is none."""
        value = self.values[key]
        if isinstance(value, dict):
            return self.inner(value, (key,))
        right = f"{key} = {example}" if self.path else example
        self.refuse(key, f"must be written {right}")
        return None

    def tables(self, key: str, example: str) -> Iterator["Table"]:
        """Yield the tables of a list in this one; record what is none.

        A single table is told, and read on like a list of one.
        """
        value = self.values.get(key, [])
        if not isinstance(value, list):
            written = f"[{key}]" if isinstance(value, dict) and not self.path else shown_key(key)
            self.mend(f"{written} must be written {example}", key)
            self.context.unsure.add(key)
        if isinstance(value, dict):
            yield self.inner(value, (key,))
        for number, item in enumerate(value if isinstance(value, list) else ()):
            if isinstance(item, dict):
                yield self.inner(item, (key, number))
            else:
                self.refuse(key, f"must be written {example}", number)

    def inner(self, values: dict[str, Any], keys: tuple[str | int, ...]) -> "Table":
        """Return a table that stands in this one under some keys; mistakes spoil both."""
        first, *more = keys
        several = more and len(self.values.get(str(first), ())) > 1
        name = f"{first} {int(more[0]) + 1}" if several else str(first)
        path = (*self.path, *keys)
        return Table(values, path, self.where, self.context, outer=self, name=name)
