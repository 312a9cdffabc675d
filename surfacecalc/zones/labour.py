"""How much work a surface is: slender parts count as wider than they are. For hours, never paint.

Painters have long measured narrow work by its girth, the length of a tape once around it.

Source: girth under 6 in counts as 6 in, 6 to 12 in as 12 in, more as it is (G. Terry, Pigments,
Paint and Painting); panelled work 1.30 times its flat area, carved or enriched work 2.00 times (IS
1200, Part 15: 1987, read in lists of its table, not in the standard); the edges of panelled doors
twice, fluted work twice (Radford's Cyclopedia of Construction, vol. 10, Rules for Outside
Measurements); balustrades, see `balustrades`. That faces under 40 mm wide, round and carved ones
and a strip along inside corners are worked by hand is assumed.
"""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

import numpy as np

from shapes.grid import to_mm, to_mm2
from shapes.parts import FaceKey, Part
from shapes.solids import Floats, Solid
from surfacecalc.zones.balustrades import TIMES, flat_sides_mm2

IN_MM = 25.4
GIRTHS_MM = (6 * IN_MM, 12 * IN_MM)
"""What a girth up to this counts as; a wider one counts as it is [mm]."""
PANELLED = 1.30
"""Framed panels and doors, once for each side."""
DOOR_EDGE = 2.0
"""The edge of a panelled door."""
CARVED = 2.0
"""Carved and fluted faces, against their flat area."""
CARVED_FROM = 1.2
"""A relief whose ratio is more than this is carved or fluted: matched and lapped boards, which IS
1200 lists with 1.05 and 1.20, are plain work; where the line lies is assumed."""
NARROW_MM = 40.0
"""No disc rests flat on a face that is narrower; assumed."""
CORNER_MM = 25.0
"""How much beside an inside corner a round disc leaves, since its rim would cut the other side;
assumed."""


@dataclass(frozen=True)
class Labour:
    """How much work a face is.

    Attributes:
        counts: how many times its area it counts.
        by_hand: share of it that no machine reaches: round, moulded or narrow.
        is_slender: whether its part is less than 12 in around, so that spray flies past it.
    """

    counts: float = 1.0
    by_hand: float = 0.0
    is_slender: bool = False


PLAIN = Labour()


@dataclass(frozen=True)
class Surroundings:
    """What the whole piece says of the work on one part.

    Attributes:
        effort: what the file says that a face counts, in place of all else.
        corners_mm: how long the inside corners along a face are [mm].
        balustrades_mm2: a spindle's share of the flat side of its balustrade [mm2], by name.
        meshes: names of parts that are meshes, whose faces say nothing of their shape.
    """

    effort: Mapping[FaceKey, float]
    corners_mm: Mapping[FaceKey, float]
    balustrades_mm2: Mapping[str, float]
    meshes: frozenset[str] = frozenset()


def labour_of_part(
    part: Part, areas_mm2: Mapping[str, float], around: Surroundings
) -> dict[str, Labour]:
    """Return how much work the faces of a part in one zone are, by face.

    Args:
        part: the part.
        areas_mm2: exposed area of those faces, by name [mm2].
        around: what the whole piece says of it.
    """
    counts = counted_girth(sum(areas_mm2.values()), _worked_mm(part.solid, areas_mm2))
    if part.name in around.balustrades_mm2:
        flat_mm2 = around.balustrades_mm2[part.name]
        counts = max(counts, TIMES * flat_mm2 / sum(part.solid.area_mm2_of.values()))
    return {
        face: Labour(
            around.effort.get((part.name, face), _counted_face(part.solid, face, counts)),
            0.0 if part.name in around.meshes else _by_hand(part, face, area_mm2, around),
            _is_slender(part),
        )
        for face, area_mm2 in areas_mm2.items()
    }


def _counted_face(solid: Solid, face: str, part_counts: float) -> float:
    """Return how many times its area a face counts: as its part, or more if panelled or carved."""
    ratio = relief_ratio(solid, face)
    counts = max(part_counts, CARVED / ratio) if ratio > CARVED_FROM else part_counts
    if not is_panelled(solid):
        return counts
    return max(counts, DOOR_EDGE if solid.names_of(face)[0] == "edge" else PANELLED)


def _by_hand(part: Part, face: str, area_mm2: float, around: Surroundings) -> float:
    """Return the share of a face that no machine reaches."""
    share = share_by_hand(part.solid, face)
    if not area_mm2 or relief_ratio(part.solid, face) > CARVED_FROM:
        return 1.0
    strips = CORNER_MM * around.corners_mm.get((part.name, face), 0.0) / area_mm2
    return min(1.0, share + strips)


def relief_ratio(solid: Solid, face: str) -> float:
    """Return the true area of a face over that of its triangles, which have no carving."""
    meshed = sum(
        float(area)
        for patch, area in zip(solid.patches, solid.patch_mesh_areas, strict=True)
        if patch.face == face
    )
    return solid.area_mm2_of[face] / to_mm2(meshed) if meshed else 1.0


def balustrades(parts: Iterable[Part]) -> dict[str, float]:
    """Return each spindle's share of the flat side of its balustrade [mm2], by name."""
    rows: dict[str, list[Part]] = {}
    for part in parts:
        if part.row and _is_slender(part):
            rows.setdefault(part.row, []).append(part)
    return flat_sides_mm2(rows.values())


def _is_slender(part: Part) -> bool:
    area_mm2 = sum(part.solid.area_mm2_of.values())
    return area_mm2 / to_mm(max(part.solid.size)) < max(GIRTHS_MM)


def counted_girth(area_mm2: float, length_mm: float) -> float:
    """Return how many times its area a part counts, by the girth of what is worked on.

    Args:
        area_mm2: what of it is worked on [mm2].
        length_mm: how long that is [mm].
    """
    girth_mm = area_mm2 / length_mm
    if girth_mm <= 0:
        return 1.0
    counted_mm = next((wide for wide in GIRTHS_MM if girth_mm < wide), girth_mm)
    return counted_mm / girth_mm


def _worked_mm(solid: Solid, faces: Collection[str]) -> float:
    """Return how long what is worked on of a part is: the part, or pieces of its cut faces [mm]."""
    longest = max(solid.size)
    if not solid.called:
        return to_mm(longest)
    extents = _extents(solid, faces)
    return to_mm(float(extents[solid.size.index(longest)] or extents.max()))


def _extents(solid: Solid, faces: Collection[str]) -> Floats:
    """Return how far some faces reach along each axis [grid units]."""
    numbers = [k for k, patch in enumerate(solid.patches) if patch.face in faces]
    corners = solid.vertices[solid.triangles[np.isin(solid.patch_of, numbers)].ravel()]
    extents: Floats = np.ptp(corners, axis=0)
    return extents


def is_panelled(solid: Solid) -> bool:
    """Whether a solid is a framed panel or a door: a front of several planes, with an edge."""
    whole = set(solid.whole_faces)
    if not {"front", "edge", "back"} <= whole or "inside" in whole:
        return False
    fronts = [patch for patch in solid.patches if solid.names_of(patch.face)[0] == "front"]
    return len({patch.normal for patch in fronts}) > 1


def share_by_hand(solid: Solid, face: str) -> float:
    """Return the share of a face that is round, moulded, or too narrow for a machine."""
    patches = [patch for patch in solid.patches if patch.face == face]
    area_mm2 = sum(patch.area_mm2 for patch in patches)
    if area_mm2 / to_mm(float(_extents(solid, [face]).max())) < NARROW_MM:
        return 1.0
    return sum(patch.area_mm2 for patch in patches if patch.normal is None) / area_mm2
