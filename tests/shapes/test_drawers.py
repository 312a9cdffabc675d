"""Drawers against areas worked out by hand."""

import math

import pytest

from shapes.drawers import FACES, drawer
from shapes.exposure import exposure
from shapes.placement import place

SIZES = [(400, 450, 150, 20, 12), (40, 30, 20, 5, 5), (300.5, 200.25, 99.75, 0.5, 19.75)]


@pytest.mark.parametrize(("w", "d", "h", "f", "b"), SIZES)
def test_each_face_by_hand(w, d, h, f, b):
    back, across, along, up = d - f, w - 2 * b, d - f - b, h - b
    expected = {
        "front": w * h,
        "edge": 2 * f * (w + h) + (w * back - across * along),
        "left": back * h,
        "right": back * h,
        "back": w * h,
        "bottom": w * back,
        "inside": across * along + 2 * up * (across + along),
    }
    # 1e-12: the hand formula itself is rounded; the solid's own areas are whole numbers
    assert expected == pytest.approx(drawer(w, d, h, front=f, board=b).area_mm2_of, rel=1e-12)


def test_a_drawer_in_whole_numbers():
    areas = drawer(400, 450, 150, front=20, board=12).area_mm2_of
    assert areas == {
        "front": 60_000.0,
        "edge": 22_000 + (400 * 430 - 376 * 418.0),
        "left": 64_500.0,
        "right": 64_500.0,
        "back": 60_000.0,
        "bottom": 172_000.0,
        "inside": 376 * 418 + 2 * 138 * (376 + 418.0),
    }


@pytest.mark.parametrize(("w", "d", "h", "f", "b"), SIZES)
def test_mesh_is_closed_outward_and_of_the_stated_area(w, d, h, f, b, check_mesh):
    volume = w * d * h - (w - 2 * b) * (d - f - b) * (h - b)
    check_mesh(drawer(w, d, h, front=f, board=b), volume_mm3=volume)


def test_faces_come_in_the_order_of_the_reference():
    assert drawer(400, 450, 150, front=20, board=12).faces == FACES


def test_alone_all_of_it_is_exposed():
    solid = drawer(400, 450, 150, front=20, board=12)
    shown = exposure([place("d", solid, loose=True)])
    assert {("d", face): area for face, area in solid.area_mm2_of.items()} == pytest.approx(
        shown.areas_mm2, rel=1e-12
    )  # rounding of the sums


@pytest.mark.parametrize(
    ("changed", "argument", "rule", "limit"),
    [
        ({"front": 80}, "front", "less than the depth without the back board", 80.0),
        ({"front": 95}, "front", "less than the depth without the back board", 80.0),
        ({"board": 50, "depth": 900}, "board", "less than half of the width", 50.0),
        ({"board": 20, "height": 20}, "board", "less than the height", 20.0),
        ({"board": 20, "height": 15}, "board", "less than the height", 15.0),
    ],
)
def test_boards_that_leave_no_room_are_refused(changed, argument, rule, limit, check_refused):
    sizes = {"width": 100, "depth": 100, "height": 100, "front": 20, "board": 20} | changed
    check_refused(lambda: drawer(**sizes), argument, rule, sizes[argument], limit)


@pytest.mark.parametrize("name", ["width", "depth", "height", "front", "board"])
@pytest.mark.parametrize("value", [0, -3, 10_001, math.inf])
def test_sizes_out_of_range_are_refused(name, value, check_refused):
    sizes = {"width": 90, "depth": 90, "height": 90, "front": 5, "board": 5} | {name: value}
    limit = 10_000.0 if value == 10_001 else None
    rule = {0: "zero", -3: "zero", 10_001: "10 m", math.inf: "finite"}[value]
    check_refused(lambda: drawer(**sizes), name, rule, value, limit)
