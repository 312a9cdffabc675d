"""Dished seats against closed forms and an independent sampler; the CAD kernel is in reference."""

import math

import numpy as np
import pytest

from shapes.dished_seats import dished_seat
from shapes.outline_boards import outline_board
from shapes.outlines import circle

SQUARE = [[0, 0], [400, 0], [400, 400], [0, 400]]


def test_a_round_bowl_is_a_paraboloid_of_revolution():
    """Area pi r / (6 d2) ((r2 + 4 d2)^(3/2) - r3): its meridian turned about its axis."""
    areas = dished_seat(SQUARE, 40, dish=[300, 300], deep=15).area_mm2_of
    r, d = 150, 15
    bowl = math.pi * r / (6 * d**2) * ((r**2 + 4 * d**2) ** 1.5 - r**3)
    assert bowl == pytest.approx(areas["dish"], rel=1e-10)  # a difference of large numbers
    assert 400 * 400 - math.pi * r**2 == pytest.approx(areas["top"], rel=1e-12)
    assert areas["bottom"] == 400 * 400


@pytest.mark.parametrize(("dish", "deep"), [((340, 300), 18), ((200, 360), 30)])
def test_an_oval_bowl_has_the_area_that_an_independent_sampler_finds(dish, deep):
    """A million points of a grid over the rim's box, each a slope by central differences."""
    half = np.array(dish) / 2
    side = np.linspace(-1, 1, 1001)
    x, y = np.meshgrid((side[1:] + side[:-1]) / 2 * half[0], (side[1:] + side[:-1]) / 2 * half[1])

    def level(x, y):
        return -deep * (1 - (x / half[0]) ** 2 - (y / half[1]) ** 2)

    step = 1e-3
    along = (level(x + step, y) - level(x - step, y)) / (2 * step)
    across = (level(x, y + step) - level(x, y - step)) / (2 * step)
    inside = level(x, y) < 0
    cell = 4 * half[0] * half[1] / 1e6
    sampled = float(np.sqrt(1 + along**2 + across**2)[inside].sum()) * cell
    found = dished_seat(SQUARE, 40, dish=dish, deep=deep).area_mm2_of["dish"]
    assert sampled == pytest.approx(found, rel=1e-4)  # cells that the rim cuts


def test_the_shallower_the_bowl_the_nearer_to_a_flat_board():
    areas = dished_seat(SQUARE, 40, dish=[300, 260], deep=0.01).area_mm2_of
    flat = outline_board(SQUARE, 40).area_mm2_of
    assert flat["top"] == pytest.approx(areas["top"] + areas["dish"], rel=1e-8)
    assert flat["edge"] == areas["edge"]


def test_the_middle_is_that_of_the_outline_unless_told_otherwise():
    told = dished_seat(SQUARE, 40, dish=[300, 260], deep=12, centre=[200, 200])
    left_out = dished_seat(SQUARE, 40, dish=[300, 260], deep=12)
    assert (told.vertices == left_out.vertices).all()
    assert told.vertices[-1].tolist() == [200 * 80_000, 200 * 80_000, 28 * 80_000]


@pytest.mark.parametrize(
    ("more", "argument", "rule", "value", "limit"),
    [
        ({"deep": 40}, "dish depth", "less than the board is thick", 40, 40),
        ({"deep": 0}, "dish depth", "more than zero", 0, None),
        ({"dish": [400, 300]}, "dish", "clear of its edge", None, None),
        ({"centre": [60, 200]}, "dish", "clear of its edge", None, None),
        ({"holes": [circle(20, centre=(60, 200))]}, "dish", "clear of the holes", None, None),
    ],
)
def test_bowls_that_do_not_fit_are_refused(more, argument, rule, value, limit, check_refused):
    sizes = {"dish": [300, 300], "deep": 12} | more
    check_refused(lambda: dished_seat(SQUARE, 40, **sizes), argument, rule, value, limit)
