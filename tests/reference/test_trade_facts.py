"""What refinishers know, and what the catalogue says of it.

Published figures, all read, period ones too:
* varnish on wood 350 to 450, then 450 to 550 sq ft/gal; ready-mixed oil paint 250 to 300 for two
  coats; paste filler 10 lb for 400 sq ft: Building Construction vol. 4, art. 59,
  http://chestofbooks.com/architecture/Building-Construction-V4/Data-On-Painting.html
* oil paint on new wood 500 to 600 in each coat: US Army TM 43-0139, table 3-2,
  https://automotiveaccessories.tpub.com/TM-43-0139/css/TM-43-0139_43.htm
* penetrating stain on smooth wood 200 to 400: Wood Handbook, USDA FPL-GTR-190, ch. 16,
  https://issuhub.com/view/index/5801?pageIndex=375
* shellac 300 to 400, first coat on a bare floor: Better Homes manual, Varnishing,
  https://chestofbooks.com/architecture/Better-Homes/Varnishing.html
* paste wax 1 lb for about 250 sq ft: the same book, Waxing,
  http://chestofbooks.com/architecture/Better-Homes/Waxing.html
* primer on uncoated wood 250 to 300, waterborne paint 350: a painting contractor,
  http://shearerpainting.com/how-much-pain/
* emulsion 12 m2/L: a trade federation,
  http://www.coatings.org.uk/faq/How_much_paint_to_use-7.aspx
* first coats by weight, 4 then 6 sq yd/lb: Cyclopedia of Architecture, Carpentry and Building
  (c. 1907), https://chestofbooks.com/architecture/Cyclopedia-Carpentry-Building-4-6/
  Painting-Estimations.html ; porous wood up to 20 % more: a country-living magazine,
  http://www.motherearthnews.com/print.aspx?id=%7BADE63D3C-9D4E-456C-A1B6-736054F0C84B%7D
* transfer efficiency of spray 0.25: Wisconsin Administrative Code NR 440.48, table 1; 0.65: South
  Coast AQMD, http://www.aqmd.gov/home/permits/spray-equipment-transfer-efficiency ; 0.50 to 0.60
  in a wood shop: http://infohouse.p2ric.org/ref/01/00286.htm
* old finish comes off with 80:
  https://homeguides.sfgate.com/sandpaper-use-refinishing-furniture-90591.html
* 220 to 240 between coats:
  https://98905.com/building-remodeling/building-materials-supplies/115768.html
* 4 h to the next coat of a water-based paint, 8 h of an oil-based one; 48 h of oil house paint; 24
  to 48 h of a waterborne stain-blocking primer; oil varnish dry in 6 to 8 h, waterborne varnish in
  15 to 30 min, shellac in 30 min; lacquer 7 to 14 days, enamel 14 to 30 days to cure: as the
  sources in catalogue/products.toml say

Not found in any source that is not a maker's: gel stain, lacquer, waterborne varnish, chalk-type
paint, drying oil, hardwax oil; loss by brush and roller; the area that an abrasive lasts.
"""

import itertools

import pytest

from surfacecalc.catalogue.entries import (
    abrasive_forms,
    first_coat_share,
    grades,
    loss_share,
    product_classes,
)
from surfacecalc.catalogue.lookup import find_life, steps_too_wide
from surfacecalc.model.inputs import Input
from surfacecalc.model.ranges import Factor, Range, likely
from surfacecalc.model.shelf import Product
from surfacecalc.model.steps import Coat
from surfacecalc.needs.coating import coat_amount

FT2_PER_GALLON = 0.3048**2 / 3.785411784
"""In m2/L."""
FT2_PER_LB = 0.3048**2 / 0.45359237
"""In m2/kg."""
EXACT = 1e-12
"""Conversions of exact units, a few float64 products."""

CLASSES = {entry.name: entry for entry in product_classes()}
ON_TOP = ["paint", "primer", "varnish", "shellac", "lacquer"]

PUBLISHED = {
    "oil paint": (500, 600, FT2_PER_GALLON),
    "oil varnish": (450, 550, FT2_PER_GALLON),
    "penetrating stain": (200, 400, FT2_PER_GALLON),
    "paste wax": (250, 250, FT2_PER_LB),
    "paste grain filler": (40, 40, FT2_PER_LB),
    "putty": (180, 180, FT2_PER_LB),
    "casein paint powder": (50, 75, FT2_PER_LB),
}
"""Classes whose coverage is a published one, as printed."""

SEALED = {
    "paint": (350, 12 / FT2_PER_GALLON),
    "waterborne furniture paint": (350, 12 / FT2_PER_GALLON),
    "varnish": (450, 550),
}
"""Published sq ft/gal that an assumed class must have in its range or overlap."""

ON_BARE_WOOD = {"primer": (250, 300), "shellac": (300, 400), "oil varnish": (350, 450)}
"""Published sq ft/gal of a first coat on bare wood."""


@pytest.mark.parametrize("name", PUBLISHED)
def test_published_classes_are_as_printed(name):
    low, high, unit = PUBLISHED[name]
    found = CLASSES[name]
    assert "published" == found.source
    assert (low * unit, high * unit) == pytest.approx(
        (found.coverage.low, found.coverage.high), rel=EXACT
    )
    assert (low + high) / 2 * unit == pytest.approx(found.coverage.likely, rel=EXACT)


def test_no_other_class_claims_to_be_published():
    assert set(PUBLISHED) == {e.name for e in CLASSES.values() if e.source == "published"}


@pytest.mark.parametrize("name", [name for name in CLASSES if name not in PUBLISHED])
def test_what_no_source_was_found_for_is_assumed(name):
    assert ("assumed", "") == (CLASSES[name].source, CLASSES[name].reference)


@pytest.mark.parametrize("name", SEALED)
def test_assumed_coverage_meets_the_published_range(name):
    low, high = (value * FT2_PER_GALLON for value in SEALED[name])
    found = CLASSES[name].coverage
    assert found.low <= high
    assert low <= found.high


@pytest.mark.parametrize("name", ON_BARE_WOOD)
def test_likely_first_coat_on_bare_wood_lies_in_the_published_range(name):
    low, high = (value * FT2_PER_GALLON for value in ON_BARE_WOOD[name])
    entry = CLASSES[name]
    assert low <= entry.coverage.likely * first_coat_share(entry.family).likely <= high


def test_assumed_wax_and_filler_have_the_published_figure_in_their_range():
    for assumed, published in (("wax", "paste wax"), ("filler", "paste grain filler")):
        found = CLASSES[assumed].coverage
        assert found.low <= CLASSES[published].coverage.likely <= found.high


def test_wax_is_thinner_than_filler():
    """20 g/m2 of wax and 122 g/m2 of filler, worked out from the printed figures."""
    # half of the last digit
    assert 19.5 == pytest.approx(1000 / CLASSES["paste wax"].coverage.likely, abs=0.05)
    assert 122 == pytest.approx(1000 / CLASSES["paste grain filler"].coverage.likely, abs=0.5)


@pytest.mark.parametrize("family", ON_TOP)
def test_first_coats_reach_the_published_shares(family):
    """From 4 / 6 (period paint by weight) to 1 / 1.2 (porous wood), between them 400 / 500."""
    found = first_coat_share(family)
    # half of a per cent: shares are written in whole ones
    assert 4 / 6 == pytest.approx(found.low, abs=0.005)
    assert 1 / 1.2 == pytest.approx(found.high, abs=0.005)
    assert found.low < 400 / 500 < found.high


@pytest.mark.parametrize("name", [n for n, entry in CLASSES.items() if entry.coverage])
def test_bare_wood_never_drinks_less_than_sealed_wood(name):
    """And more of all that forms a film. Common practice, no source for each class."""
    entry = CLASSES[name]
    covers = Factor(Input("coverage"), entry.coverage, entry.source)
    product = Product(name, name, entry.family, entry.basis, (covers,), (), 0.0, None, 1)
    plain = {key: Factor(Input("coverage", of=key), Range.fixed(value), "assumed") for key, value in
             {"coats": 2.0, "loss": 0.1, "allowance": 0.0}.items()}  # fmt: skip
    first = Factor(Input("first coat"), first_coat_share(entry.family), "assumed")
    step = Coat(name, by="brush", first_coat=first, thin=None, line=1, **plain)
    bare = coat_amount(1.0, step, product, likely, bare=True)
    sealed = coat_amount(1.0, step, product, likely, bare=False)
    assert bare >= sealed
    assert (bare > sealed) is (entry.family in ON_TOP)


def test_putty_is_the_printed_weight_over_the_whole_job():
    """5 lb for 100 square yards, 27 g/m2; three handbooks agree."""
    lb_kg, yard_m = 0.45359237, 0.9144
    printed_kg_per_m2 = 5 * lb_kg / (100 * yard_m**2)
    assert printed_kg_per_m2 == pytest.approx(1 / CLASSES["putty"].coverage.likely, rel=EXACT)


PUBLISHED_TIMES = {
    ("waterborne furniture paint", "recoat_h"): (4, 4),
    ("oil-based paint", "recoat_h"): (8, 8),
    ("oil paint", "recoat_h"): (48, 48),
    ("waterborne stain-blocking primer", "recoat_h"): (24, 48),
    ("oil varnish", "dry_h"): (6, 8),
    ("waterborne varnish", "dry_h"): (0.25, 0.5),
    ("shellac", "dry_h"): (0.5, 0.5),
    ("two-part filler", "dry_h"): (20 / 60, 20 / 60),
    ("lacquer", "cure_h"): (7 * 24, 14 * 24),
    ("enamel", "cure_h"): (14 * 24, 30 * 24),
}
"""Hours as printed in the sources that products.toml names."""
PUBLISHED_COLD = {
    "waterborne furniture paint": 10, "waterborne primer": 10, "oil-based paint": 4,
    "alkyd enamel": 4, "two-part filler": 13,
}  # fmt: skip
"""Degrees Celsius: Wood Handbook, ch. 16, and an article on polyester resin."""


@pytest.mark.parametrize(("name", "key"), PUBLISHED_TIMES)
def test_published_times_are_as_printed(name, key):
    found = getattr(CLASSES[name].drying, key)
    assert "published" == found.source
    assert PUBLISHED_TIMES[name, key] == pytest.approx(
        (found.range.low, found.range.high), rel=EXACT
    )


@pytest.mark.parametrize("name", PUBLISHED_COLD)
def test_published_coldest_temperatures_are_as_printed(name):
    found = CLASSES[name].drying.coldest_c
    assert ("published", PUBLISHED_COLD[name]) == (found.source, found.range.likely)


@pytest.mark.parametrize("landed", [0.25, 0.5, 0.6, 0.65])
def test_published_spray_lies_in_the_range_of_spray(landed):
    found = loss_share("spray")
    # 1e-12: one minus a decimal
    assert found.low <= 1 - landed <= found.high + 1e-12


def test_spray_loses_more_than_brush_roller_or_cloth():
    """Common practice, no source."""
    assert loss_share("spray").low > max(loss_share(m).high for m in ("brush", "roller", "cloth"))


def test_grits_of_the_trade_are_known():
    """To bare wood from 80, scuffing with 220 or 240, between clear coats 320 and 400.

    The last two are common practice, no source.
    """
    assert {80, 120, 180, 220, 240, 320, 400} <= set(grades())
    assert [] == steps_too_wide((80, 120, 180, 220, 320, 400))


@pytest.mark.parametrize("form", abrasive_forms())
def test_an_abrasive_lasts_no_less_at_a_finer_grit(form):
    """Finer ones are not clogged by old finish. Common practice, no source."""
    lives = [find_life(form, grade) for grade in grades()]
    for coarse, fine in itertools.pairwise(lives):
        assert coarse.low <= fine.low
        assert coarse.likely <= fine.likely
        assert coarse.high <= fine.high
