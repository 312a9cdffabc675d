"""Exposure: what is left to see of each face when the parts are joined.

Parts that are joined hide each other where they touch or stand in each other. Loose parts hide
nothing. Air between joined parts narrower than `gap` counts as touching: both faces lose the patch
where they look at each other, what they seal is sealed, and their zones meet there; nothing moves,
and no other face changes.
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import accumulate

import numpy as np

from shapes.errors import ShapeError
from shapes.fillers import filler
from shapes.gaps import Gap, find_gaps
from shapes.grid import position_units, to_mm, to_mm2
from shapes.parts import FaceKey, Part, box_of, joined_groups
from shapes.seams import edges_between_patches, seams, seams_across
from shapes.skins import Skin, joined_skin
from shapes.solids import Floats
from shapes.tolerances import GRID_PER_MM, LEAST_PATCH_MM2, WIDEST_GAP_MM

JOINED_AT_ONCE = (16, 8, 32, 2)
"""How many parts are joined in one call of the kernel. Where it leaves faces back to back (seen in
0.2 % of random heaps of boxes) the next number is tried; none has failed after that."""


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
    """

    areas_mm2: dict[FaceKey, float]
    seams_mm: dict[tuple[FaceKey, FaceKey], float]
    closed: tuple[NearMiss, ...]
    gaps: tuple[NearMiss, ...]
    size_mm: tuple[float, float, float]

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
    closed: list[NearMiss] = []
    gaps: list[NearMiss] = []
    for group in joined_groups(parts):
        by_name = sorted((parts[number] for number in group), key=lambda part: part.name)
        measured = _Group(by_name, gap_units)
        areas.update(measured.areas())
        lines.update(measured.lines())
        closed += measured.near_misses(closed=True)
        gaps += measured.near_misses(closed=False)
    order = {key: number for number, key in enumerate(areas)}
    return Exposure(areas, lines, _ordered(closed, order), _ordered(gaps, order), _size(parts))


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
    """Parts that are joined to each other, measured.

    Numbers of parts, faces and patches count through the group.
    """

    def __init__(self, parts: list[Part], gap: int) -> None:
        self.faces = [(part.name, face) for part in parts for face in part.solid.faces]
        self._patches = [(part, patch) for part in parts for patch in part.solid.patches]
        number = {key: k for k, key in enumerate(self.faces)}
        self._face_of = np.array([number[part.name, patch.face] for part, patch in self._patches])
        self._solids = [part.solid for part in parts]
        self._places = [part.at for part in parts]
        for self._at_once in JOINED_AT_ONCE:
            self._skin = joined_skin(self._solids, self._places, at_once=self._at_once)
            found = self._find_gaps(parts)
            if not any(near.is_touching for near in found):
                break
        self._open = [near for near in found if near.distance >= gap and not near.is_touching]
        self._closed = [near for near in found if near.distance < gap or near.is_touching]
        self._fillers = [filler(near) for near in self._closed if not near.is_touching]
        self._filled = self._fill() if self._fillers else self._skin

    def _find_gaps(self, parts: list[Part]) -> list[Gap]:
        if len(parts) == 1:
            return []
        curved = (np.nan,) * 3
        normals = np.array([patch.normal or curved for _, patch in self._patches])
        counts = [len(part.solid.patches) for part in parts]
        part_of = np.repeat(np.arange(len(parts)), counts)
        return find_gaps(self._skin, normals, part_of, WIDEST_GAP_MM * GRID_PER_MM)

    def _fill(self) -> Skin:
        solids = [*self._solids, *[filled.solid for filled in self._fillers]]
        places = [*self._places, *[(0, 0, 0)] * len(self._fillers)]
        return joined_skin(solids, places, at_once=self._at_once)

    def areas(self) -> dict[FaceKey, float]:
        """Return the exposed area of each face [mm2]."""
        everywhere = np.ones(len(self._skin.triangles), dtype=np.bool_)
        shown = self._skin.patch_areas(everywhere)
        for found in self._closed:
            shown[[found.low, found.high]] -= found.area
        shown = self._without_sealed(shown)
        meshed = np.concatenate([solid.patch_mesh_areas for solid in self._solids])
        true = np.array([patch.area_mm2 for _, patch in self._patches])
        totals = np.bincount(self._face_of, weights=true * (shown / meshed))
        return dict(zip(self.faces, totals.tolist(), strict=True))

    def _without_sealed(self, shown: Floats) -> Floats:
        """Take what is sealed, also by a closed gap, off the patches' areas [square grid units]."""
        sealed = self._filled.patch_areas(self._filled.sealed)[: len(shown)]
        left = self._filled.patch_areas(~self._filled.sealed)[: len(shown)]
        rest = np.where((left <= 0) & (sealed > 0), 0.0, shown - sealed)
        if rest.min() < -LEAST_PATCH_MM2 * GRID_PER_MM**2:
            return left  # the two unions gave a shared patch to different parts: trust the one
        return np.maximum(rest, 0.0)

    def lines(self) -> dict[tuple[FaceKey, FaceKey], float]:
        """Return how far each two faces meet [mm]."""
        edges = edges_between_patches(self._filled)
        extra = self._filled.patches - len(self._face_of)
        face_of = np.concatenate([self._face_of, np.full(extra, -1)])
        found = seams(edges, face_of)
        if self._fillers:
            across = seams_across(edges, face_of, self._fillers, self._first_patches())
            for pair, length in across.items():
                found[pair] = found.get(pair, 0.0) + length
        return {(self.faces[a], self.faces[b]): to_mm(length) for (a, b), length in found.items()}

    def _first_patches(self) -> list[int]:
        counts = [len(filled.solid.patches) for filled in self._fillers]
        return list(accumulate(counts[:-1], initial=len(self._face_of)))

    def near_misses(self, *, closed: bool) -> list[NearMiss]:
        """Return the air between faces, closed or not, each pair of faces at a distance once."""
        listed = [near for near in self._closed if not near.is_touching] if closed else self._open
        totals: dict[tuple[int, int, float], float] = defaultdict(float)
        for found in listed:
            low, high = sorted((int(self._face_of[found.low]), int(self._face_of[found.high])))
            totals[low, high, to_mm(found.distance)] += to_mm2(found.area)
        return [
            NearMiss(self.faces[low], self.faces[high], distance, area)
            for (low, high, distance), area in totals.items()
        ]


def _size(parts: list[Part]) -> tuple[float, float, float]:
    """Return the size of the joined parts' box [mm]."""
    box = box_of([part for part in parts if part.is_joined])
    if box is None:
        return 0.0, 0.0, 0.0
    width, depth, height = (to_mm(high - low) for low, high in zip(*box, strict=True))
    return width, depth, height
