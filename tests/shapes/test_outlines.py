"""Outlines: lengths, areas and moments of lines, arcs and ovals, against closed forms."""

import math

import numpy as np
import pytest
from scipy.special import ellipe

from shapes.errors import ShapeError
from shapes.outlines import circle, moved, oval, polygon, rounded_rectangle

MM = 80_000
ROUNDING = 1e-12
"""Sums of a few hundred float64 terms."""
HALF = [[0, 0, 50], [0, 100]]  # a half disc of radius 50, bulging to the right
LENS = [[0, 0, 10], [0, 100, 10]]
SQUARE = [[0, 0], [60, 0], [60, 60], [0, 60]]


def shoelace(ring):
    x, y = ring.points.T
    return float(x @ np.roll(y, -1) - y @ np.roll(x, -1)) / 2


SPECIMENS = {
    "square": lambda: polygon(SQUARE),
    "half disc": lambda: polygon([[0, 0, 50], [0, 100]]),
    "lens": lambda: polygon(LENS),
    "bite": lambda: polygon([[0, 0], [60, 0, -20], [60, 60], [0, 60]]),
    "most of a circle": lambda: polygon([[0, 0, 40], [20, 0], [10, -5]][::-1]),
    "circle": lambda: circle(37),
    "oval": lambda: oval(100, 30),
    "flat oval": lambda: oval(500, 3),
    "rounded": lambda: rounded_rectangle(100, 60, radius=12),
    "stadium": lambda: rounded_rectangle(100, 60, radius=30),
}


@pytest.mark.parametrize("name", SPECIMENS)
def test_the_polygon_encloses_the_true_area(name):
    ring = SPECIMENS[name]()
    assert ring.area > 0
    assert ring.area == pytest.approx(shoelace(ring), rel=ROUNDING)


@pytest.mark.parametrize("name", SPECIMENS)
def test_lengths_and_moments_are_near_those_of_the_polygon(name):
    """A polygon of 256 sides is off by 2.5e-5 of a circle, and by more at the ends of an oval."""
    ring = SPECIMENS[name]()
    after = np.roll(ring.points, -1, axis=0)
    chords = np.linalg.norm(after - ring.points, axis=1)
    assert ring.lengths.sum() == pytest.approx(chords.sum(), rel=2e-4)
    moments = ((after + ring.points) / 2 * chords[:, None]).sum(axis=0)
    scale = chords.sum() * np.abs(ring.points).max()
    assert ring.moments.sum(axis=0) == pytest.approx(moments, abs=2e-4 * scale)


def test_a_wide_arc_has_sides_near_it():
    """A bow of 1 m in radius: no side is further from it than 0.02 mm at its middle."""
    ring = polygon([[0, 0, 31.25], [500, 0], [500, 300], [0, 300]])
    radius = (500 * 500 / 4 + 31.25**2) / (2 * 31.25)
    bow = ring.points[ring.is_curved] / 80_000
    middles = (bow[1:-1] + bow[2:]) / 2
    away = np.hypot(middles[:, 0] - 250, middles[:, 1] - (radius - 31.25)) - radius
    assert np.abs(away).max() < 0.02


@pytest.mark.parametrize("name", ["circle", "oval", "rounded", "stadium", "half disc", "bite"])
def test_the_polygon_keeps_inside_the_true_box(name):
    ring = SPECIMENS[name]()
    assert (ring.points.min(axis=0) >= ring.box[0] - 1e-3).all()  # 1e-3 grid units of rounding
    assert (ring.points.max(axis=0) <= ring.box[1] + 1e-3).all()


def test_straight_outlines_are_exact():
    ring = polygon([[0, 0], [30, 0], [30, 40]])
    assert [30 * MM, 40 * MM, 50 * MM] == ring.lengths.tolist()
    assert 600 * MM**2 == ring.area
    assert not ring.is_curved.any()


def test_the_direction_round_does_not_matter():
    points = [[0, 0], [60, 0, 10], [60, 60], [0, 60, -5]]
    backwards = [[0, 60], [60, 60, 10], [60, 0], [0, 0, -5]]
    one, other = polygon(points), polygon(backwards)
    assert one.area == pytest.approx(other.area, rel=ROUNDING)
    assert one.length_mm == pytest.approx(other.length_mm, rel=ROUNDING)


def test_a_half_disc_has_half_a_circle_of_edge_and_its_centroid():
    ring = polygon(HALF)
    assert 50 * math.pi + 100 == pytest.approx(ring.length_mm, rel=ROUNDING)
    assert math.pi * 1250 * MM**2 == pytest.approx(ring.area, rel=ROUNDING)
    # the arc's centroid stands at 2 r / pi from the diameter; the diameter itself adds nothing
    assert 50 * math.pi * (2 * 50 / math.pi) * MM**2 == pytest.approx(
        ring.moments[:, 0].sum(), rel=ROUNDING
    )


def test_rise_below_zero_goes_into_the_wood():
    bitten = polygon([[0, 0], [60, 0, -30], [60, 60], [0, 60]])
    assert (3600 - math.pi * 450) * MM**2 == pytest.approx(bitten.area, rel=ROUNDING)


def test_more_than_half_a_circle_can_stand_out():
    # chord 60, rise 90: radius 50, angle 2 (pi - asin 0.6)
    ring = polygon([[0, 0], [60, 0, 90], [60, 60], [0, 60]])
    angle = 2 * (math.pi - math.asin(0.6))
    assert 180 + 50 * angle == pytest.approx(ring.length_mm, rel=ROUNDING)
    assert (50 + 40 + 60) * MM == pytest.approx(ring.box[1][0], rel=ROUNDING)


@pytest.mark.parametrize(("a", "b"), [(20, 10), (100, 99), (500, 3), (7, 70)])
def test_the_perimeter_of_an_oval_is_the_complete_elliptic_integral(a, b):
    longer, shorter = max(a, b), min(a, b)
    expected = 2 * longer * ellipe(1 - (shorter / longer) ** 2)
    # 1e-14: both are good to the last digits of float64
    assert expected == pytest.approx(oval(a, b).length_mm, rel=1e-14)


def test_oval_edges_share_the_perimeter_as_the_incomplete_integral_does():
    from scipy.special import ellipeinc

    ring = oval(200, 60)
    angles = (np.arange(257) + 0.5) * 2 * math.pi / 256
    # from the end of the short axis: length a E(angle, m) with m = 1 - (b / a)2
    ends = 100 * ellipeinc(angles + math.pi / 2, 1 - 0.3**2)
    # 1e-10: differences of numbers a hundred times as large
    assert np.diff(ends) * MM == pytest.approx(ring.lengths, rel=1e-10)


def test_a_circle_is_an_oval_of_equal_axes():
    assert math.pi * 30 == pytest.approx(circle(30).length_mm, rel=ROUNDING)
    assert (circle(30, centre=(5, 7)).box / MM).tolist() == [[-10, -8], [20, 22]]


def test_a_rounded_rectangle_has_one_circle_in_its_corners():
    ring = rounded_rectangle(100, 60, radius=10, corner=(3, 4))
    assert 320 - 80 + 20 * math.pi == pytest.approx(ring.length_mm, rel=ROUNDING)
    assert (6000 - 400 + 100 * math.pi) * MM**2 == pytest.approx(ring.area, rel=ROUNDING)
    assert (ring.box / MM).ravel() == pytest.approx([3, 4, 103, 64], abs=1e-9)  # mm


def test_a_stadium_is_two_half_circles_and_two_lines():
    ring = rounded_rectangle(100, 60, radius=30)
    assert 80 + 60 * math.pi == pytest.approx(ring.length_mm, rel=ROUNDING)


def test_moving_changes_no_length():
    ring, there = polygon(HALF), moved(polygon(HALF), (7.0, -3.0))
    assert ring.lengths.tolist() == there.lengths.tolist()
    shift = np.array([7.0, -3.0]) * ring.lengths.sum()
    assert ring.moments.sum(0) + shift == pytest.approx(there.moments.sum(0), rel=ROUNDING)


@pytest.mark.parametrize(
    ("points", "rule"),
    [
        ([], "at least three points"),
        ([[0, 0], [5, 5]], "at least three points"),
        ([[0, 0], [9, 0], [9]], "[x, y] or [x, y, rise]: point 3"),
        ([[0, 0], [9, 0], [9, 0], [0, 9]], "free of repeats: point 2"),
        ([[0, 0], [9, 0], [9, 9], [0, 0]], "free of repeats: point 4"),
        ([[0, 0], [9, 9], [9, 0], [0, 9]], "free of crossings"),
        ([[0, 0], [9, 0], [20, 0]], "free of crossings"),
        ([[0, 0], [60, 0, -40], [60, 60], [40, 60], [40, 30], [0, 60]], "free of crossings"),
        ([[0, 0, -10], [0, 100, 5]], "free of crossings"),
    ],
)
def test_an_outline_that_breaks_a_rule_is_refused(points, rule):
    with pytest.raises(ShapeError) as caught:
        polygon(points)
    assert caught.value.argument == "outline"
    assert rule in caught.value.rule


@pytest.mark.parametrize("value", [math.inf, math.nan, 10_001])
def test_a_point_or_a_rise_out_of_range_is_refused(value):
    with pytest.raises(ShapeError, match="outline point 2"):
        polygon([[0, 0], [9, value], [9, 9]])
    with pytest.raises(ShapeError, match="outline point 1 rise"):
        polygon([[0, 0, value], [9, 0], [9, 9]])


@pytest.mark.parametrize(
    ("call", "argument"),
    [
        (lambda: oval(0, 5), "width"),
        (lambda: oval(5, -1), "height"),
        (lambda: oval(5, 5, centre=(math.nan, 0)), "centre"),
        (lambda: circle(0), "diameter"),
        (lambda: rounded_rectangle(100, 60, radius=31), "radius"),
        (lambda: rounded_rectangle(50, 60, radius=26), "radius"),
        (lambda: rounded_rectangle(50, 60, radius=0), "radius"),
    ],
)
def test_sizes_out_of_range_are_refused(call, argument):
    with pytest.raises(ShapeError) as caught:
        call()
    assert argument == caught.value.argument
