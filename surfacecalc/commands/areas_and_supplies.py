"""The commands that check a file and list what it takes."""

import os
from pathlib import Path
from typing import Annotated

import typer

from surfacecalc.commands.options import (
    TO_MEND,
    File,
    Files,
    Form,
    Json,
    Unit,
    UnitChoice,
    all_measured_or_stop,
    form_of,
    measured_or_stop,
    say_next,
    stopping_at_mistakes,
    units_of,
)


def check(file: File, json: Json = False) -> None:
    """List every mistake in a piece file, and what is worth a second look.

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
            typer.echo("Nothing to mend.")
        elif not os.path.isfile(file):  # unlike the path's own method, it raises nothing
            say_next(file)
    if has_mistakes(problems):
        raise typer.Exit(TO_MEND)


def areas(
    files: Files,
    json: Json = False,
    unit: Unit = None,
    faces: Annotated[bool, typer.Option("--faces", help="List every face as well.")] = False,
) -> None:
    """Show the exposed area of each zone, and how far zones meet.

    With more than one file the work is spread over the cores; with --json each file's object
    stands in a list under "files".

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
    csv: Annotated[bool, typer.Option("--csv", help="Print the list as CSV, metric.")] = False,
    why: Annotated[bool, typer.Option("--why", help="Show how each number was made.")] = False,
    unit: Unit = None,
) -> None:
    """Show what to buy: need, what is on hand, packs, cost.

    With more than one file: one list, packs and mixes shared across the pieces.

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
    from surfacecalc.reports.screen import (
        console,
        print_cautions,
        print_problems,
        print_supplies,
        print_why,
    )
    from surfacecalc.reports.spreadsheets import supplies_csv

    job = measured_or_stop(file, json=form == "json")
    piece, notes = job.piece, job.notes
    with stopping_at_mistakes(file, json=form == "json"):
        found = api.supplies(job)
    if form == "json":
        typer.echo(supplies_json(piece, found, api.cautions(job)))
    elif form == "csv":
        typer.echo(supplies_csv(piece, found), nl=False)
    else:
        out, units = console(), units_of(unit, piece)
        print_supplies(out, piece, found, units)
        if why:
            print_why(out, piece, found, units)
        print_cautions(out, api.cautions(job))
        if notes:
            out.print()
            print_problems(out, notes, str(file))


def _supplies_together(
    files: list[Path], form: Form, *, why: bool, unit: UnitChoice | None
) -> None:
    """Print one supply list for several pieces."""
    from surfacecalc import api
    from surfacecalc.reports.exports import trip_json
    from surfacecalc.reports.screen import console, print_cautions, print_problems, print_why
    from surfacecalc.reports.spreadsheets import trip_csv
    from surfacecalc.reports.trip_screen import print_trip

    jobs = all_measured_or_stop(files, json=form == "json")
    with stopping_at_mistakes(files[0], json=form == "json"):
        trip = api.supplies_together(jobs)
    found = api.cautions(*jobs)
    if form == "json":
        typer.echo(trip_json(trip, found))
    elif form == "csv":
        typer.echo(trip_csv(trip), nl=False)
    else:
        out, units = console(), units_of(unit, jobs[0].piece)
        print_trip(out, trip, units)
        if why:
            print_why(out, trip.piece, trip.supplies, units, trip.as_written)
        print_cautions(out, found)
        for job in jobs:
            if job.notes:
                out.print()
                print_problems(out, job.notes, str(job.file))


def jars_on_hand(file: File, json: Json = False, unit: Unit = None) -> None:
    """Show how far what is on hand goes: the chance that a jar lasts, coat by coat.

    Example: surfacecalc jars examples/linen-cupboard.toml
    """
    from surfacecalc import api
    from surfacecalc.reports.exports import jars_json
    from surfacecalc.reports.screen import console, print_jars

    job = measured_or_stop(file, json=json)
    piece, found = job.piece, api.jars(job)
    if json:
        typer.echo(jars_json(piece, found))
    else:
        print_jars(console(), piece, found, units_of(unit, piece))


def kinds_known(json: Json = False, unit: Unit = None) -> None:
    """Show the kinds of products that the catalogue knows, and what it says of them.

    Example: surfacecalc kinds --unit us
    """
    from surfacecalc.reports.kinds_screen import kinds_json, print_kinds
    from surfacecalc.reports.screen import console
    from surfacecalc.units.display import Units

    if json:
        typer.echo(kinds_json())
    else:
        print_kinds(console(), Units(unit.value) if unit else Units.METRIC)
