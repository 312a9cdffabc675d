"""A jar that was opened long ago: a note that what is left may not be good any more."""

from datetime import date, datetime

from surfacecalc import clock
from surfacecalc.reading.tables import Table

KEYS = ("opened", "keeps")
ASSUMED_KEEPS_H = 365 * 24.0
"""A year, assumed; labels say more."""
LONGEST_H = 100 * 365 * 24.0
H_IN_DAY = 24.0


def note_on_age(table: Table) -> None:
    """Record a note where a jar on hand was opened longer ago than it keeps."""
    keeps_h = _keeps_h(table)
    if "opened" not in table:
        if "keeps" in table:
            table.mend("has keeps, but not the day it was opened; add opened = 2026-03-01", "keeps")
        return
    value = table.values["opened"]
    if not isinstance(value, date):
        table.refuse("opened", "must be a date without quotes, such as 2026-03-01")
        return
    opened = value.date() if isinstance(value, datetime) else value
    age_days = (clock.now().date() - opened).days
    if age_days < 0:
        table.refuse("opened", "is in the future; check the date")
    elif keeps_h is not None and age_days * H_IN_DAY > keeps_h:
        assumed = "" if "keeps" in table else " (assumed)"
        table.note(
            f"was opened {age_days} days ago and keeps for {keeps_h / H_IN_DAY:.0f} days{assumed}:"
            " stir it, strain it and try it on scrap wood before you rely on it",
            "opened",
        )


def _keeps_h(table: Table) -> float | None:
    if "keeps" not in table:
        return ASSUMED_KEEPS_H
    keeps_h = table.amount(table.values["keeps"], "time", "keeps")
    if keeps_h is not None and not 0 < keeps_h <= LONGEST_H:
        table.refuse("keeps", "must be more than zero and at most 100 years")
    return keeps_h
