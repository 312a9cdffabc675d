"""Exit codes: 0 done, 1 the file has mistakes, 2 wrong usage. What goes where."""

import json
import os
import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from string import ascii_uppercase
from typing import Any

import pytest

from surfacecalc.commands.areas_and_supplies import verdict

Run = Callable[..., Any]
RunProcess = Callable[..., subprocess.CompletedProcess[str]]

COMMANDS = ["check", "areas", "supplies", "jars", "plan", "quote"]


@pytest.mark.parametrize("command", COMMANDS)
@pytest.mark.parametrize("piece", ["chest.toml", "bench.toml"])
def test_good_file_ends_with_0_and_nothing_on_the_error_stream(
    command: str, piece: str, files: Path, run: Run
) -> None:
    result = run(command, files / piece)
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout.strip()


@pytest.mark.parametrize("command", COMMANDS)
def test_missing_file_ends_with_1(command: str, tmp_path: Path, run: Run) -> None:
    result = run(command, tmp_path / "none.toml")
    assert result.exit_code == 1
    assert "was not found" in result.output
    assert "none.toml: " in result.output


@pytest.mark.parametrize("command", COMMANDS)
def test_folder_ends_with_1(command: str, tmp_path: Path, run: Run) -> None:
    result = run(command, tmp_path)
    assert result.exit_code == 1
    assert "is a folder" in result.output


@pytest.mark.parametrize("command", COMMANDS[1:])
def test_mistakes_are_printed_alone_on_the_error_stream(
    command: str, files: Path, run: Run
) -> None:
    path = files / "mistakes.toml"
    result = run(command, path)
    assert (result.exit_code, result.stdout) == (1, "")
    problems = [line for line in result.stderr.splitlines() if line.startswith(f"{path}:")]
    assert [bool(re.match(r":\d+: ", line.removeprefix(str(path)))) for line in problems] == [
        True,
        True,
    ]


def test_check_prints_mistakes_as_its_answer(files: Path, run: Run) -> None:
    path = files / "mistakes.toml"
    result = run("check", path)
    assert (result.exit_code, result.stderr) == (1, "")
    assert all(line.startswith(f"{path}:") for line in result.stdout.splitlines())
    assert len(result.stdout.splitlines()) == 2


def test_check_of_a_good_file_says_so(files: Path, run: Run) -> None:
    assert run("check", files / "chest.toml").stdout == "No mistakes.\n"


def test_verdict_counts_the_notes_above_it() -> None:
    assert ["No mistakes.", "No mistakes. 1 note above.", "No mistakes. 2 notes above."] == [
        verdict(notes) for notes in (0, 1, 2)
    ]


def test_notes_do_not_fail(files: Path, run: Run) -> None:
    path = files / "chest.toml"
    path.write_text(path.read_text().replace("grits = [120, 180]", "grits = [180, 120]"))
    result = run("check", path)
    assert result.exit_code == 0
    assert re.search(r":\d+: note: sand: ", result.stdout)
    assert result.stdout.endswith("\nNo mistakes. 1 note above.\n")


@pytest.mark.parametrize(
    "arguments",
    [
        ["check"],
        ["areas"],
        ["supplies"],
        ["jars"],
        ["check", "a.toml", "b.toml"],
        ["jars", "a.toml", "b.toml"],
        ["plan", "a.toml", "--json", "--csv"],
        ["sand", "a.toml"],
        ["areas", "a.toml", "--unit", "imperial"],
        ["areas", "a.toml", "--unit"],
        ["supplies", "a.toml", "--whi"],
        ["supplies", "a.toml", "--json", "--csv"],
        ["check", "a.toml", "--why"],
        ["--nonsense"],
    ],
    ids=" ".join,
)
def test_wrong_usage_ends_with_2_and_prints_no_answer(arguments: list[str], run: Run) -> None:
    result = run(*arguments)
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr[:1] in ascii_uppercase + '-"'
    assert not re.search(r"Usage: |Error: |Invalid value|[Mm]issing argument", result.stderr)


def test_a_sentence_of_ours_is_printed_alone(run: Run) -> None:
    result = run("supplies", "a.toml", "--json", "--csv")
    assert (2, "Give --json or --csv, not both.\n") == (result.exit_code, result.stderr)
    topic = run("guide", "partss")
    assert (2, 'The guide has no page about "partss"; did you mean "parts"?\n') == (
        (topic.exit_code, topic.stderr)
    )
    unit = run("areas", "a.toml", "--unit", "imperial").stderr.splitlines()
    assert unit[0].startswith("--unit: 'imperial' is not one of")
    assert 2 == len(unit)


@pytest.mark.parametrize("words", [["quote", "chest.toml"], ["guide", "no such topic at all"]])
def test_no_word_of_a_mistake_is_broken_on_a_narrow_screen(
    words: list[str], files: Path, run_in_terminal: Callable[..., str]
) -> None:
    path = files / "chest.toml"
    path.write_text(path.read_text().replace("[price]\nrate = 30", ""))
    shown = run_in_terminal(*words, columns=60, folder=files)
    lines = shown.splitlines()
    assert 1 < len(lines)
    assert max(map(len, lines)) <= 60
    known = {"quote": "(what you want to earn an hour)", "guide": "no such topic at all"}
    assert known[words[0]] in " ".join(shown.split())


def test_no_arguments_show_the_help(run: Run) -> None:
    result = run()
    assert "supplies" in result.output
    assert "Traceback" not in result.output


@pytest.mark.parametrize("command", ["", *COMMANDS])
def test_help_ends_with_0_and_has_an_example(command: str, run: Run) -> None:
    result = run(*([command] if command else []), "--help")
    assert result.exit_code == 0
    example = re.search(r"Example: (surfacecalc .+)", result.stdout)
    assert example
    assert command in example[1]


@pytest.mark.parametrize("command", ["", *COMMANDS])
def test_example_of_the_help_is_a_command_that_works(
    command: str, run: Run, request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch
) -> None:
    text = " ".join(run(*([command] if command else []), "--help").stdout.split())
    example = re.search(r"Example: surfacecalc (\S+ \S+\.toml(?: --\w+)*)", text)
    assert example
    monkeypatch.chdir(request.config.rootpath)
    assert run(*example[1].split()).exit_code == 0


def test_version_is_one_line(run: Run) -> None:
    result = run("--version")
    assert result.exit_code == 0
    assert re.fullmatch(r"surfacecalc \d+\.\d+\.\d+\n", result.stdout)


def test_pack_far_too_small_is_told_with_its_line(files: Path, run: Run) -> None:
    """Every mistake in a file has a line, also the one that only shows when packs are chosen."""
    path = files / "chest.toml"
    text = path.read_text().replace('size = "125 ml", price = 11 }, { size = "500 ml", price = 29',
                                    'size = "0.000001 ml", price = 11')  # fmt: skip
    path.write_text(text)
    result = run("supplies", path)
    assert (result.exit_code, result.stdout) == (1, "")
    line = text[: text.index("0.000001")].count("\n") + 1
    assert any(result.stderr.startswith(f"{path}:{line - back}: ") for back in range(5))


@pytest.mark.parametrize("command", COMMANDS)
@pytest.mark.parametrize("piece", ["chest.toml", "mistakes.toml", "none.toml"])
def test_json_is_one_object_and_nothing_else(
    command: str, piece: str, files: Path, run: Run
) -> None:
    result = run(command, files / piece, "--json")
    found = json.loads(result.stdout)
    assert isinstance(found, dict)
    assert result.stderr == ""
    assert result.exit_code == (0 if piece == "chest.toml" else 1)
    assert ("problems" in found) == (piece != "chest.toml" or command == "check")


def test_real_processes_end_with_0_1_and_2(files: Path, run_process: RunProcess) -> None:
    runs = [
        run_process("supplies", files / "chest.toml"),
        run_process("supplies", files / "mistakes.toml"),
        run_process("supplies", files / "none.toml"),
        run_process("supplies"),
    ]
    assert [0, 1, 1, 2] == [result.returncode for result in runs]
    assert [True, False, False, False] == [bool(result.stdout) for result in runs]
    assert all("Traceback" not in result.stderr for result in runs)
    assert runs[0].stderr == ""


def test_areas_of_several_files_end_with_1_where_one_needs_mending(files: Path, run: Run) -> None:
    result = run("areas", files / "chest.toml", files / "mistakes.toml", files / "bench.toml")
    assert result.exit_code == 1
    assert "Chest on legs" in result.stdout
    assert "Piano bench" in result.stdout
    assert "mistakes.toml:" in result.stderr


def test_areas_of_several_files_are_one_object_in_the_order_asked(files: Path, run: Run) -> None:
    paths = [files / f"{name}.toml" for name in ("bench", "mistakes", "chest")]
    result = run("areas", *paths, "--json")
    assert result.exit_code == 1
    found = json.loads(result.stdout)["files"]
    assert [str(path) for path in paths] == [entry["file"] for entry in found]
    assert ["piece" in entry for entry in found] == [True, False, True]
    assert "problems" in found[1]


def test_ctrl_c_while_the_program_is_still_loading_shows_no_traceback(
    environment: dict[str, str], tmp_path: Path
) -> None:
    """The module that loads first stands for all: it is stopped as the keyboard would stop it."""
    (tmp_path / "typer.py").write_text("raise KeyboardInterrupt\n")
    result = subprocess.run(
        [sys.executable, "-c", "from surfacecalc.__main__ import main; main()"],
        capture_output=True, text=True, timeout=60, check=False,
        env={**environment, "PYTHONPATH": f"{tmp_path}{os.pathsep}{environment['PYTHONPATH']}"},
    )  # fmt: skip
    assert (130, "", "") == (result.returncode, result.stdout, result.stderr)


@pytest.mark.parametrize("command", ["sheet", "draw"])
@pytest.mark.parametrize("name", [".", "x" * 300 + ".toml"], ids=["folder", "long"])
def test_a_path_that_is_no_file_is_told_by_what_writes_too(
    command: str, name: str, run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    result = run(command, name)
    assert (1, "") == (result.exit_code, result.stdout)


@pytest.mark.parametrize("words", [("sheet", "--to", "{}.html"), ("draw", "--to", "{}.svg"),
                                   ("plan", "--calendar", "{}.ics")], ids=" ".join)  # fmt: skip
def test_what_cannot_be_written_is_told_in_one_sentence(
    words: tuple[str, ...], files: Path, run: Run
) -> None:
    command, option, name = words
    target = files / name.format("y" * 300)
    result = run(command, files / "bench.toml", option, target)
    assert 1 == result.exit_code
    assert "cannot be written: File name too long" in result.stderr
    pipe = files / name.format("pipe")
    os.mkfifo(pipe)
    replacing = ["--replace"] * (command == "plan")
    result = run(command, files / "bench.toml", option, pipe, *replacing)
    assert 1 == result.exit_code
    assert "is not a regular file" in result.stderr
    assert pipe.is_fifo()


@pytest.mark.parametrize("words", [("sheet", "html", "--to"), ("draw", "svg", "--to"),
                                   ("plan", "ics", "--calendar")], ids=" ".join)  # fmt: skip
def test_a_piece_file_is_never_written_over(words: tuple[str, ...], files: Path, run: Run) -> None:
    command, ending, option = words
    file = files / f"piece.{ending}"
    text = (files / "bench.toml").read_text()
    file.write_text(text)
    replacing = ["--replace"] * (command != "draw")
    result = run(command, file, option, file, *replacing)
    assert 2 == result.exit_code
    assert "is the piece file itself" in result.stderr
    assert text == file.read_text()


@pytest.mark.parametrize("columns", ["0", "1", "20"])
def test_a_terminal_without_a_width_still_shows_the_list(
    columns: str, files: Path, run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", columns)
    shown = run("supplies", files / "chest.toml").stdout
    assert "body paint" in shown
    assert max(map(len, shown.splitlines())) <= 80
