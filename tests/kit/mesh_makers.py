"""Small meshes whose areas are elementary, made for tests."""

import numpy as np
import pytest

from shapes.meshes.imported import ImportedMesh
from shapes.meshes.mesh_exposure import mesh_exposure

pytest.importorskip("trimesh")
pytest.importorskip("embreex")

EXACT = 1e-9
CORNERS = np.array([[x, y, z] for x in (0, 1) for y in (0, 1) for z in (0, 1)], dtype=np.float64)
QUADS = [(0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3)]
"""left, right, front, back, bottom, top; outward"""
SIDES = ("left", "right", "front", "back", "bottom", "top")


def box(at=(0, 0, 0), size=(10, 10, 10), other_diagonal=False):
    """Return corners and triangles of a box; two triangles for each of `SIDES`."""
    split = [(0, 1, 3), (1, 2, 3)] if other_diagonal else [(0, 1, 2), (0, 2, 3)]
    faces = [[quad[k] for k in three] for quad in QUADS for three in split]
    return CORNERS * size + at, np.array(faces)


def joined(*pieces):
    """Return one mesh of several (corners, triangles), a region for each: `a`, `b` ..."""
    starts = np.cumsum([0, *[len(corners) for corners, _ in pieces]])
    faces = [part + start for (_, part), start in zip(pieces, starts, strict=False)]
    region = np.repeat(np.arange(len(pieces)), [len(part) for part in faces])
    names = tuple("abcdefgh"[: len(pieces)])
    return ImportedMesh(
        np.concatenate([corners for corners, _ in pieces]), np.concatenate(faces), region, names
    )


def soup(mesh):
    """Return the mesh as STL has it: three corners of its own for each triangle."""
    corners = mesh.vertices[mesh.triangles].reshape(-1, 3)
    faces = np.arange(len(corners)).reshape(-1, 3)
    return ImportedMesh(corners, faces, mesh.region_of, mesh.regions)


def flipped(piece, which=slice(None)):
    corners, faces = piece[0], piece[1].copy()
    faces[which] = faces[which][:, ::-1]
    return corners, faces


def area(mesh, way="union"):
    seen = mesh_exposure(mesh)
    assert way == seen.way
    return seen.area_mm2
