"""The units of the piece file against their published sizes.

Source: NIST Handbook 44 (2024), appendix C, "General Tables of Units of Measurement", and NIST
Special Publication 811 (2008), appendix B.8; the inch of 25.4 mm and the pound of 0.453 592 37 kg
are exact since 1959, and the US gallon is 231 cubic inches.
"""

from fractions import Fraction

import pytest

from surfacecalc.units.known import (
    BASE,
    UNITS,
    Dimension,
    factor,
    find_unit,
    nearest_unit,
    unit_names,
)

INCH_MM = Fraction("25.4")
GALLON_L = 231 * INCH_MM**3 / 10**6

PUBLISHED = {
    # length [mm]
    "mm": "1",
    "cm": "10",
    "m": "1000",
    "in": "25.4",  # SP 811 B.8: inch to centimetre 2.54, exact
    "ft": "304.8",  # SP 811 B.8: foot to metre 0.3048, exact
    "um": "0.001",
    "yd": "914.4",  # SP 811 B.8: yard to metre 0.9144, exact
    "mil": "0.0254",  # SP 811 B.8: mil (0.001 in) to millimetre 0.0254, exact
    # area [m2]
    "m2": "1",
    "ft2": "0.09290304",  # SP 811 B.8: square foot to square metre, exact
    # volume [L]
    "ml": "0.001",
    "L": "1",
    "fl oz": "0.0295735295625",  # Handbook 44 C: 1 fluid ounce (US) = 29.573 529 562 5 mL, exact
    "pint": "0.473176473",  # Handbook 44 C: 1 liquid pint = 28.875 cubic inches, exact
    "quart": "0.946352946",  # Handbook 44 C: 1 liquid quart = 57.75 cubic inches, exact
    "gallon": "3.785411784",  # Handbook 44 C: 1 gallon (US) = 231 cubic inches, exact
    # weight [kg]
    "g": "0.001",
    "kg": "1",
    "oz": "0.028349523125",  # SP 811 B.8: ounce (avoirdupois), exact
    "lb": "0.45359237",  # SP 811 B.8: pound (avoirdupois), exact
    # time [h]
    "h": "1",
    "days": "24",
}


@pytest.mark.parametrize(("name", "published"), PUBLISHED.items(), ids=list(PUBLISHED))
def test_unit_has_its_published_size_exactly(name: str, published: str) -> None:
    assert Fraction(published) == factor(name)


def test_minute_is_a_sixtieth_of_an_hour() -> None:
    assert Fraction(1, 60) == factor("min")


def test_every_unit_has_a_published_size_here() -> None:
    assert {*PUBLISHED, "min"} == {unit.name for unit in UNITS}


@pytest.mark.parametrize(
    ("name", "in_gallon"), [("gallon", 1), ("quart", 4), ("pint", 8), ("fl oz", 128)]
)
def test_us_volumes_are_whole_shares_of_231_cubic_inches(name: str, in_gallon: int) -> None:
    assert GALLON_L / in_gallon == factor(name)


def test_pound_has_sixteen_ounces() -> None:
    assert factor("lb") == 16 * factor("oz")


def test_foot_has_twelve_inches_and_square_foot_144_square_inches() -> None:
    assert factor("ft") == 12 * factor("in")
    assert factor("ft2") == 144 * factor("in") ** 2 / 10**6


def test_sixty_fourth_of_an_inch_is_not_rounded() -> None:
    assert Fraction(127, 320) == factor("in") / 64


@pytest.mark.parametrize(
    ("word", "name"),
    [
        ("MM", "mm"),
        ("Inches", "in"),
        ('"', "in"),
        ("'", "ft"),
        ("feet", "ft"),
        ("thou", "mil"),
        ("sq ft", "ft2"),
        ("square  feet", "ft2"),
        ("l", "L"),
        ("mL", "ml"),
        ("Fl Oz", "fl oz"),
        ("gal", "gallon"),
        ("lbs", "lb"),
        ("day", "days"),
        ("hrs", "h"),
    ],
)
def test_unit_is_found_in_the_spellings_people_use(word: str, name: str) -> None:
    unit = find_unit(word)
    assert unit is not None
    assert name == unit.name


@pytest.mark.parametrize("word", ["", " ", "m4", "cups", "mmm", "%", "2"])
def test_what_is_no_unit_is_not_found(word: str) -> None:
    assert find_unit(word) is None


def test_no_spelling_means_two_units() -> None:
    words = [word.lower() for unit in UNITS for word in {unit.name, *unit.spellings}]
    assert sorted(set(words)) == sorted(words)


@pytest.mark.parametrize(
    ("word", "dimension", "name"),
    [
        ("inchs", "length", "in"),
        ("milimeter", "length", "mm"),
        ("galon", "volume", "gallon"),
        ("qart", "volume", "quart"),
        ("pund", "weight", "lb"),
        ("sqft2", "area", "ft2"),
    ],
)
def test_nearest_unit_of_a_misspelled_word_is_named(
    word: str, dimension: Dimension, name: str
) -> None:
    assert name == nearest_unit(word, dimension)


def test_word_unlike_any_unit_has_no_nearest_one() -> None:
    assert nearest_unit("xyzzy", "length") is None


def test_list_of_units_names_every_unit_of_a_dimension_once() -> None:
    listed = [name for dimension in BASE for name in unit_names(dimension).split(", ")]
    assert sorted(unit.name for unit in UNITS) == sorted(listed)


def test_factor_of_an_unknown_unit_is_a_key_error() -> None:
    with pytest.raises(KeyError, match="cubit"):
        factor("cubit")
