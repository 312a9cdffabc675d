"""Spreading rates against worked examples that were printed with numbers.

Sources, all read:
* UFC 3-190-06, Protective Coatings and Paints (2004, carries MIL-HDBK-1110), section 2.1.5,
  https://buildingcriteria1.tpub.com/ufc_3_190_06/ufc_3_190_060033.htm
* practical coverage, a technical dictionary,
  https://www.corrosionpedia.com/definition/2294/practical-coverage
* thinned paint and loss, a coating chemist's notes,
  https://sorwarchem.blogspot.com/2022/04/what-is-theoretical-and-practical.html
* "Mil Thickness, Estimating, Etc.", a trade magazine,
  http://www.paintpro.net/Articles/PP504/PP504_Estimating.cfm
* a teaching page (its formula with the film in micrometres),
  https://askvity.info/coating-calculation/how-to-work-out-spreading-rate
* a surveyor's guide in copy, https://safecsgoskins.com/theoretical-coverage-of-paint-formula/

Left out: the handbook's 50 % solids at 1 mil. The copy prints 600; by its own rule it is 800.
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


def test_dictionary_loss_of_30_per_cent():
    """100 sq ft to the gallon in theory are 70 in practice."""
    found = practical(by_label(100 / M2_PER_L_IN_FT2_PER_GALLON), 0.3)
    # 1e-12: nothing is rounded in the source
    assert 70.0 == pytest.approx(found * M2_PER_L_IN_FT2_PER_GALLON, rel=1e-12)


SOLIDS_THINNED = 0.5 / 1.1
"""50 % solids and a tenth of thinner on top: 45.45 % as printed."""


def test_chemist_thinned_paint():
    assert 0.4545 == pytest.approx(SOLIDS_THINNED, abs=5e-5)  # two decimals of a per cent
    found = coverage(by_film(SOLIDS_THINNED, 60.0), likely)
    # 0.01: printed 7.57, the further digits cut off (exactly 7.5758)
    assert 7.57 == pytest.approx(found, abs=0.01)


def test_chemist_thinned_paint_with_loss():
    found = practical(by_film(SOLIDS_THINNED, 60.0), 0.3)
    # 0.007: seven tenths of what was cut off before (exactly 5.3030)
    assert 5.299 == pytest.approx(found, abs=0.007)


@pytest.mark.parametrize(("solids", "printed"), [(0.46, 294), (0.56, 358)])
def test_magazine_film_of_two_and_a_half_mils(solids, printed):
    """The article cuts 1 604 / 2.5 to 641 and its answer to whole feet."""
    found = theoretical_ft2_per_gallon(solids, 2.5)
    # below 1 for the answer, and 0.67 of 641.67 times solids below 0.56 for the step before
    assert printed == pytest.approx(found, abs=1 + 0.67 * 0.56)
    assert printed < found  # cut, never rounded up


def test_teaching_page_film_of_125_um():
    # 0.05: printed 5.7 with one decimal (exactly 5.68)
    assert 5.7 == pytest.approx(coverage(by_film(0.71, 125.0), likely), abs=0.05)


def test_surveyor_divides_by_what_is_left_of_a_litre():
    """9.310489 L in theory with 30 % lost take 13.3 L, not 1.3 x 9.31 = 12.1."""
    found = coat_amount(9.310489, one_coat(0.3), by_label(1.0), likely, bare=False)
    # 0.05: printed with one decimal (exactly 13.3007)
    assert 13.3 == pytest.approx(found, abs=0.05)
