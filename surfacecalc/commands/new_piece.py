"""The command `surfacecalc new`: its options. The work is imported when it runs."""

import contextlib
import shlex
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from surfacecalc.commands.wrong_usage import say_wrong
from surfacecalc.starting.wordings import WORDINGS

if TYPE_CHECKING:
    from surfacecalc.starting.changing import Changed
    from surfacecalc.starting.start import Settled

STOPPED, WRONG_USAGE = 1, 2
"""Exit codes where there is no piece file in the end."""


def _option(name: str, key: str = "") -> Any:
    """Return the option that answers a question, with the words of the question's table."""
    said = WORDINGS[key or name].option
    return typer.Option(f"--{name}", help=said, metavar="TEXT", show_default=False)


def _kinds() -> list[str]:
    """Return what a shell offers for KIND."""
    from surfacecalc.starting.piece_kinds import KINDS

    return [kind.key for kind in KINDS]


_Text = str | None


def new(
    kind: Annotated[
        _Text,
        typer.Argument(metavar="KIND", help=WORDINGS["kind"].option, autocompletion=_kinds),
    ] = None,
    name: Annotated[_Text, _option("name")] = None,
    file: Annotated[_Text, _option("out", "file")] = None,
    unit: Annotated[_Text, _option("unit")] = None,
    width: Annotated[_Text, _option("width")] = None,
    depth: Annotated[_Text, _option("depth")] = None,
    height: Annotated[_Text, _option("height")] = None,
    leg_height: Annotated[_Text, _option("leg-height")] = None,
    leg_thickness: Annotated[_Text, _option("leg-thickness")] = None,
    foot_thickness: Annotated[_Text, _option("foot-thickness")] = None,
    board: Annotated[_Text, _option("board")] = None,
    lid_thickness: Annotated[_Text, _option("lid-thickness")] = None,
    drawers: Annotated[_Text, _option("drawers")] = None,
    across: Annotated[_Text, _option("across")] = None,
    back: Annotated[_Text, _option("back")] = None,
    upper_doors: Annotated[_Text, _option("upper-doors")] = None,
    upper_width: Annotated[_Text, _option("upper-width")] = None,
    upper_height: Annotated[_Text, _option("upper-height")] = None,
    drawer_width: Annotated[_Text, _option("drawer-width")] = None,
    drawer_height: Annotated[_Text, _option("drawer-height")] = None,
    drawer_frame: Annotated[_Text, _option("drawer-frame")] = None,
    edges: Annotated[_Text, _option("edges")] = None,
    inside_faces: Annotated[_Text, _option("inside-faces")] = None,
    shelves: Annotated[_Text, _option("shelves")] = None,
    doors: Annotated[_Text, _option("doors")] = None,
    frame: Annotated[_Text, _option("frame")] = None,
    top_thickness: Annotated[_Text, _option("top-thickness")] = None,
    overhang: Annotated[_Text, _option("overhang")] = None,
    apron: Annotated[_Text, _option("apron")] = None,
    apron_inside: Annotated[_Text, _option("apron-inside")] = None,
    rungs: Annotated[_Text, _option("rungs")] = None,
    back_height: Annotated[_Text, _option("back-height")] = None,
    top_rail: Annotated[_Text, _option("top-rail")] = None,
    slats: Annotated[_Text, _option("slats")] = None,
    post_thickness: Annotated[_Text, _option("post-thickness")] = None,
    board_height: Annotated[_Text, _option("board-height")] = None,
    mesh: Annotated[_Text, _option("mesh")] = None,
    mesh_unit: Annotated[_Text, _option("mesh-unit")] = None,
    finish: Annotated[list[str] | None, _option("finish")] = None,
    condition: Annotated[list[str] | None, _option("condition")] = None,
    product: Annotated[list[str] | None, _option("product")] = None,
    built: Annotated[_Text, _option("built")] = None,
    stripping: Annotated[_Text, _option("stripping")] = None,
    currency: Annotated[_Text, _option("currency")] = None,
    change: Annotated[
        Path | None,
        typer.Option(
            "--change",
            metavar="FILE",
            help="Ask the answers of a file again and rewrite only what they change.",
            show_default=False,
        ),
    ] = None,
    replace: Annotated[
        bool, typer.Option("--replace", help="Overwrite the file if it exists.")
    ] = False,
    unusual: Annotated[
        bool, typer.Option("--unusual", help="Accept unusual measurements.")
    ] = False,
    ask: Annotated[
        bool | None,
        typer.Option(
            "--ask/--no-ask", help="Ask for anything not given (default: only in a terminal)."
        ),
    ] = None,
) -> None:
    """Answer questions about a piece, and get its file and its list.

    KIND is chest, dresser, nightstand, table, desk, bookcase, cabinet, chair, bench, headboard,
    mirror, doors or mesh. You are not asked for anything that you give as an option.

    Example: surfacecalc new nightstand --width "22 1/2 in"
    """
    given = locals()  # as long as it holds the options and nothing else
    answers = {key.replace("_", "-"): text for key, text in given.items() if isinstance(text, str)}
    from surfacecalc.starting.start import Settled

    repeated = (finish or [], condition or [], product or [])
    settled = Settled(replace, unusual, ask)
    if change is None:
        _begin(answers, repeated, settled)
    else:
        _change(change, answers, repeated, settled)


_Repeated = tuple[list[str], list[str], list[str]]
"""The answers for one zone or one supply each: finishes, conditions, products."""


def _change(target: Path, answers: dict[str, str], repeated: _Repeated, settled: "Settled") -> None:
    from surfacecalc.starting.changing import UnchangedError, change
    from surfacecalc.starting.conversation import StoppedError
    from surfacecalc.starting.interview import UnansweredError
    from surfacecalc.starting.start import answers_given

    try:
        changed = change(target, answers_given(answers, *repeated), settled)
    except UnansweredError as error:
        say_wrong(str(error))
        raise typer.Exit(WRONG_USAGE) from None
    except UnchangedError as error:
        say_wrong(str(error))
        raise typer.Exit(STOPPED) from None
    except (StoppedError, KeyboardInterrupt):
        with contextlib.suppress(OSError):  # the terminal may have gone
            typer.echo(f"\nStopped. {target} is as it was.")
        raise typer.Exit(STOPPED) from None
    except OSError as error:
        say_wrong(f"{target} cannot be changed: {error.strerror or error}")
        raise typer.Exit(STOPPED) from None
    _show_changed(changed)


def _show_changed(changed: "Changed") -> None:
    """Say which answers are other than before and what was left, and show the lists."""
    from surfacecalc.starting.conversation import say

    if not changed.is_changed:
        typer.echo(f"\nNothing to change: {changed.target} has these answers already.")
        return
    typer.echo(f"\nChanged {changed.target}\n")
    for name, before, now in changed.answers:
        say(f"{name}: {before} before, {now} now", indent="  ")
    for note in changed.notes:
        say(f"Note: {note}.", indent="  ")
    typer.echo()
    _show_lists(changed.target)


def _begin(answers: dict[str, str], repeated: _Repeated, settled: "Settled") -> None:
    from surfacecalc.starting.conversation import StoppedError
    from surfacecalc.starting.interview import UnansweredError
    from surfacecalc.starting.start import answers_given, start

    try:
        target, is_replaced = start(answers_given(answers, *repeated), settled)
    except UnansweredError as error:
        say_wrong(str(error))
        raise typer.Exit(WRONG_USAGE) from None
    except StoppedError as stop:
        with contextlib.suppress(OSError):  # the terminal may have gone
            stop.say_how_to_continue()
        raise typer.Exit(STOPPED) from None
    except OSError as error:
        reason = error.strerror or str(error)
        say_wrong(f"The file cannot be written: {reason}")
        raise typer.Exit(STOPPED) from None
    _show(target, is_replaced=is_replaced)


def _show(target: Path, *, is_replaced: bool) -> None:
    """Say which file was written, show its lists, and say what to run next."""
    from surfacecalc.invocation import program
    from surfacecalc.starting.conversation import say

    typer.echo(f"\n{'Replaced' if is_replaced else 'Wrote'} {target}\n")
    _show_lists(target)
    say(
        f"Next: open {target} in any text editor and add the coverage from your labels (covers),"
        " how much you have left (on_hand) and the prices; the comments in the file show how. Then"
        " check the file, get the list again, and make a sheet to print:"
    )
    for word in ("check", "supplies", "sheet"):
        typer.echo(f"  {program()} {word} {shlex.quote(str(target))}")


def _show_lists(target: Path) -> None:
    """Show what `areas` and `supplies` show of the new file."""
    from surfacecalc.commands.areas_and_supplies import areas, supplies

    areas([target])
    typer.echo()
    supplies([target])
    typer.echo()
