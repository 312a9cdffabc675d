"""How amounts are shown, and that what is shown can be read back."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from surfacecalc.units.display import (
    Units,
    format_amount,
    format_coverage,
    format_coverage_words,
    format_length,
    format_line,
    format_run,
    format_share,
    format_span,
    format_usual_coverage,
    format_worked_area,
)
from surfacecalc.units.grammar import parse_amount, parse_coverage, parse_share
from surfacecalc.units.known import Dimension

FOUR_FIGURES = 5.1e-4
"""Half a step in the fourth figure of a number, with room for the float around it."""


@pytest.mark.parametrize(
    ("unit", "units"),
    [("mm", "metric"), ("cm", "metric"), ("m", "metric"), ("in", "us"), ("ft", "us")],
)
def test_units_of_a_report_follow_the_tape(unit: str, units: str) -> None:
    assert Units(units) == Units.of(unit)


@pytest.mark.parametrize(
    ("area_m2", "metric", "us"),
    [
        (0.0, "0.000 m2", "0.00 sq ft"),
        (0.2064, "0.2064 m2", "2.22 sq ft"),
        (2.7856, "2.786 m2", "29.98 sq ft"),
        (1234.5, "1,234.500 m2", "13,288.05 sq ft"),
    ],
)
def test_area_is_shown_in_square_metres_or_square_feet(
    area_m2: float, metric: str, us: str
) -> None:
    assert metric == format_worked_area(area_m2, Units.METRIC)
    assert us == format_worked_area(area_m2, Units.US)


def test_run_is_shown_in_metres_or_feet() -> None:
    assert format_run(5.4102, Units.METRIC) == "5.41 m"
    assert format_run(5.4102, Units.US) == "17.75 ft"
    assert format_amount(5.4102, "m", Units.METRIC) == "5.41 m"
    assert format_amount(2.7856, "m2", Units.METRIC) == "2.786 m2"


def test_line_on_a_tape_is_shown_in_metres_or_feet_and_inches() -> None:
    """1.71 m are 67.3 in."""
    assert format_line(1.71, Units.METRIC) == "1.71 m"
    assert format_line(1.71, Units.US) == "5 ft 7 in"


@pytest.mark.parametrize(
    ("inches", "shown"),
    [
        (40.5, "40 1/2 in"),
        (16, "16 in"),
        (0.75, "3/4 in"),
        (0, "0 in"),
        (1 / 64, "1/64 in"),
        (27.875, "27 7/8 in"),
        (10.01, "10.01 in"),
        (1 / 128, "0.007812 in"),  # no tape has it
    ],
)
def test_inches_are_shown_as_a_tape_reads(inches: float, shown: str) -> None:
    assert shown == format_length(inches * 25.4, Units.US)


@pytest.mark.parametrize(
    ("mm", "shown"),
    [(1000.0, "1000 mm"), (0.5, "0.5 mm"), (9999.5, "9999.5 mm"), (0.0, "0 mm")],
)
def test_millimetres_are_shown_plainly(mm: float, shown: str) -> None:
    assert shown == format_length(mm, Units.METRIC)


@pytest.mark.parametrize("units", list(Units))
def test_length_of_one_grid_line_is_shown_without_an_exponent(units: Units) -> None:
    assert "e-" not in format_length(1 / 80_000, units)


@pytest.mark.parametrize(
    ("amount", "unit", "metric", "us"),
    [
        (1.0562, "L", "1.06 L", "1.12 qt"),
        (0.3, "L", "300 ml", "10.1 fl oz"),
        (0.0172, "L", "17.2 ml", "0.58 fl oz"),
        (12.34, "L", "12.3 L", "13.0 qt"),
        (1.0, "L", "1.00 L", "1.06 qt"),
        (-1.5, "L", "-1.50 L", "-1.59 qt"),  # what is missing
        (-12.34, "L", "-12.3 L", "-13.0 qt"),
        (0.0, "L", "0 ml", "0 fl oz"),
        (0.152985, "kg", "153 g", "5.40 oz"),
        (1.5, "kg", "1.50 kg", "3.31 lb"),
        (0.1, "kg", "100 g", "3.53 oz"),
        (0.01, "kg", "10.0 g", "0.35 oz"),
        (6.0, "each", "6", "6"),
        (1200.0, "each", "1,200", "1,200"),
    ],
)
def test_amount_is_shown_with_three_figures_in_a_unit_of_its_size(
    amount: float, unit: str, metric: str, us: str
) -> None:
    assert metric == format_amount(amount, unit, Units.METRIC)
    assert us == format_amount(amount, unit, Units.US)


def test_range_is_shown_in_the_unit_of_its_amount() -> None:
    assert format_span(0.9, 1.2, 1.1, "L", Units.METRIC) == "0.90 to 1.20"
    assert format_span(0.9, 1.2, 0.95, "L", Units.METRIC) == "900 to 1,200"
    assert format_span(5.0, 7.0, 6.0, "each", Units.US) == "5 to 7"
    assert format_span(1.524, 3.048, 2.0, "m", Units.US) == "5.00 to 10.00"
    assert format_span(1.5, 3.0, 2.0, "m2", Units.METRIC) == "1.500 to 3.000"


@pytest.mark.parametrize(
    ("coverage", "unit", "metric", "us"),
    [
        (10.0, "L", "10 m2/L", "101.9 sq ft/qt"),
        (51.2042, "kg", "51.2 m2/kg", "250 sq ft/lb"),
    ],
)
def test_coverage_is_shown_per_litre_or_quart_and_per_kilo_or_pound(
    coverage: float, unit: str, metric: str, us: str
) -> None:
    assert metric == format_coverage(coverage, unit, Units.METRIC)
    assert us == format_coverage(coverage, unit, Units.US)


def test_coverage_in_a_sentence_has_four_figures_and_a_usual_one_two() -> None:
    """10.23456 m2 a litre are 10.23456 * 10.7639104 * 0.946352946 = 104.252 sq ft a quart."""
    assert format_coverage_words(10.23456, "L", Units.METRIC) == "10.23 m2 a litre"
    assert format_coverage_words(10.23456, "L", Units.US) == "104.3 sq ft a quart"
    assert format_usual_coverage(4.56, 10.23456, "L", Units.METRIC) == "4.6 to 10 m2/L"
    assert format_usual_coverage(4.56, 10.23456, "L", Units.US) == "46 to 100 sq ft/qt"
    assert format_usual_coverage(99.4, 123.0, "kg", Units.METRIC) == "99 to 120 m2/kg"


@pytest.mark.parametrize(
    ("share", "shown"),
    [(0.1, "10 %"), (0.125, "12.5 %"), (0.0, "0 %"), (-0.125, "-12.5 %")],
)
def test_share_is_shown_in_per_cent(share: float, shown: str) -> None:
    assert shown == format_share(share)


@given(st.integers(0, 390 * 64))
def test_length_shown_in_inches_reads_back_exactly(sixty_fourths: int) -> None:
    shown = format_length(sixty_fourths / 64 * 25.4, Units.US)
    assert Fraction(sixty_fourths, 64) * Fraction("25.4") == parse_amount(shown, "length")


@given(st.integers(0, 99_999))
def test_length_shown_in_millimetres_reads_back_exactly(tenths: int) -> None:
    shown = format_length(tenths / 10, Units.METRIC)
    assert Fraction(tenths, 10) == parse_amount(shown, "length")


@given(st.integers(0, 9_999))
def test_share_of_four_figures_reads_back_exactly(tenths: int) -> None:
    assert Fraction(tenths, 1_000) == parse_share(format_share(tenths / 1_000))


@given(st.floats(0.01, 1e3), st.sampled_from(["L", "kg"]), st.sampled_from(Units))
def test_coverage_reads_back_to_four_figures(coverage: float, unit: str, units: Units) -> None:
    value, basis = parse_coverage(format_coverage(coverage, unit, units))
    assert basis == ("volume" if unit == "L" else "weight")
    assert pytest.approx(coverage, rel=FOUR_FIGURES) == float(value)


@given(st.floats(1e-4, 90.0), st.sampled_from([("L", "volume"), ("kg", "weight")]))
def test_amount_reads_back_to_what_its_figures_say(
    amount: float, kept: tuple[str, Dimension]
) -> None:
    unit, dimension = kept
    for units, finest in ((Units.METRIC, 0.000_005), (Units.US, 0.000_15)):
        value = parse_amount(format_amount(amount, unit, units).replace(",", ""), dimension)
        # Three figures are off by half a step in a hundred, small ones by half of 0.01 ml or fl oz.
        assert pytest.approx(amount, rel=5.1e-3, abs=finest) == float(value)


@given(st.floats(0.0, 900.0), st.sampled_from(Units))
def test_area_reads_back_to_its_last_place(area_m2: float, units: Units) -> None:
    shown = format_worked_area(area_m2, units).replace(",", "")
    # Half of the last place: 0.0005 m2, and 0.005 sq ft = 0.00046 m2; with room for the float.
    assert pytest.approx(area_m2, abs=0.000_51) == float(parse_amount(shown, "area"))
