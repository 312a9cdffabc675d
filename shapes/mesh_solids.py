"""Closed bodies of imported meshes as solids, to be joined with parts of any other kind."""

import itertools

import numpy as np

from shapes.grid import position_units, to_mm2
from shapes.mesh_bodies import Bodies, closed_bodies
from shapes.mesh_repair import CleanMesh
from shapes.meshes import ImportedMesh, MeshError, cleaned
from shapes.parts import Part
from shapes.solids import Ints, Patch, Solid, sums, triangle_areas

AS_IMPORTED = None
"""Where `mesh_parts` places a mesh unless told otherwise: where its file has it."""


def mesh_parts(
    name: str,
    mesh: ImportedMesh,
    at: tuple[float, float, float] | None = AS_IMPORTED,
    *,
    loose: bool | str = False,
) -> list[Part]:
    """Return the closed bodies of a mesh as parts, to be joined with others.

    Args:
        name: name of the part; several bodies are called `name 1`, `name 2` ...
        mesh: a mesh of closed bodies.
        at: where the left, front, bottom corner of its box goes [mm]; None, where the file has it.
        loose: as in `Part`; several bodies of a loose mesh stay joined to each other.

    Raises:
        MeshError: the mesh is not closed.
        ShapeError: a position that is not finite or beyond 10 m.

    >>> corners = np.array([[0, 0, 0], [3, 0, 0], [0, 4, 0], [0, 0, 5]], dtype=np.float64)
    >>> faces = np.array([[0, 2, 1], [0, 1, 3], [0, 3, 2], [1, 2, 3]])
    >>> mesh = ImportedMesh(corners, faces, np.zeros(4, np.int64), ("all",))
    >>> [(part.name, part.solid.size_mm) for part in mesh_parts("wedge", mesh)]
    [('wedge', (3.0, 4.0, 5.0))]
    """
    found, bodies = closed_bodies(cleaned(mesh))
    if not bodies.is_closed:
        raise MeshError("mesh", "; ".join(bodies.notes))
    shift = np.zeros(3)
    if at is not None:
        corner = [position_units(f"at {axis}", mm) for axis, mm in zip("xyz", at, strict=True)]
        shift = corner - found.vertices[np.unique(found.triangles)].min(axis=0)
    solids = solids_of(found, bodies, mesh.regions)
    joined = name if loose is True and len(solids) > 1 else loose
    parts = []
    for number, (solid, place) in enumerate(solids, start=1):
        x, y, z = (round(float(place[k] + shift[k])) for k in range(3))
        own = name if len(solids) == 1 else f"{name} {number}"
        parts.append(Part(own, solid, (x, y, z), joined))
    return parts


def solids_of(
    mesh: CleanMesh, bodies: Bodies, regions: tuple[str, ...]
) -> list[tuple[Solid, tuple[int, int, int]]]:
    """Return each closed body as a solid at the origin, and where its box stands [grid units]."""
    order = np.argsort(bodies.body_of, kind="stable")
    bounds = np.searchsorted(bodies.body_of[order], np.arange(bodies.count + 1))
    return [
        _solid(mesh, bodies.triangles, order[start:end], regions)
        for start, end in itertools.pairwise(bounds.tolist())
    ]


def _solid(
    mesh: CleanMesh, triangles: Ints, chosen: Ints, regions: tuple[str, ...]
) -> tuple[Solid, tuple[int, int, int]]:
    used, corners = np.unique(triangles[chosen], return_inverse=True)
    vertices = mesh.vertices[used]
    low = vertices.min(axis=0)
    vertices = vertices - low
    corners = corners.reshape(-1, 3)
    present, patch_of = np.unique(mesh.region_of[chosen], return_inverse=True)
    areas = sums(patch_of, triangle_areas(vertices, corners), len(present))
    patches = tuple(
        Patch(regions[region], to_mm2(area), None)
        for region, area in zip(present.tolist(), areas.tolist(), strict=True)
    )
    width, depth, height = (round(extent) for extent in vertices.max(axis=0).tolist())
    x, y, z = (round(start) for start in low.tolist())
    solid = Solid(vertices, corners, patch_of, patches, (width, depth, height))
    return solid, (x, y, z)
