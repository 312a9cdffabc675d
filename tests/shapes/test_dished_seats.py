"""Dished seats against closed forms and an independent sampler; the CAD kernel is in reference."""

import math

import numpy as np
import pytest

from shapes.boards import board
from shapes.dished_seats import dished
from shapes.outline_boards import outline_board
from shapes.outlines import circle, oval
from shapes.raised_panels import raised_panel
from shapes.relief import relief

SQUARE = board(400, 400, 40)


def test_a_round_bowl_is_a_paraboloid_of_revolution():
    """Area pi r / (6 d2) ((r2 + 4 d2)^(3/2) - r3): its meridian turned about its axis."""
    areas = dished(SQUARE, [300, 300], 15).area_mm2_of
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
    found = dished(SQUARE, dish, deep).area_mm2_of["dish"]
    assert sampled == pytest.approx(found, rel=1e-4)  # cells that the rim cuts


def test_the_shallower_the_bowl_the_nearer_to_a_flat_board():
    areas = dished(SQUARE, [300, 260], 0.01).area_mm2_of
    assert 400 * 400 == pytest.approx(areas["top"] + areas["dish"], rel=1e-8)
    assert areas["left"] == 400 * 40


def test_the_middle_is_that_of_the_outline_unless_told_otherwise():
    told = dished(SQUARE, [300, 260], 12, centre=[200, 200])
    left_out = dished(SQUARE, [300, 260], 12)
    assert (told.vertices == left_out.vertices).all()
    assert told.vertices[-1].tolist() == [200 * 80_000, 200 * 80_000, 28 * 80_000]


def test_a_board_of_an_outline_with_a_hole_keeps_all_but_what_the_bowl_takes():
    seat = outline_board(oval(500, 440), 45, holes=[circle(20, centre=(250, 30))])
    areas = dished(seat, [300, 260], 12).area_mm2_of
    flat = seat.area_mm2_of
    expected = {**flat, "top": flat["top"] - math.pi * 150 * 130, "dish": areas["dish"]}
    assert expected == pytest.approx(areas, rel=1e-12)


def test_a_relief_of_the_top_stays_on_what_is_left_of_it():
    areas = dished(relief(SQUARE, ["top"], 2.0), [300, 300], 15).area_mm2_of
    assert 2 * (400 * 400 - math.pi * 150**2) == pytest.approx(areas["top"], rel=1e-12)


@pytest.mark.parametrize(
    ("size", "deep", "centre", "argument", "rule", "value", "limit"),
    [
        ([300, 300], 40, None, "dish depth", "less than the board is thick", 40, 40.0),
        ([300, 300], 0, None, "dish depth", "more than zero", 0, None),
        ([400, 300], 12, None, "dish", "clear of its edge", None, None),
        ([300, 300], 12, [60, 200], "dish", "clear of its edge", None, None),
    ],
)
def test_bowls_that_do_not_fit_are_refused(
    size, deep, centre, argument, rule, value, limit, check_refused
):
    check_refused(lambda: dished(SQUARE, size, deep, centre=centre), argument, rule, value, limit)


def test_a_bowl_over_a_hole_is_refused(check_refused):
    pierced = outline_board(oval(500, 440), 45, holes=[circle(20, centre=(120, 220))])
    check_refused(lambda: dished(pierced, [300, 260], 12), "dish", "clear of the holes")


def test_a_bowl_in_a_part_without_a_top_is_refused(check_refused):
    panel = raised_panel(400, 22, 600, frame=60, recess=9, bevel=40)
    check_refused(lambda: dished(panel, [9, 9], 1), "dish", "in a board with a flat top")
