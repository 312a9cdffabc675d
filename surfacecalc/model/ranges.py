"""A value that is known only so well: low, likely, high; and where it comes from."""

from dataclasses import dataclass, replace
from typing import Literal, Protocol

import numpy as np
import numpy.typing as npt

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


@dataclass(frozen=True)
class Factor:
    """An input of the arithmetic: a range and where it comes from.

    Attributes:
        what: what it is.
        range: its value.
        source: where it comes from.
        reference: the published source, where there is one.
        unit: of its value.
    """

    what: Input
    range: Range
    source: Source
    reference: str = ""
    unit: InputUnit = "share"

    @property
    def draw_key(self) -> str:
        """One draw is made for each key, so that a factor used twice varies as one."""
        return self.what.draw_key

    def written(self, values: Range, where: str) -> "Factor":
        """Return what a step says itself in place of this default."""
        what = replace(self.what, where=where)
        return replace(self, what=what, range=values, source="piece file", reference="")


class Evaluate(Protocol):
    """Turns a factor into a number, or into one number for each draw."""

    def __call__(self, factor: Factor) -> Number:
        """Return the value of a factor."""
        ...


def likely(factor: Factor) -> float:
    """Return the likely value of a factor."""
    return factor.range.likely


def highest(factor: Factor) -> float:
    """Return the highest value of a factor."""
    return factor.range.high
