"""Flat faces of meshes square to the axes are patches of their own, and count as a board's do."""

import numpy as np
import pytest

from shapes.boards import board
from shapes.exposure import exposure
from shapes.meshes.facets import facets
from shapes.meshes.imported import ImportedMesh
from shapes.meshes.mesh_solids import closed_solid, mesh_parts
from shapes.placement import place

pytest.importorskip("scipy")

EXACT = 1e-9
CORNERS = np.array([[x, y, z] for x in (0, 1) for y in (0, 1) for z in (0, 1)], dtype=np.float64)
QUADS = [(0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3)]
BOX = np.array([[quad[k] for k in three] for quad in QUADS for three in ((0, 1, 2), (0, 2, 3))])


def box(width, depth, height, taper=1.0):
    """Return a mesh of one box; its top is narrower by a share, so that its sides slope."""
    corners = CORNERS.copy()
    corners[CORNERS[:, 2] == 1, :2] = 0.5 + taper * (corners[CORNERS[:, 2] == 1, :2] - 0.5)
    size = (width, depth, height)
    return ImportedMesh(corners * size, BOX, np.zeros(12, np.int64), ("all",))


def test_a_box_has_six_flat_patches_of_one_face():
    solid = closed_solid(box(30, 20, 10))
    assert ("all",) == solid.faces
    normals = {patch.normal: patch.area_mm2 for patch in solid.patches}
    expected = {(1, 0, 0): 200, (0, 1, 0): 300, (0, 0, 1): 600}
    both = {tuple(sign * x + 0.0 for x in n): a for n, a in expected.items() for sign in (1, -1)}
    assert both == normals
    assert solid.is_square


def test_sloping_faces_stay_one_patch_without_a_normal():
    patches = closed_solid(box(30, 30, 100, taper=0.5)).patches
    flat = {patch.normal for patch in patches if patch.normal}
    assert {(0, 0, 1), (0, 0, -1)} == flat
    (curved,) = [patch for patch in patches if patch.normal is None]
    slope = np.hypot(100, 7.5)
    assert 4 * (30 + 15) / 2 * slope == pytest.approx(curved.area_mm2, rel=EXACT)


def test_a_triangle_without_area_makes_no_patch_of_its_own():
    corners = np.array([[0, 0, 0], [2, 0, 0], [0, 2, 0], [4, 0, 0.0]])
    faces = np.array([[0, 1, 2], [0, 1, 3]])
    patch_of, patches = facets(corners, faces, np.zeros(2, np.int64), ("all",))
    assert [0, 0] == patch_of.tolist()
    assert 1 == len(patches)


@pytest.mark.parametrize("taper", [1.0, 0.5])
@pytest.mark.parametrize("air", [0.0, 0.3, 0.999])
def test_air_below_the_gap_between_a_mesh_and_a_board_counts_as_touching(taper, air):
    (leg,) = mesh_parts("leg", box(60, 60, 400, taper), (20, 20, 0))
    top = place("top", board(300, 300, 20), (0, 0, 400 + air))
    seen = exposure([leg, top])
    hidden = (60 * taper) ** 2
    whole = sum(patch.area_mm2 for patch in leg.solid.patches) + 2 * 300 * 300 + 4 * 300 * 20
    assert whole - 2 * hidden == pytest.approx(seen.area_mm2, rel=EXACT)
    closed = [(miss.face, miss.other, miss.area_mm2) for miss in seen.closed]
    assert ([(("leg", "all"), ("top", "bottom"), hidden)] if air else []) == closed


def test_air_above_the_gap_stays_and_is_told():
    (leg,) = mesh_parts("leg", box(60, 60, 400), (20, 20, 0))
    seen = exposure([leg, place("top", board(300, 300, 20), (0, 0, 401.5))])
    assert () == seen.closed
    assert [1.5] == [miss.distance_mm for miss in seen.gaps]
    assert 2 * 60 * 60 + 4 * 60 * 400 + 2 * 300 * 300 + 4 * 300 * 20 == seen.area_mm2


def test_a_mesh_of_boards_shows_what_the_boards_show_whatever_the_air():
    for air in (0.0, 0.4, 2.0):
        at = [(0, 0, 0), (60 + air, 0, 0), (0, 20, 100 + air)]
        meshes = [
            mesh_parts(f"m{k}", box(60, 60, 100), place_at)[0] for k, place_at in enumerate(at)
        ]
        boards = [place(f"b{k}", board(60, 60, 100), place_at) for k, place_at in enumerate(at)]
        assert exposure(boards).area_mm2 == pytest.approx(exposure(meshes).area_mm2, rel=EXACT)
