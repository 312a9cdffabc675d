"""Money is written in whole coins of its currency, the same on every paper."""

from decimal import Decimal

import pytest

from surfacecalc.units.money import format_money, json_number, money_with_code, money_with_sign


@pytest.mark.parametrize(
    ("amount", "currency", "shown", "in_column"),
    [
        ("75", "EUR", "75", "75.00"),
        ("6.5", "EUR", "6.50", "6.50"),
        ("1234.5", None, "1,234.50", "1,234.50"),
        ("0", "USD", "0", "0.00"),
        ("1234", "JPY", "1,234", "1,234"),
        ("9.125", "KWD", "9.125", "9.125"),
        ("9.5", "KWD", "9.500", "9.500"),
        ("9.1234", "CLF", "9.1234", "9.1234"),
        ("-4.5", "USD", "-4.50", "-4.50"),
        ("-0.001", "USD", "0", "0.00"),
        ("2.345", "EUR", "2.35", "2.35"),  # half a coin goes up, as in every sum
    ],
)
def test_money_has_the_decimals_of_its_coin_or_none(amount, currency, shown, in_column):
    assert shown == format_money(Decimal(amount), currency)
    assert in_column == format_money(Decimal(amount), currency, is_column=True)


def test_money_has_the_sign_of_its_currency_or_its_code():
    texts = [money_with_sign(Decimal("480.5"), one) for one in ("USD", "GBP", "CHF", "KWD", None)]
    assert ["$480.50", "\N{POUND SIGN}480.50", "480.50 CHF", "480.500 KWD", "480.50"] == texts
    assert "-$4.50" == money_with_sign(Decimal("-4.5"), "USD")
    assert ("9 EUR", "9") == (money_with_code(Decimal(9), "EUR"), money_with_code(Decimal(9), None))


@pytest.mark.parametrize(
    ("amount", "number"), [("38", "38"), ("38.00", "38"), ("9.125", "9.125"), (None, "None")]
)
def test_a_json_number_is_whole_where_the_amount_is(amount, number):
    assert number == repr(json_number(None if amount is None else Decimal(amount)))
