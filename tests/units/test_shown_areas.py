"""Areas have one number each, to the tenth or hundredth that a tape gives, and totals add up."""

import re
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from surfacecalc.units.display import Units
from surfacecalc.units.shown_areas import format_area, format_area_sum

EXAMPLES = settings(deadline=None)
"""A busy machine is slow; that is no mistake."""
FT2_M2 = 0.09290304
"""NIST SP 811, B.8: the square foot, exactly."""
LEAST = {Units.US: Decimal("0.1"), Units.METRIC: Decimal("0.01")}
AREAS = st.floats(0, 40)


def shown(text: str) -> Decimal:
    """Return the number that a reader adds up; what is under the least is nothing."""
    found = re.fullmatch(r"(under )?([\d,]+\.\d+) (sq ft|m2)", text)
    assert found, text
    return Decimal(0) if found[1] else Decimal(found[2].replace(",", ""))


@pytest.mark.parametrize(
    ("ft2", "text"),
    [(59.71, "59.7 sq ft"), (59.76, "59.8 sq ft"), (0.04, "under 0.1 sq ft"), (0.06, "0.1 sq ft"),
     (0, "0.0 sq ft"), (1234.56, "1,234.6 sq ft")],
)  # fmt: skip
def test_square_feet_are_shown_to_a_tenth(ft2, text):
    assert text == format_area(ft2 * FT2_M2, Units.US)


@pytest.mark.parametrize(
    ("m2", "text"),
    [(5.547, "5.55 m2"), (0.004, "under 0.01 m2"), (0.006, "0.01 m2"), (0, "0.00 m2"),
     (1234.567, "1,234.57 m2")],
)  # fmt: skip
def test_square_metres_are_shown_to_a_hundredth(m2, text):
    assert text == format_area(m2, Units.METRIC)


@EXAMPLES
@given(st.lists(AREAS, max_size=12), st.sampled_from(list(Units)))
def test_what_is_shown_adds_up_and_is_half_a_step_a_line_off_at_most(areas, units):
    total = shown(format_area_sum(areas, units))
    assert total == sum(shown(format_area(area, units)) for area in areas)
    exact = sum(areas) / (FT2_M2 if units is Units.US else 1)
    assert abs(float(total) - exact) <= float(LEAST[units]) / 2 * len(areas) + 1e-9


@EXAMPLES
@given(AREAS, st.sampled_from(list(Units)))
def test_nothing_exposed_is_the_only_area_shown_as_nothing(area, units):
    text = format_area(area, units)
    assert (not area) == (not text.startswith("under") and not shown(text))
