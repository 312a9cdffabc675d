"""What all commands share: their options, how they stop, how they write a file."""

import os
from contextlib import contextmanager
from enum import Enum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal, NoReturn

import typer

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from surfacecalc.api import MeasuredPiece
    from surfacecalc.model.pieces import Piece
    from surfacecalc.problems import Problem
    from surfacecalc.units.display import Units

MISTAKES = 1
"""Exit code when the piece file has mistakes; wrong usage is 2, all well 0."""


class UnitChoice(Enum):
    """Units of a report."""

    METRIC = "metric"
    US = "us"


Form = Literal["screen", "json", "csv"]
"""What a list is printed as."""
File = Annotated[Path, typer.Argument(metavar="FILE", help="The piece file.", show_default=False)]
Files = Annotated[
    list[Path],
    typer.Argument(metavar="FILE", help="One or more piece files.", show_default=False),
]
Json = Annotated[
    bool, typer.Option("--json", help="Print JSON for other programs, in metric units.")
]
Why = Annotated[bool, typer.Option("--why", help="Show how each number was worked out.")]
Unit = Annotated[
    UnitChoice | None,
    typer.Option("--unit", help="Units to show (default: the piece's own)."),
]


def measured_or_stop(file: Path, *, json: bool) -> "MeasuredPiece":
    """Return the measured piece with the notes on it, or stop with its mistakes."""
    from surfacecalc import api

    with stopping_at_mistakes(json=json):
        return api.measure(api.read_piece(file))


def all_measured_or_stop(files: list[Path], *, json: bool) -> "list[MeasuredPiece]":
    """Return several files with their measured pieces, or stop with every file's mistakes."""
    from dataclasses import replace

    from surfacecalc import api

    jobs, wrong, to_fix = [], [], []
    for file in files:
        try:
            jobs.append(api.measure(api.read_piece(file)))
        except api.MistakesError as error:
            wrong += [replace(one, file=one.file or str(file)) for one in error.problems]
            to_fix.append(file)
    if wrong:
        stop(to_fix[0], wrong, json=json)
    return jobs


@contextmanager
def stopping_at_mistakes(*, json: bool) -> "Iterator[None]":
    """Run what is asked of the engine; where a mistake prevents it, print that and end."""
    from surfacecalc.api import MistakesError

    try:
        yield
    except MistakesError as error:
        stop(error.file, error.problems, json=json)


def stop(file: Path, problems: "Iterable[Problem]", *, json: bool) -> NoReturn:
    """Print the problems alone and end with exit code 1."""
    from surfacecalc.reports.exports import problems_json
    from surfacecalc.reports.screen import console, print_problems

    if json:
        typer.echo(problems_json(problems))
    else:
        print_problems(console(stderr=True), problems, str(file))
        say_next(file)
    raise typer.Exit(MISTAKES)


def say_next(file: Path) -> None:
    """Say on the error stream what to run once a file could not be used."""
    from surfacecalc.commands.next_command import after_mistakes, where_no_file

    is_there = os.path.isfile(file)  # unlike the path's own method, it raises nothing
    typer.echo(after_mistakes(file) if is_there else where_no_file(file), err=True)


def form_of(*, json: bool, csv: bool) -> Form:
    """Return what to print a list as; both options together are wrong usage."""
    if json and csv:
        raise typer.BadParameter("give --json or --csv, not both")
    return "json" if json else "csv" if csv else "screen"


def units_of(choice: UnitChoice | None, piece: "Piece") -> "Units":
    """Return the units to show: those asked for, or those the piece is measured in."""
    from surfacecalc.units.display import Units

    return Units.of(piece.settings.unit) if choice is None else Units(choice.value)


def write(target: Path, content: bytes, *, say: bool) -> None:
    """Write a file and say so on the screen, or stop with why it cannot be written."""
    from surfacecalc.problems import printable
    from surfacecalc.writing import write_whole

    name, is_there = printable(str(target)), os.path.exists(target)
    if is_there and not os.path.isfile(target):
        what = "is a folder" if os.path.isdir(target) else "is not a regular file"
        typer.echo(f"{name}: {what}; give a file name", err=True)
        raise typer.Exit(MISTAKES)
    try:
        write_whole(target, content)
    except OSError as error:
        typer.echo(f"{name}: cannot be written: {error.strerror or error}", err=True)
        raise typer.Exit(MISTAKES) from error
    if say:
        typer.echo(f"{'Replaced' if is_there else 'Wrote'} {name}")


def refuse_inputs(target: Path, files: list[Path]) -> None:
    """Refuse to write over a file that is read, whatever its name and whatever leads to it."""
    for file in files:
        if os.path.exists(target) and os.path.exists(file) and os.path.samefile(target, file):
            raise typer.BadParameter(f'"{target}" is the piece file itself; choose another name')
