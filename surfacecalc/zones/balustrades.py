"""Rows of spindles between rails, which painters measure as one and count three times.

Source: stair rail and balustrade counted three times, the flat area of one side without a deduction
for the openings (G. D. Armstrong, Cyclopedia of Painting, 1908, p. 127). How far apart spindles may
stand and still be one balustrade is assumed.
"""

import itertools
import math
from collections.abc import Iterable, Sequence

from shapes.grid import to_mm
from shapes.parts import Part

TIMES = 3.0
"""What the flat area of one side of a balustrade counts."""
FEWEST = 3
"""Fewer spindles are single ones; assumed."""
WIDEST_GAP_MM = 150.0
"""Spindles further apart than this are worked one by one [mm]; assumed."""


def flat_sides_mm2(rows: Iterable[Sequence[Part]]) -> dict[str, float]:
    """Return each spindle's share of the flat side of its balustrade [mm2], by name.

    Args:
        rows: slender parts that stand in one row, row by row; a row that is no balustrade is
            passed over.
    """
    found: dict[str, float] = {}
    for row in rows:
        flat_mm2 = _flat_side_mm2(row)
        if flat_mm2 is not None:
            found.update(dict.fromkeys((part.name for part in row), flat_mm2 / len(row)))
    return found


def _flat_side_mm2(row: Sequence[Part]) -> float | None:
    """Return the flat area of one side of a balustrade [mm2], None for what is none."""
    if len(row) < FEWEST:
        return None
    first, *_, last = row
    size = first.solid.size
    along = size.index(max(size))
    across = [axis for axis in range(3) if axis != along]
    apart_mm = [
        math.hypot(*(to_mm(after.at[axis] - before.at[axis]) for axis in across))
        for before, after in itertools.pairwise(row)
    ]
    run = max(across, key=lambda axis: abs(last.at[axis] - first.at[axis]))
    breadth_mm = to_mm(size[run])
    if max(apart_mm) - breadth_mm > WIDEST_GAP_MM:
        return None
    return to_mm(size[along]) * (sum(apart_mm) + breadth_mm)
