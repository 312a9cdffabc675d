"""Decades and centuries as people say them: "the fifties", "50's", "1950s", "late 1800s"."""

import re
from dataclasses import dataclass

WORDS = {
    "twenties": 20, "thirties": 30, "forties": 40, "fifties": 50, "sixties": 60, "seventies": 70,
    "eighties": 80, "nineties": 90,
}  # fmt: skip
CENTURY = 1900
"""Decades without a century are those of the twentieth, when most furniture to refinish was made;
of the twenties that is also the older, and the safer one: lead was in paint."""
_BEFORE = (
    r"(?:about|around|circa|ca?\.?|~)?\s*(?:the\s+)?(?:early|mid|late|middle)?[\s-]*(?:the\s+)?"
)
_SAID = re.compile(
    rf"{_BEFORE}(?:(?P<year>\d{{3}}0)|['\u2019]?(?P<short>[2-9]0)|(?P<word>[a-z]+))"
    r"(?:['\u2019]?s)?\s*",
    re.IGNORECASE,
)
_PLURAL = re.compile(r"s\s*$", re.IGNORECASE)


@dataclass(frozen=True)
class Span:
    """Ten years, or a hundred.

    Attributes:
        first: the first of the years.
        middle: the one in the middle.
    """

    first: int
    middle: int


def span_of_years(text: str) -> Span | None:
    """Return the decade or the century that a text says, None where it says a year or neither.

    "1800s" is a century; "1900s" is taken for its first decade, which is the older.

    >>> span_of_years("the fifties"), span_of_years("1800s"), span_of_years("1950")
    (Span(first=1950, middle=1955), Span(first=1800, middle=1850), None)
    """
    said = _SAID.fullmatch(text.strip())
    if said is None or not _PLURAL.search(text):
        return None
    first = _first_year(said)
    if first is None:
        return None
    is_century = first % 100 == 0 and first < CENTURY
    return Span(first, first + (50 if is_century else 5))


def _first_year(said: re.Match[str]) -> int | None:
    if said["year"]:
        return int(said["year"])
    if said["short"]:
        return CENTURY + int(said["short"])
    tens = WORDS.get(said["word"].lower(), WORDS.get(f"{said['word'].lower()}s"))
    return None if tens is None else CENTURY + tens
