"""Whether triangles in a plane share an area: a cheap test before any polygon is made."""

import numpy as np
import numpy.typing as npt

from shapes.solids import Floats

MANY = 200_000
"""Pairs of triangles tested at once; keeps the memory of one test below some 50 MB."""


def share_an_area(first: Floats, second: Floats) -> bool:
    """Whether any triangle of one set overlaps any of the other by more than an edge.

    Args:
        first: triangles, shape (n, 3, 2).
        second: triangles, shape (m, 3, 2).

    Source: separating axis theorem for convex polygons: two of them share no area when the line
    along an edge of one has them on its two sides. Common knowledge of the field.

    >>> low = np.array([[[0, 0], [2, 0], [0, 2]]], dtype=float)
    >>> share_an_area(low, low + 0.5), share_an_area(low, low + [2, 0])
    (True, False)
    """
    step = max(1, MANY // max(1, len(second)))
    return any(
        bool(_overlap(first[start : start + step], second).any())
        for start in range(0, len(first), step)
    )


def _overlap(first: Floats, second: Floats) -> npt.NDArray[np.bool_]:
    """Return which pairs overlap, shape (n, m)."""
    a, b = first[:, None], second[None]
    apart = np.zeros((len(first), len(second)), dtype=np.bool_)
    for triangles in (a, b):
        for k in range(3):
            edge = triangles[..., (k + 1) % 3, :] - triangles[..., k, :]
            axis = np.stack([-edge[..., 1], edge[..., 0]], axis=-1)[..., None, :]
            here, there = (a * axis).sum(axis=-1), (b * axis).sum(axis=-1)
            apart |= here.max(axis=-1) <= there.min(axis=-1)
            apart |= there.max(axis=-1) <= here.min(axis=-1)
    return ~apart
