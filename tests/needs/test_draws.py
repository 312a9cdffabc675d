"""Draws of factors, and the points of a need."""

import itertools
import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from surfacecalc.model.inputs import Input
from surfacecalc.model.ranges import Factor, Lognormal, Range
from surfacecalc.needs.draws import (
    DRAWS,
    Draws,
    normal,
    points,
    quantiles,
    shares_of_spread,
    triangular,
    whole,
)


def test_a_plain_value_stays_a_plain_value(factor):
    assert 10.0 == Draws()(factor("covers", 10.0))


def test_a_factor_asked_for_twice_is_the_same_draw(factor):
    draws = Draws(count=256)
    assert draws(factor("covers", 8.0, 10.0, 12.0)) is draws(factor("covers", 8.0, 10.0, 12.0))


INPUTS = [
    Input("hand"),
    Input("coats", where="line 3"),
    Input("coverage", of="moss green"),
    Input("hand with a supply", of="moss green", by="brush"),
    Input("hand in a job", of="moss green", by="brush", job="Chair"),
    Input("first coat", of="moss green"),
    Input("coverage", of="shell white"),
]


@pytest.mark.parametrize("what", INPUTS, ids=lambda what: what.draw_key)
def test_draws_fill_each_equally_likely_slice_once(what):
    drawn = np.sort(Draws(count=1_024).uniform(what))
    # 1e-15: one division near one
    assert ((np.arange(1_024) + 0.5) / 1_024) == pytest.approx(drawn, abs=1e-15)


@pytest.mark.parametrize("what", INPUTS[1:], ids=lambda what: what.draw_key)
def test_in_each_block_of_the_hand_every_input_fills_each_coarse_slice_once(what):
    """Counted cell by cell: 32 slices of the hand times 32 of the other have one draw each."""
    draws = Draws(count=1_024)
    cells = [np.floor(32 * draws.uniform(one)).astype(int) for one in (INPUTS[0], what)]
    assert (np.bincount(32 * cells[0] + cells[1], minlength=1_024) == 1).all()


@pytest.mark.parametrize(("one", "other"), list(itertools.combinations(INPUTS, 2)))
def test_inputs_do_not_depend_on_each_other(one, other):
    """The mean of exp(2 (x + y)) of two independent uniform draws is ((exp(2) - 1) / 2) squared.

    So no pair of draws leans to a common corner; nor to an opposite one, by exp(2 (x - y)).
    """
    x, y = (Draws().uniform(what) for what in (one, other))
    half = (math.exp(2) - 1) / 2
    # 0.005: four standard errors; var exp(2 x) = 3.19 is that of their joint part, over 256 of 10.2
    assert half**2 == pytest.approx(np.mean(np.exp(2 * (x + y))), rel=0.005)
    assert half * (1 - math.exp(-2)) / 2 == pytest.approx(np.mean(np.exp(2 * (x - y))), rel=0.005)


def test_another_seed_makes_other_draws():
    one, other = (Draws(count=256, seed=seed).uniform(INPUTS[1]) for seed in (1, 2))
    assert (one != other).any()


@pytest.mark.parametrize("count", [100, 1_000, 512])
def test_a_count_that_cannot_be_laid_out_in_blocks_is_refused(count):
    with pytest.raises(ValueError, match=f"{count} draws are not the square of a power of two"):
        Draws(count=count)


@pytest.mark.parametrize("values", [(8, 10, 14), (8, 8, 14), (8, 14, 14), (0.25, 0.4, 0.75)])
def test_triangular_draws_keep_inside_their_range(values):
    low, _, high = values
    drawn = triangular(Draws().uniform(INPUTS[1]), Range(*values))
    assert DRAWS == len(drawn)
    assert np.isfinite(drawn).all()
    assert low <= drawn.min()
    assert drawn.max() <= high
    # the outermost of all draws is within half of 1 % of the width of either end
    assert low == pytest.approx(drawn.min(), abs=0.005 * (high - low))
    assert high == pytest.approx(drawn.max(), abs=0.005 * (high - low))


def test_more_of_the_uniform_draw_is_never_less_of_the_triangular_one():
    drawn = triangular(np.linspace(0, 1, 10_001), Range(2.0, 3.0, 7.0))
    assert (np.diff(drawn) > 0).all()
    assert (2.0, 7.0) == (drawn[0], drawn[-1])


def test_the_points_of_a_plain_value_are_equal():
    found = points(0.3, 0.9)
    assert [0.3] * 4 == [found.low, found.likely, found.high, found.buy_for]


def test_points_are_the_5_the_95_and_the_wanted_per_cent_point():
    """Of the whole numbers from 0 to 100 the p per cent point is p, the likely one the middle."""
    found = points(np.arange(101.0), 0.8)
    # 1e-12: linear interpolation between whole numbers
    assert (5.0, 50.0, 95.0, 80.0) == pytest.approx(
        (found.low, found.likely, found.high, found.buy_for), rel=1e-12
    )


def test_a_sum_spreads_by_the_variances_of_its_terms(factor):
    """Ranges of widths 3 and 1 around their middles: nine parts of the variance to one."""
    draws = Draws()
    wide, narrow, plain = factor("wide", 0, 1.5, 3), factor("narrow", 0, 0.5, 1), factor("plain", 2)
    shares = shares_of_spread(draws(wide) + draws(narrow) + 2, [plain, narrow, wide], draws)
    assert [wide, narrow] == [found for found, _ in shares]
    # 0.01: 50 000 random pairings leave a correlation of about 1 / sqrt(50 000) = 0.0045
    assert (0.9, 0.1) == pytest.approx([share for _, share in shares], abs=0.01)
    # 1e-12: rounding of a sum of two quotients
    assert 1.0 == pytest.approx(sum(share for _, share in shares), rel=1e-12)


def test_nothing_drives_the_spread_of_a_plain_value(factor):
    assert () == shares_of_spread(2.0, [factor("plain", 2.0)], Draws())


@given(
    st.lists(st.floats(-1e6, 1e6), min_size=1, max_size=40),
    st.lists(st.floats(0, 1), min_size=1, max_size=4),
)
def test_quantiles_are_those_of_numpy_to_the_bit(drawn: list[float], shares: list[float]) -> None:
    assert np.quantile(drawn, shares).tolist() == quantiles(np.array(drawn), shares)


def test_quantiles_of_all_draws_are_those_of_numpy_to_the_bit() -> None:
    drawn = np.random.default_rng(1).gamma(3, size=DRAWS)
    shares = [0.0, 0.05, 0.5, 0.9, 0.95, 1.0]
    assert np.quantile(drawn, shares).tolist() == quantiles(drawn, shares)


def test_normal_draws_are_those_of_scipy() -> None:
    uniform = np.concatenate([np.linspace(1e-9, 1 - 1e-9, 10_001), [1e-15, 1e-12, 1 - 1e-12]])
    # 2e-6: the published coefficients promise 1 part in 10 million, of up to 8 deviations
    assert stats.norm.ppf(uniform) == pytest.approx(normal(uniform), abs=2e-6)


def test_a_lognormal_factor_has_its_median_and_its_spread() -> None:
    drawn = Draws()(Factor(Input("hand"), Lognormal(2.0, 0.16), "assumed"))
    # 1e-4: the middle two slices lie around the median, the outermost half a slice from the end
    assert math.log(2.0) == pytest.approx(np.median(np.log(drawn)), abs=1e-4)
    assert pytest.approx(np.std(np.log(drawn)), abs=1e-4) == 0.16


def test_the_ends_of_a_lognormal_factor_hold_nine_draws_of_ten() -> None:
    values = Lognormal(1.0, 0.12)
    drawn = Draws()(Factor(Input("hand"), values, "assumed"))
    # 2 / 65 536: a slice at each end
    assert pytest.approx(np.mean((values.low < drawn) & (drawn < values.high)), abs=4e-5) == 0.9


COATS = [(2, 2, 3), (1, 2, 3), (1, 1, 4), (2, 3, 3), (0, 1, 2), (2, 2, 6), (1, 2.5, 5)]


@pytest.mark.parametrize("values", COATS)
def test_coats_are_whole_and_keep_their_mean(values) -> None:
    """A triangular distribution from a to b around m has the mean (a + m + b) / 3."""
    drawn = whole(Draws().uniform(INPUTS[1]), Range(*values))
    assert (drawn == np.round(drawn)).all()
    assert (values[0], values[2]) == (drawn.min(), drawn.max())
    # 1e-4: each whole number gets its share of 65 536 draws, give or take one
    assert sum(values) / 3 == pytest.approx(drawn.mean(), abs=1e-4)


@pytest.mark.parametrize("values", COATS)
def test_coats_are_a_triangular_draw_rounded_at_random(values) -> None:
    """Each number as often as where a draw of numpy's own is rounded up with its fraction."""
    random = np.random.default_rng(5)
    plain = random.triangular(values[0], values[1], values[2], size=400_000)
    rounded = np.floor(plain) + (random.uniform(size=plain.size) < plain % 1)
    drawn = whole(Draws().uniform(INPUTS[1]), Range(*values))
    for number in range(values[0], values[2] + 1):
        # 0.004: four standard errors of 400 000 draws
        assert np.mean(rounded == number) == pytest.approx(np.mean(drawn == number), abs=0.004)


def test_a_factor_of_coats_is_drawn_whole() -> None:
    coats = Factor(Input("coats", where="here"), Range(2, 2, 3), "piece file", unit="coats")
    # two thirds of the jobs need two coats: the mean is 7 / 3
    assert {2.0: 2 / 3, 3.0: 1 / 3} == pytest.approx(
        {number: np.mean(Draws()(coats) == number) for number in (2.0, 3.0)}, abs=1e-4
    )
