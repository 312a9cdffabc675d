"""Numbers as they are written and said."""

from fractions import Fraction

import pytest

from surfacecalc.units.number_words import mixed_number, ordinal


@pytest.mark.parametrize(
    ("number", "text"),
    [(Fraction(0), "0"), (Fraction(3), "3"), (Fraction(7, 8), "7/8"), (Fraction(27, 8), "3 3/8"),
     (Fraction(-1, 4), "-1/4"), (Fraction(-9, 4), "-2 1/4")],
)  # fmt: skip
def test_fractions_are_written_as_on_a_tape(number: Fraction, text: str) -> None:
    assert text == mixed_number(number)


@pytest.mark.parametrize(
    ("number", "word"), [(0, "first"), (8, "ninth"), (9, "10th"), (11, "12th"), (12, "13th"),
                         (112, "113th"), (20, "21st"),
                         (21, "22nd"), (22, "23rd"), (49, "50th")],
)  # fmt: skip
def test_coats_are_counted(number: int, word: str) -> None:
    assert word == ordinal(number)
