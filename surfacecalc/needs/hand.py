"""How much more or less a hand uses than is worked out, until the workshop's own records tell.

What is used of a supply is what is worked out times a factor whose logarithm is a + b + e: a is the
workshop's, the same for all its supplies and jobs; b belongs to one supply and one way of putting
it on; e changes from job to job. All three are normal around zero. A label's coverage is thereby
never taken for a number that every hand reaches.

Source: assumed. No standard deviations were found published; the three are those that the record
of a workshop starts from before it has an entry. The form (levels whose variances add) is that of
hierarchical models: Gelman et al., Bayesian Data Analysis, 3rd edition, chapter 5.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from surfacecalc.model.inputs import Input
from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import ENDS_IN_SDS, Factor, Lognormal, Source

WORKSHOP_SD, SUPPLY_SD, JOB_SD = 0.16, 0.12, 0.11
"""Standard deviations of a, b and e, natural logarithm; assumed."""
WHOLE_SD = math.sqrt(WORKSHOP_SD**2 + SUPPLY_SD**2 + JOB_SD**2)


@dataclass(frozen=True)
class Hand:
    """Whose hand does the work, and in which job.

    Attributes:
        job: name of the piece, unlike that of any other piece of the same trip.
        times: how wide its spread is beside the assumed one; 0 takes every number as it is given.
        source: where that comes from.
    """

    job: str = ""
    times: float = 1.0
    source: Source = "assumed"

    @property
    def is_exact(self) -> bool:
        """Whether every number is taken as it is given."""
        return self.times == 0

    def given(self, factor: Factor) -> Factor:
        """Return a factor, without its assumed band where every number is taken as it is given."""
        return factor.as_given if self.is_exact else factor

    def factors(self, supply: str, way: str) -> tuple[Factor, ...]:
        """Return the factors that an amount of a supply is multiplied by.

        Args:
            supply: its name; empty for what is counted and depends on no hand.
            way: how it is put on; empty where that says nothing.
        """
        return tuple(self._all(supply, way)) if supply and not self.is_exact else ()

    def _all(self, supply: str, way: str) -> Iterator[Factor]:
        yield self._factor(Input("hand"), WORKSHOP_SD)
        yield self._factor(Input("hand with a supply", of=supply, by=way), SUPPLY_SD)
        yield self._factor(Input("hand in a job", of=supply, by=way, job=self.job), JOB_SD)

    def _factor(self, what: Input, log_sd: float) -> Factor:
        return Factor(what, Lognormal(1.0, log_sd * self.times), self.source, unit="times")


def hand_of(piece: Piece, job: str = "") -> Hand:
    """Return the hand that works on a piece.

    Args:
        piece: the piece.
        job: its name where several pieces may share one; default: its own.
    """
    spread = piece.workshop.own_spread
    job = job or piece.settings.name
    if spread is None:
        return Hand(job)
    return Hand(job, math.log1p(spread) / ENDS_IN_SDS / WHOLE_SD, "piece file")


def as_figure(factor: Factor) -> Factor:
    """Return the assumed figure behind a factor: that of a hand is the same for every supply."""
    if factor.what.quantity not in ("hand with a supply", "hand in a job"):
        return factor
    return replace(factor, what=Input(factor.what.quantity))
