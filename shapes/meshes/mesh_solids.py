"""Closed bodies of imported meshes as solids, to be joined with parts of any other kind."""

import itertools
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from shapes.exposure import shown_areas
from shapes.grid import position_units
from shapes.joining import Joined, join
from shapes.meshes.bodies import Bodies, closed_bodies
from shapes.meshes.facets import facets
from shapes.meshes.imported import ImportedMesh, MeshError, cleaned
from shapes.meshes.repair import CleanMesh
from shapes.parts import Part
from shapes.solids import Floats, Ints, Patch, Solid

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
    low = mesh.vertices[np.unique(triangles[chosen])].min(axis=0)
    vertices, corners, size = _at_origin(mesh.vertices, triangles[chosen])
    patch_of, patches = facets(vertices, corners, mesh.region_of[chosen], regions)
    x, y, z = (round(start) for start in low.tolist())
    return Solid(vertices, corners, patch_of, patches, size, is_faceted=True), (x, y, z)


def body_parts(mesh: CleanMesh, bodies: Bodies, regions: tuple[str, ...]) -> list[Part]:
    """Return the closed bodies as parts that are joined to each other."""
    solids = enumerate(solids_of(mesh, bodies, regions), start=1)
    return [Part(f"body {number}", solid, place) for number, (solid, place) in solids]


def closed_solid(mesh: ImportedMesh, *, gap: float = 0.0) -> Solid:
    """Return the closed bodies of a mesh, joined, as one solid at the origin.

    Where air between bodies is closed, the faces keep their triangles and lose the area.

    Args:
        mesh: the mesh.
        gap: air between bodies narrower than this counts as touching [mm].

    Raises:
        MeshError: the mesh is not closed.
        KernelError: the kernel refused a body.
    """
    found, bodies = closed_bodies(cleaned(mesh))
    if not bodies.is_closed:
        raise MeshError("mesh", "; ".join(bodies.notes))
    parts = body_parts(found, bodies, mesh.regions)
    if len(parts) == 1:
        return parts[0].solid
    joined = join(parts, position_units("gap", gap))
    skin = joined.skin
    regions = {name: number for number, name in enumerate(mesh.regions)}
    names = [patch.face for _, patch in joined.patches]
    region_of = np.array([regions[name] for name in names], dtype=np.int64)[skin.patch_of]
    used, corners, size = _at_origin(skin.vertices, skin.triangles)
    patch_of, patches = facets(used, corners, region_of, mesh.regions)
    low = skin.vertices[np.unique(skin.triangles)].min(axis=0)
    left = _shown(parts, joined)
    shown = tuple(
        replace(patch, area_mm2=left.get(_plane(used + low, corners[patch_of == k], patch), 0.0))
        for k, patch in enumerate(patches)
    )
    return Solid(used, corners, patch_of, shown, size, is_faceted=True)


_Plane = tuple[str, tuple[float, float, float] | None, float]
"""Region, normal and level [grid units] of a flat face; no normal and 0 for what is curved."""


def _shown(parts: list[Part], joined: Joined) -> dict[_Plane, float]:
    """Return what is left to see of each plane of each region [mm2]."""
    totals: dict[_Plane, float] = defaultdict(float)
    areas = iter(shown_areas(joined).tolist())
    for part in parts:
        solid = part.solid
        for k, patch in enumerate(solid.patches):
            mine = solid.triangles[solid.patch_of == k]
            totals[_plane(solid.vertices + part.at, mine, patch)] += next(areas)
    return totals


def _plane(vertices: Floats, triangles: Ints, patch: Patch) -> _Plane:
    if patch.normal is None:
        return patch.face, None, 0.0
    axis = int(np.abs(patch.normal).argmax())
    return patch.face, patch.normal, float(vertices[triangles[0, 0], axis])


def open_surface(mesh: ImportedMesh, areas_mm2: Mapping[str, float]) -> Solid:
    """Return a mesh that is not closed as a surface at the origin, with areas measured before.

    Args:
        mesh: the mesh.
        areas_mm2: exposed area of each region [mm2].
    """
    found = cleaned(mesh)
    vertices, corners, size = _at_origin(found.vertices, found.triangles)
    present, patch_of = np.unique(found.region_of, return_inverse=True)
    names = [mesh.regions[region] for region in present.tolist()]
    patches = tuple(Patch(name, areas_mm2.get(name, 0.0), None) for name in names)
    return Solid(vertices, corners, patch_of, patches, size, is_open=True)


def _at_origin(vertices: Floats, triangles: Ints) -> tuple[Floats, Ints, tuple[int, int, int]]:
    """Return the corners in use, moved so that their box starts at the origin, and its size."""
    used, corners = np.unique(triangles, return_inverse=True)
    kept = vertices[used] - vertices[used].min(axis=0)
    width, depth, height = (round(extent) for extent in kept.max(axis=0).tolist())
    return kept, corners.reshape(-1, 3), (width, depth, height)
