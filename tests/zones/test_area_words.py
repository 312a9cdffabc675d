"""How much is to be finished, left and forgotten, and which lines are taped, worked out by hand."""

from dataclasses import replace

import pytest
from piece_texts import measured, piece_text

from surfacecalc.model.inputs import Input
from surfacecalc.model.ranges import Factor, Range
from surfacecalc.model.steps import Mask
from surfacecalc.units.display import Units
from surfacecalc.zones.area_words import areas_in_words, lines_to_mask
from surfacecalc.zones.masked_lines import masked_m, masked_zones

TOP = {"name": "top", "faces": ["board.top"], "surface": "bare"}
LEFT = {"name": "underside", "faces": ["board.bottom"], "leave": True}
SIDES = [f"board.{side}" for side in ("front", "back", "left", "right")]
EDGES = {"name": "edges", "faces": SIDES, "leave": True}
OIL = {"do": "coat", "product": "oil", "coats": 1, "by": "cloth"}
MASK = Mask(
    "tape", (), Factor(Input("tape overlap"), Range(0.0, 0.0, 0.0), "piece file"), 0.0, None, 1
)


def board(*more):
    """A board of 500 x 400 x 20 mm: its top is oiled, its underside left, its edges forgotten."""
    zones = [{**TOP, "step": [OIL]}, LEFT, *more]
    return measured(piece_text(zone=zones, product={"name": "oil", "kind": "oil"})).measured


def test_what_is_finished_left_and_forgotten_is_said_apart():
    """0.5 x 0.4 on either side; around them 1.8 m of 20 mm."""
    found = board()
    assert (0.2, 0.2, 0.036) == pytest.approx(
        (found.to_finish_m2, found.left_m2, found.in_no_zone_m2)
    )
    said = "0.20 m2 to finish, 0.20 m2 left as it is, 0.04 m2 in no zone"
    assert said == areas_in_words(found, Units.METRIC)


def test_what_there_is_nothing_of_is_not_said():
    assert "0.20 m2 to finish, 0.24 m2 left as it is" == areas_in_words(board(EDGES), Units.METRIC)
    zones = [{**TOP, "faces": ["*"], "step": [OIL]}]
    found = measured(piece_text(zone=zones, product={"name": "oil", "kind": "oil"})).measured
    assert "0.44 m2 to finish" == areas_in_words(found, Units.METRIC)


def test_a_line_between_zones_is_said_as_on_a_tape():
    top, *_ = board(EDGES).zones
    assert [("edges", "1.80 m")] == lines_to_mask(top, Units.METRIC)
    assert [("edges", "5 ft 11 in")] == lines_to_mask(top, Units.US)  # 70.9 in


@pytest.mark.parametrize(("length_m", "is_taped"), [(0.0009, False), (0.001, True), (0.0015, True)])
def test_lines_of_a_millimetre_and_more_are_taped(length_m, is_taped):
    """A shorter one is the rounding of a corner."""
    zone = replace(board(EDGES).zones[0], meets_m={"edges": length_m})
    assert ["edges"] * is_taped == masked_zones(zone, MASK)
    assert length_m * is_taped == masked_m(zone, MASK)
