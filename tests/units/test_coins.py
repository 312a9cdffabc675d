"""The smallest coins, and sums in whole coins that add up."""

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from iso4217 import Currency

from surfacecalc.units.coins import EVERYDAY, apportioned, coin_of, is_code, is_currency, rounded

EXAMPLES = settings(deadline=None)
"""A busy machine is slow; that is no mistake."""

CENT = Decimal("0.01")
AMOUNTS = st.decimals(-1_000_000, 1_000_000, places=7)
COINS = st.sampled_from([Decimal(1), CENT, Decimal("0.001"), Decimal("0.0001")])


@pytest.mark.parametrize(
    ("code", "coin"),
    [("EUR", "0.01"), ("USD", "0.01"), ("GBP", "0.01"), ("JPY", "1"), ("KRW", "1"), ("ISK", "1"),
     ("BHD", "0.001"), ("KWD", "0.001"), ("TND", "0.001"), ("CLF", "0.0001"),
     ("UYW", "0.0001"), (None, "0.01")],
)  # fmt: skip
def test_coin_is_the_minor_unit_of_iso_4217(code, coin):
    assert Decimal(coin) == coin_of(code)


def test_every_currency_of_the_list_has_its_minor_unit_those_of_every_day_too():
    """ISO 4217, list one; the few whose coin is not looked up must agree with it."""
    places = {one.code: one.exponent for one in Currency}
    assert {} == {
        code: (found, coin_of(code))
        for code, found in places.items()
        if is_currency(code) != (found is not None)
        or (found is not None and coin_of(code) != Decimal(1).scaleb(-found))
    }
    assert [2] * len(EVERYDAY) == [places[code] for code in EVERYDAY]


@pytest.mark.parametrize("code", ["EUX", "DEM", "XAU", "XXX", "XTS", "ABC"])
def test_what_nothing_can_be_priced_in_today_is_not_a_currency(code):
    assert is_code(code)
    assert not is_currency(code)


@pytest.mark.parametrize("value", ["usd", "US", "USDT", "\u0415UR", "", 978, None, ["USD"]])
def test_what_is_not_three_capitals_is_not_a_code(value):
    assert (False, False) == (is_code(value), is_currency(value))


@pytest.mark.parametrize(
    ("amount", "expected"),
    [("2.344999", "2.34"), ("2.345", "2.35"), ("2.355", "2.36"), ("-2.345", "-2.34"),
     ("-2.346", "-2.35"), ("0", "0.00"), ("-0.001", "0.00")],
)  # fmt: skip
def test_half_a_coin_goes_up(amount, expected):
    assert expected == str(rounded(Decimal(amount), CENT))


def test_three_thirds_of_a_coin_are_one_coin():
    third = Decimal(1) / 3
    assert (Decimal("0.34"), Decimal("0.33"), Decimal("0.33")) == apportioned(
        [third, third, third], Decimal(1), CENT
    )


def test_nothing_is_never_minus_nothing():
    assert ["0.00"] == [str(line) for line in apportioned([Decimal("-0.00")], Decimal(0), CENT)]


def test_line_that_lost_most_is_rounded_up_first():
    amounts = [Decimal("1.004"), Decimal("2.003"), Decimal("3.003"), Decimal("4.00")]
    expected = [Decimal("1.01"), Decimal("2.00"), Decimal("3.00"), Decimal("4.00")]
    assert expected == list(apportioned(amounts, Decimal("10.01"), CENT))


@EXAMPLES
@given(st.lists(AMOUNTS, max_size=12), COINS)
def test_lines_add_up_and_each_is_less_than_a_coin_off(amounts, coin):
    total = rounded(sum(amounts, Decimal(0)), coin)
    lines = apportioned(amounts, total, coin)
    assert total == sum(lines)
    for amount, line in zip(amounts, lines, strict=True):
        assert abs(amount - line) < coin
        assert 0 == line % coin


@EXAMPLES
@given(st.lists(AMOUNTS, min_size=1, max_size=12), COINS)
def test_what_is_in_whole_coins_stays_as_it_is(amounts, coin):
    amounts[0] = rounded(amounts[0], coin)
    lines = apportioned(amounts, rounded(sum(amounts, Decimal(0)), coin), coin)
    assert amounts[0] == lines[0]


@EXAMPLES
@given(AMOUNTS, st.integers(-1000, 1000), COINS)
def test_whole_coins_more_or_less_change_no_rounding(amount, count, coin):
    assert rounded(amount, coin) + count * coin == rounded(amount + count * coin, coin)
