"""The one flow, from a piece file to a supply list. This module states the order of the stages.

piece file -> piece -> zones -> needs -> supplies
"""

from dataclasses import dataclass
from pathlib import Path

from surfacecalc.checks import notes_on_file, notes_on_measures
from surfacecalc.needs.draws import Draws
from surfacecalc.needs.jars import Jar, jars
from surfacecalc.needs.job import job_needs
from surfacecalc.pieces import Piece
from surfacecalc.problems import Problem
from surfacecalc.reading.piece import read_piece
from surfacecalc.supplies.shopping import Supply, SupplyError, supplies_of
from surfacecalc.zones.areas import Measured, measure


@dataclass(frozen=True)
class Reading:
    """A file that was read and measured.

    Attributes:
        piece: the piece, None where anything must be mended.
        measured: its areas, None where anything must be mended.
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
    return Reading(piece, measured, sorted(problems, key=lambda problem: problem.line or 0))


def jars_of(piece: Piece, measured: Measured) -> list[Jar]:
    """Return how far what is on hand goes in a measured piece."""
    draws = Draws()
    return jars(piece, job_needs(piece, measured, draws), draws)


def estimate(piece: Piece, measured: Measured) -> list[Supply] | Problem:
    """Return the supply list of a measured piece, or what must be mended for it."""
    try:
        draws = Draws()
        return supplies_of(piece, job_needs(piece, measured, draws), draws)
    except SupplyError as error:
        need = error.need
        known = piece.abrasives if need.what == "abrasive" else piece.products
        return Problem("mend", known[need.name].line, f'{need.what} "{need.name}"', str(error))
