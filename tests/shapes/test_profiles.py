"""Profiles: girths against closed forms, and what makes a profile."""

import math

import pytest

from shapes.errors import ShapeError
from shapes.profiles import (
    bead,
    chamfer,
    cove,
    edge_of,
    flipped,
    girth,
    ogee,
    quarter_round,
    section,
    stacked,
    stood_out,
)

ROUNDING = 1e-12
"""Sums of a few dozen float64 terms."""


@pytest.mark.parametrize(
    ("profile", "expected"),
    [
        (chamfer(30, 40), 50.0),
        (quarter_round(20), 10 * math.pi),
        (cove(20), 10 * math.pi),
        (bead(20), 10 * math.pi),
        (ogee(20, 20), 10 * math.pi),  # two quarter circles of radius 10
    ],
)
def test_girths_are_those_of_quarter_circles_and_lines(profile, expected):
    assert expected == pytest.approx(girth(profile), rel=ROUNDING)
    assert expected == pytest.approx(girth(flipped(profile)), rel=ROUNDING)


@pytest.mark.parametrize(("depth", "height"), [(10, 30), (30, 10), (18, 24)])
def test_an_ogee_of_any_proportion_keeps_inside_its_box(depth, height):
    cut = section(ogee(depth, height))
    assert cut.reach == pytest.approx(depth * 80_000, rel=ROUNDING)
    # each arc turns by twice the angle between its chord and the nearer side of the box
    half = math.atan(min(depth, height) / max(depth, height))
    expected = math.hypot(depth, height) / math.sin(half) * half
    assert expected == pytest.approx(girth(ogee(depth, height)), rel=ROUNDING)


def test_round_and_hollow_share_the_square():
    whole = section(quarter_round(20)).ring.area + section(cove(20)).ring.area
    assert 400 * 80_000**2 == pytest.approx(whole, rel=ROUNDING)


def test_a_section_names_its_sides_and_leaves_out_those_of_no_width():
    assert set(section(chamfer(3, 4)).names) == {"face", "back", "bottom"}
    assert set(section(flipped(chamfer(3, 4))).names) == {"face", "back", "top"}
    assert set(section(bead(8)).names) == {"face", "back"}
    assert set(section([[3, 0], [4, 9]]).names) == {"face", "back", "top", "bottom"}


def test_stacking_adds_girths_and_steps():
    base = stacked([[30, 0], [30, 40]], ogee(20, 20))
    assert 40 + 10 + 10 * math.pi == pytest.approx(girth(base), rel=ROUNDING)
    level = stacked([[20, 0], [20, 40]], ogee(20, 20))
    assert 40 + 10 * math.pi == pytest.approx(girth(level), rel=ROUNDING)


def test_standing_out_changes_the_girth_of_nothing():
    assert girth(stood_out(ogee(20, 20), 5)) == pytest.approx(girth(ogee(20, 20)), rel=ROUNDING)


def test_turning_upside_down_twice_changes_nothing():
    profile = stacked(ogee(20, 20), [[0.5, 0], [0.5, 3]])
    assert [pytest.approx(point, abs=1e-12) for point in profile] == flipped(flipped(profile))


def test_an_edge_is_square_below_its_profile():
    assert 12 + 4 * math.pi == pytest.approx(girth(edge_of(quarter_round(8), 20)), rel=ROUNDING)
    assert edge_of(quarter_round(8), 8) == quarter_round(8)


@pytest.mark.parametrize(
    ("profile", "rule"),
    [
        ([], "at least two points"),
        ([[3, 0]], "at least two points"),
        ([[3], [0, 4]], "points [out, up]"),
        ([[3, 1], [0, 4]], "starts at height 0"),
        ([[3, 0], [0, 0]], "higher than 0"),
        ([[0, 0], [0, 9]], "at least three points"),
        ([[9, 0], [9, 12], [0, 10]], "between its foot and its top"),
        ([[9, 0, 30], [9, 10]], "between its foot and its top"),
        ([[3, 0], [-2, 5], [3, 10]], "in front of its back"),
        ([[3, 0, -4], [3, 10]], "free of crossings"),
        ([[9, 0], [0, 5], [9, 10]], "free of crossings"),
    ],
)
def test_a_profile_that_breaks_a_rule_is_refused(profile, rule):
    with pytest.raises(ShapeError) as caught:
        section(profile)
    assert caught.value.argument == "profile"
    assert rule in caught.value.rule


@pytest.mark.parametrize(
    ("call", "argument"),
    [
        (lambda: chamfer(0, 4), "depth"),
        (lambda: ogee(4, -1), "height"),
        (lambda: cove(0), "radius"),
        (lambda: quarter_round(math.inf), "radius"),
        (lambda: bead(0), "diameter"),
        (lambda: edge_of(cove(20), 19), "profile"),
        (lambda: edge_of(bead(10), 19), "profile"),
    ],
)
def test_what_is_wrong_is_named(call, argument):
    with pytest.raises(ShapeError) as caught:
        call()
    assert argument == caught.value.argument
