"""Monte Carlo draws of the factors, and the points of what is made from them.

Distributions are propagated as JCGM 101:2008 describes ("Evaluation of measurement data, Supplement
1 to the GUM: propagation of distributions using a Monte Carlo method"), with one difference: the
draws of each factor are stratified (see `slices`), which makes the points steadier. The seed of a
factor comes from what it is alone, so that the order of a file changes nothing.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache

import numpy as np
import numpy.typing as npt

from surfacecalc.closeness import ROUNDING
from surfacecalc.model.inputs import Input
from surfacecalc.model.ranges import Factor, Lognormal, Number, Range, whole_chances
from surfacecalc.needs.slices import Slices, common, own

DRAWS = 65_536
"""Draws of each factor: other seeds move a 90 % point by 0.09 % (root of the mean
square over all supplies of all examples), and 0.5 % at most: measured with 12 seeds."""
LOW_POINT, MIDDLE, HIGH_POINT = 0.05, 0.5, 0.95


@dataclass(frozen=True)
class Points:
    """A need as people ask for it: 5 %, likely (half), 95 %, and the point that is bought for.

    Attributes:
        low: 1 job in 20 needs less.
        likely: half of all jobs need less.
        high: 1 job in 20 needs more.
        buy_for: what is bought for.
        bought_at: the share of jobs for which that is enough, where the need is a range.
    """

    low: float
    likely: float
    high: float
    buy_for: float
    bought_at: float = 1.0


class Draws:
    """Evaluates factors to one number for each draw; plain values stay plain.

    Args:
        count: how many draws: the square of a power of two.
        seed: changes all draws.

    Raises:
        ValueError: the count is no square of a power of two.
    """

    def __init__(self, count: int = DRAWS, seed: int = 1) -> None:
        self._count = count
        self._side = math.isqrt(count)
        if self._side**2 != count or self._side.bit_count() != 1:
            raise ValueError(f"{count} draws are not the square of a power of two")
        self._seed = seed
        self._drawn: dict[str, npt.NDArray[np.float64]] = {}
        self._products: dict[str, Number] = {}

    def __call__(self, factor: Factor) -> Number:
        """Return the draws of a factor, the same ones each time it is asked for."""
        if factor.range.is_fixed:
            return factor.range.likely
        if factor.draw_key not in self._drawn:
            self._drawn[factor.draw_key] = self._draw(factor)
        return self._drawn[factor.draw_key]

    def _draw(self, factor: Factor) -> npt.NDArray[np.float64]:
        values = factor.range
        if isinstance(values, Lognormal):
            normal_draws = _normal_slices(self._count)[self._slices(factor.what)]
            return values.median * np.exp(values.log_sd * normal_draws)
        uniform = self.uniform(factor.what)
        return whole(uniform, values) if factor.unit == "coats" else triangular(uniform, values)

    def product(self, factors: tuple[Factor, ...]) -> Number:
        """Return the product of factors, made once for all uses that are multiplied by it."""
        if not factors:
            return 1.0
        key = " x ".join(factor.draw_key for factor in factors)
        if key not in self._products:
            found: Number = self(factors[0])
            for factor in factors[1:]:
                found = found * self(factor)
            self._products[key] = found
        return self._products[key]

    def uniform(self, what: Input) -> npt.NDArray[np.float64]:
        """Return stratified draws between 0 and 1 that depend on the input and the seed only."""
        return (self._slices(what) + 0.5) / self._count

    def _slices(self, what: Input) -> Slices:
        if what.quantity == "hand":
            return common(self._side)
        return own(self._seed, what, self._side)


@cache
def _normal_slices(count: int) -> npt.NDArray[np.float64]:
    """Return the middle of each equally likely slice of a standard normal distribution."""
    return normal((np.arange(count) + 0.5) / count)


def shares_of_spread(
    drawn: Number, factors: Iterable[Factor], draws: Draws
) -> tuple[tuple[Factor, float], ...]:
    """Return what share of a need's variance each ranged factor brings, the largest first.

    Args:
        drawn: the need, one number or one for each draw.
        factors: the factors that it was made from; of those that vary as one, the last counts.
        draws: what evaluated them.

    Source: squared correlation with each independent input, scaled to a sum of one; exact for a
    sum, a fair guide for a product of narrow ranges (common practice).
    """
    ranged = {factor.draw_key: factor for factor in factors if not factor.range.is_fixed}.values()
    if isinstance(drawn, float) or not ranged or np.ptp(drawn) == 0:
        return ()
    off = drawn - drawn.mean()
    squares = [_square_of_correlation(off, draws(factor)) for factor in ranged]
    shares = [(factor, float(s / sum(squares))) for factor, s in zip(ranged, squares, strict=True)]
    return tuple(sorted(shares, key=lambda share: -share[1]))


def _square_of_correlation(off: npt.NDArray[np.float64], drawn: Number) -> float:
    """Return the squared correlation of draws less their mean with others, but for a factor.

    Without `numpy.dot`, whose threads wait for each other on a busy machine.
    """
    other = np.asarray(drawn) - np.mean(drawn)
    return float(np.einsum("i,i", off, other) ** 2 / np.einsum("i,i", other, other))


def triangular(uniform: npt.NDArray[np.float64], values: Range) -> npt.NDArray[np.float64]:
    """Return draws of a triangular distribution from draws between 0 and 1.

    Source: inverse of its distribution function, JCGM 101:2008 gives the distribution for a range
    with a most likely value as a case of its clause 6.4 (number of the clause from memory).
    """
    span = values.high - values.low
    peak = (values.likely - values.low) / span
    rising = values.low + np.sqrt(uniform * span * (values.likely - values.low))
    falling = values.high - np.sqrt((1 - uniform) * span * (values.high - values.likely))
    return np.where(uniform < peak, rising, falling)


def whole(uniform: npt.NDArray[np.float64], values: Range) -> npt.NDArray[np.float64]:
    """Return whole draws of a range, of the mean that it has, from draws between 0 and 1."""
    chances = whole_chances(values)
    drawn = np.full(len(uniform), float(min(chances)))
    for chance in list(chances.values())[:-1]:
        drawn += uniform > chance
    return drawn


def normal(uniform: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """Return draws of a standard normal distribution from draws between 0 and 1.

    Source: Wichura, "Algorithm AS 241: The percentage points of the normal distribution", Applied
    Statistics 37 (1988), 477-484: PPND7, right to 1 part in 10 million.
    """
    off = uniform - 0.5
    middle = 0.180625 - off * off
    near = off * _ratio(middle, _NEAR)
    tail = np.sqrt(-np.log(np.minimum(uniform, 1 - uniform)))
    far = np.where(tail <= 5, _ratio(tail - 1.6, _FAR), _ratio(tail - 5, _FARTHEST))
    return np.where(np.abs(off) <= 0.425, near, np.copysign(far, off))


def _ratio(at: npt.NDArray[np.float64], terms: "_Terms") -> npt.NDArray[np.float64]:
    above, below = terms
    return np.polyval(above[::-1], at) / np.polyval(below[::-1], at)


_Terms = tuple[tuple[float, ...], tuple[float, ...]]
_NEAR: _Terms = (
    (3.3871327179, 50.434271938, 159.29113202, 59.109374720),
    (1.0, 17.895169469, 78.757757664, 67.187563600),
)
_FAR: _Terms = (
    (1.4234372777, 2.7568153900, 1.3067284816, 0.17023821103),
    (1.0, 0.73700164250, 0.12021132975),
)
_FARTHEST: _Terms = (
    (6.6579051150, 3.0812263860, 0.42868294337, 0.017337203997),
    (1.0, 0.24197894225, 0.012258202635),
)


def points(drawn: Number, buy_for: float) -> Points:
    """Return the points of a need.

    Args:
        drawn: the need, one number or one for each draw.
        buy_for: the point that is bought for, a fraction of one.
    """
    if isinstance(drawn, float):
        return Points(drawn, drawn, drawn, drawn)
    low, middle, high, bought = quantiles(drawn, (LOW_POINT, MIDDLE, HIGH_POINT, buy_for))
    return Points(low, middle, high, bought, buy_for)


def quantiles(drawn: npt.NDArray[np.float64], shares: Sequence[float]) -> list[float]:
    """Return the values below which shares of the draws lie, to the bit as `numpy.quantile` does.

    That one imports numpy's masked arrays first, which takes 10 ms of every start.

    Args:
        drawn: the draws, at least one.
        shares: fractions of one.
    """
    last = len(drawn) - 1
    below = [math.floor(share * last) for share in shares]
    places = {place for low in below for place in (low, min(low + 1, last))}
    ordered = np.partition(drawn, sorted(places))
    found = []
    for share, low in zip(shares, below, strict=True):
        lower, upper = float(ordered[low]), float(ordered[min(low + 1, last)])
        along = share * last - low
        step = upper - lower
        found.append(lower + step * along if along < 0.5 else upper - step * (1 - along))
    return found


def chance_enough(drawn: Number, amount: float) -> float:
    """Return the chance that an amount is enough for a need; the last digits are rounding."""
    return float(np.mean(is_enough(drawn, amount)))


def is_enough(drawn: Number, amount: float) -> npt.NDArray[np.bool_]:
    """Return for each draw whether an amount is enough."""
    return np.asarray(np.asarray(drawn) * (1 - ROUNDING) <= amount)
