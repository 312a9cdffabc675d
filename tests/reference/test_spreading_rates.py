"""Spreading rates against a handbook's worked examples, and against sums done by hand.

Source: UFC 3-190-06, Protective Coatings and Paints (2004, carries MIL-HDBK-1110), section 2.1.5.
Its 50 % solids at 1 mil are not used: the copy read prints 600, by its own rule it is 800.

That a loss is a share of what is used, so that practical coverage = theoretical x (1 - loss), is
common practice; those examples are worked by hand.
"""

import pytest

from surfacecalc.model.inputs import Input
from surfacecalc.model.ranges import Factor, Range, likely
from surfacecalc.model.shelf import Product
from surfacecalc.model.steps import Coat
from surfacecalc.needs.coating import coat_amount
from surfacecalc.needs.coverage import coverage

M2_PER_L_IN_FT2_PER_GALLON = 3.785411784 / 0.3048**2  # 40.7458
MIL_UM = 25.4
HANDBOOK = 1604.17 / 1600 - 1 + 1e-5
"""The handbook takes 1 600 for the 1 604.17 sq ft that a gallon covers 1 mil thick, 0.26 %."""


def factor(key, value):
    return Factor(Input("coverage", of=key), Range.fixed(value), "label")


def paint(*coverage_factors):
    return Product("paint", "paint", "paint", "volume", coverage_factors, (), 0.0, None, 1)


def by_film(solids, dry_film_um):
    return paint(factor("solids", solids), factor("dry_film", dry_film_um))


def by_label(m2_per_l):
    return paint(factor("covers", m2_per_l))


def one_coat(loss):
    values = {"coats": 1.0, "loss": loss, "allowance": 0.0, "first_coat": 1.0}
    factors = {key: factor(key, value) for key, value in values.items()}
    return Coat("paint", by="brush", thin=None, line=1, **factors)


def theoretical_ft2_per_gallon(solids, mils):
    return coverage(by_film(solids, mils * MIL_UM), likely) * M2_PER_L_IN_FT2_PER_GALLON


def practical(product, loss):
    """Return the area that one unit of a product finishes when a share of it is lost."""
    return 1 / coat_amount(1.0, one_coat(loss), product, likely, bare=False)


@pytest.mark.parametrize(
    ("solids", "mils", "printed"),
    [(1.0, 1, 1600), (1.0, 2, 800), (1.0, 4, 400), (0.5, 2, 400), (0.5, 4, 200)],
)
def test_handbook_gallon(solids, mils, printed):
    found = theoretical_ft2_per_gallon(solids, mils)
    assert printed == pytest.approx(found, rel=HANDBOOK)
    assert printed < found  # it rounds down


def test_a_loss_of_three_tenths_leaves_seven_tenths_of_the_coverage():
    """By hand: 100 sq ft to the gallon in theory are 70 in practice."""
    found = practical(by_label(100 / M2_PER_L_IN_FT2_PER_GALLON), 0.3)
    # 1e-12: two products of float64
    assert 70.0 == pytest.approx(found * M2_PER_L_IN_FT2_PER_GALLON, rel=1e-12)


def test_thinned_paint_by_hand():
    """A litre with 50 % solids and a tenth of a litre of thinner: 0.5 L of solids in 1.1 L.

    At 60 um dry that is 1000 x 0.5 / 1.1 / 60 = 250 / 33 m2/L, and 0.7 of it with 30 % lost.
    """
    thinned = by_film(0.5 / 1.1, 60.0)
    assert 250 / 33 == pytest.approx(coverage(thinned, likely), rel=1e-12)
    assert 175 / 33 == pytest.approx(practical(thinned, 0.3), rel=1e-12)


def test_thick_film_by_hand():
    """71 % solids, 125 um dry: 0.71 x 1000 / 125 = 5.68 m2/L."""
    assert 5.68 == pytest.approx(coverage(by_film(0.71, 125.0), likely), rel=1e-12)


def test_a_loss_divides_by_what_is_left_of_a_litre():
    """9.31 L in theory with 30 % lost take 9.31 / 0.7 = 13.3 L, not 1.3 x 9.31 = 12.1."""
    found = coat_amount(9.31, one_coat(0.3), by_label(1.0), likely, bare=False)
    assert 13.3 == pytest.approx(found, rel=1e-12)
