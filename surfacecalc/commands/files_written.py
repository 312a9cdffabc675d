"""The commands that write a file: drawings and sheets."""

from enum import Enum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from surfacecalc.commands.options import (
    MISTAKES,
    File,
    Unit,
    all_measured_or_stop,
    measured_or_stop,
    refuse_inputs,
    stopping_at_mistakes,
    units_of,
    write,
)

if TYPE_CHECKING:
    from surfacecalc.model.pieces import Piece
    from surfacecalc.sheets.sheet_frame import SheetPage
    from surfacecalc.units.display import Units
    from surfacecalc.zones.areas import Measured


def draw(
    file: File,
    to: Annotated[
        Path | None,
        typer.Option(
            "--to",
            help="File to write: .svg for a drawing, .glb for a 3D model, .html for a page where"
            " you can turn the piece (default: an .svg next to the piece file).",
        ),
    ] = None,
    unit: Unit = None,
) -> None:
    """Draw the piece, with a pattern for each finish zone.

    Example: surfacecalc draw examples/writing-table.toml --to writing-table.svg
    """
    target = file.parent / f"{file.stem or 'piece'}.svg" if to is None else to
    kind = target.suffix.lower()
    if kind not in (".svg", ".glb", ".html"):
        raise typer.BadParameter(f'"{target.name}": the name must end in .svg, .glb or .html')
    refuse_inputs(target, [file])
    job = measured_or_stop(file, json=False)
    picture = _picture(kind, job.piece, job.measured, units_of(unit, job.piece))
    write(target, picture, say=True)


def _picture(kind: str, piece: "Piece", measured: "Measured", units: "Units") -> bytes:
    if kind == ".glb":
        from surfacecalc.pictures.glb import model

        return model(piece, measured)
    if kind == ".html":
        from surfacecalc.pictures.turning_page import page

        return page(piece, measured, units).encode()
    from surfacecalc.pictures.sheet import draw as drawing

    return drawing(piece, measured, units).encode()


class PaperChoice(Enum):
    """What a sheet is printed on."""

    A4 = "a4"
    LETTER = "letter"


def sheet(
    files: Annotated[
        list[Path],
        typer.Argument(
            metavar="FILE", help="The piece file; several for one list.", show_default=False
        ),
    ],
    client: Annotated[
        bool, typer.Option("--client", help="Make the client's sheet: no costs, no hours.")
    ] = False,
    pdf: Annotated[bool, typer.Option("--pdf", help="Write a PDF instead of a web page.")] = False,
    to: Annotated[
        Path | None,
        typer.Option(
            "--to", help="File to write, .html or .pdf (default: next to the piece file)."
        ),
    ] = None,
    paper: Annotated[
        PaperChoice | None,
        typer.Option(
            "--paper",
            help="Paper size (default: by your country, else by the units).",
            case_sensitive=False,
        ),
    ] = None,
    replace: Annotated[
        bool, typer.Option("--replace", help="Overwrite a file that is not a sheet.")
    ] = False,
    unit: Unit = None,
) -> None:
    """Write a sheet to print or to carry on your phone.

    It has the drawing, the areas, the shopping list, the steps, the plan and the cautions.
    With several files you get one shopping list for one trip to the store.

    Example: surfacecalc sheet examples/writing-table.toml --paper letter
    """
    from surfacecalc.sheets.make import combined_sheet, sheet_of
    from surfacecalc.sheets.sheet_frame import paper_for

    if client and len(files) > 1:
        raise typer.BadParameter("use --client with one file; make a sheet for each piece")
    target = _sheet_target(files, to, client=client, pdf=pdf, replace=replace)
    jobs = all_measured_or_stop(files, json=False)
    units = units_of(unit, jobs[0].piece)
    chosen = paper_for(units) if paper is None else paper.value
    with stopping_at_mistakes(json=False):
        if len(files) > 1:
            content = combined_sheet(jobs, units, chosen)
        else:
            content = sheet_of(jobs[0], units, chosen, for_client=client)
    if target.suffix.lower() == ".pdf":
        _print(target, content)
    else:
        write(target, content.html().encode(), say=True)


def _sheet_target(
    files: list[Path], to: Path | None, *, client: bool, pdf: bool, replace: bool
) -> Path:
    """Return the file to write, or stop where its name is wrong, or it is of another kind."""
    from surfacecalc.sheets.make import is_another_file, target_for

    target = target_for(files, for_client=client, as_pdf=pdf) if to is None else to
    kind = target.suffix.lower()
    if pdf and kind != ".pdf":
        raise typer.BadParameter(f'"{target.name}": with --pdf, the name must end in .pdf')
    if kind not in (".html", ".pdf"):
        raise typer.BadParameter(f'"{target.name}": the name must end in .html or .pdf')
    refuse_inputs(target, files)
    if is_another_file(target) and not replace:
        raise typer.BadParameter(
            f'"{target}" already exists and is not a sheet made by this program; add --replace, or'
            " choose another name with --to"
        )
    if kind == ".pdf":
        _stop_unless_pdfs_can_be_made()
    return target


def _stop_unless_pdfs_can_be_made() -> None:
    from surfacecalc.sheets.pdf.printing import can_print

    if not can_print():
        message = 'PDF needs one more package; run: .venv/bin/pip install ".[pdf]"'
        typer.echo(message, err=True)
        raise typer.Exit(MISTAKES)


def _print(target: Path, page: "SheetPage") -> None:
    """Write a page as PDF; letters that no font has are listed."""
    from surfacecalc.sheets.pdf.printing import printed

    found = printed(page)
    write(target, found.content, say=True)
    if found.missing:
        letters = " ".join(found.missing)
        typer.echo(
            f"{target}: these letters are missing from every font on this computer and print as"
            f" empty boxes: {letters}",
            err=True,
        )
