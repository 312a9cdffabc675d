"""What an abrasive's form and grits tell is found in the catalogue."""

import pytest

from surfacecalc.catalogue.lookup import find_life, nearest_form, steps_too_wide


@pytest.mark.parametrize(
    ("form", "grit", "expected"),
    [
        ("125 mm disc", 80, 0.3),
        ("125 mm disc", 100, 0.3),
        ("125 mm disc", 120, 0.5),
        ("125 mm disc", 180, 0.5),
        ("125 mm disc", 220, 0.7),
        ("125 mm disc", 5000, 0.7),
        ("5 in disc", 120, 0.5),
        ("5 Inch Disc", 120, 0.5),
        ("9 x 11 in sheet", 12, 0.5),
        ("sheet", 12, 0.5),
        ("1/4 sheet", 220, 0.25),
    ],
)
def test_life_holds_from_its_grit_to_the_next(form, grit, expected):
    assert expected == find_life(form, grit).likely


def test_no_life_is_known_of_an_unknown_form():
    assert find_life("belt", 80) is None


def test_steps_are_looked_at_in_the_order_given():
    assert [] == steps_too_wide(())
    assert [] == steps_too_wide((80,))
    assert [] == steps_too_wide((120, 80))  # back to a coarser one: another remark's business
    ((coarse, fine, ratio),) = steps_too_wide((80, 120, 320))
    assert (120, 320) == (coarse, fine)
    assert 125 / 46.2 == ratio


def test_a_grade_without_a_published_size_is_not_judged():
    assert [] == steps_too_wide((2500, 5000))


def test_form_nearly_like_a_known_one_is_that_one_but_another_size_is_not() -> None:
    assert nearest_form("150 mm dsic") == "150 mm disc"
    assert nearest_form("155 mm disc") is None
    assert nearest_form("150 mm disc") is None
    assert nearest_form("steel wool") is None
