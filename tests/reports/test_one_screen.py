"""The answer fits on one screen for a small job, and what is behind it is one option away."""

from datetime import datetime
from pathlib import Path

import pytest

from surfacecalc import clock

EXAMPLES = Path(__file__).parents[2] / "examples"
LINES, COLUMNS = 24, 80
RATE, ASKED = "\n[price]\nrate = 30\npiece = 25\n", "\n[price]\nrate = 30\nasked = 160\n"


@pytest.fixture(autouse=True)
def monday(monkeypatch):
    """Plans without a day of their own begin on a Monday evening."""
    monkeypatch.setattr(clock, "now", lambda: datetime(2026, 11, 30, 18, 0))


def lines(run, *words):
    found = run(*words).stdout.splitlines()
    assert max(map(len, found)) <= COLUMNS
    return found


@pytest.mark.parametrize("name", ["writing-table", "washstand", "glazed-cabinet"])
def test_a_small_list_fits_one_screen(name, run):
    assert LINES >= len(lines(run, "supplies", EXAMPLES / f"{name}.toml"))


@pytest.mark.parametrize("name", ["blanket-box", "plant-stand"])
def test_a_small_plan_fits_one_screen(name, run):
    assert LINES >= len(lines(run, "plan", EXAMPLES / f"{name}.toml"))


@pytest.mark.parametrize(("name", "price"), [("writing-table", RATE), ("washstand", ASKED)])
def test_a_small_quote_fits_one_screen(name, price, run, tmp_path):
    priced = tmp_path / "priced.toml"
    priced.write_text((EXAMPLES / f"{name}.toml").read_text(encoding="utf-8") + price)
    assert LINES >= len(lines(run, "quote", priced))


def test_five_of_many_figures_are_shown_and_all_with_why(run):
    file = EXAMPLES / "school-cupboard.toml"
    short = " ".join(run("supplies", file).stdout.split())
    shown = short.split("the five that matter most: ")[1].split(" (all of them: --why).")[0]
    assert 5 == len(shown.split("; "))
    count = int(short.split(" figures assumed")[0].rsplit("* ", 1)[1])
    text = run("supplies", file, "--why").stdout.split("Assumed figures")[1]
    block = text.split("Safety (")[0].splitlines()[1:]
    starts = [line for line in block if line.startswith("    ")]
    assert len(starts) >= count + 1  # long ones take two lines; the last says what to do
    for one in shown.split("; "):
        assert one.partition(",")[0] in " ".join(text.split())


def test_each_caution_is_one_entry_and_the_command_shows_all(run):
    file = EXAMPLES / "washstand.toml"
    brief = run("supplies", file).stdout.split("Safety (")[1]
    whole = run("safety", file).stdout
    assert "[" not in brief.split("\n", 1)[1]  # no sources
    assert " Here: " in whole
    assert len(whole) > 2 * len(brief)
    assert whole.rstrip().endswith("Local codes and licensed practice come first.")


def test_a_long_path_is_not_broken(run, tmp_path):
    deep = tmp_path / ("a" * 60)
    deep.mkdir()
    file = deep / "piece.toml"
    file.write_text((EXAMPLES / "washstand.toml").read_text(encoding="utf-8"))
    assert "safety FILE)" in run("supplies", file).stdout


def test_names_are_not_wrapped_while_columns_to_the_right_are_empty(run):
    shown = run("supplies", EXAMPLES / "school-cupboard.toml").stdout
    table = shown.split("\n\n")[1].splitlines()
    assert any(line.startswith("water from the tap*") for line in table)
    # a line without a name has a second size to buy, and nothing before it
    assert [] == [line for line in table if line[0] == " " and line[:54].strip()]


def test_columns_that_are_empty_in_every_row_are_not_there(run):
    assert "On hand" in run("supplies", EXAMPLES / "writing-table.toml").stdout
    assert "On hand" not in run("supplies", EXAMPLES / "washstand.toml").stdout


def test_grits_that_follow_each_other_are_one_row_of_a_plan(run):
    shown = run("plan", EXAMPLES / "writing-table.toml").stdout
    assert "sand P120, P180, P220, by machine" in shown
    assert 8 == sum("-" in line[12:24] and ":" in line[12:24] for line in shown.splitlines())


@pytest.mark.parametrize(("of", "asked"), [("chair-set", True), ("blanket-box", False)])
def test_only_a_mix_is_called_hard_to_match(of, asked, run):
    shown = " ".join(run("jars", EXAMPLES / f"{of}.toml").stdout.split())
    assert (1 if asked else 0) == shown.count("hard to match")
