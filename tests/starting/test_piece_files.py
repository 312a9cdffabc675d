"""The written file: read without a mistake and without a note, and good to edit."""

import re
import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from surfacecalc import api
from surfacecalc.starting.piece_kinds import KINDS, MESH

Answer = Callable[..., Any]
Run = Callable[..., Any]
KEYS = [kind.key for kind in KINDS if kind.key != MESH]
WAYS = ["paint", "stain", "clear", "oil", "wax"]


def checked(run_command: Run, path: str) -> str:
    return str(run_command("check", path).stdout)


@pytest.mark.parametrize("kind", KEYS)
def test_every_kind_on_a_metric_tape_passes_check_without_a_note(
    kind: str, answer: Answer, run_command: Run
) -> None:
    """Lengths are typed in inches; those on a tape of inches are typed at a terminal."""
    result = answer(kind, "--unit", "cm", "--name", "My piece", with_unit=True)
    assert result.exit_code == 0
    assert "No mistakes.\n" == checked(run_command, "my-piece.toml")
    comments = re.findall("^#.*$", Path("my-piece.toml").read_text(), re.MULTILINE)
    assert 80 >= max(len(line) for line in comments)


@pytest.mark.parametrize("condition", ["bare", "sealed", "varnished", "painted"])
@pytest.mark.parametrize("way", WAYS)
def test_every_finish_on_every_surface_passes_check_without_a_note(
    way: str, condition: str, run_new: Run, run_command: Run
) -> None:
    words = ["--finish", way, "--condition", condition, "--width", "24", "--height", "36"]
    assert run_new("mirror", *words, "--frame", "3").exit_code == 0
    assert "No mistakes.\n" == checked(run_command, "mirror.toml")
    steps = tomllib.loads(Path("mirror.toml").read_text())["schedule"][f"{way} on {condition}"]
    assert {"hand"} >= {step["by"] for step in steps if "grits" in step}


@pytest.mark.parametrize(
    ("kind", "changes", "gone"),
    [
        ("dresser", {"drawers": "0", "across": None}, ["drawer", "rail", "upright"]),
        ("dresser", {"leg-height": "none", "leg-thickness": None}, ["leg"]),
        ("dresser", {"drawers": "1", "across": "1"}, ["rail", "upright"]),
        ("nightstand", {"drawers": "none", "across": None}, ["drawer", "rail"]),
        ("chest", {"leg-height": "0", "leg-thickness": None}, ["leg"]),
        ("table", {"apron": "none", "apron-inside": None}, ["long apron", "side apron"]),
        ("desk", {"drawers": "0"}, ["drawer", "front rail", "upright"]),
        ("desk", {"apron": "none", "apron-inside": None, "drawers": "0"}, ["drawer", "long apron"]),
        ("bookcase", {"shelves": "0"}, ["shelf"]),
        ("bookcase", {"back": "no"}, []),
        ("cabinet", {"shelves": "none", "frame": "none"}, ["shelf"]),
        ("cabinet", {"doors": "1"}, []),
        ("chair", {"back-height": "none", "top-rail": None, "slats": None}, ["top rail", "slat"]),
        ("chair", {"slats": "0", "top-rail": "none", "rungs": "0", "apron": "none"}, ["slat"]),
        ("headboard", {"post-thickness": "none"}, ["post"]),
    ],
    ids=lambda value: value if isinstance(value, str) else None,
)
def test_what_is_not_there_leaves_no_part_and_no_note(
    kind: str, changes: dict[str, Any], gone: list[str], answer: Answer, run_command: Run
) -> None:
    assert answer(kind, "--out", "x.toml", **changes).exit_code == 0
    parts = [part["name"] for part in tomllib.loads(Path("x.toml").read_text())["part"]]
    assert parts
    assert set() == set(gone) & set(parts)
    assert "No mistakes.\n" == checked(run_command, "x.toml")


def test_piece_that_is_left_as_it_is_needs_nothing(answer: Answer, run_command: Run) -> None:
    assert answer("table", finished=("--finish", "leave")).exit_code == 0
    text = Path("table.toml").read_text()
    assert "[[product]]" not in text
    assert "[[schedule" not in text
    assert "No mistakes.\n" == checked(run_command, "table.toml")


def test_file_says_what_was_measured_and_what_was_not(run_new: Run) -> None:
    words = ["--width", "48", "--depth", "30", "--height", "29", "--leg-thickness", "2 1/4"]
    assert run_new("table", *words, "--finish", "leave").exit_code == 0
    head = Path("table.toml").read_text().partition("[piece]")[0]
    measured, _, proposed = head.partition("Not measured; these are usual sizes")
    assert "Width: 48 in, across the front, at the widest point" in " ".join(measured.split())
    assert "Leg thickness: 2 1/4 in" in measured
    assert "common practice" in proposed
    assert "Leg thickness: 2 1/4 in, across the front of a leg" in " ".join(measured.split())
    assert "Apron height: 4 in" in proposed


def test_lines_to_add_to_a_product_may_be_uncommented(answer: Answer) -> None:
    assert answer("mirror").exit_code == 0
    lines = re.findall(r"^#   (\w+ = .*)$", Path("mirror.toml").read_text(), re.MULTILINE)
    assert ["covers", "on_hand", "packs"] == list(tomllib.loads("\n".join(lines)))


def test_two_values_are_a_middle_in_the_parts_and_a_range_of_every_area(
    answer: Answer, run_command: Run
) -> None:
    """24 to 25 in: 24 1/2 in the part, and any measurement off by half an inch at most."""
    result = answer("mirror", "--width", "24 to 25", "--height", "36 to 36 1/2")
    said = 'width "24 to 25" is taken as 24 to 25 in: the parts get the middle, 24 1/2 in'
    assert said in " ".join(result.stdout.split())
    file = tomllib.loads(Path("mirror.toml").read_text())
    assert ("24 1/2 in", "36 1/4 in") == (file["part"][0]["width"], file["part"][0]["height"])
    assert "1/2 in" == file["piece"]["measured_to"]
    assert "#   Width: 24 to 25 in, the whole frame" in Path("mirror.toml").read_text()
    assert "No mistakes.\n" == checked(run_command, "mirror.toml")


def test_length_of_what_is_not_there_is_none(answer: Answer) -> None:
    assert answer("bookcase").exit_code == 0
    assert "#   Leg height: none\n" in Path("bookcase.toml").read_text()


def test_measures_are_written_as_a_tape_shows_them(answer: Answer) -> None:
    assert answer("nightstand", "--out", "x.toml").exit_code == 0
    text = Path("x.toml").read_text()
    assert 'width = "22 1/2 in"' in text
    assert 'depth = "16 1/8 in"' in text


def test_old_finish_stays_on_record_where_it_has_to_come_off(run_new: Run) -> None:
    """The surface stays "painted", so that the caution about lead stays too."""
    words = ["--width", "24", "--height", "36", "--frame", "3"]
    result = run_new("mirror", *words, "--finish", "stain", "--condition", "painted", lists=True)
    assert "lead" in result.stdout.partition("Safety")[2]
    assert 'surface = "painted"' in Path("mirror.toml").read_text()


def schedule(run_new: Run, way: str, condition: str, *more: str) -> list[dict[str, Any]]:
    """Return the steps that a finish gets on a surface."""
    words = ["--finish", way, "--condition", condition, "--width", "24", "--height", "36"]
    assert run_new("mirror", *words, "--frame", "3", *more).exit_code == 0
    text = Path("mirror.toml").read_text()
    return list(tomllib.loads(text)["schedule"][f"{way} on {condition}"])


@pytest.mark.parametrize("condition", ["sealed", "varnished", "painted"])
@pytest.mark.parametrize("way", ["stain", "oil"])
def test_old_finish_of_unknown_year_comes_off_wet_and_is_tested_for_lead_first(
    way: str, condition: str, run_new: Run
) -> None:
    first, second, third, *_ = schedule(run_new, way, condition)
    assert ("strip", "stripper", ["lead test"]) == (first["do"], first["product"], first["uses"])
    assert "wash" == second["do"]
    assert ("sand", [120, 180]) == (third["do"], third["grits"][:2])
    (kit,) = tomllib.loads(Path("mirror.toml").read_text())["consumable"]
    assert "lead test" == kit["name"]


@pytest.mark.parametrize(
    ("built", "uses", "proposed"),
    [
        ("unknown", ["lead test"], "strip"),
        ("1992", ["lead test"], "strip"),
        ("1993", None, "sand"),
    ],
)
def test_a_year_after_the_latest_ban_proposes_sanding_and_no_test(
    built: str, uses: list[str] | None, proposed: str, run_new: Run
) -> None:
    found = schedule(run_new, "oil", "varnished", "--built", built)
    assert uses == found[0].get("uses")
    assert ("product" in found[0]) is (proposed == "strip")
    painted = schedule(run_new, "paint", "painted", "--built", built, "--replace")
    assert uses == painted[0].get("uses")


@pytest.mark.parametrize("condition", ["sealed", "varnished", "painted"])
@pytest.mark.parametrize("way", ["stain", "oil"])
def test_old_finish_is_stripped_before_what_soaks_in(
    way: str, condition: str, run_new: Run
) -> None:
    first, second, *_ = schedule(run_new, way, condition, "--stripping", "sanding")
    assert ("strip", [80]) == (first["do"], first["grits"])
    assert ("sand", [120, 180]) == (second["do"], second["grits"][:2])
    assert (
        "# Sand to bare wood. To use a chemical stripper instead" in Path("mirror.toml").read_text()
    )


@pytest.mark.parametrize("way", ["stain", "oil", "paint", "wax"])
def test_bare_wood_is_neither_stripped_nor_washed(way: str, run_new: Run) -> None:
    steps = schedule(run_new, way, "bare")
    assert "sand" == steps[0]["do"]
    assert not {"strip", "wash"} & {step["do"] for step in steps}


@pytest.mark.parametrize("condition", ["varnished", "painted"])
def test_paint_on_an_old_film_begins_with_washing(condition: str, run_new: Run) -> None:
    words = [step["do"] for step in schedule(run_new, "paint", condition)]
    assert ["wash", "sand"] == words[:2]
    cleaner = tomllib.loads(Path("mirror.toml").read_text())["product"][0]
    assert ("cleaner", "degreasing cleaner") == (cleaner["name"], cleaner["kind"])
    assert all("price" not in pack for pack in cleaner["packs"])


@pytest.mark.parametrize(("way", "product"), [("paint", "paint"), ("stain", "clear varnish")])
def test_paint_and_clear_are_denibbed_between_their_coats(
    way: str, product: str, run_new: Run
) -> None:
    coats = [step for step in schedule(run_new, way, "bare") if step.get("product") == product]
    assert [{"grit": 320, "with": "sheet"}] == [step["between"] for step in coats]


@pytest.mark.parametrize(
    ("way", "said"), [("paint", "colour"), ("stain", "colour"), ("stain", "sheen")]
)
def test_file_asks_for_a_name_that_a_client_understands(way: str, said: str, run_new: Run) -> None:
    schedule(run_new, way, "bare")
    assert (
        f"# Give it a name that says its {said}, here and in its steps"
        in Path("mirror.toml").read_text()
    )


def test_top_and_the_rest_of_a_case_may_be_finished_apart(answer: Answer, run_command: Run) -> None:
    """A stained top over painted sides, on an old varnish."""
    assert answer("dresser", "--finish", "top=stain").exit_code == 0
    zones = tomllib.loads(Path("dresser.toml").read_text())["zone"]
    found = {zone["name"]: zone.get("schedule") for zone in zones}
    assert "stain on varnished" == found["top"]
    assert {"paint on varnished"} == {found["outside"], found["drawer fronts"]}
    assert "No mistakes.\n" == checked(run_command, "dresser.toml")


@pytest.mark.parametrize(
    "name",
    ['A "quoted" name', "Back\\slash", "Gr\u00fcne Truhe \u2013 gro\u00df", "# [piece]", "7"],
)
def test_any_name_is_kept_as_it_was_typed(name: str, answer: Answer, run_command: Run) -> None:
    result = answer("mirror", "--name", name, "--out", "x.toml")
    assert result.exit_code == 0
    assert name == tomllib.loads(Path("x.toml").read_text("utf-8"))["piece"]["name"]
    assert "No mistakes.\n" == checked(run_command, "x.toml")


def test_year_and_currency_are_written(answer: Answer) -> None:
    assert answer("mirror", "--currency", "gbp").exit_code == 0
    piece = tomllib.loads(Path("mirror.toml").read_text())["piece"]
    assert (1948, "GBP") == (piece["built"], piece["currency"])
    assert answer("mirror", "--currency", "none", "--out", "b.toml").exit_code == 0
    assert "currency" not in tomllib.loads(Path("b.toml").read_text())["piece"]


@pytest.mark.parametrize("condition", ["bare", "sealed", "varnished", "painted"])
@pytest.mark.parametrize("way", ["paint", "stain", "clear", "oil", "wax"])
@pytest.mark.parametrize("stripping", ["stripper", "sanding"])
def test_what_a_new_file_proposes_is_sound_to_a_practised_eye(
    way: str, condition: str, stripping: str, run_new: Run
) -> None:
    words = ["--finish", way, "--condition", condition, "--width", "24", "--height", "36"]
    more = ["--stripping", stripping] if way in ("stain", "oil") and condition != "bare" else []
    assert run_new("mirror", *words, "--frame", "3", *more).exit_code == 0
    assert [] == [problem.message for problem in api.check(api.read_piece("mirror.toml"))]


def test_the_wash_after_a_stripper_is_not_against_grease(run_new: Run) -> None:
    schedule(run_new, "stain", "painted", "--stripping", "stripper")
    text = Path("mirror.toml").read_text()
    assert "# Wash off what is left of the stripper, as its label says." in text
    assert "grease" not in text
