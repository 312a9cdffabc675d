"""`supplies` over several files: one list, the same in every form, or every file's mistakes."""

import csv
import io
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Run = Callable[..., Any]


@pytest.fixture
def two(files: Path) -> list[Path]:
    """A chest and a chest half as high that takes a paint of the same name, with more cover."""
    text = (files / "chest.toml").read_text()
    assert 'covers = "10 m2/L"' in text
    other = text.replace("Chest on legs", "Low chest").replace("height = 600", "height = 300")
    (files / "low.toml").write_text(other.replace('covers = "10 m2/L"', 'covers = "12 m2/L"'))
    return [files / "chest.toml", files / "low.toml"]


def test_json_adds_up_what_the_files_need_alone(two: list[Path], run_json: Run) -> None:
    together = run_json("supplies", *two)
    alone = [run_json("supplies", file)["supplies"] for file in two]
    assert ["Chest on legs", "Low chest"] == together["pieces"]
    for supply in together["supplies"]:
        key = (supply["supply"], supply["grit"])
        parts = [one for found in alone for one in found if key == (one["supply"], one["grit"])]
        if supply["unit"] != "each":
            likely = sum(one["need"]["likely"] for one in parts)
            # a sum of two jobs has a middle a little above the sum of their middles
            assert pytest.approx(likely, rel=0.02) == supply["need"]["likely"]
        taken = sum(one["buy_for"] for one in supply["by_piece"])
        assert pytest.approx(taken, abs=1) == supply["need"]["buy_for"]
        assert {"Chest on legs", "Low chest"} >= {one["piece"] for one in supply["by_piece"]}
    assert together["total_cost"] == sum(one["cost"] for one in together["supplies"])
    assert [] != together["cautions"]


def test_each_use_is_explained_by_its_own_file(two: list[Path], run_json: Run) -> None:
    paint = next(
        one for one in run_json("supplies", *two)["supplies"] if one["supply"] == "body paint"
    )
    high, low = paint["why"][:2]
    assert high.startswith("Chest on legs: body: 2.786 m2 / 10 m2/L x ")
    assert low.startswith("Low chest: body: ")
    assert " / 12 m2/L x " in low
    assert "coverage of body paint, 10 m2 a litre: label" in paint["why"]
    assert "coverage of body paint, 12 m2 a litre: label" in paint["why"]


def test_what_is_kept_apart_is_explained_under_the_name_of_its_file(
    two: list[Path], run_json: Run
) -> None:
    text = two[1].read_text()
    two[1].write_text(text.replace('kind = "waterborne', 'kind = "oil-based'))
    names = [one["supply"] for one in run_json("supplies", *two)["supplies"]]
    apart = [name for name in names if name.endswith("(Low chest)")]
    assert [] != apart
    assert [] != run_json("supplies", *two)["remarks"]


def test_csv_has_the_same_list_and_a_column_for_each_piece(
    two: list[Path], run: Run, run_json: Run
) -> None:
    rows = list(csv.DictReader(io.StringIO(run("supplies", *two, "--csv").stdout)))
    for row, supply in zip(rows, run_json("supplies", *two)["supplies"], strict=True):
        assert supply["supply"] == row["supply"]
        assert supply["need"]["buy_for"] == float(row["need_buy_for"])
        taken = {one["piece"]: one["buy_for"] for one in supply["by_piece"]}
        assert taken.get("Low chest", 0) == float(row["takes: Low chest"])


def test_a_piece_named_as_a_formula_heads_a_column_as_text(two: list[Path], run: Run) -> None:
    two[1].write_text(two[1].read_text().replace("Low chest", "=1+1"))
    head = next(csv.reader(io.StringIO(run("supplies", *two, "--csv").stdout)))
    assert "takes: =1+1" in head
    assert not any(cell.startswith("=") for cell in head)


def test_screen_tells_the_list_the_shares_and_with_why_the_arithmetic(
    two: list[Path], run: Run
) -> None:
    shown = run("supplies", *two, "--why").stdout
    assert shown.startswith("Chest on legs + Low chest: supplies\n")
    assert "How much each piece needs" in shown
    assert "Low chest: body:" in shown
    assert max(map(len, shown.splitlines())) <= 80


def test_the_mistakes_of_all_files_are_told_at_once(files: Path, run: Run) -> None:
    (files / "more.toml").write_text((files / "mistakes.toml").read_text())
    result = run("supplies", files / "mistakes.toml", files / "chest.toml", files / "more.toml")
    assert (1, "") == (result.exit_code, result.stdout)
    for name in ("mistakes.toml", "more.toml"):
        assert 2 == sum(line.startswith(str(files / name)) for line in result.stderr.splitlines())
    problems = json.loads(
        run("supplies", files / "mistakes.toml", files / "more.toml", "--json").stdout
    )["problems"]
    assert {str(files / "mistakes.toml"), str(files / "more.toml")} == {
        problem["file"] for problem in problems
    }


def test_two_currencies_make_no_list(two: list[Path], run: Run) -> None:
    for file, currency in zip(two, ("USD", "EUR"), strict=True):
        text = "\n".join(
            line for line in file.read_text().splitlines() if not line.startswith("currency")
        )
        file.write_text(text.replace("[piece]", f'[piece]\ncurrency = "{currency}"', 1))
    result = run("supplies", *two)
    assert (1, "") == (result.exit_code, result.stdout)
    assert f"{two[1]}: currency: the prices here are in EUR, but in " in result.stderr
    assert result.stderr.endswith(f"surfacecalc check {two[1]}\n")


def test_what_is_needed_too_is_told_once_for_all(two: list[Path], run: Run, run_json: Run) -> None:
    found = run_json("supplies", *two)["needed_too"]
    (brush,) = [one for one in found if "brush" in one["name"]]
    assert {"name", "uses", "on_hand", "count", "price"} == set(brush)
    assert "body paint" in brush["uses"]
    shown = run("supplies", *two).output
    assert "Needed too (--why): " in shown
    assert 1 == shown.count(brush["name"])
    assert "Needed too, unless you have it" in run("supplies", *two, "--why").stdout
    assert brush["name"] in run("supplies", two[0]).output
