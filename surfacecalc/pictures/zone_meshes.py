"""Meshes by zone: the triangles of a surface with rounded normals, and the edges worth a line.

Normals are even over each smooth sheet of a face, so that turned sides look round and edges sharp.
Walls of closed gaps and triangles without area are left out.
"""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from shapes.parts import FaceKey
from shapes.solids import Floats, Ints
from shapes.surfaces import LEAST_AREA_MM2, NO_FACE, Surface, unit_sums

UPWARD = (0.0, 0.0, 1.0)
"""Normal of a corner whose triangles cancel out."""


@dataclass(frozen=True, eq=False)
class Mesh:
    """What a surface shows of a zone.

    Attributes:
        zone: the zone's name, None for faces in no zone.
        points: corners [mm], from the surface's lowest corner, shape (n, 3).
        normals: unit normal at each corner, shape (n, 3).
        triangles: corner numbers, outward, shape (t, 3).
    """

    zone: str | None
    points: Floats
    normals: Floats
    triangles: Ints


def meshes(surface: Surface, zone_of: Mapping[FaceKey, str]) -> list[Mesh]:
    """Return the mesh of each zone of which a surface shows anything."""
    areas = np.linalg.norm(surface.crossed_mm2, axis=1) / 2
    shown = (surface.face_of != NO_FACE) & (areas > LEAST_AREA_MM2)
    zones = [zone_of.get(face) for face in surface.faces]
    names = list(dict.fromkeys(zones))
    number = np.array([names.index(zone) for zone in zones], dtype=np.int64)
    found = []
    for k, name in enumerate(names):
        chosen = np.flatnonzero(shown & (number[surface.face_of] == k))
        if len(chosen):
            found.append(_mesh(surface, name, chosen))
    return found


def edges(surface: Surface) -> Floats:
    """Return the edges between smooth sheets, from the lowest corner [mm], shape (e, 2, 3)."""
    ends = surface.triangles[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2)
    ends = np.sort(ends, axis=1)
    order = np.lexsort(ends.T)
    sheets = np.repeat(surface.sheet_of, 3)[order]
    same = (ends[order[1:]] == ends[order[:-1]]).all(axis=1) & (sheets[1:] != sheets[:-1])
    found: Floats = surface.vertices[ends[order[1:][same]]] - surface.box_mm[0]
    return found


def _mesh(surface: Surface, zone: str | None, chosen: Ints) -> Mesh:
    """Return the mesh of chosen triangles; a corner counts once for each sheet it is on."""
    corners = np.stack(
        [surface.triangles[chosen].ravel(), np.repeat(surface.sheet_of[chosen], 3)], axis=1
    )
    kept, renumbered = np.unique(corners, axis=0, return_inverse=True)
    renumbered = renumbered.ravel()
    normals = unit_sums(renumbered, np.repeat(surface.crossed_mm2[chosen], 3, axis=0))
    normals[~normals.any(axis=1)] = UPWARD
    points = surface.vertices[kept[:, 0]] - surface.box_mm[0]
    return Mesh(zone, points, normals, renumbered.reshape(-1, 3))
