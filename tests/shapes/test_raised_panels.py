"""Raised, open and many-panelled doors: areas by hand, and the band published for them."""

import math
from typing import Any

import pytest

from shapes.errors import ShapeError
from shapes.exposure import exposure
from shapes.panels import panel
from shapes.raised_panels import door, open_panel, panelled_door, raised_panel

ROUNDING = 1e-12
"""Sums of a few dozen float64 terms."""
SIZES: dict[str, Any] = {"frame": 60, "recess": 9, "bevel": 40}


def test_a_raised_front_by_hand():
    areas = raised_panel(400, 22, 600, **SIZES, field=1).area_mm2_of
    frame = 400 * 600 - 280 * 480
    wall = 2 * (280 + 480) * 9
    bevel = (280 + 200 + 480 + 400) * math.hypot(40, 8)  # two sides of each length, halved
    assert frame + wall + bevel + 200 * 400 == pytest.approx(areas["front"], rel=ROUNDING)
    assert 400 * 600 + wall == pytest.approx(areas["back"], rel=ROUNDING)
    assert 2 * (400 + 600) * 22 == areas["edge"]


def test_a_step_adds_its_wall_and_shortens_the_bevel():
    without = raised_panel(400, 22, 600, **SIZES, field=1).area_mm2_of["front"]
    stepped = raised_panel(400, 22, 600, **SIZES, field=1, step=3).area_mm2_of["front"]
    bevel = 1360 * (math.hypot(40, 5) - math.hypot(40, 8))
    assert without + bevel + 2 * 600 * 3 == pytest.approx(stepped, rel=ROUNDING)


def test_raised_on_both_sides_the_back_is_as_the_front():
    areas = raised_panel(400, 22, 600, **SIZES, field=1, raised_back=True).area_mm2_of
    assert areas["front"] == pytest.approx(areas["back"], rel=ROUNDING)


def test_a_field_as_deep_as_the_recess_is_a_flat_panel():
    flat = raised_panel(400, 22, 600, **SIZES, field=9).area_mm2_of
    assert panel(400, 22, 600, frame=60, recess=9).area_mm2_of == pytest.approx(flat, rel=ROUNDING)


def test_one_panel_is_the_plain_panel():
    one = panelled_door(400, 22, 600, frame=60, recess=9, panels=(1, 1)).area_mm2_of
    assert panel(400, 22, 600, frame=60, recess=9).area_mm2_of == one


def test_each_panel_adds_its_own_step():
    areas = panelled_door(900, 40, 2000, frame=110, recess=12, panels=(2, 3), rail=90).area_mm2_of
    across, up = (900 - 220 - 90) / 2, (2000 - 220 - 180) / 3
    steps = 6 * 2 * (across + up) * 12
    # 1e-7: a third of 1600 mm falls between two grid lines
    assert 900 * 2000 + steps == pytest.approx(areas["front"], rel=1e-7)


def test_an_open_frame_by_hand():
    areas = open_panel(400, 20, 600, frame=50).area_mm2_of
    assert areas == {
        "front": 400 * 600.0 - 300 * 500,
        "back": 400 * 600.0 - 300 * 500,
        "edge": 2000 * 20.0,
        "reveal": 1600 * 20.0,
    }


def test_glazing_bars_divide_the_opening():
    areas = open_panel(450, 20, 900, frame=55, panes=(2, 3), bar=20).area_mm2_of
    across, up = (450 - 110 - 20) / 2, (900 - 110 - 40) / 3
    assert 450 * 900 - 6 * across * up == areas["front"]
    assert 6 * 2 * (across + up) * 20 == areas["reveal"]


def test_a_door_hides_nothing():
    seen = exposure([door("left door", panel(400, 22, 600, frame=60, recess=9), (0, -22, 0))])
    assert door("d", panel(400, 22, 600, frame=60, recess=9)).loose is True
    assert seen.size_mm == (0.0, 0.0, 0.0)  # it is off the piece


BAND = (1.10, 1.30)
"""A painters' handbook of 1919: the panel edges of an ordinary four-panel door add at least 10 %;
IS 1200 (Part 15): 30 % to each side for panelled work, labour included."""

HOUSE_DOOR: dict[str, Any] = {"frame": 115, "recess": 13, "panels": (2, 2), "rail": 115}
"""A four-panel door of 3 x 7 ft, 1 3/4 in thick."""


def one_side(solid, width, height):
    """Return (face and half of the edge) over the flat area of one side."""
    areas = solid.area_mm2_of
    return (areas["front"] + areas["edge"] / 2) / (width * height)


def test_a_four_panel_door_with_its_edges_lies_in_the_published_band():
    """The trade's figures measure a side with its share of the edges."""
    solid = panelled_door(914, 44, 2134, **HOUSE_DOOR)
    assert BAND[0] <= one_side(solid, 914, 2134) <= BAND[1]


def test_raised_cupboard_doors_with_their_edges_lie_in_the_published_band():
    solid = raised_panel(400, 22, 600, frame=60, recess=9, bevel=40, field=1)
    assert BAND[0] <= one_side(solid, 400, 600) <= BAND[1]


def test_the_face_alone_lies_below_the_band():
    """The steps of flat panels alone add about 6 %: those 10 % have mouldings and edges in them."""
    areas = panelled_door(914, 44, 2134, **HOUSE_DOOR).area_mm2_of
    assert 1.05 < areas["front"] / (914 * 2134) < BAND[0]


@pytest.mark.parametrize(
    ("changed", "argument"),
    [
        ({"frame": 0}, "frame"),
        ({"frame": 165}, "frame"),
        ({"recess": 11}, "recess"),
        ({"bevel": 0}, "bevel"),
        ({"bevel": 140}, "frame"),
        ({"field": -1}, "field"),
        ({"field": 10}, "field"),
        ({"field": 5, "step": 5}, "field"),
        ({"step": -1}, "step"),
    ],
)
def test_raised_sizes_that_leave_no_field_are_refused(changed, argument):
    with pytest.raises(ShapeError) as caught:
        raised_panel(400, 22, 600, **(SIZES | changed))
    assert argument == caught.value.argument


@pytest.mark.parametrize(
    ("call", "argument"),
    [
        (lambda: open_panel(400, 20, 600, frame=200), "frame"),
        (lambda: open_panel(400, 20, 600, frame=50, panes=(2, 1)), "bar"),
        (lambda: open_panel(400, 20, 600, frame=50, panes=(0, 1)), "bar"),
        (lambda: open_panel(400, 20, 600, frame=50, panes=(2, 1), bar=300), "frame"),
        (lambda: panelled_door(400, 20, 600, frame=50, recess=10), "recess"),
        (lambda: panelled_door(400, 20, 600, frame=150, recess=5), "frame"),
    ],
)
def test_open_sizes_that_leave_no_opening_are_refused(call, argument):
    with pytest.raises(ShapeError) as caught:
        call()
    assert argument == caught.value.argument
