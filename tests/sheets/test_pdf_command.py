"""`sheet --pdf`: its file, what it writes over, and what is said where it cannot be made."""

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner

from surfacecalc.commands import app
from surfacecalc.sheets.pdf.printing import is_printed_sheet

Run = Callable[..., Any]


@pytest.fixture
def piece(tmp_path: Path, box_text: str) -> Path:
    path = tmp_path / "box.toml"
    path.write_text(box_text)
    return path


@pytest.fixture
def run() -> Run:
    def run(*words: object) -> Any:
        return CliRunner().invoke(app, ["sheet", *map(str, words)])

    return run


@pytest.mark.parametrize(
    ("words", "name"),
    [(["--pdf"], "box.pdf"), (["--pdf", "--client"], "box-client.pdf")],
    ids=["shop", "client"],
)
def test_pdf_goes_beside_the_piece_file(words: list[str], name: str, piece: Path, run: Run) -> None:
    result = run(piece, *words)
    assert (0, f"Wrote {piece.with_name(name)}\n") == (result.exit_code, result.output)
    assert is_printed_sheet(piece.with_name(name).read_bytes())
    assert not piece.with_suffix(".html").exists()


def test_several_files_make_one_pdf(piece: Path, box_text: str, run: Run) -> None:
    other = piece.with_name("other.toml")
    other.write_text(box_text.replace("NAME", "Other"))
    assert 0 == run(piece, other, "--pdf").exit_code
    assert is_printed_sheet(piece.with_name("box-and-1-more.pdf").read_bytes())


def test_a_name_that_ends_in_pdf_means_the_same(piece: Path, run: Run) -> None:
    target = piece.with_name("Sheet.PDF")
    assert 0 == run(piece, "--to", target).exit_code
    assert 0 == run(piece, "--pdf", "--to", piece.with_name("b.pdf")).exit_code
    assert target.read_bytes() == piece.with_name("b.pdf").read_bytes()


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["--pdf", "--to", "x.html"], '"x.html": with --pdf, the name must end in .pdf'),
        (["--to", "x.txt"], '"x.txt": the name must end in .html or .pdf'),
    ],
)
def test_name_that_ends_otherwise_is_wrong_usage(
    words: list[str], told: str, piece: Path, run: Run
) -> None:
    result = run(piece, *words)
    assert 2 == result.exit_code
    assert told in result.stderr


def test_only_a_sheet_is_written_over_unasked(piece: Path, run: Run) -> None:
    target = piece.with_suffix(".pdf")
    target.write_bytes(b"%PDF-1.7\nletter to a friend")
    result = run(piece, "--pdf")
    assert 2 == result.exit_code
    assert "already exists and is not a sheet made by this program; add --replace" in result.stderr
    assert target.read_bytes().endswith(b"friend")
    assert 0 == run(piece, "--pdf", "--replace").exit_code
    assert f"Replaced {target}\n" == run(piece, "--pdf").output


def test_without_the_extra_one_sentence_tells_what_to_install(
    piece: Path, run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "typst", None)  # so that to import it fails
    result = run(piece, "--pdf")
    assert (1, "") == (result.exit_code, result.stdout)
    assert 'PDF needs one more package; run: .venv/bin/pip install ".[pdf]"\n' == result.stderr
    assert [piece] == list(piece.parent.iterdir())


def test_letters_without_a_font_are_listed_and_the_rest_is_written(
    piece: Path, box_text: str, run: Run
) -> None:
    piece.write_text(box_text.replace("NAME", "Box \U00012000"), encoding="utf-8")
    result = run(piece, "--pdf")
    assert 0 == result.exit_code
    assert "print as empty boxes: \U00012000\n" in result.stderr
    assert is_printed_sheet(piece.with_suffix(".pdf").read_bytes())


def test_pages_are_made_without_the_typesetter(piece: Path) -> None:
    program = (
        "import sys\nfrom surfacecalc.commands import app\n"
        f"try: app(['sheet', {str(piece)!r}])\nexcept SystemExit: print('typst' in sys.modules)"
    )
    result = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, timeout=60, check=True
    )
    assert ["False"] == result.stdout.splitlines()[1:]


def test_mistakes_in_the_file_leave_no_pdf(piece: Path, box_text: str, run: Run) -> None:
    piece.write_text(box_text.replace("coats = 2", "coats = 0"))
    result = run(piece, "--pdf")
    assert 1 == result.exit_code
    assert f"{piece}:" in result.stderr
    assert [piece] == list(piece.parent.iterdir())
