"""Which parts stand near each other, told from their boxes alone: cheap, and sure where it says no.

Boxes that stand apart hold parts that stand apart; boxes that meet may hold parts that do not.
"""

from collections.abc import Iterator, Sequence

import numpy as np
import numpy.typing as npt

from shapes.grid import to_mm
from shapes.parts import Part
from shapes.solids import Floats, Ints
from shapes.tolerances import GRID_PER_MM


def heaps(parts: Sequence[Part], air_mm: float) -> list[list[Part]]:
    """Return parts in heaps: between two heaps every two boxes are further apart than the air.

    Args:
        parts: the parts.
        air_mm: the widest air that still holds a heap together [mm].

    >>> from shapes.boards import board
    >>> from shapes.placement import place
    >>> row = [place(name, board(2, 2, 2), (x, 0, 0)) for name, x in (("a", 0), ("b", 3), ("c", 9))]
    >>> [[part.name for part in heap] for heap in heaps(row, 1)]
    [['a', 'b'], ['c']]
    """
    low, high = _boxes(parts)
    near = _Near(low, high, air_mm * GRID_PER_MM)
    waiting = np.ones(len(parts), dtype=np.bool_)
    found: list[list[Part]] = []
    for start in range(len(parts)):
        if waiting[start]:
            waiting[start] = False
            heap = edge = [start]
            while edge:
                edge = [new for one in edge for new in near.take(one, waiting)]
                heap = heap + edge
            found.append([parts[number] for number in sorted(heap)])
    return found


class _Near:
    """Finds boxes near a box, along the axis that leaves fewest to look at."""

    def __init__(self, low: Floats, high: Floats, air: float) -> None:
        self._low, self._high, self._air = low, high, air
        self._longest = (high - low).max(axis=0, initial=0.0)
        self._axis = min(range(3), key=self._candidates)
        self._order = np.argsort(low[:, self._axis], kind="stable")
        self._levels = low[self._order, self._axis]

    def _candidates(self, axis: int) -> int:
        """Return how many pairs an axis leaves to be looked at."""
        low, high = self._low[:, axis], self._high[:, axis]
        levels = np.sort(low)
        first = np.searchsorted(levels, low - self._longest[axis] - self._air)
        return int((np.searchsorted(levels, high + self._air, side="right") - first).sum())

    def take(self, one: int, waiting: npt.NDArray[np.bool_]) -> list[int]:
        """Return the waiting boxes near one, and let them wait no longer."""
        low, high = self._low[one], self._high[one]
        before = low[self._axis] - self._longest[self._axis] - self._air
        first = np.searchsorted(self._levels, before)
        last = np.searchsorted(self._levels, high[self._axis] + self._air, side="right")
        among = self._order[first:last]
        among = among[waiting[among]]
        gaps = np.maximum(self._low[among] - high, low - self._high[among])
        taken = among[(gaps <= self._air).all(axis=1)]
        waiting[taken] = False
        return [int(number) for number in taken]


def boxes_in_each_other(parts: Sequence[Part]) -> Iterator[tuple[Part, Part, float]]:
    """Yield two parts whose boxes share a volume, and that volume [mm3].

    >>> from shapes.boards import board
    >>> from shapes.placement import place
    >>> row = [place(name, board(2, 2, 2), (x, 0, 0)) for name, x in (("a", 0), ("b", 1), ("c", 3))]
    >>> [(a.name, b.name, mm3) for a, b, mm3 in boxes_in_each_other(row)]
    [('a', 'b', 4.0)]
    """
    low, high = _boxes(parts)
    order, ends = min((_windows(low[:, k], high[:, k]) for k in range(3)), key=_candidates)
    for place, end in enumerate(ends.tolist()):
        first, others = int(order[place]), order[place + 1 : end]
        sides = np.minimum(high[others], high[first]) - np.maximum(low[others], low[first])
        for row in np.flatnonzero((sides > 0).all(axis=1)).tolist():
            width, depth, height = (to_mm(side) for side in sides[row].tolist())
            earlier, later = sorted((first, int(others[row])))
            yield parts[earlier], parts[later], width * depth * height


def _boxes(parts: Sequence[Part]) -> tuple[Floats, Floats]:
    """Return the lowest and the highest corner of each box [grid units], shape (n, 3)."""
    low = np.array([part.at for part in parts], dtype=np.float64).reshape(-1, 3)
    size = np.array([part.solid.size for part in parts], dtype=np.float64).reshape(-1, 3)
    return low, low + size


def _windows(low: Floats, high: Floats) -> tuple[Ints, Ints]:
    """Return the order by the low end, and the place up to which others begin before each ends."""
    order = np.argsort(low, kind="stable")
    return order, np.searchsorted(low[order], high[order], side="left")


def _candidates(window: tuple[Ints, Ints]) -> int:
    """Return how many pairs an axis leaves to be looked at."""
    return int(window[1].sum())
