"""`surfacecalc guide`: the topics, a topic, and a word that is none."""

from collections.abc import Callable
from typing import Any

import pytest

from surfacecalc.guide import topics

Run = Callable[..., Any]
NAMES = [topic.name for topic in topics()]


def test_without_a_topic_all_are_listed_with_a_line_each(run: Run) -> None:
    shown = run("guide")
    assert 0 == shown.exit_code
    flat = " ".join(shown.stdout.split())
    assert [] == [one.name for one in topics() if f"{one.name} {one.about}" not in flat]


@pytest.mark.parametrize("name", NAMES)
def test_topic_is_shown(name: str, run: Run) -> None:
    shown = run("guide", name)
    assert (0, "") == (shown.exit_code, shown.stderr)
    assert "=====" in shown.stdout.splitlines()[1]
    assert "\x1b" not in shown.stdout


@pytest.mark.parametrize(
    ("word", "name"),
    [("steps", "zones-and-steps"), ("Price", "plan-and-price"), ("sure", "how-sure")],
)
def test_one_word_of_a_name_is_enough(word: str, name: str, run: Run) -> None:
    assert run("guide", name).stdout == run("guide", word).stdout


@pytest.mark.parametrize(
    ("word", "said"),
    [
        ("prats", 'The guide has no page about "prats"; did you mean "parts"?'),
        ("stepps", 'did you mean "zones-and-steps"?'),
        ("and", 'The guide has no page about "and"'),
        ("xyzzy", "the topics are a-piece-file-by-hand, measures, parts"),
        ("../index", 'The guide has no page about "../index"'),
    ],
)
def test_word_that_is_no_topic_is_said_so(word: str, said: str, run: Run) -> None:
    shown = run("guide", word)
    assert (2, "") == (shown.exit_code, shown.stdout)
    assert said in " ".join(shown.stderr.split())


@pytest.mark.parametrize(
    ("word", "name"),
    [
        ("jars", "products"), ("quote", "commands"), ("sheet", "commands"), ("label", "measures"),
        ("tape", "products"), ("new", "commands"), ("drawers", "parts"), ("on_hand", "products"),
        ("workshop", "plan-and-price"), ("coverage", "products"), ("[price]", "plan-and-price"),
    ],
)  # fmt: skip
def test_word_leads_to_the_page_that_explains_it(word: str, name: str, run: Run) -> None:
    assert run("guide", name).stdout == run("guide", word).stdout


def test_topics_are_not_broken_at_their_hyphens(run: Run) -> None:
    shown = run("guide", "xyzzy").stderr
    assert [] == [name for name in NAMES if name not in shown]
    assert "Error" not in shown
    assert "Usage" not in shown


def test_index_is_no_topic_of_its_own() -> None:
    assert "index" not in NAMES
