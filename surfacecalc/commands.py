"""The commands. Each one's work is imported when it runs, so that help comes at once."""

from enum import Enum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from surfacecalc.starting.command import new

if TYPE_CHECKING:
    from surfacecalc.pieces import Piece
    from surfacecalc.problems import Problem
    from surfacecalc.units.display import Units
    from surfacecalc.zones.areas import Measured

TO_MEND = 1
"""Exit code when the piece file needs mending; wrong usage is 2, all well 0."""

app = typer.Typer(
    name="surfacecalc",
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    no_args_is_help=True,
)


class UnitChoice(Enum):
    """Units of a report."""

    METRIC = "metric"
    US = "us"


File = Annotated[Path, typer.Argument(metavar="FILE", help="The piece file.", show_default=False)]
Json = Annotated[bool, typer.Option("--json", help="Print one JSON object, metric.")]
Unit = Annotated[
    UnitChoice | None,
    typer.Option("--unit", help="Units to show. Left out: those the piece is measured in."),
]


def _version(wanted: bool) -> None:
    if wanted:
        from surfacecalc import __version__

        typer.echo(f"surfacecalc {__version__}")
        raise typer.Exit


@app.callback()
def surfacecalc(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Print the version.")
    ] = False,
) -> None:
    """From a piece of furniture, measured with a tape, to areas and a supply list.

    Example: surfacecalc supplies examples/writing-table.toml
    """


@app.command()
def check(file: File, json: Json = False) -> None:
    """List every mistake in a piece file, and what is worth a second look.

    Example: surfacecalc check examples/writing-table.toml
    """
    from surfacecalc.estimate import estimate, plan_of, read_and_measure
    from surfacecalc.plans import clock
    from surfacecalc.problems import Problem, has_mistakes
    from surfacecalc.reports.exports import problems_json
    from surfacecalc.reports.screen import console, print_problems

    reading = read_and_measure(file)
    problems = reading.problems
    if reading.piece and reading.measured:
        supplies = estimate(reading.piece, reading.measured)
        problems = [*problems, supplies] if isinstance(supplies, Problem) else problems
        plan = plan_of(reading.piece, reading.measured, clock.now())
        problems = [*problems, *plan] if isinstance(plan, list) else problems
    if json:
        typer.echo(problems_json(problems))
    else:
        print_problems(console(), problems, str(file))
        if not has_mistakes(problems):
            typer.echo("Nothing to mend.")
    if has_mistakes(problems):
        raise typer.Exit(TO_MEND)


@app.command()
def areas(
    files: Annotated[
        list[Path],
        typer.Argument(metavar="FILE...", help="One piece file or more.", show_default=False),
    ],
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
        _areas_of(files[0], json=json, unit=unit, faces=faces)
        return
    from functools import partial

    from surfacecalc.many_files import work_on_each
    from surfacecalc.reports.exports import files_json

    work = partial(_areas_of, json=json, unit=unit, faces=faces)
    answers = list(work_on_each(work, files))
    if json:
        typer.echo(files_json([(str(answer.file), answer.output) for answer in answers]))
    for answer in () if json else answers:
        typer.echo(answer.output + "\n" * bool(answer.output), nl=False)
        typer.echo(answer.errors, nl=False, err=True)
    raise typer.Exit(max(answer.code for answer in answers))


def _areas_of(file: Path, *, json: bool, unit: UnitChoice | None, faces: bool) -> None:
    """Print the areas of one file."""
    from surfacecalc.reports.exports import areas_json
    from surfacecalc.reports.screen import console, print_areas, print_problems

    piece, measured, notes = _measured(file, json=json)
    if json:
        typer.echo(areas_json(piece, measured))
        return
    out = console()
    print_areas(out, piece, measured, _units(unit, piece), faces=faces)
    if notes:
        out.print()
        print_problems(out, notes, str(file))


@app.command()
def supplies(
    file: File,
    json: Json = False,
    csv: Annotated[bool, typer.Option("--csv", help="Print the list as CSV, metric.")] = False,
    why: Annotated[bool, typer.Option("--why", help="Show how each number was made.")] = False,
    unit: Unit = None,
) -> None:
    """Show what to buy: need, what is on hand, packs, cost.

    Example: surfacecalc supplies examples/writing-table.toml --why
    """
    from surfacecalc.cautions import cautions
    from surfacecalc.estimate import estimate
    from surfacecalc.problems import Problem
    from surfacecalc.reports.exports import supplies_csv, supplies_json
    from surfacecalc.reports.screen import (
        console,
        print_cautions,
        print_problems,
        print_supplies,
        print_why,
    )

    if json and csv:
        raise typer.BadParameter("give either --json or --csv")
    piece, measured, notes = _measured(file, json=json)
    found = estimate(piece, measured)
    if isinstance(found, Problem):
        _stop(file, [found], json=json)
    elif json:
        typer.echo(supplies_json(piece, found, cautions(piece, measured)))
    elif csv:
        typer.echo(supplies_csv(piece, found), nl=False)
    else:
        out, units = console(), _units(unit, piece)
        print_supplies(out, piece, found, units)
        if why:
            print_why(out, piece, found, units)
        print_cautions(out, cautions(piece, measured))
        if notes:
            out.print()
            print_problems(out, notes, str(file))


@app.command("jars")
def jars_on_hand(file: File, json: Json = False, unit: Unit = None) -> None:
    """Show how far what is on hand goes: the chance that a jar lasts, coat by coat.

    Example: surfacecalc jars examples/linen-cupboard.toml
    """
    from surfacecalc.estimate import jars_of
    from surfacecalc.reports.exports import jars_json
    from surfacecalc.reports.screen import console, print_jars

    piece, measured, _ = _measured(file, json=json)
    found = jars_of(piece, measured)
    if json:
        typer.echo(jars_json(piece, found))
    else:
        print_jars(console(), piece, found, _units(unit, piece))


@app.command("plan")
def plan_of_work(
    file: File,
    json: Json = False,
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

    Example: surfacecalc plan examples/pine-dresser.toml
    """
    from surfacecalc.cautions import cautions
    from surfacecalc.estimate import plan_of
    from surfacecalc.plans import clock
    from surfacecalc.reports.plan import plan_json, print_plan
    from surfacecalc.reports.screen import console, print_cautions

    _check_calendar(calendar, replace=replace)
    piece, measured, _ = _measured(file, json=json)
    found = plan_of(piece, measured, clock.now())
    if isinstance(found, list):
        _stop(file, found, json=json)
        return
    if json:
        typer.echo(plan_json(piece, found))
    else:
        out = console()
        print_plan(out, piece, found, _units(unit, piece))
        print_cautions(out, cautions(piece, measured))
    if calendar is not None:
        from surfacecalc.plans.calendar import calendar_of

        _write(calendar, calendar_of(piece.settings.name, found, clock.stamp()), tell=not json)


def _check_calendar(calendar: Path | None, *, replace: bool) -> None:
    """Refuse a calendar that cannot be written before any work is done."""
    if calendar is None:
        return
    if calendar.suffix.lower() != ".ics":
        raise typer.BadParameter(f'"{calendar.name}": the name must end in .ics')
    if calendar.exists() and not replace:
        raise typer.BadParameter(f'"{calendar}" is there already; add --replace to write over it')


def _write(target: Path, content: bytes, *, tell: bool) -> None:
    """Write a file and tell it on the screen, or stop with why it cannot be written."""
    from surfacecalc.writing import write_whole

    replaced = target.exists()
    try:
        write_whole(target, content)
    except OSError as error:
        typer.echo(f"{target}: cannot be written: {error.strerror or error}", err=True)
        raise typer.Exit(TO_MEND) from error
    if tell:
        typer.echo(f"{'Replaced' if replaced else 'Wrote'} {target}")


@app.command("quote")
def quote_of(file: File, json: Json = False, unit: Unit = None) -> None:
    """Show the price to ask for a wanted rate, and the rate that a given price pays.

    Example: surfacecalc quote examples/pine-dresser.toml
    """
    from surfacecalc.cautions import cautions
    from surfacecalc.estimate import estimate
    from surfacecalc.plans.tasks import hands_on_h
    from surfacecalc.prices.quotes import quote
    from surfacecalc.problems import Problem
    from surfacecalc.reports.quote import print_quote
    from surfacecalc.reports.quote_json import quote_json
    from surfacecalc.reports.screen import console, print_cautions

    piece, measured, _ = _measured(file, json=json)
    supply_list, hours = estimate(piece, measured), hands_on_h(piece, measured)
    found = supply_list if isinstance(supply_list, Problem) else quote(piece, supply_list, hours)
    if isinstance(found, Problem):
        _stop(file, [found], json=json)
    elif json:
        typer.echo(quote_json(piece, found))
    else:
        out = console()
        print_quote(out, piece, found, _units(unit, piece))
        print_cautions(out, cautions(piece, measured))


@app.command("kinds")
def kinds_known(json: Json = False, unit: Unit = None) -> None:
    """Show the kinds of products that the catalogue knows, and what it says of them.

    Example: surfacecalc kinds --unit us
    """
    from surfacecalc.reports.kinds import kinds_json, print_kinds
    from surfacecalc.reports.screen import console
    from surfacecalc.units.display import Units

    if json:
        typer.echo(kinds_json())
    else:
        print_kinds(console(), Units(unit.value) if unit else Units.METRIC)


@app.command()
def draw(
    file: File,
    to: Annotated[
        Path | None,
        typer.Option(
            "--to",
            help="File to write: .svg a drawing, .glb a model, .html a page to turn the piece on."
            " Left out: a drawing beside the piece file.",
        ),
    ] = None,
    unit: Unit = None,
) -> None:
    """Draw the piece, its faces patterned by finish zone.

    Example: surfacecalc draw examples/writing-table.toml --to writing-table.svg
    """
    from surfacecalc.writing import write_whole

    target = file.with_suffix(".svg") if to is None else to
    kind = target.suffix.lower()
    if kind not in (".svg", ".glb", ".html"):
        raise typer.BadParameter(f'"{target.name}": the name must end in .svg, .glb or .html')
    piece, measured, _ = _measured(file, json=False)
    replaced = target.exists()
    try:
        write_whole(target, _picture(kind, piece, measured, _units(unit, piece)))
    except OSError as error:
        typer.echo(f"{target}: cannot be written: {error.strerror or error}", err=True)
        raise typer.Exit(TO_MEND) from error
    typer.echo(f"{'Replaced' if replaced else 'Wrote'} {target}")


def _picture(kind: str, piece: "Piece", measured: "Measured", units: "Units") -> bytes:
    if kind == ".glb":
        from surfacecalc.pictures.glb import model

        return model(piece, measured)
    if kind == ".html":
        from surfacecalc.pictures.page import page

        return page(piece, measured, units).encode()
    from surfacecalc.pictures.sheet import draw as drawing

    return drawing(piece, measured, units).encode()


class PaperChoice(Enum):
    """What a sheet is printed on."""

    A4 = "a4"
    LETTER = "letter"


@app.command()
def sheet(
    files: Annotated[
        list[Path],
        typer.Argument(
            metavar="FILE...", help="One piece file, or more for one list.", show_default=False
        ),
    ],
    client: Annotated[
        bool, typer.Option("--client", help="For the client: no costs, no hours.")
    ] = False,
    to: Annotated[
        Path | None,
        typer.Option("--to", help="File to write, .html. Left out: beside the piece file."),
    ] = None,
    paper: Annotated[
        PaperChoice | None,
        typer.Option("--paper", help="Paper. Left out: that of the locale, or of the units."),
    ] = None,
    replace: Annotated[
        bool, typer.Option("--replace", help="Write over a file that is no sheet.")
    ] = False,
    unit: Unit = None,
) -> None:
    """Write a sheet to print or to carry: drawing, areas, list to tick, steps, plan, cautions.

    With more than one file: one list for one trip to the store, packs shared across the pieces.

    Example: surfacecalc sheet examples/writing-table.toml --paper letter
    """
    from surfacecalc.sheets.make import combined_sheet, is_another_file, sheet_of, target_for
    from surfacecalc.sheets.page import paper_for

    target = target_for(files, for_client=client) if to is None else to
    if target.suffix.lower() != ".html":
        raise typer.BadParameter(f'"{target.name}": the name must end in .html')
    if client and len(files) > 1:
        raise typer.BadParameter("--client takes one file; make a sheet for each piece")
    if is_another_file(target) and not replace:
        raise typer.BadParameter(
            f'"{target}" is there and is no sheet; add --replace, or --to with another name'
        )
    measured = [(file, *_measured(file, json=False)[:2]) for file in files]
    units = _units(unit, measured[0][1])
    chosen = paper_for(units) if paper is None else paper.value
    if len(files) > 1:
        content = combined_sheet(measured, units, chosen)
    else:
        content = sheet_of(*measured[0][1:], units, chosen, for_client=client)
    if isinstance(content, list):
        _stop(files[0], content, json=False)
    else:
        _write(target, content.encode(), tell=True)


def _measured(file: Path, *, json: bool) -> "tuple[Piece, Measured, list[Problem]]":
    """Return the measured piece and the notes on it, or stop with its mistakes."""
    from surfacecalc.estimate import read_and_measure

    reading = read_and_measure(file)
    if reading.piece is None or reading.measured is None:
        _stop(file, reading.problems, json=json)
        raise AssertionError
    return reading.piece, reading.measured, reading.problems


def _stop(file: Path, problems: "list[Problem]", *, json: bool) -> None:
    """Print the problems alone and end with exit code 1."""
    from surfacecalc.reports.exports import problems_json
    from surfacecalc.reports.screen import console, print_problems

    if json:
        typer.echo(problems_json(problems))
    else:
        print_problems(console(stderr=True), problems, str(file))
        typer.echo("No numbers until this is mended.", err=True)
    raise typer.Exit(TO_MEND)


def _units(choice: UnitChoice | None, piece: "Piece") -> "Units":
    from surfacecalc.units.display import Units

    return Units.of(piece.settings.unit) if choice is None else Units(choice.value)


app.command("new")(new)
