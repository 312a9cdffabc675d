"""Rods against the first theorem of Pappus; the independent CAD kernel is in tests/reference."""

import math

import numpy as np
import pytest

from shapes.boards import board
from shapes.exposure import exposure
from shapes.placement import place
from shapes.rods import rod

ROUNDED = 1e-9
"""Positions are whole grid units; angles and lengths are not."""
BOW = [[400, 0], [400, 250, 200], [0, 250], [0, 0]]


def test_a_straight_rod_is_a_cylinder():
    areas = rod([[0, 0], [300, 400]], 20).area_mm2_of
    assert areas == pytest.approx({"side": math.pi * 20 * 500, "ends": math.pi * 200}, rel=ROUNDED)


def test_a_bow_has_circumference_times_length_of_its_middle():
    expected = math.pi * 20 * (250 + math.pi * 200 + 250)
    assert expected == pytest.approx(rod(BOW, 20).area_mm2_of["side"], rel=ROUNDED)


def test_a_smooth_arc_is_the_one_that_flows_on():
    smooth = rod([[400, 0], [400, 250, "smooth"], [0, 250], [0, 0]], 20)
    assert smooth.area_mm2_of == pytest.approx(rod(BOW, 20).area_mm2_of, rel=ROUNDED)


def test_a_mitred_corner_keeps_the_length_of_its_middle():
    areas = rod([[0, 0], [0, 300], [250, 380]], 24).area_mm2_of
    expected = math.pi * 24 * (300 + math.hypot(250, 80))
    assert expected == pytest.approx(areas["side"], rel=ROUNDED)


@pytest.mark.parametrize(
    ("along", "size"), [("y", (420, 20, 460)), ("x", (20, 420, 460)), ("z", (420, 460, 20))]
)
def test_the_box_holds_the_bow_and_its_crown(along, size):
    """The path is 400 wide and 450 high; half the stock goes on at both sides and the crown."""
    assert size == pytest.approx(rod(BOW, 20, along=along).size_mm, abs=1e-4)  # the grid


def test_the_box_holds_a_crown_wherever_it_is():
    """An arc of radius 500 from -63.1 to 41.7 degrees about its middle, sampled closely."""
    ends = np.radians([-63.1, 41.7])
    points = 500 * np.stack([np.cos(ends), np.sin(ends)], axis=1)
    rise = 500 * (1 - math.cos((ends[1] - ends[0]) / 2))
    solid = rod([[*points[0], rise], [*points[1]]], 20)
    angles = np.linspace(float(ends[0]), float(ends[1]), 100_001)
    out = np.stack([np.cos(angles), np.sin(angles)], axis=1)
    reach = (500 * out + 10 * np.abs(out)).max(axis=0) - (500 * out - 10 * np.abs(out)).min(axis=0)
    assert (reach[0], 20, reach[1]) == pytest.approx(solid.size_mm, abs=1e-4)  # the grid


def test_the_way_round_changes_nothing():
    back = [[0, 0], [0, 250, -200], [400, 250], [400, 0]]
    one, other = rod(BOW, 20), rod(back, 20)
    assert one.area_mm2_of == pytest.approx(other.area_mm2_of, rel=1e-12)
    assert one.size == other.size


def test_a_seat_hides_the_ends_of_a_bow_and_each_end_as_much_of_the_seat():
    bow, seat = rod(BOW, 20), board(500, 100, 40)
    parts = [place("bow", bow, (40, 40, 40)), place("seat", seat)]
    shown = exposure(parts, gap=0).areas_mm2
    assert shown["bow", "ends"] == 0
    hidden = seat.area_mm2_of["top"] - shown["seat", "top"]
    assert 2 * math.pi * 10**2 == pytest.approx(hidden, rel=1e-9)  # sums of triangles


@pytest.mark.parametrize(
    ("path", "rule"),
    [
        ([[0, 0]], "at least two points"),
        ([[0, 0], [0, 0]], "point 1 and the one after it"),
        ([[0, 0, 1, 2], [0, 9]], "points of two lengths"),
        ([["a", 0], [0, 9]], "points of two lengths"),
        ([[0, 0, "round"], [0, 90]], "straight"),
        ([[0, 0, "smooth"], [0, 90]], "follows nothing"),
        ([[0, 0], [0, 300, 30], [400, 300]], "without a corner at point 2"),
        ([[0, 0, 9], [18, 0]], "less sharply at point 1"),
        ([[0, 0], [0, 400], [10, 0]], "less sharp at point 2"),
        ([[0, 0], [400, 0], [400, 400], [200, 400], [200, -100]], "clear of itself"),
        ([[0, 0], [0, 90], [9, 99], [90, 99]], "clear of itself"),
    ],
)
def test_paths_that_no_stock_can_take_are_refused(path, rule, check_refused):
    check_refused(lambda: rod(path, 60 if "9, 99" in str(path) else 20), "path", rule)


def test_an_unknown_direction_is_refused(check_refused):
    check_refused(lambda: rod(BOW, 20, along="w"), "along", "one of z, y, x")
