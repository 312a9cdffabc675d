"""Values just beyond what a piece file may say are refused with what would be right."""

from typing import Any

import pytest
from piece_texts import measured, piece_text

from surfacecalc.api import read_piece_text
from surfacecalc.model.step_facts import coats_of
from surfacecalc.reading.shown import shown

COAT = {"do": "coat", "product": "it", "coats": 1, "by": "brush"}
TAPED = {"do": "mask", "tape": "it"}
PAINT = {"name": "it", "kind": "paint", "covers": "10 m2/L"}
WAX = {"name": "it", "kind": "paste wax", "covers": "20 m2/kg"}


def mistakes(*steps: dict[str, Any], **tables: Any) -> list[str]:
    found = read_piece_text(piece_text(*steps, **tables)).problems
    return [problem.message for problem in found if problem.level == "mend"]


@pytest.mark.parametrize(
    ("keys", "said"),
    [
        ({"gap": "5.01 mm"}, "must be from 0 to 5 mm"),
        ({"gap": "5 mm"}, None),
        ({"measured_to": "50.1 mm"}, "must be from 0 to 50 mm"),
        ({"measured_to": "50 mm"}, None),
    ],
)
def test_how_finely_a_piece_is_taken_has_bounds(keys: dict[str, Any], said: str | None) -> None:
    found = mistakes({**COAT}, product=PAINT, piece=keys)
    assert (said is None) == (found == [])
    assert said is None or said in found[0]


@pytest.mark.parametrize(("amount", "is_refused"), [("10 L", False), ("10.1 L", True)])
def test_more_than_ten_litres_do_not_stay_in_a_brush(amount: str, is_refused: bool) -> None:
    found = mistakes({**COAT, "stays_behind": amount}, product=PAINT)
    assert is_refused == any("must be from zero to" in message for message in found)


@pytest.mark.parametrize(
    ("on_hand", "is_refused"),
    [("10000 m", False), ("10001 m", True), ("10000 m2", False), ("10001 m2", True)],
)
def test_more_than_ten_thousand_metres_of_tape_are_a_wrong_unit(
    on_hand: str, is_refused: bool
) -> None:
    found = mistakes(TAPED, tape={"name": "it", "on_hand": on_hand})
    refused = [text for text in found if "must be from zero to 10,000 m or m2" in text]
    assert is_refused == bool(refused)


@pytest.mark.parametrize(("on_hand", "unit"), [("3 m", "m"), ("3 m2", "m2")])
def test_tape_without_packs_is_counted_as_it_is_on_hand(on_hand: str, unit: str) -> None:
    step = TAPED if unit == "m" else {**TAPED, "tape": "other", "film": "it", "cover": "1 m2"}
    tapes = [{"name": "it", "on_hand": on_hand}, {"name": "other"}]
    found = measured(piece_text(step, tape=tapes)).piece.shelf.tapes["it"]
    assert (unit, 3.0) == (found.unit, found.on_hand)


def test_a_list_of_words_has_no_number_in_it() -> None:
    (message,) = mistakes(COAT, product=PAINT, zone={"faces": ["board.top", 3]})
    assert "must be a list of words in quotes" in message


@pytest.mark.parametrize(("unit", "product"), [("kg", WAX), ("L", PAINT)])
def test_what_stays_in_the_tools_is_in_the_unit_of_the_product(
    unit: str, product: dict[str, Any]
) -> None:
    text = piece_text({**COAT, "stays_behind": True}, product=product)
    (coat,) = coats_of(measured(text).piece.zones[0].steps)
    assert coat.stays_behind is not None
    assert unit == coat.stays_behind.unit


def test_a_hardener_by_weight_needs_the_density_of_what_is_sold_by_volume() -> None:
    hole = [{"count": 2, "diameter": "6 mm", "depth": "3 mm"}]
    step = {"do": "fill", "product": "it", "pits": hole,
            "hardener": {"product": "hard", "share": "2 %"}}  # fmt: skip
    filler = {"name": "it", "kind": "two-part filler", "covers": "8 m2/L"}
    hard = {"name": "hard", "kind": "hardener", "density": "1.2 kg/L"}
    said = 'hardener has a share by weight, but the filler "it" is sold by volume; add density'
    (message,) = mistakes(step, product=[filler, hard])
    assert message.startswith(said)
    assert [] == mistakes(step, product=[{**filler, "density": "1.5 kg/L"}, hard])


def test_a_step_of_a_schedule_is_shown_under_its_schedule() -> None:
    """A table of steps that has the wrong form is shown the right one."""
    text = piece_text(COAT, product=PAINT)
    wrong = text.replace("[[zone.step]]\n", "[zone.step]\n")
    found = [problem.message for problem in read_piece_text(wrong).problems]
    assert any("[[zone.step]]" in message for message in found)


def test_a_list_deep_in_lists_is_cut_short() -> None:
    assert "[[[...]]]" == shown([[[[1]]]])
    assert "[[1, 2]]" == shown([[1, 2]])


def test_a_hardener_that_is_not_there_is_one_mistake() -> None:
    step = {"do": "fill", "product": "it",
            "pits": [{"count": 2, "diameter": "6 mm", "depth": "3 mm"}],
            "hardener": {"product": "none", "share": "2 %"}}  # fmt: skip
    filler = {"name": "it", "kind": "two-part filler", "covers": "8 m2/L", "density": "1.5 kg/L"}
    (message,) = mistakes(step, product=filler)
    assert "is not a product in this file" in message
