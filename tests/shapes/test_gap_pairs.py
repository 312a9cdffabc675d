"""Which faces look at each other across air: pairs, planes and regions, each by a plain rule."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from leaning import Pose

from shapes import gaps
from shapes.boards import board
from shapes.exposure import exposure
from shapes.gaps import Gap
from shapes.legs import tapered_leg
from shapes.placement import place
from shapes.solids import Floats
from shapes.tolerances import SAME_DIRECTION

SEEDS = st.integers(0, 2**32 - 1)
EXAMPLES = settings(deadline=None, max_examples=50)


def unit_vectors(seed: int, count: int) -> Floats:
    drawn = np.random.default_rng(seed).normal(size=(count, 3))
    units: Floats = drawn / np.linalg.norm(drawn, axis=1, keepdims=True)
    return units


@pytest.mark.parametrize("many", [10**9, 0], ids=["one by one", "by an index"])
@EXAMPLES
@given(seed=SEEDS)
def test_pairs_are_those_in_the_window_whose_boxes_overlap(many: int, seed: int) -> None:
    chance = np.random.default_rng(seed)
    corner = chance.uniform(0, 100, (40, 2))
    boxes = np.concatenate([corner, corner + chance.uniform(1, 60, (40, 2))], axis=1)
    lows, highs = np.arange(15), np.arange(15, 40)
    start = chance.integers(0, 20, 15)
    end = np.minimum(len(highs), start + chance.integers(0, 8, 15))
    expected = {
        (low, high)
        for low, first, last in zip(lows.tolist(), start, end, strict=True)
        for high in highs[first:last].tolist()
        if all(boxes[[low, high], 2:].min(axis=0) > boxes[[low, high], :2].max(axis=0))
    }
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(gaps, "MANY_PAIRS", many)
        found = list(gaps._overlapping(boxes, lows, highs, start, end))
    assert expected == set(found)
    assert len(expected) == len(found)


@EXAMPLES
@given(seed=SEEDS)
def test_axes_of_any_plane_are_square_to_each_other_of_length_1_and_right_handed(seed: int) -> None:
    (direction,) = unit_vectors(seed, 1)
    frame = gaps._frame(direction)
    assert np.allclose(frame @ frame.T, np.eye(3), atol=1e-12)
    assert np.allclose(frame[2], direction, atol=SAME_DIRECTION)
    assert np.linalg.det(frame) == pytest.approx(1)


@EXAMPLES
@given(seed=SEEDS)
def test_opposite_normals_have_one_direction_and_opposite_signs(seed: int) -> None:
    normals = unit_vectors(seed, 5)
    directions, signs = gaps._directions(np.concatenate([normals, -normals]))
    assert np.array_equal(directions[:5], directions[5:])
    assert np.array_equal(signs[:5], -signs[5:])
    assert np.abs(directions[:5] - normals * signs[:5, None]).max() <= SAME_DIRECTION


def gap(distance: float, frame: object) -> Gap:
    return Gap(0, 1, distance, 0.0, np.array(frame, dtype=float), shapely.box(0, 0, 1, 1))


def test_one_grid_line_of_air_is_air_between_square_faces_and_rounding_between_leaning_ones() -> (
    None
):
    square = [[0, -1, 0], [-1, 0, 0], [0, 0, -1]]
    leaning = [[0.6, 0.8, 0], [-0.8, 0.6, 0], [0, 0, 1]]
    assert (True, False) == (gap(1.0, square).is_square, gap(1.0, leaning).is_square)
    assert (False, True) == (gap(1.0, square).is_touching, gap(1.0, leaning).is_touching)


@pytest.mark.parametrize(("level", "distance"), [(0.0, 0.0), (-0.4, 0.0), (3.0, 3.0)])
def test_faces_in_one_plane_have_no_air_between_them(level: float, distance: float) -> None:
    boxes = np.array([[0.0, 0.0, 10.0, 10.0]] * 2)
    along, levels = np.array([True, False]), np.array([0.0, level])
    planes = gaps._Planes(np.eye(3), np.array([0, 1]), along, levels, boxes)
    assert [(distance, 0, 1)] == list(gaps._facing_pairs(planes, np.array([0, 1]), 100.0))


def test_of_an_overlap_only_what_has_area_counts() -> None:
    overlap = shapely.GeometryCollection(
        [shapely.box(0, 0, 2, 3), shapely.LineString([(5, 0), (9, 0)]), shapely.Point(7, 7)]
    )
    assert 6.0 == gaps._polygons(overlap).area


@pytest.mark.parametrize("lean", [12.0, 45.0])
def test_air_between_boards_that_lean_and_turn_has_their_distance_and_overlap(lean: float) -> None:
    """A board of 100 x 60 mm over one of 200 x 100 mm, 2 mm apart."""
    pose = Pose(lean, "right", 30.0)
    low = pose.part("low", board(200, 100, 20), (0, 0, 0))
    high = pose.part("high", board(100, 60, 20), (50, 20, 22))
    (miss,) = exposure([low, high]).gaps
    # places are rounded to 1 / 80 000 mm
    assert (2.0, 6_000.0) == pytest.approx((miss.distance_mm, miss.area_mm2), rel=1e-4)


def test_a_tapered_leg_over_and_under_a_board_has_its_foot_and_its_top_in_the_gap() -> None:
    floor, top = (place(name, board(300, 300, 20), (0, 0, z)) for name, z in (("a", 0), ("z", 424)))
    leg = place("leg", tapered_leg(400, 50, foot=30), (100, 100, 22))
    seen = exposure([floor, leg, top])
    areas = {(miss.face, miss.other): miss.area_mm2 for miss in seen.gaps}
    assert {
        (("a", "top"), ("leg", "bottom")): pytest.approx(900.0),
        (("leg", "top"), ("z", "bottom")): pytest.approx(2500.0),
    } == areas


def test_a_strip_of_air_one_grid_line_wide_is_rounding() -> None:
    """6e-7 mm2, less than a square of a micrometre; twenty lines are 1.25e-5 mm2."""
    for lines, count in ((1, 0), (20, 1)):
        low = place("low", board(100, 0.05, 20))
        high = place("high", board(100, 0.05, 20), (100 - lines / 80_000, 0, 22))
        assert count == len(exposure([low, high]).gaps)


def test_near_misses_come_in_the_order_of_the_parts() -> None:
    """The first part stands above the second: its face comes first all the same."""
    above, below = place("a", board(50, 50, 20), (0, 0, 22)), place("b", board(50, 50, 20))
    (miss,) = exposure([above, below]).gaps
    assert (("a", "bottom"), ("b", "top")) == (miss.face, miss.other)
    (miss,) = exposure([below, above]).gaps
    assert (("b", "top"), ("a", "bottom")) == (miss.face, miss.other)
    assert math.isclose(2.0, miss.distance_mm)
