"""What people read of a set of pieces: how many there are, and what falls on each."""

import json
import re
from pathlib import Path

import pytest
from piece_texts import piece_text
from typer.testing import CliRunner

from surfacecalc.commands import app

PAINT = {"name": "moss green", "kind": "waterborne furniture paint", "covers": "10 m2/L",
         "on_hand": "1 L", "packs": [{"size": "1 L", "price": 20}]}  # fmt: skip


@pytest.fixture(scope="module")
def set_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("sets") / "stools.toml"
    file.write_text(
        piece_text(
            {"do": "coat", "product": "moss green", "coats": 1, "by": "brush", "time": "1 h"},
            piece={"name": "Stool", "count": 3, "currency": "USD"},
            zone={"faces": ["*.top"], "surface": "painted"},
            product=PAINT,
            workshop={"hours": ["mon-sun 09:00-11:00"], "set_up": "0 min"},
            price={"asked": 100, "hours": 4},
        )
    )
    return file


def told(*words: str | Path) -> str:
    found = CliRunner().invoke(app, [str(word) for word in words])
    assert found.exit_code == 0, found.output
    return found.output


def test_areas_are_told_of_one_and_of_all(set_file: Path) -> None:
    text = told("areas", set_file, "--faces")
    assert "note: faces: 0.24 m2 is in no zone" in text  # of one piece, as it is looked for there
    assert text.startswith("Stool (3 of these)\n")
    assert "One of them: 0.20 m2 to finish, 0.24 m2 in no zone\n" in text
    assert "All 3: 0.60 m2 to finish, 0.71 m2 in no zone\n" in text
    assert re.search(r"^Zone +One +All 3 +Mask on all 3$", text, re.MULTILINE)
    assert re.search(r"^all +0\.20 m2 +0\.60 m2$", text, re.MULTILINE)
    assert re.search(r"^in no zone +0\.24 m2 +0\.71 m2$", text, re.MULTILINE)
    assert re.search(
        r"^all +board +top +0\.2000 m2$", text, re.MULTILINE
    )  # a face is that of one piece


@pytest.mark.parametrize("command", ["supplies", "jars", "plan", "quote"])
def test_every_list_says_how_many_there_are(set_file: Path, command: str) -> None:
    assert told(command, set_file).startswith("Stool (3 of these): ")


def test_hours_and_price_are_told_for_each(set_file: Path) -> None:
    plan = told("plan", set_file)
    assert "Hands-on time: 3 h over 2 days" in plan
    assert "That is about 1 h for each of the 3." in plan
    assert "Where a coat goes on over closing time, stop between two pieces, never on one." in plan
    assert "For each of the 3, about: 33.33 USD, 1.33 h." in told("quote", set_file)


def test_programs_get_how_many_there_are_and_what_falls_on_each(set_file: Path) -> None:
    found = {
        command: json.loads(told(command, set_file, "--json"))
        for command in ("areas", "supplies", "jars", "plan", "quote")
    }
    assert {3} == {one["count"] for one in found.values()}
    (zone,) = found["areas"]["zones"]
    assert [0.6, 0.2] == pytest.approx([zone["area_m2"], zone["area_each_m2"]])
    exposed = found["areas"]["exposed_m2"], found["areas"]["exposed_each_m2"]
    assert [3 * 0.436, 0.436] == pytest.approx(exposed)
    assert (3.0, 1.0) == (found["plan"]["hands_on_h"], found["plan"]["hands_on_each_h"])
    assert found["plan"]["tasks"][0]["can_pause"]
    assert (100, 33.33) == (found["quote"]["asked"]["total"], found["quote"]["asked"]["total_each"])
    trip = json.loads(told("supplies", set_file, set_file, "--json"))
    assert [3, 3] == trip["counts"]


def test_sheets_say_how_many_there_are_and_what_falls_on_each(
    set_file: Path, tmp_path: Path
) -> None:
    told("sheet", set_file, "--to", tmp_path / "shop.html")
    told("sheet", set_file, "--client", "--to", tmp_path / "client.html")
    shop, client = ((tmp_path / f"{name}.html").read_text() for name in ("shop", "client"))
    shop_words, client_words = (re.sub(r"<[^>]*>|\s+", " ", text) for text in (shop, client))
    shop_words, client_words = (re.sub(r" +", " ", text) for text in (shop_words, client_words))
    assert "Stool (3 of these)" in shop_words
    assert "To finish on each 0.20 m2" in shop_words
    assert "To finish on all 3 0.60 m2" in shop_words
    assert "Hands-on time for each about an hour" in shop_words
    assert "On each On all" in shop_words
    assert re.search(r"Total 0\.44 m2 1\.31 m2", shop_words)
    assert "Stool (3 of these)" in client_words
    assert re.search(r"Price for all 3 \D*100", client_words)
    assert re.search(r"For each, about \D*33\.33", client_words)


def test_a_drawing_shows_one_and_says_how_many_there_are(set_file: Path, tmp_path: Path) -> None:
    told("draw", set_file, "--to", tmp_path / "stool.svg")
    told("draw", set_file, "--to", tmp_path / "stool.html")
    for name in ("stool.svg", "stool.html"):
        text = (tmp_path / name).read_text()
        assert "Stool (3 of these)" in text
        assert "each: 0.20 m2 to finish, 0.24 m2 in no zone" in text
        assert "0.60 m2" not in text
    assert "0.44 m2" in text  # all that is exposed of one piece
