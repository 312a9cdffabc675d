"""Relief: ratios of true to flat area, and multipliers that are none."""

import math

import pytest

from shapes.boards import board
from shapes.errors import ShapeError
from shapes.exposure import exposure
from shapes.placement import place
from shapes.relief import PRICING, SUGGESTED, beaded_ratio, fluting_ratio, ratio_named, relief

BOARD = board(100, 20, 50)


def test_only_the_faces_named_grow():
    grown = relief(BOARD, ["front", "top"], 1.5)
    expected = BOARD.area_mm2_of | {"front": 7500.0, "top": 3000.0}
    assert expected == grown.area_mm2_of
    assert BOARD.vertices.tolist() == grown.vertices.tolist()


@pytest.mark.parametrize("name", SUGGESTED)
def test_suggested_ratios_go_by_name(name):
    assert relief(BOARD, ["front"], name).area_mm2_of["front"] == 5000 * SUGGESTED[name]


def test_suggested_ratios_are_those_of_the_standard():
    """IS 1200 (Part 15), fourth revision, 1987."""
    assert SUGGESTED == {"carved": 2.0, "match boarding": 1.05, "weather boarding": 1.2}


def test_half_hidden_relief_is_half():
    parts = [place("a", relief(BOARD, ["front"], 1.4)), place("b", board(50, 30, 50), (0, -30, 0))]
    # 1e-12: a share of two rounded sums
    assert 5000 * 1.4 / 2 == pytest.approx(exposure(parts).areas_mm2["a", "front"], rel=1e-12)


@pytest.mark.parametrize("name", PRICING)
def test_pricing_multipliers_are_refused_as_areas(name):
    with pytest.raises(ShapeError, match="rule for pricing"):
        relief(BOARD, ["front"], name)
    assert name not in SUGGESTED


def test_semicircular_flutes_are_half_pi():
    assert math.pi / 2 == pytest.approx(fluting_ratio(12), rel=1e-15)


def test_flats_between_flutes_dilute_the_ratio():
    assert (12 * math.pi / 2 + 3) / 15 == pytest.approx(fluting_ratio(12, 3), rel=1e-15)


def test_shallow_flutes_are_arcs():
    # chord 12, sink 2: radius 10, half angle asin 0.6
    assert 20 * math.asin(0.6) / 12 == pytest.approx(fluting_ratio(12, sink=2), rel=1e-12)
    assert fluting_ratio(12, sink=6) == pytest.approx(math.pi / 2, rel=1e-12)


def test_a_shallower_flute_adds_less():
    ratios = [fluting_ratio(12, sink=sink) for sink in (0.1, 1, 3, 6)]
    assert ratios == sorted(ratios)
    assert 1 < ratios[0] < 1.001


def test_beaded_boards_by_hand():
    expected = (90 - 6 + 3 * math.pi + 2 * 3) / 90
    assert expected == pytest.approx(beaded_ratio(90, 6, groove=(2, 3)), rel=1e-15)
    assert (90 - 6 + 3 * math.pi) / 90 == pytest.approx(beaded_ratio(90, 6), rel=1e-15)


def test_beaded_boards_lie_near_the_published_coefficient():
    """IS 1200 gives 1.05 for match boarding; a 6 mm bead each 75 mm has 1.046."""
    assert SUGGESTED["match boarding"] == pytest.approx(beaded_ratio(75, 6), abs=0.01)


@pytest.mark.parametrize(
    ("call", "argument"),
    [
        (lambda: relief(BOARD, ["inside"], 1.2), "faces"),
        (lambda: relief(BOARD, ["front"], 0.99), "ratio"),
        (lambda: relief(BOARD, ["front"], 10.1), "ratio"),
        (lambda: relief(BOARD, ["front"], math.nan), "ratio"),
        (lambda: ratio_named("lace"), "ratio"),
        (lambda: ratio_named("balustrade"), "ratio"),
        (lambda: fluting_ratio(0), "width"),
        (lambda: fluting_ratio(9, -1), "fillet"),
        (lambda: fluting_ratio(9, sink=0), "sink"),
        (lambda: beaded_ratio(0, 6), "pitch"),
        (lambda: beaded_ratio(90, 0), "bead"),
        (lambda: beaded_ratio(6, 5, groove=(2, 1)), "bead"),
        (lambda: beaded_ratio(90, 5, groove=(2, -1)), "groove"),
    ],
)
def test_what_is_wrong_is_named(call, argument):
    with pytest.raises(ShapeError) as caught:
        call()
    assert argument == caught.value.argument
