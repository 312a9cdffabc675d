"""What is on hand, told by depth or by weight."""

import math

import pytest
from piece_texts import piece_text

from surfacecalc.api import read_piece_text
from surfacecalc.reading.document import parse_document
from surfacecalc.reading.product_tables import read_products
from surfacecalc.reading.tables import Context, Table

VOLUME = 'covers = "10 m2/L"'
WEIGHT = 'covers = "50 m2/kg"'


def read(on_hand: str, covers: str = VOLUME) -> tuple[float | None, list[str]]:
    """Return what is on hand, and the messages."""
    text = f'[[product]]\nname = "p"\nkind = "paint"\n{covers}\non_hand = {on_hand}\n'
    document = parse_document(text.encode())
    context = Context(document.lines)
    products, _ = read_products(Table(document.tables, (), "", context))
    return products["p"].on_hand if products else None, [
        f"{problem.line}: {problem.message}" for problem in context.problems
    ]


def test_round_jar_holds_depth_times_the_area_of_its_circle() -> None:
    amount, _ = read('{ depth = "10 cm", diameter = "8 cm" }')
    assert amount == pytest.approx(math.pi * 4**2 * 10 / 1000, rel=1e-12)


def test_square_jar_holds_depth_times_both_sides() -> None:
    assert read('{ depth = "5 cm", width = "8 cm", length = "6 cm" }') == (0.24, [])


def test_square_jar_with_one_side_is_as_long_as_wide() -> None:
    assert read('{ depth = "5 cm", width = "8 cm" }') == (0.32, [])


def test_weighed_jar_is_weight_less_the_empty_jar_by_density() -> None:
    amount, _ = read('{ weight = "450 g", empty = "60 g", density = "1.3 kg/L" }')
    assert amount == pytest.approx(0.3, rel=1e-12)


def test_weighed_wax_needs_no_density() -> None:
    amount, _ = read('{ weight = "160 g", empty = "60 g" }', WEIGHT)
    assert amount == pytest.approx(0.1, rel=1e-12)


@pytest.mark.parametrize(
    ("on_hand", "covers", "wrong"),
    [
        ('{ depth = "15 cm", diameter = "8 cm", height = "14 cm" }', VOLUME, "height of the jar"),
        ('{ depth = "5 cm", diameter = "8 cm", width = "8 cm" }', VOLUME, "if the jar is round"),
        ('{ diameter = "8 cm" }', VOLUME, "neither depth nor weight"),
        ('{ depth = "5 cm" }', VOLUME, "has no width"),
        ('{ depth = "5 cm", diameter = "8 cm" }', WEIGHT, "weigh the jar"),
        ('{ weight = "450 g" }', VOLUME, "has no density"),
        ('{ weight = "450 g", density = "1.3" }', VOLUME, "is not a density"),
        ('{ weight = "450 g", density = "1300 kg/L" }', VOLUME, "from 0.5 to 3"),
        ('{ weight = "45 g", empty = "60 g", density = "1 kg/L" }', VOLUME, "the full jar"),
        ('{ weigth = "450 g" }', VOLUME, 'did you mean "weight"?'),
        ('"-3 ml"', VOLUME, "zero or more"),
        ('"2000 L"', VOLUME, "check the unit"),
        ("3", VOLUME, "has no unit"),
    ],
)
def test_mistake_in_a_jar_is_told_with_its_line(on_hand: str, covers: str, wrong: str) -> None:
    amount, messages = read(on_hand, covers)
    assert amount is None
    assert any(message.startswith("5: ") and wrong in message for message in messages), messages


@pytest.mark.parametrize("amount", ["1/2 jar", "half a tin", "full", "2 cans"])
def test_part_of_a_jar_says_how_to_measure_it(amount: str) -> None:
    product = {"name": "it", "kind": "oil varnish", "on_hand": amount}
    coat = {"do": "coat", "product": "it", "coats": 2, "by": "brush"}
    (said,) = read_piece_text(piece_text(coat, product=product)).lines
    assert (
        f'on_hand = "{amount}" does not say how large the jar is; measure how deep the rest is'
        in said
    )
    assert said.endswith("see: surfacecalc guide products")


def test_part_of_a_jar_sold_by_weight_is_weighed() -> None:
    product = {"name": "it", "kind": "paste wax", "on_hand": "1/2 tin"}
    wax = {"do": "wax", "product": "it", "coats": 1, "by": "cloth"}
    (said,) = read_piece_text(piece_text(wax, product=product)).lines
    assert "weigh it, less the empty jar" in said


@pytest.mark.parametrize(
    ("written", "right"),
    [
        ("3 to 5 fl oz", 'is one amount, not a range; write the lower one: "3 fl oz"'),
        ("5-6 fl oz", 'is one amount, not a range; write the lower one: "5 fl oz"'),
        ("half a quart", 'is written in digits: "1/2 quart"'),
    ],
)
def test_what_is_on_hand_is_one_amount_in_digits(written: str, right: str) -> None:
    product = {"name": "it", "kind": "oil varnish", "on_hand": written}
    coat = {"do": "coat", "product": "it", "coats": 2, "by": "brush"}
    (said,) = read_piece_text(piece_text(coat, product=product)).lines
    assert said.endswith(f'on_hand = "{written}" {right}')
