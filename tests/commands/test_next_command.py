"""Whatever stops a command, what it prints names the command to run next, once."""

import re
import shlex
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from surfacecalc.commands.next_command import check_of

Run = Callable[..., Any]

NEED_A_GOOD_FILE = ["areas", "supplies", "jars", "plan", "quote", "draw", "sheet"]
"""Commands that need a file without mistakes."""
WITH_A_FILE = ["check", *NEED_A_GOOD_FILE]
NEW = "To make a piece file: surfacecalc new"


def last_line(result: Any) -> str:
    return str(result.stderr.splitlines()[-1])


def typed(line: str) -> list[str]:
    """Return the words of the command at the end of a line, as a shell reads them."""
    words = shlex.split(line[line.index("surfacecalc ") :])
    assert words.pop(0) == "surfacecalc"
    return words


@pytest.mark.parametrize("command", NEED_A_GOOD_FILE)
def test_mistakes_are_followed_by_the_check_of_that_file(
    command: str, files: Path, run: Run
) -> None:
    path = files / "mistakes.toml"
    result = run(command, path)
    assert (1, "") == (result.exit_code, result.stdout)
    assert f"Fix this first, then run: surfacecalc check {path}" == last_line(result)
    assert 1 == result.stderr.count("surfacecalc check")


def test_the_check_after_mistakes_is_a_command_that_works(files: Path, run: Run) -> None:
    spaced = files / "my 'old' chest.toml"
    (files / "mistakes.toml").rename(spaced)
    words = typed(last_line(run("areas", spaced)))
    assert ["check", str(spaced)] == words
    assert run(*words).stdout.startswith(f"{spaced}:")


@pytest.mark.parametrize("command", NEED_A_GOOD_FILE)
def test_a_missing_file_is_followed_by_the_one_that_was_meant(
    command: str, files: Path, run: Run
) -> None:
    for wrong in ("chets.toml", "chest", "Chest.txt"):
        result = run(command, files / wrong)
        assert (1, "") == (result.exit_code, result.stdout)
        meant = files / "chest.toml"
        assert f"Did you mean this one? surfacecalc check {meant}" == last_line(result)
    assert 0 == run(*typed(last_line(result))).exit_code


def test_the_check_of_what_is_no_file_names_one_that_is(files: Path, run: Run) -> None:
    for wrong, said in ((files / "chets.toml", "Did you mean this one?"), (files, "For example:")):
        result = run("check", wrong)
        assert (1, 1) == (result.exit_code, len(result.stdout.splitlines()))
        assert last_line(result).startswith(f"{said} surfacecalc check {files}")
    result = run("check", files / "mistakes.toml")
    assert (1, "") == (result.exit_code, result.stderr)


@pytest.mark.parametrize("command", NEED_A_GOOD_FILE)
def test_a_missing_file_with_nothing_like_it_is_followed_by_the_guided_start(
    command: str, files: Path, tmp_path: Path, run: Run
) -> None:
    (tmp_path / "xylophone.toml").write_text("[tool]\n")  # no piece file
    for wrong in (files / "xylophone-2.toml", tmp_path / "no folder" / "chest.toml"):
        assert NEW == last_line(run(command, wrong))


@pytest.mark.parametrize("command", NEED_A_GOOD_FILE)
def test_a_folder_is_followed_by_a_piece_file_in_it(
    command: str, files: Path, tmp_path: Path, run: Run
) -> None:
    to = ["--to", tmp_path / "out.html"] if command in ("draw", "sheet") else []
    result = run(command, files, *to)
    assert f"For example: surfacecalc check {files / 'bench.toml'}" == last_line(result)
    empty = tmp_path / "empty"
    empty.mkdir()
    assert NEW == last_line(run(command, empty, *to))


def test_a_folder_that_cannot_be_looked_into_is_no_crash(
    files: Path, run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object) -> None:
        raise PermissionError

    monkeypatch.setattr(Path, "glob", refuse)
    assert NEW == last_line(run("areas", files / "chets.toml"))


def test_a_name_too_long_for_a_file_is_no_crash(files: Path, run: Run) -> None:
    result = run("areas", files / ("long" * 200))
    assert (1, NEW) == (result.exit_code, last_line(result))


def test_the_check_is_of_the_first_file_with_a_mistake(files: Path, run: Run) -> None:
    paths = [files / f"{name}.toml" for name in ("chest", "mistakes", "bench")]
    result = run("supplies", *paths)
    assert ["check", str(paths[1])] == typed(last_line(result))


@pytest.mark.parametrize("command", NEED_A_GOOD_FILE[:-2])
def test_json_says_nothing_beside_its_object(command: str, files: Path, run: Run) -> None:
    for name in ("mistakes.toml", "chets.toml"):
        result = run(command, files / name, "--json")
        assert (1, "") == (result.exit_code, result.stderr)


@pytest.mark.parametrize("command", WITH_A_FILE)
def test_no_file_at_all_is_followed_by_the_command_with_one(
    command: str, files: Path, run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(files)
    result = run(command)
    assert (2, "") == (result.exit_code, result.stdout)
    assert last_line(result).startswith("No piece file is given. ")
    assert [command, "bench.toml"] == typed(last_line(result))


@pytest.mark.parametrize("command", WITH_A_FILE)
def test_no_file_where_there_is_none_is_followed_by_the_guided_start(
    command: str, tmp_path: Path, run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    result = run(command)
    assert 2 == result.exit_code
    assert last_line(result).endswith(NEW)


def test_a_file_in_the_place_of_a_command_is_followed_by_its_check(files: Path, run: Run) -> None:
    path = files / "chest.toml"
    result = run(path, "--json")
    assert 2 == result.exit_code
    assert f'"{path}" is a file, not a command. To check it: surfacecalc check {path}' == (
        last_line(result)
    )
    assert 0 == run(*typed(last_line(result).partition("To check it: ")[2])).exit_code


def test_a_command_that_is_none_is_followed_by_the_one_that_was_meant(run: Run) -> None:
    result = run("suplies", "chest.toml")
    assert 2 == result.exit_code
    assert "Did you mean 'supplies'?" in last_line(result)


@pytest.mark.parametrize("wrong", [["areas", "a.toml", "--unit", "imperial"], ["--nonsense"]])
def test_any_other_wrong_usage_names_the_help(wrong: list[str], run: Run) -> None:
    result = run(*wrong)
    assert 2 == result.exit_code
    assert re.search(r"To see what is possible: .* --help$", result.stderr.rstrip())
    assert NEW not in result.stderr


def test_commands_are_told_as_they_can_be_typed(monkeypatch: pytest.MonkeyPatch) -> None:
    """In an environment that is not active, by the path that the program was called by."""
    monkeypatch.setattr("sys.argv", [".venv/bin/surfacecalc", "check"])
    monkeypatch.setattr("shutil.which", lambda name: None)
    assert ".venv/bin/surfacecalc check shelf.toml" == check_of(Path("shelf.toml"))
    monkeypatch.setattr("shutil.which", lambda name: f"/somewhere/{name}")
    assert "surfacecalc check shelf.toml" == check_of(Path("shelf.toml"))
