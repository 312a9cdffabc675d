"""Lines along which two faces of the joined piece meet."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from shapes.fillers import CAPS, Filler
from shapes.skins import Skin
from shapes.solids import Floats, Ints
from shapes.stretches import Bools
from shapes.tolerances import LEAST_CORNER_COS, LEVEL_UNITS, NO_UNITS

Span = tuple[float, float, int]
"""Start and end along a rim [grid units], and the face that lies along it."""

Seams = dict[tuple[int, int], float]
"""Length [grid units] by pair of face numbers, the lower one first."""


@dataclass(frozen=True, eq=False)
class SeamEdges:
    """Edges of a skin between triangles of different patches.

    Attributes:
        ends: both ends of each edge [grid units], shape (e, 2, 3).
        patches: the patches on its two sides, shape (e, 2).
        is_inside: whether the two turn towards each other, as the walls of a box do, shape (e,).
    """

    ends: Floats
    patches: Ints
    is_inside: Bools


def edges_between_patches(skin: Skin) -> SeamEdges:
    """Return the edges of the exposed skin whose two triangles belong to different patches."""
    shown = ~skin.sealed
    triangles, patch_of = skin.triangles[shown], skin.patch_of[shown]
    halves = np.sort(triangles[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1)
    key = halves[:, 0] * len(skin.vertices) + halves[:, 1]
    order = np.argsort(key, kind="stable")
    pairs = np.repeat(patch_of, 3)[order].reshape(-1, 2)
    differ = pairs[:, 0] != pairs[:, 1]
    ends = skin.vertices[halves[order[::2][differ]]]
    beside = (order // 3).reshape(-1, 2)[differ]
    corners = skin.vertices[triangles[beside]]
    return SeamEdges(ends, pairs[differ], _turned_inwards(corners))


def _turned_inwards(corners: Floats) -> Bools:
    """Return whether two triangles with an edge in common turn towards each other.

    Args:
        corners: of both triangles [grid units], shape (e, 2, 3, 3).
    """
    sides = corners[:, :, 1:] - corners[:, :, :1]
    normals = np.cross(sides[:, :, 0], sides[:, :, 1])
    normals /= np.maximum(np.linalg.norm(normals, axis=2, keepdims=True), NO_UNITS)
    across = corners[:, 1].mean(axis=1) - corners[:, 0].mean(axis=1)
    rises = np.einsum("ij,ij->i", across, normals[:, 0])
    cosines = np.einsum("ij,ij->i", normals[:, 0], normals[:, 1])
    inside: Bools = (rises > 0) & (cosines < LEAST_CORNER_COS)
    return inside


def inside_corners(edges: SeamEdges, face_of: Ints) -> dict[int, float]:
    """Return how long the inside corners along each face are, by its number [grid units].

    A corner within one face counts once for each of its sides.

    Args:
        edges: edges between patches.
        face_of: the face of each patch, -1 for the patches of fillers, shape (patches,).
    """
    faces = face_of[edges.patches]
    chosen = edges.is_inside & (faces >= 0).all(axis=1)
    lengths = np.linalg.norm(edges.ends[chosen, 1] - edges.ends[chosen, 0], axis=1)
    found: dict[int, float] = defaultdict(float)
    for pair, length in zip(faces[chosen], lengths, strict=True):
        for face in pair:
            found[int(face)] += float(length)
    return dict(found)


def seams(edges: SeamEdges, face_of: Ints) -> Seams:
    """Return how far each two faces meet, fillers left out.

    Args:
        edges: edges between patches.
        face_of: the face of each patch, -1 for the patches of fillers, shape (patches,).
    """
    faces = np.sort(face_of[edges.patches], axis=1)
    chosen = (faces[:, 0] >= 0) & (faces[:, 0] != faces[:, 1])
    lengths = np.linalg.norm(edges.ends[chosen, 1] - edges.ends[chosen, 0], axis=1)
    pairs, which = np.unique(faces[chosen], axis=0, return_inverse=True)
    totals = np.bincount(which.ravel(), weights=lengths, minlength=len(pairs))
    return {(int(a), int(b)): float(total) for (a, b), total in zip(pairs, totals, strict=True)}


def seams_across(
    edges: SeamEdges, face_of: Ints, fillers: Sequence[Filler], first_patches: Sequence[int]
) -> Seams:
    """Return how far faces meet across the walls of fillers, which stand for a line.

    Args:
        edges: edges between patches.
        face_of: the face of each patch, -1 for the patches of fillers, shape (patches,).
        fillers: the fillers.
        first_patches: the first patch of each filler.
    """
    found: Seams = defaultdict(float)
    is_real = face_of[edges.patches] >= 0
    rims = np.flatnonzero(is_real[:, 0] != is_real[:, 1])
    for filler, first in zip(fillers, first_patches, strict=True):
        wall_side = np.where(is_real[rims, 0], edges.patches[rims, 1], edges.patches[rims, 0])
        wall = wall_side - first - CAPS
        mine = (wall >= 0) & (wall < len(filler.walls))
        for number in np.unique(wall[mine]):
            chosen = rims[mine & (wall == number)]
            faces = face_of[edges.patches[chosen]].max(axis=1)
            _add_wall(found, filler, filler.walls[number], edges.ends[chosen], faces)
    return dict(found)


def _add_wall(found: Seams, filler: Filler, wall: Floats, ends: Floats, faces: Ints) -> None:
    """Add what meets across one wall: the faces along its lower and along its upper rim."""
    local = ends @ filler.frame.T
    along = np.sort((local[:, :, :2] - wall[0]) @ wall[1], axis=1)
    # air of rounding is thinner than LEVEL_UNITS: the middle tells its two rims apart
    is_low = local[:, :, 2].mean(axis=1) < sum(filler.levels) / 2
    rims = []
    for level, at_end in zip(filler.levels, (is_low, ~is_low), strict=True):
        at_level = at_end & (np.abs(local[:, :, 2] - level) < LEVEL_UNITS).all(axis=1)
        rims.append(_spans(along[at_level], faces[at_level]))
    for length, pair in _overlaps(rims[0], rims[1]):
        found[pair] += length


def _spans(along: Floats, faces: Ints) -> list[Span]:
    """Return the spans of each face along a rim, those that overlap made one.

    Where a filler reaches into the wood, its wall may lie in the plane of a part's side, and the
    kernel then traces the rim twice.
    """
    merged: list[Span] = []
    for face in np.unique(faces):
        start = end = -np.inf
        for low, high in sorted(along[faces == face].tolist()):
            if low > end:
                if end > start:
                    merged.append((start, end, int(face)))
                start, end = low, high
            end = max(end, high)
        if end > start:
            merged.append((start, end, int(face)))
    return merged


def _overlaps(
    lower: Sequence[Span], upper: Sequence[Span]
) -> Iterator[tuple[float, tuple[int, int]]]:
    """Yield the length over which a span of one rim faces a span of the other, and the faces."""
    for start, end, face in lower:
        for other_start, other_end, other in upper:
            length = min(end, other_end) - max(start, other_start)
            if length > 0 and face != other:
                yield length, (min(face, other), max(face, other))
