"""Coats that set in the cup, where one zone swaps the colour: each colour is mixed fresh."""

from datetime import datetime
from typing import Any

from piece_texts import piece_text

from surfacecalc import api

NOW = datetime(2026, 11, 28, 9)
COAT = {
    "do": "coat",
    "product": "green",
    "coats": 1,
    "by": "brush",
    "rate": "1 m2/h",
    "hardener": {"product": "hard", "share": "5 %"},
    "pot_life": "20 min",
}


def text_of(coat: dict) -> str:
    """Two faces of 1 m2, one in another colour: an hour each, so three batches of 20 min."""
    zones: list[dict[str, Any]] = [
        {"name": "top", "faces": ["board.top"], "surface": "sealed", "schedule": "finish"},
        {
            "name": "under",
            "faces": ["board.bottom"],
            "surface": "sealed",
            "schedule": "finish",
            "swap": {"green": "white"},
        },
    ]
    return piece_text(
        part={"shape": "board", "width": "1 m", "depth": "1 m", "height": "1 m"},
        zone=zones,
        product=[
            {"name": "green", "kind": "two-part paint"},
            {"name": "white", "kind": "two-part paint"},
            {"name": "hard", "kind": "hardener", "packs": [{"size": "250 ml"}]},
        ],
        **{"schedule.finish": [coat]},
    )


def test_each_colour_of_one_line_is_mixed_fresh():
    piece = api.read_piece_text(text_of({**COAT, "pot_life": "4 h"}))
    said = [text for text in api.plan(api.measure(piece), NOW).mind if text.startswith("Mix")]
    assert [
        "Mix green and its hardener fresh for each coat: the mix sets after 4 h.",
        "Mix white and its hardener fresh for each coat: the mix sets after 4 h.",
    ] == said


def test_what_spoils_without_a_hardener_has_none_to_mix_in():
    piece = api.read_piece_text(text_of({**COAT, "hardener": False, "pot_life": "4 h"}))
    said = api.plan(api.measure(piece), NOW).mind
    assert "Mix white fresh for each coat: the mix sets after 4 h." in said


def test_check_counts_the_hours_of_the_whole_set():
    """A square metre takes an hour, less than the 90 min; three of them take two batches."""
    long = text_of({**COAT, "pot_life": "90 min"})
    for count, told in ((1, False), (3, True)):
        text = long.replace('unit = "mm"', f'unit = "mm"\ncount = {count}')
        notes = api.check(api.read_piece_text(text), NOW)
        assert told == any("it is counted in 2 batches" in note.message for note in notes)


def test_one_session_over_two_steps_is_warned_of_once():
    """Two faces of 1 m2 in one session take 2 h."""
    together = {**COAT, "together": "last", "pot_life": "90 min"}
    zones: list[dict[str, Any]] = [
        {"name": name, "faces": [f"board.{name}"], "surface": "sealed", "step": [together]}
        for name in ("top", "bottom")
    ]
    text = piece_text(
        part={"shape": "board", "width": "1 m", "depth": "1 m", "height": "1 m"},
        zone=zones,
        product=[
            {"name": "green", "kind": "two-part paint"},
            {"name": "hard", "kind": "hardener", "packs": [{"size": "250 ml"}]},
        ],
    )
    notes = api.check(api.read_piece_text(text), NOW)
    lines = [note.line for note in notes if "2 batches" in note.message]
    of_second_zone = text[: text.rindex("[[zone]]")].count("\n") + 1
    assert [True] == [(line or 0) < of_second_zone for line in lines]


def test_check_warns_about_each_colour_of_one_line():
    notes = api.check(api.read_piece_text(text_of(COAT)), NOW)
    assert ['coat "green"', 'coat "white"'] == [
        note.where for note in notes if "3 batches" in note.message
    ]
