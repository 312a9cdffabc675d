"""Outline boards: faces, directions, holes and where they may lie."""

import math
from typing import Any

import pytest

from shapes.errors import ShapeError
from shapes.exposure import exposure
from shapes.outline_boards import outline_board
from shapes.outlines import circle, oval, rounded_rectangle
from shapes.placement import place

SHEET = [[0, 0], [400, 0], [400, 200], [0, 200]]
ROUNDING = 1e-12
"""Sums of a few hundred float64 terms."""


def test_a_rectangle_is_a_board():
    areas = outline_board(SHEET, 12).area_mm2_of
    assert areas == {"top": 80_000.0, "bottom": 80_000.0, "edge": 14_400.0}


def test_faces_by_direction():
    hole = [circle(30, centre=(100, 100))]
    faces = {a: outline_board(SHEET, 12, holes=hole, along=a).faces for a in "xyz"}
    assert faces == {
        "z": ("top", "bottom", "edge", "hole"),
        "y": ("front", "back", "edge", "hole"),
        "x": ("right", "left", "edge", "hole"),
    }


def test_a_hole_takes_from_both_ends_and_gives_its_wall():
    areas = outline_board(SHEET, 12, holes=[circle(30, centre=(100, 100))]).area_mm2_of
    expected = 80_000 - math.pi * 225
    assert (expected, expected, 30 * math.pi * 12) == pytest.approx(
        (areas["top"], areas["bottom"], areas["hole"]), rel=ROUNDING
    )


def test_the_area_is_the_same_in_every_direction():
    holes: list[Any] = [oval(90, 30, centre=(200, 150)), [[20, 20], [60, 20, 5], [60, 60]]]
    totals = [
        sum(outline_board(SHEET, 12, holes=holes, along=a).area_mm2_of.values()) for a in "xyz"
    ]
    assert totals[0] == pytest.approx(totals[1], rel=ROUNDING)
    assert totals[0] == pytest.approx(totals[2], rel=ROUNDING)


def test_the_box_is_the_outline_and_starts_at_the_origin():
    points = [[-50, 10], [50, 10, 20], [50, 90], [-50, 90]]
    assert outline_board(points, 12).size_mm == (120.0, 80.0, 12.0)
    assert outline_board(points, 12, along="y").size_mm == (120.0, 12.0, 80.0)
    assert outline_board(points, 12, along="x").size_mm == (12.0, 120.0, 80.0)
    assert outline_board(oval(300, 100), 12).size_mm == (300.0, 100.0, 12.0)


def test_straight_edges_know_their_normals_and_arcs_have_none():
    solid = outline_board([[0, 0], [60, 0, 20], [60, 60], [0, 60]], 12)
    normals = {patch.normal for patch in solid.patches if patch.face == "edge"}
    assert normals == {None, (0.0, -1.0, 0.0), (0.0, 1.0, 0.0), (-1.0, 0.0, 0.0)}


@pytest.mark.parametrize("points", [SHEET, SHEET[::-1]])
def test_a_part_of_the_edge_can_have_its_own_name(points):
    first = outline_board(points, 12, named={"bow": [1], "rest": [2]})
    long_side, short_side = 400 * 12.0, 200 * 12.0
    assert first.area_mm2_of["bow"] == long_side
    assert first.area_mm2_of["rest"] == short_side
    assert first.area_mm2_of["edge"] == long_side + short_side


def test_a_round_top_on_a_square_leg_hides_exactly_its_head():
    parts = [
        place("top", outline_board(circle(600), 20), (0, 0, 400)),
        place("leg", outline_board([[0, 0], [60, 0], [60, 60], [0, 60]], 400), (270, 270, 0)),
    ]
    seen = exposure(parts).areas_mm2
    assert math.pi * 90_000 - 3600 == pytest.approx(seen["top", "bottom"], rel=ROUNDING)
    assert math.pi * 600 * 20 == pytest.approx(seen["top", "edge"], rel=ROUNDING)
    assert seen["leg", "top"] == 0.0


def test_boards_edge_to_edge_within_the_gap_count_as_touching():
    arched = [[0, 0], [60, 0, -35], [540, 0], [600, 0], [600, 90], [0, 90]]
    leg = [[0, 0], [40, 0], [40, 90], [0, 90]]
    parts = [
        place("leg", outline_board(leg, 40, along="y"), (0, 0, 0)),
        place("apron", outline_board(arched, 20, along="y"), (40.5, 10, 0)),
    ]
    seen = exposure(parts, gap=1)
    assert [(miss.distance_mm, miss.area_mm2) for miss in seen.closed] == [(0.5, 1800.0)]


@pytest.mark.parametrize(
    ("holes", "rule"),
    [
        ([circle(30, centre=(500, 100))], "inside the outline and clear of its edge: hole 1"),
        ([circle(30, centre=(100, 100)), circle(30, centre=(10, 100))], "hole 2"),
        ([[[0, 50], [40, 50], [40, 90]]], "clear of its edge: hole 1"),
        ([circle(30, centre=(100, 100)), circle(30, centre=(120, 100))], "hole 1 and hole 2"),
        ([[[50, 50], [90, 50], [90, 90]], [[90, 50], [120, 50], [120, 90]]], "clear of each other"),
        ([circle(30, centre=(100, 100)), circle(10, centre=(100, 100))], "clear of each other"),
    ],
)
def test_a_hole_must_be_clear_of_the_edge_and_of_other_holes(holes, rule):
    with pytest.raises(ShapeError) as caught:
        outline_board(SHEET, 12, holes=holes)
    assert caught.value.argument == "holes"
    assert rule in caught.value.rule


@pytest.mark.parametrize(
    ("call", "argument"),
    [
        (lambda: outline_board(SHEET, 0), "thickness"),
        (lambda: outline_board(SHEET, 12, along="w"), "along"),
        (lambda: outline_board(SHEET[:2], 12), "outline"),
        (lambda: outline_board(SHEET, 12, holes=[[[1, 1], [2, 2]]]), "hole 1"),
        (lambda: outline_board(SHEET, 12, named={"bow": [5]}), "named"),
        (lambda: outline_board(SHEET, 12, named={"bow": [0]}), "named"),
    ],
)
def test_what_is_wrong_is_named(call, argument):
    with pytest.raises(ShapeError) as caught:
        call()
    assert argument == caught.value.argument


def test_a_thin_board_of_a_stadium_has_one_edge_all_round():
    solid = outline_board(rounded_rectangle(300, 100, radius=50), 10)
    assert (400 + 100 * math.pi) * 10 == pytest.approx(solid.area_mm2_of["edge"], rel=ROUNDING)
