"""What is wrong with a piece file, or worth a second look: values, not exceptions."""

import difflib
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

Level = Literal["mend", "note"]

TAKEN_FOR_IT = 0.7
"""Share of letters in common from which a word is taken for another; 0.6 is enough to ask."""


@dataclass(frozen=True)
class Problem:
    """One mistake or note.

    Attributes:
        level: "mend", no number may be made before it is corrected; "note", worth knowing.
        line: line of the piece file, None where there is none (a missing file).
        where: what it is about, such as 'part "leg"'; may be empty.
        message: what was found and what would be right.
        file: where it is, if not in the piece file; else empty.
    """

    level: Level
    line: int | None
    where: str
    message: str
    file: str = ""


def format_problem(problem: Problem, file: str) -> str:
    """Return a problem as one line: file:line: where: message."""
    stands_in = problem.file or file
    place = stands_in if problem.line is None else f"{stands_in}:{problem.line}"
    parts = [place, "note" if problem.level == "note" else "", problem.where, problem.message]
    return ": ".join(printable(part) for part in parts if part)


def has_mistakes(problems: Iterable[Problem]) -> bool:
    """Whether any problem must be corrected before a number may be made."""
    return any(problem.level == "mend" for problem in problems)


def nearest(word: str, known: Iterable[str]) -> str | None:
    """Return the known word that is spelled most like a word, or None.

    >>> nearest("ta", ["on", "at"])
    'at'
    """
    by_lower = {text.lower(): text for text in known}
    lower = word.lower()
    if lower in by_lower:
        return by_lower[lower]
    swapped = next((text for text in by_lower if _is_swapped(lower, text)), None)
    if swapped is not None:
        return by_lower[swapped]
    near = difflib.get_close_matches(lower, by_lower, n=1, cutoff=0.6)
    return by_lower[near[0]] if near else None


def is_close(word: str, meant: str) -> bool:
    """Whether a word is so like another that it may be taken for it, not only asked about."""
    return is_slip(word, meant) or (
        difflib.SequenceMatcher(None, word, meant).ratio() >= TAKEN_FOR_IT
    )


def is_slip(word: str, meant: str) -> bool:
    """Whether one letter more, less or other, or two that changed places, make the difference."""
    if word == meant or abs(len(word) - len(meant)) > 1:
        return False
    if _is_swapped(word, meant):
        return True
    same = next(
        (k for k, (one, other) in enumerate(zip(word, meant, strict=False)) if one != other),
        min(len(word), len(meant)),
    )
    return any(
        word[same + more :] == meant[same + less :] for more, less in ((1, 0), (0, 1), (1, 1))
    )


def _is_swapped(word: str, meant: str) -> bool:
    """Whether two neighbouring letters have changed places, and nothing else differs."""
    if len(word) != len(meant):
        return False
    unlike = [k for k, (one, other) in enumerate(zip(word, meant, strict=True)) if one != other]
    if len(unlike) != 2 or unlike[1] != unlike[0] + 1:
        return False
    first, second = unlike
    return word[first] == meant[second] and word[second] == meant[first]


def suggestion(word: str, known: Iterable[str]) -> str:
    """Return 'did you mean "x"?', or what there is to choose from."""
    known = list(dict.fromkeys(known))
    near = nearest(word, known) if word else None
    if near is not None:
        return f'did you mean "{near}"?'
    if not known:
        return "the file has none yet"
    return f"use one of {listing(known)}" if len(known) > 1 else f'the only one is "{known[0]}"'


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
