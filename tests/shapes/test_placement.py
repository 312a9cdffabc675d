"""Placement: corners, rows and what stands under another part."""

import math

import pytest

from shapes.boards import board
from shapes.legs import round_leg, square_leg, tapered_leg
from shapes.parts import box_of
from shapes.placement import MOST_IN_A_ROW, corners, place, row

CUBE = board(10, 10, 10)


def at_mm(part):
    return tuple(units / 80_000 for units in part.at)


def test_place_gives_name_solid_place_and_looseness():
    part = place("shelf", CUBE, (1, 2.5, -3), loose="lid")
    assert (part.name, at_mm(part), part.loose) == ("shelf", (1.0, 2.5, -3.0), "lid")
    assert CUBE is part.solid


def test_a_part_stands_at_the_origin_and_joined_unless_told_otherwise():
    part = place("shelf", CUBE)
    assert (part.at, part.loose, part.is_joined) == ((0, 0, 0), False, True)


@pytest.mark.parametrize("loose", [True, "lid"])
def test_a_loose_part_is_not_joined(loose):
    assert not place("shelf", CUBE, loose=loose).is_joined


def test_a_row_is_numbered_from_one_and_steps_by_apart():
    parts = row("slat", CUBE, (1, 2, 3), of=3, apart=(0, 25.4, -8), loose=True)
    assert [part.name for part in parts] == ["slat 1", "slat 2", "slat 3"]
    expected = [(1.0, 2.0, 3.0), (1.0, 27.4, -5.0), (1.0, 52.8, -13.0)]
    assert expected == [at_mm(part) for part in parts]
    assert [part.loose for part in parts] == [True] * 3


def test_a_row_of_inch_marks_does_not_drift():
    parts = row("slat", CUBE, (0, 0, 0), of=1000, apart=(25.4 / 64, 0, 0))
    assert parts[-1].at[0] == 999 * 31_750  # 1/64 in is 31 750 grid lines


def test_a_row_of_one_is_numbered_too():
    assert [p.name for p in row("slat", CUBE, (0, 0, 0), of=1, apart=(0, 0, 0))] == ["slat 1"]


def test_corners_go_front_left_front_right_back_left_back_right():
    case = place("case", board(1000, 500, 600), (5, 7, 200))
    legs = corners("leg", square_leg(200, 60, 40), under=case, set_in=1)
    assert [leg.name for leg in legs] == ["leg 1", "leg 2", "leg 3", "leg 4"]
    expected = [(6.0, 8.0, 0.0), (944.0, 8.0, 0.0), (6.0, 466.0, 0.0), (944.0, 466.0, 0.0)]
    assert expected == [at_mm(leg) for leg in legs]


@pytest.mark.parametrize(
    "leg", [square_leg(200, 60), round_leg(200, 60), tapered_leg(200, 30, foot=60)]
)
def test_corners_set_the_boxes_in_and_the_tops_under(leg):
    case = place("case", board(1000, 500, 600), (0, 0, 250))
    legs = corners("leg", leg, under=case, set_in=12.5)
    found = box_of(legs)
    assert found is not None
    low, high = found
    grid = 80_000
    assert (12.5 * grid, 12.5 * grid, 50 * grid) == low
    assert (987.5 * grid, 487.5 * grid, 250 * grid) == high


def test_corners_may_just_fit():
    case = place("case", board(100, 80, 10))
    legs = corners("leg", square_leg(5, 60, 40), under=case, set_in=20)
    assert {(20.0, 20.0, -5.0)} == {at_mm(leg) for leg in legs}


def test_corners_can_be_loose_together():
    legs = corners("leg", CUBE, under=place("case", board(99, 99, 9)), set_in=0, loose="legs")
    assert [leg.loose for leg in legs] == ["legs"] * 4


@pytest.mark.parametrize("axis", [0, 1, 2])
@pytest.mark.parametrize(
    ("value", "rule", "limit"),
    [(math.inf, "finite", None), (10_001, "10 m", 10_000.0), (-10_001, "10 m", 10_000.0)],
)
def test_a_place_out_of_range_is_refused(axis, value, rule, limit, check_refused):
    at = [0, 0, 0]
    at[axis] = value
    check_refused(lambda: place("a", CUBE, at), f"at {'xyz'[axis]}", rule, value, limit)


@pytest.mark.parametrize("at", [(), (1, 2), (1, 2, 3, 4)])
def test_a_place_that_is_not_three_lengths_is_refused(at, check_refused):
    check_refused(lambda: place("a", CUBE, at), "at", "three lengths")


@pytest.mark.parametrize("of", [0, -1, MOST_IN_A_ROW + 1])
def test_a_row_of_too_few_or_too_many_is_refused(of, check_refused):
    check_refused(lambda: row("a", CUBE, (0, 0, 0), of=of, apart=(1, 0, 0)), "of", "from 1 to 1000")


def test_a_step_of_a_row_out_of_range_is_refused(check_refused):
    check_refused(
        lambda: row("a", CUBE, (0, 0, 0), of=2, apart=(0, math.inf, 0)),
        "apart y", "finite", math.inf,
    )  # fmt: skip


def test_a_row_that_leaves_the_room_is_refused(check_refused):
    check_refused(
        lambda: row("a", CUBE, (0, 0, 0), of=3, apart=(0, 0, 6000)),
        "apart", "ends within 10 m",
    )  # fmt: skip


def test_a_negative_set_in_is_refused(check_refused):
    case = place("case", board(100, 100, 100))
    check_refused(lambda: corners("a", CUBE, under=case, set_in=-1), "set_in", "0 or more", -1)


@pytest.mark.parametrize(("size", "side"), [((20, 99, 9), "width"), ((99, 20, 9), "depth")])
def test_a_part_that_does_not_fit_under_is_refused(size, side, check_refused):
    case = place("case", board(*size))
    check_refused(
        lambda: corners("a", CUBE, under=case, set_in=11),
        "set_in", f"sticks out of case in its {side}", 11,
    )  # fmt: skip


def test_corners_below_ten_metres_are_refused():
    low = place("case", board(100, 100, 10), (0, 0, -9_999))
    with pytest.raises(ValueError, match="10 m"):
        corners("leg", square_leg(10_000, 10), under=low, set_in=0)
