"""How many of an abrasive one pass takes."""

import pytest

from surfacecalc.model.ranges import likely
from surfacecalc.needs.draws import Draws
from surfacecalc.needs.sanding import sanding_count


def test_count_is_area_by_life_and_not_rounded_yet(abrasive, factor):
    disc = abrasive({120: factor("life", 0.5)})
    # 1e-15: one division
    assert 5.5712 == pytest.approx(sanding_count(2.7856, disc, 120, likely), rel=1e-15)


def test_each_grit_has_its_own_life(abrasive, factor):
    disc = abrasive({80: factor("life 80", 0.25), 120: factor("life 120", 0.5)})
    assert 4.0 == sanding_count(1.0, disc, 80, likely)
    assert 2.0 == sanding_count(1.0, disc, 120, likely)


def test_a_life_that_is_a_range_gives_a_count_for_each_draw(abrasive, factor):
    disc = abrasive({120: factor("life", 0.25, 0.5, 1.0)})
    counts = sanding_count(1.0, disc, 120, Draws(count=1_024))
    assert (1_024,) == counts.shape
    assert 1.0 < counts.min() < 2.0 < counts.max() < 4.0
