"""Sealed voids: which triangles of a closed surface no brush gets to."""

import numpy as np
import numpy.typing as npt

from shapes.solids import Floats, Ints, triangle_areas
from shapes.tolerances import LEVEL_UNITS


def sealed_triangles(vertices: Floats, triangles: Ints) -> npt.NDArray[np.bool_]:
    """Return which triangles lie in a sealed void or on a body inside one, shape (t,).

    Between many touching boxes the kernel may leave two faces back to back, a void without volume.

    Args:
        vertices: corners [grid units], shape (v, 3).
        triangles: corner numbers, outward, shape (t, 3).
    """
    body_of = _bodies(len(vertices), triangles)[triangles[:, 0]]
    _, body_of = np.unique(body_of, return_inverse=True)
    corners = vertices - vertices.mean(axis=0)
    first, second, third = (corners[triangles[:, k]] for k in range(3))
    volumes = np.bincount(body_of, (first * np.cross(second, third)).sum(axis=1) / 6)
    areas = np.bincount(body_of, triangle_areas(vertices, triangles))
    is_void = volumes < areas * LEVEL_UNITS
    is_sealed = is_void.copy()
    if (~is_void).sum() == 1:
        return is_sealed[body_of]  # the one body around the voids is outside all of them
    for void in np.flatnonzero(is_void):
        wall = triangles[body_of == void]
        for body in np.flatnonzero(~is_sealed):
            inner = triangles[np.flatnonzero(body_of == body)[0]]
            is_sealed[body] = is_inside(vertices[inner].mean(axis=0), vertices[wall])
    return is_sealed[body_of]


def _bodies(count: int, triangles: Ints) -> Ints:
    """Return for each vertex the lowest vertex it is connected to, shape (count,)."""
    lowest = np.arange(count)
    while True:
        best = np.repeat(lowest[triangles].min(axis=1), 3)
        lower = lowest.copy()
        np.minimum.at(lower, triangles.ravel(), best)
        lower = lower[lower]
        if np.array_equal(lower, lowest):
            return lowest
        lowest = lower


def is_inside(point: Floats, wall: Floats) -> bool:
    """Whether a point lies inside a closed surface, by the solid angle that it fills.

    Args:
        point: shape (3,).
        wall: triangles of the surface, shape (t, 3, 3).

    Source: A. van Oosterom, J. Strackee, "The Solid Angle of a Plane Triangle", IEEE Transactions
    on Biomedical Engineering 30 (1983) 125-126 (formula from memory).
    """
    a, b, c = (wall[:, k] - point for k in range(3))
    la, lb, lc = (np.linalg.norm(side, axis=1) for side in (a, b, c))
    volume = (a * np.cross(b, c)).sum(axis=1)
    dots = la * lb * lc + (a * b).sum(1) * lc + (b * c).sum(1) * la + (c * a).sum(1) * lb
    angle = 2 * np.arctan2(volume, dots).sum()
    return bool(abs(angle) > 2 * np.pi)
