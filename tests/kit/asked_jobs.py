"""What the program answers about a piece file, asked at its one door for programs.

It knows nothing of how an answer is made, so that jobs worked out by hand can be held against it.
"""

from datetime import datetime
from typing import TYPE_CHECKING

from surfacecalc import api

if TYPE_CHECKING:
    from surfacecalc.plans.plan import Plan, PlanEntry
    from surfacecalc.prices.quotes import Quote
    from surfacecalc.supplies.shopping import Supply

SATURDAY = datetime(2026, 11, 28, 9, 0)


def asked_job(text: str) -> api.MeasuredPiece:
    """Return the measured piece of a text that has no mistake."""
    reading = api.read_piece_text(text)
    assert reading.piece is not None, reading.lines
    return api.measure(reading)


def asked_supplies(text: str) -> "dict[str, Supply]":
    """Return the lines of the supply list by their title, such as "pad P320"."""
    return {line.title: line for line in api.supplies(asked_job(text))}


def asked_plan(text: str, start: datetime = SATURDAY) -> "Plan":
    """Return the plan, from Saturday 28 November 2026 at 9:00 on."""
    return api.plan(asked_job(text), start)


def asked_entries(text: str) -> "list[PlanEntry]":
    """Return what the plan has to do, in its order."""
    return list(asked_plan(text).entries)


def asked_quote(text: str) -> "Quote":
    """Return the quote."""
    return api.quote(asked_job(text))
