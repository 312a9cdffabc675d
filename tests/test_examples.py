"""Every example, and what the README and the guide show, is what the program prints today.

Run as a script it writes the outputs anew: `python -P tests/test_examples.py`.
"""

import contextlib
import itertools
import re
import shutil
from pathlib import Path

import pypdf
import pytest
from typer.testing import CliRunner

from surfacecalc.api import MeasuredPiece, measure, read_piece, supplies
from surfacecalc.commands import app
from surfacecalc.units.display import Units
from surfacecalc.units.shown_areas import format_area

ROOT = Path(__file__).parents[1]
EXAMPLES = sorted((ROOT / "examples").glob("*.toml"))
COMMANDS = {
    "areas": ("areas",),
    "jars": ("jars",),
    "supplies": ("supplies",),
    "why": ("supplies", "--why"),
}
MISTAKES = (
    ('"23 1/2 in"', '"23,5 in"'),
    ('with = "disc"', 'with = "disk"'),
    ("coats = 2", "coats = 2.5"),
)


OUTPUT = re.compile(r"(<!-- output: examples/(\S+?)(?: to (\w+))? -->)")
"""Where a page shows a stored output, and the word that begins the last line to show."""
PAGES = (ROOT / "README.md", *sorted((ROOT / "surfacecalc" / "guide").glob("*.md")))
FIRST_PIECE = ROOT / "surfacecalc" / "guide" / "a-piece-file-by-hand.md"
SHEETS = {"school-cupboard.pdf": (), "school-cupboard-client.pdf": ("--client",)}
"""Sheets that show a newcomer what comes off the printer, by how they are asked for."""
WHOLE_JOB = {"plan": ("plan",), "quote": ("quote",)}
"""What is shown of a job that has a price, and a day on which it begins."""


def commands_for(example: Path) -> dict[str, tuple[str, ...]]:
    """Return the commands whose output is kept beside an example, by the name of the output."""
    return COMMANDS | (WHOLE_JOB if "[price]" in example.read_text() else {})


OUTPUTS = [
    pytest.param(example, name, id=f"{example.stem}-{name}")
    for example in EXAMPLES
    for name in commands_for(example)
]


def printed(arguments: tuple[str, ...], file: Path) -> str:
    """Return what a command prints about a file, on 80 columns, the file named as in the shop."""
    run = CliRunner().invoke(
        app, [*arguments, str(file)], env={"COLUMNS": "80", "NO_COLOR": "1"}, catch_exceptions=False
    )
    shown = run.output.replace(str(file.parent), "examples" if file in EXAMPLES else "")
    return "\n".join(line.rstrip() for line in shown.replace("/my-shelf", "my-shelf").split("\n"))


def make_sheet(name: str, target: Path) -> None:
    """Write one of the sheets as PDF."""
    command = ("sheet", *SHEETS[name], "--paper", "letter", "--to", str(target))
    printed(
        command, ROOT / "examples" / f"{name.removesuffix('.pdf').removesuffix('-client')}.toml"
    )


def read_sheet(file: Path) -> list[str]:
    """Return what stands on each page; bytes differ with the typesetter's version."""
    return [page.extract_text() for page in pypdf.PdfReader(file).pages]


def output_file(example: Path, name: str) -> Path:
    return example.with_suffix(f".{name}.txt")


def with_outputs(text: str, folder: Path) -> str:
    """Return a page with the program's output put into its blocks."""
    if "<!-- mistakes -->" in text:
        piece = first_piece(text)
        for right, wrong in MISTAKES:
            assert right in piece
            piece = piece.replace(right, wrong)
        file = folder / "my-shelf.toml"
        file.write_text(piece)
        text = _with_block(text, "<!-- mistakes -->", printed(("check",), file))
    if "<!-- dialogue -->" in text:
        text = _with_block(text, "<!-- dialogue -->", dialogue(folder))
    for mark, name, last in OUTPUT.findall(text):
        shown = (ROOT / "examples" / name).read_text()
        if last:
            end = re.search(rf"^{last}\b.*\n", shown, re.MULTILINE)
            assert end
            shown = shown[: end.end()]
        text = _with_block(text, mark, shown)
    return text


def first_piece(text: str) -> str:
    """Return the piece file that a page begins with."""
    return re.search(r"<!-- first piece -->\n```toml\n(.*?)```", text, re.DOTALL)[1]


def dialogue(folder: Path) -> str:
    """Return what is shown and typed where `new` asks for a width and a space is forgotten.

    The names of piece and file are taken with Enter; the input ends after the width.
    """
    typed = ["nightstand", "", "", "in", "221/2", "22 1/2"]
    with contextlib.chdir(folder):
        run = CliRunner().invoke(
            app, ["new", "--ask"], input="\n".join([*typed, ""]), env={"COLUMNS": "80"}
        )
    [asked] = [question for question in run.output.split("\n\n") if ": 221/2\n" in question]
    return f"{asked}\n"


def _with_block(text: str, mark: str, shown: str) -> str:
    start = text.index(mark) + len(mark) + 1
    end = text.index("<!-- end -->", start)
    return f"{text[:start]}```text\n{shown}```\n{text[end:]}"


@pytest.mark.parametrize(("example", "name"), OUTPUTS)
def test_example_prints_what_stands_beside_it(example: Path, name: str) -> None:
    assert output_file(example, name).read_text() == printed(commands_for(example)[name], example)


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_example_fits_80_columns(example: Path) -> None:
    for name in commands_for(example):
        longest = max(output_file(example, name).read_text().split("\n"), key=len)
        assert len(longest) <= 80 or longest.startswith("examples/"), longest


@pytest.mark.parametrize("page", PAGES, ids=lambda path: path.stem)
def test_page_shows_what_the_program_prints(page: Path, tmp_path: Path) -> None:
    assert with_outputs(page.read_text(), tmp_path) == page.read_text()


def test_first_piece_of_the_guide_has_no_mistake(tmp_path: Path) -> None:
    file = tmp_path / "my-shelf.toml"
    file.write_text(first_piece(FIRST_PIECE.read_text()))
    assert printed(("check",), file) == "No mistakes.\n"


def reordered(text: str) -> str:
    """Return a piece file with its tables in the opposite order, steps with their zone."""
    starts = [m.start() for m in re.finditer(r"^\[", text, re.MULTILINE)]
    tables = [text[a:b] for a, b in itertools.pairwise([*starts, len(text)])]
    groups: list[str] = []
    for table in tables:
        head = table.split("]")[0]
        if head == "[[zone.step" or (
            groups and groups[-1].startswith(head + "]]\n") and (head.startswith("[[schedule."))
        ):
            groups[-1] += table
        else:
            groups.append(table)
    return "\n".join(reversed(groups))


def as_sets(job: MeasuredPiece) -> tuple[dict, dict]:
    """Return area and lines by zone, and needs, packs and cost by supply, in no order."""
    zones = {zone.zone.name: (zone.area_m2, zone.meets_m) for zone in job.measured.zones}
    return zones, {
        (one.name, one.grit): (
            [one.need.low, one.need.likely, one.need.high, one.need.buy_for],
            [(pack.text, count) for pack, count in one.buy],
            one.cost,
        )
        for one in supplies(job)
    }


@pytest.mark.parametrize("name", SHEETS)
def test_sheet_beside_the_example_is_what_comes_off_the_printer(name: str, tmp_path: Path) -> None:
    make_sheet(name, tmp_path / name)
    assert read_sheet(ROOT / "examples" / name) == read_sheet(tmp_path / name)


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_example_is_as_drawn_and_survives_having_its_tables_in_another_order(
    example: Path, tmp_path: Path
) -> None:
    other = tmp_path / example.name
    for mesh in example.parent.glob("*.obj"):
        shutil.copy(mesh, tmp_path)
    other.write_text(reordered(example.read_text()))
    assert other.read_text() != example.read_text()
    job = measure(read_piece(example))  # raises where there is a mistake
    drawing = example.with_suffix(".svg").read_text()
    for zone in job.measured.one.zones:
        assert f">{format_area(zone.area_m2, Units.of(job.piece.settings.unit))}<" in drawing
    (zones, bought), (other_zones, other_bought) = (
        as_sets(job),
        as_sets(measure(read_piece(other))),
    )
    assert zones.keys() == other_zones.keys()
    for name, (area_m2, meets_m) in zones.items():
        # sums of the same numbers in another order
        assert area_m2 == pytest.approx(other_zones[name][0], rel=1e-12, abs=1e-15)
        assert meets_m == pytest.approx(other_zones[name][1], rel=1e-12)
    assert bought.keys() == other_bought.keys()
    for key, (need, packs, cost) in bought.items():
        assert need == pytest.approx(other_bought[key][0], rel=1e-9)
        assert (packs, cost) == other_bought[key][1:]


if __name__ == "__main__":
    import os
    import tempfile
    import time

    os.environ["TZ"] = "UTC"  # waits go by the computer's clock; see tests/conftest.py
    time.tzset()

    for path in EXAMPLES:
        for output, command in commands_for(path).items():
            output_file(path, output).write_text(printed(command, path))
        printed(("draw",), path)
    for sheet in SHEETS:
        make_sheet(sheet, ROOT / "examples" / sheet)
    for shown_page in PAGES:
        with tempfile.TemporaryDirectory() as scratch:
            shown_page.write_text(with_outputs(shown_page.read_text(), Path(scratch)))
