"""Zones on a mesh: regions split at a height, by a box, or by the way they face.

A cut at a plane splits the triangles there exactly; neighbours are split at the same points, so a
closed mesh stays closed. Splitting by the way triangles face splits no triangle.
"""

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import numpy.typing as npt

from shapes.errors import ShapeError
from shapes.grid import position_units, to_mm
from shapes.meshes.imported import ImportedMesh
from shapes.plane_splits import split_at
from shapes.solids import Floats

FACINGS = {
    "left": (-1, 0, 0),
    "right": (1, 0, 0),
    "front": (0, -1, 0),
    "back": (0, 1, 0),
    "down": (0, 0, -1),
    "up": (0, 0, 1),
}
"""Outward directions: x to the right, y to the back, z up."""


def cut_at_height(mesh: ImportedMesh, height: float, below: str, above: str) -> ImportedMesh:
    """Return the mesh with each region split in two at a height: `seat below`, `seat above`.

    Args:
        mesh: the mesh.
        height: of the plane [mm].
        below: what is added to the names of the regions under it.
        above: what is added to the names of those over it; a triangle in the plane is one.

    Raises:
        ShapeError: a height that is not finite or beyond 10 m.

    >>> corners = np.array([[0, 0, 0], [4, 0, 0], [0, 0, 4]], dtype=np.float64)
    >>> mesh = ImportedMesh(corners, np.array([[0, 1, 2]]), np.array([0]), ("leg",))
    >>> cut_at_height(mesh, 2, "low", "high").areas_mm2
    {'leg low': 6.0, 'leg high': 2.0}
    """
    level = to_mm(position_units("height", height))
    split = _split(mesh, 2, level)
    is_above = _centres(split)[:, 2] >= level
    return _renamed(split, is_above, below, above)


def cut_by_box(
    mesh: ImportedMesh, low: Sequence[float], high: Sequence[float], inside: str, outside: str
) -> ImportedMesh:
    """Return the mesh with each region split by a box.

    Args:
        mesh: the mesh.
        low: left, front, bottom corner of the box [mm].
        high: right, back, top corner [mm].
        inside: what is added to the names of the regions in the box.
        outside: what is added to the names of the others.

    Raises:
        ShapeError: a corner that is not finite or beyond 10 m, or a box without room.
    """
    if not len(low) == len(high) == 3:
        raise ShapeError("low and high", "three lengths each: x, y, z")
    bounds = []
    for axis, least, most in zip("xyz", low, high, strict=True):
        ends = position_units(f"low {axis}", least), position_units(f"high {axis}", most)
        if ends[0] >= ends[1]:
            raise ShapeError(f"high {axis}", "more than low", most, least)
        bounds.append((to_mm(ends[0]), to_mm(ends[1])))
    split = mesh
    for number, ends_mm in enumerate(bounds):
        for level in ends_mm:
            split = _split(split, number, level)
    centres = _centres(split)
    least_corner, most_corner = np.array(bounds).T
    is_inside = ((centres >= least_corner) & (centres <= most_corner)).all(axis=1)
    return _renamed(split, is_inside, outside, inside)


def cut_by_facing(
    mesh: ImportedMesh, way: str, facing: str, other: str, *, within_degrees: float = 45.0
) -> ImportedMesh:
    """Return the mesh with each region split by the way its triangles face.

    Args:
        mesh: the mesh; its triangles face outward.
        way: left, right, front, back, up or down.
        facing: what is added to the names of the regions that face that way.
        other: what is added to the names of the others.
        within_degrees: a triangle faces a way when its normal is within this angle of it.

    Raises:
        ShapeError: an unknown way, or an angle that is not from 0 to 90 degrees.
    """
    if way not in FACINGS:
        raise ShapeError("way", f"one of {', '.join(FACINGS)}")
    if not 0 <= within_degrees <= 90:
        raise ShapeError("within_degrees", "from 0 to 90 degrees")
    a, b, c = (mesh.vertices[mesh.triangles[:, k]] for k in range(3))
    normals = np.cross(b - a, c - a)
    lengths = np.linalg.norm(normals, axis=1)
    along = normals @ np.array(FACINGS[way], dtype=np.float64)
    # 1e-9: a triangle tilted by just that angle faces that way in spite of rounding
    is_facing = along >= (math.cos(math.radians(within_degrees)) - 1e-9) * lengths
    return _renamed(mesh, is_facing & (lengths > 0), other, facing)


def _centres(mesh: ImportedMesh) -> Floats:
    centres: Floats = mesh.vertices[mesh.triangles].mean(axis=1)
    return centres


def _renamed(
    mesh: ImportedMesh, chosen: npt.NDArray[np.bool_], rest: str, name: str
) -> ImportedMesh:
    """Return the mesh with chosen triangles called by one word and the rest by the other."""
    numbers = 2 * mesh.region_of + chosen
    used, region_of = np.unique(numbers, return_inverse=True)
    words = (rest, name)
    names = tuple(f"{mesh.regions[number // 2]} {words[number % 2]}" for number in used.tolist())
    return replace(mesh, region_of=region_of.reshape(-1), regions=names)


def _split(mesh: ImportedMesh, axis: int, level: float) -> ImportedMesh:
    """Return the mesh with every triangle that crosses a plane split there."""
    vertices, triangles, owners = split_at(mesh.vertices, mesh.triangles, axis, level)
    return replace(mesh, vertices=vertices, triangles=triangles, region_of=mesh.region_of[owners])
