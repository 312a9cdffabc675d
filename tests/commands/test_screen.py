"""What is printed for people: units, width, colours, and texts that could do harm."""

import csv
import io
import os
import pty
import subprocess
import sys
import unicodedata
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Run = Callable[..., Any]
RunProcess = Callable[..., subprocess.CompletedProcess[str]]

COMMANDS = [
    ["check"], ["areas"], ["areas", "--faces"], ["supplies"], ["supplies", "--why"], ["jars"],
    ["plan"], ["quote"],
]  # fmt: skip
ESCAPE = "\x1b"

NASTY = {
    "signs that move, colour, hide or turn text": (
        "one\\ntwo\\r\\u0007\\b\\u001b[31mred\\u001b[0m\\u001b]0;title\\u0007\\u009b31mred\\u202eevil\\u202c"
        "\\u2067evil\\u2069zero\\u200bwidth\\u2028two\\u2029three"
    ),
    "markup": "[bold red]loud[/] :smile: [link=x]y[/link]",
    "a very long word": "x" * 300,
    "signs of two columns": "\u6a5f" * 60,
}
FORMULAS = ["=cmd|' /C calc'!A0", "+1+1", "-1+1", "@SUM(1)", "\\t=1+1"]


@pytest.fixture
def named(chest: str, tmp_path: Path) -> Callable[[str], Path]:
    """Return a function that makes a piece in which every name, kind and form has a word."""

    def make(word: str) -> Path:
        text = chest.replace('"Chest on legs"', f'"{word}"').replace('"125 mm disc"', f'"{word}"')
        for name in ("body paint", "leg stain", "disc"):
            text = text.replace(f'= "{name}"', f'= "{word} {name}"')
        text = text.replace('name = "body"\nfaces = ["body"]', f'name = "{word}"\nfaces = ["* b"]')
        text = text.replace('name = "body"\nshape', f'name = "{word} b"\nshape')
        text = text.replace('of = "body"', f'of = "{word} b"').replace("loss = ", "# loss = ")
        path = tmp_path / "nasty.toml"
        path.write_text(text, encoding="utf-8")
        return path

    return make


@pytest.fixture(params=NASTY.values(), ids=list(NASTY))
def nasty(request: pytest.FixtureRequest, named: Callable[[str], Path]) -> Path:
    """Return a piece in which every name, kind and form is a text that could do harm."""
    return named(request.param)


def unsafe(text: str) -> set[str]:
    """Return the signs in a text that could move a cursor, hide or turn text."""
    return {sign for sign in text if sign != "\n" and unicodedata.category(sign)[0] == "C"} | {
        sign for sign in text if unicodedata.category(sign) in ("Zl", "Zp")
    }


@pytest.mark.parametrize("command", COMMANDS, ids=" ".join)
def test_names_cannot_do_harm_on_the_screen(command: list[str], nasty: Path, run: Run) -> None:
    result = run(command[0], nasty, *command[1:])
    assert result.exit_code == 0, result.output
    assert unsafe(result.output) == set()


def test_markup_in_names_is_shown_as_it_is(named: Callable[[str], Path], run: Run) -> None:
    assert "[red]loud[/] :smile:" in run("areas", named("[red]loud[/] :smile:")).output


def test_names_cannot_do_harm_in_messages(nasty: Path, run: Run) -> None:
    nasty.write_text(nasty.read_text().replace("coats = 3", "coats = 0").replace("1000", "-1000"))
    result = run("supplies", nasty)
    assert (result.exit_code, result.stdout) == (1, "")
    assert unsafe(result.stderr) == set()
    assert len(result.stderr.splitlines()) == 3


@pytest.mark.parametrize("word", [*NASTY.values(), *FORMULAS])
def test_names_cannot_do_harm_in_csv(word: str, named: Callable[[str], Path], run: Run) -> None:
    """No cell starts a formula, none holds a sign that hides text, and no row is broken."""
    text = run("supplies", named(word), "--csv").stdout
    rows = list(csv.reader(io.StringIO(text)))
    assert {len(rows[0])} == {len(row) for row in rows}
    assert len(rows) == 6
    cells = [cell for row in rows for cell in row]
    assert [cell for cell in cells if cell.lstrip()[:1] in set("=+-@\t\r") and cell.strip()] == []
    assert [cell for cell in cells if unsafe(cell)] == []


@pytest.mark.parametrize("command", COMMANDS, ids=" ".join)
@pytest.mark.parametrize("piece", ["chest", "bench"])
def test_piped_output_is_at_most_80_columns_without_colour(
    command: list[str], piece: str, files: Path, run: Run
) -> None:
    shown = run(command[0], files / f"{piece}.toml", *command[1:]).stdout
    assert [line for line in shown.splitlines() if len(line) > 80] == []
    assert ESCAPE not in shown


@pytest.mark.parametrize("command", [["areas", "--faces"], ["supplies", "--why"]], ids=" ".join)
def test_long_names_stay_within_80_columns(command: list[str], nasty: Path, run: Run) -> None:
    shown = run(command[0], nasty, *command[1:]).stdout
    wide = {"W": 2, "F": 2}
    widths = [sum(wide.get(unicodedata.east_asian_width(s), 1) for s in line)
              for line in shown.splitlines()]  # fmt: skip
    assert max(widths) <= 80


def test_process_in_a_pipe_prints_80_columns_without_colour(
    files: Path, run_process: RunProcess
) -> None:
    result = run_process("supplies", files / "bench.toml", "--why")
    assert result.returncode == 0
    assert [line for line in result.stdout.splitlines() if len(line) > 80] == []
    assert ESCAPE not in result.stdout


def on_terminal(words: list[str], environment: dict[str, str]) -> str:
    """Return what a process prints on a terminal."""
    ours, theirs = pty.openpty()
    process = subprocess.Popen(
        [sys.executable, "-m", "surfacecalc", *words], stdout=theirs, stderr=theirs,
        stdin=subprocess.DEVNULL, env=environment,
    )  # fmt: skip
    os.close(theirs)
    shown = b""
    try:
        while block := os.read(ours, 65_536):
            shown += block
    except OSError:
        pass  # the other end has closed: that is how a terminal ends
    os.close(ours)
    assert process.wait(timeout=60) == 0
    return shown.decode()


def test_no_color_leaves_out_colours_and_bold_type_on_a_terminal(
    files: Path, environment: dict[str, str]
) -> None:
    words = ["areas", str(files / "chest.toml")]
    assert ESCAPE in on_terminal(words, environment)
    assert ESCAPE not in on_terminal(words, {**environment, "NO_COLOR": "1"})


@pytest.mark.parametrize(
    ("arguments", "piece", "shown", "hidden"),
    [
        (["areas"], "chest", " m2", "sq ft"),
        (["areas"], "bench", " sq ft", " m2"),
        (["areas", "--unit", "us"], "chest", " sq ft", " m2"),
        (["areas", "--unit", "metric"], "bench", " m2", "sq ft"),
        (["areas", "--unit", "us"], "bench", " in x ", " mm"),
        (["areas", "--unit", "metric"], "bench", "1028.7 mm", " in "),
        (["supplies"], "chest", "1.06 L", "fl oz"),
        (["supplies", "--unit", "us"], "chest", "fl oz", "1.06 L"),
        (["supplies"], "bench", " oz", " kg"),
        (["supplies", "--unit", "metric"], "bench", "153 g", "fl oz"),
        (["jars"], "chest", " ml", "fl oz"),
        (["jars", "--unit", "us"], "chest", "fl oz", " ml"),
    ],
)  # fmt: skip
def test_units_follow_the_piece_unless_asked_for(
    arguments: list[str], piece: str, shown: str, hidden: str, files: Path, run: Run
) -> None:
    output = run(arguments[0], files / f"{piece}.toml", *arguments[1:]).stdout
    assert shown in output
    assert hidden not in output


@pytest.mark.parametrize("unit", ["cm", "m", "ft"])
def test_units_follow_every_unit_of_a_piece(unit: str, tmp_path: Path, run: Run) -> None:
    path = tmp_path / "piece.toml"
    path.write_text(
        f'[piece]\nname = "p"\nunit = "{unit}"\n[[part]]\nname = "a"\nshape = "board"\n'
        'width = 1\ndepth = 1\nheight = 1\n[[zone]]\nname = "z"\nfaces = ["*"]\nleave = true\n'
    )
    assert ("sq ft" if unit == "ft" else "m2") in run("areas", path).stdout


def test_reader_that_has_gone_is_not_complained_about(
    files: Path, environment: dict[str, str]
) -> None:
    for words in (["supplies", "--why"], ["areas", "--json"], ["check"]):
        process = subprocess.Popen(
            [sys.executable, "-m", "surfacecalc", words[0], str(files / "bench.toml"), *words[1:]],
            stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=environment,
        )  # fmt: skip
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.close()
        complaint = process.stderr.read().decode()
        process.stderr.close()
        process.wait(timeout=60)
        assert complaint == "", words


def test_terminal_that_knows_few_signs_gets_them_spelled_out(
    files: Path, run_process: RunProcess
) -> None:
    path = files / "chest.toml"
    path.write_text(path.read_text().replace("Chest on legs", "Tr\u00fche \u6a5f"), "utf-8")
    for more in (["--why"], ["--csv"]):
        result = run_process("supplies", path, *more, PYTHONIOENCODING="ascii", PYTHONUTF8="0")
        assert (result.returncode, result.stderr) == (0, "")
        assert result.stdout.isascii()


@pytest.mark.parametrize(
    "name", ["a b.toml", "=cmd.toml", "\u202egnp.toml", "-x.toml", "a\nb.toml"]
)
def test_names_of_files_cannot_do_harm(name: str, files: Path, run: Run) -> None:
    path = files / name
    path.write_text((files / "mistakes.toml").read_text())
    result = run("check", "--", path)
    assert result.exit_code == 1
    assert unsafe(result.output) == set()
    assert len(result.output.splitlines()) == 2


def test_name_of_a_file_that_is_no_text_is_shown(files: Path, run_process: RunProcess) -> None:
    path = os.fsencode(files) + b"/\xff.toml"
    with open(path, "w") as file:
        file.write((files / "mistakes.toml").read_text())
    result = run_process("check", os.fsdecode(path))
    assert result.returncode == 1
    assert "Traceback" not in result.stderr
    assert len(result.stdout.splitlines()) == 2
