"""Splayed legs against closed forms; the independent CAD kernel is in tests/reference."""

import math

import numpy as np
import pytest

from shapes.exposure import exposure
from shapes.legs import round_leg, tapered_leg, turned_leg
from shapes.outline_boards import outline_board
from shapes.outlines import circle
from shapes.placement import place
from shapes.splayed_legs import splayed_leg, splayed_round_leg, splayed_turned_leg

SPLAY = {"left": 8.0, "front": 11.0}
LONGER = math.hypot(1, math.tan(math.radians(8)), math.tan(math.radians(11)))
"""Length along the stick for each unit of height."""
PROFILE = [[0, 26], [200, 44], [400, 30]]
ROUNDED = 1e-8
"""The stick's length is rounded to the grid: 1/80 000 mm in some 400 mm."""


@pytest.mark.parametrize("splay", [SPLAY, {"right": 8.0, "back": 11.0}])
def test_a_square_leg_has_sides_as_long_as_its_stick_whatever_its_direction(splay):
    areas = splayed_leg(400, 30, 45, splay=splay).area_mm2_of
    expected = dict.fromkeys(("front", "back"), 30 * 400 * LONGER)
    expected |= dict.fromkeys(("left", "right"), 45 * 400 * LONGER)
    expected |= dict.fromkeys(("top", "bottom"), 30 * 45 * LONGER)
    assert expected == pytest.approx(areas, rel=1e-12)  # products of rounded roots


def test_a_round_leg_ends_in_ellipses():
    areas = splayed_round_leg(400, 30, splay=SPLAY).area_mm2_of
    end = math.pi * 15**2 * LONGER
    assert areas == pytest.approx(
        {"side": math.pi * 30 * 400 * LONGER, "top": end, "bottom": end}, rel=ROUNDED
    )


@pytest.mark.parametrize(
    ("splayed", "upright"),
    [
        (splayed_leg(400, 50, 40, foot=30, splay={}), tapered_leg(400, 50, 40, foot=30)),
        (splayed_round_leg(400, 30, splay={"left": 0}), round_leg(400, 30)),
        (splayed_turned_leg(PROFILE, splay={"left": 0}), turned_leg(PROFILE)),
    ],
)
def test_a_leg_that_does_not_lean_is_the_upright_one(splayed, upright):
    assert upright.area_mm2_of == pytest.approx(splayed.area_mm2_of, rel=1e-12)
    # a circle's polygon keeps inside it by up to 7.5e-5 of its radius
    assert upright.size == pytest.approx(splayed.size, rel=1e-4)


def test_both_ends_are_level_and_the_foot_goes_out_as_told():
    leg = splayed_leg(400, 30, splay=SPLAY)
    top, foot = (leg.vertices[leg.vertices[:, 2] == z].mean(axis=0) for z in (400 * 80_000, 0))
    assert (leg.vertices[:, 2] % (400 * 80_000) == 0).all()
    slope = (top - foot)[:2] / (400 * 80_000)
    assert slope == pytest.approx(np.tan(np.radians([8, 11])), rel=1e-12)


def test_a_seat_hides_the_top_of_its_leg_and_the_leg_as_much_of_the_seat():
    leg = splayed_turned_leg(PROFILE, splay=SPLAY)
    seat = outline_board(circle(300), 30)
    parts = [place("leg", leg, (150, 150, 0)), place("seat", seat, (0, 0, leg.size_mm[2]))]
    shown = exposure(parts, gap=0).areas_mm2
    assert shown["leg", "top"] == 0
    hidden = seat.area_mm2_of["bottom"] - shown["seat", "bottom"]
    assert leg.area_mm2_of["top"] == pytest.approx(hidden, rel=1e-9)  # sums of triangles


@pytest.mark.parametrize(
    ("splay", "argument", "rule"),
    [
        ({"up": 8}, "splay", "not up"),
        ({"left": -1}, "splay left", "from 0 to 60 degrees"),
        ({"left": 61}, "splay left", "from 0 to 60 degrees"),
        ({"left": math.nan}, "splay left", "from 0 to 60 degrees"),
        ({"left": 5, "right": 5}, "splay", "not both"),
        ({"front": 5, "back": 5}, "splay", "not both"),
    ],
)
def test_directions_that_cannot_be_are_refused(splay, argument, rule, check_refused):
    check_refused(lambda: splayed_leg(400, 30, splay=splay), argument, rule)


@pytest.mark.parametrize(
    "profile",
    [
        [[0, 26], [2, 30], [400, 30]],  # the foot's line ends before the cut has gone through
        [[0, 26], [398, 30], [400, 26]],
        [[0, 26], [20, 26], [20, 150], [40, 26], [400, 26]],  # a disc below the floor
        [[0, 10], [10, 60]],  # it grows so fast that its side hangs over
    ],
)
def test_a_leg_too_short_for_its_cuts_is_refused(profile, check_refused):
    check_refused(
        lambda: splayed_turned_leg(profile, splay={"left": 30}), "splay", "the cuts at its two ends"
    )


def test_a_tapered_leg_too_short_for_its_cuts_is_refused(check_refused):
    check_refused(
        lambda: splayed_leg(20, 10, foot=120, splay={"left": 40}), "splay", "the cuts at its two"
    )
