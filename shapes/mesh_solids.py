"""Closed bodies of imported meshes as solids, to be joined with parts of any other kind."""

import itertools
from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from shapes.grid import position_units, to_mm2
from shapes.mesh_bodies import Bodies, closed_bodies
from shapes.mesh_repair import CleanMesh
from shapes.meshes import ImportedMesh, MeshError, cleaned
from shapes.parts import Part
from shapes.skins import joined_skin
from shapes.solids import Floats, Ints, Patch, Solid, sums, triangle_areas

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


def closed_solid(mesh: ImportedMesh) -> Solid:
    """Return the closed bodies of a mesh, joined, as one solid at the origin.

    Raises:
        MeshError: the mesh is not closed.
        KernelError: the kernel refused a body.
    """
    found, bodies = closed_bodies(cleaned(mesh))
    if not bodies.is_closed:
        raise MeshError("mesh", "; ".join(bodies.notes))
    solids = solids_of(found, bodies, mesh.regions)
    if len(solids) == 1:
        return solids[0][0]
    skin = joined_skin([solid for solid, _ in solids], [place for _, place in solids])
    regions = {name: number for number, name in enumerate(mesh.regions)}
    names = [patch.face for solid, _ in solids for patch in solid.patches]
    region_of = np.array([regions[name] for name in names], dtype=np.int64)[skin.patch_of]
    return _whole(skin.vertices, skin.triangles, region_of, mesh.regions)


def open_surface(mesh: ImportedMesh, areas_mm2: Mapping[str, float]) -> Solid:
    """Return a mesh that is not closed as a surface at the origin, with areas measured before.

    Args:
        mesh: the mesh.
        areas_mm2: exposed area of each region [mm2].
    """
    found = cleaned(mesh)
    whole = _whole(found.vertices, found.triangles, found.region_of, mesh.regions)
    patches = tuple(
        replace(patch, area_mm2=areas_mm2.get(patch.face, 0.0)) for patch in whole.patches
    )
    return replace(whole, patches=patches, is_open=True)


def _whole(vertices: Floats, triangles: Ints, region_of: Ints, regions: tuple[str, ...]) -> Solid:
    """Return triangles as one solid at the origin, a patch for each region."""
    used, corners = np.unique(triangles, return_inverse=True)
    kept = vertices[used] - vertices[used].min(axis=0)
    corners = corners.reshape(-1, 3)
    present, patch_of = np.unique(region_of, return_inverse=True)
    areas = sums(patch_of, triangle_areas(kept, corners), len(present))
    patches = tuple(
        Patch(regions[region], to_mm2(area), None)
        for region, area in zip(present.tolist(), areas.tolist(), strict=True)
    )
    width, depth, height = (round(extent) for extent in kept.max(axis=0).tolist())
    return Solid(kept, corners, patch_of, patches, (width, depth, height))
