"""Ovals that a profile runs along, and their parallels, which are no ovals."""

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from shapes.errors import ShapeError
from shapes.outlines import Ring
from shapes.solids import Floats, Ints
from shapes.tolerances import CURVE_SEGMENTS

TOO_DEEP = "less deep: nothing would be left of one of the edges that it runs along"


@dataclass(frozen=True, eq=False)
class OvalPath:
    """An oval. It runs counter-clockwise, or clockwise where further out is inside.

    Attributes:
        ring: the oval.
        sign: 1 if further out is outside, -1 if it is inside.
    """

    ring: Ring
    sign: float

    is_closed = True
    is_linear = True

    @property
    def span_of(self) -> Ints:
        """Span of each edge of the polygon: all of them are one, shape (edges,)."""
        return self.ring.source

    @property
    def is_curved(self) -> npt.NDArray[np.bool_]:
        """Whether each span is curved, shape (1,)."""
        return np.ones(1, dtype=np.bool_)

    @property
    def moves(self) -> npt.NDArray[np.bool_]:
        """Whether each span moves outward, shape (1,)."""
        return np.ones(1, dtype=np.bool_)

    @property
    def ways(self) -> Floats:
        """A direction for its one span, which has many, shape (1, 2)."""
        return np.array([[1.0, 0.0]])

    @property
    def given(self) -> list[int]:
        """Number of the given point that its one span leaves."""
        return [0]

    @property
    def last_way(self) -> Floats:
        """The same, shape (2,)."""
        last: Floats = self.ways[0]
        return last

    @cached_property
    def _half(self) -> Floats:
        low, high = self.ring.box
        half: Floats = (high - low) / 2
        return half

    def check(self, offsets: Floats) -> None:
        """Check that its curve has no kinks that far out.

        Raises:
            ShapeError: where it has.
        """
        tightest = float(self._half.min() ** 2 / self._half.max())
        if (self.sign * offsets <= -tightest).any():
            raise ShapeError("profile", TOO_DEEP)

    def lengths(self, offsets: Floats) -> Floats:
        """Return how long the line is further out [grid units], shape (levels, 1).

        Source: J. Steiner: the parallel of a convex curve is 2 pi longer for each unit out.
        """
        lengths: Floats = float(self.ring.lengths.sum()) + 2 * math.pi * self.sign * offsets
        return lengths[:, None]

    def points(self, offsets: Floats) -> Floats:
        """Return the polygons further out [grid units], shape (levels, points, 2).

        Each encloses the area of the true line. Source: J. Steiner, as above: that of the oval,
        length times distance, and pi times its square.
        """
        out = self.sign * offsets
        turns = 2 * math.pi * (np.arange(CURVE_SEGMENTS) + 0.5) / CURVE_SEGMENTS
        around = np.stack([np.cos(turns), np.sin(turns)], axis=1)
        normals = around * self._half[::-1]
        normals /= np.hypot(normals[:, 0], normals[:, 1])[:, None]
        middle = self.ring.box.mean(axis=0)
        true = self.ring.area + float(self.ring.lengths.sum()) * out + math.pi * out * out
        at, lengths = out.copy(), self.lengths(offsets)[:, 0]
        for _ in range(4):
            corners = self._half * around + at[:, None, None] * normals
            at += (true - _areas(corners)) / lengths
        found: Floats = middle + self._half * around + at[:, None, None] * normals
        return found if self.sign > 0 else found[:, ::-1]

    def box(self, offset: float) -> Floats:
        """Return the least and greatest coordinates of the true line further out, shape (2, 2)."""
        out = self.sign * offset
        box: Floats = self.ring.box + np.array([[-out, -out], [out, out]])
        return box


def _areas(rings: Floats) -> Floats:
    """Return the area of each closed polygon, shape (levels,)."""
    after = np.roll(rings, -1, axis=1)
    crossed = rings[..., 0] * after[..., 1] - after[..., 0] * rings[..., 1]
    areas: Floats = crossed.sum(axis=1) / 2
    return areas
