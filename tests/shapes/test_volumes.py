"""Volumes against closed forms, and what two parts share against whole numbers."""

import numpy as np
import pytest

from shapes.boards import board
from shapes.cases import case
from shapes.drawers import drawer
from shapes.legs import round_leg
from shapes.placement import place
from shapes.volumes import hollow_mm3, shared_mm3, volume_mm3

ROUNDING = 1e-12
"""Sums of a few hundred float64 products."""


def test_a_board_has_the_volume_of_its_box():
    assert pytest.approx(500 * 400 * 18, rel=ROUNDING) == volume_mm3(board(500, 400, 18))
    assert pytest.approx(0, abs=1e-6) == hollow_mm3(board(500, 400, 18))


def test_a_case_has_the_room_of_its_inner_box_stretched_through_the_open_side():
    front = case(600, 300, 700, board=20, open_sides=["front"])
    assert pytest.approx(560 * 280 * 660, rel=ROUNDING) == hollow_mm3(front)
    closed = case(600, 300, 700, board=20)
    assert pytest.approx(560 * 260 * 660, rel=ROUNDING) == hollow_mm3(closed)


def test_a_drawer_has_the_room_behind_its_front_and_above_its_bottom():
    room = hollow_mm3(drawer(400, 450, 150, front=20, board=12))
    assert pytest.approx(376 * 418 * 138, rel=ROUNDING) == room


def test_a_round_leg_has_the_volume_of_its_cylinder():
    # the polygon that stands for the circle has the circle's area
    leg = round_leg(700, 40)
    assert pytest.approx(np.pi * 20**2 * 700, rel=1e-9) == volume_mm3(leg)


def test_a_part_far_from_the_origin_has_the_same_volume_to_share():
    away = [
        place(name, board(20, 20, 20), (9000 + x, 9000, 9000)) for name, x in (("a", 0), ("b", 5))
    ]
    assert pytest.approx(15 * 20 * 20, rel=1e-9) == shared_mm3(*away)


@pytest.mark.parametrize(("x", "shared"), [(0, 8000), (19, 400), (20, 0), (21, 0)])
def test_boards_share_what_they_overlap(x, shared):
    first, second = place("a", board(20, 20, 20)), place("b", board(20, 20, 20), (x, 0, 0))
    assert pytest.approx(shared, abs=1e-6) == shared_mm3(first, second)
    assert shared_mm3(first, second) == pytest.approx(shared_mm3(second, first), abs=1e-6)


def test_a_shelf_in_the_hollow_of_a_case_shares_nothing_with_it():
    outer = place("case", case(600, 300, 700, board=20, open_sides=["front"]))
    shelf = place("shelf", board(560, 200, 18), (20, 50, 300))
    assert 0 == shared_mm3(outer, shelf)
