"""A purchase is said in the same words on screen, sheet and quote."""

import doctest

import pytest

from surfacecalc.model.shelf import Pack
from surfacecalc.supplies import pack_words
from surfacecalc.supplies.pack_words import bought_text


@pytest.mark.parametrize(
    ("text", "count", "unit", "said"),
    [("1 pint", 1, "L", "1 pint"), ("1 quart", 2, "L", "2 quarts"),
     ("8 fl oz", 1, "L", "1 half-pint"), ("5 quart", 1, "L", "1 pack of 5 quart"),
     ("1 tub", 2, "L", "2 packs of 1 tub"),
     ("750 ml", 2, "L", "2 packs of 750 ml"), ("50 m", 1, "m", "1 roll of 50 m"),
     ("5 lb", 1, "kg", "1 pack of 5 lb")],
)  # fmt: skip
def test_a_size_is_asked_for_as_in_a_store(text, count, unit, said):
    assert said == bought_text(Pack(1.0, text, None), count, unit)


@pytest.mark.parametrize(
    ("size", "count", "said"),
    [(10, 2, "2 packs of 10"), (10, 1, "1 pack of 10"), (1, 1, "1 single piece"),
     (1, 3, "3 single pieces")],
)  # fmt: skip
def test_a_count_is_asked_for_as_in_a_store(size, count, said):
    assert said == bought_text(Pack(float(size), "", None), count, "each")


def test_examples_in_the_docstrings_hold():
    result = doctest.testmod(pack_words)
    assert result.attempted > 0
    assert 0 == result.failed
