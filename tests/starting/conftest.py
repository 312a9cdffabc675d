"""Pieces as people would answer for them, and how tests run `surfacecalc new`."""

import json
import os
import signal
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

import pexpect
import pytest
from typer.testing import CliRunner

from surfacecalc.commands import app, new_piece

MEASURES: dict[str, dict[str, str]] = {
    "chest": {
        "width": "42", "depth": "19 1/2", "height": "20", "lid-thickness": "3/4",
        "overhang": "none", "leg-height": "3", "leg-thickness": "2", "board": "3/4",
    },
    "dresser": {
        "width": "36", "depth": "18", "height": "34", "overhang": "none",
        "leg-height": "4", "leg-thickness": "2", "board": "3/4", "drawers": "3", "across": "2",
    },
    "nightstand": {
        "width": "22 1/2", "depth": "16 1/8", "height": "26 1/4", "overhang": "1/2",
        "leg-height": "5 3/4", "leg-thickness": "1 3/4", "board": "3/4", "drawers": "2",
        "across": "1",
    },
    "table": {
        "width": "48", "depth": "30", "height": "29", "top-thickness": "1", "overhang": "2",
        "leg-thickness": "2", "foot-thickness": "2", "apron": "4",
        "apron-inside": "yes",
    },
    "desk": {
        "width": "48", "depth": "24", "height": "30", "top-thickness": "7/8", "overhang": "1",
        "leg-thickness": "2", "foot-thickness": "1 1/4", "apron": "5",
        "apron-inside": "yes", "drawers": "2",
    },
    "bookcase": {
        "width": "30", "depth": "11", "height": "72", "overhang": "none",
        "leg-height": "none", "board": "3/4", "back": "yes", "shelves": "4",
    },
    "cabinet": {
        "width": "36", "depth": "16", "height": "40", "overhang": "3/4",
        "leg-height": "none", "board": "3/4", "doors": "2", "frame": "2 1/4", "shelves": "1",
    },
    "chair": {
        "width": "18", "depth": "17", "height": "17 1/2", "top-thickness": "3/4",
        "leg-thickness": "1 1/2", "apron": "2", "rungs": "1", "back-height": "18",
        "top-rail": "3", "slats": "4",
    },
    "bench": {
        "width": "42", "depth": "14", "height": "18", "top-thickness": "1", "overhang": "none",
        "leg-thickness": "2", "foot-thickness": "2", "apron": "none",
    },
    "headboard": {
        "width": "60", "height": "48", "post-thickness": "2 1/2", "board-height": "24",
        "board": "3/4",
    },
    "mirror": {"width": "24", "height": "36", "frame": "3", "board": "3/4"},
    "doors": {
        "doors": "6", "width": "17 3/4", "height": "24", "upper-doors": "4", "upper-width": "15",
        "upper-height": "30", "drawers": "5", "drawer-width": "17 3/4", "drawer-height": "6",
        "board": "3/4", "frame": "2 1/4", "drawer-frame": "none", "edges": "yes",
        "inside-faces": "no",
    },
}  # fmt: skip
"""One piece of each kind, measured in inches, by the options' names in the order of questions."""

ZONES = {
    "chest": ["outside", "lid", "inside", "underside"],
    "dresser": ["outside", "top", "drawer fronts", "behind the drawers", "inside of the drawers",
                "back and underside"],
    "nightstand": ["outside", "top", "drawer fronts", "behind the drawers", "inside of the drawers",
                   "back and underside"],
    "table": ["top", "base", "underside"],
    "desk": ["top", "base", "drawer fronts", "inside of the drawers", "underside"],
    "bookcase": ["outside", "top", "inside and shelves", "back and underside"],
    "cabinet": ["outside", "top", "doors", "inside", "back and underside"],
    "chair": ["seat", "frame", "underside"],
    "bench": ["seat", "base", "underside"],
    "headboard": ["front", "back and underside"],
    "mirror": ["front", "back"],
    "doors": ["fronts", "faces left alone"],
}  # fmt: skip
OFF_BOX = """\
OFF
8 12 0
0 0 0\n500 0 0\n500 400 0\n0 400 0\n0 0 300\n500 0 300\n500 400 300\n0 400 300
3 0 2 1\n3 0 3 2\n3 4 5 6\n3 4 6 7\n3 0 1 5\n3 0 5 4
3 1 2 6\n3 1 6 5\n3 2 3 7\n3 2 7 6\n3 3 0 4\n3 3 4 7
"""
"""A box of 500 x 400 x 300 in a file without a unit."""

COUNTS = {
    "drawers",
    "across",
    "shelves",
    "doors",
    "rungs",
    "slats",
    "back",
    "apron-inside",
    "edges",
    "inside-faces",
    "upper-doors",
}
HIDDEN = {
    "behind the drawers",
    "inside of the drawers",
    "back and underside",
    "underside",
    "back",
    "faces left alone",
}


def options(answers: Mapping[str, str]) -> list[str]:
    """Return answers as options of the command line."""
    return [word for key, text in answers.items() for word in (f"--{key}", text)]


FINISHED = ("--finish", "paint", "--condition", "varnished", "--built", "1948")


@pytest.fixture(scope="session")
def measures() -> dict[str, dict[str, str]]:
    """Return one piece of each kind, as `MEASURES` has it."""
    return MEASURES


@pytest.fixture
def run_new(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[..., Any]:
    """Return a function that runs `surfacecalc new` in an empty folder; a crash is raised.

    With lines it asks and these are typed; without, nobody is there. Most tests need the file only:
    the areas and the list of it, most of the time of a run, are shown where `lists` asks for them.
    """
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "80")

    def run(*arguments: str, lines: Sequence[str] | None = None, lists: bool = False) -> Any:
        words = ["new", *arguments, *(["--ask"] if lines is not None else [])]
        text = "".join(f"{line}\n" for line in lines or ())
        with monkeypatch.context() as patch:
            if not lists:
                patch.setattr(new_piece, "_show_lists", lambda target: None)
            return CliRunner().invoke(app, words, input=text, catch_exceptions=False)

    return run


@pytest.fixture
def answer(run_new: Callable[..., Any]) -> Callable[..., Any]:
    """Return a function that begins the piece of a kind by options, with changes.

    `with_unit` writes the unit after each length, `finished` says how all of it is finished.
    """

    def run(
        kind: str,
        *more: str,
        with_unit: bool = False,
        finished: Sequence[str] = FINISHED,
        lists: bool = False,
        **changes: str | None,
    ) -> Any:
        changed = {key.replace("_", "-"): text for key, text in changes.items()}
        answers = {**MEASURES[kind], **changed}
        given = {key: text for key, text in answers.items() if text is not None}
        if with_unit:
            is_length = {key: key not in COUNTS and text != "none" for key, text in given.items()}
            given = {k: f"{text} in" if is_length[k] else text for k, text in given.items()}
        return run_new(kind, *options(given), *finished, *more, lists=lists)

    return run


@pytest.fixture(scope="session")
def run_command() -> Callable[..., Any]:
    """Return a function that runs any other command; a crash is raised."""

    def run(*words: str) -> Any:
        return CliRunner().invoke(app, list(words), catch_exceptions=False)

    return run


@pytest.fixture(scope="session")
def questions() -> Callable[[str], dict[str, str]]:
    """Return a function that gives what is asked for the piece of a kind, and what is answered."""

    def lines_for(kind: str) -> dict[str, str]:
        lines = {"kind": kind, "name": "My piece", "file": "my.toml", "unit": "in"}
        lines |= MEASURES[kind]
        for zone in ZONES[kind]:
            lines[f"finish {zone}"] = "leave" if zone in HIDDEN else "paint"
            lines |= {} if zone in HIDDEN else {f"condition {zone}": "varnished"}
        return {**lines, "built": "1948", "currency": "USD"}

    return lines_for


@pytest.fixture(scope="session")
def typed(questions: Callable[[str], dict[str, str]]) -> Callable[[str], list[str]]:
    """Return a function that gives the lines that somebody types for the piece of a kind."""
    return lambda kind: list(questions(kind).values())


@pytest.fixture
def areas_of() -> Callable[[Path], dict[str, float]]:
    """Return a function that gives the area [square inches] of each zone of a piece file."""

    def areas(path: Path) -> dict[str, float]:
        found = json.loads(CliRunner().invoke(app, ["areas", str(path), "--json"]).stdout)
        return {zone["zone"]: zone["area_m2"] / 0.0254**2 for zone in found["zones"]}

    return areas


@pytest.fixture
def box(tmp_path: Path) -> str:
    """Return a box of 500 x 400 x 300 in a file without a unit."""
    (tmp_path / "models").mkdir()
    (tmp_path / "models" / "toy_box.off").write_text(OFF_BOX)
    return "models/toy_box.off"


LONGEST_S = 60
PRESS_EACH_S = 2
PROMPT = r"\r\n  [^\r\n]*: \Z"
ROOT = Path(__file__).parents[2]


def _hear_signals() -> None:
    """Hear Ctrl-C and a closed terminal: jobs in the background begin deaf to them."""
    signal.signal(signal.SIGINT, signal.default_int_handler)
    signal.signal(signal.SIGHUP, signal.SIG_DFL)


class Typist:
    """Somebody at a real terminal who reads what is there, and types."""

    def __init__(self, folder: Path, words: Sequence[str]) -> None:
        environment = {**os.environ, "PYTHONPATH": str(ROOT), "NO_COLOR": "1", "TERM": "xterm"}
        self.child = pexpect.spawn(
            sys.executable, ["-m", "surfacecalc", "new", *words],
            cwd=folder, env=environment, encoding="utf-8", timeout=LONGEST_S, dimensions=(50, 80),
            preexec_fn=_hear_signals,
        )  # fmt: skip
        self.child.delaybeforesend = None

    def types(self, *lines: str) -> None:
        """Wait for a question before each line, and type it."""
        for line in lines:
            self.child.expect(PROMPT)
            self.child.sendline(line)

    def reads(self, text: str) -> None:
        """Wait until some words are there."""
        self.child.expect_exact(text)

    def presses_ctrl_c(self, text: str) -> None:
        """Wait for a question, press Ctrl-C, and wait until some words are there.

        It is pressed again every few seconds: a Ctrl-C that falls between the prompt and the
        reading of the answer is heard only with the next key, as in any program.
        """
        self.child.expect(PROMPT)
        self.child.sendintr()
        while self.child.expect_exact([text, pexpect.TIMEOUT], timeout=PRESS_EACH_S):
            self.child.sendintr()

    def presses_ctrl_d(self) -> None:
        """Wait for a question and end the input."""
        self.child.expect(PROMPT)
        self.child.sendeof()

    def closes_the_terminal(self) -> int | None:
        """Wait for a question, shut the window, and return the signal that ended the program."""
        self.child.expect(PROMPT)
        self.child.ptyproc.fileobj.close()
        self.child.ptyproc.wait()
        signal: int | None = self.child.ptyproc.signalstatus
        return signal

    def leaves(self) -> int | None:
        """Wait for the end of the program and return its exit code."""
        self.child.expect(pexpect.EOF)
        self.child.close()
        code: int | None = self.child.exitstatus
        return code


@pytest.fixture
def at_terminal(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Callable[..., Typist]]:
    """Return a function that begins `surfacecalc new` at a terminal, in an empty folder."""
    monkeypatch.chdir(tmp_path)
    begun: list[Typist] = []

    def begin(*words: str) -> Typist:
        begun.append(Typist(tmp_path, words))
        return begun[-1]

    yield begin
    for typist in begun:
        typist.child.close(force=True)
