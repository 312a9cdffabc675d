"""Areas of turned shapes against textbooks and lecture notes.

Sources:
* torus of radii R and r: 4 pi^2 R r, and R = 2, r = 1: 8 pi^2, Rutgers University, lecture notes of
  MA251 (fall 2003), "Torus"
* cone r = 4, h = 8: 16 sqrt(5) pi, Calculus Demystified, example 8.24, p. 246
* zone of a sphere 2 pi R h, CRC Standard Mathematical Tables, 28th edition, p. 130
* first theorem of Pappus, and the centroid of a semicircular arc 2 r / pi from its diameter: CRC
  Concise Encyclopedia of Mathematics, "Pappus's Centroid Theorem"
* side of a frustum pi (r1 + r2) l, of a cylinder 2 pi r h, and a sphere 4 pi r^2: the same tables.

Adapted: a profile has one diameter for each height and starts at height 0. So a torus is turned in
two pieces, its outer half (a bead) and its inner half (a cove), each as tall as the ring is thick,
and only their sides are added. Round profiles are straight between 401 points, and pieces are 100
times as large as printed, so that rounding to the grid does not show.
"""

import math

import pytest

from shapes.legs import round_leg, turned_leg

LARGER = 100.0
SPANS = 400
MANY_POINTS = 1e-4
"""Of areas of round profiles: 400 chords fall short of an arc by (pi / 400)^2 / 24 = 3e-6, and the
printed values have five digits."""
ROUNDING = 1e-6
"""Of straight profiles: lengths that the grid holds exactly, and seven printed digits."""


def side(profile):
    """Return the area of the side, in the units of the source."""
    mm = [(height * LARGER, round(2 * radius * LARGER, 9)) for height, radius in profile]
    return turned_leg(mm).area_mm2_of["side"] / LARGER**2


def half_ring(ring, tube, sign):
    """Return the profile of a bead (sign 1) or a cove (sign -1), by equal angles."""
    angles = [math.pi * number / SPANS for number in range(SPANS + 1)]
    return [(tube - tube * math.cos(a), ring + sign * tube * math.sin(a)) for a in angles]


def band(radius, start, height):
    """Return the profile of a sphere's band that begins `start` above its centre."""
    levels = [height * number / SPANS for number in range(SPANS + 1)]
    return [(z, math.sqrt(radius**2 - (start + z) ** 2)) for z in levels]


def test_cone_of_a_calculus_textbook():
    expected = 16 * math.sqrt(5) * math.pi
    assert expected == pytest.approx(112.397, abs=5e-4)  # as printed, three decimals
    # 1e-12: the grid holds 4 and 8 exactly, the rest is a square root and a product
    assert expected == pytest.approx(side([(0, 0), (8, 4)]), rel=1e-12)
    assert expected == pytest.approx(side([(0, 4), (8, 0)]), rel=1e-12)  # either way up


def test_frustum_of_whole_numbers():
    """Radii 5 and 8 and slant 5, so 4 high: pi (5 + 8) 5."""
    assert 204.2035 == pytest.approx(side([(0, 8), (4, 5)]), rel=ROUNDING)


@pytest.mark.parametrize(("ring", "expected"), [(4, 16 * math.pi**2), (2, 8 * math.pi**2)])
def test_both_halves_of_a_torus_make_the_published_whole(ring, expected):
    bead, cove = side(half_ring(ring, 1, 1)), side(half_ring(ring, 1, -1))
    assert expected == pytest.approx(bead + cove, rel=MANY_POINTS)


def test_outer_half_of_a_torus_is_more_than_half():
    """By Pappus: half an arc, pi r, round the circle of its centroid, R + 2 r / pi or R - 2 r / pi.

    So 2 pi^2 R r + 4 pi r^2 for the bead, and the same with a minus for the cove.
    """
    bead, cove = side(half_ring(2, 1, 1)), side(half_ring(2, 1, -1))
    assert math.pi * 2 * math.pi * (2 + 2 / math.pi) == pytest.approx(bead, rel=MANY_POINTS)
    assert math.pi * 2 * math.pi * (2 - 2 / math.pi) == pytest.approx(cove, rel=MANY_POINTS)
    assert (52.0448, 26.9120) == pytest.approx((bead, cove), rel=MANY_POINTS)


@pytest.mark.parametrize("start", [-9, -6, -2, 0, 3, 5])
def test_band_of_a_sphere_is_as_large_wherever_it_is_cut(start):
    """R = 10 and 4 high: 2 pi R h = 251.3274, without the discs at its ends."""
    assert 2 * math.pi * 10 * 4 == pytest.approx(side(band(10, start, 4)), rel=MANY_POINTS)
    assert 251.3274 == pytest.approx(side(band(10, start, 4)), rel=MANY_POINTS)


def test_whole_sphere():
    """4 pi r^2; a torus whose ring has no radius is its outer half."""
    assert 4 * math.pi == pytest.approx(side(half_ring(0, 1, 1)), rel=MANY_POINTS)


def test_a_frustum_of_equal_ends_is_a_cylinder():
    expected = 2 * math.pi * 3 * 7
    assert expected == pytest.approx(side([(0, 3), (7, 3)]), rel=1e-12)  # products only
    assert expected == pytest.approx(round_leg(7, 6).area_mm2_of["side"], rel=1e-12)


def test_a_frustum_that_ends_in_a_point_is_a_cone():
    """The last five micrometres of its tip are less than 1e-9 of it."""
    nearly = side([(0, 4), (8, 0.0005 / LARGER)])
    # 2e-6: what is cut off its tip in slant, and what its end adds in radius
    assert 16 * math.sqrt(5) * math.pi == pytest.approx(nearly, rel=2e-6)
