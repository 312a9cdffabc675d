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


LIPPED = {"left": 10, "right": 8, "top": 6, "bottom": 4}


def test_a_lip_and_low_sides_by_hand():
    """A front of 400 x 150, 20 thick, rebated 11 deep; sides of 100 and a back of 80, 12 thick."""
    solid = drawer(
        400, 450, 150, front=20, board=12, lip=LIPPED, lip_thickness=9,
        side_height=100, back_height=80,
    )  # fmt: skip
    wide, high, deep = 382, 140, 430  # the box: less the lips, and behind the front
    across, along = 382 - 24, 430 - 12
    assert solid.area_mm2_of == {
        "front": 400 * 150,
        "left": 430 * 100,
        "right": 430 * 100,
        # what the lower back leaves of the height between the sides is air
        "back": wide * 80 + 2 * 12 * 20,
        "bottom": wide * deep,
        # around the lip, its back, around the rest of the front, and the rims
        "edge": 2 * 9 * (400 + 150) + (400 * 150 - wide * high) + 2 * 11 * (wide + high)
        + 2 * 12 * deep + across * 12,
        # floor, sides, back, the ends of the sides above it, the back of the front
        "inside": across * along + 2 * along * 88 + across * 68 + 2 * 12 * 20
        + across * 88 + wide * 40,
    }  # fmt: skip


def test_mesh_of_a_lipped_drawer_is_closed_and_outward(check_mesh):
    solid = drawer(
        400, 450, 150, front=20, board=12, lip=LIPPED, lip_thickness=9,
        side_height=100, back_height=80,
    )  # fmt: skip
    front = 400 * 150 * 9 + 382 * 140 * 11
    box = 382 * 430 * 12 + 2 * 12 * 430 * 88 + 358 * 12 * 68
    check_mesh(solid, volume_mm3=front + box)


def test_no_lip_and_full_heights_are_the_plain_drawer():
    plain = drawer(400, 450, 150, front=20, board=12)
    same = drawer(
        400, 450, 150, front=20, board=12, lip=dict.fromkeys(LIPPED, 0), lip_thickness=20,
        side_height=150, back_height=150,
    )  # fmt: skip
    assert plain.area_mm2_of == same.area_mm2_of


@pytest.mark.parametrize(
    ("more", "argument", "rule", "value", "limit"),
    [
        ({"lip": {"left": -1}}, "lip left", "0 or more", -1, None),
        ({"lip": {"front": 1}}, "lip", "not front", None, None),
        ({"lip": {"left": 50, "right": 50}}, "lip", "leave no width", None, None),
        ({"lip": {"top": 100}}, "lip", "leave no height", None, None),
        ({"lip": {"left": 70}}, "board", "less than half of the width", 20, 15.0),
        ({"lip_thickness": 21}, "lip thickness", "no more than the front", 21, 20.0),
        ({"side_height": 101}, "side_height", "no higher than the box", 101, 100.0),
        ({"side_height": 20}, "side_height", "higher than the bottom", 20, 20.0),
        ({"side_height": 60, "back_height": 61}, "back_height", "than the sides", 61, 60.0),
        ({"back_height": 20}, "back_height", "higher than the bottom", 20, 20.0),
    ],
)
def test_lips_and_heights_that_do_not_fit_are_refused(
    more, argument, rule, value, limit, check_refused
):
    sizes = {"width": 100, "depth": 100, "height": 100, "front": 20, "board": 20} | more
    check_refused(lambda: drawer(**sizes), argument, rule, value, limit)
