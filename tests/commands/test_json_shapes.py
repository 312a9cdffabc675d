"""The JSON objects are by their schemas, and say what they should."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from json_schemas import wrong_by_schema

Run = Callable[..., Any]

SHAPES = {"areas": "areas", "supplies": "supplies", "check": "problems"}
"""The schema of what a command prints."""

EVERYTHING = """\
[piece]
name = "Everything"
unit = "mm"
currency = "EUR"

[[part]]
name = "case"
shape = "case"
width = 400
depth = 300
height = 500
board = 18
open = ["front"]

[[part]]
name = "top"
shape = "board"
width = 400
depth = 300
height = 20
at = [0, 0, 500.5]

[[part]]
name = "rail"
shape = "board"
width = 400
depth = 20
height = 50
at = [0, 303, 100]

[[part]]
name = "shelf"
shape = "board"
width = 300
depth = 200
height = 18
loose = true

[[zone]]
name = "outside"
faces = ["case", "top"]
surface = "bare"

[[zone.step]]
do = "sand"
grits = [80, 240]
with = "disc"

[[zone.step]]
do = "coat"
product = "paint"
coats = 2
by = "brush"
thin = "5 %"

[[zone]]
name = "inside"
faces = ["case.inside"]
leave = true

[[product]]
name = "paint"
kind = "paint"
packs = [{ size = "1 L" }]

[[abrasive]]
name = "disc"
form = "125 mm disc"
on_hand = { 240 = 1 }
packs = [{ count = 5, price = 6.5 }]
"""


@pytest.fixture
def everything(tmp_path: Path) -> Path:
    """Return a file with a note, a gap, a closed patch, a face in no zone, an unpriced supply."""
    path = tmp_path / "everything.toml"
    path.write_text(EVERYTHING)
    return path


@pytest.mark.parametrize("command", SHAPES)
@pytest.mark.parametrize("piece", ["chest", "bench"])
def test_json_of_a_piece_has_its_shape(
    command: str, piece: str, files: Path, run_json: Run
) -> None:
    found = run_json(command, files / f"{piece}.toml")
    assert wrong_by_schema(SHAPES[command], found) == []


@pytest.mark.parametrize("command", SHAPES)
def test_json_of_a_piece_with_everything_has_its_shape(
    command: str, everything: Path, run_json: Run
) -> None:
    assert wrong_by_schema(SHAPES[command], run_json(command, everything)) == []


@pytest.mark.parametrize("command", ["areas", "supplies", "check"])
@pytest.mark.parametrize("piece", ["mistakes", "none"])
def test_json_of_a_file_to_mend_is_its_problems(
    command: str, piece: str, files: Path, run_json: Run
) -> None:
    found = run_json(command, files / f"{piece}.toml")
    assert wrong_by_schema("problems", found) == []
    assert {problem["level"] for problem in found["problems"]} == {"mend"}


def test_nothing_is_left_out_where_there_is_something(everything: Path, run_json: Run) -> None:
    """The shapes above would also pass on empty lists; here each list has something in it."""
    areas = run_json("areas", everything)
    assert [bool(areas[key]) for key in ("zones", "closed", "gaps")] == [True] * 3
    assert areas["in_no_zone"]["faces"]
    assert {face["part"] for face in areas["in_no_zone"]["faces"]} == {"rail", "shelf"}
    assert [zone["leave"] for zone in areas["zones"]] == [False, True]
    supplies = run_json("supplies", everything)
    assert supplies["currency"] == "EUR"
    assert supplies["unpriced"] == ["paint", "thinner for paint"]
    assert {line["unit"] for line in supplies["supplies"]} == {"L", "each"}
    assert {problem["level"] for problem in run_json("check", everything)["problems"]} == {"note"}


def test_closed_patch_and_gap_are_told_with_distance_and_area(
    everything: Path, run_json: Run
) -> None:
    areas = run_json("areas", everything)
    (closed,), (gap,) = areas["closed"], areas["gaps"]
    assert {(closed["part"], closed["face"]), (closed["other_part"], closed["other_face"])} == {
        ("case", "top"),
        ("top", "bottom"),
    }
    assert (closed["distance_mm"], closed["area_m2"]) == (0.5, 0.12)
    assert (gap["distance_mm"], gap["area_m2"]) == (3, 0.02)


def test_zones_stand_in_the_order_of_the_file(files: Path, run_json: Run) -> None:
    found = run_json("areas", files / "bench.toml")
    assert [zone["zone"] for zone in found["zones"]] == ["seat", "frame"]


def test_faces_of_zones_and_of_none_add_up_to_what_is_exposed(
    everything: Path, run_json: Run
) -> None:
    areas = run_json("areas", everything)
    faces = [face for zone in areas["zones"] for face in zone["faces"]]
    total = sum(face["area_m2"] for face in [*faces, *areas["in_no_zone"]["faces"]])
    assert pytest.approx(areas["exposed_m2"], rel=1e-12) == total  # order of a sum of floats


def test_left_over_is_what_is_there_less_what_is_bought_for(
    everything: Path, files: Path, run_json: Run
) -> None:
    for path in (everything, files / "chest.toml", files / "bench.toml"):
        for line in run_json("supplies", path)["supplies"]:
            bought = sum(pack["size"] * pack["count"] for pack in line["buy"])
            expected = line["on_hand"] + bought + line["mixed"] - line["need"]["buy_for"]
            assert pytest.approx(expected, abs=1e-12) == line["left_over"]


def test_json_is_metric_whatever_the_units_shown(files: Path, run: Run) -> None:
    for command in ("areas", "supplies"):
        path = files / "bench.toml"
        shown = [run(command, path, "--json", "--unit", unit).stdout for unit in ("us", "metric")]
        assert shown[0] == shown[1] == run(command, path, "--json").stdout


def test_json_keeps_names_as_they_were_written(files: Path, run_json: Run) -> None:
    path = files / "chest.toml"
    name = 'a"b\\n\\u001b[31m\\u202e\\u00bd'
    path.write_text(path.read_text().replace('"Chest on legs"', f'"{name.replace(chr(34), "")}"'))
    assert run_json("areas", path)["piece"] == json.loads(f'"{name.replace(chr(34), "")}"')
