"""Surfaces to draw: what is left to see of the joined parts, as triangles that know their face.

Promises the same area by face as `shapes.exposure` for flat faces; for curved ones the triangles'
area, which is 2.5e-5 more than the true one on a turned side. Sealed triangles are left out. Does
not place loose parts: each group of joined parts is a surface of its own, where its file put it.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from shapes.grid import position_units
from shapes.joining import join
from shapes.parts import FaceKey, Part, joined_groups
from shapes.solids import Floats, Ints, sums
from shapes.tolerances import GRID_PER_MM

NO_FACE = -1
"""Number in place of a face for the wall of a closed gap: it hides what is behind and is of no
face."""

SMOOTH_COSINE = math.cos(math.radians(20))
"""Two triangles of a face are one smooth sheet when their normals are closer than 20 degrees; a
turned side with 256 flats steps 1.4 degrees, a bead drawn with few points up to 15 or so."""

FLAT_COSINE = math.cos(math.radians(6))
"""Two flat patches are one smooth sheet below this angle only: the bevel of a raised panel leans
8 degrees or more, the flats of a shaped leg that stands for a curve a few."""

STRIP_STEP = 0.1
"""Triangles of a curved patch are one strip while their unit normals round to the same multiple of
this in each component: strips of about 6 degrees, which bulge out of plane by 0.0014 of their
radius."""

LEAST_AREA_MM2 = 1e-9
"""A triangle smaller than this [mm2] has no direction to speak of."""


@dataclass(frozen=True, eq=False)
class Surface:
    """What is left to see of parts that are one solid.

    Attributes:
        parts: the parts.
        faces: their faces, which `face_of` numbers.
        vertices: corners [mm], shape (v, 3).
        triangles: corner numbers, outward, shape (t, 3).
        face_of: face of each triangle, or NO_FACE, shape (t,).
        facet_of: the piece of one patch that a triangle belongs to, shape (t,): plane, or of a
            curved patch a strip that is nearly so.
        sheet_of: the smooth piece of one face that it belongs to, shape (t,).
    """

    parts: tuple[Part, ...]
    faces: tuple[FaceKey, ...]
    vertices: Floats
    triangles: Ints
    face_of: Ints
    facet_of: Ints
    sheet_of: Ints

    @property
    def is_joined(self) -> bool:
        """Whether it is the piece itself, not parts off it."""
        return self.parts[0].is_joined

    @cached_property
    def crossed_mm2(self) -> Floats:
        """Outward normal of each triangle, as long as twice its area [mm2], shape (t, 3)."""
        return _crossed(self.vertices, self.triangles)

    @cached_property
    def box_mm(self) -> tuple[Floats, Floats]:
        """Lowest and highest corner of what is left to see [mm], each of shape (3,)."""
        used = self.vertices[np.unique(self.triangles)]
        return used.min(axis=0), used.max(axis=0)

    def areas_mm2(self) -> dict[FaceKey, float]:
        """Return the area of the triangles of each face [mm2]."""
        real = self.face_of != NO_FACE
        areas = np.linalg.norm(self.crossed_mm2, axis=1) / 2
        totals = sums(self.face_of[real], areas[real], len(self.faces))
        return dict(zip(self.faces, totals.tolist(), strict=True))


def surfaces(parts: Sequence[Part], *, gap: float = 1.0) -> list[Surface]:
    """Return the surface of each group of joined parts, in the order of the parts.

    Args:
        parts: the parts.
        gap: air narrower than this counts as touching [mm], as in `shapes.exposure.exposure`.

    >>> from shapes.boards import board
    >>> from shapes.placement import place
    >>> seen, = surfaces([place("a", board(2, 2, 2)), place("b", board(2, 2, 2), (2, 0, 0))])
    >>> sum(seen.areas_mm2().values())
    40.0
    """
    parts = list(parts)
    gap_units = position_units("gap", gap)
    # by name, as the exposure takes them: it settles whose a patch of two flush faces is
    groups = [
        sorted((parts[k] for k in group), key=lambda part: part.name)
        for group in joined_groups(parts)
    ]
    found = [_surface(group, gap_units) for group in groups]
    return [surface for surface in found if len(surface.triangles)]


def unit_sums(numbers: Ints, vectors: Floats) -> Floats:
    """Return the unit vector of the sum of the vectors that carry each number, shape (n, 3)."""
    count = int(numbers.max(initial=-1)) + 1
    totals = np.stack([sums(numbers, vectors[:, k], count) for k in range(3)], axis=1)
    lengths = np.linalg.norm(totals, axis=1, keepdims=True)
    units: Floats = np.divide(totals, lengths, out=np.zeros_like(totals), where=lengths > 0)
    return units


def _crossed(vertices: Floats, triangles: Ints) -> Floats:
    first, second, third = (vertices[triangles[:, k]] for k in range(3))
    crossed: Floats = np.cross(second - first, third - first)
    return crossed


def _surface(parts: list[Part], gap: int) -> Surface:
    joined = join(parts, gap)
    faces, skin = joined.faces, joined.filled.with_all_triangles()
    extra = skin.patches - len(joined.patches)
    face_of_patch = [*joined.face_of.tolist(), *[NO_FACE] * extra]
    is_flat = np.append(~np.isnan(joined.normals[:, 0]), np.zeros(extra, dtype=np.bool_))
    shown = ~skin.sealed
    vertices, triangles = skin.vertices / GRID_PER_MM, skin.triangles[shown]
    patch_of = skin.patch_of[shown]
    face_of = np.array(face_of_patch, dtype=np.int64)[patch_of]
    pairs, cosines = _neighbours(vertices, triangles)
    one_patch = patch_of[pairs[:, 0]] == patch_of[pairs[:, 1]]
    one_face = (face_of[pairs[:, 0]] == face_of[pairs[:, 1]]) & (face_of[pairs[:, 0]] != NO_FACE)
    flat = is_flat[patch_of[pairs]]
    smooth = cosines > np.where(flat.all(axis=1), FLAT_COSINE, SMOOTH_COSINE)
    strips = _strips(vertices, triangles)
    one_strip = (strips[pairs[:, 0]] == strips[pairs[:, 1]]).all(axis=1)
    level = one_patch & (flat[:, 0] | one_strip)
    facet_of = _labels(len(triangles), pairs[level])
    sheet_of = _labels(len(triangles), pairs[level | (one_face & smooth)])
    return Surface(tuple(parts), tuple(faces), vertices, triangles, face_of, facet_of, sheet_of)


def _strips(vertices: Floats, triangles: Ints) -> Floats:
    """Return the rounded unit normal of each triangle, shape (t, 3)."""
    normals = unit_sums(np.arange(len(triangles)), _crossed(vertices, triangles))
    rounded: Floats = np.round(normals / STRIP_STEP)
    return rounded


def _neighbours(vertices: Floats, triangles: Ints) -> tuple[Ints, Floats]:
    """Return the pairs of triangles that share an edge and the cosine of each pair's normals.

    A triangle without area goes with any neighbour: its cosine is 1.
    """
    ends = np.sort(triangles[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1)
    order = np.lexsort(ends.T)
    same = np.flatnonzero((ends[order[1:]] == ends[order[:-1]]).all(axis=1))
    pairs: Ints = np.stack([order[same] // 3, order[same + 1] // 3], axis=1)
    crossed = _crossed(vertices, triangles)
    lengths = np.linalg.norm(crossed, axis=1)
    dots = (crossed[pairs[:, 0]] * crossed[pairs[:, 1]]).sum(axis=1)
    sizes = lengths[pairs[:, 0]] * lengths[pairs[:, 1]]
    is_tiny: npt.NDArray[np.bool_] = (lengths[pairs] < LEAST_AREA_MM2).any(axis=1)
    cosines: Floats = np.divide(dots, sizes, out=np.ones_like(dots), where=~is_tiny & (sizes > 0))
    return pairs, cosines


def _labels(count: int, pairs: Ints) -> Ints:
    """Return a number from 0 up for each of the things that pairs connect, shape (count,)."""
    labels: Ints = np.unique(connected(count, pairs), return_inverse=True)[1]
    return labels


def connected(count: int, pairs: Ints) -> Ints:
    """Return for each thing the lowest number that pairs connect it with, shape (count,).

    Args:
        count: how many things there are, numbered from 0.
        pairs: numbers of things that belong together, shape (n, 2).
    """
    lowest = np.arange(count)
    while True:
        least = lowest[pairs].min(axis=1)
        lower = lowest.copy()
        np.minimum.at(lower, pairs.ravel(), np.repeat(least, 2))
        np.minimum.at(lower, lowest[pairs].ravel(), np.repeat(least, 2))
        lower = lower[lower]
        if np.array_equal(lower, lowest):
            return lowest
        lowest = lower
