"""Draws of times against the distributions that they are said to have."""

import math
from itertools import pairwise

import numpy as np
import pytest

from surfacecalc.model.inputs import Input, Quantity
from surfacecalc.model.ranges import Factor, Range
from surfacecalc.plans.drying import Lasting
from surfacecalc.plans.time_draws import IN_NINE_OF_TEN, TimeDraws

COUNT = 20_000
DRAWS = TimeDraws(COUNT)
CLOSE = 0.01
"""Relative: 20 000 stratified draws of three parts each; five standard errors of a deviation are
0.025 without stratifying."""


def factor(quantity: Quantity, *values: float, of: str = "paint") -> Factor:
    low, likely, high = values if len(values) == 3 else values * 3
    return Factor(Input(quantity, of=of), Range(low, likely, high), "assumed", unit="h")


def times(quantity: Quantity, *values: float, sort: str = "coat") -> np.ndarray:
    return DRAWS.work_times(factor(quantity, *values), sort)  # type: ignore[arg-type]


@pytest.mark.parametrize("quantity", ["time", "time each", "set-up", "rate"])
def test_one_number_has_the_assumed_spread_around_itself(quantity: Quantity) -> None:
    """0.16, 0.12 and 0.11 of the logarithm: 0.2283 together; 1.645 of it are nine in ten."""
    drawn = np.log(times(quantity, 4.0))
    assert pytest.approx(0, abs=0.002) == np.median(drawn)
    assert pytest.approx(0.2283, rel=CLOSE) == np.std(drawn)
    inside = np.mean(np.abs(drawn) < 1.645 * 0.2283)
    assert pytest.approx(0.9, abs=0.005) == inside
    assert pytest.approx(1.645 * 0.2283, rel=1e-3) == IN_NINE_OF_TEN


def test_drying_time_in_one_number_has_it_too_and_follows_the_temperature() -> None:
    drawn = DRAWS.hours([Lasting(factor("recoat", 4.0), 1.5)])
    assert pytest.approx(6.0, rel=0.002) == np.median(drawn)
    assert pytest.approx(0.2283, rel=CLOSE) == np.std(np.log(drawn))


def correlation(one: np.ndarray, other: np.ndarray) -> float:
    return float(np.corrcoef(np.log(one), np.log(other))[0, 1])


def test_one_hand_moves_all_work_together_and_none_of_the_drying() -> None:
    """The workshop's part of the variance: 0.0256 of 0.0521, 0.491."""
    coat, sand = times("time", 1.0), times("rate", 4.0, sort="sand")
    dries = [DRAWS.hours([Lasting(factor("recoat", 4.0, of=of))]) for of in ("paint", "varnish")]
    assert pytest.approx(0.491, abs=0.02) == correlation(coat, sand)
    assert pytest.approx(0.491, abs=0.02) == correlation(*dries)
    assert pytest.approx(0, abs=0.02) == correlation(coat, dries[0])
    assert np.array_equal(coat, times("set-up", 0.25))  # one kind of work is one draw


def test_range_is_drawn_from_and_only_from() -> None:
    """Triangular from 1 over 2 to 4 h: (x - 1)^2 / 3 of it up to 2, 1 - (4 - x)^2 / 6 beyond."""
    drawn = np.sort(2 * times("time", 1.0, 2.0, 4.0))
    for x in (1.5, 2.0, 3.0, 3.5):
        share = (x - 1) ** 2 / 3 if x <= 2 else 1 - (4 - x) ** 2 / 6
        assert pytest.approx(share, abs=0.005) == np.searchsorted(drawn, x) / COUNT
    assert 1 < drawn[0] < drawn[-1] < 4


def test_slow_hand_is_slow_by_rate_and_by_time() -> None:
    by_time, by_rate = times("time", 1.0, 2.0, 4.0), times("rate", 1.0, 2.0, 4.0)
    order = np.argsort(by_time)
    assert all(one <= other for one, other in pairwise(by_rate[order]))
    assert math.isclose(0.5, by_rate.min(), rel_tol=0.02)  # 2 over 4 m2 an hour
    assert math.isclose(2.0, by_rate.max(), rel_tol=0.02)


def test_written_wait_in_one_number_is_a_decision() -> None:
    assert {12.0} == set(DRAWS.hours([Lasting(factor("wait", 12.0))]))
    ranged = DRAWS.hours([Lasting(factor("wait", 10.0, 12.0, 20.0))])
    assert 10 < ranged.min() < ranged.max() < 20


def test_longest_of_several_times_counts_in_each_draw() -> None:
    one, other = Lasting(factor("dry", 1.0, 2.0, 9.0)), Lasting(factor("wait", 4.0))
    alone = DRAWS.hours([one])
    assert np.array_equal(np.maximum(alone, 4.0), DRAWS.hours([one, other]))
    assert {0.0} == set(DRAWS.hours([]))


@pytest.mark.parametrize("count", [3, 10, 200])
def test_few_draws_are_centred_as_well(count: int) -> None:
    drawn = TimeDraws(count).work_times(factor("time", 2.0), "sand")
    assert pytest.approx(0, abs=1e-12) == np.mean(np.log(drawn))


def test_no_set_up_stays_none() -> None:
    assert {1.0} == set(times("set-up", 0.0))


def test_same_draws_come_back_and_the_seed_changes_them() -> None:
    asked = factor("time", 2.0)
    assert np.array_equal(
        TimeDraws(50).work_times(asked, "sand"), TimeDraws(50).work_times(asked, "sand")
    )
    other = TimeDraws(50, seed=2).work_times(asked, "sand")
    assert not np.array_equal(TimeDraws(50).work_times(asked, "sand"), other)
