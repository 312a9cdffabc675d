"""The one flow from measured pieces to a sheet, and its name."""

import os
from pathlib import Path

from surfacecalc import api
from surfacecalc.api import MeasuredPiece
from surfacecalc.sheets.client_sheet import client_sheet
from surfacecalc.sheets.pdf.printing import is_printed_sheet
from surfacecalc.sheets.sheet_frame import Paper, is_sheet
from surfacecalc.sheets.shop_sheet import shop_sheet
from surfacecalc.sheets.trip_sheet import trip_sheet
from surfacecalc.units.display import Units


def sheet_of(job: MeasuredPiece, units: Units, paper: Paper, *, for_client: bool) -> str:
    """Return the sheet of one piece as HTML.

    Raises:
        MistakesError: its plan, its list or its price is not possible.
    """
    piece, measured = job.piece, job.measured
    if for_client:
        told = api.quote(job) if piece.pricing else None
        return client_sheet(piece, measured, api.plan(job), told, units, paper)
    return shop_sheet(piece, measured, api.supplies(job), api.plan(job), job.notes, units, paper)


def combined_sheet(jobs: list[MeasuredPiece], units: Units, paper: Paper) -> str:
    """Return the list of several pieces as HTML.

    Raises:
        MistakesError: no list of all pieces is possible.
    """
    return trip_sheet(jobs, api.supplies_together(jobs), units, paper)


def target_for(files: list[Path], *, for_client: bool, as_pdf: bool = False) -> Path:
    """Return where a sheet goes that was given no name: beside the first piece file.

    >>> target_for([Path("a/shelf.toml")], for_client=True).as_posix()
    'a/shelf-client.html'
    """
    first = files[0]
    ending = "-client" if for_client else ""
    if len(files) > 1:
        ending = f"-and-{len(files) - 1}-more"
    return first.parent / f"{first.stem or 'piece'}{ending}{'.pdf' if as_pdf else '.html'}"


def is_another_file(target: Path) -> bool:
    """Whether a file stands there that is no sheet, such as a page to turn the piece on.

    What is no ordinary file, such as a pipe, is not waited for; writing tells of it.
    """
    if not os.path.isfile(target):
        return False
    is_ours = is_printed_sheet if target.suffix.lower() == ".pdf" else is_sheet
    try:
        return not is_ours(target.read_bytes())
    except OSError:  # it cannot be read: nobody knows what it is
        return True
