"""What refinishers know, and what the catalogue says of it.

Published figures, all read, of handbooks and texts of governments:
* varnish on wood 350 to 450, then 450 to 550 sq ft/gal; ready-mixed oil paint 250 to 300 for two
  coats; paste filler 10 lb for 400 sq ft: Building Construction, vol. 4, article 59
* oil paint on painted wood 400 to 500, then 500 to 600: US Army technical manual TM 43-0139,
  table 3-2
* penetrating stain on smooth wood 200 to 400; primer and two coats of paint leave 4 to 5 mil; a
  waterborne stain-blocking primer waits 24 to 48 h: Wood Handbook (USDA FPL-GTR-190), chapter 16
* shellac 300 to 400, first coat on a bare floor: Better Homes Manual, chapter "Varnishing"
* paste wax 1 lb for about 250 sq ft: the same book, chapter "Waxing"
* first coats by weight, 4 then 6 sq yd/lb: Cyclopedia of Architecture, Carpentry and Building
  (c. 1907), "Painting Estimations"
* transfer efficiency of spray 0.25: Wisconsin Administrative Code NR 440.48, table 1; 0.65: South
  Coast Air Quality Management District, spray equipment; 0.50 to 0.60 in a wood shop: a case study
  of a state's pollution prevention office

Common practice, so assumed in the catalogue: other waits and cures; old finish comes off with 80,
220 to 240 between coats; porous wood takes up to a fifth more of the first coat.

Not found in any such text: gel stain, lacquer, waterborne varnish, chalk-type paint, drying oil,
hardwax oil; loss by brush and roller; the area that an abrasive lasts.
"""

import itertools
from typing import Any

import pytest
from piece_texts import measured, piece_text

from surfacecalc.catalogue.entries import (
    abrasive_forms,
    first_coat_share,
    grades,
    loss_share,
    product_classes,
    solids_share,
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
    "oil paint": (400, 600, FT2_PER_GALLON),
    "oil varnish": (450, 550, FT2_PER_GALLON),
    "penetrating stain": (200, 400, FT2_PER_GALLON),
    "paste wax": (250, 250, FT2_PER_LB),
    "paste grain filler": (40 * 0.8, 40 * 1.2, FT2_PER_LB),  # printed 40 and 180; the row of 50
    "putty": (180 * 0.8, 180 * 1.2, FT2_PER_LB),  # to 75 beside them is 62.5, a fifth more or less
    "casein paint powder": (50, 75, FT2_PER_LB),
}
"""Classes whose coverage is a published one, as printed."""

SEALED = {"varnish": (450, 550), "oil-based varnish": (450, 550)}
"""Published sq ft/gal that an assumed class must have in its range or overlap."""
THREE_COATS_UM = (4 * 25.4, 5 * 25.4)
"""Dry film of a primer and two coats of paint on smooth wood."""

ON_BARE_WOOD = {"shellac": (300, 400), "oil varnish": (350, 450)}
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


def test_a_primer_and_two_coats_leave_the_published_film():
    """By the coverages and solids of the catalogue, all assumed."""
    um = sum(
        count * 1000 * solids_share(family).likely / covers.likely
        for family, count in (("primer", 1), ("paint", 2))
        if (covers := CLASSES[family].coverage)
    )
    assert THREE_COATS_UM[0] <= um <= THREE_COATS_UM[1]


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
    """Square yards a pound: 3.5 / 6 to 4 / 4.5 (Building Construction, vol. 4, article 59).

    Between them 4 / 6 (Cyclopedia of Architecture, Carpentry and Building) and 400 / 500.
    """
    found = first_coat_share(family)
    # half of a per cent: shares are written in whole ones
    assert 3.5 / 6 == pytest.approx(found.low, abs=0.005)
    assert 4 / 4.5 == pytest.approx(found.high, abs=0.005)
    assert found.low < 4 / 6 < 400 / 500 < found.high


def test_bare_wood_takes_the_published_first_coat_of_oil_varnish():
    """First coat 350 to 450, later ones 450 to 550: one share for each end."""
    entry = CLASSES["oil varnish"]
    first = entry.first_coat
    assert "published" == first.source
    # half of a per cent: shares are written in whole ones
    assert 350 / 450 == pytest.approx(first.range.low, abs=0.005)
    assert 450 / 550 == pytest.approx(first.range.high, abs=0.005)
    lowest = entry.coverage.low * first.range.low / FT2_PER_GALLON
    assert 350 == pytest.approx(lowest, rel=0.01)
    assert 450 == pytest.approx(entry.coverage.high * first.range.high / FT2_PER_GALLON, rel=0.01)


def test_a_step_takes_the_first_coat_of_its_products_class():
    coat = {"do": "coat", "product": "spar", "coats": 2, "by": "brush"}
    text = piece_text(coat, product={"name": "spar", "kind": "oil varnish"})
    step = measured(text).piece.zones[0].steps[0]
    assert "published" == step.first_coat.source
    assert CLASSES["oil varnish"].first_coat.range == step.first_coat.range


@pytest.mark.parametrize("name", [n for n, entry in CLASSES.items() if entry.coverage])
def test_bare_wood_never_drinks_less_than_sealed_wood(name):
    """And more of all that forms a film. Common practice for each class."""
    entry = CLASSES[name]
    assert entry.coverage is not None
    covers = Factor(Input("coverage"), entry.coverage, entry.source)
    product = Product(name, name, entry.family, entry.basis, (covers,), (), 0.0, None, 1)
    plain: dict[str, Any] = {
        key: Factor(Input("coverage", of=key), Range.fixed(value), "assumed")
        for key, value in {"coats": 2.0, "loss": 0.1, "allowance": 0.0}.items()
    }
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


PUBLISHED_TIMES = {("waterborne stain-blocking primer", "recoat_h"): (24, 48)}
"""Hours as printed in the source that products.toml names."""
PUBLISHED_COLD = {
    "waterborne furniture paint": 10, "waterborne primer": 10, "oil-based paint": 4,
    "alkyd enamel": 4,
}  # fmt: skip
"""Degrees Celsius: Wood Handbook, chapter 16."""


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
    """Common practice."""
    assert loss_share("spray").low > max(loss_share(m).high for m in ("brush", "roller", "cloth"))


def test_grits_of_the_trade_are_known():
    """To bare wood from 80, scuffing with 220 or 240, between clear coats 320 and 400."""
    assert {80, 120, 180, 220, 240, 320, 400} <= set(grades())
    assert [] == steps_too_wide((80, 120, 180, 220, 320, 400))


@pytest.mark.parametrize("form", abrasive_forms())
def test_an_abrasive_lasts_no_less_at_a_finer_grit(form):
    """Finer ones are not clogged by old finish. Common practice."""
    lives = [find_life(form, grade) for grade in grades()]
    for coarse, fine in itertools.pairwise(lives):
        assert coarse.low <= fine.low
        assert coarse.likely <= fine.likely
        assert coarse.high <= fine.high
