"""From a rate to a price and back: worked by hand, and what holds for any job."""

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from surfacecalc.model.pricing import Pricing
from surfacecalc.prices.statements import JobCosts, pay_for, price_for
from surfacecalc.units.coins import rounded

EXAMPLES = settings(deadline=None)
"""A busy machine is slow; that is no mistake."""

CENT = Decimal("0.01")
LINES = ("piece", "supplies", "work", "overhead", "margin", "delivery", "tax")


def money(text):
    return Decimal(text)


def test_price_for_a_rate_worked_by_hand_line_by_line(job):
    """Piece 50, supplies 32.18, 4.5 h at 40; overhead 10 %, margin 15 %, delivery 40, tax 8 %.

    work      4.5 x 40                    = 180.00
    overhead  10 % x (32.18 + 180)        =  21.218
    cost      50 + 32.18 + 180 + 21.218   = 283.398
    price     283.398 / 0.85              = 333.409412
    margin    333.409412 - 283.398        =  50.011412
    net       333.409412 + 40             = 373.409412, so 373.41
    tax       8 % x 373.41                =  29.8728, so 29.87
    total     373.41 + 29.87              = 403.28
    deposit   30 % x 403.28               = 120.984, so 120.98

    In whole cents 283.398 + 50.011412 = 333.409412 is 333.41: of 21.218 and 50.011412 the first
    lost more by rounding down, so overhead is 21.22 and the margin 50.01.
    """
    terms = {"piece": 50, "overhead": 0.1, "margin": 0.15, "tax": 0.08, "deposit": 0.3}
    told = price_for(job("32.18", "4.5", delivery=40, **terms), Decimal(40))
    assert money("50.00") == told.piece
    assert money("32.18") == told.supplies
    assert money("180.00") == told.work
    assert money("21.22") == told.overhead
    assert money("283.40") == told.cost
    assert money("50.01") == told.margin
    assert money("333.41") == told.price
    assert money("40.00") == told.delivery
    assert money("373.41") == told.net
    assert money("29.87") == told.tax
    assert money("403.28") == told.total
    assert money("120.98") == told.deposit
    assert money("282.30") == told.balance


def test_pay_of_a_price_worked_by_hand_line_by_line(job):
    """The same job, sold for 324: tax 8 % in it, so net 300; less delivery 40, price 260.

    margin    15 % x 260                       =  39
    left      260 - 39 - 50                    = 171, for supplies, hours and overhead
    work      171 / 1.1 - 32.18                = 123.274545
    overhead  10 % x (32.18 + 123.274545)      =  15.545455
    an hour   123.274545 / 4.5                 =  27.394343
    """
    terms = {"piece": 50, "overhead": 0.1, "margin": 0.15, "tax": 0.08, "deposit": 0.3}
    told = pay_for(job("32.18", "4.5", delivery=40, **terms), Decimal(324))
    assert (money("324.00"), money("24.00"), money("300.00")) == (told.total, told.tax, told.net)
    assert (money("260.00"), money("39.00")) == (told.price, told.margin)
    assert (money("123.27"), money("15.55")) == (told.work, told.overhead)
    assert money("27.394343") == told.rate.quantize(Decimal("0.000001"))
    assert (money("97.20"), money("226.80")) == (told.deposit, told.balance)


def test_bought_for_50_and_sold_for_250_after_four_hours_is_50_an_hour_before_supplies(job):
    """Common practice among those who sell what they refinish, no source: (250 - 50) / 4."""
    assert Decimal(50) == pay_for(job(piece=50), Decimal(250)).rate


def test_margin_is_a_share_of_the_price_and_no_mark_up(job):
    """A cost of 160 with a margin of 20 % is 200; with a mark-up of 20 % it would be 192."""
    told = price_for(job(margin=0.2), Decimal(40))
    assert (money("160.00"), money("40.00"), money("200.00")) == (
        told.cost, told.margin, told.price,
    )  # fmt: skip


def test_overhead_is_a_share_of_supplies_and_hours_but_not_of_the_piece(job):
    told = price_for(job(40, 4, piece=1000, overhead=0.1), Decimal(40))
    assert money("20.00") == told.overhead


def test_delivery_bears_tax_but_no_margin(job):
    told = price_for(job(0, 1, margin=0.5, tax=0.1, delivery=20), Decimal(100))
    assert (money("200.00"), money("22.00"), money("242.00")) == (
        told.price, told.tax, told.total,
    )  # fmt: skip


def test_price_that_does_not_cover_the_rest_pays_less_than_nothing(job):
    """Sold for 60, bought for 50, supplies 30: 20 are lost in 4 h."""
    assert Decimal(-5) == pay_for(job(30, 4, piece=50), Decimal(60)).rate


def test_hours_that_pay_nothing_bear_no_overhead(job):
    """Sold for 20, supplies 30, overhead 10 % of them is 3: 13 are lost in 4 h."""
    told = pay_for(job(30, 4, overhead=0.1), Decimal(20))
    assert (money("3.00"), money("-13.00"), Decimal("-3.25")) == (
        told.overhead, told.work, told.rate,
    )  # fmt: skip


def test_price_below_delivery_has_no_margin(job):
    told = pay_for(job(0, 1, margin=0.5, delivery=40), Decimal(10))
    assert (money("0.00"), money("-30.00")) == (told.margin, told.work)


def test_yen_have_no_smaller_coin(job):
    told = price_for(job("333.4", 3, Decimal(1), overhead=0.1, tax=0.1), Decimal(2500))
    assert ("333", "7500", "784") == tuple(map(str, (told.supplies, told.work, told.overhead)))
    assert ("862", "9479") == (str(told.tax), str(told.total))


amounts = st.decimals(0, 5000, places=2)
shares = st.decimals(0, Decimal("0.95"), places=4)


@st.composite
def jobs(draw):
    pricing = Pricing(
        line=1, piece=draw(amounts), delivery=draw(amounts), overhead=draw(shares),
        margin=draw(shares), tax=draw(shares), deposit=draw(shares),
    )  # fmt: skip
    supplies = draw(st.decimals(0, 5000, places=6))
    hours = draw(st.decimals(Decimal("0.05"), 500, places=3))
    return JobCosts(pricing, supplies, hours, CENT)


rates = st.decimals(0, 300, places=2)


@EXAMPLES
@given(jobs(), st.decimals(0, 50_000, places=2))
def test_price_to_rate_to_price_is_the_same_within_a_cent(job, asked):
    told = pay_for(job, asked)
    assert asked == told.total
    if told.rate >= 0:
        assert abs(asked - price_for(job, told.rate).total) <= CENT


@EXAMPLES
@given(jobs(), rates)
def test_rate_to_price_to_rate_is_the_same_within_what_a_cent_makes(job, rate):
    """Rounding moves the total by a coin or so; an hour gets its share of that."""
    told = price_for(job, rate)
    assert abs(rate - pay_for(job, told.total).rate) <= 2 * CENT / job.hours


@EXAMPLES
@given(jobs(), rates)
def test_lines_add_up_and_none_is_a_coin_off(job, rate):
    told = price_for(job, rate)
    assert told.total == sum(getattr(told, line) for line in LINES)
    assert told.total == told.deposit + told.balance
    exact_work = rate * job.hours
    exact_overhead = job.pricing.overhead * (job.supplies + exact_work)
    assert abs(told.work - exact_work) < CENT
    assert abs(told.overhead - exact_overhead) < CENT
    assert rounded(told.net * job.pricing.tax, CENT) == told.tax
    assert {0} == {getattr(told, line) % CENT for line in LINES}


@EXAMPLES
@given(jobs(), st.decimals(0, 50_000, places=2))
def test_lines_of_a_given_price_add_up_to_it(job, asked):
    told = pay_for(job, asked)
    assert asked == sum(getattr(told, line) for line in LINES)
    assert told.overhead >= 0
    assert told.margin >= 0
    assert abs(told.work - told.rate * job.hours) < CENT


@EXAMPLES
@given(jobs(), rates)
def test_margin_is_its_share_of_the_price(job, rate):
    told = price_for(job, rate)
    assert abs(told.margin - job.pricing.margin * told.price) <= 2 * CENT


@EXAMPLES
@given(jobs(), rates, st.decimals(0, 100, places=3))
def test_more_hours_never_make_a_lower_price(job, rate, more):
    longer = JobCosts(job.pricing, job.supplies, job.hours + more, job.coin)
    assert price_for(job, rate).total <= price_for(longer, rate).total


@EXAMPLES
@given(jobs(), st.decimals(0, 50_000, places=2), st.decimals(0, 1000, places=2))
def test_higher_price_never_pays_less(job, asked, more):
    assert pay_for(job, asked).rate <= pay_for(job, asked + more).rate


@EXAMPLES
@given(jobs(), rates)
def test_supplies_have_one_value_whatever_the_price(job, rate):
    assert price_for(job, rate).supplies == pay_for(job, Decimal(100)).supplies


@pytest.mark.parametrize("places", [0, 3])
def test_other_coins_add_up_as_well(job, places):
    coin = Decimal(1).scaleb(-places)
    told = price_for(job("77.7777", "3.3", coin, overhead=0.123, tax=0.19), Decimal("41.3"))
    assert told.total == sum(getattr(told, line) for line in LINES)
    assert 0 == told.total % coin
