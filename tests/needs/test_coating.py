"""Litres of a coating step, worked out by hand."""

import pytest

from surfacecalc.model.ranges import likely
from surfacecalc.model.steps import Sand
from surfacecalc.needs.coating import coat_amount
from surfacecalc.needs.coverage import coverage
from surfacecalc.zones.worked_surfaces import takes_first_coat

ROUNDING = 1e-14
"""A handful of float64 operations, each off by at most 1.1e-16 of itself."""


def test_chest_body_line_by_line(coat, product, factor):
    """Three brushed coats on 2.7856 m2 of bare wood, 10 m2/L, 80 %, loss 10 %, allowance 5 %."""
    one_coat = 2.7856 / 10  # 0.27856 L
    coats = 1 / 0.8 + 3 - 1  # the first one counts as 1.25: 3.25 coats
    put_on = one_coat * coats  # 0.90532 L stay on the wood
    used = put_on / 0.9  # 1.0059111 L: a tenth stays in the brush
    bought = used * 1.05  # 1.0562067 L with something for touch-up

    step = coat(3.0, loss=0.1, allowance=0.05, first_coat=0.8)
    found = coat_amount(2.7856, step, product(factor("covers", 10.0)), likely, bare=True)

    assert bought == pytest.approx(found, rel=ROUNDING)
    # 1e-7: the eight digits worked out on paper
    assert found == pytest.approx(1.0562067, abs=1e-7)


def test_on_a_sealed_surface_the_first_coat_is_a_coat_like_any_other(coat, product, factor):
    step = coat(3.0, first_coat=0.8)
    paint = product(factor("covers", 10.0))
    assert 0.3 == pytest.approx(coat_amount(1.0, step, paint, likely, bare=False), rel=ROUNDING)
    assert 0.325 == pytest.approx(coat_amount(1.0, step, paint, likely, bare=True), rel=ROUNDING)


def test_loss_divides(coat, product, factor):
    """A loss of 30 % of what is used takes 1 / 0.7 of what lands, not 1.3 times it."""
    found = coat_amount(7.0, coat(loss=0.3), product(factor("covers", 10.0)), likely, bare=False)
    assert 1.0 == pytest.approx(found, rel=ROUNDING)


def test_allowance_multiplies(coat, product, factor):
    """An allowance of 30 % takes 1.3 times as much, not 1 / 0.7."""
    found = coat_amount(
        10.0, coat(allowance=0.3), product(factor("covers", 10.0)), likely, bare=False
    )
    assert 1.3 == pytest.approx(found, rel=ROUNDING)


def test_coverage_from_solids_and_dry_film(product, factor):
    """40 % solids and a dry film of 40 um: 1 000 x 0.4 / 40 = 10 m2/L."""
    paint = product(factor("solids", 0.4), factor("dry_film", 40.0))
    assert 10.0 == pytest.approx(coverage(paint, likely), rel=ROUNDING)


def test_coverage_from_the_label_is_the_label(product, factor):
    assert 12.5 == coverage(product(factor("covers", 12.5)), likely)


def test_no_area_takes_nothing(coat, product, factor):
    paint = product(factor("covers", 10.0))
    assert 0.0 == coat_amount(0.0, coat(2.0, loss=0.1, first_coat=0.75), paint, likely, bare=True)


@pytest.mark.parametrize(
    ("surface", "before", "expected"),
    [
        ("bare", [], True),
        ("bare", ["sand"], True),
        ("bare", ["coat"], False),
        ("bare", ["sand", "coat", "sand"], False),
        ("sealed", [], False),
        ("varnished", ["sand"], False),
        ("painted", ["sand", "sand"], False),
        (None, [], False),
    ],
)
def test_only_the_first_coat_step_on_bare_wood_has_a_first_coat(coat, surface, before, expected):
    """Sanding never lays a coated or painted surface bare."""
    sand = Sand((80,), "disc", 1)
    steps = [*[sand if step == "sand" else coat() for step in before], coat(2.0)]
    assert expected == takes_first_coat(steps, len(steps) - 1, surface)
