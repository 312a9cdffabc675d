"""The one flow, from a piece file to a supply list. This module states the order of the stages.

piece file -> piece -> zones -> needs -> supplies
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from surfacecalc.checks import notes_on_file, notes_on_measures
from surfacecalc.model.pieces import Piece
from surfacecalc.model.shelf import record_file
from surfacecalc.needs.draws import Draws
from surfacecalc.needs.job import job_needs
from surfacecalc.needs.uses import Need
from surfacecalc.problems import Problem
from surfacecalc.reading.piece_file import read_piece
from surfacecalc.supplies.shopping import Supply, SupplyError, supplies_of
from surfacecalc.zones.areas import Measured, measure

if TYPE_CHECKING:  # imported where they are made, so that a supply list starts without them
    from surfacecalc.needs.jars import Jar
    from surfacecalc.plans.plan import Plan
    from surfacecalc.supplies.together import Trip


@dataclass(frozen=True)
class Reading:
    """A file that was read and measured.

    Attributes:
        piece: the piece, None where it has mistakes.
        measured: its areas, None where it has mistakes.
        problems: mistakes and notes, in the order of the file.
    """

    piece: Piece | None
    measured: Measured | None
    problems: list[Problem]


def read_and_measure(path: Path) -> Reading:
    """Read a piece file and measure the piece; mistakes are in the answer, not raised."""
    piece, problems = read_piece(path)
    if piece is None:
        return Reading(None, None, problems)
    measured = measure(piece)
    problems = [*problems, *notes_on_file(piece), *notes_on_measures(piece, measured)]
    problems.sort(key=lambda problem: (problem.file, problem.line or 0))
    return Reading(piece, measured, problems)


def jars_of(piece: Piece, measured: Measured) -> "list[Jar]":
    """Return how far what is on hand goes in a measured piece."""
    from surfacecalc.needs.jars import jars

    draws = Draws()
    return jars(piece, job_needs(piece, measured, draws), draws)


def estimate(piece: Piece, measured: Measured) -> list[Supply] | Problem:
    """Return the supply list of a measured piece, or the mistake that prevents it."""
    try:
        draws = Draws()
        return supplies_of(piece, job_needs(piece, measured, draws), draws)
    except SupplyError as error:
        need = error.need
        line, file = _place_of(piece, need)
        return Problem("mend", line, f'{need.what} "{need.name}"', str(error), file)


@dataclass(frozen=True)
class CheckedFile:
    """A file without mistakes.

    Attributes:
        file: its path.
        piece: its piece.
        measured: the areas of it.
        notes: the notes on it.
    """

    file: Path
    piece: Piece
    measured: Measured
    notes: tuple[Problem, ...] = ()


def estimate_together(jobs: Sequence[CheckedFile]) -> "Trip | Problem":
    """Return what several measured pieces need together, or the mistake that prevents it."""
    from surfacecalc.supplies.together import together

    priced = [job for job in jobs if job.piece.settings.currency]
    for job in priced[1:]:
        currency, first = job.piece.settings.currency, priced[0].piece.settings.currency
        if currency != first:
            message = (
                f'the prices here are in {currency}, but in "{priced[0].file}" they are in {first};'
                " make a separate list for each currency"
            )
            return Problem("mend", None, "currency", message, str(job.file))
    try:
        return together([(job.piece, job.measured) for job in jobs])
    except SupplyError as error:
        where = f'{error.need.what} "{error.need.name}"'
        return Problem("mend", None, where, str(error), str(jobs[0].file))


def _place_of(piece: Piece, need: Need) -> tuple[int | None, str]:
    """Return the line, and the file where it is the user's own, that say in what a need is sold."""
    found = piece.shelf.find(need.supplied)
    return (found.line, record_file(found)) if found else (None, "")


def plan_of(piece: Piece, measured: Measured, now: datetime) -> "Plan | list[Problem]":
    """Return what to do when in a measured piece, or the mistake that prevents it.

    Args:
        piece: the piece.
        measured: its areas.
        now: when the work may begin if the file does not say.
    """
    from surfacecalc.plans.plan import make_plan

    return make_plan(piece, measured, now)
