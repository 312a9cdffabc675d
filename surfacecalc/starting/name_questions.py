"""Questions that are answered in words: the name, the year, the currency."""

import re
import time
from collections.abc import Callable

from surfacecalc.catalogue.lead_bans import LATEST
from surfacecalc.model.pieces import EARLIEST_YEAR
from surfacecalc.problems import printable
from surfacecalc.starting.answers import Answer, AnswerError, Doubt, Question
from surfacecalc.starting.choices import choice_reader
from surfacecalc.starting.decades import span_of_years
from surfacecalc.starting.finishes import STRIPPING
from surfacecalc.starting.measurements import UNUSUAL
from surfacecalc.starting.wordings import WORDINGS
from surfacecalc.units.coins import is_code, is_currency

LONGEST_NAME = 60
USUAL_FROM = 1700
"""The year from which furniture in use usually is (assumed)."""
UNKNOWN = "unknown"
ABOUT = re.compile(r"(?:about|around|circa|ca?\.?|~)?\s*([0-9]{4})", re.IGNORECASE)
"""A year as people say it: about 1930, c. 1930."""
CURRENCIES = {
    "USD": ("$", "us$", "dollar", "dollars", "us dollar", "us dollars"),
    "EUR": ("\u20ac", "euro", "euros"),
    "GBP": ("\u00a3", "pound", "pounds", "sterling", "pounds sterling"),
    "CAD": ("c$", "can$", "canadian dollar", "canadian dollars"),
    "AUD": ("a$", "au$", "australian dollar", "australian dollars"),
}
"""What people call a currency, by its code."""
_CODES = {word: code for code, words in CURRENCIES.items() for word in words}


def name_question(title: str) -> Question:
    """Return the question what the piece is called."""
    return _question("name", "the name", title, title, _read_name)


def _question(
    key: str, wanted: str, example: str, proposed: str, read: Callable[[str], Answer]
) -> Question:
    said = WORDINGS[key]
    return Question(
        key, wanted, f"--{key}", example, (said.before,), said.prompt, proposed, read, said.help
    )


def _read_name(text: str) -> Answer:
    name = " ".join(text.split())
    if not name or len(name) > LONGEST_NAME:
        raise AnswerError(f"a name must have 1 to {LONGEST_NAME} letters")
    if printable(name) != name:
        raise AnswerError("a name cannot contain control characters")
    return Answer(name, name)


def built_question() -> Question:
    """Return the question when the piece was made."""
    return _question("built", "the year", "1950", UNKNOWN, _read_year)


def _read_year(text: str) -> Answer:
    if text.lower() == UNKNOWN:
        return Answer(UNKNOWN, UNKNOWN)
    this_year = time.localtime().tm_year
    span = span_of_years(text)
    if span is not None and EARLIEST_YEAR <= span.middle <= this_year:
        year = str(span.middle)
        return Answer(year, year, taken_as=f"{year}, the middle of the {span.first}s")
    said = ABOUT.fullmatch(text)
    if said is None or not EARLIEST_YEAR <= int(said[1]) <= this_year:
        raise AnswerError(
            f'"{text}" is not a year between {EARLIEST_YEAR} and {this_year}; type one such as'
            f" 1930, or {UNKNOWN}"
        )
    year = said[1]
    if int(year) < USUAL_FROM:
        found = f"{year} is unusual (usually {USUAL_FROM} to {this_year})"
        return Answer(year, year, Doubt(found, "Use it anyway?", UNUSUAL))
    return Answer(year, year)


def stripping_question(built: str) -> Question:
    """Return the question how the old finish comes off.

    Args:
        built: the year that was answered, or "unknown".
    """
    said = WORDINGS["stripping"]
    proposed = "stripper" if may_have_lead(built) else "sanding"
    return Question(
        "stripping", "how the old finish comes off", "--stripping", "stripper", (said.before,),
        said.prompt, proposed, choice_reader(STRIPPING), said.help, STRIPPING, is_listed=True,
    )  # fmt: skip


def may_have_lead(built: str) -> bool:
    """Whether coatings of a year may contain lead, wherever the piece was made."""
    return not built.isdigit() or int(built) <= LATEST.year


def currency_question(unit: str) -> Question:
    """Return the question which currency prices are in."""
    proposed = "USD" if unit == "in" else "EUR"
    return _question("currency", "the currency", "USD", proposed, _read_currency)


def _read_currency(text: str) -> Answer:
    if text.lower() == "none":
        return Answer("", "none")
    if text.lower() in ("no", "non"):
        raise AnswerError(f'"{text}" is not a currency; did you mean "none"?')
    code = _CODES.get(" ".join(text.lower().split()), text.upper())
    if is_currency(code):
        return Answer(code, code)
    if is_code(code):
        raise AnswerError(f'"{text}" is not the code of a currency; type one such as USD or EUR')
    raise AnswerError(f'"{text}" is not a three-letter code such as USD or EUR')
