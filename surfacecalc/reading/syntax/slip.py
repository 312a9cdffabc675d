"""The position where the parser stopped, and what the text before it has open."""

import re
from dataclasses import dataclass
from functools import cached_property

from surfacecalc.reading.syntax.scan import Opened, Scan

PAIR = re.compile(r"^\s*([\w-]+)\s*=\s*(.*?)\s*$")
"""A line with a key and its value."""

Told = str | tuple[int, str] | None
"""What a rule says: the words, with their line where it is another one; None: it does not apply."""
_QUOTED = re.compile(r'"[^"]*"|\'[^\']*\'')


@dataclass(frozen=True)
class Slip:
    """Where the parser stopped.

    Attributes:
        text: the text, its lines ended by a line feed each.
        at: the position where the parser stopped, in characters from 0.
        number: its line, counted from 1.
        column: its column, counted from 1.
    """

    text: str
    at: int
    number: int
    column: int

    @cached_property
    def lines(self) -> list[str]:
        """The lines of the text."""
        return self.text.split("\n")

    @cached_property
    def before(self) -> Scan:
        """What the parser accepted, followed to the position where it stopped."""
        return Scan(self.text[: self.at])

    @property
    def line(self) -> str:
        """The line where the parser stopped."""
        return self.lines[self.number - 1]

    @property
    def sign(self) -> str:
        """The character at which the parser stopped, nothing at the end of the text."""
        return self.text[self.at : self.at + 1]

    @property
    def bracket(self) -> Opened | None:
        """The innermost bracket that is open."""
        return next((o for o in reversed(self.before.opened) if o.mark in "[{"), None)

    @property
    def quote(self) -> Opened | None:
        """The quote that is open."""
        inner = self.before.opened[-1:]
        return inner[0] if inner and inner[0].mark not in "[{" else None

    @property
    def starts_open(self) -> bool:
        """Whether a bracket or a quote from a line above is open."""
        return any(found.line < self.number for found in self.before.opened)

    @property
    def unit(self) -> str:
        """Unit that the file names, inches where it names none yet."""
        found = re.search(r'^\s*unit\s*=\s*"(\w+)"', self.text, re.MULTILINE)
        return found[1] if found else "in"


def without_quoted(line: str) -> str:
    """Return a line without its comment, with _ for all that is in quotes."""
    plain = _QUOTED.sub(lambda found: "_" * len(found[0]), line)
    return plain.split("#", maxsplit=1)[0]
