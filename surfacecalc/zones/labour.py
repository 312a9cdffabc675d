"""How much work a surface is: slender parts count as wider than they are. For hours, never paint.

Painters have long measured narrow work by its girth, the length of a tape once around it.

Source: girth under 6 in counts as 6 in, 6 to 12 in as 12 in, more as it is (G. Terry, Pigments,
Paint and Painting); panelled work 1.30 times its flat area (IS 1200, Part 15: 1987, read in lists
of its table, not in the standard). That faces under 40 mm wide and round ones are worked by hand is
assumed.
"""

from collections.abc import Collection, Mapping
from dataclasses import dataclass

import numpy as np

from shapes.grid import to_mm
from shapes.parts import FaceKey, Part
from shapes.solids import Solid

IN_MM = 25.4
GIRTHS_MM = (6 * IN_MM, 12 * IN_MM)
"""What a girth up to this counts as; a wider one counts as it is [mm]."""
PANELLED = 1.30
"""Framed panels and doors, once for each side."""
NARROW_MM = 40.0
"""No disc rests flat on a face that is narrower; assumed."""


@dataclass(frozen=True)
class Labour:
    """How much work a face is.

    Attributes:
        counts: how many times its area it counts.
        by_hand: share of it that no machine reaches: round, moulded or narrow.
    """

    counts: float = 1.0
    by_hand: float = 0.0


PLAIN = Labour()


def labour_of_part(
    part: Part, areas_mm2: Mapping[str, float], effort: Mapping[FaceKey, float], *, is_mesh: bool
) -> dict[str, Labour]:
    """Return how much work the faces of a part in one zone are, by face.

    Args:
        part: the part.
        areas_mm2: exposed area of those faces, by name [mm2].
        effort: what the file says that a face counts, in place of all else.
        is_mesh: whether it is a mesh, whose faces say nothing of their shape.
    """
    counts = counted_girth(sum(areas_mm2.values()), _worked_mm(part.solid, areas_mm2))
    if is_panelled(part.solid):
        counts = max(counts, PANELLED)
    return {
        face: Labour(
            effort.get((part.name, face), counts),
            0.0 if is_mesh else share_by_hand(part.solid, face),
        )
        for face in areas_mm2
    }


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
    numbers = [k for k, patch in enumerate(solid.patches) if patch.face in faces]
    corners = solid.vertices[solid.triangles[np.isin(solid.patch_of, numbers)].ravel()]
    extents = np.ptp(corners, axis=0) if len(corners) else np.array(solid.size)
    return to_mm(float(extents[solid.size.index(longest)] or extents.max()))


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
    if not area_mm2 or area_mm2 / _longest_mm(solid, face) < NARROW_MM:
        return 1.0 if area_mm2 else 0.0
    return sum(patch.area_mm2 for patch in patches if patch.normal is None) / area_mm2


def _longest_mm(solid: Solid, face: str) -> float:
    """Return how long a face is along its longest axis [mm]."""
    numbers = [k for k, patch in enumerate(solid.patches) if patch.face == face]
    corners = solid.vertices[solid.triangles[np.isin(solid.patch_of, numbers)].ravel()]
    return to_mm(float(np.ptp(corners, axis=0).max())) if len(corners) else to_mm(max(solid.size))
