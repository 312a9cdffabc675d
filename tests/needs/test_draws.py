"""Draws of factors, and the points of a need."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from surfacecalc.model.ranges import Range
from surfacecalc.needs.draws import DRAWS, Draws, points, quantiles, shares_of_spread, triangular


def test_a_plain_value_stays_a_plain_value(factor):
    assert 10.0 == Draws()(factor("covers", 10.0))


def test_a_factor_asked_for_twice_is_the_same_draw(factor):
    draws = Draws(count=100)
    assert draws(factor("covers", 8.0, 10.0, 12.0)) is draws(factor("covers", 8.0, 10.0, 12.0))


def test_draws_fill_each_equally_likely_slice_once():
    drawn = np.sort(Draws(count=1_000).uniform("covers"))
    # 1e-15: one division near one
    assert ((np.arange(1_000) + 0.5) / 1_000) == pytest.approx(drawn, abs=1e-15)


def test_another_seed_makes_other_draws():
    assert (Draws(count=100, seed=1).uniform("a") != Draws(count=100, seed=2).uniform("a")).any()


@pytest.mark.parametrize("values", [(8, 10, 14), (8, 8, 14), (8, 14, 14), (0.25, 0.4, 0.75)])
def test_triangular_draws_keep_inside_their_range(values):
    low, _, high = values
    drawn = triangular(Draws().uniform("covers"), Range(*values))
    assert DRAWS == len(drawn)
    assert np.isfinite(drawn).all()
    assert low <= drawn.min()
    assert drawn.max() <= high
    # the outermost of 50 000 draws is within half of 1 % of the width of either end
    assert low == pytest.approx(drawn.min(), abs=0.005 * (high - low))
    assert high == pytest.approx(drawn.max(), abs=0.005 * (high - low))


def test_more_of_the_uniform_draw_is_never_less_of_the_triangular_one():
    drawn = triangular(np.linspace(0, 1, 10_001), Range(2.0, 3.0, 7.0))
    assert (np.diff(drawn) > 0).all()
    assert (2.0, 7.0) == (drawn[0], drawn[-1])


def test_the_points_of_a_plain_value_are_equal():
    found = points(0.3, 0.3, 0.9)
    assert [0.3] * 4 == [found.low, found.likely, found.high, found.buy_for]


def test_points_are_the_5_the_95_and_the_wanted_per_cent_point():
    """Of the whole numbers from 0 to 100 the p per cent point is p."""
    found = points(np.arange(101.0), 42.0, 0.8)
    # 1e-12: linear interpolation between whole numbers
    assert (5.0, 42.0, 95.0, 80.0) == pytest.approx(
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
