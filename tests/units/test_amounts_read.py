"""Amounts that are read, exactly, in every form that a tape measure and a label give."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from surfacecalc.units.grammar import AmountError, parse_amount, parse_coverage, parse_share
from surfacecalc.units.known import UNITS, Dimension, Unit, factor

INCH = Fraction("25.4")


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("44 in", "44"),
        ("44in", "44"),
        ("44.5 in", "44.5"),
        (".5 in", "0.5"),
        ("44. in", "44"),
        ("1/2 in", "1/2"),
        ("44 1/2 in", "89/2"),
        ("44-1/2 in", "89/2"),
        ("44 - 1/2 in", "89/2"),
        ('44-1/2"', "89/2"),
        ('44 1/2 "', "89/2"),
        ("  44   1/2   in  ", "89/2"),
        ("44 1 / 2 in", "89/2"),
        ("3 3/64 inches", "195/64"),
        ("63/64 in", "63/64"),
        ("3 6/8 in", "15/4"),
        ("44.3125 in", "709/16"),
        ("44 INCHES", "44"),
        ("44 in.", "44"),
        ("5 ft", "60"),
        ("5'", "60"),
        ("5.5 ft", "66"),
        ("5 1/2 ft", "66"),
        ("5 ft 2 in", "62"),
        ("5ft2in", "62"),
        ("5'2\"", "62"),
        ("5' 2\"", "62"),
        ("5 ft 2 1/2 in", "125/2"),
        ("5' 2-1/2\"", "125/2"),
        ("5 feet 2 inches", "62"),
        ("5 ft. 2 in.", "62"),
        ("1 mil", "1/1000"),
        ("1 thou", "1/1000"),
        ("0 in", "0"),
        ("-3 in", "-3"),
        ("-1/2 in", "-1/2"),
    ],
)
def test_length_in_inches_is_read_exactly(text: str, inches: str) -> None:
    assert Fraction(inches) * INCH == parse_amount(text, "length")


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("620 mm", "620"),
        ("113 cm", "1130"),
        ("1.13 m", "1130"),
        ("0.1 m", "100"),
        ("3.5 cm", "35"),
        ("25 um", "1/40"),
        ("25 \u00b5m", "1/40"),
        ("25 \u03bcm", "1/40"),
        ("25 microns", "1/40"),
        ("1 metre", "1000"),
    ],
)
def test_metric_length_is_read_exactly(text: str, mm: str) -> None:
    assert Fraction(mm) == parse_amount(text, "length")


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("\u00bd in", "1/2"),
        ("44\u00bd in", "89/2"),
        ("44 \u00bd in", "89/2"),
        ("44\u00bc\u2033", "177/4"),
        ("44\u215b\u201d", "353/8"),
        ("44 1\u20442 in", "89/2"),
        ("5\u2032 2\u2033", "62"),
        ("5\u2019 2\u201d", "62"),
        ("5' 2''", "62"),
        ("44\u00a01/2\u00a0in", "89/2"),
        ("\u22123 in", "-3"),
    ],
)
def test_typographic_fractions_quotes_spaces_and_minus_are_read(text: str, inches: str) -> None:
    assert Fraction(inches) * INCH == parse_amount(text, "length")


def test_minus_of_full_width_keeps_its_sign() -> None:
    """A sign that is made plain for reading must not be lost on the way."""
    assert Fraction(-30) == parse_amount("\uff0d3 cm", "length")


def test_every_spelling_of_every_unit_is_read() -> None:
    for unit in UNITS:
        for word in (unit.name, *unit.spellings):
            assert 3 * factor(unit.name) == parse_amount(f"3 {word}", unit.dimension), word


@given(st.text(), st.sampled_from(["length", "area", "volume", "weight", "time"]))
def test_any_text_is_an_amount_or_is_refused(text: str, dimension: Dimension) -> None:
    """Nothing but a refusal with a reason ever comes of a text that is no amount."""
    try:
        amount = parse_amount(text, dimension)
    except AmountError as error:
        assert str(error)  # noqa: PT017 - either outcome is right
    else:
        assert isinstance(amount, Fraction)


MARKS = st.text(alphabet="0123456789 -/.,'\"½¼%minftoz2L\u2032\u2033\u2212", max_size=16)


@given(MARKS)
def test_any_run_of_the_grammars_own_signs_is_an_amount_or_is_refused(text: str) -> None:
    for read in (parse_coverage, parse_share, lambda text: parse_amount(text, "length")):
        try:
            assert read(text) is not None
        except AmountError as error:
            assert str(error)  # noqa: PT017 - either outcome is right


@given(
    st.integers(0, 10**6),
    st.integers(0, 63),
    st.sampled_from([2, 4, 8, 16, 32, 64]),
    st.sampled_from(UNITS),
)
def test_number_and_fraction_count_as_their_sum(
    whole: int, top: int, bottom: int, unit: Unit
) -> None:
    top %= bottom  # a fraction behind a whole number is shorter than one
    expected = (whole + Fraction(top, bottom)) * factor(unit.name)
    assert expected == parse_amount(f"{whole} {top}/{bottom} {unit.name}", unit.dimension)


@given(st.decimals(min_value=0, max_value=10**6, places=6), st.sampled_from(UNITS))
def test_decimal_number_counts_exactly(number: object, unit: Unit) -> None:
    expected = Fraction(str(number)) * factor(unit.name)
    assert expected == parse_amount(f"{number:f} {unit.name}", unit.dimension)


@given(st.integers(0, 100), st.integers(0, 11))
def test_feet_and_inches_count_as_their_sum(feet: int, inches: int) -> None:
    expected = (12 * feet + inches) * INCH
    assert expected == parse_amount(f"{feet} ft {inches} in", "length")
