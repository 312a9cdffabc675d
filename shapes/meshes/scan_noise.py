"""How noisy a scanned surface is.

Two estimates are made, and the smaller one counts. One takes what smoothing moves across the
surface: it is blind to wide curves but takes fine detail for noise. The other takes, at each
corner, the straightest of the lines through it: it is blind to everything that runs straight some
way (edges, flutes, mouldings) but takes a ball for noise. Noise alone shows in both. Medians over
all corners are taken, so a few sharp places tell nothing.
"""

import numpy as np

from shapes.solids import Floats, Ints

MOVED_PER_NOISE = 0.572
"""Median distance that smoothing moves a corner across a flat panel, over the noise's standard
deviation; from a simulated panel of 7 676 corners with three lines through each."""

BENT_PER_NOISE = 0.296
"""The same for the offset from the straightest line through a corner."""

MOST_NEIGHBOURS = 8
"""Neighbours of a corner that are looked at; a scan has 6 at most corners."""

LEAST_OPPOSITE = -0.8
"""Two neighbours make a line through a corner when the cosine between them is below this: within
37 degrees of straight."""

CHUNK = 50_000
"""Corners looked at together: 64 cosines each, some 50 MB."""


def edges_of(triangles: Ints) -> tuple[Ints, Ints]:
    """Return the edges, lower corner first, and how many triangles use each.

    >>> edges_of(np.array([[0, 1, 2]]))[0].tolist()
    [[0, 1], [0, 2], [1, 2]]
    """
    pairs = np.sort(triangles[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1)
    count = int(triangles.max()) + 1
    keys, uses = np.unique(pairs[:, 0] * count + pairs[:, 1], return_counts=True)
    return np.stack([keys // count, keys % count], axis=1), uses


def corner_normals(vertices: Floats, triangles: Ints) -> Floats:
    """Return the unit normal at each corner, triangles weighted by area; zero where none is."""
    a, b, c = (vertices[triangles[:, k]] for k in range(3))
    across = np.cross(b - a, c - a)
    totals = np.stack(
        [
            np.bincount(triangles.ravel(), np.repeat(across[:, k], 3), len(vertices))
            for k in range(3)
        ],
        axis=1,
    )
    unit: Floats = totals / np.maximum(np.linalg.norm(totals, axis=1, keepdims=True), 1e-300)
    return unit


def noise_of(vertices: Floats, smooth: Floats, triangles: Ints, edges: Ints) -> tuple[float, float]:
    """Return the noise across the surface (standard deviation), and the distance of neighbours.

    Args:
        vertices: corners, shape (v, 3).
        smooth: the same corners after ten rounds of smoothing, shape (v, 3).
        triangles: corner numbers, shape (t, 3).
        edges: pairs of neighbours, shape (e, 2).

    Returns:
        Both in the unit of the corners; the distance is the median.
    """
    normals = corner_normals(smooth, triangles)
    used = np.unique(triangles)
    moved = np.abs(((vertices - smooth) * normals).sum(axis=1))[used]
    noise = float(np.median(moved)) / MOVED_PER_NOISE
    bent = _bends(vertices, smooth, normals, _neighbours(edges, len(vertices)))
    bent = bent[np.isfinite(bent)]
    if len(bent):
        noise = min(noise, float(np.median(bent)) / BENT_PER_NOISE)
    lengths = np.linalg.norm(smooth[edges[:, 0]] - smooth[edges[:, 1]], axis=1)
    return noise, float(np.median(lengths))


def _neighbours(edges: Ints, count: int) -> Ints:
    """Return up to eight neighbours of each corner, -1 for none, shape (count, 8)."""
    corner, other = np.concatenate([edges, edges[:, ::-1]]).T
    order = np.argsort(corner, kind="stable")
    corner, other = corner[order], other[order]
    place = np.arange(len(corner)) - np.searchsorted(corner, corner)
    kept = place < MOST_NEIGHBOURS
    table = np.full((count, MOST_NEIGHBOURS), -1)
    table[corner[kept], place[kept]] = other[kept]
    return table


def _bends(vertices: Floats, smooth: Floats, normals: Floats, neighbours: Ints) -> Floats:
    """Return how far each corner lies off the straightest line through it, infinite without one."""
    bends = np.full(len(vertices), np.inf)
    for start in range(0, len(vertices), CHUNK):
        mine = slice(start, start + CHUNK)
        bends[mine] = _chunk_bends(vertices, smooth, normals, neighbours[mine], start)
    return bends


def _chunk_bends(
    vertices: Floats, smooth: Floats, normals: Floats, neighbours: Ints, start: int
) -> Floats:
    """Return the same for some corners from `start` on.

    Lines are found on the smoothed surface. The offset is taken along the normal, between the two
    ends in proportion to their distances, and divided by what noise of 1 makes of it.
    """
    own = np.arange(start, start + len(neighbours))
    normal = normals[own, None, :]
    aside = smooth[neighbours] - smooth[own, None, :]
    aside = aside - (aside * normal).sum(axis=2, keepdims=True) * normal
    lengths = np.linalg.norm(aside, axis=2)
    units = aside / np.maximum(lengths, 1e-300)[:, :, None]
    cosines = units @ units.transpose(0, 2, 1)
    missing = neighbours < 0
    cosines[missing[:, None, :] | missing[:, :, None]] = 2.0
    opposite = cosines.argmin(axis=2)
    share = lengths / np.maximum(lengths + np.take_along_axis(lengths, opposite, axis=1), 1e-300)
    other = np.take_along_axis(neighbours, opposite, axis=1)
    between = (1 - share)[:, :, None] * vertices[neighbours] + share[:, :, None] * vertices[other]
    offsets = np.abs(((vertices[own, None, :] - between) * normal).sum(axis=2))
    offsets /= np.sqrt(1 + share**2 + (1 - share) ** 2)
    offsets[cosines.min(axis=2) > LEAST_OPPOSITE] = np.inf
    offsets[missing] = np.inf
    least: Floats = offsets.min(axis=1)
    return least
