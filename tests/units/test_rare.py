"""Units beyond the listed ones: each means what it is taken for, and nothing else is taken.

Sources: NIST Special Publication 811 (2008), appendix B.8, and NIST Handbook 44 (2024), appendix C.
The imperial gallon is 4.546 09 L exactly (Weights and Measures Act 1985, schedule 1); it has 4
quarts, 8 pints and 160 fluid ounces.
"""

from fractions import Fraction
from typing import Any

import pint
import pytest

from surfacecalc.units.grammar import AmountError, parse_amount, parse_coverage, parse_rate
from surfacecalc.units.known import BASE, UNITS, Dimension, Unit, factor, find_unit, nearest_unit
from surfacecalc.units.rare import LONG_NAMES, RARE_UNITS, rare_unit
from surfacecalc.units.registry import size_of
from surfacecalc.units.sizes import SIZES

INCH_MM = Fraction("25.4")
GALLON_L = Fraction("4.54609")
SURVEY_FOOT_M = Fraction(1200, 3937)  # SP 811 B.6

PUBLISHED: dict[Dimension, dict[str, Fraction]] = {
    "length": {
        "dm": Fraction(100),
        "km": Fraction(10**6),
        "2 rods": 2 * Fraction("16.5") * SURVEY_FOOT_M * 1000,
        "mile": 63_360 * INCH_MM,
    },
    "area": {
        "cm2": Fraction(1, 10**4),
        "square metres": Fraction(1),
        "sq. in.": INCH_MM**2 / 10**6,
        "in2": INCH_MM**2 / 10**6,
        "square yards": (36 * INCH_MM) ** 2 / 10**6,
        "sq yd": (36 * INCH_MM) ** 2 / 10**6,
        "square rods": (Fraction("16.5") * SURVEY_FOOT_M) ** 2,
        "acre": 43_560 * SURVEY_FOOT_M**2,
        "hectares": Fraction(10**4),
        "ha": Fraction(10**4),
    },
    "volume": {
        "cl": Fraction(1, 100),
        "dl": Fraction(1, 10),
        "decilitres": Fraction(1, 10),
        "hl": Fraction(100),
        "cc": Fraction(1, 1000),
        "cm\u00b3": Fraction(1, 1000),
        "m3": Fraction(1000),
        "cubic inches": INCH_MM**3 / 10**6,
        "cu. in.": INCH_MM**3 / 10**6,
        "in3": INCH_MM**3 / 10**6,
        "cubic feet": (12 * INCH_MM) ** 3 / 10**6,
        "imperial gallon": GALLON_L,
        "imp gal": GALLON_L,
        "imperial quarts": GALLON_L / 4,
        "imperial pint": GALLON_L / 8,
        "imp. pints": GALLON_L / 8,
        "UK pint": GALLON_L / 8,
        "imperial fl oz": GALLON_L / 160,
        "imperial fluid ounce": GALLON_L / 160,
        "US pint": 231 * INCH_MM**3 / 10**6 / 8,
        "US fluid ounce": 231 * INCH_MM**3 / 10**6 / 128,
    },
    "weight": {
        "mg": Fraction(1, 10**6),
        "grain": Fraction("0.00006479891"),
        "stone": 14 * Fraction("0.45359237"),
        "tonne": Fraction(1000),
        "metric ton": Fraction(1000),
        "short ton": 2000 * Fraction("0.45359237"),
        "long ton": 2240 * Fraction("0.45359237"),
    },
    "time": {"sec": Fraction(1, 3600), "week": Fraction(168), "fortnight": Fraction(336)},
}
CASES = [(word, dim, size) for dim, found in PUBLISHED.items() for word, size in found.items()]


@pytest.mark.parametrize(("word", "dimension", "size"), CASES, ids=[case[0] for case in CASES])
def test_rare_unit_is_read_exactly(word: str, dimension: Dimension, size: Fraction) -> None:
    text = word if word[0].isdigit() else f"3 {word}"
    assert (size if text == word else 3 * size) == parse_amount(text, dimension)


def rule_words() -> list[str]:
    """Return words by the rule for squares, cubes and countries, all that can be made of it."""
    lengths = ["mm", "cm", "dm", "m", "km", "in", "inches", "ft", "feet", "yd", "yards", "rods"]
    powers = ("square ", "sq ", "sq. ", "cubic ", "cu ", "cu. ")
    liquids = [w for u in UNITS if u.pint_name.startswith("US_") for w in (u.name, *u.spellings)]
    return [
        *[f"{before}{length}" for before in powers for length in lengths],
        *[f"{length}{power}" for length in lengths[:6:] for power in (2, 3)],
        *[f"{country} {liquid}" for country in ("imperial", "imp", "us") for liquid in liquids],
        *[word for unit in RARE_UNITS for word in (unit.name, *unit.spellings)],
        *LONG_NAMES,
    ]


def test_rare_unit_has_in_pint_the_dimension_it_is_taken_for() -> None:
    """A wrong name or dimension raises here; no user can meet it then."""
    for word in rule_words():
        unit = find_unit(word)
        assert unit is not None, word
        again = find_unit(unit.name)
        assert again is not None, word
        assert (unit.name, unit.dimension) == (again.name, again.dimension)
        assert 0 < size_of(unit) == factor(unit.name), word


def test_no_rare_unit_hides_behind_a_listed_one() -> None:
    listed = {word.lower() for one in UNITS for word in (one.name, one.pint_name, *one.spellings)}
    for unit in RARE_UNITS:
        words = [word.lower() for word in (unit.name, *unit.spellings)]
        assert set() == listed & set(words)
        assert all(rare_unit(word) == unit for word in words)


TAKEN_BY_PINT = [
    "kin", "mft", "Mm3ft", "kft", "minch", "kyard", "centifoot", "microinch", "kpint", "dozen",
    "point", "pica", "hand", "link", "pole", "perch", "cup", "teaspoon", "tsp", "gill", "fifth",
    "barrel", "ton", "t", "s", "d", "a", "b", "u", "y", "l3", "dram", "quarter", "bag", "carat",
    "month", "year", "shake", "league", "light_year", "section", "barn", "acre_foot", "dry_pint",
    "board_foot", "hundredweight", "inch**1", "inch*1", "meter meter", "pint_imperial", "imp",
    "imperial", "imperial inch", "imperial cup", "us cup", "uk ton", "square", "square pint",
    "square square feet", "cubic lb", "sq um", "cubic mil", "m4", "in4", "lb2", "h3", "cum", "min2",
]  # fmt: skip


def test_word_that_is_no_unit_of_the_trade_or_means_several_is_refused() -> None:
    assert [] == [word for word in TAKEN_BY_PINT if find_unit(word)]
    for word in TAKEN_BY_PINT:
        for dimension in BASE:
            with pytest.raises(AmountError):
                parse_amount(f"3 {word}", dimension)


def test_abbreviation_keeps_its_listed_meaning_whatever_pint_makes_of_it() -> None:
    """To pint "Min" is a million inches, "pt" in other registries a printer's point."""
    assert Fraction(1, 2) == parse_amount("30 Min", "time")
    assert factor("pint") == parse_amount("1 pt", "volume")
    for text, found in (("3 Min", "a time (min)"), ("12 pt", "a volume (pint)")):
        with pytest.raises(AmountError, match=found.replace("(", r"\(").replace(")", r"\)")):
            parse_amount(text, "length")


@pytest.mark.parametrize(
    ("text", "dimension", "message"),
    [
        ("2 rods", "volume", "is a length (rod), but it must be a volume"),
        ("1 acre", "length", "is an area (acre), but it must be a length"),
        ("1 imp pint", "weight", "is a volume (imperial pint), but it must be a weight"),
        ("3 square rods", "length", "is an area (square rod), but it must be a length"),
        ("3 m3", "area", "is a volume (m3), but it must be an area"),
        (
            "8 oz",
            "volume",
            'is a weight (oz), but it must be a volume; for fluid ounces write "fl oz"',
        ),
    ],
)
def test_rare_unit_of_another_dimension_is_refused(
    text: str, dimension: Dimension, message: str
) -> None:
    with pytest.raises(AmountError) as caught:
        parse_amount(text, dimension)
    assert str(caught.value).startswith(message)


def test_coverage_and_rate_take_rare_units() -> None:
    assert (400 * factor("ft2") / GALLON_L, "volume") == parse_coverage("400 ft2/imp gal")
    assert (Fraction(100), "volume") == parse_coverage("10 m2/dl")
    assert (9 * factor("ft2") / factor("lb"), "weight") == parse_coverage("1 sq yd/lb")
    assert Fraction(1, 10**4) == parse_rate("1 cm2/h")


@pytest.mark.parametrize(
    ("word", "dimension", "name"),
    [
        ("imperal pint", "volume", "imperial pint"),
        ("hectar", "area", "ha"),
        ("weaks", "time", "weeks"),
        ("desilitre", "volume", "dl"),
    ],
)
def test_misspelt_rare_unit_is_named(word: str, dimension: Dimension, name: str) -> None:
    assert name == nearest_unit(word, dimension)


@pytest.mark.parametrize(("word", "dimension"), [("rud", "length"), ("hs", "area")])
def test_a_word_of_three_letters_is_like_too_many_others(word: str, dimension: Dimension) -> None:
    assert nearest_unit(word, dimension) not in ("rod", "ha")


def test_pint_is_asked_only_for_what_is_not_in_the_table(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[str] = []

    def ask(unit: Unit) -> Fraction:
        asked.append(unit.name)
        return Fraction(1)

    monkeypatch.setattr("surfacecalc.units.registry.size_of", ask)
    factor.cache_clear()
    for name in SIZES:
        factor(name)
    assert [] == asked
    factor("rod")
    factor.cache_clear()
    assert ["rod"] == asked


def test_pint_knows_what_is_refused_here() -> None:
    """The refusals above are the rule's doing: pint itself would take these."""
    registry: Any = pint.UnitRegistry(non_int_type=Fraction)
    taken = ["kin", "mft", "point", "cup", "ton", "month", "hand"]
    assert all(registry.Quantity(Fraction(1), word).magnitude == 1 for word in taken)
