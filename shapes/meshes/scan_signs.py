"""Whether a surface is a noisy scan at all, or a clean mesh that someone drew.

Edges of a drawn mesh look like noise to whatever measures noise, and would be smoothed away with
it. But noise leaves no two neighbouring triangles in one plane, and it moves neighbouring corners
each its own way, whereas a curved surface bends alike at both.

Measured on shapes made for it (boxes, legs, flutes, mouldings, knobs, balls, rings, cones, eight
meshes of furniture): flat edges make up 16 % and more of meshes drawn from flat faces or bands, at
most 3 % under noise of a twentieth of the sampling. Bends of neighbours correlate by 0.8 and more
on drawn balls and hulls, by -0.24 on a noisy panel, by at most 0.7 on noisy legs and knobs wherever
the noise added over 1 %.
"""

from typing import Any

import numpy as np

from shapes.meshes.edges import edges_of
from shapes.meshes.scan_noise import corner_normals
from shapes.solids import Floats, Ints

LEAST_CORNERS = 50
"""With fewer corners, nothing can be said of noise."""

FLAT_RADIANS = 0.003
"""Two triangles lie in one plane when they differ by less; files round to some 0.0001."""

MOST_FLAT = 0.1
"""A noisy scan has no larger share of flat edges."""

MOST_ALIKE = 0.75
"""Bends of neighbouring corners of a noisy scan correlate no closer."""

MOST_EVEN = 0.5
"""Of a noisy scan, one corner in ten bends less than so many times the median: 0.19 times, where
bends are normally distributed."""


def sign_of_drawing(vertices: Floats, smooth: Floats, triangles: Ints, average: Any) -> str | None:
    """Return what shows that a surface is no noisy scan, None if nothing does.

    Args:
        vertices: corners, shape (v, 3).
        smooth: the same corners after smoothing, shape (v, 3).
        triangles: corner numbers, shape (t, 3).
        average: matrix that puts each corner amid its neighbours, shape (v, v).
    """
    corners = len(np.unique(triangles))
    if corners < LEAST_CORNERS:
        return f"{corners} corners are too few to tell noise from shape"
    flat = _flat_share(vertices, triangles)
    if flat > MOST_FLAT:
        return f"{flat:.0%} of its edges lie within a plane, and noise would leave none there"
    bends = _bends(vertices, smooth, triangles, average)
    if _alikeness(bends, average) > MOST_ALIKE:
        return "neighbouring corners bend the same way, as a curve does and noise does not"
    tenth, half = np.quantile(np.abs(bends[np.unique(triangles)]), (0.1, 0.5))
    if tenth > MOST_EVEN * half:
        return "its corners bend all about as much, as a pattern does and noise does not"
    return None


def _flat_share(vertices: Floats, triangles: Ints) -> float:
    """Return the share of edges between two triangles at which the surface does not bend."""
    a, b, c = (vertices[triangles[:, k]] for k in range(3))
    normals = np.cross(b - a, c - a)
    normals /= np.maximum(np.linalg.norm(normals, axis=1, keepdims=True), 1e-300)
    edges = edges_of(triangles, len(vertices))
    two = edges.starts[edges.counts == 2]
    if not len(two):
        return 0.0
    first, second = (normals[edges.sides[two + k] // 3] for k in (0, 1))
    is_flat = np.linalg.norm(np.cross(first, second), axis=1) < FLAT_RADIANS
    return float(is_flat.mean())


def _bends(vertices: Floats, smooth: Floats, triangles: Ints, average: Any) -> Floats:
    """Return how far each corner stands off the middle of its neighbours, outward, shape (v,)."""
    normals = corner_normals(smooth, triangles)
    off: Floats = ((vertices - average @ vertices) * normals).sum(axis=1)
    return off


def _alikeness(bends: Floats, average: Any) -> float:
    """Return the correlation of the bend of each corner with the mean of its neighbours' bends."""
    squares = float((bends**2).mean())
    return float((bends * (average @ bends)).mean()) / squares if squares > 0 else 0.0
