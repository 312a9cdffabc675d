"""Cleaning of imported triangles: levelled coordinates, merged corners, no copies.

Files hold 32-bit numbers, exporters write every corner of every triangle, and transforms of nodes
round: faces that were drawn touching differ in the last bit. Coordinates that differ by no more
than that are made one number of whole grid units, and equal corners one corner. Shapes are not
mended beyond that: holes stay holes.
"""

from dataclasses import dataclass

import numpy as np

from shapes.solids import Floats, Ints
from shapes.tolerances import GRID_PER_MM

FILE_ROUNDING = 2.0**-22
"""Two coordinates are one when they differ by less than this share of the greatest: two units in
the last place of the 32-bit numbers that mesh files hold."""

ROUND_STEPS_UNITS = (8_000, 15_875)
"""A levelled coordinate becomes the whole 0.1 mm or 1/128 in [grid units] that lies within the
rounding of the file, if one does: 0.3 m is read back as 300.00001 mm and must touch a 300 mm board.
"""


@dataclass(frozen=True, eq=False)
class CleanMesh:
    """Triangles without copies on merged corners.

    Attributes:
        vertices: corners, whole [grid units], shape (v, 3).
        triangles: corner numbers, shape (t, 3).
        region_of: the region of each triangle, shape (t,).
        dropped: triangles left out so far.
    """

    vertices: Floats
    triangles: Ints
    region_of: Ints
    dropped: int


def clean(vertices_mm: Floats, triangles: Ints, region_of: Ints) -> CleanMesh:
    """Return the mesh with equal corners merged, without triangles of which two corners are one.

    Args:
        vertices_mm: corners [mm], finite, shape (v, 3).
        triangles: corner numbers, shape (t, 3).
        region_of: region of each triangle, shape (t,).

    >>> sheet = np.array([[0, 0, 0], [1, 0, 0], [0, 1, 0], [1, 0, 0], [1, 1, 0], [0, 1, 0.0]])
    >>> len(clean(sheet, np.arange(6).reshape(2, 3), np.zeros(2, dtype=np.int64)).vertices)
    4
    """
    distinct_mm, corners = vertices_mm + 0.0, triangles
    if len(vertices_mm) > len(triangles):  # corners are written for each triangle anew
        distinct_mm, first_number = merged(distinct_mm)
        corners = first_number[triangles]
    slack = rounding_units(distinct_mm * GRID_PER_MM)
    units = np.stack([_levelled(distinct_mm[:, k], slack) for k in range(3)], axis=1)
    vertices, number = merged(units)
    if len(vertices) < len(units):
        corners = number[corners]
    a, b, c = corners.T
    kept = (a != b) & (b != c) & (c != a)
    if kept.all():
        return CleanMesh(vertices, corners, region_of, 0)
    return CleanMesh(vertices, corners[kept], region_of[kept], int((~kept).sum()))


def rounding_units(vertices: Floats) -> float:
    """Return how far rounding in the file may have moved a coordinate [grid units, as corners]."""
    return max(1.0, float(np.abs(vertices).max()) * FILE_ROUNDING)


def without_copies(mesh: CleanMesh) -> CleanMesh:
    """Return the mesh with each triangle once, of those that have the same corners the same way.

    Two bodies may have a triangle in common by right, so look for bodies without this, too.
    """
    kept = _first_of_each(_rotated(mesh.triangles))
    if len(kept) == len(mesh.triangles):
        return mesh
    dropped = mesh.dropped + len(mesh.triangles) - len(kept)
    return CleanMesh(mesh.vertices, mesh.triangles[kept], mesh.region_of[kept], dropped)


def without_opposites(mesh: CleanMesh) -> CleanMesh:
    """Return the mesh with one of each two triangles that lie back to back: a sheet drawn twice."""
    kept = _first_of_each(np.sort(mesh.triangles, axis=1))
    dropped = mesh.dropped + len(mesh.triangles) - len(kept)
    return CleanMesh(mesh.vertices, mesh.triangles[kept], mesh.region_of[kept], dropped)


def merged(rows: Floats) -> tuple[Floats, Ints]:
    """Return the distinct rows and, for each row, the number of its equal.

    They come in the order in which they are first met: corners that lie together in a file lie
    together in memory, which makes all that follows twice as fast.

    Args:
        rows: numbers without negative zeros, shape (n, 3).
    """
    keys = _keys(np.ascontiguousarray(rows).view(np.int64))
    order = np.argsort(keys)
    is_new = np.append(True, np.diff(keys[order]) != 0)
    if is_new.all():
        return rows, np.arange(len(rows))
    group = np.cumsum(is_new) - 1
    first = np.minimum.reduceat(order, np.flatnonzero(is_new))
    if (rows[order] != rows[first[group]]).any():  # two rows shared a key
        distinct, number = np.unique(rows, axis=0, return_inverse=True)
        return distinct, number.reshape(-1).astype(np.int64)
    is_first = np.zeros(len(rows), dtype=np.bool_)
    is_first[first] = True
    place = np.cumsum(is_first) - 1
    number = np.empty(len(rows), dtype=np.int64)
    number[order] = place[first][group]
    return rows[is_first], number


def _keys(rows: Ints) -> Ints:
    """Return a number for each row; equal rows get equal ones, others hardly ever do."""
    odd = (0x9E3779B97F4A7C15, 0xC2B2AE3D27D4EB4F, 0x165667B19E3779F9)
    keys = np.zeros(len(rows), dtype=np.uint64)
    for k in range(3):
        keys ^= rows[:, k].astype(np.uint64) * np.uint64(odd[k])
        keys ^= keys >> np.uint64(29)
        keys *= np.uint64(0xBF58476D1CE4E5B9)
    return keys.view(np.int64)


def _levelled(mm: Floats, slack: float) -> Floats:
    """Return coordinates along one axis [mm] in whole grid units, near ones made equal.

    A run of near ones that is longer than rounding can make it is a curve: those stay apart.
    """
    units = mm * GRID_PER_MM
    values, number = np.unique(units, return_inverse=True)
    starts = np.append(True, np.diff(values) > slack)
    group = np.cumsum(starts) - 1
    first = values[starts]
    last = values[np.append(np.flatnonzero(starts)[1:] - 1, len(values) - 1)]
    level: Floats = np.where(last - first <= 4 * slack, (first + last) / 2, np.nan)
    level = np.where(np.isnan(level[group]), values, level[group])
    for step in ROUND_STEPS_UNITS:
        whole = np.round(level / step) * step
        level = np.where(np.abs(level - whole) <= slack, whole, level)
    rounded: Floats = np.round(level)[number.reshape(-1)] + 0.0
    return rounded


def _rotated(triangles: Ints) -> Ints:
    """Return triangles with their lowest corner first, turning the same way."""
    shift = triangles.argmin(axis=1)
    return np.take_along_axis(triangles, (shift[:, None] + np.arange(3)) % 3, axis=1)


def _first_of_each(rows: Ints) -> Ints:
    """Return the positions of the first of each distinct row, in order."""
    if not len(rows):
        return np.zeros(0, dtype=np.int64)
    keys = _keys(rows)
    order = np.argsort(keys, kind="stable")
    same_key = np.diff(keys[order]) == 0
    if not same_key.any():
        return np.arange(len(rows))
    order = np.lexsort(rows.T[::-1])
    is_new = np.append(True, (np.diff(rows[order], axis=0) != 0).any(axis=1))
    return np.sort(order[is_new])
