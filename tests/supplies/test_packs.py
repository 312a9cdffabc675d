"""Which packs are bought: cost, then left over, then how many, then how large."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from surfacecalc.supplies.packs import TooManyPacksError, choose_packs
from surfacecalc.supplies.unpriced import _most_reached, _reached


def texts(found):
    return [(pack.text, count) for pack, count in found]


def test_two_small_packs_are_bought_where_they_are_cheaper_than_a_large_one(pack):
    packs = [pack("1 L", 34), pack("500 ml", 16)]
    assert [("500 ml", 2)] == texts(choose_packs(packs, 0.9))


@pytest.mark.parametrize("prices", [(6, 4, 1), (None, None, None)], ids=["priced", "unpriced"])
def test_two_packs_are_better_than_three_of_which_one_is_larger(pack, prices):
    """0.8 L for the same money and with nothing left over: 400 + 400, or 600 + 100 + 100 ml."""
    packs = [pack(f"{size} ml", price) for size, price in zip((600, 400, 100), prices, strict=True)]
    assert [("400 ml", 2)] == texts(choose_packs(packs, 0.8))


def test_a_cent_less_is_less(pack):
    """Two at 6.24 are 12.48."""
    packs = [pack("1 L", "12.49"), pack("500 ml", "6.24")]
    assert [("500 ml", 2)] == texts(choose_packs(packs, 0.9))


def test_cheapest_is_not_what_a_greedy_shopper_takes(pack):
    """For 6 L: two of 3 L cost 20; the largest first, 5 L and 1 L, cost 15 + 9 = 24."""
    packs = [pack("5 L", 15), pack("3 L", 10), pack("1 L", 9)]
    assert [("3 L", 2)] == texts(choose_packs(packs, 6.0))


def test_a_large_pack_is_bought_where_it_is_cheaper_though_more_is_left(pack):
    assert [("1 L", 1)] == texts(choose_packs([pack("1 L", 20), pack("250 ml", 12)], 0.5))


def test_of_equal_cost_least_is_left_over(pack):
    """0.6 L for 20: either 1 L, or 500 ml and 250 ml with only 0.15 L left over."""
    packs = [pack("1 L", 20), pack("500 ml", 12), pack("250 ml", 8)]
    assert [("500 ml", 1), ("250 ml", 1)] == texts(choose_packs(packs, 0.6))


def test_of_equal_cost_and_left_over_fewest_packs_are_bought(pack):
    assert [("1 L", 1)] == texts(choose_packs([pack("500 ml", 10), pack("1 L", 20)], 0.9))


@pytest.mark.parametrize(
    ("large", "small", "needed"),
    [("1 pint", "8 fl oz", 0.4), ("8 oz", "4 oz", 0.2), ("1 lb", "1 oz", 0.45)],
)
def test_halves_of_a_us_measure_leave_no_less_over_than_the_whole(pack, large, small, needed):
    """A pint is 16 fluid ounces and a pound 16 ounces exactly: equal cost and left over."""
    shares = {"1 pint": 2, "8 oz": 2, "1 lb": 16}[large]
    packs = [pack(large, shares), pack(small, 1)]
    assert [(large, 1)] == texts(choose_packs(packs, needed))
    assert [(large, 1)] == texts(choose_packs([pack(large), pack(small)], needed))


def test_of_packs_alike_in_all_that_the_larger_ones_are_more(pack):
    """1.2 L in two packs for 24: 1 L and 200 ml, or two of 600 ml."""
    packs = [pack("600 ml", 12), pack("200 ml", 4), pack("1 L", 20)]
    assert [("1 L", 1), ("200 ml", 1)] == texts(choose_packs(packs, 1.2))


def test_without_a_price_least_left_over_counts_first(pack):
    """One price is missing, so the dearest mix is bought where it leaves least."""
    packs = [pack("1 L", 1), pack("250 ml", 100), pack("600 ml")]
    assert [("600 ml", 1), ("250 ml", 1)] == texts(choose_packs(packs, 0.8))


def test_without_a_price_fewest_packs_count_second(pack):
    assert [("1 L", 1)] == texts(choose_packs([pack("500 ml"), pack("1 L"), pack("250 ml")], 0.9))


def test_of_two_packs_of_a_size_the_cheaper_one_is_bought(pack):
    cheap, dear = pack("1 L", 10), pack("1 L", 12)
    assert ((cheap, 2),) == choose_packs([dear, cheap], 1.5)


def test_free_packs_cost_nothing(pack):
    assert [("250 ml", 4)] == texts(choose_packs([pack("1 L", 5), pack("250 ml", 0)], 1.0))


@pytest.mark.parametrize("needed", [0.0, -0.3])
def test_nothing_is_bought_where_nothing_is_needed(pack, needed):
    assert () == choose_packs([pack("1 L", 20)], needed)


def test_nothing_is_bought_where_nothing_is_on_offer():
    assert () == choose_packs([], 1.0)


@pytest.mark.parametrize(("over", "count"), [(0.9e-9, 1), (1.2e-9, 2)])
def test_a_billionth_more_than_a_pack_buys_no_second_one(pack, over, count):
    """Rounding in the last digits of a need is taken off, up to 1e-9 of it."""
    assert [("1 L", count)] == texts(choose_packs([pack("1 L", 20)], 1.0 + over))


def test_order_of_the_packs_changes_nothing(pack):
    packs = [pack("1 L", 20), pack("500 ml", 12), pack("250 ml", 8)]
    expected = choose_packs(packs, 1.7)
    assert expected == choose_packs(packs[::-1], 1.7)
    assert expected == choose_packs([packs[1], packs[2], packs[0]], 1.7)


def test_ten_thousand_packs_are_the_most(pack):
    assert [("1 ml", 10_000)] == texts(choose_packs([pack("1 ml", 1)], 10.0))
    with pytest.raises(TooManyPacksError, match="10,000 packs of 1 ml"):
        choose_packs([pack("1 ml", 1)], 10.001)


@settings(deadline=None)
@given(st.lists(st.integers(1, 40), min_size=1, max_size=3, unique=True), st.integers(1, 200))
def test_what_packs_reach_is_no_more_than_was_reckoned(sizes, target):
    """One size of 10 for 25 reaches 0, 10, 20 and 30: four amounts."""
    assert 4 == _most_reached([10], 25) == len(_reached([10], (0,), 25))
    sizes = sorted(sizes, reverse=True)
    reached = _reached(sizes, tuple(range(len(sizes))), target)
    assert len(reached) <= _most_reached(sizes, target)
