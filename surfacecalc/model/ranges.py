"""A value that is known only so well: low, likely, high; and where it comes from."""

import math
from dataclasses import dataclass, replace
from typing import Literal, Protocol

import numpy as np
import numpy.typing as npt

from surfacecalc.closeness import ROUNDING
from surfacecalc.model.inputs import Input, InputUnit

Source = Literal["label", "piece file", "own record", "published", "assumed"]
Number = float | npt.NDArray[np.float64]
"""One number, or one for each draw of a Monte Carlo run."""


@dataclass(frozen=True)
class Range:
    """Low, likely and high; triangular, low and high its extremes. All equal for a plain value."""

    low: float
    likely: float
    high: float

    @classmethod
    def fixed(cls, value: float) -> "Range":
        """Return the range of a plain value."""
        return cls(value, value, value)

    @property
    def is_fixed(self) -> bool:
        """Whether it is a plain value."""
        return self.low == self.high


ENDS_IN_SDS = 1.6448536269514722
"""A normal distribution has 9 of 10 of its values within so many standard deviations."""


@dataclass(frozen=True)
class Lognormal:
    """So many times as much, as likely more as less: its logarithm is normal.

    Attributes:
        median: half of all values lie below.
        log_sd: standard deviation of its natural logarithm, 0 for a plain value.
    """

    median: float
    log_sd: float

    @property
    def low(self) -> float:
        """The 5 % point: unlike that of a `Range` not its extreme."""
        return self.median * math.exp(-ENDS_IN_SDS * self.log_sd)

    @property
    def likely(self) -> float:
        """Its median."""
        return self.median

    @property
    def high(self) -> float:
        """The 95 % point."""
        return self.median * math.exp(ENDS_IN_SDS * self.log_sd)

    @property
    def is_fixed(self) -> bool:
        """Whether it is a plain value."""
        return self.log_sd == 0


Values = Range | Lognormal
"""What may be said of an input: each kind has its own draws."""


@dataclass(frozen=True)
class Factor:
    """An input of the arithmetic: a range and where it comes from.

    Attributes:
        what: what it is.
        range: its value.
        source: where it comes from.
        reference: the published source, where there is one.
        unit: of its value.
        is_band_assumed: whether the likely value was given as one number, and low and high are
            assumed around it.
    """

    what: Input
    range: Values
    source: Source
    reference: str = ""
    unit: InputUnit = "share"
    is_band_assumed: bool = False

    @property
    def draw_key(self) -> str:
        """One draw is made for each key, so that a factor used twice varies as one."""
        return self.what.draw_key

    def written(self, values: Range, where: str) -> "Factor":
        """Return what a step says itself in place of this default."""
        what = replace(self.what, where=where)
        return replace(
            self, what=what, range=values, source="piece file", reference="", is_band_assumed=False
        )

    @property
    def as_given(self) -> "Factor":
        """The same without a band that is only assumed: one number stays one number."""
        if not self.is_band_assumed:
            return self
        return replace(self, range=Range.fixed(self.range.likely), is_band_assumed=False)


class Evaluate(Protocol):
    """Turns a factor into a number, or into one number for each draw."""

    def __call__(self, factor: Factor) -> Number:
        """Return the value of a factor."""
        ...


def likely(factor: Factor) -> float:
    """Return the likely value of a factor; of coats the whole number that half the jobs need."""
    if factor.unit == "coats" and isinstance(factor.range, Range):
        return float(likely_whole(factor.range))
    return factor.range.likely


def highest(factor: Factor) -> float:
    """Return the highest value of a factor."""
    return factor.range.high


def whole_chances(values: Range) -> dict[int, float]:
    """Return the chance of at most each whole number: there is no half of a coat.

    A draw of the range is rounded up or down at random, up the more often the nearer it is to the
    number above, so that the mean stays what it was. The largest number has the chance 1.

    Source: P(N <= n) = G(n + 1) - G(n), G being the integral of the distribution function (worked
    out here); of a triangular one in closed form.

    >>> whole_chances(Range(2, 2, 3))
    {2: 0.6666666666666665, 3: 1.0}
    """
    first, last = math.floor(values.low), math.ceil(values.high)
    if values.is_fixed:
        part = values.low - first
        return {first: 1 - part, last: 1.0} if part else {first: 1.0}
    sums = [_integral(values, n) for n in range(first, last + 1)]
    below = {first + k: sums[k + 1] - sums[k] for k in range(last - first)}
    return {**below, last: 1.0}


def _integral(values: Range, t: float) -> float:
    """Return the integral of a triangular distribution function up to t."""
    low, mode, high = values.low, values.likely, values.high
    if t <= low:
        return 0.0
    if t <= mode:
        return (t - low) ** 3 / (3 * (high - low) * (mode - low))
    above = (high - t) ** 3 / (3 * (high - low) * (high - mode)) if t < high else 0.0
    return t - (low + mode + high) / 3 + above


def likely_whole(values: Range) -> int:
    """Return the whole number that half of all draws do not go beyond."""
    chances = whole_chances(values)
    return min(number for number, chance in chances.items() if chance >= HALF)


def whole_odds(factor: Factor) -> dict[int, float]:
    """Return the chance of each whole number of a range."""
    values = factor.range
    assert isinstance(values, Range)  # noqa: S101 - coats are counted, no factor around one
    odds, before = {}, 0.0
    for number, chance in whole_chances(values).items():
        odds[number] = chance - before
        before = chance
    return odds


HALF = 0.5 - ROUNDING
"""One half, less rounding."""
