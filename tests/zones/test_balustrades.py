"""Rows of spindles count three times the flat side of the row, worked out by hand.

G. D. Armstrong, Cyclopedia of Painting (1908), p. 127. The widest gap, 150 mm, is assumed.
"""

import pytest
from piece_texts import measured, piece_text

from surfacecalc.zones.areas import ZoneArea
from surfacecalc.zones.balustrades import flat_sides_mm2

ROUNDED = 1e-9
"""Sums of a few float64 products."""
IN_MM = 25.4


def zone_of(*parts: dict, **zone: object) -> ZoneArea:
    return measured(piece_text({"do": "dust off"}, part=list(parts), zone=zone)).measured.zones[0]


def sticks(count: int, apart_mm: float, side_mm: float = 20, **keys: object) -> dict:
    """Return square sticks 700 mm high in a row."""
    return {
        "name": "stick", "shape": "board", "width": side_mm, "depth": side_mm, "height": 700,
        "row": {"of": count, "apart": [apart_mm, 0, 0]}, **keys,
    }  # fmt: skip


def girth_rule_m2(count: int, side_mm: float = 20) -> float:
    """Return what as many sticks count one by one: 6 in around."""
    return count * 6 * IN_MM * 700e-6


def test_a_row_of_sticks_counts_three_times_its_flat_side() -> None:
    """Four sticks 100 mm apart: 320 mm of row, 700 mm high."""
    zone = zone_of(sticks(4, 100))
    assert zone.labour_m2 == pytest.approx(3 * 0.320 * 0.700, rel=ROUNDED)


def test_a_row_across_and_a_row_of_rungs_count_alike() -> None:
    back = sticks(4, 100, row={"of": 4, "apart": [0, 100, 0]})
    rungs = {
        "name": "rung", "shape": "board", "width": 700, "depth": 20, "height": 20,
        "row": {"of": 4, "apart": [0, 0, 100]},
    }  # fmt: skip
    for parts in (back, rungs):
        assert zone_of(parts).labour_m2 == pytest.approx(3 * 0.320 * 0.700, rel=ROUNDED)


@pytest.mark.parametrize(
    ("apart", "row_mm"),
    [
        ([100, 0, 0], 3 * 100 + 30),
        ([0, 100, 0], 3 * 100 + 12),
        ([0, -100, 0], 3 * 100 + 12),
        ([60, 80, 0], 3 * 100 + 12),  # askew, and more backwards than sideways
    ],
)
def test_flat_sticks_are_as_broad_as_they_are_along_their_row(
    apart: list[float], row_mm: float
) -> None:
    """Four sticks 30 mm wide and 12 mm deep: the last one's breadth ends the row."""
    zone = zone_of(sticks(4, 0, width=30, depth=12, row={"of": 4, "apart": apart}))
    assert zone.labour_m2 == pytest.approx(3 * 0.700 * row_mm / 1e3, rel=ROUNDED)


@pytest.mark.parametrize(
    ("count", "apart_mm", "is_one"),
    [(3, 170, True), (3, 171, False), (2, 100, False), (3, 100, True)],
)
def test_two_sticks_or_sticks_far_apart_are_single_ones(
    count: int, apart_mm: float, is_one: bool
) -> None:
    """150 mm between them, 20 mm wide: 170 mm from one to the next."""
    by_row_m2 = 3 * 0.700 * ((count - 1) * apart_mm + 20) / 1000
    expected = by_row_m2 if is_one else girth_rule_m2(count)
    assert zone_of(sticks(count, apart_mm)).labour_m2 == pytest.approx(expected, rel=ROUNDED)


def test_of_a_row_that_is_no_balustrade_nothing_is_said() -> None:
    """Two sticks are too few, and three of them 171 mm apart are too far from each other."""
    for count, apart_mm in ((2, 100), (3, 171)):
        parts = measured(piece_text({"do": "dust off"}, part=[sticks(count, apart_mm)])).piece.parts
        assert flat_sides_mm2([parts]) == {}


def test_close_sticks_count_no_less_than_one_by_one() -> None:
    """Three times 100 mm of row is less than three times 6 in around."""
    zone = zone_of(sticks(3, 40))
    assert 3 * 0.700 * 0.100 < girth_rule_m2(3)
    assert zone.labour_m2 == pytest.approx(girth_rule_m2(3), rel=ROUNDED)


def test_sticks_of_six_to_twelve_inches_around_are_a_balustrade_too() -> None:
    """60 mm square is 240 mm around; three of them 200 mm apart make 460 mm of row."""
    zone = zone_of(sticks(3, 200, 60))
    assert zone.labour_m2 == pytest.approx(3 * 0.460 * 0.700, rel=ROUNDED)


def test_thick_posts_in_a_row_are_no_balustrade() -> None:
    """80 mm square is 320 mm around, more than 12 in, and counts as it is."""
    zone = zone_of(sticks(3, 200, 80))
    assert zone.labour_m2 == pytest.approx(zone.area_m2, rel=ROUNDED)


def test_of_a_stick_that_two_zones_share_each_has_its_part() -> None:
    """The front is 20 by 700 of 4 x 20 x 700 + 2 x 20 x 20 mm2."""
    zone = zone_of(sticks(4, 100), faces=["stick.front"])
    share = 20 * 700 / (4 * 20 * 700 + 2 * 20 * 20)
    by_row_m2 = 3 * 0.320 * 0.700 * share
    assert zone.labour_m2 == pytest.approx(max(by_row_m2, girth_rule_m2(4)), rel=ROUNDED)


def test_effort_takes_the_place_of_the_row() -> None:
    zone = zone_of(sticks(4, 100), effort=[{"faces": ["stick"], "times": 1.5}])
    assert zone.labour_m2 == pytest.approx(1.5 * zone.area_m2, rel=ROUNDED)
