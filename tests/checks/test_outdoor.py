"""Finishes for indoors are told on a piece that will stand outside, and only there."""

import pytest

from surfacecalc.checks.outdoor import check_outdoor

OUTSIDE = "outdoor = true\n"
COAT = 'do = "coat"; product = "x"; coats = 2; by = "brush"'


@pytest.mark.parametrize(
    ("kind", "told"),
    [
        ("shellac", True),
        ("waterborne furniture paint", True),
        ("paste wax", True),
        ("exterior oil varnish", False),
        ("oil paint", False),
        ("drying oil", False),
    ],
)
def test_what_is_made_for_indoors_is_told_outside(kind, told, by_check):
    given = {"products": {"x": kind}}
    assert told is bool(by_check(check_outdoor, COAT, head=OUTSIDE, **given))
    assert [] == by_check(check_outdoor, COAT, **given)
