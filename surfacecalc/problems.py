"""What is wrong with a piece file, or worth a second look: values, not exceptions."""

import difflib
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

Level = Literal["mend", "note"]


@dataclass(frozen=True)
class Problem:
    """One mistake or remark.

    Attributes:
        level: "mend", no number may be made before it is mended; "note", worth knowing.
        line: line of the piece file, None where there is none (a missing file).
        where: what it is about, such as 'part "leg"'; may be empty.
        message: what was found and what would be right.
    """

    level: Level
    line: int | None
    where: str
    message: str


def format_problem(problem: Problem, file: str) -> str:
    """Return a problem as one line: file:line: where: message."""
    place = file if problem.line is None else f"{file}:{problem.line}"
    parts = [place, "note" if problem.level == "note" else "", problem.where, problem.message]
    return ": ".join(printable(part) for part in parts if part)


def has_mistakes(problems: Iterable[Problem]) -> bool:
    """Whether any problem must be mended before a number may be made."""
    return any(problem.level == "mend" for problem in problems)


def nearest(word: str, known: Iterable[str]) -> str | None:
    """Return the known word that is spelled most like a word, or None."""
    by_lower = {text.lower(): text for text in known}
    near = difflib.get_close_matches(word.lower(), by_lower, n=1, cutoff=0.6)
    return by_lower[near[0]] if near else None


def suggestion(word: str, known: Iterable[str]) -> str:
    """Return 'did you mean "x"?', or the list of what is known."""
    known = list(known)
    near = nearest(word, known) if word else None
    if near is not None:
        return f'did you mean "{near}"?'
    return f"known are {listing(known)}" if known else "there are none"


def listing(words: Iterable[str], most: int = 12) -> str:
    """Return words as a list to read, cut short where it is long."""
    words = list(words)
    more = f" and {len(words) - most} more" if len(words) > most else ""
    return ", ".join(words[:most]) + more


def printable(text: str) -> str:
    r"""Return text with everything that could move a cursor or hide text spelled out.

    >>> printable("a\x1b[31m\nb")
    'a\\x1b[31m\\nb'
    """
    return "".join(
        sign.encode("unicode_escape").decode() if unicodedata.category(sign)[0] == "C" else sign
        for sign in text.replace("\u2028", "\n").replace("\u2029", "\n")
    )
