"""A solid: a closed triangle mesh whose triangles know the named face they belong to.

Promises that the mesh is closed, that normals point out of the wood, and that every face has its
true area, also where the triangles only approximate it. Does not place the solid: its box starts
at the origin.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
import numpy.typing as npt

from shapes.grid import to_mm, to_mm2

Floats = npt.NDArray[np.float64]
Ints = npt.NDArray[np.int64]


@dataclass(frozen=True)
class Patch:
    """A flat or curved region of a named face.

    Attributes:
        face: the face it belongs to.
        area_mm2: its true area [mm2].
        normal: outward unit normal where the patch is flat, else None.
    """

    face: str
    area_mm2: float
    normal: tuple[float, float, float] | None


@dataclass(frozen=True, eq=False)
class Solid:
    """A closed solid with named faces.

    Attributes:
        vertices: corners [grid units], shape (v, 3).
        triangles: corner numbers, counter-clockwise seen from outside, shape (t, 3).
        patch_of: the patch of each triangle, shape (t,).
        patches: the patches, in the order the numbers in `patch_of` name.
        size: width, depth and height of its box [grid units].
        is_open: whether it is a surface that does not close. Its areas were measured beforehand
            and are all exposed; it stands alone and hides nothing.
        rings: the first corner of each ring that it is stacked from, from the foot up; empty where
            it is not. Rings are flat, convex and parallel, every corner is in one, the corners of a
            triangle lie in two that follow each other, or all in the first or the last.
        is_faceted: whether its flat patches may be facets of a round face, as those of a mesh may.
        called: for each face that is a piece of a cut one, the name of that and what was added.
    """

    vertices: Floats
    triangles: Ints
    patch_of: Ints
    patches: tuple[Patch, ...]
    size: tuple[int, int, int]
    is_open: bool = False
    rings: tuple[int, ...] = ()
    is_faceted: bool = False
    called: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    @cached_property
    def faces(self) -> tuple[str, ...]:
        """Names of the faces, each once, in the order of the patches."""
        return tuple(dict.fromkeys(patch.face for patch in self.patches))

    def names_of(self, face: str) -> tuple[str, ...]:
        """Return the name of the face that a face is, or is a piece of, and what cuts added."""
        return self.called.get(face, (face,))

    @cached_property
    def whole_faces(self) -> tuple[str, ...]:
        """Names of the faces as they were before any cut, each once."""
        return tuple(dict.fromkeys(self.names_of(face)[0] for face in self.faces))

    @cached_property
    def area_mm2_of(self) -> dict[str, float]:
        """True area [mm2] by face, nothing hidden."""
        areas = dict.fromkeys(self.faces, 0.0)
        for patch in self.patches:
            areas[patch.face] += patch.area_mm2
        return areas

    @cached_property
    def patch_mesh_areas(self) -> Floats:
        """Area of the triangles of each patch [square grid units], shape (patches,)."""
        areas = triangle_areas(self.vertices, self.triangles)
        return sums(self.patch_of, areas, len(self.patches))

    @cached_property
    def is_square(self) -> bool:
        """Whether all faces are flat and square to the axes, and so all corners whole numbers."""
        normals = [patch.normal for patch in self.patches]
        return all(
            normal is not None and sorted(map(abs, normal)) == [0, 0, 1] for normal in normals
        )

    @property
    def size_mm(self) -> tuple[float, float, float]:
        """Width, depth and height of its box [mm]."""
        width, depth, height = self.size
        return to_mm(width), to_mm(depth), to_mm(height)


def area_mm2(solid: Solid) -> float:
    """Return the area of all faces [mm2]."""
    return sum(patch.area_mm2 for patch in solid.patches)


def triangle_areas(vertices: Floats, triangles: Ints) -> Floats:
    """Return the area of each triangle [square units of the vertices], shape (t,)."""
    first, second, third = (vertices[triangles[:, k]] for k in range(3))
    crossed = np.cross(second - first, third - first)
    areas: Floats = np.sqrt((crossed * crossed).sum(axis=1)) / 2
    return areas


def sums(numbers: Ints, values: Floats, count: int) -> Floats:
    """Return the sum of the values that carry each number from 0 up, shape (count,)."""
    totals: Floats = np.bincount(numbers, weights=values, minlength=count).astype(np.float64)
    return totals


def flat_patch(face: str, corners: Floats) -> Patch:
    """Return a flat face of four corners [grid units], counter-clockwise from outside."""
    crossed = np.cross(corners[2] - corners[0], corners[3] - corners[1])
    twice = float(np.linalg.norm(crossed))
    x, y, z = (float(component) + 0.0 for component in crossed / twice)
    return Patch(face, to_mm2(twice / 2), (x, y, z))
