"""The one flow from measured pieces to a sheet, its name, and what must be fixed first."""

import os
from pathlib import Path

from surfacecalc import clock
from surfacecalc.estimate import CheckedFile, estimate, estimate_together, plan_of
from surfacecalc.plans.tasks import hands_on_h
from surfacecalc.prices.quotes import quote
from surfacecalc.problems import Problem
from surfacecalc.sheets.client_sheet import client_sheet
from surfacecalc.sheets.pdf.printing import is_printed_sheet
from surfacecalc.sheets.sheet_frame import Paper, SheetPage, is_sheet
from surfacecalc.sheets.shop_sheet import shop_sheet
from surfacecalc.sheets.trip_sheet import trip_sheet
from surfacecalc.units.display import Units


def sheet_of(
    job: CheckedFile, units: Units, paper: Paper, *, for_client: bool
) -> SheetPage | list[Problem]:
    """Return the sheet of one piece, or what must be fixed first."""
    piece, measured = job.piece, job.measured
    supplies = estimate(piece, measured)
    if isinstance(supplies, Problem):
        return [supplies]
    plan = plan_of(piece, measured, clock.now())
    if isinstance(plan, list):
        return plan
    if not for_client:
        return shop_sheet(piece, measured, supplies, plan, job.notes, units, paper)
    found = quote(piece, supplies, hands_on_h(piece, measured)) if piece.pricing else None
    if isinstance(found, Problem):
        return [found]
    return client_sheet(piece, measured, plan, found, units, paper)


def combined_sheet(
    jobs: list[CheckedFile], units: Units, paper: Paper
) -> SheetPage | list[Problem]:
    """Return the list of several pieces, or what must be fixed first."""
    trip = estimate_together(jobs)
    if isinstance(trip, Problem):
        return [trip]
    return trip_sheet(jobs, trip, units, paper)


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
