"""Sizes of tins against published equivalents.

Sources: NIST Handbook 44, appendix C, "General Tables of Units of Measurement" (the US gallon is
231 cubic inches; fluid ounce 29.5735295625 ml and pint 473.176473 ml; the inch is 25.4 mm and the
pound 0.45359237 kg exactly); the imperial pint of 568.26125 ml, UK Weights and Measures Act 1985,
schedule 1. Which tins are sold, and their round millilitres as printed on them, is common practice;
imperial half and quarter pints are an error to keep clear of.
"""

from fractions import Fraction

import pytest

from surfacecalc.units.grammar import parse_amount, parse_coverage

CUBIC_INCH_L = Fraction(254, 100) ** 3 / 1000


def litres(text):
    return parse_amount(text, "volume")


def test_a_gallon_is_231_cubic_inches():
    assert 231 * CUBIC_INCH_L == litres("1 gallon")
    assert Fraction("3.785411784") == litres("1 gallon")


@pytest.mark.parametrize(
    ("text", "ml"),
    [
        ("1 fl oz", "29.5735295625"),
        ("1 pint", "473.176473"),
        ("1 quart", "946.352946"),
        ("1/2 gallon", "1892.705892"),
        ("1/2 pint", "236.5882365"),
        ("1/4 pint", "118.29411825"),
    ],
)
def test_us_measures_are_exact(text, ml):
    """The first two as printed; the others their multiples and parts."""
    assert Fraction(ml) / 1000 == litres(text)


@pytest.mark.parametrize(
    ("tin", "ounces"),
    [("1/2 pint", 8), ("1 pint", 16), ("1 quart", 32), ("1 gallon", 128), ("5 gallon", 640)],
)
def test_tins_in_fluid_ounces(tin, ounces):
    assert litres(f"{ounces} fl oz") == litres(tin)


@pytest.mark.parametrize(
    ("tin", "printed_ml", "half_a_digit"),
    [("1/2 pint", 237, 0.5), ("1 pint", 473, 0.5), ("1 quart", 946, 0.5), ("1 gallon", 3780, 10)],
)
def test_tins_in_round_millilitres(tin, printed_ml, half_a_digit):
    """The gallon is cut to 3.78 l on tins."""
    assert printed_ml == pytest.approx(float(litres(tin) * 1000), abs=half_a_digit)


@pytest.mark.parametrize(("tin", "imperial_ml"), [("1/2 pint", 284), ("1 pint", 568.26125)])
def test_pints_are_never_imperial(tin, imperial_ml):
    """An imperial pint is a fifth more."""
    assert imperial_ml / 1.19 > float(litres(tin) * 1000)


@pytest.mark.parametrize(("text", "l"), [("1 L", 1), ("2.5 L", "2.5"), ("750 ml", "0.75")])
def test_metric_tins(text, l):  # noqa: E741
    assert Fraction(l) == litres(text)


def test_coverage_by_the_gallon():
    """1 sq ft to the US gallon is 0.0245424 m2/L, and 1 m2/L is 40.7458 sq ft to the gallon."""
    found, basis = parse_coverage("1 ft2/gallon")
    assert "volume" == basis
    # half of the last printed digit
    assert 0.0245424 == pytest.approx(float(found), abs=5e-8)
    assert 40.7458 == pytest.approx(float(1 / found), abs=5e-5)
