"""How large each kind of piece is, as the guided start knows it. Common practice.

The sizes are those of the whole piece, over its joined parts; what the guided start measures on a
kind may be less, such as the seat of a chair.
"""

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache

from surfacecalc.starting.measurements import BEYOND
from surfacecalc.starting.piece_kinds import Kind, kind_of
from surfacecalc.starting.scales import Scale

NEARLY = 0.06
"""Share of a size [of one] by which it may miss a limit: on a metric tape the guided start rounds
its limits, such as 1/4 in to 6 mm."""
_THICKNESSES = ("board", "post-thickness")
"""What makes the depth of a kind on which no depth is measured."""


@dataclass(frozen=True)
class SizeSpan:
    """From the least to the most that is usual [mm]."""

    least_mm: float
    most_mm: float

    def holds(self, size_mm: float) -> bool:
        """Whether a size is usual."""
        return self.least_mm * (1 - NEARLY) <= size_mm <= self.most_mm * (1 + NEARLY)


@dataclass(frozen=True)
class UsualSizes:
    """How large a kind of piece is.

    Attributes:
        spans: its width, depth and height.
        is_flat: whether it may as well be drawn lying as standing, such as a mirror.
    """

    spans: tuple[SizeSpan, ...]
    is_flat: bool

    def fit(self, sizes_mm: Iterable[float]) -> bool:
        """Whether a width, depth and height are usual, whichever way the piece is turned."""
        width, depth, height = sizes_mm
        turns: list[tuple[float, ...]] = [(width, depth, height), (depth, width, height)]
        if self.is_flat:
            turns = list(itertools.permutations(turns[0]))
        return any(
            all(span.holds(size) for size, span in zip(turned, self.spans, strict=True))
            for turned in turns
        )

    def widened(self) -> "UsualSizes":
        """Return the sizes that the guided start takes at all, once they are confirmed."""
        spans = (SizeSpan(span.least_mm / BEYOND, span.most_mm * BEYOND) for span in self.spans)
        return UsualSizes(tuple(spans), self.is_flat)

    def unlike(self, sizes_mm: Sequence[float]) -> list[int]:
        """Return which sizes are not usual: 0 the width, 1 the depth, 2 the height."""
        return [k for k, span in enumerate(self.spans) if not span.holds(sizes_mm[k])]


@cache
def usual_sizes(kind: str) -> UsualSizes:
    """Return the usual sizes of a kind of piece."""
    known = kind_of(kind)
    is_flat = all(measure.key != "depth" for measure in known.measures)
    depth = _span(known, _THICKNESSES if is_flat else ("depth",))
    # without posts, a headboard is its board; a set of fronts has drawer fronts too
    height = _span(known, ("height", "board-height", "drawer-height"))
    least_mm = height.least_mm - _most_mm(known, "lid-thickness")  # a lid lies apart
    most_mm = height.most_mm + _most_mm(known, "back-height")  # what is measured is the seat
    return UsualSizes((_span(known, ("width",)), depth, SizeSpan(least_mm, most_mm)), is_flat)


def _span(kind: Kind, keys: Sequence[str]) -> SizeSpan:
    """Return the span of all measures that have one of some keys."""
    measures = [measure for measure in kind.measures if measure.key in keys]
    least_mm = min(_length_mm(measure.least) for measure in measures)
    return SizeSpan(least_mm, max(_length_mm(measure.most) for measure in measures))


def _most_mm(kind: Kind, key: str) -> float:
    """Return the most of a measure, 0 where the kind does not have it."""
    return sum(_length_mm(measure.most) for measure in kind.measures if measure.key == key)


def _length_mm(inches: str) -> float:
    return float(Scale("in").common(inches))
