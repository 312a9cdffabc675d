"""Every line that README and guide tell a reader to type does what it should, in their order."""

import re
import shlex
import shutil
import tomllib
from pathlib import Path

import pytest
from typer.testing import CliRunner

from surfacecalc.commands import app

ROOT = Path(__file__).parents[2]
COMMAND = re.compile(r"^ {4}\$ (.+)$|\| `(surfacecalc [^`]+)` \|$", re.MULTILINE)
"""A line to type, or the last cell of a table that has one."""
FIRST_PIECE = re.compile(r"<!-- first piece -->\n```toml\n(.*?)```", re.DOTALL)
SET_UP = ("python3 -m venv ", "source ")
"""What is typed to get as far as the command; .ci/run does it."""
NIGHTSTAND = ["nightstand", "", "", "in", "22 1/2", "16 1/8", "26 1/4", "", "5 3/4", "", "", "2",
              "", "paint", "varnished"]  # fmt: skip
"""What somebody types who is asked by `new`; the rest is Enter."""


@pytest.fixture
def workshop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, pages: dict[str, str]) -> Path:
    """Return a folder with the examples and the guide's first piece, and go there."""
    shutil.copytree(ROOT / "examples", tmp_path / "examples")
    piece = FIRST_PIECE.search(pages["a-piece-file-by-hand"])
    assert piece
    (tmp_path / "my-shelf.toml").write_text(piece[1])
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("shellingham.detect_shell", lambda *_: ("bash", "/bin/bash"))
    return tmp_path


def commands(text: str) -> list[str]:
    return [line or cell for line, cell in COMMAND.findall(text)]


def run(words: list[str]) -> tuple[int, str]:
    asked = words == ["new"]  # where somebody would be at the terminal
    typed = "\n".join([*NIGHTSTAND, *[""] * 30])
    result = CliRunner().invoke(app, [*words, *["--ask"] * asked], input=typed if asked else None)
    return result.exit_code, result.output


def test_commands_work(page_name: str, pages: dict[str, str], workshop: Path) -> None:
    extras = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]
    for line in commands(pages[page_name]):
        if line.startswith(SET_UP):
            continue
        if line.startswith(".venv/bin/pip install "):
            extra = re.fullmatch(r'\.venv/bin/pip install "\.\[(\w+)\]"', line)
            assert extra
            assert extra[1] in extras["optional-dependencies"]
            continue
        name, *words = shlex.split(line)
        assert name == "surfacecalc", line
        code, output = run(words)
        assert code == 0, f"{line}\n{output}"


def test_readme_leads_from_the_tape_to_a_printed_sheet(
    pages: dict[str, str], workshop: Path
) -> None:
    lines = commands(pages["README"])
    for line in lines[: lines.index("surfacecalc sheet nightstand.toml --pdf") + 1]:
        if line.startswith("surfacecalc "):
            run(shlex.split(line)[1:])
    assert b"%PDF-" == (workshop / "nightstand.pdf").read_bytes()[:5]
    assert (workshop / "nightstand.html").read_text().startswith("<!DOCTYPE html>")


def test_readme_has_the_two_lines_that_set_everything_up(pages: dict[str, str]) -> None:
    """.ci/run finds them by these words."""
    lines = [line for line in commands(pages["README"]) if line.startswith("python3 -m venv ")]
    assert ["surfacecalc supplies" in line for line in lines] == [True, False]
    assert ["pytest" in line for line in lines] == [False, True]
