"""Imported meshes: triangles from a file, with a named region each.

Promises arrays that fit together, finite numbers and a size that furniture has. Does not promise
that the triangles close off a solid; `shapes.meshes.mesh_exposure` finds that out.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from shapes.errors import ShapeError
from shapes.meshes.repair import CleanMesh, clean
from shapes.solids import Floats, Ints, sums, triangle_areas
from shapes.tolerances import MAX_LENGTH_MM

Progress = Callable[[float], None]
"""Told the share of the work that is done, from 0 to 1."""
UNNAMED = "surface"
"""Region of the triangles that the file gives no name."""


class MeshError(ShapeError):
    """A mesh, or the file it should come from, cannot be used.

    Attributes:
        source: the file's name, or "mesh".
        problem: what is wrong with it.
    """

    def __init__(self, source: str, problem: str) -> None:
        super().__init__(source, problem)
        self.source = source
        self.problem = problem
        self.args = (f"{source}: {problem}",)


@dataclass(frozen=True, eq=False)
class ImportedMesh:
    """Triangles with a named region each.

    Attributes:
        vertices: corners [mm], shape (v, 3).
        triangles: corner numbers, shape (t, 3).
        region_of: the region of each triangle, shape (t,).
        regions: their names.
        notes: what the reader has to say of the file.

    Raises:
        MeshError: no triangle, numbers that are not finite or name nothing, or longer than 10 m.

    >>> corners = np.array([[0, 0, 0], [3, 0, 0], [0, 4, 0]], dtype=np.float64)
    >>> ImportedMesh(corners, np.array([[0, 1, 2]]), np.array([0]), ("seat",)).areas_mm2
    {'seat': 6.0}
    """

    vertices: Floats
    triangles: Ints
    region_of: Ints
    regions: tuple[str, ...]
    notes: tuple[str, ...] = field(default=())

    def __post_init__(self) -> None:
        _check_arrays(self)
        low, high = self.box_mm
        size = float((high - low).max())
        if size > MAX_LENGTH_MM:
            raise MeshError("mesh", f"{size:g} mm long, longer than 10 m: is the unit right?")
        if size == 0:
            raise MeshError("mesh", "empty: all corners are one point")

    @cached_property
    def box_mm(self) -> tuple[Floats, Floats]:
        """Lowest and highest corner of the box around the triangles [mm], shape (3,) each."""
        is_used = np.zeros(len(self.vertices), dtype=np.bool_)
        is_used[self.triangles] = True
        used = self.vertices[is_used]
        return used.min(axis=0), used.max(axis=0)

    @property
    def size_mm(self) -> tuple[float, float, float]:
        """Width, depth and height of that box [mm]."""
        low, high = self.box_mm
        width, depth, height = (high - low).tolist()
        return width, depth, height

    @cached_property
    def areas_mm2(self) -> dict[str, float]:
        """Area of all triangles by region [mm2], nothing hidden."""
        areas = triangle_areas(self.vertices, self.triangles)
        return by_name(self.regions, sums(self.region_of, areas, len(self.regions)))


def cleaned(mesh: ImportedMesh) -> CleanMesh:
    """Return the triangles cleaned, in grid units.

    Raises:
        MeshError: no triangle has an area.
    """
    found = clean(mesh.vertices, mesh.triangles, mesh.region_of)
    if not len(found.triangles):
        raise MeshError("mesh", "empty: no triangle has an area")
    return found


def by_name(names: tuple[str, ...], values: Floats) -> dict[str, float]:
    """Return values by name, those of one name added up."""
    totals = dict.fromkeys(names, 0.0)
    for name, value in zip(names, values.tolist(), strict=True):
        totals[name] += value
    return totals


def _check_arrays(mesh: ImportedMesh) -> None:
    if not len(mesh.triangles):
        raise MeshError("mesh", "empty: it has no triangle")
    if mesh.vertices.ndim != 2 or mesh.vertices.shape[1] != 3 or mesh.triangles.shape[1:] != (3,):
        raise MeshError("mesh", "corners and triangles must be rows of three")
    if not np.isfinite(mesh.vertices).all():
        raise MeshError("mesh", "a corner is not a finite number")
    if mesh.triangles.min() < 0 or mesh.triangles.max() >= len(mesh.vertices):
        raise MeshError("mesh", "a triangle names a corner that is not there")
    if len(mesh.region_of) != len(mesh.triangles):
        raise MeshError("mesh", "every triangle must have one region")
    if mesh.region_of.min() < 0 or mesh.region_of.max() >= len(mesh.regions):
        raise MeshError("mesh", "a triangle names a region that is not there")
