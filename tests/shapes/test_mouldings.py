"""Mouldings: straight runs, mitres and profiled edges, against girths and moments."""

import math

import pytest

from shapes.boards import board
from shapes.errors import ShapeError
from shapes.exposure import exposure
from shapes.mouldings import (
    extra_girth,
    mitred_moulding,
    moulding,
    moulding_along,
    moulding_around,
)
from shapes.outlines import circle, oval, rectangle
from shapes.panels import panel
from shapes.placement import place
from shapes.profiles import bead, chamfer, cove, edge_of, flipped, girth, ogee, quarter_round
from shapes.worked_edges import profiled_board

ROUNDING = 1e-12
"""Sums of a few hundred float64 terms."""
PROFILES = {
    "chamfer": chamfer(5, 8),
    "quarter round": quarter_round(20),
    "cove": cove(20),
    "cornice": flipped(cove(15)),
    "bead": bead(12),
    "ogee": ogee(20, 30),
}


@pytest.mark.parametrize("name", PROFILES)
def test_a_straight_face_is_girth_times_length(name):
    profile = PROFILES[name]
    areas = moulding(700, profile).area_mm2_of
    assert girth(profile) * 700 == pytest.approx(areas["face"], rel=ROUNDING)
    assert profile[-1][1] * 700 == pytest.approx(areas["back"], rel=ROUNDING)


def test_a_straight_moulding_has_ends_of_its_section():
    areas = moulding(700, quarter_round(20)).area_mm2_of
    expected = {
        "face": 7000 * math.pi,
        "back": 14_000,
        "bottom": 14_000,
        "ends": 2 * math.pi * 100,
    }
    assert expected == pytest.approx(areas, rel=ROUNDING)


def test_a_mitred_quarter_round_by_hand():
    # width + 2 depth = 800; moment of a quarter circle about its radius is r2; 2 corners, so 4 r2
    areas = mitred_moulding(400, 200, quarter_round(20)).area_mm2_of
    assert 800 * 10 * math.pi + 4 * 400 == pytest.approx(areas["face"], rel=ROUNDING)
    # a U of width 20 around the box: 800 x 20 and two corner squares
    assert 800 * 20 + 2 * 400 == pytest.approx(areas["bottom"], rel=ROUNDING)
    assert 800 * 20 == pytest.approx(areas["back"], rel=ROUNDING)
    assert 2 * math.pi * 100 == pytest.approx(areas["ends"], rel=ROUNDING)


def test_a_mitred_cove_by_hand():
    # the arc of a hollow quarter lies round the outer corner: its moment is r (pi r / 2) - r2
    face = mitred_moulding(400, 200, cove(20)).area_mm2_of["face"]
    moment = 20 * 10 * math.pi - 400
    assert 800 * 10 * math.pi + 4 * moment == pytest.approx(face, rel=ROUNDING)


@pytest.mark.parametrize("name", PROFILES)
def test_all_round_is_two_halves_with_a_back(name):
    """Four mitres have twice the corner of two, and the runs along the back are added."""
    profile = PROFILES[name]
    half = mitred_moulding(400, 200, profile).area_mm2_of["face"]
    whole = mitred_moulding(400, 200, profile, all_round=True)
    corners = half - 800 * girth(profile)
    assert 1200 * girth(profile) + 2 * corners == pytest.approx(
        whole.area_mm2_of["face"], rel=ROUNDING
    )
    assert "ends" not in whole.faces


def test_a_box_of_no_profile_is_the_walls_of_a_box():
    """A square section, run around, has the outer walls of a bigger box."""
    areas = mitred_moulding(400, 200, [[15, 0], [15, 50]], all_round=True).area_mm2_of
    assert areas["face"] == 2 * (430 + 230) * 50
    assert areas["back"] == 2 * (400 + 200) * 50
    assert areas["top"] == areas["bottom"] == 430 * 230 - 400 * 200


def test_the_box_grows_where_the_moulding_runs():
    profile = chamfer(5, 8)
    assert moulding(700, profile).size_mm == (700.0, 5.0, 8.0)
    assert mitred_moulding(400, 200, profile).size_mm == (410.0, 205.0, 8.0)
    assert mitred_moulding(400, 200, profile, all_round=True).size_mm == (410.0, 210.0, 8.0)


def test_against_a_body_the_back_is_hidden_and_the_face_is_not():
    parts = [
        place("body", board(400, 200, 300)),
        place("base", mitred_moulding(400, 200, ogee(20, 30)), (-20, -20, 0)),
    ]
    seen = exposure(parts).areas_mm2
    whole = mitred_moulding(400, 200, ogee(20, 30)).area_mm2_of
    assert seen["base", "back"] == 0.0
    assert whole["face"] == pytest.approx(seen["base", "face"], rel=ROUNDING)
    assert 400 * 270 == pytest.approx(seen["body", "front"], rel=ROUNDING)


def test_extra_girth_is_above_zero_for_a_bead_and_below_for_a_chamfer_of_its_corner():
    assert 10 * math.pi - 20 == pytest.approx(extra_girth(bead(20)), rel=ROUNDING)
    # a 5 x 5 chamfer leaves 15 of the edge and adds 5 root 2
    expected = 5 * math.sqrt(2) - 5
    assert expected == pytest.approx(extra_girth(edge_of(chamfer(5, 5), 20)), rel=1e-11)


def test_a_chamfered_top_by_hand():
    # 6 out, 8 high, girth 10, on the front alone
    profile = edge_of(chamfer(6, 8), 20)
    areas = profiled_board(600, 400, 20, profile=profile, edges=["front"]).area_mm2_of
    expected = {
        "front": 600 * (12 + 10),
        "back": 600 * 20,
        "left": 400 * 20 - 24,  # the end of the cut: 6 x 8 / 2
        "right": 400 * 20 - 24,
        "top": 600 * 394,
        "bottom": 600 * 400,
    }
    assert expected == pytest.approx(areas, rel=ROUNDING)


def test_a_board_without_profiled_edges_is_a_board():
    plain = profiled_board(600, 400, 20, profile=bead(20), edges=[])
    assert board(600, 400, 20).area_mm2_of == pytest.approx(plain.area_mm2_of, rel=ROUNDING)


def test_a_square_profile_changes_nothing():
    square = profiled_board(600, 400, 20, profile=[[5, 0], [5, 20]])
    assert board(600, 400, 20).area_mm2_of == pytest.approx(square.area_mm2_of, rel=ROUNDING)


def test_inside_an_opening_the_mitres_take_from_each_run():
    # moment of a hollow quarter about its back, four corners, two mitres each
    areas = moulding_around(rectangle(400, 200), cove(20), inside=True).area_mm2_of
    moment = 20 * 10 * math.pi - 400
    assert 1200 * 10 * math.pi - 8 * moment == pytest.approx(areas["face"], rel=ROUNDING)
    assert 1200 * 20 == pytest.approx(areas["back"], rel=ROUNDING)
    assert 400 * 200 - 360 * 160 == pytest.approx(areas["bottom"], rel=ROUNDING)


def test_in_a_panel_frame_the_back_and_the_foot_are_hidden():
    """The frame is 50 wide, the field lies 10 back; the moulding is as high as that and 12 wide."""
    run = moulding_around(rectangle(300, 500), chamfer(12, 10), inside=True, lies="y")
    assert run.size_mm == (300.0, 10.0, 500.0)
    door = panel(400, 24, 600, frame=50, recess=10)
    areas = exposure([place("door", door), place("run", run, (50, 0, 50))], gap=0).areas_mm2
    assert areas["run", "back"] == areas["run", "bottom"] == 0.0
    assert run.area_mm2_of["face"] == pytest.approx(areas["run", "face"], rel=ROUNDING)
    front = 400 * 600 - 300 * 500 + (300 - 24) * (500 - 24)
    assert front == pytest.approx(areas["door", "front"], rel=ROUNDING)


def test_a_ring_is_turned_about_its_middle():
    """Pappus: girth by the way of its middle, outside and inside."""
    slope = chamfer(6, 8)
    outside = moulding_around(circle(200), slope).area_mm2_of
    inside = moulding_around(circle(200), slope, inside=True).area_mm2_of
    assert 10 * 206 * math.pi == pytest.approx(outside["face"], rel=ROUNDING)
    assert 10 * 194 * math.pi == pytest.approx(inside["face"], rel=ROUNDING)
    assert 8 * 200 * math.pi == pytest.approx(outside["back"], rel=ROUNDING)
    assert math.pi * (106**2 - 100**2) == pytest.approx(outside["bottom"], rel=ROUNDING)
    assert math.pi * (100**2 - 94**2) == pytest.approx(inside["bottom"], rel=ROUNDING)


def test_around_an_oval_by_the_parallels_of_a_convex_line():
    """Source: J. Steiner: the parallel of a convex line is 2 pi longer for each unit out."""
    shape = oval(500, 300)
    for inside, sign in ((False, 1), (True, -1)):
        face = moulding_around(shape, chamfer(6, 8), inside=inside).area_mm2_of["face"]
        assert 10 * (shape.length_mm + sign * 6 * math.pi) == pytest.approx(face, rel=ROUNDING)


def test_an_arch_follows_its_arc_on_the_right_of_the_way():
    """Half a circle of radius 100, above it the moulding, below it a hollow one."""
    above = moulding_along([[0, 0, 100], [200, 0]], chamfer(6, 8)).area_mm2_of
    below = moulding_along([[0, 0, -100], [200, 0]], chamfer(6, 8)).area_mm2_of
    assert 10 * 103 * math.pi == pytest.approx(above["face"], rel=ROUNDING)
    assert 10 * 97 * math.pi == pytest.approx(below["face"], rel=ROUNDING)
    assert 2 * 24 == pytest.approx(above["ends"], rel=ROUNDING)


def test_inside_an_arched_opening_the_arc_gets_shorter():
    """Two right corners take twice its depth each, half a turn takes pi times its depth."""
    opening = [[0, 0], [300, 0], [300, 200, 150], [0, 200]]
    length = 300 + 2 * 200 + 150 * math.pi
    areas = moulding_around(opening, chamfer(6, 8), inside=True).area_mm2_of
    assert 8 * length == pytest.approx(areas["back"], rel=ROUNDING)
    assert 10 * (length - (4 + math.pi) * 3) == pytest.approx(areas["face"], rel=ROUNDING)


def test_its_box_is_that_of_the_outline_and_the_profile():
    oval_ring = moulding_around(oval(500, 300), chamfer(6, 8))
    assert oval_ring.size_mm == (512.0, 312.0, 8.0)
    assert moulding_around(oval(500, 300), chamfer(6, 8), inside=True).size_mm[:2] == (500, 300)


def test_a_ring_just_above_a_board_closes_the_gap_with_its_flat_foot():
    ring = moulding_around(circle(200), chamfer(6, 8))
    parts = [place("board", board(300, 300, 20)), place("ring", ring, (40, 40, 20.5))]
    assert exposure(parts).areas_mm2["ring", "bottom"] == pytest.approx(0.0, abs=1e-6)


def test_its_box_holds_the_crown_of_the_arc():
    # a third of a circle of radius 100; the crown lies between two points of its polygon
    half = 100 * math.sin(math.pi / 3)
    run = moulding_along([[0, 0, 50], [2 * half, 0]], chamfer(6, 8))
    assert (2 * 106 * math.sin(math.pi / 3), 56, 8) == pytest.approx(run.size_mm, abs=1e-4)


def test_an_open_box_is_that_of_three_sides():
    around = mitred_moulding(400, 200, ogee(20, 30))
    line = [[0, 200], [0, 0], [400, 0], [400, 200]]
    assert around.area_mm2_of == moulding_along(line, ogee(20, 30)).area_mm2_of


@pytest.mark.parametrize(
    ("call", "argument"),
    [
        (lambda: moulding(0, bead(8)), "length"),
        (lambda: moulding(9, [[3, 1], [0, 4]]), "profile"),
        (lambda: mitred_moulding(0, 5, bead(8)), "width"),
        (lambda: mitred_moulding(5, -1, bead(8)), "depth"),
        (lambda: moulding_around(rectangle(90, 39), cove(20), inside=True), "profile"),
        (lambda: moulding_around(circle(40), cove(20), inside=True), "profile"),
        (lambda: moulding_around([[0, 0], [9, 0], [0, 9], [9, 9]], cove(2)), "outline"),
        (lambda: moulding_along([[0, 0]], cove(2)), "line"),
        (lambda: moulding_along([[0, 0, -20], [40, 0]], cove(20)), "profile"),
        (lambda: moulding_along([[0, 0], [90, 0], [9, 0]], cove(2)), "outline"),
        # it turns back beside itself, 5 apart
        (lambda: moulding_along([[0, 5], [0, 90], [5, 90], [5, 0]], cove(9)), "profile"),
        (lambda: profiled_board(600, 400, 20, profile=bead(19)), "profile"),
        (lambda: profiled_board(600, 400, 20, profile=bead(20), edges=["top"]), "edges"),
        (lambda: profiled_board(20, 400, 20, profile=bead(20)), "profile"),
        (lambda: profiled_board(400, 20, 20, profile=bead(20)), "profile"),
        (lambda: profiled_board(0, 20, 20, profile=bead(20)), "width"),
    ],
)
def test_what_is_wrong_is_named(call, argument):
    with pytest.raises(ShapeError) as caught:
        call()
    assert argument == caught.value.argument
