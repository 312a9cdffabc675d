"""Legs: square, tapered, round and turned, against closed forms."""

import itertools
import math

import pytest

from shapes.exposure import exposure
from shapes.legs import TURNED_FACES, round_leg, square_leg, tapered_leg, turned_leg
from shapes.placement import place

VASE = [[0, 30], [10, 30], [10, 44], [60, 50], [120, 24], [300, 40], [300, 56], [360, 56]]
PROFILES = {
    "cylinder": [[0, 40], [500, 40]],
    "cone": [[0, 0], [300, 50]],
    "cone point up": [[0, 50], [300, 0]],
    "spindle": [[0, 0], [200, 60], [400, 0]],
    "vase": VASE,
    "shoulder at the foot": [[0, 20], [0, 50], [100, 50]],
    "shoulder at the top": [[0, 50], [100, 50], [100, 20]],
    "disc on a point": [[0, 0], [0, 50], [100, 50]],
}


def side_area(profile):
    """Sum of frustums pi (r1 + r2) l; a shoulder is one of no height."""
    return sum(
        math.pi * (d1 + d2) / 2 * math.hypot(h2 - h1, (d2 - d1) / 2)
        for (h1, d1), (h2, d2) in itertools.pairwise(profile)
    )


def frustum_volume(profile):
    return sum(
        math.pi * (h2 - h1) / 12 * (d1 * d1 + d1 * d2 + d2 * d2)
        for (h1, d1), (h2, d2) in itertools.pairwise(profile)
    )


def test_a_square_leg_is_a_board_on_end():
    assert square_leg(200, 60, 40).area_mm2_of == {
        "front": 200 * 60.0,
        "back": 200 * 60.0,
        "left": 200 * 40.0,
        "right": 200 * 40.0,
        "top": 60 * 40.0,
        "bottom": 60 * 40.0,
    }


def test_the_depth_of_a_square_leg_is_its_width_unless_told_otherwise():
    assert square_leg(200, 60, 60).area_mm2_of == square_leg(200, 60).area_mm2_of


@pytest.mark.parametrize(
    ("height", "width", "depth", "foot"),
    [(400, 50, 50, 30), (400, 50, 40, 30), (400, 30, 45, 60), (400, 50, 40, 50), (7, 3, 1, 1)],
)
def test_tapered_faces_are_trapezia(height, width, depth, foot, check_mesh):
    foot_depth = foot * depth / width
    across = (width + foot) / 2 * math.hypot(height, (depth - foot_depth) / 2)
    along = (depth + foot_depth) / 2 * math.hypot(height, (width - foot) / 2)
    leg = tapered_leg(height, width, depth, foot=foot)
    expected = {
        "front": across,
        "back": across,
        "left": along,
        "right": along,
        "top": width * depth,
        "bottom": foot * foot_depth,
    }
    assert expected == pytest.approx(leg.area_mm2_of, rel=1e-12)  # rounding of two square roots
    top, bottom = width * depth, foot * foot_depth
    volume = height / 3 * (top + bottom + math.sqrt(top * bottom))
    check_mesh(leg, volume_mm3=volume)


def test_the_depth_of_a_tapered_leg_is_its_width_unless_told_otherwise():
    assert (
        tapered_leg(400, 50, 50, foot=30).area_mm2_of == tapered_leg(400, 50, foot=30).area_mm2_of
    )


def test_a_tapered_leg_is_centred_in_its_box():
    assert tapered_leg(400, 50, 40, foot=60).size_mm == (60.0, 48.0, 400.0)
    assert tapered_leg(400, 50, 40, foot=30).size_mm == (50.0, 40.0, 400.0)
    leg = tapered_leg(400, 50, 40, foot=30)
    foot = leg.vertices[leg.vertices[:, 2] == 0] / 80_000
    assert {(10.0, 8.0), (40.0, 8.0), (40.0, 32.0), (10.0, 32.0)} == {(x, y) for x, y, _ in foot}


def test_a_round_leg_is_a_cylinder():
    areas = round_leg(200, 60).area_mm2_of
    expected = {"side": math.pi * 60 * 200, "top": math.pi * 900, "bottom": math.pi * 900}
    assert expected == pytest.approx(areas, rel=1e-15)


@pytest.mark.parametrize("name", PROFILES)
def test_a_turned_side_is_a_sum_of_frustums(name):
    profile = PROFILES[name]
    areas = turned_leg(profile).area_mm2_of
    ends = {"top": profile[-1][1], "bottom": profile[0][1]}
    expected = {"side": side_area(profile)}
    expected |= {end: math.pi * d * d / 4 for end, d in ends.items() if d}
    assert expected == pytest.approx(areas, rel=1e-12)  # sums of a few rounded terms


@pytest.mark.parametrize("name", PROFILES)
def test_turned_mesh_is_closed_outward_and_of_the_stated_area(name, check_mesh):
    # the polygon has the circle's area, so the volume of the frustums is exact as well
    check_mesh(turned_leg(PROFILES[name]), volume_mm3=frustum_volume(PROFILES[name]))


@pytest.mark.parametrize("name", PROFILES)
def test_an_uncut_turned_face_is_exact(name):
    profile = PROFILES[name]
    shown = exposure([place("leg", turned_leg(profile), (17, -3, 40))])
    # 1e-12: the share of the face is a ratio of two rounded sums of 512 triangles
    assert side_area(profile) == pytest.approx(shown.areas_mm2["leg", "side"], rel=1e-12)


def test_a_round_face_stays_exact_when_something_else_is_cut():
    parts = [
        place("leg", round_leg(200, 60), (0, 0, 0)),
        place("top", turned_leg([[0, 200], [20, 200]]), (-70, -70, 200)),
    ]
    shown = exposure(parts)
    assert math.pi * 60 * 200 == pytest.approx(shown.areas_mm2["leg", "side"], rel=1e-12)


def test_cone_by_hand():
    # radius 4, height 8: slant sqrt(80), lateral area pi 4 sqrt(80) = 16 sqrt(5) pi
    cone = turned_leg([[0, 0], [8, 8]])
    assert 16 * math.sqrt(5) * math.pi == pytest.approx(cone.area_mm2_of["side"], rel=1e-15)
    assert cone.faces == ("side", "top")


def test_a_shoulder_belongs_to_the_side():
    stepped = turned_leg([[0, 20], [50, 20], [50, 60], [80, 60]])
    ring = math.pi * (30**2 - 10**2)
    walls = math.pi * (20 * 50 + 60 * 30)
    assert ring + walls == pytest.approx(stepped.area_mm2_of["side"], rel=1e-15)
    assert stepped.faces == TURNED_FACES


def test_a_shoulder_can_be_hidden_exactly():
    stepped = place("leg", turned_leg([[0, 60], [50, 60], [50, 20], [80, 20]]))
    bored = place("collar", turned_leg([[0, 60], [30, 60]]), (0, 0, 50))
    shown = exposure([stepped, bored])
    # 1e-9: the shoulder and the tenon are wholly inside or against the collar
    assert math.pi * 60 * 50 == pytest.approx(shown.areas_mm2["leg", "side"], rel=1e-9)
    assert pytest.approx(shown.areas_mm2["collar", "bottom"], abs=1e-6) == 0.0  # LEAST_PATCH_MM2


def test_the_box_of_a_turned_leg_is_as_wide_as_its_widest_point():
    assert turned_leg(VASE).size_mm == (56.0, 56.0, 360.0)


@pytest.mark.parametrize("name", ["height", "width", "depth"])
@pytest.mark.parametrize("value", [0, -3, 10_001, math.inf])
def test_square_sizes_out_of_range_are_refused(name, value, check_refused):
    sizes = {"height": 90, "width": 90, "depth": 90} | {name: value}
    check_refused(lambda: square_leg(**sizes), name, *_rule(value))


@pytest.mark.parametrize("name", ["height", "width", "depth", "foot"])
@pytest.mark.parametrize("value", [0, -3, 10_001, math.inf])
def test_tapered_sizes_out_of_range_are_refused(name, value, check_refused):
    sizes = {"height": 90, "width": 90, "depth": 90, "foot": 50} | {name: value}
    check_refused(lambda: tapered_leg(**sizes), name, *_rule(value))


def test_a_foot_whose_depth_would_pass_ten_metres_is_refused():
    with pytest.raises(ValueError, match="foot"):
        tapered_leg(100, 1, 10_000, foot=10)  # 100 m deep at the floor


@pytest.mark.parametrize("name", ["height", "width"])
@pytest.mark.parametrize("value", [0, -3, 10_001, math.inf])
def test_round_sizes_out_of_range_are_refused(name, value, check_refused):
    sizes = {"height": 90, "width": 90} | {name: value}
    check_refused(lambda: round_leg(**sizes), name, *_rule(value))


def _rule(value):
    rules = {0: "zero", -3: "zero", 10_001: "10 m", math.inf: "finite"}
    return rules[value], value, 10_000.0 if value == 10_001 else None


@pytest.mark.parametrize(
    ("profile", "rule"),
    [
        ([], "at least two points"),
        ([[0, 5]], "at least two points"),
        ([[0, 5], [5]], "pairs [height, diameter]: point 2"),
        ([[0, 5, 1], [5, 5]], "pairs [height, diameter]: point 1"),
        ([[1, 5], [5, 5]], "starts at height 0"),
        ([[0, 5], [0, 6]], "higher than 0 at its last point"),
        ([[0, 5], [9, 5], [8, 5], [10, 5]], "rising: point 3"),
        ([[0, 5], [9, 5], [9, 5], [10, 5]], "free of repeats: point 3"),
        ([[0, 5], [9, 5], [9, 6], [9, 7], [10, 5]], "two points at most at one height"),
        ([[0, 0], [9, 0]], "wider than 0 somewhere"),
        ([[0, 5], [9, 0], [10, 5]], "wider than 0 between its ends: point 2"),
    ],
)
def test_a_profile_that_breaks_a_rule_is_refused(profile, rule, check_refused):
    check_refused(lambda: turned_leg(profile), "profile", rule)


@pytest.mark.parametrize(
    ("point", "what", "rule", "value", "limit"),
    [
        ([-1, 5], "height", "0 or more", -1, None),
        ([math.inf, 5], "height", "a finite length", math.inf, None),
        ([10_001, 5], "height", "at most 10 m", 10_001, 10_000.0),
        ([9, -5], "diameter", "more than zero", -5, None),
        ([9, 1e-7], "diameter", "more than zero", 1e-7, None),
        ([9, math.inf], "diameter", "a finite length", math.inf, None),
        ([9, 10_001], "diameter", "at most 10 m", 10_001, 10_000.0),
    ],
)
def test_a_point_out_of_range_is_refused(point, what, rule, value, limit, check_refused):
    profile = [[0, 5], point]
    check_refused(lambda: turned_leg(profile), f"profile point 2 {what}", rule, value, limit)


def test_a_diameter_that_is_not_a_number_is_refused():
    with pytest.raises(ValueError, match="profile point 1 diameter must be a finite length"):
        turned_leg([[0, math.nan], [5, 5]])
