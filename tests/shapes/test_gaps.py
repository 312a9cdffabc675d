"""Air that a tape measure left between joined parts: closed, listed, or left alone."""

import math

import pytest
from gap_makers import ROUNDING, pair

from shapes.boards import board
from shapes.cases import case
from shapes.exposure import exposure
from shapes.legs import round_leg, tapered_leg
from shapes.panels import panel
from shapes.placement import place

# ---- the two limits


@pytest.mark.parametrize("air", [1 / 80_000, 0.01, 0.5, 25.4 / 64, 25.4 / 32, 0.99999])
def test_air_below_the_gap_is_closed_and_taken_off_both_faces(air):
    shown = exposure(pair(air))
    (miss,) = shown.closed
    assert shown.gaps == ()
    assert (miss.face, miss.other) == (("a", "right"), ("b", "left"))
    assert round(air * 80_000) / 80_000 == pytest.approx(miss.distance_mm, rel=ROUNDING)
    assert pytest.approx(miss.area_mm2, rel=ROUNDING) == 50 * 20
    assert pytest.approx(shown.areas_mm2["a", "right"], rel=ROUNDING) == 50 * 30 - 50 * 20
    assert pytest.approx(shown.areas_mm2["b", "left"], abs=1e-6) == 0.0  # LEAST_PATCH_MM2


@pytest.mark.parametrize("air", [1, 1.5, 25.4 / 16, 25.4 / 8, 4.99999, 5])
def test_air_from_the_gap_to_5_mm_is_listed_and_stays_exposed(air):
    shown = exposure(pair(air))
    (miss,) = shown.gaps
    assert shown.closed == ()
    assert (miss.face, miss.other) == (("a", "right"), ("b", "left"))
    assert round(air * 80_000) / 80_000 == pytest.approx(miss.distance_mm, rel=ROUNDING)
    assert pytest.approx(miss.area_mm2, rel=ROUNDING) == 50 * 20
    assert shown.areas_mm2["a", "right"] == 50 * 30
    assert shown.areas_mm2["b", "left"] == 50 * 20


@pytest.mark.parametrize("air", [5 + 1 / 80_000, 5.1, 25.4 / 4, 100])
def test_air_beyond_5_mm_is_neither_closed_nor_listed(air):
    shown = exposure(pair(air))
    assert (shown.closed, shown.gaps) == ((), ())


def test_touching_faces_are_neither_closed_nor_listed():
    shown = exposure(pair(0))
    assert (shown.closed, shown.gaps) == ((), ())
    assert shown.areas_mm2["a", "right"] == 50 * 10


@pytest.mark.parametrize(("gap", "closed"), [(0, 0), (0.5, 0), (0.6, 1), (3, 1), (5, 1)])
def test_the_gap_can_be_chosen(gap, closed):
    shown = exposure(pair(0.5), gap=gap)
    assert (closed, 1 - closed) == (len(shown.closed), len(shown.gaps))


@pytest.mark.parametrize("hundredths", [57, 69, 113, 114, 138, 201, 477, *range(3, 500, 20)])
def test_air_of_exactly_the_gap_is_listed_and_stays_exposed(hundredths):
    shown = exposure(pair(hundredths / 100), gap=hundredths / 100)
    assert (len(shown.closed), len(shown.gaps)) == (0, 1)
    assert shown.areas_mm2["a", "right"] == 50 * 30


def test_every_area_that_is_listed_as_closed_is_taken_off():
    for hundredths in range(1, 500, 7):
        shown = exposure(pair(hundredths / 100), gap=(hundredths + 1) / 100)
        assert len(shown.closed) == 1
        assert pytest.approx(shown.areas_mm2["a", "right"], rel=ROUNDING) == 50 * 10


def test_a_leaning_side_beside_a_gap_adds_nothing_to_it():
    """Seen from above, the front of a tapered leg covers 300 mm2 of the board below it."""
    above, leg, below = board(50, 50, 20), tapered_leg(300, 40, foot=20), board(200, 100, 20)
    shown = exposure(
        [place("a", above, (0, 0, 20.5)), place("b", leg, (100, 0, 20.5)), place("c", below)]
    )
    found = {gap.face: gap.area_mm2 for gap in shown.closed}
    assert {("a", "bottom"): 50 * 50, ("b", "bottom"): 20 * 20} == pytest.approx(
        found, rel=ROUNDING
    )


# ---- which faces count


@pytest.mark.parametrize(
    ("shift", "faces"),
    [
        ((100.5, 0, 0), ("right", "left")),
        ((-100.5, 0, 0), ("left", "right")),
        ((0, 50.5, 0), ("back", "front")),
        ((0, -50.5, 0), ("front", "back")),
        ((0, 0, 30.5), ("top", "bottom")),
        ((0, 0, -30.5), ("bottom", "top")),
    ],
)
def test_air_is_found_in_all_six_directions(shift, faces):
    shown = exposure([place("a", board(100, 50, 30)), place("b", board(100, 50, 30), shift)])
    (miss,) = shown.closed
    assert (("a", faces[0]), ("b", faces[1])) == (miss.face, miss.other)
    assert pytest.approx(shown.areas_mm2["a", faces[0]], abs=1e-6) == 0.0  # LEAST_PATCH_MM2


def test_air_is_closed_only_where_the_projections_overlap():
    parts = [place("a", board(100, 50, 30)), place("b", board(100, 50, 30), (70, -20, 30.5))]
    shown = exposure(parts)
    (miss,) = shown.closed
    assert pytest.approx(miss.area_mm2, rel=ROUNDING) == 30 * 30
    assert pytest.approx(shown.areas_mm2["a", "top"], rel=ROUNDING) == 5000 - 900
    assert pytest.approx(shown.areas_mm2["b", "bottom"], rel=ROUNDING) == 5000 - 900


def test_parts_that_do_not_overlap_in_projection_have_no_gap():
    parts = [place("a", board(100, 50, 30)), place("b", board(100, 50, 30), (100, 0, 30.5))]
    shown = exposure(parts)
    assert (shown.closed, shown.gaps) == ((), ())


def test_a_step_between_faces_that_look_the_same_way_is_no_gap():
    parts = [place("a", board(100, 50, 30)), place("b", board(100, 50, 30), (100, 0.5, 0.5))]
    shown = exposure(parts)
    assert (shown.closed, shown.gaps) == ((), ())
    assert shown.areas_mm2["a", "top"] == 100 * 50
    assert pytest.approx(shown.areas_mm2["a", "right"], rel=ROUNDING) == 50 * 30 - 49.5 * 29.5


def test_a_part_sunk_by_less_than_the_gap_is_left_as_measured():
    parts = [place("a", board(100, 50, 30)), place("b", board(20, 20, 30), (10, 10, 29.5))]
    shown = exposure(parts)
    assert (shown.closed, shown.gaps) == ((), ())
    assert pytest.approx(shown.areas_mm2["a", "top"], rel=ROUNDING) == 5000 - 400
    assert pytest.approx(shown.areas_mm2["b", "front"], rel=ROUNDING) == 20 * 29.5


def test_two_faces_of_one_part_are_no_gap():
    narrow = case(100, 2.5, 60, board=1, open_sides=["top"])  # 0.5 mm of air inside
    shown = exposure([place("c", narrow), place("far", board(5, 5, 5), (500, 0, 0))])
    assert (shown.closed, shown.gaps) == ((), ())
    assert narrow.area_mm2_of["inside"] == pytest.approx(
        shown.areas_mm2["c", "inside"], rel=ROUNDING
    )


@pytest.mark.parametrize("loose", [(True, True), (False, True), ("lid", "door"), (False, "lid")])
def test_air_next_to_a_loose_part_is_no_gap(loose):
    a, b = pair(0.5)
    parts = [
        place("a", a.solid, loose=loose[0]),
        place("b", b.solid, (100.5, 0, 0), loose=loose[1]),
    ]
    shown = exposure(parts)
    assert (shown.closed, shown.gaps) == ((), ())
    assert shown.areas_mm2["a", "right"] == 1500.0


def test_air_between_loose_parts_of_one_word_is_closed():
    a, b = pair(0.5)
    parts = [
        place("a", a.solid, loose="lid"),
        place("b", b.solid, (100.5, 0, 0), loose="lid"),
    ]
    assert len(exposure(parts).closed) == 1


def test_slanted_faces_that_look_at_each_other_are_closed():
    # two tapered legs, one foot down and one foot up: right of one is parallel to left of the other
    lean = math.hypot(1, 10 / 100)
    down = place("down", tapered_leg(100, 30, 30, foot=50))
    up = place("up", tapered_leg(100, 50, 30, foot=30), (40 + 0.5 * lean, 0, 0))
    shown = exposure([down, up])
    (miss,) = shown.closed
    assert (miss.face, miss.other) == (("down", "right"), ("up", "left"))
    # the box is placed on the grid: within one line, 1/80 000 mm
    assert pytest.approx(miss.distance_mm, abs=2 / 80_000) == 0.5
    area = miss.area_mm2
    assert area > 0
    whole = down.solid.area_mm2_of["right"]
    assert whole - area == pytest.approx(shown.areas_mm2["down", "right"], rel=1e-6)


def test_faces_that_are_not_parallel_are_no_gap():
    leg = place("leg", tapered_leg(100, 30, 30, foot=29))  # leans by 0.5 in 100
    shown = exposure([leg, place("wall", board(20, 30, 100), (30.25, 0, 0))])
    assert (shown.closed, shown.gaps) == ((), ())


def test_a_round_side_next_to_a_flat_one_is_no_gap():
    shown = exposure(
        [place("leg", round_leg(100, 30)), place("w", board(20, 30, 100), (30.5, 0, 0))]
    )
    assert (shown.closed, shown.gaps) == ((), ())


def test_the_round_end_of_a_leg_is_closed_against_an_underside():
    top = place("top", board(200, 200, 20), (-80, -80, 100.4))
    shown = exposure([top, place("leg", round_leg(100, 30))])
    (miss,) = shown.closed
    assert math.pi * 225 == pytest.approx(miss.area_mm2, rel=ROUNDING)
    assert 40_000 - math.pi * 225 == pytest.approx(shown.areas_mm2["top", "bottom"], rel=ROUNDING)
    assert pytest.approx(shown.areas_mm2["leg", "top"], abs=1e-6) == 0.0  # LEAST_PATCH_MM2
    assert math.pi * 30 * 100 == pytest.approx(shown.areas_mm2["leg", "side"], rel=1e-12)


def test_the_field_of_a_panel_is_closed_against_a_board_in_its_recess():
    parts = [
        place("p", panel(400, 20, 600, frame=50, recess=6)),
        place("b", board(200, 5.5, 400), (100, 0, 100)),
    ]
    shown = exposure(parts)
    (miss,) = shown.closed
    assert (miss.face, miss.other) == (("p", "front"), ("b", "back"))
    assert pytest.approx(miss.area_mm2, rel=ROUNDING) == 200 * 400


def test_air_that_is_sealed_already_is_no_gap():
    # the board fills the recess from stile to stile, 0.5 mm before the field
    parts = [
        place("p", panel(400, 20, 600, frame=50, recess=6)),
        place("b", board(300, 5.5, 500), (50, 0, 50)),
    ]
    shown = exposure(parts)
    assert (shown.closed, shown.gaps) == ((), ())
    assert pytest.approx(shown.areas_mm2["p", "front"], rel=ROUNDING) == 400 * 600 - 300 * 500
    assert shown.areas_mm2["b", "back"] == 0.0
