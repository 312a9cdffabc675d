"""Lengths on the marks of a tape: what is typed is what is written and said."""

import tomllib
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from surfacecalc.starting.scales import Scale
from surfacecalc.units.grammar import AmountError, parse_amount

INCH = Fraction("25.4")


@pytest.mark.parametrize(
    ("text", "inches"),
    [("22 1/2", "22.5"), ("22-1/2", "22.5"), ("22½", "22.5"), ('22 1/2"', "22.5"),
     ("7/8", "0.875"), ("5 ft 2 in", "62"), ("36", "36"), (" 36.25 ", "36.25"), ("254 mm", "10")],
)  # fmt: skip
def test_length_may_be_typed_as_a_tape_shows_it(text: str, inches: str) -> None:
    assert Fraction(inches) * INCH == Scale("in").read(text)


def test_plain_number_counts_in_the_unit_of_the_tape() -> None:
    assert [Fraction(36) * INCH, Fraction(360), Fraction(36)] == [
        Scale(unit).read("36") for unit in ("in", "cm", "mm")
    ]


def test_length_between_marks_goes_to_the_nearest_one() -> None:
    assert "44 31/64 in" == Scale("in").words(Scale("in").read("113 cm"))
    assert "20.3 mm" == Scale("mm").words(Scale("mm").read("0.8 in"))


@pytest.mark.parametrize("text", ["", "  ", "wide", "1/0", "22,5", "5 kg", "22 1", "1 2/3 ft 3"])
def test_what_is_no_length_is_refused(text: str) -> None:
    with pytest.raises(AmountError):
        Scale("in").read(text)


@settings(deadline=None)
@given(marks=st.integers(0, 64 * 400), unit=st.sampled_from(["in", "cm", "mm"]))
def test_words_read_again_and_text_in_a_file_are_the_same_length(marks: int, unit: str) -> None:
    scale = Scale(unit)
    length = marks * scale.mark_mm
    value = tomllib.loads(f"length = {scale.toml(length)}", parse_float=Fraction)["length"]
    in_file = parse_amount(value if isinstance(value, str) else f"{float(value)} {unit}", "length")
    assert [length, length] == [scale.read(scale.words(length)), in_file]


def test_common_size_is_round_on_a_metric_tape() -> None:
    assert [Fraction("19.05"), 19, 19] == [Scale(u).common("3/4") for u in ("in", "cm", "mm")]
    assert 910 == Scale("mm").common("36")
