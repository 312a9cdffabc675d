"""Surfaces to draw against the exposure that is measured, and their facets and sheets by count."""

import math
from typing import Any

import numpy as np
import pytest

from shapes.boards import board
from shapes.cases import case
from shapes.exposure import exposure
from shapes.legs import round_leg, tapered_leg, turned_leg
from shapes.panels import panel
from shapes.placement import corners, place
from shapes.raised_panels import raised_panel
from shapes.surfaces import NO_FACE, surfaces, unit_sums

ROUNDING = 1e-9
"""Sums of a few hundred areas in mm that were divided from grid units, each off by 1e-16 of itself,
with normals of triangles up to 1e4 times longer than they are wide."""
CURVED = 5e-5
"""A circle's polygon of equal area, with 256 sides, is longer than it by step^2 / 24 = 2.5e-5."""


def areas(parts, gap=1.0):
    found: dict[Any, float] = {}
    for surface in surfaces(parts, gap=gap):
        found |= surface.areas_mm2()
    return found


def test_flat_faces_have_the_measured_area():
    top = place("top", board(900, 500, 20), (0, 0, 700))
    legs = corners("leg", tapered_leg(700, 50, foot=30), under=top, set_in=20)
    parts = [top, *legs, place("rail", board(800, 20, 90), (50, 40, 600))]
    assert exposure(parts).areas_mm2 == pytest.approx(areas(parts), rel=ROUNDING)


def test_a_flush_patch_belongs_to_the_part_it_is_measured_for():
    parts = [
        place("rail", board(400, 30, 60), (0, 0, 300)),
        place("leg", board(50, 50, 360), (380, 0, 0)),
        place("arm", board(60, 40, 60), (-20, 0, 300)),
    ]
    for order in (parts, parts[::-1]):
        assert exposure(order).areas_mm2 == pytest.approx(areas(order), rel=ROUNDING)


def test_turned_sides_are_as_near_as_their_polygon():
    parts = [place("leg", turned_leg([[0, 30], [80, 50], [80, 40], [300, 20]]))]
    assert exposure(parts).areas_mm2 == pytest.approx(areas(parts), rel=CURVED)


@pytest.mark.parametrize("gap", [0.0, 1.0])
def test_a_closed_gap_hides_both_faces_and_an_open_one_neither(gap):
    parts = [place("low", board(100, 50, 20)), place("high", board(60, 50, 20), (0, 0, 20.5))]
    found = areas(parts, gap)
    assert exposure(parts, gap=gap).areas_mm2 == pytest.approx(found, rel=ROUNDING, abs=ROUNDING)
    assert found["low", "top"] == pytest.approx(40 * 50 if gap else 100 * 50, rel=ROUNDING)


def test_walls_of_a_closed_gap_belong_to_no_face():
    parts = [place("low", board(100, 50, 20)), place("high", board(100, 50, 20), (0, 0, 20.5))]
    (surface,) = surfaces(parts)
    walls = np.linalg.norm(surface.crossed_mm2[surface.face_of == NO_FACE], axis=1).sum() / 2
    assert 2 * (100 + 50) * 0.5 == pytest.approx(walls, rel=ROUNDING)


def test_the_inside_of_a_closed_case_is_left_out():
    (surface,) = surfaces([place("case", case(300, 200, 100, board=10))])
    assert surface.areas_mm2()["case", "inside"] == 0
    outside = 2 * (300 * 200 + 300 * 100 + 200 * 100)
    assert outside == pytest.approx(sum(surface.areas_mm2().values()), rel=ROUNDING)


def test_loose_parts_are_surfaces_of_their_own_and_stay_where_they_were_put():
    parts = [
        place("a", board(10, 10, 10)),
        place("b", board(10, 10, 10), (5, 0, 0), loose=True),
        place("lid", board(9, 9, 9), (0, 0, 10), loose="lid"),
        place("batten", board(1, 9, 9), (9, 0, 10), loose="lid"),
    ]
    found = surfaces(parts)
    names = [[part.name for part in surface.parts] for surface in found]
    assert names == [["a"], ["b"], ["batten", "lid"]]
    assert [surface.is_joined for surface in found] == [True, False, False]
    low, high = found[1].box_mm
    assert (low.tolist(), high.tolist()) == ([5, 0, 0], [15, 10, 10])


def test_a_board_has_six_facets_and_six_sheets():
    (surface,) = surfaces([place("b", board(3, 4, 5))])
    assert len(np.unique(surface.facet_of)) == 6
    assert len(np.unique(surface.sheet_of)) == 6


def test_a_panels_front_is_frame_field_and_four_steps():
    (surface,) = surfaces([place("p", panel(400, 20, 600, frame=50, recess=6))])
    front = surface.faces.index(("p", "front"))
    assert len(np.unique(surface.sheet_of[surface.face_of == front])) == 6


def test_a_round_side_is_one_sheet_of_many_facets():
    (surface,) = surfaces([place("leg", round_leg(300, 40))])
    side = surface.face_of == surface.faces.index(("leg", "side"))
    assert len(np.unique(surface.sheet_of[side])) == 1
    # a step of 0.1 cuts the circle where either component passes 0.05, 0.15 ... 0.95: 80 cuts at
    # most, fewer where both pass between the same two of the 256 flats
    assert 40 <= len(np.unique(surface.facet_of[side])) <= 80


def test_a_shoulder_ends_a_sheet():
    (surface,) = surfaces([place("leg", turned_leg([[0, 40], [100, 40], [100, 30], [200, 30]]))])
    side = surface.face_of == surface.faces.index(("leg", "side"))
    assert len(np.unique(surface.sheet_of[side])) == 3


@pytest.mark.parametrize(("lean", "sheets"), [(10, 1), (18, 1), (22, 2), (35, 2)])
def test_a_turned_side_is_smooth_up_to_20_degrees(lean, sheets):
    """A cylinder, then a cone that opens by so many degrees."""
    opened = 40 + 2 * 100 * math.tan(math.radians(lean))
    (surface,) = surfaces([place("leg", turned_leg([[0, 40], [100, 40], [200, opened]]))])
    side = surface.face_of == surface.faces.index(("leg", "side"))
    assert sheets == len(np.unique(surface.sheet_of[side]))


def test_the_bevel_of_a_raised_panel_ends_a_sheet():
    """Frame, field, four bevels, and four steps between frame and bevels."""
    solid = raised_panel(400, 22, 600, frame=60, recess=9, bevel=40, field=0)
    (surface,) = surfaces([place("p", solid)])
    front = surface.face_of == surface.faces.index(("p", "front"))
    lean = surface.crossed_mm2[front]
    level = lean[:, 1] / np.linalg.norm(lean, axis=1)
    bevels = (level > -1 + 1e-6) & (level < -0.5)
    assert len(np.unique(surface.sheet_of[front][bevels])) == 4
    assert not set(surface.sheet_of[front][bevels]) & set(surface.sheet_of[front][~bevels])


@pytest.mark.parametrize(("lean", "sheets"), [(2, 1), (5, 1), (7, 5), (12, 5)])
def test_flat_patches_of_a_face_are_one_sheet_up_to_6_degrees(lean, sheets):
    """A field and its four bevels, without a step between them; bevels meet in less than that."""
    recess = 100 * math.tan(math.radians(lean))
    solid = raised_panel(400, 60, 600, frame=60, recess=recess, bevel=100)
    (surface,) = surfaces([place("p", solid)])
    front = surface.face_of == surface.faces.index(("p", "front"))
    normals = surface.crossed_mm2[front]
    level = normals[:, 1] / np.linalg.norm(normals, axis=1)
    centres = surface.vertices[surface.triangles[front]].mean(axis=1)
    on_frame = (np.abs(centres[:, 0] - 200) > 140) | (np.abs(centres[:, 2] - 300) > 240)
    raised = (level < -0.5) & ~on_frame
    assert sheets == len(np.unique(surface.sheet_of[front][raised]))


def test_flush_boards_are_sheets_of_their_own():
    (surface,) = surfaces([place("a", board(5, 5, 5)), place("b", board(5, 5, 5), (5, 0, 0))])
    assert len(np.unique(surface.sheet_of)) == 10


def test_a_short_vector_has_a_direction_too():
    units = unit_sums(np.array([0, 0, 2]), np.array([[0.3, 0.0, 0.0], [0.1, 0.0, 0.0], [0, 0, 5]]))
    assert [[1, 0, 0], [0, 0, 0], [0, 0, 1]] == units.tolist()
