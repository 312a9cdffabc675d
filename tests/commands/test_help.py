"""Help of every command has an example that is right, and a shell completes what is typed."""

import re
import shlex
import subprocess
import sys
from collections.abc import Callable
from typing import Any

import pytest

from surfacecalc.commands import app

Run = Callable[..., Any]
Complete = Callable[..., list[str]]

COMMANDS = [str(command.name) for command in app.registered_commands]
HEAVY = {"manifold3d", "numpy", "pint", "scipy", "shapely", "trimesh"}
PROGRAM = """\
import sys
sys.argv = ["surfacecalc"]
from surfacecalc.__main__ import main
try:
    main()
finally:
    print(*{name.partition(".")[0] for name in sys.modules}, file=sys.stderr)
"""


def test_every_command_is_in_the_help(run: Run) -> None:
    """Each with a whole sentence, none cut short by the width of the screen."""
    shown = run("--help").stdout.partition("Commands:\n")[2]
    assert COMMANDS == re.findall(r"^  ([a-z]+) +[A-Z].*[a-z]\.$", shown, re.MULTILINE)
    assert "..." not in shown


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_has_an_example_of_itself(command: str, run: Run) -> None:
    result = run(command, "--help")
    assert 0 == result.exit_code
    text = " ".join(result.stdout.split())
    example = re.search(rf"Example: surfacecalc {command}\b(.*?)(?: Arguments: | Options: )", text)
    assert example
    options = [word for word in shlex.split(example[1]) if word.startswith("--")]
    assert all(f"{option} " in text.partition("Options:")[2] for option in options)


@pytest.fixture
def complete(environment: dict[str, str]) -> Complete:
    """Return a function that gives what bash is offered after some words, the last one unfinished.

    It checks that nothing heavy was imported: whoever presses the key waits.
    """

    def run(typed: str) -> list[str]:
        asked = {
            "_SURFACECALC_COMPLETE": "complete_bash",
            "COMP_WORDS": f"surfacecalc {typed}",
            "COMP_CWORD": str(len(typed.split(" "))),
        }
        result = subprocess.run(
            [sys.executable, "-c", PROGRAM], capture_output=True, text=True, timeout=60,
            check=True, env={**environment, **asked},
        )  # fmt: skip
        assert set() == HEAVY & set(result.stderr.split())
        return result.stdout.split()

    return run


def test_completion_answers_with_the_commands(complete: Complete) -> None:
    assert COMMANDS == complete("")


@pytest.mark.parametrize(
    ("typed", "offered"),
    [
        ("su", ["supplies"]),
        ("areas --fa", ["--faces"]),
        ("supplies chest.toml --wh", ["--why"]),
        ("areas chest.toml --unit ", ["metric", "us"]),
        ("sheet --paper l", ["letter"]),
        ("new d", ["dresser", "desk", "doors"]),
        ("guide p", ["parts", "products", "plan-and-price"]),
        ("check che", []),  # a file: bash itself completes it
    ],
)
def test_completion_answers_with_options_and_their_values(
    typed: str, offered: list[str], complete: Complete
) -> None:
    assert offered == complete(typed)


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_completion_is_installed_for_the_shell_in_use(
    shell: str, run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("shellingham.detect_shell", lambda *_: (shell, f"/bin/{shell}"))
    result = run("--show-completion")
    assert 0 == result.exit_code
    assert f"complete_{shell}" in result.stdout
    assert "surfacecalc" in result.stdout


def test_shells_other_than_bash_are_asked_to_complete_files(environment: dict[str, str]) -> None:
    asked = {"_SURFACECALC_COMPLETE": "complete_zsh", "_TYPER_COMPLETE_ARGS": "surfacecalc check c"}
    result = subprocess.run(
        [sys.executable, "-c", PROGRAM], capture_output=True, text=True, timeout=60, check=True,
        env={**environment, **asked},
    )  # fmt: skip
    assert "_files" == result.stdout.strip()
