"""Spindles: Pappus in closed form and by quadrature, and curves that never overshoot."""

import itertools
import math

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.interpolate import CubicHermiteSpline

from shapes.errors import ShapeError
from shapes.exposure import exposure
from shapes.legs import turned_leg
from shapes.placement import place
from shapes.spindles import bun_foot, hermite, monotone_slopes, spindle

ROUNDING = 1e-12
"""Sums of a few hundred float64 terms."""
QUADRATURE = 1e-10
"""Promised of the area of a smooth side."""
VASE = [[0, 30], [10, 30], [10, 44], [60, 50], [120, 24], [300, 40], [300, 56], [360, 56]]
QUARTER = 1 - math.sqrt(0.5)
"""Rise of a quarter circle of radius 1."""


def test_straight_between_points_it_is_a_turned_leg():
    expected = turned_leg(VASE).area_mm2_of
    assert expected == pytest.approx(spindle(VASE, between="straight").area_mm2_of, rel=ROUNDING)


def test_smooth_between_points_of_one_line_is_straight():
    cone = [[0, 10], [100, 20], [300, 40]]
    expected = turned_leg(cone).area_mm2_of
    assert expected == pytest.approx(spindle(cone).area_mm2_of, rel=ROUNDING)


def test_beads_and_coves_are_the_halves_of_a_torus():
    # by the theorem of Pappus, R = 2, r = 1: outer half 52.0448, inner half 26.9120
    bead = spindle([[0, 4, 1], [2, 4]]).area_mm2_of["side"]
    cove = spindle([[0, 4, -1], [2, 4]]).area_mm2_of["side"]
    assert 2 * math.pi**2 * 2 + 4 * math.pi == pytest.approx(bead, rel=ROUNDING)
    assert 2 * math.pi**2 * 2 - 4 * math.pi == pytest.approx(cove, rel=ROUNDING)
    assert 8 * math.pi**2 == pytest.approx(bead + cove, rel=ROUNDING)


def test_two_quarter_arcs_are_a_sphere():
    ball = spindle([[0, 0, 25 * QUARTER], [25, 50, 25 * QUARTER], [50, 0]])
    assert {"side": 4 * math.pi * 625} == pytest.approx(ball.area_mm2_of, rel=ROUNDING)


@pytest.mark.parametrize("low", [-8, -3, 1])
def test_a_band_of_a_sphere_has_the_same_area_anywhere(low):
    """2 pi R h: R = 10, h = 4, 251.3274 (CRC Standard Mathematical Tables)."""
    ends = [2 * math.sqrt(100 - z * z) for z in (low, low + 4)]
    slope = (ends[1] - ends[0]) / 2
    chord = math.hypot(4, slope)
    rise = 10 - math.sqrt(100 - chord**2 / 4)
    side = spindle([[0, ends[0], rise], [4, ends[1]]]).area_mm2_of["side"]
    # 1e-6: the diameters fall between grid lines
    assert 80 * math.pi == pytest.approx(side, rel=1e-6)


def test_a_smooth_side_is_the_integral_of_pappus():
    """An adaptive rule on scipy's Hermite cubic with the same slopes."""
    points = [[0, 30], [80, 62], [200, 24], [300, 40]]
    z, r = np.array(points, dtype=float).T
    curve = CubicHermiteSpline(z, r / 2, monotone_slopes(z, r / 2))
    slope = curve.derivative()

    def pappus(height: float) -> float:
        return 2 * math.pi * float(curve(height)) * math.hypot(1, float(slope(height)))

    expected = sum(float(quad(pappus, a, b, epsrel=1e-12)[0]) for a, b in itertools.pairwise(z))
    assert expected == pytest.approx(spindle(points).area_mm2_of["side"], rel=QUADRATURE)


def test_smooth_curves_stay_between_their_points():
    rng = np.random.default_rng(5)
    for _ in range(200):
        at = np.cumsum(rng.uniform(1, 50, 7))
        values = rng.uniform(0, 60, 7).round(0)
        slopes = monotone_slopes(at, values)
        for k, length in enumerate(np.diff(at)):
            tangents = slopes[k] * length, slopes[k + 1] * length
            part = hermite(np.linspace(0, 1, 40), values[k], values[k + 1], *tangents)[0]
            # 1e-12: rounding of a cubic of numbers up to 60
            assert part.min() >= min(values[k : k + 2]) - 1e-12 * 60
            assert part.max() <= max(values[k : k + 2]) + 1e-12 * 60
            steps = np.diff(part) * np.sign(values[k + 1] - values[k])
            assert (steps >= -1e-12 * 60).all()


def test_slopes_meet_the_criterion_of_fritsch_and_carlson():
    at, values = np.array([0.0, 1, 2, 3, 4]), np.array([0.0, 1, 20, 20.5, 0])
    slopes, secants = monotone_slopes(at, values), np.diff(values) / np.diff(at)
    squares = (slopes[:-1] / secants) ** 2 + (slopes[1:] / secants) ** 2
    assert (squares <= 9 * (1 + ROUNDING)).all()
    assert slopes[3] == 0.0  # a greatest value
    # one of the limits is met, so the rule has worked on these values
    assert squares.max() == pytest.approx(9, rel=ROUNDING)


def test_a_shoulder_ends_a_smooth_curve():
    whole = spindle(VASE).area_mm2_of["side"]
    pieces = [VASE[0:2], VASE[2:6], VASE[6:8]]
    apart = sum(
        spindle([[z - piece[0][0], d] for z, d in piece]).area_mm2_of["side"] for piece in pieces
    )
    rings = math.pi * (22**2 - 15**2) + math.pi * (28**2 - 20**2)
    assert apart + rings == pytest.approx(whole, rel=ROUNDING)


def test_forms_can_be_mixed_point_by_point():
    mixed = spindle([[0, 40, "straight"], [50, 40, 5], [60, 40, "smooth"], [160, 40]])
    torus = 2 * math.pi**2 * 20 * 5 + 4 * math.pi * 25
    assert 150 * 40 * math.pi + torus == pytest.approx(mixed.area_mm2_of["side"], rel=ROUNDING)


def test_the_box_is_as_wide_as_the_crown_of_its_arcs():
    assert bun_foot(60, 90, neck=40).size_mm == (90.0, 90.0, 60.0)


def test_a_bun_foot_of_a_half_circle_is_the_outer_half_of_a_torus():
    side = bun_foot(60, 90, neck=30).area_mm2_of["side"]
    assert 2 * math.pi**2 * 15 * 30 + 4 * math.pi * 900 == pytest.approx(side, rel=ROUNDING)


def test_an_uncut_spindle_keeps_its_area_and_hides_its_head():
    foot = bun_foot(60, 90, neck=40)
    board = turned_leg([[0, 300], [20, 300]])
    seen = exposure([place("foot", foot), place("board", board, (-105, -105, 60))]).areas_mm2
    assert foot.area_mm2_of["side"] == pytest.approx(seen["foot", "side"], rel=ROUNDING)
    assert math.pi * (150**2 - 20**2) == pytest.approx(seen["board", "bottom"], rel=ROUNDING)


def test_a_cut_spindle_shows_what_stands_above_the_cut():
    """A quarter of its height stands in a board: the band of the sphere there is known."""
    ball = spindle([[0, 0, 25 * QUARTER], [25, 50, 25 * QUARTER], [50, 0]])
    slab = place("slab", turned_leg([[0, 200], [20, 200]]), (-75, -75, -7.5))
    seen = exposure([place("ball", ball), slab]).areas_mm2["ball", "side"]
    # 1e-4: as `shapes` promises of a curved face that is cut
    assert 2 * math.pi * 25 * 37.5 == pytest.approx(seen, abs=1e-4 * 4 * math.pi * 625)


@pytest.mark.parametrize(
    ("profile", "argument", "rule"),
    [
        ([[0, 5]], "profile", "at least two points"),
        ([[0, 5], [9, 5], [8, 5]], "profile", "rising"),
        ([[0, "smooth"], [9, 5]], "profile", "smooth is not a length"),
        ([[0, 5, "curly"], [9, 5]], "profile", "point 1"),
        ([[0, 5, "smooth", 1], [9, 5]], "profile", "point 1"),
        ([[0, 5, math.nan], [9, 5]], "profile point 1 rise", "finite"),
        ([[0, 5, -3], [9, 5]], "profile", "crosses a line or the axis"),
        ([[0, 50, 30], [9, 50]], "profile", "between its ends"),
        ([[0, 50, -9], [20, 40, 12], [40, 50]], "profile", "between its ends"),
    ],
)
def test_a_profile_that_breaks_a_rule_is_refused(profile, argument, rule):
    with pytest.raises(ShapeError) as caught:
        spindle(profile)
    assert argument == caught.value.argument
    assert rule in caught.value.rule


def test_an_unknown_default_is_refused():
    with pytest.raises(ShapeError) as caught:
        spindle([[0, 5], [9, 5]], between="wavy")
    assert caught.value.argument == "between"


@pytest.mark.parametrize(
    ("sizes", "argument"),
    [
        ((0, 90, 40), "height"),
        ((60, 0, 40), "width"),
        ((60, 90, 0), "neck"),
        ((60, 90, 90), "neck"),
        ((60, 101, 40), "width"),
    ],
)
def test_bun_feet_that_cannot_be_are_refused(sizes, argument):
    with pytest.raises(ShapeError) as caught:
        bun_foot(*sizes[:2], neck=sizes[2])
    assert argument == caught.value.argument
