"""Fractions: those of a tape measure are read, slips of the finger are told with what is right."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from surfacecalc.units.fractions import TAPE_DENOMINATORS, with_blank
from surfacecalc.units.grammar import AmountError, parse_amount
from surfacecalc.units.known import Dimension, factor


def refusal(text: str, dimension: Dimension = "length") -> str:
    """Return why a text is refused as an amount."""
    with pytest.raises(AmountError) as caught:
        parse_amount(text, dimension)
    return str(caught.value)


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("17 /8 in", "a space on one side"),
        ("9/ 2 in", "a space on one side"),
        ("17 33/8 in", "one or more after a whole number"),
        ("17 8/8 in", "one or more after a whole number"),
        ("17 3/88 cm", "nothing is measured that finely"),
    ],
)
def test_slip_in_a_fraction_is_refused_not_read_as_another_length(text: str, why: str) -> None:
    assert why in refusal(text)


@pytest.mark.parametrize(
    ("text", "bottoms"),
    [("19 5/61 in", "61sts"), ("17 3/88 in", "88ths"), ("1/3 in", "3rds"), ("2 2/3 ft", "3rds"),
     ("8/7 in", "7ths"), ("1/100 in", "100ths"), ("1/128 in", "128ths"), ("1/12 ft", "12ths"),
     ("5 ft 2 1/10 in", "10ths"), ('5\' 1/11"', "11ths"), ("1/22 in", "22nds")],
)  # fmt: skip
def test_fraction_that_no_tape_measure_has_is_refused(text: str, bottoms: str) -> None:
    right = "the bottom number must be 2, 4, 8, 16, 32 or 64"
    assert refusal(text).endswith(f"; no tape measure has {bottoms}: {right}")


@pytest.mark.parametrize("bottom", [64, 100, 128, 1000])
def test_fraction_of_a_scale_or_a_pack_is_read(bottom: int) -> None:
    """128 fluid ounces are a gallon, and a scale shows hundredths."""
    assert Fraction(1, bottom) * 1000 == parse_amount(f"1/{bottom} m", "length")


@pytest.mark.parametrize("bottom", [65, 99, 127, 200, 256, 1001])
def test_finer_fraction_than_anything_is_measured_is_refused(bottom: int) -> None:
    assert refusal(f"1/{bottom} m").endswith("; nothing is measured that finely")


@given(st.integers(1, 63), st.sampled_from(TAPE_DENOMINATORS), st.sampled_from(["in", "ft"]))
def test_fraction_that_a_tape_measure_has_is_read(top: int, bottom: int, unit: str) -> None:
    top = top % bottom or 1
    expected = Fraction(top, bottom) * factor(unit)
    assert expected == parse_amount(f"{top}/{bottom} {unit}", "length")


@pytest.mark.parametrize(
    ("text", "right"),
    [
        ("9/8 in", '"1 1/8 in"'),
        ("7/4 in", '"1 3/4 in"'),
        ("8/8 in", '"1 in"'),
        ("5/1 in", '"5 in"'),
        ("40/8 in", '"5 in"'),
        ("23/8 in", '"2 3/8 in" or "2 7/8 in"'),
        ("173/8 in", '"17 3/8 in" or "21 5/8 in"'),
        ("337/8 in", '"33 7/8 in" or "42 1/8 in"'),
        ('337/8"', '"33 7/8 in" or "42 1/8 in"'),
        ("5 ft 23/8 in", '"2 3/8 in" or "2 7/8 in"'),
        ("115/16 in", '"1 15/16 in" or "11 5/16 in" or "7 3/16 in"'),
        ("1007/8 in", '"100 7/8 in" or "125 7/8 in"'),
    ],
)
def test_top_heavy_fraction_is_refused_with_the_lost_blank_first(text: str, right: str) -> None:
    """What it would come to stands last: nobody counts 337 eighths on a tape."""
    end = f"write the whole inches first, with a space: {right}"
    assert refusal(text).endswith(end)


def test_top_heavy_fraction_of_any_unit_is_refused() -> None:
    assert 'write the whole feet first, with a space: "1 1/2 ft"' in refusal("3/2 ft")
    told = 'write the whole number first, with a space: "1 1/2 quart"'
    assert told in refusal("3/2 quart", "volume")


@pytest.mark.parametrize("text", ["42,3/8 in", "42, 3/8 in", "42.3/8 in", "42 , 3/8 in"])
def test_comma_or_point_before_a_fraction_is_mended_by_a_blank(text: str) -> None:
    assert 'needs a space before its fraction: "42 3/8 in"' == refusal(text)


@pytest.mark.parametrize("text", ["42 3/8 in", "10.5 m2/h", "7.5 m2/L", "1,250 mm", "44.5 in"])
def test_other_commas_and_points_stay(text: str) -> None:
    assert text == with_blank(text)
