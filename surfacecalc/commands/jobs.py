"""The commands for the whole job: its plan and its price."""

import os
from pathlib import Path
from typing import Annotated

import typer

from surfacecalc.commands.options import (
    File,
    Json,
    Unit,
    Why,
    form_of,
    measured_or_stop,
    refuse_inputs,
    stopping_at_mistakes,
    units_of,
    write,
)


def plan_of_work(
    file: File,
    json: Json = False,
    csv: Annotated[bool, typer.Option("--csv", help="Print CSV for a spreadsheet.")] = False,
    why: Why = False,
    unit: Unit = None,
    calendar: Annotated[
        Path | None,
        typer.Option("--calendar", help="Also write the plan as a calendar, to a .ics file."),
    ] = None,
    replace: Annotated[
        bool, typer.Option("--replace", help="Overwrite the calendar file if it exists.")
    ] = False,
) -> None:
    """Show what to do on which day, and when the piece is ready.

    With --why: the steps of the file, the amounts for each coat, the air, and every assumed figure.

    Example: surfacecalc plan examples/school-cupboard.toml
    """
    from surfacecalc import api, clock
    from surfacecalc.reports.labour_lines import print_labour
    from surfacecalc.reports.plan_json import plan_json
    from surfacecalc.reports.plan_screen import print_plan
    from surfacecalc.reports.safety_screen import print_safety
    from surfacecalc.reports.screen import console
    from surfacecalc.reports.spray_lines import print_spray
    from surfacecalc.reports.spreadsheets import plan_csv
    from surfacecalc.sheets.bench_words import bench_lines

    form = form_of(json=json, csv=csv)
    _check_calendar(calendar, file, replace=replace)
    job = measured_or_stop(file, json=json)
    with stopping_at_mistakes(json=json):
        piece, found = job.piece, api.plan(job)
        is_asked = form != "screen" or why or calendar is not None
        bench = api.bench(job, found, api.supplies(job)) if is_asked else {}
    lines = bench_lines(bench, units_of(unit, piece))
    if form == "json":
        typer.echo(plan_json(piece, found, bench))
    elif form == "csv":
        typer.echo(plan_csv(found, bench), nl=False)
    else:
        out = console()
        print_plan(out, piece, found, units_of(unit, piece), lines, why=why)
        if why:
            print_labour(out, job.measured, units_of(unit, piece))
            print_spray(out, found, units_of(unit, piece))
        print_safety(out, api.cautions(job), [file])
    if calendar is not None:
        from surfacecalc.plans.calendar import calendar_of

        write(
            calendar,
            calendar_of(piece.settings.title, found, lines, clock.stamp()),
            say=form == "screen",
        )


def _check_calendar(calendar: Path | None, file: Path, *, replace: bool) -> None:
    """Refuse a calendar that cannot be written before any work is done."""
    if calendar is None:
        return
    if calendar.suffix.lower() != ".ics":
        raise typer.BadParameter(f'"{calendar.name}": the name must end in .ics')
    refuse_inputs(calendar, [file])
    if os.path.exists(calendar) and not replace:
        raise typer.BadParameter(f'"{calendar}" already exists; add --replace to overwrite it')


def quote_of(file: File, json: Json = False, why: Why = False, unit: Unit = None) -> None:
    """Show the price to charge, and what you earn an hour.

    With --why: what each supply is worth, and every assumed figure.

    It works both ways: from the hourly rate you want, and from your own price.

    Example: surfacecalc quote examples/school-cupboard.toml
    """
    from surfacecalc import api
    from surfacecalc.reports.quote_json import quote_json
    from surfacecalc.reports.quote_screen import print_quote
    from surfacecalc.reports.safety_screen import print_safety
    from surfacecalc.reports.screen import console

    job = measured_or_stop(file, json=json)
    with stopping_at_mistakes(json=json):
        piece, found = job.piece, api.quote(job)
    if json:
        typer.echo(quote_json(piece, found))
    else:
        out = console()
        figures = api.assumed_in_quote(job, found)
        print_quote(out, piece, found, units_of(unit, piece), figures, why=why)
        print_safety(out, api.cautions(job), [file])
