"""The commands that check a file, and show its areas and what to buy."""

import os
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from surfacecalc.commands.options import (
    MISTAKES,
    File,
    Files,
    Form,
    Json,
    Unit,
    UnitChoice,
    Why,
    all_measured_or_stop,
    form_of,
    measured_or_stop,
    say_next,
    stopping_at_mistakes,
    units_of,
)

if TYPE_CHECKING:
    from rich.console import Console

    from surfacecalc.model.pieces import Piece
    from surfacecalc.reports.arithmetic import AsWritten
    from surfacecalc.supplies.shopping import Supply
    from surfacecalc.units.display import Units


def check(file: File, json: Json = False) -> None:
    """List every mistake in a piece file, and what to look at again.

    Example: surfacecalc check examples/writing-table.toml
    """
    from surfacecalc import api
    from surfacecalc.problems import has_mistakes
    from surfacecalc.reports.exports import problems_json
    from surfacecalc.reports.screen import console, print_problems

    problems = api.check(api.read_piece(file))
    if json:
        typer.echo(problems_json(problems))
    else:
        print_problems(console(), problems, str(file))
        if not has_mistakes(problems):
            typer.echo(verdict(len(problems)))
        elif not os.path.isfile(file):  # unlike the path's own method, it raises nothing
            say_next(file)
    if has_mistakes(problems):
        raise typer.Exit(MISTAKES)


def verdict(notes: int) -> str:
    """Return what `check` says of a file without mistakes, after its notes."""
    above = f" {notes} note{'s' * (notes > 1)} above." if notes else ""
    return f"No mistakes.{above}"


def areas(
    files: Files,
    json: Json = False,
    unit: Unit = None,
    faces: Annotated[bool, typer.Option("--faces", help="List every face too.")] = False,
) -> None:
    """Show the exposed area of each finish zone.

    It also shows the length of the lines where zones meet.

    With several files, the answers come in the order of the files; --json puts them in one list
    called "files".

    Example: surfacecalc areas examples/writing-table.toml --faces
    """
    if len(files) == 1:
        areas_of(files[0], json=json, unit=unit, faces=faces)
        return
    from functools import partial

    from surfacecalc.commands.many_files import work_on_each
    from surfacecalc.reports.exports import files_json

    work = partial(areas_of, json=json, unit=unit, faces=faces)
    answers = list(work_on_each(work, files))
    if json:
        typer.echo(files_json([(str(answer.file), answer.output) for answer in answers]))
    for answer in () if json else answers:
        typer.echo(answer.output + "\n" * bool(answer.output), nl=False)
        typer.echo(answer.errors, nl=False, err=True)
    raise typer.Exit(max(answer.code for answer in answers))


def areas_of(file: Path, *, json: bool, unit: UnitChoice | None, faces: bool) -> None:
    """Print the areas of one file."""
    from surfacecalc.reports.exports import areas_json
    from surfacecalc.reports.screen import console, print_areas, print_problems

    job = measured_or_stop(file, json=json)
    piece, measured, notes = job.piece, job.measured, job.notes
    if json:
        typer.echo(areas_json(piece, measured))
        return
    out = console()
    print_areas(out, piece, measured, units_of(unit, piece), faces=faces)
    if notes:
        out.print()
        print_problems(out, notes, str(file))


def supplies(
    files: Files,
    json: Json = False,
    csv: Annotated[
        bool, typer.Option("--csv", help="Print CSV for a spreadsheet, in metric units.")
    ] = False,
    why: Why = False,
    unit: Unit = None,
) -> None:
    """Show what to buy: how much, in which packs, at what cost.

    With several files you get one list; the pieces share packs and mixes.

    Example: surfacecalc supplies examples/writing-table.toml --why
    """
    form = form_of(json=json, csv=csv)
    if len(files) == 1:
        _supplies_of(files[0], form, why=why, unit=unit)
    else:
        _supplies_together(files, form, why=why, unit=unit)


def _supplies_of(file: Path, form: Form, *, why: bool, unit: UnitChoice | None) -> None:
    """Print the supply list of one piece."""
    from surfacecalc import api
    from surfacecalc.reports.exports import supplies_json
    from surfacecalc.reports.gear_screen import print_needed_too
    from surfacecalc.reports.safety_screen import print_safety
    from surfacecalc.reports.screen import (
        console,
        print_problems,
        print_supplies,
    )
    from surfacecalc.reports.spreadsheets import supplies_csv

    job = measured_or_stop(file, json=form == "json")
    piece, notes = job.piece, job.notes
    with stopping_at_mistakes(json=form == "json"):
        found = api.supplies(job)
    if form == "json":
        typer.echo(supplies_json(piece, found, api.cautions(job), api.needed_too(job)))
    elif form == "csv":
        typer.echo(supplies_csv(piece, found), nl=False)
    else:
        out, units = console(), units_of(unit, piece)
        print_supplies(out, piece, found, units)
        _say_why(out, piece, found, units, why=why)
        print_needed_too(out, api.needed_too(job), piece.settings.currency, why=why)
        print_safety(out, api.cautions(job), [file])
        if notes:
            out.print()
            print_problems(out, notes, str(file))


def _supplies_together(
    files: list[Path], form: Form, *, why: bool, unit: UnitChoice | None
) -> None:
    """Print one supply list for several pieces."""
    from surfacecalc import api
    from surfacecalc.reports.exports import trip_json
    from surfacecalc.reports.gear_screen import print_needed_too
    from surfacecalc.reports.safety_screen import print_safety
    from surfacecalc.reports.screen import console, print_problems
    from surfacecalc.reports.spreadsheets import trip_csv
    from surfacecalc.reports.trip_screen import print_trip

    jobs = all_measured_or_stop(files, json=form == "json")
    with stopping_at_mistakes(json=form == "json"):
        trip = api.supplies_together(jobs)
    found = api.cautions(*jobs)
    if form == "json":
        typer.echo(trip_json(trip, found, api.needed_too(*jobs)))
    elif form == "csv":
        typer.echo(trip_csv(trip), nl=False)
    else:
        out, units = console(), units_of(unit, jobs[0].piece)
        print_trip(out, trip, units)
        _say_why(out, trip.piece, trip.supplies, units, trip.as_written, why=why)
        print_needed_too(out, api.needed_too(*jobs), trip.piece.settings.currency, why=why)
        print_safety(out, found, files)
        for job in jobs:
            if job.notes:
                out.print()
                print_problems(out, job.notes, str(job.file))


def _say_why(
    out: "Console",
    piece: "Piece",
    supplies: "list[Supply]",
    units: "Units",
    as_written: "AsWritten | None" = None,
    *,
    why: bool,
) -> None:
    """Print the assumed figures that matter most, or how every number was worked out."""
    from surfacecalc.prices.assumed_figures import figures_of_supplies
    from surfacecalc.reports.assumed_screen import print_all_assumed, print_assumed
    from surfacecalc.reports.screen import print_why

    figures = [one.factor for one in figures_of_supplies(piece, supplies)]
    if not why:
        print_assumed(out, figures, units, mark="* ")
        return
    print_why(out, piece, supplies, units, as_written)
    print_all_assumed(out, figures, units)


def jars_on_hand(file: File, json: Json = False, unit: Unit = None) -> None:
    """Show whether the jars you have are enough.

    For each coat you see the chance that the jar lasts. Jars that are parts of a mix are counted
    as the batch that they make.

    Example: surfacecalc jars examples/linen-cupboard.toml
    """
    from surfacecalc import api
    from surfacecalc.reports.jars_json import jars_json
    from surfacecalc.reports.jars_screen import print_jars
    from surfacecalc.reports.screen import console

    job = measured_or_stop(file, json=json)
    piece, found, mixes = job.piece, api.jars(job), api.mixes_on_hand(job)
    if json:
        typer.echo(jars_json(piece, found, mixes))
    else:
        print_jars(console(), piece, found, mixes, units_of(unit, piece))


def kinds_known(
    json: Json = False,
    unit: Annotated[
        UnitChoice | None, typer.Option("--unit", help="Units to show (default: metric).")
    ] = None,
) -> None:
    """Show the built-in kinds of product and their usual figures.

    Example: surfacecalc kinds --unit us
    """
    from surfacecalc.reports.kinds_screen import kinds_json, print_kinds
    from surfacecalc.reports.screen import console
    from surfacecalc.units.display import Units

    if json:
        typer.echo(kinds_json())
    else:
        print_kinds(console(), Units(unit.value) if unit else Units.METRIC)
