"""Lines along which faces meet: what the masking tape follows."""

import math

import numpy as np
import pytest

from shapes import seams as seam_lines
from shapes.boards import board
from shapes.cases import case
from shapes.exposure import exposure
from shapes.legs import round_leg, square_leg
from shapes.outline_boards import outline_board
from shapes.placement import corners, place

ROUNDING = 1e-9
"""Lengths are sums of rounded square roots."""


def seam(shown, one, other):
    return shown.seams_mm.get((one, other), 0.0) + shown.seams_mm.get((other, one), 0.0)


def between(shown, one, other):
    """Return how far the faces of two parts, or of parts whose names start so, meet."""
    total = 0.0
    for (a, b), length in shown.seams_mm.items():
        names = a[0], b[0]
        if any(x.startswith(one) and y.startswith(other) for x, y in (names, names[::-1])):
            total += length
    return total


def chest(air=0.0, set_in=0.0):
    body = place("body", case(1000, 500, 600, board=18), (0, 0, 200))
    legs = corners("leg", square_leg(200, 60), under=body, set_in=set_in)
    raised = place("body", body.solid, (0, 0, 200 + air))
    return [raised, *legs]


def test_a_board_alone_meets_itself_along_its_twelve_edges():
    shown = exposure([place("b", board(30, 50, 70))])
    assert pytest.approx(sum(shown.seams_mm.values()), rel=ROUNDING) == 4 * (30 + 50 + 70)
    assert seam(shown, ("b", "front"), ("b", "top")) == 30
    assert seam(shown, ("b", "front"), ("b", "left")) == 70
    assert seam(shown, ("b", "front"), ("b", "back")) == 0.0


def test_each_pair_stands_once_and_never_with_itself():
    shown = exposure(chest())
    assert all(a != b for a, b in shown.seams_mm)
    assert len(shown.seams_mm) == len({frozenset(pair) for pair in shown.seams_mm})


def test_every_length_is_above_zero():
    shown = exposure([*chest(0.5), place("loose", board(3, 4, 5), loose=True)])
    assert min(shown.seams_mm.values()) > 0


@pytest.mark.parametrize("set_in", [0, 0.5, 1, 40])
def test_four_square_legs_meet_the_body_along_960_mm(set_in):
    assert pytest.approx(between(exposure(chest(0, set_in)), "body", "leg")) == 4 * 4 * 60


def test_a_leg_set_in_meets_the_underside_on_all_four_sides():
    shown = exposure(chest(0, 40))
    for face in ("front", "back", "left", "right"):
        assert pytest.approx(seam(shown, ("leg 1", face), ("body", "bottom")), rel=ROUNDING) == 60


def test_a_flush_leg_meets_the_front_and_the_side_of_the_body():
    shown = exposure(chest())
    assert pytest.approx(seam(shown, ("leg 1", "front"), ("body", "front")), rel=ROUNDING) == 60
    assert pytest.approx(seam(shown, ("leg 1", "left"), ("body", "left")), rel=ROUNDING) == 60
    assert pytest.approx(seam(shown, ("leg 1", "back"), ("body", "bottom")), rel=ROUNDING) == 60
    assert pytest.approx(seam(shown, ("leg 1", "right"), ("body", "bottom")), rel=ROUNDING) == 60
    assert seam(shown, ("leg 1", "front"), ("body", "bottom")) == 0.0


def test_the_underside_meets_the_front_only_between_flush_legs():
    shown = exposure(chest())
    assert (
        pytest.approx(seam(shown, ("body", "front"), ("body", "bottom")), rel=ROUNDING)
        == 1000 - 120
    )


def test_two_boards_in_line_meet_round_their_joint():
    shown = exposure([place("a", board(100, 50, 30)), place("b", board(80, 50, 30), (100, 0, 0))])
    assert pytest.approx(between(shown, "a", "b"), rel=ROUNDING) == 2 * (50 + 30)
    assert pytest.approx(seam(shown, ("a", "top"), ("b", "top")), rel=ROUNDING) == 50


def test_a_round_leg_meets_an_underside_along_its_circle():
    top = place("top", board(200, 200, 20), (-80, -80, 100))
    shown = exposure([top, place("leg", round_leg(100, 30))])
    # CURVE_SEGMENTS: a polygon of the circle's area is longer by 2.5e-5
    assert math.pi * 30 == pytest.approx(between(shown, "top", "leg"), rel=5e-5)


def test_a_post_through_a_board_meets_it_on_both_sides():
    shown = exposure(
        [place("post", board(20, 20, 100)), place("shelf", board(90, 90, 10), (-30, -30, 40))]
    )
    assert pytest.approx(between(shown, "post", "shelf"), rel=ROUNDING) == 2 * 80


def test_hidden_edges_do_not_count():
    body = place("body", case(100, 50, 60, board=5))
    shown = exposure([body, place("x", board(10, 10, 10), (30, 15, 20))])
    assert pytest.approx(sum(shown.seams_mm.values()), rel=ROUNDING) == 4 * (100 + 50 + 60)


def test_loose_parts_meet_themselves_only():
    parts = [place("a", board(10, 10, 10)), place("b", board(20, 10, 10), (10, 0, 0), loose=True)]
    shown = exposure(parts)
    assert between(shown, "a", "b") == 0.0
    assert pytest.approx(between(shown, "b", "b"), rel=ROUNDING) == 160.0


def test_loose_parts_of_one_word_meet():
    parts = [
        place("a", board(10, 10, 10), loose="lid"),
        place("b", board(20, 10, 10), (10, 0, 0), loose="lid"),
    ]
    assert pytest.approx(between(exposure(parts), "a", "b"), rel=ROUNDING) == 40.0


# ---- across closed gaps


@pytest.mark.parametrize("air", [0.25, 0.5, 25.4 / 32])
@pytest.mark.parametrize("set_in", [0, 40])
def test_seams_across_a_closed_gap_equal_the_touching_case(air, set_in):
    touching, near = exposure(chest(0, set_in)), exposure(chest(air, set_in))
    assert len(near.closed) == 4
    across = {
        pair: length for pair, length in touching.seams_mm.items() if pair[0][0] != pair[1][0]
    }
    for (one, other), length in across.items():
        assert length == pytest.approx(seam(near, one, other), rel=ROUNDING)
    assert between(touching, "body", "leg") == pytest.approx(
        between(near, "body", "leg"), rel=ROUNDING
    )


@pytest.mark.parametrize("air", [0.25, 0.5])
@pytest.mark.parametrize("lower", [0, 10])
def test_boards_in_line_across_a_closed_gap_meet_as_if_they_touched(air, lower):
    def boards(distance):
        return exposure(
            [
                place("a", board(100, 50, 30)),
                place("b", board(80, 50, 30 - lower), (100 + distance, 0, 0)),
            ]
        )

    touching, near = boards(0), boards(air)
    for one in touching.areas_mm2:
        for other in touching.areas_mm2:
            if one[0] < other[0]:
                assert seam(touching, one, other) == pytest.approx(
                    seam(near, one, other), rel=ROUNDING
                )


def test_a_round_leg_across_a_closed_gap_meets_along_its_circle():
    top = place("top", board(200, 200, 20), (-80, -80, 100.5))
    shown = exposure([top, place("leg", round_leg(100, 30))])
    # CURVE_SEGMENTS: a polygon of the circle's area is longer by 2.5e-5
    assert math.pi * 30 == pytest.approx(seam(shown, ("top", "bottom"), ("leg", "side")), rel=5e-5)


def test_faces_across_a_gap_that_stays_open_do_not_meet():
    assert between(exposure(chest(2)), "body", "leg") == 0.0


def test_faces_do_not_meet_where_a_closed_gap_is_sealed_in():
    parts = [
        place("body", case(100, 50, 60, board=5, open_sides=["front"])),
        place("door", board(100, 8, 60), (0, -8.5, 0)),
    ]
    shown = exposure(parts)
    assert pytest.approx(between(shown, "body", "door"), rel=ROUNDING) == 2 * (100 + 60)
    assert between(shown, "inside", "door") == 0.0
    assert not [pair for pair in shown.seams_mm if ("body", "inside") in pair]


def test_spans_of_a_rim_that_overlap_are_one_and_others_stay_apart():
    """Face 1 lies along 0 to 4 and 3 to 6, and again from 8 to 9; face 2 along 1 to 2."""
    along = np.array([[3.0, 6.0], [0.0, 4.0], [8.0, 9.0], [1.0, 2.0]])
    expected = [(0.0, 6.0, 1), (8.0, 9.0, 1), (1.0, 2.0, 2)]
    assert expected == seam_lines._spans(along, np.array([1, 1, 1, 2]))


def test_two_rims_meet_as_far_as_spans_of_two_faces_lie_beside_each_other():
    lower, upper = [(0.0, 10.0, 5), (20.0, 30.0, 2)], [(4.0, 20.5, 2), (10.0, 12.0, 7)]
    assert [(6.0, (2, 5))] == list(seam_lines._overlaps(lower, upper))
    assert [(0.5, (2, 3))] == list(seam_lines._overlaps([(0.0, 1.0, 3)], [(0.5, 9.0, 2)]))


def test_a_post_on_a_board_makes_inside_corners_on_both() -> None:
    """A post of 100 by 60 mm: 320 mm around its foot, on the board and on its four sides."""
    foot = place("foot", board(500, 400, 20))
    post = place("post", board(100, 60, 300), (200, 100, 20))
    found = exposure([foot, post]).corners_mm
    sides = {"front": 100, "back": 100, "left": 60, "right": 60}
    expected = {("foot", "top"): 320, **{("post", side): mm for side, mm in sides.items()}}
    assert found == pytest.approx(expected)


def test_a_board_alone_has_no_inside_corner() -> None:
    assert exposure([place("alone", board(500, 400, 20))]).corners_mm == {}


@pytest.mark.parametrize(("degrees", "corner_mm"), [(44, 0), (46, 40)])
def test_two_sides_that_turn_in_by_less_than_45_degrees_make_none(
    degrees: float, corner_mm: float
) -> None:
    """A notch in the edge of a board 20 mm thick; both its sides are of the face edge."""
    deep = 250 * math.tan(math.radians(degrees / 2))
    notched = outline_board([[0, 0], [500, 0], [500, 300], [250, 300 - deep], [0, 300]], 20)
    found = exposure([place("it", notched)]).corners_mm
    assert found.get(("it", "edge"), 0.0) == pytest.approx(corner_mm, rel=1e-6)
