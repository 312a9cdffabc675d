"""Shaped legs: flat sides by hand, round ones against cones and a general quadrature."""

import itertools
import math

import numpy as np
import pytest
from scipy.integrate import dblquad, quad
from scipy.interpolate import CubicHermiteSpline

from shapes.errors import ShapeError
from shapes.exposure import exposure
from shapes.legs import tapered_leg
from shapes.lofts import shaped_leg, shaped_round_leg
from shapes.placement import place
from shapes.spindles import monotone_slopes, spindle

ROUNDING = 1e-12
"""Sums of a few hundred float64 terms."""
CABRIOLE = [[0, 50, 50, 20, 0], [30, 28, 28, 10, 0], [120, 32, 32, 0, 3], [300, 60, 60, 18, -18]]


def test_two_centred_sections_are_a_tapered_leg():
    shaped = shaped_leg([[0, 30, 24], [400, 50, 40]])
    expected = tapered_leg(400, 50, 40, foot=30).area_mm2_of
    assert expected == pytest.approx(shaped.area_mm2_of, rel=ROUNDING)


def test_a_splayed_leg_has_slanted_sides_and_a_level_foot():
    areas = shaped_leg([[0, 30, 20, -40, 0], [400, 30, 20, 0, 0]]).area_mm2_of
    slant = math.hypot(400, 40)
    expected = {
        "front": 30 * 400, "back": 30 * 400, "left": 20 * slant, "right": 20 * slant,
        "top": 600, "bottom": 600,
    }  # fmt: skip
    assert expected == pytest.approx(areas, rel=ROUNDING)


def test_the_box_holds_every_section():
    assert shaped_leg(CABRIOLE).size_mm == (64.0, 73.0, 300.0)


def test_only_differences_of_offsets_count():
    moved = [[z, w, d, x + 7, y - 9] for z, w, d, x, y in CABRIOLE]
    assert shaped_leg(moved).vertices.tolist() == shaped_leg(CABRIOLE).vertices.tolist()


def test_a_section_on_the_way_changes_nothing():
    whole = shaped_leg([[0, 20, 20, 0, 0], [400, 40, 40, 20, 0]])
    cut = shaped_leg([[0, 20, 20, 0, 0], [100, 25, 25, 5, 0], [400, 40, 40, 20, 0]])
    assert whole.area_mm2_of == pytest.approx(cut.area_mm2_of, rel=ROUNDING)


def test_round_sections_one_above_the_other_are_frustums():
    areas = shaped_round_leg([[0, 20, 20], [300, 40, 40], [310, 40, 40]]).area_mm2_of
    expected = {
        "side": math.pi * 30 * math.hypot(300, 10) + math.pi * 400,
        "top": math.pi * 400,
        "bottom": math.pi * 100,
    }
    assert expected == pytest.approx(areas, rel=ROUNDING)


@pytest.mark.parametrize(
    "sections",
    [
        [[0, 20, 20, 0, 0], [300, 40, 40, 30, 0]],
        [[0, 30, 18, 10, 0], [200, 34, 30, 0, 5]],
        [[0, 10, 60, 0, 0], [300, 60, 20, 30, 50]],
    ],
)
def test_a_round_side_is_the_integral_of_the_ruled_surface(sections):
    """Written anew and integrated by an adaptive rule, whose own error is asked to be 1e-9."""
    (_, *low), (height, *high) = sections

    def density(s, t):
        width, depth, _, _ = [(1 - s) * a + s * b for a, b in zip(low, high, strict=True)]
        growth = [b - a for a, b in zip(low, high, strict=True)]
        along = (-width / 2 * math.sin(t), depth / 2 * math.cos(t), 0.0)
        up = (
            growth[2] + growth[0] / 2 * math.cos(t),
            growth[3] + growth[1] / 2 * math.sin(t),
            height,
        )
        return float(np.linalg.norm(np.cross(along, up)))

    quarters = [
        dblquad(density, k * math.pi / 2, (k + 1) * math.pi / 2, 0, 1, epsabs=0, epsrel=1e-9)[0]
        for k in range(4)
    ]
    side = shaped_round_leg(sections).area_mm2_of["side"]
    assert sum(quarters) == pytest.approx(side, rel=1e-9)


def test_a_smooth_leg_has_its_given_sections():
    given, smooth = (
        {tuple(corner) for corner in ((v - v[0]) / 80_000).round(6) + 0.0}
        for v in (shaped_leg(CABRIOLE).vertices, shaped_leg(CABRIOLE, smooth=True).vertices)
    )
    assert given < smooth


def test_a_smooth_leg_never_overshoots():
    levels = shaped_leg(CABRIOLE, smooth=True).vertices.reshape(-1, 4, 3) / 80_000
    widths = levels[:, 1, 0] - levels[:, 0, 0]
    assert (widths >= 28 - 1e-9).all()  # rounding of a cubic of numbers up to 100
    assert (widths <= 60 + 1e-9).all()
    assert (np.diff(widths[:33]) <= 1e-9).all()  # from 50 down to 28
    assert (np.diff(widths[32:]) >= -1e-9).all()  # and up again


@pytest.mark.parametrize("shape", [shaped_leg, shaped_round_leg])
def test_straight_sections_stay_straight_when_smooth(shape):
    sections = [[0, 20, 20, 0, 0], [100, 25, 25, 5, 0], [400, 40, 40, 20, 0]]
    expected = shape(sections).area_mm2_of
    assert expected == pytest.approx(shape(sections, smooth=True).area_mm2_of, rel=1e-9)


def test_a_smooth_side_is_the_integral_of_width_along_the_curve():
    """Written anew with a cubic of another library, its slopes given, and an adaptive rule."""
    at = np.array([section[0] for section in CABRIOLE], dtype=float)
    width, depth, _, y = (
        CubicHermiteSpline(at, column, monotone_slopes(at, column))
        for column in np.array(CABRIOLE, dtype=float)[:, 1:].T
    )
    found = shaped_leg(CABRIOLE, smooth=True).area_mm2_of
    for face, sign in (("front", -1), ("back", 1)):

        def density(z: float, sign: int = sign) -> float:
            return float(width(z) * math.hypot(1, y(z, 1) + sign * depth(z, 1) / 2))

        pairs = itertools.pairwise(at.tolist())
        expected = sum(float(quad(density, *pair, epsrel=1e-12)[0]) for pair in pairs)
        assert expected == pytest.approx(found[face], rel=1e-10)


def test_a_smooth_round_leg_of_circles_is_a_spindle():
    sections = [[0, 20, 20], [120, 44, 44], [300, 30, 30], [400, 36, 36]]
    turned = spindle([[height, width] for height, width, _ in sections])
    found = shaped_round_leg(sections, smooth=True).area_mm2_of
    assert turned.area_mm2_of == pytest.approx(found, rel=1e-10)


def test_a_board_over_a_shaped_leg_loses_the_leg_s_head():
    leg = place("leg", shaped_leg(CABRIOLE), (10, 10, 0))
    seen = exposure([leg, place("top", shaped_leg([[0, 300, 200], [20, 300, 200]]), (0, 0, 300))])
    assert 300 * 200 - 60 * 60 == pytest.approx(seen.areas_mm2["top", "bottom"], rel=ROUNDING)


@pytest.mark.parametrize("shape", [shaped_leg, shaped_round_leg])
@pytest.mark.parametrize(
    ("sections", "argument", "rule"),
    [
        ([[0, 20, 20]], "sections", "at least two"),
        ([[0, 20, 20], [9, 20]], "sections", "section 2"),
        ([[0, 20, 20, 5], [9, 20, 20]], "sections", "section 1"),
        ([[5, 20, 20], [9, 20, 20]], "sections", "starts at height 0"),
        ([[0, 20, 20], [9, 20, 20], [5, 20, 20]], "sections", "section 3 is not above"),
        ([[0, 20, 20], [0, 30, 30]], "sections", "section 2 is not above"),
        ([[0, 20, 20], [9, 0, 20]], "section 2 width", "more than zero"),
        ([[0, 20, -1], [9, 20, 20]], "section 1 depth", "more than zero"),
        ([[0, 20, 20], [9, 20, 20, math.nan, 0]], "section 2 offset x", "finite"),
    ],
)
def test_sections_that_break_a_rule_are_refused(shape, sections, argument, rule):
    with pytest.raises(ShapeError) as caught:
        shape(sections)
    assert argument == caught.value.argument
    assert rule in caught.value.rule
