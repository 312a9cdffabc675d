"""Chamfered and octagonal legs against closed forms; the CAD kernel is in tests/reference."""

import math

import pytest
from scipy.integrate import quad

from shapes.chamfered_legs import chamfered_leg, octagonal_leg

SUMS = 1e-12
"""Sums of some hundred rounded products."""


def test_an_octagon_has_eight_equal_sides_and_ends_of_its_closed_form():
    areas = octagonal_leg(700, 60).area_mm2_of
    side = 60 * (math.sqrt(2) - 1) * 700
    end = 2 * (math.sqrt(2) - 1) * 60**2
    expected = dict.fromkeys(("front", "back", "left", "right"), side)
    expected |= {"chamfer": 4 * side, "top": end, "bottom": end}
    assert expected == pytest.approx(areas, rel=SUMS)


def test_sides_of_a_tapered_octagon_are_trapezia():
    areas = octagonal_leg(300, 60, foot=40).area_mm2_of
    slant = math.hypot(300, 10)
    assert areas["front"] == pytest.approx((60 + 40) / 2 * (math.sqrt(2) - 1) * slant, rel=SUMS)


@pytest.mark.parametrize(
    ("length", "gone", "slope"),
    [
        # what two stops add to the cut from each face, and to the chamfer on each corner
        (0, 0, 8 * 8),
        (30, 30 * 8, math.sqrt(2) * 8 * math.hypot(30, 8 / math.sqrt(2))),
    ],
)
def test_a_stop_chamfered_post_by_hand(length, gone, slope):
    """8 off each face of a post of 60 x 50, between 100 and 600."""
    areas = chamfered_leg(700, 60, 50, chamfer=8, stops=[100, 600], stop_length=length).area_mm2_of
    even = 500 - 2 * length
    for name, width in (("front", 60), ("back", 60), ("left", 50), ("right", 50)):
        assert width * 700 - 2 * (8 * even + gone) == pytest.approx(areas[name], rel=SUMS)
    assert 4 * (8 * math.sqrt(2) * even + slope) == pytest.approx(areas["chamfer"], rel=SUMS)
    assert areas["top"] == areas["bottom"] == 60 * 50


def test_a_lambs_tongue_is_the_integral_of_its_width():
    """Two equal arcs, level at both ends, 30 long and 8 / sqrt 2 deep below the corner."""
    sunk, half = 8 / math.sqrt(2), 15.0
    radius = (half**2 + (sunk / 2) ** 2) / sunk  # of a rise of sunk / 2 over a run of half

    def width_along(at: float) -> float:
        deep = radius - math.sqrt(radius**2 - at**2)
        return 2 * deep * radius / math.sqrt(radius**2 - at**2)

    def from_the_end(at: float) -> float:
        deep = sunk - (radius - math.sqrt(radius**2 - at**2))
        return 2 * deep * radius / math.sqrt(radius**2 - at**2)

    tongue = quad(width_along, 0, half)[0] + quad(from_the_end, 0, half)[0]
    post = chamfered_leg(700, 60, 50, chamfer=8, stops=[100, 600], stop_length=30, is_tongue=True)
    expected = 4 * (8 * math.sqrt(2) * 440 + 2 * tongue)
    assert expected == pytest.approx(post.area_mm2_of["chamfer"], rel=1e-9)  # the quadrature


def test_a_chamfer_runs_out_at_an_end_of_the_post_without_a_stop():
    whole = chamfered_leg(700, 60, chamfer=8)
    same = chamfered_leg(700, 60, chamfer=8, stops=[0, 700], stop_length=30)
    assert whole.area_mm2_of == same.area_mm2_of
    assert whole.area_mm2_of["top"] == 60 * 60 - 2 * 8 * 8


@pytest.mark.parametrize(
    ("more", "argument", "rule", "value", "limit"),
    [
        ({"chamfer": 25}, "chamfer", "half of the narrower side", 25, 25.0),
        ({"chamfer": 0}, "chamfer", "more than zero", 0, None),
        ({"stops": [100]}, "stops", "two heights", None, None),
        ({"stops": [-1, 100]}, "stops", "rising, from 0 to the height", None, 700.0),
        ({"stops": [100, 701]}, "stops", "rising, from 0 to the height", None, 700.0),
        ({"stops": [100, 100]}, "stops", "rising, from 0 to the height", None, 700.0),
        ({"stop_length": -1}, "stop_length", "0 or more", -1, None),
        ({"stop_length": 7.9, "is_tongue": True}, "stop_length", "no less than", 7.9, 8),
        ({"stops": [100, 150], "stop_length": 26}, "stops", "further apart", None, None),
    ],
)
def test_chamfers_that_cannot_be_cut_are_refused(more, argument, rule, value, limit, check_refused):
    sizes = {"height": 700, "width": 60, "depth": 50, "chamfer": 8} | more
    check_refused(lambda: chamfered_leg(**sizes), argument, rule, value, limit)
