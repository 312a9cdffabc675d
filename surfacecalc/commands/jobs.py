"""The commands for the whole job: its plan and its price."""

import os
from pathlib import Path
from typing import Annotated

import typer

from surfacecalc.commands.options import (
    File,
    Json,
    Unit,
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
    csv: Annotated[bool, typer.Option("--csv", help="Print the plan as CSV.")] = False,
    unit: Unit = None,
    calendar: Annotated[
        Path | None,
        typer.Option("--calendar", help="Write the plan as a calendar as well, to a .ics file."),
    ] = None,
    replace: Annotated[
        bool, typer.Option("--replace", help="Write over the calendar that is there.")
    ] = False,
) -> None:
    """Show what to do when, and when the piece can be handled and used.

    Example: surfacecalc plan examples/school-cupboard.toml
    """
    from surfacecalc import api, clock
    from surfacecalc.reports.plan_screen import plan_json, print_plan
    from surfacecalc.reports.screen import console, print_cautions
    from surfacecalc.reports.spreadsheets import plan_csv

    form = form_of(json=json, csv=csv)
    _check_calendar(calendar, file, replace=replace)
    job = measured_or_stop(file, json=json)
    with stopping_at_mistakes(file, json=json):
        piece, found = job.piece, api.plan(job)
    if form == "json":
        typer.echo(plan_json(piece, found))
    elif form == "csv":
        typer.echo(plan_csv(found), nl=False)
    else:
        out = console()
        print_plan(out, piece, found, units_of(unit, piece))
        print_cautions(out, api.cautions(job))
    if calendar is not None:
        from surfacecalc.plans.calendar import calendar_of

        write(
            calendar,
            calendar_of(piece.settings.name, found, clock.stamp()),
            tell=form == "screen",
        )


def _check_calendar(calendar: Path | None, file: Path, *, replace: bool) -> None:
    """Refuse a calendar that cannot be written before any work is done."""
    if calendar is None:
        return
    if calendar.suffix.lower() != ".ics":
        raise typer.BadParameter(f'"{calendar.name}": the name must end in .ics')
    refuse_inputs(calendar, [file])
    if os.path.exists(calendar) and not replace:
        raise typer.BadParameter(f'"{calendar}" is there already; add --replace to write over it')


def quote_of(file: File, json: Json = False, unit: Unit = None) -> None:
    """Show the price to ask for a wanted rate, and the rate that a given price pays.

    Example: surfacecalc quote examples/school-cupboard.toml
    """
    from surfacecalc import api
    from surfacecalc.reports.quote_json import quote_json
    from surfacecalc.reports.quote_screen import print_quote
    from surfacecalc.reports.screen import console, print_cautions

    job = measured_or_stop(file, json=json)
    with stopping_at_mistakes(file, json=json):
        piece, found = job.piece, api.quote(job)
    if json:
        typer.echo(quote_json(piece, found))
    else:
        out = console()
        print_quote(out, piece, found, units_of(unit, piece))
        print_cautions(out, api.cautions(job))
