"""What goes through a spray gun, worked out on paper from the file and the published figures.

What stays on the piece: HVLP 65 to 80 %, airless 50 to 60 % (pollution prevention case study 286 of
a US state, page 1); conventional 25 % (Wisconsin NR 440.48, table 1: metal furniture). Assumed: on
slender parts a quarter flies past, 10 to 40 %; cups of 600 ml (HVLP) and 1 L (conventional).
"""

import json
from typing import Any

import pytest
from piece_texts import exact, measured, piece_text

from surfacecalc import api
from surfacecalc.reports.plan_json import plan_json

ROUNDED = 1e-9
"""Sums of a few float64 products."""
BOARD_M2 = 2 * (0.5 * 0.4 + 0.5 * 0.02 + 0.4 * 0.02)
STICK_M2 = 4 * 0.7 * 0.02 + 2 * 0.02 * 0.02
BOARD = {"name": "board", "shape": "board", "width": 500, "depth": 400, "height": 20}
STICK = {
    "name": "stick", "shape": "board", "width": 700, "depth": 20, "height": 20,
    "at": [0, 900, 0],
}  # fmt: skip
PAINT = {"name": "enamel", "kind": "waterborne paint", "covers": "10 m2/L"}
GUN_LOSS = {"hvlp": 1 - (0.65 + 0.80) / 2, "airless": 1 - (0.50 + 0.60) / 2, "conventional": 0.75}


def job(*parts: dict, **step: Any) -> api.MeasuredPiece:
    """Return a job with two sprayed coats of 10 m2 a litre on all of some parts."""
    coat = {
        "do": "coat", "product": "enamel", "coats": 2, "by": "spray", "first_coat": "100 %", **step
    }  # fmt: skip
    return measured(exact(piece_text(coat, part=list(parts), product=PAINT)))


def likely_l(found: api.MeasuredPiece) -> float:
    """Return what is worked out of the paint [L]."""
    (supply,) = (one for one in api.supplies(found) if one.name == "enamel")
    return sum(use.likely for use in supply.uses)


def tasks(found: api.MeasuredPiece) -> list[dict]:
    """Return the tasks of its plan, as other programs read them."""
    shown: list[dict] = json.loads(plan_json(found.piece, api.plan(found), {}))["tasks"]
    return shown


@pytest.mark.parametrize("gun", GUN_LOSS)
def test_a_broad_board_loses_what_the_gun_is_known_to_lose(gun: str) -> None:
    expected = 2 * BOARD_M2 / 10 / (1 - GUN_LOSS[gun])
    assert likely_l(job(BOARD, gun=gun)) == pytest.approx(expected, rel=ROUNDED)


@pytest.mark.parametrize(("gun", "low", "high"), [("hvlp", 0.20, 0.35), ("airless", 0.40, 0.50)])
def test_a_gun_has_the_range_that_was_published(gun: str, low: float, high: float) -> None:
    (supply,) = (one for one in api.supplies(job(BOARD, gun=gun)) if one.name == "enamel")
    least, most = (2 * BOARD_M2 / 10 / (1 - loss) for loss in (low, high))
    assert least < supply.need.low < supply.need.high < most
    (loss,) = (one for one in supply.factors if one.what.quantity == "loss")
    assert (low, high) == pytest.approx((loss.range.low, loss.range.high))
    assert loss.source == "published"


def test_without_a_gun_the_wide_range_stays() -> None:
    """25 to 75 %, most likely 40 %, assumed."""
    found = job(BOARD)
    assert likely_l(found) == pytest.approx(2 * BOARD_M2 / 10 / 0.6, rel=ROUNDED)
    (loss,) = (k for one in api.supplies(found) for k in one.factors if k.what.quantity == "loss")
    assert (0.25, 0.75, "assumed") == (loss.range.low, loss.range.high, loss.source)


def test_a_quarter_flies_past_a_slender_stick() -> None:
    expected = 2 * STICK_M2 / 10 / 0.725 / 0.75
    assert likely_l(job(STICK, gun="hvlp")) == pytest.approx(expected, rel=ROUNDED)


def test_of_a_board_and_a_stick_only_the_stick_loses_more() -> None:
    expected = 2 * (BOARD_M2 + STICK_M2 / 0.75) / 10 / 0.725
    assert likely_l(job(BOARD, STICK, gun="hvlp")) == pytest.approx(expected, rel=ROUNDED)


def test_what_flies_past_is_told_as_assumed_where_it_is_sprayed_and_slender() -> None:
    def told(*parts: dict, **step: Any) -> list[tuple[str, float, float]]:
        factors = [one for supply in api.supplies(job(*parts, **step)) for one in supply.factors]
        past = [one for one in factors if one.what.quantity == "sprayed past"]
        return [(one.source, one.range.low, one.range.high) for one in past]

    assert told(STICK) == [("assumed", 0.10, 0.40)]
    assert told(BOARD) == []
    assert told(STICK, by="brush") == []


def test_a_loss_of_your_own_counts_for_all_of_it() -> None:
    expected = 2 * STICK_M2 / 10 / 0.7
    found = job(STICK, gun="hvlp", loss=["30 %", "30 %", "30 %"])
    assert likely_l(found) == pytest.approx(expected, rel=ROUNDED)


def test_a_brushed_stick_loses_nothing_past_it() -> None:
    assert likely_l(job(STICK, by="brush")) == pytest.approx(2 * STICK_M2 / 10 / 0.9, rel=ROUNDED)


COAT_L = BOARD_M2 / 10 / 0.725


@pytest.mark.parametrize(
    ("step", "sprayed_l", "cups"),
    [
        ({"gun": "hvlp"}, COAT_L, 1),
        ({"gun": "hvlp", "cup": "50 ml"}, COAT_L, 2),
        # a tenth of thinner takes 60.1 ml to 66.2 ml
        ({"gun": "hvlp", "cup": "63 ml"}, COAT_L, 1),
        ({"gun": "hvlp", "cup": "63 ml", "thin": "10 %"}, 1.1 * COAT_L, 2),
        ({"gun": "airless"}, BOARD_M2 / 10 / 0.55, None),
        ({"gun": "airless", "cup": "1 L"}, BOARD_M2 / 10 / 0.55, 1),
        ({}, BOARD_M2 / 10 / 0.6, None),
        ({"cup": "60 ml"}, BOARD_M2 / 10 / 0.6, 2),
    ],
)
def test_a_session_says_how_much_is_sprayed_and_how_often_the_cup_is_filled(
    step: dict, sprayed_l: float, cups: int | None
) -> None:
    for task in tasks(job(BOARD, **step)):
        assert task["sprayed_l"] == pytest.approx(sprayed_l, rel=ROUNDED)
        assert task["cup_fillings"] == cups
        words = {None: "by spray", 1: "by spray, 1 cup", 2: "by spray, 2 cups"}
        assert task["task"].endswith(words[cups])


def test_each_side_of_a_coat_that_is_turned_over_takes_half() -> None:
    found = tasks(job(BOARD, gun="hvlp", sides=2))
    assert len(found) == 4
    for task in found:
        assert task["sprayed_l"] == pytest.approx(COAT_L / 2, rel=ROUNDED)


def test_a_first_coat_on_bare_wood_takes_more() -> None:
    """Half the coverage: twice as much, 120 ml and then 60 ml, from a cup of 100 ml."""
    first, second = tasks(job(BOARD, gun="hvlp", cup="100 ml", first_coat="50 %"))
    assert [first["cup_fillings"], second["cup_fillings"]] == [2, 1]
    assert first["sprayed_l"] == pytest.approx(2 * COAT_L, rel=ROUNDED)


def test_what_the_gun_keeps_is_part_of_each_session() -> None:
    kept = [task["sprayed_l"] for task in tasks(job(BOARD, gun="hvlp", stays_behind="40 ml"))]
    assert kept == pytest.approx([COAT_L + 0.04] * 2, rel=ROUNDED)


def test_what_is_brushed_has_no_cups() -> None:
    for task in tasks(job(BOARD, by="brush")):
        assert (task["sprayed_l"], task["cup_fillings"]) == (None, None)


def test_sanding_between_sprayed_coats_has_no_cups() -> None:
    coat = {
        "do": "coat", "product": "enamel", "coats": 2, "by": "spray", "first_coat": "100 %",
        "gun": "hvlp", "between": {"grit": 320, "with": "disc"},
    }  # fmt: skip
    disc = {"name": "disc", "form": "125 mm disc"}
    found = tasks(measured(exact(piece_text(coat, part=[BOARD], product=PAINT, abrasive=disc))))
    assert [1, None, 1] == [task["cup_fillings"] for task in found]


def test_what_flies_past_a_stick_goes_through_the_gun_as_well() -> None:
    for task in tasks(job(STICK, gun="hvlp")):
        assert task["sprayed_l"] == pytest.approx(STICK_M2 / 10 / 0.725 / 0.75, rel=ROUNDED)


def test_thirsty_faces_go_through_the_gun_in_the_first_coat() -> None:
    """The top, 0.2 m2, counts twice in the first coat on bare wood."""
    coat = {
        "do": "coat", "product": "enamel", "coats": 2, "by": "spray", "first_coat": "100 %",
        "gun": "hvlp",
    }  # fmt: skip
    zone = {"thirsty": [{"faces": ["board.top"], "times": 2}]}
    first, second = tasks(measured(exact(piece_text(coat, product=PAINT, zone=zone))))
    assert first["sprayed_l"] == pytest.approx((BOARD_M2 + 0.2) / 10 / 0.725, rel=ROUNDED)
    assert second["sprayed_l"] == pytest.approx(COAT_L, rel=ROUNDED)


def test_tint_goes_through_the_gun() -> None:
    green = {"name": "green", "kind": "tinting colour"}
    coat = {
        "do": "coat", "product": "enamel", "coats": 1, "by": "spray", "first_coat": "100 %",
        "gun": "hvlp", "tint": {"product": "green", "share": "5 %"},
    }  # fmt: skip
    (task,) = tasks(measured(exact(piece_text(coat, product=[PAINT, green]))))
    assert task["sprayed_l"] == pytest.approx(1.05 * COAT_L, rel=ROUNDED)


def test_hardware_that_two_zones_share_is_sprayed_once_between_them() -> None:
    """Four pulls of 80 by 30 mm, 20 mm deep: 4 x (80 x 30 + 2 x 20 x 110) mm2, half in each."""
    pulls = {"name": "pulls", "count": 4, "plan": "renew", "size": [80, 30, 20]}
    coat = {
        "do": "wax hardware", "product": "enamel", "by": "spray", "first_coat": "100 %",
        "gun": "hvlp", "hardware": "pulls", "stays_behind": "10 ml",
    }  # fmt: skip
    other = {**BOARD, "name": "other", "at": [0, 900, 0]}
    zones = [
        {"name": name, "faces": [name], "surface": "bare", "schedule": "both"}
        for name in ("board", "other")
    ]
    text = piece_text(part=[BOARD, other], product=PAINT, hardware=pulls, zone=zones)
    text += "[[schedule.both]]\n" + "".join(
        f"{key} = {json.dumps(value)}\n" for key, value in coat.items()
    )
    pulls_m2 = 4 * (80 * 30 + 2 * 20 * (80 + 30)) / 1e6
    found = tasks(measured(exact(text)))
    assert len(found) == 2
    for task in found:
        assert task["sprayed_l"] == pytest.approx((pulls_m2 / 10 / 0.725 + 0.01) / 2, rel=ROUNDED)


def test_hardware_is_not_slender() -> None:
    """Its area is not the zone's, so a zone of sticks makes its spray fly past nothing."""
    pulls = {"name": "pulls", "count": 4, "plan": "renew", "size": [80, 30, 20]}
    coat = {
        "do": "wax hardware", "product": "enamel", "by": "spray", "first_coat": "100 %",
        "gun": "hvlp", "hardware": "pulls",
    }  # fmt: skip
    text = piece_text(coat, part=[STICK], product=PAINT, hardware=pulls)
    pulls_m2 = 4 * (80 * 30 + 2 * 20 * (80 + 30)) / 1e6
    assert likely_l(measured(exact(text))) == pytest.approx(pulls_m2 / 10 / 0.725, rel=ROUNDED)


def test_what_is_sold_by_weight_has_no_cups() -> None:
    by_weight = {**PAINT, "covers": "8 m2/kg"}
    coat = {
        "do": "coat", "product": "enamel", "coats": 1, "by": "spray", "gun": "hvlp",
        "first_coat": "100 %",
    }  # fmt: skip
    (task,) = tasks(measured(exact(piece_text(coat, product=by_weight))))
    assert (task["sprayed_l"], task["cup_fillings"]) == (None, None)
    assert task["task"].endswith("by spray")
