"""Exposure: what is left to see of each face when the parts are joined.

Parts that are joined hide each other where they touch or stand in each other. Loose parts hide
nothing. Air between joined parts narrower than `gap` counts as touching: both faces lose the patch
where they look at each other, what they seal is sealed, and their zones meet there; nothing moves,
and no other face changes.
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import accumulate

import numpy as np

from shapes.errors import ShapeError
from shapes.grid import position_units, to_mm, to_mm2
from shapes.joining import Joined, join
from shapes.parts import FaceKey, Part, box_of, joined_groups
from shapes.seams import SeamEdges, edges_between_patches, inside_corners, seams, seams_across
from shapes.solids import Floats, Ints
from shapes.tolerances import (
    GRID_PER_MM,
    LEAST_PATCH_MM2,
    NOTHING_SEALED,
    WIDEST_GAP_MM,
)


@dataclass(frozen=True)
class NearMiss:
    """Two faces that look at each other across narrow air.

    Attributes:
        face: one of them, (part, face).
        other: the other one.
        distance_mm: the air between [mm].
        area_mm2: where their projections overlap [mm2].
    """

    face: FaceKey
    other: FaceKey
    distance_mm: float
    area_mm2: float


@dataclass(frozen=True)
class Exposure:
    """What is left to see.

    Attributes:
        areas_mm2: exposed area of every face of every part [mm2], in the order of the parts.
        seams_mm: how far two faces meet along an edge [mm]; each pair once, both ways alike.
        closed: air that counts as touching.
        gaps: air that is too wide for that, up to 5 mm; it stays exposed.
        size_mm: width, depth, height of the joined parts' box [mm]; zeros when all are loose.
        corners_mm: how long the inside corners along a face are [mm]; a corner between two sides
            of one face counts for both; not told of a surface that does not close.
    """

    areas_mm2: dict[FaceKey, float]
    seams_mm: dict[tuple[FaceKey, FaceKey], float]
    closed: tuple[NearMiss, ...]
    gaps: tuple[NearMiss, ...]
    size_mm: tuple[float, float, float]
    corners_mm: dict[FaceKey, float]

    @property
    def area_mm2(self) -> float:
        """Exposed area of all faces [mm2]."""
        return sum(self.areas_mm2.values())


def exposure(parts: Sequence[Part], *, gap: float = 1.0) -> Exposure:
    """Return what is left to see of each face.

    Args:
        parts: the parts; their order changes nothing but the order of the answer.
        gap: air narrower than this counts as touching [mm], from 0 to 5.

    Raises:
        ShapeError: two parts of one name, or a gap out of range.
        KernelError: the kernel refused a solid.

    >>> from shapes.boards import board
    >>> from shapes.placement import place
    >>> seen = exposure([place("a", board(2, 2, 2)), place("b", board(2, 2, 2), (2, 0, 0))])
    >>> seen.area_mm2, seen.areas_mm2["a", "right"]
    (40.0, 0.0)
    """
    parts = list(parts)
    gap_units = position_units("gap", gap)
    if not 0 <= gap <= WIDEST_GAP_MM:
        raise ShapeError("gap", "from 0 to 5 mm", gap)
    names = [part.name for part in parts]
    if len(set(names)) < len(names):
        raise ShapeError("parts", "a list without two parts of one name")
    areas: dict[FaceKey, float] = {
        (part.name, face): 0.0 for part in parts for face in part.solid.faces
    }
    lines: dict[tuple[FaceKey, FaceKey], float] = {}
    corners: dict[FaceKey, float] = {}
    closed: list[NearMiss] = []
    gaps: list[NearMiss] = []
    for group in joined_groups(parts):
        by_name = sorted((parts[number] for number in group), key=lambda part: part.name)
        measured = _Group(join(by_name, gap_units))
        areas.update(measured.areas())
        lines.update(measured.lines())
        corners.update(measured.corners())
        closed += measured.near_misses(closed=True)
        gaps += measured.near_misses(closed=False)
    order = {key: number for number, key in enumerate(areas)}
    return Exposure(
        areas, lines, _ordered(closed, order), _ordered(gaps, order), _size(parts), corners
    )


def shown_areas(joined: Joined) -> Floats:
    """Return what each patch shows, less closed gaps and what is sealed [mm2]."""
    areas: Floats = _Group(joined).shown / GRID_PER_MM**2
    return areas


def _ordered(found: list[NearMiss], order: dict[FaceKey, int]) -> tuple[NearMiss, ...]:
    """Return near misses in the order of the parts, in each the earlier face first."""
    turned = [
        miss
        if order[miss.face] < order[miss.other]
        else replace(miss, face=miss.other, other=miss.face)
        for miss in found
    ]
    turned.sort(key=lambda miss: (order[miss.face], order[miss.other], miss.distance_mm))
    return tuple(turned)


class _Group:
    """Parts that are joined to each other, measured."""

    def __init__(self, joined: Joined) -> None:
        self._joined = joined
        self.faces = joined.faces
        self._face_of = joined.face_of
        self._meshed = np.concatenate([solid.patch_mesh_areas for solid in joined.solids])

    def areas(self) -> dict[FaceKey, float]:
        """Return the exposed area of each face [mm2]."""
        shown = self.shown
        true = np.array([patch.area_mm2 for _, patch in self._joined.patches])
        totals = np.bincount(self._face_of, weights=true * (shown / self._meshed))
        return dict(zip(self.faces, totals.tolist(), strict=True))

    @cached_property
    def shown(self) -> Floats:
        """Return what each patch shows, less closed gaps and what is sealed [square grid units]."""
        skin, filled = self._joined.skin, self._joined.filled
        covered = np.zeros(len(self._face_of))
        for found in self._joined.closed:
            covered[[found.low, found.high]] += found.area
        for round_air in self._joined.curved_closed:
            covered[round_air.patch] += round_air.area
        before = skin.patch_areas(sealed=True)
        sealed = filled.patch_areas(sealed=True)[: len(covered)]
        if sealed.sum() - before.sum() <= NOTHING_SEALED * self._meshed.sum():
            return np.maximum(skin.patch_areas(sealed=False) - covered, 0.0)
        left = filled.patch_areas(sealed=False)[: len(covered)]
        shown = skin.patch_areas(sealed=False) + before - covered
        rest = shown - sealed
        is_whole = (left <= 0) & (sealed > 0)
        off = np.where(is_whole, np.abs(rest), -rest)
        if (off > LEAST_PATCH_MM2 * GRID_PER_MM**2 + NOTHING_SEALED * self._meshed).any():
            return left  # the two unions gave a shared patch to different parts: trust the one
        return np.where(is_whole, 0.0, np.maximum(rest, 0.0))

    def lines(self) -> dict[tuple[FaceKey, FaceKey], float]:
        """Return how far each two faces meet [mm]; not told of a surface that does not close."""
        if self._edges is None:
            return {}
        edges, face_of = self._edges
        found = seams(edges, face_of)
        if self._joined.fillers:
            across = seams_across(edges, face_of, self._joined.fillers, self._first_patches())
            for pair, length in across.items():
                found[pair] = found.get(pair, 0.0) + length
        return {(self.faces[a], self.faces[b]): to_mm(length) for (a, b), length in found.items()}

    def corners(self) -> dict[FaceKey, float]:
        """Return how long the inside corners along each face are [mm]."""
        if self._edges is None:
            return {}
        found = inside_corners(*self._edges)
        return {self.faces[face]: to_mm(length) for face, length in found.items()}

    @cached_property
    def _edges(self) -> tuple[SeamEdges, Ints] | None:
        """Edges between patches, and the face of each patch; None for one that does not close."""
        if any(solid.is_open for solid in self._joined.solids):
            return None
        extra = self._joined.filled.patches - len(self._face_of) + 1  # fillers, and lids
        face_of = np.concatenate([self._face_of, np.full(extra, -1)])
        return edges_between_patches(self._joined.filled), face_of

    def _first_patches(self) -> list[int]:
        counts = [len(filled.solid.patches) for filled in self._joined.fillers]
        return list(accumulate(counts[:-1], initial=len(self._face_of)))

    def near_misses(self, *, closed: bool) -> list[NearMiss]:
        """Return the air between faces, closed or not, each pair of faces at a distance once."""
        listed = self._joined.closed if closed else self._joined.open
        totals: dict[tuple[int, int, float], float] = defaultdict(float)
        for found in (near for near in listed if not near.is_touching):
            low, high = sorted((int(self._face_of[found.low]), int(self._face_of[found.high])))
            totals[low, high, to_mm(found.distance)] += to_mm2(found.area)
        flat = [
            NearMiss(self.faces[low], self.faces[high], distance, area)
            for (low, high, distance), area in totals.items()
        ]
        return [*flat, *self._curved_misses(closed=closed)]

    def _curved_misses(self, *, closed: bool) -> list[NearMiss]:
        """Return the same of curved faces, with the mean distance and the smaller face's area."""
        listed = self._joined.curved_closed if closed else self._joined.curved_open
        totals: dict[tuple[int, int], Floats] = defaultdict(lambda: np.zeros(2))
        for air in (near for near in listed if not near.is_touching):
            pair = int(self._face_of[air.patch]), int(self._face_of[air.other])
            totals[pair] += air.area, air.area * air.distance
        return [
            NearMiss(
                self.faces[one],
                self.faces[other],
                # to 1/100 mm: facets of round faces are not all as far apart
                round(to_mm(float(volume / area)), 2),
                to_mm2(float(min(area, totals[other, one][0] or area))),
            )
            for (one, other), (area, volume) in list(totals.items())
            if one < other and area
        ]


def _size(parts: list[Part]) -> tuple[float, float, float]:
    """Return the size of the joined parts' box [mm]."""
    box = box_of([part for part in parts if part.is_joined])
    if box is None:
        return 0.0, 0.0, 0.0
    width, depth, height = (to_mm(high - low) for low, high in zip(*box, strict=True))
    return width, depth, height
