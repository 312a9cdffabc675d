"""Round parts in round holes, with play: closed and open by the gap, as flat faces are.

The areas are those of cylinders: what is closed is pi times the diameter times the length, on the
tenon and on the hole each by its own diameter.
"""

from math import cos, pi

import pytest

from shapes.boards import board
from shapes.exposure import exposure
from shapes.legs import round_leg, turned_leg
from shapes.outline_boards import outline_board
from shapes.outlines import circle
from shapes.placement import place

HOLE, THICK, LENGTH, INSIDE = 30, 25, 400, 18
CLOSE = 1e-5
"""Facets of 1/256 of a turn, whose planes are laid onto each other: some 1e-6 of the areas."""


def stool(play, gap=1.0, seat_name="seat", off=0.0, hole=HOLE):
    """A leg whose end is 18 mm deep in a hole of a seat, with play all around."""
    across = hole - 2 * play
    sheet = [[0, 0], [200, 0], [200, 200], [0, 200]]
    seat = outline_board(sheet, THICK, holes=[circle(hole, centre=(100, 100))])
    leg = turned_leg([[0, across], [LENGTH, across]])
    corner = 100 - across / 2 + off
    return exposure(
        [place(seat_name, seat, (0, 0, LENGTH - INSIDE)), place("leg", leg, (corner, corner, 0))],
        gap=gap,
    )


@pytest.mark.parametrize("name", ["seat", "a seat"])
@pytest.mark.parametrize("play", [0.1, 0.4, 0.9])
def test_play_under_the_gap_closes_both_faces_by_their_own_area(play, name):
    seen = stool(play, seat_name=name)
    across = HOLE - 2 * play
    leg, hole = pi * across * (LENGTH - INSIDE), pi * HOLE * (THICK - INSIDE)
    assert leg == pytest.approx(seen.areas_mm2["leg", "side"], rel=CLOSE)
    assert hole == pytest.approx(seen.areas_mm2[name, "hole"], rel=1e-4)
    (air,) = seen.closed
    assert {air.face, air.other} == {("leg", "side"), (name, "hole")}
    assert air.distance_mm == pytest.approx(play, abs=0.01)
    assert pi * across * INSIDE == pytest.approx(air.area_mm2, rel=1e-4)
    assert seen.gaps == ()


@pytest.mark.parametrize("play", [1.1, 3.0, 4.9])
def test_wider_play_stays_exposed_and_is_listed(play):
    seen = stool(play)
    across = HOLE - 2 * play
    assert pi * across * LENGTH == pytest.approx(seen.areas_mm2["leg", "side"], rel=CLOSE)
    assert pi * HOLE * THICK == pytest.approx(seen.areas_mm2["seat", "hole"], rel=CLOSE)
    (air,) = seen.gaps
    assert air.distance_mm == pytest.approx(play, abs=0.01)
    assert seen.closed == ()


def test_play_of_more_than_five_millimetres_is_not_listed():
    seen = stool(5.1)
    assert (seen.closed, seen.gaps) == ((), ())


def test_the_air_between_round_parts_is_told_to_a_hundredth():
    (found,) = stool(0.437).closed
    assert pytest.approx(0.437, abs=0.01) == found.distance_mm
    assert round(found.distance_mm, 2) == found.distance_mm


@pytest.mark.parametrize("gap", [0.0, 0.3, 0.5, 5.0])
def test_the_gap_of_the_piece_decides(gap):
    seen = stool(0.4, gap=gap)
    length = LENGTH - INSIDE if gap > 0.4 else LENGTH
    assert pi * 29.2 * length == pytest.approx(seen.areas_mm2["leg", "side"], rel=CLOSE)


def test_a_tenon_out_of_the_middle_is_closed_where_it_is_near():
    """Moved towards a side by 0.8 of 1 mm of play: under 1 mm of air on a little more than half.

    The air at an angle from that side is 1 - 0.8 cos(angle), but for a thousandth.
    """
    seen = stool(1.0, off=0.8 / 2**0.5)
    closed = pi * 28 * LENGTH - seen.areas_mm2["leg", "side"]
    assert closed == pytest.approx(pi * 28 * INSIDE / 2, rel=0.03)
    assert len(seen.closed) == len(seen.gaps) == 1


def test_a_tenon_that_fills_its_hole_is_as_before():
    seen = stool(0.0)
    assert pi * HOLE * (LENGTH - INSIDE) == pytest.approx(seen.areas_mm2["leg", "side"], rel=CLOSE)
    assert (seen.closed, seen.gaps) == ((), ())


def test_round_legs_side_by_side_close_where_they_nearly_touch():
    """Two legs of 40 mm, 0.2 mm apart: the air grows to 1 mm at 0.8 = 40 (1 - cos(angle))."""
    legs = [place(name, round_leg(300, 40), (x, 0, 0)) for name, x in (("a", 0), ("b", 40.2))]
    seen = exposure(legs)
    angle = next(k / 1000 for k in range(1, 1600) if 0.2 + 40 * (1 - cos(k / 1000)) >= 1)
    closed = pi * 40 * 300 - seen.areas_mm2["a", "side"]
    # laid onto each other along the normals, not along the line between the legs
    assert closed == pytest.approx(2 * 20 * angle * 300, rel=0.1)


def test_round_parts_far_apart_and_flat_ones_near_keep_their_areas():
    legs = [place(name, round_leg(300, 40), (x, 0, 0)) for name, x in (("a", 0), ("b", 60))]
    seen = exposure([*legs, place("rail", board(200, 18, 60), (0, 40.5, 100))])
    assert pi * 40 * 300 == pytest.approx(seen.areas_mm2["a", "side"], rel=CLOSE)
    assert (seen.closed, seen.gaps) == ((), ())
