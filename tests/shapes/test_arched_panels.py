"""Arched panels against closed forms; the independent CAD kernel is in tests/reference."""

import math

import pytest

from shapes.arched_panels import arched_frame, arched_panel
from shapes.panels import panel
from shapes.raised_panels import open_panel, raised_panel

ROUNDED = 1e-10
"""Arcs are whole grid units at their ends, and sums of some hundred pieces."""
SIZE = (500, 22, 700)


def test_a_flat_panel_under_half_a_circle_by_hand():
    areas = arched_panel(*SIZE, frame=60, arch=190, recess=6).area_mm2_of
    around = 380 + 2 * 390 + math.pi * 190
    face = 500 * 700 + 6 * around
    assert areas == pytest.approx({"front": face, "back": face, "edge": 2 * 22 * 1200}, rel=ROUNDED)


def test_an_arched_top_is_as_wide_a_rail_everywhere():
    """Half a circle of 250 over a door of 500, around one of 190 over the opening."""
    areas = arched_panel(*SIZE, frame=60, arch=190, recess=6, is_round=True).area_mm2_of
    face = 500 * 450 + math.pi * 250**2 / 2 + 6 * (380 + 2 * 390 + math.pi * 190)
    edge = 22 * (500 + 2 * 450 + math.pi * 250)
    assert areas == pytest.approx({"front": face, "back": face, "edge": edge}, rel=ROUNDED)


def test_a_raised_field_under_half_a_circle_by_hand():
    """Bevel 40 wide from 8 to 4 deep, then a step of 3: the field is 1 deep."""
    areas = arched_panel(*SIZE, frame=60, arch=190, recess=8, bevel=40, field=1, step=3).area_mm2_of
    opening, around = 380 * 390 + math.pi * 190**2 / 2, 380 + 2 * 390 + math.pi * 190
    field, border = 300 * 350 + math.pi * 150**2 / 2, 300 + 2 * 350 + math.pi * 150
    slant = math.hypot(40, 4) / 40
    front = 500 * 700 - opening + 8 * around + slant * (opening - field) + 3 * border + field
    assert front == pytest.approx(areas["front"], rel=ROUNDED)
    assert 500 * 700 + 8 * around == pytest.approx(areas["back"], rel=ROUNDED)


def test_the_flatter_the_arch_the_nearer_to_a_square_panel():
    """An arch of 0.01 over 380 is square but for 2 x 0.01 of height and its own length."""
    flat = arched_panel(*SIZE, frame=60, arch=0.01, recess=8).area_mm2_of
    assert panel(*SIZE, frame=60, recess=8).area_mm2_of == pytest.approx(flat, rel=1e-6)
    raised = arched_panel(*SIZE, frame=60, arch=0.01, recess=8, bevel=40).area_mm2_of
    assert raised_panel(*SIZE, frame=60, recess=8, bevel=40).area_mm2_of == pytest.approx(
        raised, rel=1e-6
    )
    glazed = arched_frame(*SIZE, frame=60, arch=0.01).area_mm2_of
    assert open_panel(*SIZE, frame=60).area_mm2_of == pytest.approx(glazed, rel=2e-5)


@pytest.mark.parametrize(
    ("more", "argument", "rule", "value", "limit"),
    [
        ({"frame": 250}, "frame", "half of the width", 250, 250.0),
        ({"arch": 191}, "arch", "half a circle", 191, 190.0),
        ({"height": 310}, "arch", "height between the rails", 190, 190.0),
        ({"recess": 11}, "recess", "half of the depth", 11, 11.0),
        ({"bevel": 190}, "bevel", "half of the field", 190, 190.0),
        ({"arch": 60, "height": 240, "bevel": 61}, "bevel", "no field", 61, None),
        ({"bevel": 40, "field": 4, "step": 3}, "field", "less deep", 4, 3.0),
        ({"bevel": 40, "field": -1}, "field", "0 or more", -1, None),
        ({"bevel": 40, "step": -1}, "step", "0 or more", -1, None),
    ],
)
def test_arches_and_fields_that_do_not_fit_are_refused(
    more, argument, rule, value, limit, check_refused
):
    sizes = {"width": 500, "depth": 22, "height": 700, "frame": 60, "arch": 190, "recess": 6}
    check_refused(lambda: arched_panel(**sizes | more), argument, rule, value, limit)
