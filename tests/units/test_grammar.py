"""How amounts are read: every form that belongs, and every one that must be refused."""

import time
from fractions import Fraction

import pytest

from surfacecalc.units.grammar import (
    AmountError,
    parse_amount,
    parse_coverage,
    parse_density,
    parse_rate,
    parse_share,
    parse_temperature,
)
from surfacecalc.units.known import Dimension

INCH = Fraction("25.4")
MOST_SECONDS_TO_REFUSE = 0.5
"""A thousand times what a linear reading takes, so that a busy machine does not fail it."""


def refusal(text: str, dimension: Dimension) -> str:
    """Return why a text is refused as an amount."""
    with pytest.raises(AmountError) as caught:
        parse_amount(text, dimension)
    return str(caught.value)


@pytest.mark.parametrize("text", ["4\u00b2 cm", "10\u00b3 mm", "2\u2075 in"])
def test_raised_digit_is_not_read_as_one_more_digit(text: str) -> None:
    assert "cannot be read" in refusal(text, "length")


@pytest.mark.parametrize(
    ("text", "corrected"),
    [
        ("3,5 cm", "3.5 cm"),
        ("3,5cm", "3.5cm"),
        ("0,75 in", "0.75 in"),
        ("1,13 m", "1.13 m"),
    ],
)
def test_decimal_comma_is_refused_with_the_corrected_text(text: str, corrected: str) -> None:
    message = refusal(text, "length")
    assert "comma" in message
    assert f'"{corrected}"' in message
    assert parse_amount(corrected, "length") > 0


def test_decimal_comma_in_coverage_and_share_is_refused_with_the_corrected_text() -> None:
    with pytest.raises(AmountError, match=r'comma.*"7.5 m2/L"'):
        parse_coverage("7,5 m2/L")
    with pytest.raises(AmountError, match=r'comma.*"7.5 %"'):
        parse_share("7,5 %")


@pytest.mark.parametrize("text", ["44", "44.5", "44 1/2", "1/2", "\u00bd"])
def test_length_without_a_unit_is_refused_with_an_example(text: str) -> None:
    message = refusal(text, "length")
    assert "has no unit" in message
    assert "44 1/2 in" in message


@pytest.mark.parametrize(
    ("text", "example"),
    [("250", '"500 ml"'), ("250 ", '"1 quart"')],
)
def test_volume_without_a_unit_is_refused_with_a_volume_as_example(text: str, example: str) -> None:
    message = refusal(text, "volume")
    assert "has no unit" in message
    assert example in message


@pytest.mark.parametrize(
    ("text", "dimension", "found", "right"),
    [
        ("2 m2", "volume", "an area", "L"),
        ("2 ft2", "length", "an area", "in"),
        ("1 L", "length", "a volume", "mm"),
        ("1 L", "weight", "a volume", "kg"),
        ("1 kg", "volume", "a weight", "ml"),
        ("3 in", "area", "a length", "ft2"),
        ("2 h", "length", "a time", "cm"),
        ("2 m", "time", "a length", "min"),
    ],
)
def test_amount_of_another_dimension_is_refused_with_the_units_that_belong(
    text: str, dimension: Dimension, found: str, right: str
) -> None:
    message = refusal(text, dimension)
    assert found in message
    assert right in message.split(":")[-1]


def test_ounce_of_weight_where_a_volume_belongs_suggests_fluid_ounce() -> None:
    assert '"fl oz"' in refusal("8 oz", "volume")


def test_coverage_is_no_length() -> None:
    assert "is not a length" in refusal("10 m2/L", "length")


@pytest.mark.parametrize(
    ("text", "dimension", "right"),
    [
        ("44 inchs", "length", '"in"'),
        ("44 milimeter", "length", '"mm"'),
        ("1 galon", "volume", '"gallon"'),
        ("1 quartz", "volume", '"quart"'),
        ("1 punds", "weight", '"lb"'),
    ],
)
def test_unknown_unit_is_refused_with_the_nearest_one(
    text: str, dimension: Dimension, right: str
) -> None:
    message = refusal(text, dimension)
    assert "unknown unit" in message
    assert f"did you mean {right}?" in message


def test_unknown_unit_unlike_any_is_refused_with_all_that_are_known() -> None:
    message = refusal("3 xyzzy", "length")
    assert 'unknown unit "xyzzy"' in message
    assert "mm, cm, m, in, ft" in message


def test_foot_with_a_number_stuck_to_it_is_asked_for_its_inches() -> None:
    """ "5 ft3" is five feet three in a hurry, and to the letter five cubic feet."""
    assert refusal("5 ft3", "length").endswith('for feet and inches write "5 ft 3 in"')
    assert refusal("6ft2", "length").endswith('for feet and inches write "6 ft 2 in"')


def test_tape_is_sold_by_the_yard() -> None:
    assert Fraction("914.4") * 60 == parse_amount("60 yd", "length")


@pytest.mark.parametrize(
    "text", ["2 in 5 ft", "1 m 13 cm", "5 ft 2 cm", "2 in 3 in", "1 cm 2 mm", "5 ft 2 ft"]
)
def test_compound_length_other_than_feet_and_inches_is_refused(text: str) -> None:
    message = refusal(text, "length")
    assert "order" in message or "mixes" in message


def test_compound_length_whose_last_number_has_no_unit_is_refused() -> None:
    assert "without a unit" in refusal("5 ft 2", "length")


@pytest.mark.parametrize(
    "text",
    ["abc", "in 3", "3 in in", "3 in x", "1/2/3 in", "1..5 in", "1.2.3 in", "+ in", "--3 in",
     "3e2 mm", "1e5 in", "nan in", "inf mm", "0x10 mm", "1_000 mm", "\"", "'", "/2 in",
     "5 ft -2 in",
     "3 mm\x00", "\u202e3 mm", "3 in; 4 in"],
)  # fmt: skip
def test_text_that_is_no_length_is_refused(text: str) -> None:
    assert refusal(text, "length")


@pytest.mark.parametrize("text", ["", " ", "\t\n"])
def test_empty_text_is_refused_as_empty(text: str) -> None:
    assert "is empty" in refusal(text, "length")


def test_fraction_over_zero_is_refused() -> None:
    assert "0 as its bottom number" in refusal("1/0 in", "length")


def test_number_of_too_many_digits_is_refused() -> None:
    assert refusal(f"{'9' * 5000} mm", "length")


@pytest.mark.parametrize(
    ("text", "value", "basis"),
    [
        ("10 m2/L", "10", "volume"),
        ("10 m2 / L", "10", "volume"),
        ("10 m2 per L", "10", "volume"),
        ("10 m\u00b2/L", "10", "volume"),
        ("10.5 m2/l", "21/2", "volume"),
        ("10 m2/ml", "10000", "volume"),
        ("50 m2/kg", "50", "weight"),
    ],
)
def test_metric_coverage_is_read_exactly(text: str, value: str, basis: str) -> None:
    assert (Fraction(value), basis) == parse_coverage(text)


@pytest.mark.parametrize(
    ("text", "value", "basis"),
    [
        ("75 ft2/quart", 75 * Fraction("0.09290304") / Fraction("0.946352946"), "volume"),
        ("300 ft2/gallon", 300 * Fraction("0.09290304") / Fraction("3.785411784"), "volume"),
        ("300 sq ft/gal", 300 * Fraction("0.09290304") / Fraction("3.785411784"), "volume"),
        ("300 sq. ft./gal", 300 * Fraction("0.09290304") / Fraction("3.785411784"), "volume"),
        ("300 square feet per gallon", 300 * Fraction("0.09290304") / Fraction("3.785411784"),
         "volume"),
        ("250 ft2/lb", 250 * Fraction("0.09290304") / Fraction("0.45359237"), "weight"),
        ("15 5/8 ft2/oz", Fraction(125, 8) * Fraction("0.09290304") / Fraction("0.028349523125"),
         "weight"),
    ],
)  # fmt: skip
def test_us_coverage_is_read_exactly(text: str, value: Fraction, basis: str) -> None:
    assert (value, basis) == parse_coverage(text)


@pytest.mark.parametrize(
    "text",
    ["10", "10 m2", "10 L", "10 m/L", "10 L/m2", "10 m2/m2", "10 m2/h", "10 m2/", "m2/L", "/L", "",
     "10 m2/L/coat", "10 m2/yard", "10 cubits/L", "10 rods/L", "-10 m2/L", "10 m2/10 L",
     "0/0 m2/L"],
)  # fmt: skip
def test_text_that_is_no_coverage_is_refused(text: str) -> None:
    with pytest.raises(AmountError):
        parse_coverage(text)


@pytest.mark.parametrize("text", ["10", "10 m2", "10 L/m2"])
def test_refused_coverage_says_how_one_is_written(text: str) -> None:
    with pytest.raises(AmountError, match='"75 ft2/quart" or "10 m2/L"'):
        parse_coverage(text)


def test_density_is_weight_per_volume() -> None:
    assert Fraction("1.3") == parse_density("1.3 kg/L")
    assert Fraction("1.3") == parse_density("1.3 g/ml")
    with pytest.raises(AmountError, match="is not a density; write a weight per volume, such as"):
        parse_density("1.3 L/kg")


@pytest.mark.parametrize(
    ("text", "share"),
    [
        ("10 %", "1/10"),
        ("10%", "1/10"),
        (" 10 % ", "1/10"),
        ("0 %", "0"),
        ("100 %", "1"),
        ("12.5 %", "1/8"),
        ("1/2 %", "1/200"),
        ("33 1/3 %", "1/3"),
        ("-5 %", "-1/20"),
        ("150 %", "3/2"),
    ],
)
def test_share_is_read_exactly(text: str, share: str) -> None:
    assert Fraction(share) == parse_share(text)


@pytest.mark.parametrize(
    "text", ["10", "0.1", "%", "", "ten %", "10 %%", "10 percent", "10 % 5 %", "1/0 %", "inf %"]
)
def test_text_that_is_no_share_is_refused(text: str) -> None:
    with pytest.raises(AmountError):
        parse_share(text)


def test_comma_is_mended_with_its_sign() -> None:
    assert '"-1.5 in"' in refusal("-1,5 in", "length")


def test_long_run_of_spaces_is_refused_at_once() -> None:
    """Reading takes time in step with the text's length; in step with its square it would hang."""
    start = time.perf_counter()
    assert refusal("1 a" + " " * 15_000 + "b", "length")
    assert time.perf_counter() - start < MOST_SECONDS_TO_REFUSE


@pytest.mark.parametrize(
    ("text", "m2_per_h"),
    [
        ("2 m2/h", Fraction(2)),
        ("1 1/2 m2 per hour", Fraction(3, 2)),
        ("20 ft2/h", 20 * (12 * INCH / 1000) ** 2),
        ("1 sq ft / min", 60 * (12 * INCH / 1000) ** 2),
        ("12 m2/day", Fraction(1, 2)),
    ],
)
def test_rate_is_area_per_time(text: str, m2_per_h: Fraction) -> None:
    assert m2_per_h == parse_rate(text)


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("2 m2", "is not a rate; write an area per time"),
        ("2 h/m2", "is not a rate"),
        ("2 m2/L", "is not a rate"),
        ("2", "is not a rate"),
        ("2 m2/month", 'has an unknown unit "month"'),
        ("1,5 m2/h", "decimal comma"),
        ("", "is not a rate"),
    ],
)
def test_what_is_no_rate_is_refused(text: str, why: str) -> None:
    with pytest.raises(AmountError, match=why):
        parse_rate(text)


@pytest.mark.parametrize(
    ("text", "celsius"),
    [
        ("15 C", Fraction(15)),
        ("15C", Fraction(15)),
        ("15 c", Fraction(15)),
        ("15 \u00b0C", Fraction(15)),
        ("15\u00b0 C", Fraction(15)),
        ("15 \u2103", Fraction(15)),
        ("15 \u00baC", Fraction(15)),
        ("15 \u02daC", Fraction(15)),
        ("15 degrees C", Fraction(15)),
        ("15 deg Celsius", Fraction(15)),
        ("12.5 C", Fraction(25, 2)),
        ("-5 C", Fraction(-5)),
        ("\u22125 C", Fraction(-5)),
        ("59 F", Fraction(15)),
        ("59 \u00b0F", Fraction(15)),
        ("32 Fahrenheit", Fraction(0)),
        ("-40 F", Fraction(-40)),
        ("70 F", Fraction(190, 9)),
    ],
)
def test_temperature_is_read_in_degrees_celsius(text: str, celsius: Fraction) -> None:
    assert celsius == parse_temperature(text)


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("15", 'has no unit; write it with one, such as "15 C" or "59 F"'),
        ("-15", "has no unit"),
        ("15 K", "is not a temperature"),
        ("C", "is not a temperature"),
        ("15 C 2", "is not a temperature"),
        ("15 cm", "is not a temperature"),
        ("12,5 C", "decimal comma"),
        ("1/0 C", "0 as its bottom number"),
        ("", "is not a temperature"),
        ("9" * 70 + " C", "too long"),
    ],
)
def test_what_is_no_temperature_is_refused(text: str, why: str) -> None:
    with pytest.raises(AmountError, match=why):
        parse_temperature(text)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("30,375 in", 'write "30.375 in", or "30375 in" if you mean thousands'),
        ("18,500 in", 'write "18.500 in", or "18500 in" if you mean thousands'),
        ("1,250 mm", 'write "1250 mm", or "1.250 mm" if the comma is a decimal point'),
        ("1,234,567 mm", 'write "1234567 mm"'),
        ("1,250.5 mm", 'write "1250.5 mm"'),
    ],
)
def test_comma_before_three_digits_keeps_every_digit_of_both_numbers(text: str, said: str) -> None:
    assert f"has a comma; {said}" == refusal(text, "length")


def test_comma_before_three_digits_of_a_volume_separates_thousands() -> None:
    said = 'has a comma; write "2500 ml", or "2.500 ml" if the comma is a decimal point'
    assert said == refusal("2,500 ml", "volume")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("75 ft2/qaurt", 'has an unknown unit "qaurt"; did you mean "quart"?'),
        ("75 fg2/quart", 'has an unknown unit "fg2"; did you mean "ft2"?'),
        ("250 ft2/lbss", 'has an unknown unit "lbss"; did you mean "lb"?'),
        ("75 ft2/zzzz", 'has an unknown unit "zzzz"; write how much surface a quart or a litre'),
    ],
)
def test_unit_of_a_coverage_that_is_misspelt_is_offered(text: str, said: str) -> None:
    with pytest.raises(AmountError) as caught:
        parse_coverage(text)
    assert str(caught.value).startswith(said)


@pytest.mark.parametrize(
    "text",
    ["75 sq ft/qt", "75 sq ft/quart", "75 sq. ft./qt.", "75 sq.ft./qt", "75 square feet per quart",
     "75 sqft per qt", "75 ft\u00b2/qt"],
)  # fmt: skip
def test_coverage_is_read_as_labels_print_it(text: str) -> None:
    assert parse_coverage("75 ft2/quart") == parse_coverage(text)
