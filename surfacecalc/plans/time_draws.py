"""What times may become: draws of hands-on work and of drying, one for each run of the plan.

Assumed, until a workshop has records of its own: ln(real / planned) is a sum of three normal parts,
one for the workshop (one pair of hands moves all its hours together, one air all its drying), one
for the kind of work or the product, one for this job. A time that is given as a range is drawn from
the range (triangular); the same sum says where in it, so that one hand moves these as well. A
written wait in one number is a decision, not an estimate: it is kept as it is.
"""

import math
from collections.abc import Iterable
from statistics import NormalDist

import numpy as np
import numpy.typing as npt

from surfacecalc.model.ranges import Factor
from surfacecalc.needs.draws import Draws, triangular
from surfacecalc.plans.drying import Lasting
from surfacecalc.work.rates import Sort

LN_SD_WORKSHOP, LN_SD_KIND, LN_SD_JOB = 0.16, 0.12, 0.11
"""Parts of the spread of a time that is one number, of its logarithm; assumed."""
LN_SD = math.hypot(LN_SD_WORKSHOP, LN_SD_KIND, LN_SD_JOB)
IN_NINE_OF_TEN = NormalDist().inv_cdf(0.95) * LN_SD
"""How far the logarithm of a time is off in nine of ten cases, up and down."""
SLOW_IS_LOW = ("rate",)
"""Quantities of which a slow hand has less."""

Drawn = npt.NDArray[np.float64]


class TimeDraws:
    """Draws times, the same ones whenever and in whatever order they are asked for."""

    def __init__(self, count: int, seed: int = 1) -> None:
        """Make draws.

        Args:
            count: how many.
            seed: changes all of them.
        """
        self.count = count
        self._draws = Draws(count, seed)
        normal = NormalDist()
        self._normal = np.array([normal.inv_cdf((k + 0.5) / count) for k in range(count)])
        self._kept: dict[tuple[str, str], Drawn] = {}
        self._worked: dict[tuple[Factor, Sort], Drawn] = {}
        self._dried: dict[Lasting, Drawn] = {}

    def work_times(self, factor: Factor, sort: Sort) -> Drawn:
        """Return how many times as long as likely work takes that comes from a time or a rate.

        Args:
            factor: the time or the rate.
            sort: the kind of work.
        """
        if (factor, sort) not in self._worked:
            self._worked[factor, sort] = self._work_times(factor, self._z("hand", sort))
        return self._worked[factor, sort]

    def _work_times(self, factor: Factor, z: Drawn) -> Drawn:
        if factor.what.quantity in SLOW_IS_LOW:
            return factor.range.likely / self._value(factor, -z)
        if not factor.range.likely:
            return np.ones(self.count)  # no set-up stays none
        return self._value(factor, z) / factor.range.likely

    def hours(self, times: Iterable[Lasting]) -> Drawn:
        """Return the longest of some drying times and waits in each draw [h]; 0 for none."""
        longest = np.zeros(self.count)
        for one in times:
            if one not in self._dried:
                z = self._z("air", one.factor.what.of or one.factor.draw_key)
                self._dried[one] = self._value(one.factor, z) * one.times
            longest = np.maximum(longest, self._dried[one])
        return longest

    def _value(self, factor: Factor, z: Drawn) -> Drawn:
        """Return the draws of a factor whose place in its spread is a standard normal number."""
        if not factor.range.is_fixed:
            below = np.array([0.5 * math.erfc(-one / math.sqrt(2)) for one in z])
            return triangular(below, factor.range)
        if factor.what.quantity == "wait":
            return np.full(self.count, factor.range.likely)
        return factor.range.likely * np.exp(LN_SD * z)

    def _z(self, common: str, kind: str) -> Drawn:
        """Return standard normal draws: of the workshop, the kind and this job."""
        if (common, kind) not in self._kept:
            parts = (
                LN_SD_WORKSHOP * self._standard(common)
                + LN_SD_KIND * self._standard(f"{common} for {kind}")
                + LN_SD_JOB * self._standard(f"{common} for {kind} in this job")
            )
            self._kept[common, kind] = parts / LN_SD
        return self._kept[common, kind]

    def _standard(self, key: str) -> Drawn:
        """Return stratified draws of a normal distribution, mean 0 and standard deviation 1."""
        drawn: Drawn = self._normal[(self._draws.uniform(key) * self.count).astype(int)]
        return drawn
