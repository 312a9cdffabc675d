"""Where the standard parser stopped."""

import re
from dataclasses import dataclass

PAIR = re.compile(r"^\s*([\w-]+)\s*=\s*(.*?)\s*$")
"""A line with a key and its value."""

Told = str | tuple[int, str] | None
"""What a rule says: the words, with their line where it is another one; None: it does not apply."""


@dataclass(frozen=True)
class Slip:
    """Where the parser stopped.

    Attributes:
        said: what it said.
        lines: the lines of the file.
        number: the line where it stopped, counted from 1.
        column: the column there, 0 at the end of the file.
    """

    said: str
    lines: list[str]
    number: int
    column: int

    @property
    def line(self) -> str:
        """The line where the parser stopped."""
        return self.lines[self.number - 1]

    @property
    def unit(self) -> str:
        """Unit that the file names, inches where it names none yet."""
        found = re.search(r'^\s*unit\s*=\s*"(\w+)"', "\n".join(self.lines), re.MULTILINE)
        return found[1] if found else "in"
