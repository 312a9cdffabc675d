"""`--why` says how much is sprayed in each session, and how often the cup is filled."""

from pathlib import Path

import pytest
from piece_texts import exact, piece_text

COAT = {
    "do": "coat", "product": "enamel", "coats": 2, "by": "spray", "first_coat": "100 %",
    "gun": "hvlp",
}  # fmt: skip
PAINT = {"name": "enamel", "kind": "waterborne paint", "covers": "10 m2/L"}

HARDENER = {"name": "hardener", "kind": "hardener", "packs": [{"size": "250 ml"}]}


@pytest.fixture
def shown(run, tmp_path: Path):
    """Return a function that shows what a command says of a sprayed board."""

    def show(command: str, **step: object) -> str:
        file = tmp_path / "board.toml"
        text = exact(piece_text({**COAT, **step}, product=[PAINT, HARDENER]))
        file.write_text(text, encoding="utf-8")
        return " ".join(run(command, file, "--why").stdout.split())

    return show


def test_the_plan_says_each_session_with_its_cups(shown) -> None:
    """0.436 m2 / 10 m2/L / (1 - 27.5 %) is 60.1 ml; the cup is assumed."""
    text = shown("plan")
    assert "all, first coat of enamel, by spray, 1 cup: 60.1 ml, 1 cup of 600 ml, assumed" in text


def test_a_cup_of_your_own_is_not_assumed(shown) -> None:
    text = shown("plan", cup="50 ml")
    assert "second coat of enamel, by spray, 2 cups: 60.1 ml, 2 cups of 50.0 ml" in text
    assert "50.0 ml, assumed" not in text


def test_the_list_says_what_each_coat_takes_of_the_gun(shown) -> None:
    text = shown("supplies", thin="10 %")
    assert "all: sprayed, with what is stirred in: each coat 66.2 ml, 1 cup of 600 ml" in text
    assert text.count("with what is stirred in") == 1  # and not again for the thinner
    assert "lost when applied with an HVLP gun" in text


def test_coats_that_differ_have_a_line_each(shown) -> None:
    text = shown("supplies", first_coat="50 %", coats=3)
    assert "stirred in: coat 1 120 ml" in text
    assert "stirred in: coat 2 60.1 ml" in text
    assert "stirred in: coat 3 60.1 ml" in text


def test_one_coat_is_not_each_coat(shown) -> None:
    assert "stirred in: coat 1 60.1 ml" in shown("supplies", coats=1)


def test_a_brushed_coat_says_nothing_of_spray(shown) -> None:
    for command in ("plan", "supplies"):
        assert "spray" not in shown(command, by="brush", gun=None)


def test_the_list_counts_the_hardener_and_each_side_by_itself(shown) -> None:
    """60.1 ml of mixed stuff a coat, its hardener in it, are 30.1 ml a side."""
    text = shown("supplies", sides=2, hardener={"product": "hardener", "parts": "4 : 1"})
    assert "sprayed, with what is stirred in: each side of a coat 30.1 ml, 1 cup of" in text
