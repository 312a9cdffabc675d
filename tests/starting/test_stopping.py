"""Whatever stops the questions, the answers given so far are saved."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from surfacecalc.starting import start, unfinished

Run = Callable[..., Any]
Typed = Callable[[str], list[str]]
KEPT = Path("my.toml.unfinished")


@pytest.mark.parametrize("said", [[], ["quit"], ["?", "quit"]])
def test_stopping_at_the_offer_to_continue_says_that_the_answers_are_still_saved(
    said: list[str], run_new: Run, typed: Typed
) -> None:
    run_new(lines=typed("nightstand")[:20])
    before = KEPT.read_bytes()
    stopped = run_new(lines=said)
    assert 1 == stopped.exit_code
    assert "Stopped. Your answers are still saved in my.toml.unfinished." in stopped.stdout
    assert before == KEPT.read_bytes()


def test_ctrl_c_while_kept_answers_are_listed_loses_nothing(
    run_new: Run, typed: Typed, monkeypatch: pytest.MonkeyPatch
) -> None:
    run_new(lines=typed("nightstand")[:9])
    before = KEPT.read_bytes()

    def interrupted(rows: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(start, "say_table", interrupted)
    stopped = run_new(lines=["y"])
    assert "Your answers are still saved in my.toml.unfinished" in stopped.stdout
    assert before == KEPT.read_bytes()


@pytest.mark.parametrize("word", ["quit", "QUIT", " quit "])
def test_word_stops_like_ctrl_c(word: str, run_new: Run, typed: Typed) -> None:
    stopped = run_new(lines=[*typed("mirror")[:5], word])
    assert 1 == stopped.exit_code
    assert "Stopped. Your answers are saved in my.toml.unfinished" in stopped.stdout
    assert 5 == len(json.loads(KEPT.read_text())["answers"])


def test_ctrl_c_between_an_answer_and_the_keeping_of_it_loses_nothing(
    run_new: Run, typed: Typed, monkeypatch: pytest.MonkeyPatch
) -> None:
    keep = unfinished.keep
    pressed: list[str] = []

    def interrupted(path: Path, kept: unfinished.Kept) -> None:
        if "height" in kept.answers and not pressed:
            pressed.append("Ctrl-C")
            raise KeyboardInterrupt
        keep(path, kept)

    monkeypatch.setattr(unfinished, "keep", interrupted)
    stopped = run_new(lines=typed("mirror")[:6])
    assert ["Ctrl-C"] == pressed
    assert 1 == stopped.exit_code
    assert "Stopped. Your answers are saved in my.toml.unfinished" in stopped.stdout
    assert "36 in" == json.loads(KEPT.read_text())["answers"]["height"]
