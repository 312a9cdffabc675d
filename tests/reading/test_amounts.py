"""What a message offers for a text that is nearly an amount, and for a measure that is missing."""

from collections.abc import Callable

import pytest

from surfacecalc.model.pieces import Piece
from surfacecalc.problems import Problem
from surfacecalc.reading.examples import in_unit, size_example
from surfacecalc.units.grammar import parse_amount

Read = Callable[[str], tuple[Piece | None, list[Problem]]]


def message(read: Read, table: str, unit: str = "in") -> str:
    """Return the one message about a part in a piece measured in a unit."""
    _, (found,) = read(f'[piece]\nname = "p"\nunit = "{unit}"\n[[part]]\nname = "a"\n{table}\n')
    return found.message


BOARD = 'shape = "board"\ndepth = 4\nheight = 1\nwidth = '


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("17 3/8", "17 3/8 in"),
        ("17.5", "17.5 in"),
        ("5 ft 2", "5 ft 2 in"),
        ("1O in", "10 in"),
        ("lO in", "10 in"),
        ("l0 1/2 in", "10 1/2 in"),
        ("1O0 mm", "100 mm"),
        ("1Oin", "10in"),
        ("5 ft l in", "5 ft 1 in"),
        ("O.5 in", "0.5 in"),
        ("I2 in", "12 in"),
        ("1 l/2 in", "1 1/2 in"),
        ("1O", "10 in"),
    ],
)
def test_length_that_is_nearly_one_is_offered_as_it_was_meant(
    text: str, meant: str, read: Read
) -> None:
    assert message(read, f'{BOARD}"{text}"').endswith(f'did you mean "{meant}"?')
    assert parse_amount(meant, "length") > 0


def test_length_without_a_unit_is_offered_in_the_unit_of_the_piece(read: Read) -> None:
    for unit in ("mm", "cm", "ft"):
        assert f'did you mean "7 {unit}"?' in message(read, f'{BOARD}"7"', unit)


@pytest.mark.parametrize("text", ["long", "oil", "in", "10 lo", "", "ll"])
def test_text_unlike_any_length_is_not_offered_as_one(text: str, read: Read) -> None:
    assert "did you mean" not in message(read, f'{BOARD}"{text}"')


@pytest.mark.parametrize(
    ("shape", "missing", "inches", "mm"),
    [
        ("case", "board", "0.75", "18"),
        ("case", "width", "24.5", "620"),
        ("door", "frame", "2.25", "60"),
        ("door", "recess", "0.25", "6"),
        ("leg", "width", "1.75", "45"),
        ("drawer", "front", "0.75", "19"),
    ],
)
def test_example_for_a_missing_measure_is_a_likely_one_in_the_unit_of_the_piece(
    shape: str, missing: str, inches: str, mm: str, read: Read
) -> None:
    keys = ["width", "depth", "height", "board", "front", "frame", "recess"]
    belong = {"case": keys[:4], "door": [*keys[:3], *keys[5:]], "leg": ["width", "height"],
              "drawer": keys[:5]}[shape]  # fmt: skip
    for unit, size in (("in", inches), ("mm", mm)):
        lines = "".join(f"{key} = 1\n" for key in belong if key != missing)
        said = message(read, f'shape = "{shape}"\n{lines}', unit)
        assert said == f"has no {missing}; add {missing} = {size}"


def test_example_of_a_profile_is_in_the_unit_of_the_piece(read: Read) -> None:
    said = message(read, 'shape = "leg"\nform = "turned"')
    assert said.endswith("add profile = [[0, 1.25], [15.75, 1.75]]")


@pytest.mark.parametrize("of", ["", "case", "leg", "drawer", "panel", "on_hand", "edge_profile"])
@pytest.mark.parametrize("key", ["width", "depth", "height", "board", "radius", "anything"])
def test_examples_are_sizes_of_the_same_order_in_every_unit(key: str, of: str) -> None:
    size_mm = float(size_example(key, of, "mm"))
    for unit in ("cm", "m", "in", "ft", None):
        text = size_example(key, of, unit).strip('"')
        written = text if text.endswith("in") else f"{text} {unit}"
        # Inches are rounded to a quarter, 6.35 mm, and never to nothing.
        assert pytest.approx(size_mm, abs=4) == float(parse_amount(written, "length"))


def test_example_of_several_lengths_is_turned_number_by_number() -> None:
    assert in_unit("[[0, 30], [400, 45]]", "in") == "[[0, 1.25], [15.75, 1.75]]"
    assert in_unit("[[0, 30], [400, 45]]", "mm") == "[[0, 30], [400, 45]]"
    assert in_unit("{ height = 100 }", "m") == "{ height = 0.1 }"


@pytest.mark.parametrize(
    ("unit", "size", "limit"),
    [
        ("in", 10.3125, "(5 5/32 in)"),
        ("mm", 100, "(50 mm)"),
        ("cm", 12.3, "(6.15 cm)"),
        ("ft", 1, "(0.5 ft)"),
    ],
)
def test_limit_is_told_as_finely_as_a_tape_measure_shows_it(
    unit: str, size: float, limit: str, read: Read
) -> None:
    table = f'shape = "case"\nwidth = "9 m"\ndepth = "9 m"\nheight = {size}\nboard = "2 m"'
    assert limit in message(read, table, unit)


def test_limit_of_ten_metres_is_told_in_inches_without_needless_figures(read: Read) -> None:
    said = message(read, 'shape = "leg"\nform = "turned"\nprofile = [[0, 1], [500, 2]]')
    assert said.endswith("10 m (393.7 in)")
