"""Smoothing of scanned surfaces, alike in all directions or along the way that runs straightest.

Across a flute of three samples, noise and shape look the same; along it only the noise is left. So
the way in which normals turn is taken at each corner from a wider neighbourhood, and neighbours
count the less, the more the surface turns towards them. On a panel all count alike.

Source: G. Taubin, "A signal processing approach to fair surface design", SIGGRAPH 1995, 351-358;
U. Clarenz, U. Diewald, M. Rumpf, "Anisotropic geometric diffusion in surface processing", IEEE
Visualization 2000, 397-405; the averaged tensor of turning: J. Weickert, Anisotropic Diffusion in
Image Processing (1998), chapter 2 (all from memory).
"""

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from shapes.meshes.scan_noise import corner_normals, edges_of
from shapes.solids import Floats, Ints

LAMBDA, PASS_BAND = 0.5, 0.1
"""Step of the smoothing, and the frequency that it leaves as it is (Taubin 1995, section 4)."""

TENSOR_ROUNDS = 10
"""How often turning is averaged over neighbours: over some 4 samples around. Fewer take the noise's
own turning for the surface's."""

LEAST_WEIGHT = 1e-3
"""Share below which turning is not told apart: else a corner of a faultless fold would lose all its
neighbours to rounding."""


@dataclass(frozen=True, eq=False)
class Links:
    """Which corners are neighbours.

    Attributes:
        edges: pairs of neighbours, shape (e, 2).
        is_rim: whether each is an open edge, shape (e,).
        count: how many corners there are.
    """

    edges: Ints
    is_rim: npt.NDArray[np.bool_]
    count: int


def links_of(triangles: Ints, count: int) -> Links:
    """Return which of `count` corners are neighbours."""
    edges, uses = edges_of(triangles)
    return Links(edges, uses == 1, count)


def averaging(links: Links, weights: Floats | None = None) -> Any:
    """Return the matrix that puts each corner amid its neighbours.

    Corners on an open edge are put amid their neighbours along it, so that the edge stays in place.

    Args:
        links: the neighbours.
        weights: how much each edge counts, shape (e,); None, all alike.
    """
    from scipy.sparse import coo_array, diags_array

    edges, count = links.edges, links.count
    on_rim = np.zeros(count, dtype=np.bool_)
    on_rim[edges[links.is_rim]] = True
    row, column = np.concatenate([edges, edges[:, ::-1]]).T
    kept = ~on_rim[row] | np.tile(links.is_rim, 2)
    values = np.ones(len(row)) if weights is None else np.tile(weights, 2)
    matrix = coo_array((values[kept], (row[kept], column[kept])), shape=(count, count)).tocsr()
    totals = np.asarray(matrix.sum(axis=1)).ravel()
    alone = diags_array((totals == 0).astype(np.float64))
    return (diags_array(1 / np.where(totals > 0, totals, 1.0)) @ matrix + alone).tocsr()


def smoothed(vertices: Floats, average: Any, rounds: int) -> Floats:
    """Return corners after rounds of a shrinking and a swelling step (Taubin 1995, equation 12)."""
    swell = 1 / (PASS_BAND - 1 / LAMBDA)
    for _ in range(rounds):
        for step in (LAMBDA, swell):
            vertices = vertices + step * (average @ vertices - vertices)
    return vertices


def averaging_along(smooth: Floats, triangles: Ints, links: Links, average: Any) -> Any:
    """Return the matrix that averages along the way in which a surface turns least.

    Args:
        smooth: corners of the surface, smoothed alike in all directions, shape (v, 3).
        triangles: corner numbers, shape (t, 3).
        links: the neighbours.
        average: the matrix that averages alike in all directions.
    """
    first, second = links.edges.T
    tensors = _turning(smooth, triangles, links, average)
    second_most = np.linalg.eigvalsh(tensors)[:, 1]
    least = (second_most[first] + second_most[second]) / 2
    way = smooth[second] - smooth[first]
    way /= np.maximum(np.linalg.norm(way, axis=1, keepdims=True), 1e-300)
    both = (tensors[first] + tensors[second]) / 2
    turn = np.einsum("ek,ekl,el->e", way, both, way)
    shares = np.where(turn > least, least / np.maximum(turn, 1e-300), 1.0)
    return averaging(links, np.maximum(shares, LEAST_WEIGHT))


def _turning(smooth: Floats, triangles: Ints, links: Links, average: Any) -> Floats:
    """Return how normals turn around each corner, as a tensor, averaged, shape (v, 3, 3)."""
    normals = corner_normals(smooth, triangles)
    first, second = links.edges.T
    turns = normals[second] - normals[first]
    places = np.concatenate([first, second])
    tensors = np.empty((links.count, 3, 3))
    for k in range(3):
        for m in range(3):
            product = np.tile(turns[:, k] * turns[:, m], 2)
            tensors[:, k, m] = np.bincount(places, product, links.count)
    neighbours = np.maximum(np.bincount(places, minlength=links.count), 1)
    flat = (tensors / neighbours[:, None, None]).reshape(-1, 9)
    for _ in range(TENSOR_ROUNDS):
        flat = average @ flat
    averaged: Floats = flat.reshape(-1, 3, 3)
    return averaged
