"""`[price]`: money in whole coins, shares with a per cent sign, and what is wrong in one line."""

from collections.abc import Callable
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from surfacecalc.model.pieces import Piece
from surfacecalc.model.pricing import Pricing
from surfacecalc.problems import Problem
from surfacecalc.reading.price_table import KEYS

EXAMPLES = settings(deadline=None)
"""A busy machine is slow; that is no mistake."""

Read = Callable[[str], tuple[Piece | None, list[Problem]]]
PieceOf = Callable[[str], Piece]

HEAD = """\
[piece]
name = "p"
unit = "mm"
currency = "EUR"
[[part]]
name = "top"
shape = "board"
width = 100
depth = 60
height = 20
[price]
"""
LINES = HEAD.count("\n")


def pricing(piece_of: PieceOf, keys: str) -> Pricing:
    found = piece_of(f"{HEAD}{keys}\n").pricing
    assert found is not None
    return found


def mistake(read: Read, keys: str) -> str:
    """Return line in [price] and message of its one mistake."""
    piece, problems = read(f"{HEAD}{keys}\n")
    assert piece is None
    (found,) = problems
    assert (found.level, found.where) == ("mend", "price")
    assert found.line is not None
    return f"{found.line - LINES}: {found.message}"


def test_piece_without_price_has_no_pricing(piece_of: PieceOf) -> None:
    assert piece_of(HEAD.replace("[price]\n", "")).pricing is None


def test_every_key_is_read_exactly(piece_of: PieceOf) -> None:
    keys = """\
piece = 49.95
rate = 40
asked = 318.10
hours = 4.25
supplies = "bought"
overhead = "10 %"
margin = "12.5 %"
tax = "8.1 %"
deposit = "33 1/3 %"
delivery = 0.1"""
    expected = Pricing(
        line=LINES,
        piece=Decimal("49.95"),
        rate=Decimal(40),
        asked=Decimal("318.1"),
        hours=Decimal("4.25"),
        supplies="bought",
        overhead=Decimal("0.1"),
        margin=Decimal("0.125"),
        tax=Decimal("0.081"),
        deposit=Decimal("0.3333333333333333"),
        delivery=Decimal("0.1"),
    )
    assert expected == pricing(piece_of, keys)


def test_what_is_left_out_is_nothing(piece_of: PieceOf) -> None:
    assert Pricing(line=LINES, rate=Decimal(40)) == pricing(piece_of, "rate = 40")


@pytest.mark.parametrize(
    ("hours", "expected"),
    [("4", "4"), ("5.5", "5.5"), ('"4 h"', "4.0"), ('"90 min"', "1.5"), ("0.25", "0.25")],
)
def test_hours_are_a_number_or_a_time(hours: str, expected: str, piece_of: PieceOf) -> None:
    assert Decimal(expected) == pricing(piece_of, f"rate = 1\nhours = {hours}").hours


def test_largest_margin_is_read(piece_of: PieceOf) -> None:
    assert Decimal("0.99") == pricing(piece_of, 'rate = 1\nmargin = "99 %"').margin


@pytest.mark.parametrize(
    ("keys", "line", "found", "right"),
    [
        ("piece = 35", 0, "has neither rate nor asked", "add rate = 40"),
        ("rate = -1", 1, "rate = -1", "must be zero or more"),
        ("asked = -0.01", 1, "asked = -0.01", "must be zero or more"),
        ("rate = 1\npiece = -35", 2, "piece = -35", "must be zero or more"),
        ("rate = 1\ndelivery = -5", 2, "delivery = -5", "must be zero or more"),
        ("rate = nan", 1, "rate = nan", "must be an ordinary number"),
        ("asked = inf", 1, "asked = inf", "must be an ordinary number"),
        ("rate = 1\nhours = nan", 2, "hours = nan", "must be an ordinary number"),
        ("asked = 1e12", 1, "asked = 1", "far too large"),
        ("rate = true", 1, "rate = true", "must be a number"),
        ("rate = [30, 40, 45]", 1, "rate = [30, 40, 45]", "must be a number"),
        ('asked = "320 EUR"', 1, 'asked = "320 EUR"', "must be a plain number: asked = 320"),
        ('asked = "USD 319.50"', 1, '"USD 319.50"', "asked = 319.50; [piece] says that money is in"
         " EUR"),
        ('rate = "$40"', 1, 'rate = "$40"', "must be a plain number: rate = 40"),
        ('rate = "40"', 1, 'rate = "40"', "must be a plain number: rate = 40"),
        ('rate = "forty"', 1, 'rate = "forty"', "must be a plain number"),
        ("asked = 320.005", 1, "asked = 320.005",
         "more decimals than the smallest coin of EUR, 0.01"),
        ("rate = 1\npiece = 0.001", 2, "piece = 0.001", "more decimals than the smallest coin"),
        ("rate = 1\nhours = 0", 2, "hours = 0", "must be from 0.01 to 10,000 hours"),
        ("rate = 1\nhours = -4", 2, "hours = -4", "must be from 0.01 to 10,000 hours"),
        ("rate = 1\nhours = 10001", 2, "hours = 10001", "must be from 0.01 to 10,000 hours"),
        ('rate = 1\nhours = "4 m"', 2, 'hours = "4 m"', "but it must be a time"),
        ('rate = 1\nhours = "4"', 2, 'hours = "4"', "has no unit"),
        ('rate = 1\ntax = "8"', 2, 'tax = "8"', 'is not a percentage; write it like "10 %"'),
        ("rate = 1\ntax = 8", 2, "tax = 8", 'is not a percentage; write it like "10 %"'),
        ('rate = 1\ntax = "-8 %"', 2, 'tax = "-8 %"', "must be from 0 % to 100 %"),
        ('rate = 1\ntax = "101 %"', 2, 'tax = "101 %"', "must be from 0 % to 100 %"),
        ('rate = 1\ndeposit = "101 %"', 2, 'deposit = "101 %"', "must be from 0 % to 100 %"),
        ('rate = 1\nmargin = "100 %"', 2, 'margin = "100 %"', "from 0 % to 99 %, a share of"),
        ('rate = 1\nmargin = "99.9 %"', 2, 'margin = "99.9 %"', "must be from 0 % to 99 %"),
        ('rate = 1\nmargin = "-1 %"', 2, 'margin = "-1 %"', "must be from 0 % to 99 %"),
        ('rate = 1\noverhead = "1001 %"', 2, 'overhead = "1001 %"', "must be from 0 % to 1000 %"),
        ('rate = 1\nsupplies = "use"', 2, 'supplies = "use"', 'did you mean "used"?'),
        ('rate = 1\nmarkup = "25 %"', 2, 'markup = "25 %"', 'the price is margin = "20 %"'),
        ("rate = 1\nmark_up = 25", 2, "mark_up = 25", 'a mark-up of 25 % it is margin = "20 %"'),
        ('rate = 1\ncurrency = "EUR"', 2, "has a currency", "[piece] says that money is in EUR"),
        ("rate = 1\nvat = 3", 2, '"vat" is not known here', "use one of"),
        ("rate = 1\nhour = 3", 2, '"hour" is not known here', 'did you mean "hours"?'),
    ],
)  # fmt: skip
def test_mistake_is_one_line_that_says_what_would_be_right(
    keys: str, line: int, found: str, right: str, read: Read
) -> None:
    message = mistake(read, keys)
    assert message.startswith(f"{line}: ")
    assert found in message
    assert right in message


def test_coin_is_that_of_the_currency(read: Read, piece_of: PieceOf) -> None:
    yen = HEAD.replace("EUR", "JPY")
    assert (
        "more decimals than the smallest coin of JPY, 1"
        in read(f"{yen}asked = 320.5\n")[1][0].message
    )
    dinar = HEAD.replace("EUR", "KWD")
    found = piece_of(f"{dinar}asked = 320.125\n").pricing
    assert found is not None
    assert Decimal("320.125") == found.asked


VALUES = st.one_of(
    st.booleans(), st.integers(-(10**12), 10**12), st.floats(), st.text(max_size=12),
    st.sampled_from(["320 EUR", "10 %", "100 %", "-1 %", "90 min", "used", "8", "EUR"]),
    st.lists(st.integers(0, 9), max_size=3), st.dictionaries(st.just("a"), st.integers(0, 9)),
)  # fmt: skip


@EXAMPLES
@given(keys=st.dictionaries(st.sampled_from([*KEYS, "markup", "else"]), VALUES, max_size=6))
def test_whatever_stands_there_is_read_or_told_with_its_line(
    keys: dict[str, Any], read: Read, as_toml: Callable[[dict[str, Any]], str]
) -> None:
    table = as_toml({"price": keys}) if keys else "[price]\n"
    piece, problems = read(HEAD.replace("[price]\n", table))
    assert all(problem.line and problem.line >= LINES for problem in problems)
    assert (piece is None) == bool(problems)
    if piece is not None:
        found = piece.pricing
        assert found is not None
        money = (found.piece, found.delivery, found.rate or 0, found.asked or 0)
        assert all(0 <= amount <= 10**9 for amount in money)
        assert 0 <= found.margin <= Decimal("0.99")
        assert all(0 <= share <= 1 for share in (found.tax, found.deposit))


def test_several_mistakes_are_found_at_once(read: Read) -> None:
    _, problems = read(f'{HEAD}rate = -1\ntax = "8"\nmargin = "100 %"\nhours = 0\n')
    assert [LINES + 1, LINES + 2, LINES + 3, LINES + 4] == [p.line for p in problems]


def test_price_that_is_no_table_is_told(read: Read) -> None:
    text = HEAD.replace("[price]\n", "").replace("[piece]", "price = 5\n[piece]")
    (found,) = read(text)[1]
    assert (1, "price = 5 must be written [price]") == (
        found.line, found.message,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("piece", "price", "said"),
    [
        ('currency = "USD"', 'currency = "USD"', "take it out: [piece] says that money is in USD"),
        ("", 'currency = "USD"', 'it is set once, in [piece]: currency = "USD"'),
        ("", "currency = 3", "it is set once, in [piece]"),
        ('currency = "USD"', 'asked = "$180"', "must be a plain number: asked = 180"),
        ('currency = "USD"', 'asked = "180 USD"', "must be a plain number: asked = 180"),
        ('currency = "USD"', 'asked = "180 CAD"',
         "must be a plain number: asked = 180; [piece] says that money is in USD"),
        ("", 'asked = "180 USD"',
         'must be a plain number: asked = 180; the currency is set once, in [piece]: currency ='
         ' "USD"'),
        ("", 'asked = "a lot"',
         "must be a plain number: asked = 180; the currency is set once, in [piece]"),
    ],
)  # fmt: skip
def test_currency_that_is_advised_is_the_files_own(
    piece: str, price: str, said: str, read: Read
) -> None:
    """A file that says USD is never told to write another currency."""
    own = HEAD.replace('currency = "EUR"', piece)
    rate = "" if price.startswith("asked") else "rate = 40\n"
    _, problems = read(f"{own}{rate}{price}\n")
    assert [said] == [problem.message[-len(said) :] for problem in problems]


PACKS = {
    "product": 'kind = "oil varnish"\npacks = [{ size = "1 L", price = PRICE }]',
    "abrasive": 'form = "125 mm disc"\npacks = [{ count = 5, price = PRICE }]',
    "tape": 'packs = [{ length = "50 m", price = PRICE }]',
    "hardware": "packs = [{ count = 1, price = PRICE }]",
    "consumable": 'per = "1 coat"\npacks = [{ count = 1, price = PRICE }]',
}


@pytest.mark.parametrize("header", PACKS)
@pytest.mark.parametrize(
    ("currency", "coin", "in_coins", "finer"),
    [("JPY", "1", "850", "850.5"), ("EUR", "0.01", "8.55", "8.555"),
     ("KWD", "0.001", "8.555", "8.5555"), ("UYW", "0.0001", "8.5555", "8.55555")],
)  # fmt: skip
def test_price_of_a_pack_is_in_whole_coins(
    header: str, currency: str, coin: str, in_coins: str, finer: str, read: Read
) -> None:
    head = HEAD.replace("EUR", currency).replace("[price]\n", f'[[{header}]]\nname = "it"\n')
    found = read(head + PACKS[header].replace("PRICE", in_coins))[1]
    assert not any("coin" in problem.message for problem in found)
    problems = read(head + PACKS[header].replace("PRICE", finer))[1]
    (message,) = [one.message for one in problems if "coin" in one.message]
    right = f"price = {finer} has more decimals than the smallest coin of {currency}, {coin}"
    assert message.endswith(right)


def test_price_without_a_currency_has_two_decimals_at_most(read: Read) -> None:
    head = HEAD.replace('currency = "EUR"\n', "")
    (problem,) = read(f"{head}asked = 320.125\n")[1]
    rule = "0.01, the smallest coin where [piece] gives no currency"
    assert f"asked = 320.125 has more decimals than {rule}" == problem.message
