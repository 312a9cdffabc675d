"""A value that is known only so well: low, likely, high; and where it comes from."""

from dataclasses import dataclass
from typing import Literal, Protocol

import numpy as np
import numpy.typing as npt

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
        key: one draw is made for each key, so that a factor used twice varies as one.
        range: its value.
        source: where it comes from.
        reference: the published source, where there is one.
        unit: what its value counts, where its key does not tell: "m2/L", "m2", "L", "kg", "h",
            "m2/h" or a word such as "coats"; a share where neither does.
    """

    key: str
    range: Range
    source: Source
    reference: str = ""
    unit: str = ""


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
