"""Questions that are answered in words: the name, the year, the currency."""

import re
import time

from surfacecalc.problems import printable
from surfacecalc.starting.answers import Answer, AnswerError, Doubt, Question
from surfacecalc.starting.measurements import UNUSUAL

LONGEST_NAME = 60
EARLIEST_YEAR, USUAL_FROM = 1000, 1700
"""Years taken at all, and those that furniture in use is usually from (assumed)."""
UNKNOWN = "unknown"
ABOUT = re.compile(r"(?:about|around|circa|ca?\.?|~)?\s*([0-9]{4})s?", re.IGNORECASE)
"""A year as people say it: about 1930, c. 1930, the 1930s; of ten years the first."""


def name_question(title: str) -> Question:
    """Return the question what the piece is called."""
    told = ("What shall it be called? The name stands above every list.",)
    explained = 'Any words, such as "Aunt\'s dresser". The file gets a name like it.'
    return Question("name", "the name", "--name", title, told, "Name", title, _read_name, explained)


def _read_name(text: str) -> Answer:
    name = " ".join(text.split())
    if not name or len(name) > LONGEST_NAME:
        raise AnswerError(f"a name has 1 to {LONGEST_NAME} letters")
    if printable(name) != name:
        raise AnswerError("a name has no control characters")
    return Answer(name, name)


def built_question() -> Question:
    """Return the question when the piece was made."""
    told = ("In which year was it made, about? Old coatings may hold lead.",)
    prompt = f"Year, or {UNKNOWN}"
    return Question(
        "built",
        "the year",
        "--built",
        "1950",
        told,
        prompt,
        UNKNOWN,
        _read_year,
        f"A year, also as 1930s or about 1930. With {UNKNOWN} it counts as old enough for lead in"
        " its coatings.",
    )


def _read_year(text: str) -> Answer:
    if text.lower() == UNKNOWN:
        return Answer(UNKNOWN, UNKNOWN)
    this_year = time.localtime().tm_year
    said = ABOUT.fullmatch(text)
    if said is None or not EARLIEST_YEAR <= int(said[1]) <= this_year:
        raise AnswerError(
            f'"{text}" is no year from {EARLIEST_YEAR} to {this_year}, such as 1930; if it is not'
            f" known, answer {UNKNOWN}"
        )
    year = said[1]
    if int(year) < USUAL_FROM:
        found = f"{year} is unusual (usually {USUAL_FROM} to {this_year})"
        return Answer(year, year, Doubt(found, "Take it all the same?", UNUSUAL))
    return Answer(year, year)


def currency_question(unit: str) -> Question:
    """Return the question which currency prices are in."""
    told = ("Which currency are prices in? A code of three letters, or none.",)
    proposed = "USD" if unit == "in" else "EUR"
    return Question(
        "currency",
        "the currency",
        "--currency",
        "USD",
        told,
        "Currency",
        proposed,
        _read_currency,
        "What the prices in the file count in, such as USD, EUR or GBP; none writes no currency.",
    )


def _read_currency(text: str) -> Answer:
    if text.lower() == "none":
        return Answer("", "none")
    code = text.upper()
    if len(code) == 3 and code.isascii() and code.isalpha():
        return Answer(code, code)
    raise AnswerError(f'"{text}" is no code of three letters, such as USD or EUR')
