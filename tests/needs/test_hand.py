"""Whose hand an amount goes up and down with, and what no hand changes."""

import numpy as np
import pytest
from piece_texts import measured, piece_text

from surfacecalc import api
from surfacecalc.needs.hand import Hand

TEXT = piece_text(
    piece={"name": "Box"},
    part={"shape": "board", "width": "1 m", "depth": "1 m", "height": "1 m"},
    zone={"name": "all", "faces": ["*"], "surface": "sealed", "step": [
        {"do": "wash", "product": "soap", "covers": "5 m2/L", "strength": "10 %"},
        {"do": "sand", "grits": [120, 180], "with": "sheet", "uses": ["rag", "glove"]},
        {"do": "coat", "product": "paint", "coats": 2, "by": "brush", "loss": "0 %",
         "thin": "5 %", "tint": {"product": "tint", "share": "2 %"}},
        {"do": "coat", "product": "paint", "coats": 1, "by": "spray", "loss": "0 %"},
        {"do": "repair", "what": "joints", "count": 4, "product": "glue", "each": "3 ml"},
    ]},
    product=[
        {"name": "soap", "kind": "cleaner"},
        {"name": "paint", "kind": "waterborne paint", "covers": "10 m2/L"},
        {"name": "tint", "kind": "waterborne paint", "covers": "10 m2/L"},
        {"name": "glue", "kind": "glue"},
    ],
    abrasive={"name": "sheet", "form": "sheet", "life": ["1 m2", "1 m2", "1 m2"]},
    consumable=[
        {"name": "rag", "lasts": ["1 m2", "1 m2", "1 m2"]},
        {"name": "glove", "lasts": "1 session"},
    ],
)  # fmt: skip


@pytest.fixture(scope="module")
def found():
    return {one.title: one for one in api.supplies(measured(TEXT))}


def log_spread(drawn) -> float:
    return float(np.std(np.log(drawn)))


def parts(supply) -> set[tuple[str, str, str]]:
    """Return what of the hand a supply goes up and down with."""
    return {
        (factor.what.quantity, factor.what.of, factor.what.by)
        for factor in supply.factors
        if factor.what.quantity.startswith("hand")
    }


def test_all_that_is_used_by_area_has_the_spread_of_three_levels(found):
    """The root of 0.16^2 + 0.12^2 + 0.11^2, where nothing else is uncertain: 0.2283."""
    whole = (0.16**2 + 0.12**2 + 0.11**2) ** 0.5
    for title in ("soap", "sheet P120", "rag", "tint"):
        # 1e-3: a lattice of 65 536
        assert whole == pytest.approx(log_spread(found[title].drawn), abs=1e-3), title


def test_supplies_share_the_workshops_hand_and_nothing_else(found):
    """Correlation 0.0256 / 0.0521 = 0.491."""
    one, other = (np.log(found[title].drawn) for title in ("soap", "rag"))
    # 0.01: four standard errors of the part that is drawn at random
    assert pytest.approx(0.0256 / 0.0521, abs=0.01) == np.corrcoef(one, other)[0, 1]


def test_grits_of_one_abrasive_go_together(found):
    assert parts(found["sheet P120"]) == parts(found["sheet P180"])
    assert found["sheet P120"].drawn == pytest.approx(found["sheet P180"].drawn)


def test_what_is_stirred_in_goes_with_what_it_is_stirred_into(found):
    (brushed, sprayed) = found["paint"].uses
    assert 0.02 * brushed.drawn == pytest.approx(found["tint"].drawn)
    assert 0.05 * brushed.drawn == pytest.approx(found["thinner for paint"].drawn)
    assert parts(found["tint"]) == {
        ("hand", "", ""),
        ("hand with a supply", "paint", "brush"),
        ("hand in a job", "paint", "brush"),
    }
    assert sprayed.drawn != pytest.approx(brushed.drawn / 2)  # each way has a hand of its own


def test_water_goes_with_its_cleaner(found):
    """No rinse: water is nine times the soap in every draw, whatever the hand."""
    rinse = found["water from the tap"].drawn - 9 * found["soap"].drawn
    # the rinse is all that is left, and goes up and down with the same hand
    ratio = found["soap"].drawn / found["soap"].worked_out
    assert np.corrcoef(rinse, ratio)[0, 1] > 0.5
    assert parts(found["water from the tap"]) == parts(found["soap"])


@pytest.mark.parametrize(("title", "amount"), [("glove", 2), ("glue", 0.012)])
def test_what_is_counted_goes_with_no_hand(found, title, amount):
    assert found[title].is_exact
    assert amount == pytest.approx(found[title].need.buy_for)
    assert set() == parts(found[title])


def test_the_job_is_told_from_the_next_by_the_pieces_name(found):
    (job,) = {f.what.job for f in found["soap"].factors if f.what.quantity == "hand in a job"}
    assert job == "Box"
    other = {one.title: one for one in api.supplies(measured(TEXT.replace("Box", "Case")))}
    both = np.corrcoef(np.log(found["soap"].drawn), np.log(other["soap"].drawn))[0, 1]
    # the workshop's and the supply's stay: (0.0256 + 0.0144) / 0.0521
    assert pytest.approx(0.0400 / 0.0521, abs=0.01) == both


def test_a_hand_is_a_number_of_times_and_no_share():
    assert {"times"} == {one.unit for one in Hand("job").factors("paint", "brush")}
