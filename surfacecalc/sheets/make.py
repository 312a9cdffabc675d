"""The one flow from measured pieces to a sheet, and its name."""

import os
from pathlib import Path

from surfacecalc import api
from surfacecalc.api import MeasuredPiece
from surfacecalc.sheets.bench_words import bench_lines
from surfacecalc.sheets.client_sheet import client_sheet
from surfacecalc.sheets.pdf.printing import is_printed_sheet
from surfacecalc.sheets.sheet_frame import Paper, SheetPage, is_sheet
from surfacecalc.sheets.shop_sheet import shop_sheet
from surfacecalc.sheets.trip_sheet import trip_sheet
from surfacecalc.units.display import Units


def sheet_of(job: MeasuredPiece, units: Units, paper: Paper, *, for_client: bool) -> SheetPage:
    """Return the sheet of one piece.

    Raises:
        MistakesError: its plan, its list or its price is not possible.
    """
    piece, measured = job.piece, job.measured
    if for_client:
        price = api.quote(job) if piece.pricing else None
        return client_sheet(piece, measured, api.plan(job), price, units, paper)
    bought, made = api.supplies(job), api.plan(job)
    bench = bench_lines(api.bench(job, made, bought), units)
    return shop_sheet(piece, measured, bought, made, bench, job.notes, units, paper)


def combined_sheet(jobs: list[MeasuredPiece], units: Units, paper: Paper) -> SheetPage:
    """Return the list of several pieces.

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
    """Whether there is a file that is not a sheet, such as a page to turn the piece on.

    What is not an ordinary file, such as a pipe, is not waited for; writing says so.
    """
    if not os.path.isfile(target):
        return False
    is_ours = is_printed_sheet if target.suffix.lower() == ".pdf" else is_sheet
    try:
        return not is_ours(target.read_bytes())
    except OSError:  # it cannot be read: nobody knows what it is
        return True
