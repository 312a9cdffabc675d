"""Units where they do not belong are refused, and only what may be there is offered."""

import pytest

from surfacecalc.units.grammar import AmountError, parse_amount, parse_coverage
from surfacecalc.units.known import Dimension, find_unit


def refusal(text: str, dimension: Dimension) -> str:
    """Return why a text is refused as an amount."""
    with pytest.raises(AmountError) as caught:
        parse_amount(text, dimension)
    return str(caught.value)


@pytest.mark.parametrize(
    ("text", "may_be"),
    [("10 quartt/L", ("area",)), ("10 m2/sq yarrd", ("volume", "weight"))],
)
def test_only_a_unit_that_may_be_there_is_offered(text: str, may_be: tuple[str, ...]) -> None:
    with pytest.raises(AmountError) as caught:
        parse_coverage(text)
    offered = str(caught.value).partition('did you mean "')[2].removesuffix('"?')
    unit = find_unit(offered) if offered else None
    assert unit is None or unit.dimension in may_be


@pytest.mark.parametrize("text", ["3 ft 2 ft", "2 in 3 ft", "3 in 3 in"])
def test_units_that_do_not_get_smaller_are_refused(text: str) -> None:
    assert "in the wrong order; feet come first" in refusal(text, "length")


def test_what_has_no_number_cannot_be_read_and_a_ratio_is_no_length() -> None:
    assert refusal("wide", "length").startswith("cannot be read; write a length")
    assert refusal("3 m2/L", "length").startswith("is not a length")
