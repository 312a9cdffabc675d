"""The command `surfacecalc new`: its options. The work is imported when it runs."""

import contextlib
import shlex
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

if TYPE_CHECKING:
    from surfacecalc.starting.start import Settled

STOPPED, WRONG_USAGE = 1, 2
"""Exit codes where there is no piece file in the end."""


def _option(name: str, what: str) -> Any:
    return typer.Option(f"--{name}", help=what, metavar="TEXT", show_default=False)


def _kinds() -> list[str]:
    """Return what a shell offers for KIND."""
    from surfacecalc.starting.piece_kinds import KINDS

    return [kind.key for kind in KINDS]


_Text = str | None


def new(
    kind: Annotated[
        _Text,
        typer.Argument(
            metavar="KIND", help="What it is; left out, you see the list.", autocompletion=_kinds
        ),
    ] = None,
    name: Annotated[_Text, _option("name", "What it is called.")] = None,
    file: Annotated[_Text, _option("out", "File to write, FILE.toml.")] = None,
    unit: Annotated[_Text, _option("unit", "Unit of plain numbers: in, cm or mm.")] = None,
    width: Annotated[_Text, _option("width", 'Width over all, such as "36 1/2 in".')] = None,
    depth: Annotated[_Text, _option("depth", "Depth over all.")] = None,
    height: Annotated[_Text, _option("height", "Height over all; of a chair, its seat.")] = None,
    leg_height: Annotated[_Text, _option("leg-height", "Legs under a case, or none.")] = None,
    leg_thickness: Annotated[_Text, _option("leg-thickness", "A leg, at its top.")] = None,
    foot_thickness: Annotated[_Text, _option("foot-thickness", "A leg, at the floor.")] = None,
    board: Annotated[_Text, _option("board", "Thickness of the boards.")] = None,
    lid_thickness: Annotated[_Text, _option("lid-thickness", "The lid of a chest.")] = None,
    drawers: Annotated[_Text, _option("drawers", "Rows of drawers; of a desk, drawers.")] = None,
    across: Annotated[_Text, _option("across", "Drawers side by side in a row.")] = None,
    back: Annotated[_Text, _option("back", "Whether a bookcase has a back: yes or no.")] = None,
    shelves: Annotated[_Text, _option("shelves", "How many shelves.")] = None,
    doors: Annotated[_Text, _option("doors", "How many doors.")] = None,
    frame: Annotated[_Text, _option("frame", "Width of a door's or mirror's frame.")] = None,
    top_thickness: Annotated[_Text, _option("top-thickness", "The top, or the seat.")] = None,
    overhang: Annotated[_Text, _option("overhang", "Edge of the top to the leg, or none.")] = None,
    apron: Annotated[_Text, _option("apron", "Height of the rail below, or none.")] = None,
    rungs: Annotated[_Text, _option("rungs", "Rungs of a chair on each side.")] = None,
    back_height: Annotated[_Text, _option("back-height", "Back above the seat, or none.")] = None,
    top_rail: Annotated[_Text, _option("top-rail", "Height of a chair's top rail.")] = None,
    slats: Annotated[_Text, _option("slats", "Upright slats in a chair's back.")] = None,
    post_thickness: Annotated[_Text, _option("post-thickness", "A bed post, or none.")] = None,
    board_height: Annotated[_Text, _option("board-height", "The board of a headboard.")] = None,
    mesh: Annotated[_Text, _option("mesh", "The mesh file.")] = None,
    mesh_unit: Annotated[_Text, _option("mesh-unit", "Unit the mesh was made in.")] = None,
    finish: Annotated[
        list[str] | None,
        _option(
            "finish", 'paint, stain, oil, wax or leave; "ZONE=paint" for one zone. Repeatable.'
        ),
    ] = None,
    condition: Annotated[
        list[str] | None,
        _option("condition", 'bare, sealed, varnished or painted; "ZONE=bare" for one zone.'),
    ] = None,
    built: Annotated[_Text, _option("built", "Year it was made, or unknown.")] = None,
    currency: Annotated[_Text, _option("currency", "Such as USD, or none.")] = None,
    replace: Annotated[bool, typer.Option("--replace", help="Replace a file.")] = False,
    unusual: Annotated[bool, typer.Option("--unusual", help="Unusual measures are right.")] = False,
    ask: Annotated[
        bool | None,
        typer.Option("--ask/--no-ask", help="Ask for the rest. Left out: in a terminal only."),
    ] = None,
) -> None:
    """Begin a piece: answer a few questions, get its file, its areas and its list.

    KIND is chest, dresser, nightstand, table, desk, bookcase, cabinet, chair, bench, headboard,
    mirror or mesh. What an option answers is not asked.

    Example: surfacecalc new nightstand --width "22 1/2 in"
    """
    given = locals()  # as long as it holds the options and nothing else
    answers = {key.replace("_", "-"): text for key, text in given.items() if isinstance(text, str)}
    from surfacecalc.starting.start import Settled

    _begin(answers, finish or [], condition or [], Settled(replace, unusual, ask))


def _begin(
    answers: dict[str, str], finishes: list[str], conditions: list[str], settled: "Settled"
) -> None:
    from surfacecalc.starting.conversation import StoppedError
    from surfacecalc.starting.interview import UnansweredError
    from surfacecalc.starting.start import answers_given, start

    try:
        target, is_replaced = start(answers_given(answers, finishes, conditions), settled)
    except UnansweredError as error:
        typer.echo(f"Error: {error}", err=True)
        raise typer.Exit(WRONG_USAGE) from None
    except StoppedError as stop:
        with contextlib.suppress(OSError):  # the terminal may have gone
            stop.tell()
        raise typer.Exit(STOPPED) from None
    except OSError as error:
        reason = error.strerror or str(error)
        typer.echo(f"Error: the file cannot be written: {reason}", err=True)
        raise typer.Exit(STOPPED) from None
    _show(target, is_replaced=is_replaced)


def _show(target: Path, *, is_replaced: bool) -> None:
    """Show what `areas` and `supplies` show of the new file."""
    from surfacecalc.commands.areas_and_supplies import areas, supplies
    from surfacecalc.invocation import program
    from surfacecalc.starting.conversation import say

    typer.echo(f"\n{'Replaced' if is_replaced else 'Wrote'} {target}\n")
    areas([target])
    typer.echo()
    supplies([target])
    typer.echo()
    say(
        f"Next: open {target} in any text editor and write down what your labels say (covers), what"
        " is left in your tins (on_hand) and the prices; its comments show how. Then check it, get"
        " the list again, and make a sheet to print:"
    )
    for word in ("check", "supplies", "sheet"):
        typer.echo(f"  {program()} {word} {shlex.quote(str(target))}")
