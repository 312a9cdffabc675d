"""The commands. Each one's work is imported when it runs, so that help comes at once."""

from typing import Annotated

import typer

from surfacecalc.commands.areas_and_supplies import (
    areas,
    check,
    jars_on_hand,
    kinds_known,
    supplies,
)
from surfacecalc.commands.files_written import draw, sheet
from surfacecalc.commands.guide import guide
from surfacecalc.commands.jobs import plan_of_work, quote_of
from surfacecalc.commands.new_piece import new
from surfacecalc.commands.program import Program
from surfacecalc.commands.safety import safety

app = typer.Typer(
    name="surfacecalc",
    cls=Program,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    no_args_is_help=True,
)


def _version(wanted: bool) -> None:
    if wanted:
        from surfacecalc import __version__

        typer.echo(f"surfacecalc {__version__}")
        raise typer.Exit


def surfacecalc(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="Show the version.")
    ] = False,
) -> None:
    """Work out what to buy, do and charge when you refinish a piece of furniture.

    You measure the piece with a tape. `surfacecalc new` asks you about it and writes a piece file;
    the other commands read that file.

    Example: surfacecalc supplies examples/writing-table.toml
    """


app.callback()(surfacecalc)
app.command("new")(new)
app.command("check")(check)
app.command("areas")(areas)
app.command("supplies")(supplies)
app.command("jars")(jars_on_hand)
app.command("plan")(plan_of_work)
app.command("quote")(quote_of)
app.command("safety")(safety)
app.command("sheet")(sheet)
app.command("draw")(draw)
app.command("kinds")(kinds_known)
app.command("guide")(guide)
