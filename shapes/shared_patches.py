"""Parts that stand in each other with faces flush, whose shared patch could belong to either.

The union of two such solids leaves the shared patch to one of them, as the kernel happens to work.
Taking the one solid out of the other first settles it, whatever the order of the parts. That is
exact, and so done, only between solids whose faces are all square to the axes: where a sloping or a
round face is cut, the two sides of the cut would no longer lie on each other to the last digit.
"""

from collections.abc import Iterator, Sequence

import numpy as np

from shapes.solids import Floats, Ints, Solid
from shapes.tolerances import LEVEL_UNITS, SAME_DIRECTION


def flush_pairs(solids: Sequence[Solid], places: Floats) -> Iterator[tuple[int, int]]:
    """Yield pairs of square solids that stand in each other and have faces flush.

    A pair may be named although only the boxes of the faces overlap; never the other way round.

    Args:
        solids: the solids.
        places: where the corner of each one's box stands [grid units], shape (solids, 3).
    """
    low = places
    high = low + np.array([solid.size for solid in solids], dtype=np.float64)
    planes: dict[int, tuple[Floats, Floats, Floats]] = {}
    for first, second in overlapping_boxes(low, high):
        if not (solids[first].is_square and solids[second].is_square):
            continue
        for number in (first, second):
            if number not in planes:
                planes[number] = _flat_patches(solids[number], low[number])
        if _share_a_plane(planes[first], planes[second]):
            yield first, second


def overlapping_boxes(low: Floats, high: Floats) -> Iterator[tuple[int, int]]:
    """Yield pairs of boxes that share a volume, found along the axis with fewest candidates.

    Args:
        low: the lowest corner of each, shape (n, 3).
        high: the highest corner of each, shape (n, 3).
    """
    windows = [_windows(low[:, axis], high[:, axis]) for axis in range(3)]
    order, counts = min(windows, key=lambda window: int(window[1].sum()))
    first = np.repeat(np.arange(len(order)), counts)
    steps = np.arange(counts.sum()) - np.repeat(np.cumsum(counts) - counts, counts) + 1
    a, b = order[first], order[first + steps]
    share = (np.minimum(high[a], high[b]) > np.maximum(low[a], low[b])).all(axis=1)
    yield from zip(a[share].tolist(), b[share].tolist(), strict=True)


def _windows(low: Floats, high: Floats) -> tuple[Ints, Ints]:
    """Return the order by the low end, and how many begin after each and before its end."""
    order = np.argsort(low, kind="stable")
    ends = np.searchsorted(low[order], high[order], side="left")
    return order, np.maximum(ends - np.arange(len(order)) - 1, 0)


def _flat_patches(solid: Solid, place: Floats) -> tuple[Floats, Floats, Floats]:
    """Return normals (n, 3), levels along them (n,) and boxes (n, 2, 3) of the flat patches."""
    flat = [k for k, patch in enumerate(solid.patches) if patch.normal is not None]
    normals = np.array([solid.patches[k].normal for k in flat], dtype=np.float64).reshape(-1, 3)
    corners = [solid.vertices[solid.triangles[solid.patch_of == k]].reshape(-1, 3) for k in flat]
    boxes = np.array([[points.min(axis=0), points.max(axis=0)] for points in corners])
    first = np.array([points[0] for points in corners]).reshape(-1, 3) + place
    return normals, (normals * first).sum(axis=1), boxes.reshape(-1, 2, 3) + place


def _share_a_plane(
    first: tuple[Floats, Floats, Floats], second: tuple[Floats, Floats, Floats]
) -> bool:
    """Whether a patch of each lies in one plane, looks the same way, and their boxes overlap."""
    (normals, levels, boxes), (others, other_levels, other_boxes) = first, second
    same = (np.abs(normals[:, None] - others[None]) <= SAME_DIRECTION).all(axis=2)
    same &= np.abs(levels[:, None] - other_levels[None]) < LEVEL_UNITS
    low = np.maximum(boxes[:, None, 0], other_boxes[None, :, 0])
    high = np.minimum(boxes[:, None, 1], other_boxes[None, :, 1])
    overlap = (high - low > 0).sum(axis=2) >= 2
    return bool((same & overlap).any())
