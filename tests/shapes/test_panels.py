"""Panels against flat area plus the step round the field."""

import math

import pytest

from shapes.exposure import exposure
from shapes.panels import FACES, panel
from shapes.placement import place

SIZES = [(400, 20, 600, 50, 6), (10, 3, 10, 1, 1), (300.5, 19.25, 700.75, 60.25, 9.5)]


@pytest.mark.parametrize(("w", "d", "h", "f", "r"), SIZES)
def test_each_face_by_hand(w, d, h, f, r):
    face = w * h + 2 * ((w - 2 * f) + (h - 2 * f)) * r
    expected = {"front": face, "back": face, "edge": 2 * (w + h) * d}
    # 1e-12: the hand formula itself is rounded; the solid's own areas are whole numbers
    assert expected == pytest.approx(panel(w, d, h, frame=f, recess=r).area_mm2_of, rel=1e-12)


@pytest.mark.parametrize(("w", "d", "h", "f", "r"), SIZES)
def test_mesh_is_closed_outward_and_of_the_stated_area(w, d, h, f, r, check_mesh):
    volume = w * d * h - 2 * r * (w - 2 * f) * (h - 2 * f)
    check_mesh(panel(w, d, h, frame=f, recess=r), volume_mm3=volume)


def test_faces_come_in_the_order_of_the_reference():
    assert panel(400, 20, 600, frame=50, recess=6).faces == FACES


def test_alone_all_of_it_is_exposed():
    solid = panel(400, 20, 600, frame=50, recess=6)
    shown = exposure([place("p", solid)])
    assert {("p", face): area for face, area in solid.area_mm2_of.items()} == pytest.approx(
        shown.areas_mm2, rel=1e-12
    )  # rounding of the sums


def test_the_field_of_a_thin_panel_is_no_gap_of_its_own():
    shown = exposure(
        [
            place("p", panel(400, 5, 600, frame=50, recess=2)),
            place("q", panel(400, 5, 600, frame=50, recess=2), (400, 0, 0)),
        ]
    )
    assert shown.closed == ()
    assert shown.gaps == ()


@pytest.mark.parametrize(
    ("changed", "argument", "rule", "limit"),
    [
        ({"frame": 50, "height": 900}, "frame", "less than half of the width", 50.0),
        ({"frame": 60, "width": 900}, "frame", "less than half of the height", 50.0),
        ({"recess": 10}, "recess", "less than half of the depth", 10.0),
        ({"recess": 30}, "recess", "less than half of the depth", 10.0),
    ],
)
def test_a_panel_without_a_field_is_refused(changed, argument, rule, limit, check_refused):
    sizes = {"width": 100, "depth": 20, "height": 100, "frame": 20, "recess": 5} | changed
    check_refused(lambda: panel(**sizes), argument, rule, sizes[argument], limit)


@pytest.mark.parametrize("name", ["width", "depth", "height", "frame", "recess"])
@pytest.mark.parametrize("value", [0, -3, 10_001, math.inf])
def test_sizes_out_of_range_are_refused(name, value, check_refused):
    sizes = {"width": 90, "depth": 30, "height": 90, "frame": 9, "recess": 5} | {name: value}
    limit = 10_000.0 if value == 10_001 else None
    rule = {0: "zero", -3: "zero", 10_001: "10 m", math.inf: "finite"}[value]
    check_refused(lambda: panel(**sizes), name, rule, value, limit)
