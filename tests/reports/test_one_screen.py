"""The answer fits on one screen for a small job, and what is behind it is one option away."""

import re
from datetime import datetime
from decimal import Decimal
from pathlib import Path

import pytest
from piece_texts import exact

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


@pytest.mark.parametrize("name", ["blanket-box", "washstand"])
def test_a_small_list_fits_one_screen(name, run):
    assert LINES >= len(lines(run, "supplies", EXAMPLES / f"{name}.toml"))


@pytest.mark.parametrize("name", ["blanket-box"])
def test_a_small_plan_fits_one_screen(name, run):
    assert LINES >= len(lines(run, "plan", EXAMPLES / f"{name}.toml"))


@pytest.mark.parametrize(("name", "price"), [("writing-table", RATE), ("washstand", ASKED)])
def test_a_small_quote_fits_one_screen(name, price, run, tmp_path):
    priced = tmp_path / "priced.toml"
    priced.write_text((EXAMPLES / f"{name}.toml").read_text(encoding="utf-8") + price)
    assert LINES >= len(lines(run, "quote", priced))


def test_four_of_many_figures_are_shown_and_all_with_why(run):
    file = EXAMPLES / "school-cupboard.toml"
    short = " ".join(run("supplies", file).stdout.split())
    shown = short.split("the four that matter most: ")[1].split(" (all of them: --why).")[0]
    assert 4 == len(shown.split("; "))
    count = int(short.split(" figures assumed")[0].rsplit("* ", 1)[1])
    text = run("supplies", file, "--why").stdout.split("Assumed figures")[1]
    block = text.split("Safety (")[0].splitlines()[1:]
    starts = [line for line in block if line.startswith("    ")]
    assert len(starts) >= count + 1  # long ones take two lines; the last says what to do
    longer = {
        "how your hand differs from the label":
            "how much more or less your hand uses than the label says",
        "one job to the next": "one job beside the next",
    }  # fmt: skip
    for one in shown.split("; "):
        words = one.partition(",")[0]
        assert longer.get(words, words) in " ".join(text.split())


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
    assert 13 == sum("-" in line[12:24] and ":" in line[12:24] for line in shown.splitlines())


@pytest.mark.parametrize(("of", "asked"), [("chair-set", True), ("blanket-box", False)])
def test_only_a_mix_is_called_hard_to_match(of, asked, run):
    shown = " ".join(run("jars", EXAMPLES / f"{of}.toml").stdout.split())
    # once of what is mixed already and once with what leftovers add, never of the varnish
    assert (2 if asked else 0) == shown.count("hard to match")


def test_areas_begin_with_what_is_to_finish_and_say_lines_as_a_tape_does(run):
    shown = run("areas", EXAMPLES / "writing-table.toml").stdout.splitlines()
    assert re.fullmatch(r"[\d.]+ sq ft to finish, [\d.]+ sq ft left as it is", shown[2])
    finished, left = map(Decimal, re.findall(r"[\d.]+(?= sq ft)", shown[2]))
    rows = [line for line in shown[4:] if "sq ft" in line]
    area = [Decimal(re.search(r"([\d.]+) sq ft", row)[1]) for row in rows]
    kept = sum(one for one, row in zip(area, rows, strict=True) if "(left as it is)" in row)
    assert (left, finished) == (kept, sum(area) - kept)
    assert any(re.search(r"\d+ ft \d+ in to base", line) for line in shown)


def test_a_plan_says_that_no_other_is_shorter(run):
    first = run("plan", EXAMPLES / "blanket-box.toml").stdout.splitlines()[0]
    assert first.endswith(": plan (the shortest possible schedule)")


def test_a_plan_marks_every_row_that_makes_dust_and_has_one_note_of_two_lines(run, tmp_path):
    text = (EXAMPLES / "school-cupboard.toml").read_text(encoding="utf-8")
    file = tmp_path / "school-cupboard.toml"
    more = "[workshop]\nsand_near_wet = true\n"
    file.write_text(text.replace("[workshop]\n", more), encoding="utf-8")
    shown = run("plan", file).stdout
    marked = [line for line in shown.splitlines() if line.rstrip().endswith(" !")]
    assert marked
    assert all("sand" in line for line in marked)
    assert re.search("Your file allows this|dry in another room", " ".join(shown.split()))
    note = shown[shown.index("\n! Dust") + 1 : shown.index(" figures assumed")]
    assert 3 >= len(note.splitlines())  # its two lines, and the count of figures


def test_a_plan_has_the_lead_test_before_the_first_sanding_of_an_old_finish(run, tmp_path):
    known = (EXAMPLES / "washstand.toml").read_text(encoding="utf-8")
    file = tmp_path / "washstand.toml"
    file.write_text(known, encoding="utf-8")
    assert "for lead" not in run("plan", file).stdout
    text = known.replace('lead = "none found"\n', "")
    file.write_text(text, encoding="utf-8")
    shown = run("plan", file).stdout
    assert 2 == shown.count("Test the old finish for lead (see")  # two zones, two old finishes
    assert shown.index("Test the old finish for lead (see") < shown.index("sand P180")
    file.write_text(text.replace("built = 1935", "built = 1995"), encoding="utf-8")
    assert "for lead" not in run("plan", file).stdout
    file.write_text(text.replace('grits = [180, 240]', 'grits = [180, 240]\nuses = ["lead test"]')
                    + '\n[[consumable]]\nname = "lead test"\nlasts = "1 job"\n',
                    encoding="utf-8")  # fmt: skip
    # a test that the file lists is not a task of its own, so it is shown where it belongs as well
    assert 2 == run("plan", file).stdout.count("Test the old finish for lead (see")


FIXED_JAR = """
[[product]]
name = "grey blue"
kind = "waterborne furniture paint"
covers = "10 m2/L"
on_hand = "2 L"
"""


def test_a_jar_of_which_nothing_varies_is_said_to_be_enough_without_a_chance(run, tmp_path):
    text = (EXAMPLES / "washstand.toml").read_text(encoding="utf-8")
    head, rest = text.split('[[product]]\nname = "grey blue"')
    clear = rest[rest.index("[[product]]") :]
    file = tmp_path / "washstand.toml"
    file.write_text(exact(f"{head}{FIXED_JAR}\n{clear}"), encoding="utf-8")
    shown = run("jars", file).stdout
    assert "Enough for every coat, if your numbers are exact.\n" in shown
    assert "sure" not in shown
    assert "Likely" not in shown


def test_what_is_on_hand_and_no_coat_is_listed_with_the_reason(run):
    shown = run("jars", EXAMPLES / "blanket-box.toml").stdout
    assert "Not used in a coat, so the supply list counts it: lacquer thinner, 8.00 fl oz" in shown


def test_figures_that_move_nothing_are_not_among_those_that_matter(run):
    shown = " ".join(run("supplies", EXAMPLES / "washstand.toml").stdout.split())
    assert re.search(r"\d+ figures assumed; the four that matter most: ", shown)
    assert "0 % (" not in shown.replace("10 %", "")
