"""Cautions on the screen: a line each beside a list, and in full where they are asked for."""

from collections.abc import Sequence
from pathlib import Path

from rich.console import Console
from rich.padding import Padding

from surfacecalc.cautions import CLOSING, Caution
from surfacecalc.invocation import program, shown
from surfacecalc.problems import printable
from surfacecalc.reports.exports import cautions_data
from surfacecalc.reports.json_shapes import SCHEMA, SafetyData, printed

AROUND = len("Safety (all of it: )")


def print_safety(out: Console, found: Sequence[Caution], files: Sequence[Path]) -> None:
    """Print the headline of each caution, and the command that shows all of it."""
    if not found:
        return
    out.print(printable(f"Safety (all of it: {_command(files, out.width)})"), style="bold")
    for caution in found:
        out.print(Padding(printable(caution.headline), (0, 0, 0, 4), expand=False))
    out.print(Padding(CLOSING, (0, 0, 0, 4), expand=False))


def _command(files: Sequence[Path], width: int) -> str:
    """Return the command that shows all cautions, to be copied where it is not too long."""
    start = f"{program()} safety"
    whole = f"{start} {' '.join(shown(_near(file)) for file in files)}"
    if len(whole) <= width - AROUND:
        return whole
    return f"{start} FILE{'...' if len(files) > 1 else ''}"


def _near(file: Path) -> Path:
    """Return a file as it is called from the folder that one is in, where it is inside of it."""
    here = Path.cwd()
    return file.relative_to(here) if file.is_relative_to(here) else file


def print_cautions(out: Console, name: str, found: Sequence[Caution]) -> None:
    """Print the cautions that apply to a job in full, each with its source."""
    out.print(printable(f"{name}: safety"), style="bold")
    if not found:
        out.print("No caution applies to the work in this file.")
    for caution in found:
        out.print()
        because = f" Here: {printable(caution.applies_to)}." if caution.applies_to else ""
        text = f"{caution.text}{because} [{'; '.join(caution.sources)}]"
        out.print(Padding(text, (0, 0, 0, 4), expand=False))
    out.print()
    out.print(CLOSING)


def safety_json(names: Sequence[str], found: Sequence[Caution]) -> str:
    """Return the cautions of one piece or more as one JSON object."""
    value: SafetyData = {
        "schema": SCHEMA,
        "pieces": list(names),
        "cautions": cautions_data(list(found)),
        "closing": CLOSING,
    }
    return printed(value)
