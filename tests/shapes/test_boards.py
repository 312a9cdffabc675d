"""Boards against 2 (wd + wh + dh)."""

import math

import pytest

from shapes.boards import FACES, board
from shapes.solids import area_mm2


def test_each_face_is_the_product_of_two_sides():
    assert board(30, 50, 70).area_mm2_of == {
        "front": 30.0 * 70,
        "back": 30.0 * 70,
        "left": 50.0 * 70,
        "right": 50.0 * 70,
        "top": 30.0 * 50,
        "bottom": 30.0 * 50,
    }


def test_faces_come_in_the_order_of_the_reference():
    assert board(1, 2, 3).faces == FACES


def test_area_of_all_faces():
    assert area_mm2(board(30, 50, 70)) == 2 * (30 * 50 + 30 * 70 + 50 * 70)


@pytest.mark.parametrize(
    "size", [(30, 50, 70), (1 / 80_000, 10_000, 1), (25.4 / 64, 25.4 / 128, 0.0254), (1, 1, 1)]
)
def test_mesh_is_closed_outward_and_of_the_stated_area(size, check_mesh):
    check_mesh(board(*size), volume_mm3=math.prod(size))


def test_size_is_given_back_in_mm():
    assert board(30, 50, 70).size_mm == (30.0, 50.0, 70.0)


@pytest.mark.parametrize("size", [1.0, 25.4 / 1000, 25.4 / 64, 25.4 / 128, 25.4])
def test_the_grid_holds_marks_of_every_common_rule(size):
    grid_lines = size * 80_000
    # 1e-9 of a grid line: rounding of the product itself
    assert round(grid_lines) == pytest.approx(grid_lines, abs=1e-9)
    assert round(grid_lines) == board(size, 1, 1).size[0]


def test_a_size_is_rounded_to_the_nearest_grid_line():
    assert board(1 + 4e-6, 1 - 4e-6, 1 + 9e-6).size == (80_000, 80_000, 80_001)


@pytest.mark.parametrize("name", ["width", "depth", "height"])
@pytest.mark.parametrize(
    ("value", "rule", "limit"),
    [
        (0, "more than zero", None),
        (-1.5, "more than zero", None),
        (1e-7, "more than zero", None),  # rounds to no grid line at all
        (10_000.5, "at most 10 m", 10_000.0),
        (math.inf, "a finite length", None),
        (-math.inf, "a finite length", None),
    ],
)
def test_sizes_out_of_range_are_refused(name, value, rule, limit, check_refused):
    sizes = {"width": 1, "depth": 1, "height": 1} | {name: value}
    check_refused(lambda: board(**sizes), name, rule, value, limit)


@pytest.mark.parametrize("name", ["width", "depth", "height"])
def test_not_a_number_is_refused(name):
    sizes = {"width": 1, "depth": 1, "height": 1} | {name: math.nan}
    with pytest.raises(ValueError, match=f"^{name} must be a finite length, not nan mm$"):
        board(**sizes)


def test_ten_metres_is_allowed():
    assert board(10_000, 1, 1).size_mm[0] == 10_000.0
