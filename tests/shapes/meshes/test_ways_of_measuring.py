"""Which way a mesh goes, the union or the rays; that it is always said; and meshes as parts."""

import numpy as np
import pytest
from mesh_makers import EXACT, area, box, joined

from shapes.boards import board
from shapes.exposure import exposure
from shapes.meshes.imported import ImportedMesh, MeshError
from shapes.meshes.mesh_exposure import mesh_exposure
from shapes.meshes.mesh_solids import mesh_parts
from shapes.placement import place

pytest.importorskip("trimesh")
pytest.importorskip("embreex")


def test_an_open_box_goes_the_reach_way_and_says_so():
    corners, faces = box()
    seen = mesh_exposure(joined((corners, faces[:10])))
    assert (seen.way, seen.area_mm2) == ("reach", pytest.approx(500, rel=EXACT))
    assert "rays from 20000 points" in seen.notes[0]
    assert any("4 open edges" in note for note in seen.notes)
    assert 0 < seen.error_mm2 < 0.01 * seen.area_mm2


def test_a_crack_wider_than_rounding_is_detected():
    corners, faces = box()
    cracked = np.vstack([corners, corners[7] + [0, 0, 0.01]])
    faces = np.where((np.arange(12) == 10)[:, None] & (faces == 7), 8, faces)
    assert mesh_exposure(joined((cracked, faces))).way == "reach"


def test_an_edge_with_three_triangles_is_not_closed():
    corners, faces = box()
    fin = np.vstack([corners, [[20, 20, 20]]]), np.vstack([faces, [[0, 1, 8]]])
    seen = mesh_exposure(joined(fin))
    assert seen.way == "reach"
    assert any("more than two triangles" in note for note in seen.notes)


def test_a_band_with_a_half_turn_has_one_side_and_goes_the_reach_way():
    steps = np.arange(40)
    around = 2 * np.pi * steps / 40
    middle = np.stack([50 * np.cos(around), 50 * np.sin(around), 0 * around], axis=1)
    out = np.stack([np.cos(around), np.sin(around), 0 * around], axis=1)
    across = 5 * (np.cos(around / 2)[:, None] * out + np.sin(around / 2)[:, None] * [0, 0, 1])
    corners = np.concatenate([middle - across, middle + across])
    after = np.where(steps < 39, steps + 1, 40)
    after_top = np.where(steps < 39, steps + 41, 0)
    faces = np.concatenate(
        [np.stack([steps, after, after_top], axis=1), np.stack([steps, after_top, steps + 40], 1)]
    )
    band = joined((corners, faces))
    assert mesh_exposure(band).way == "reach"
    # nothing hides anything: a ray from one side of each point leaves
    assert mesh_exposure(band).area_mm2 == pytest.approx(sum(band.areas_mm2.values()), rel=1e-3)


def test_either_way_can_be_asked_for():
    closed, corners_faces = joined(box(), box((5, 0, 0))), box()
    by_rays = mesh_exposure(closed, way="reach")
    # 4 standard errors
    assert abs(by_rays.area_mm2 - 800) < 4 * by_rays.error_mm2
    with pytest.raises(MeshError, match="mesh: not closed: 4 open edges"):
        mesh_exposure(joined((corners_faces[0], corners_faces[1][2:])), way="union")


@pytest.mark.parametrize("scale", [0.1, 3.0])
def test_size_k_gives_k2_area_and_motion_changes_nothing(scale):
    mesh = joined(box(), box((5, 3, 2)))
    rng = np.random.default_rng(7)
    turn = np.linalg.qr(rng.normal(size=(3, 3)))[0]
    turn *= np.sign(np.linalg.det(turn))
    moved = ImportedMesh(
        scale * mesh.vertices @ turn.T + [100, -50, 7], mesh.triangles, mesh.region_of, mesh.regions
    )
    # 1e-4: corners of the small one are rounded to 1/80 000 mm on edges of 1 mm
    assert area(moved) == pytest.approx(scale**2 * area(mesh), rel=1e-4)


def test_order_of_triangles_and_bodies_is_irrelevant():
    mesh = joined(box(), box((5, 3, 2)), box((9, 9, 9)))
    order = np.random.default_rng(3).permutation(len(mesh.triangles))
    shuffled = ImportedMesh(
        mesh.vertices, mesh.triangles[order], mesh.region_of[order], mesh.regions
    )
    first, second = mesh_exposure(mesh).areas_mm2, mesh_exposure(shuffled).areas_mm2
    assert first == pytest.approx(second, rel=EXACT)


def test_mesh_parts_join_with_parametric_parts():
    leg = mesh_parts("leg", joined(box((0, 0, 0), (60, 60, 400))), (20, 20, 0))
    top = place("top", board(1000, 500, 20), (0, 0, 400))
    seen = exposure([top, *leg])
    assert seen.areas_mm2["top", "bottom"] == 500_000 - 3_600
    assert seen.areas_mm2["leg", "a"] == pytest.approx(3_600 + 4 * 24_000, rel=EXACT)
    assert seen.size_mm == (1000, 500, 420)


def test_mesh_parts_of_several_bodies_keep_their_places_and_regions():
    mesh = joined(box((100, 0, 0)), box((120, 5, 0)), box((110, 0, 0)))
    parts = mesh_parts("set", mesh, (0, 0, 0))
    assert {"set 1", "set 2", "set 3"} == {part.name for part in parts}
    assert {(0, 0, 0), (800_000, 0, 0), (1_600_000, 400_000, 0)} == {part.at for part in parts}
    shown = exposure(parts, gap=0)
    assert shown.area_mm2 == pytest.approx(mesh_exposure(mesh).area_mm2, rel=EXACT)
    assert all(part.solid.area_mm2_of for part in parts)


def test_bodies_of_a_loose_mesh_stay_joined_to_each_other():
    parts = mesh_parts("door", joined(box(), box((10, 0, 0))), loose=True)
    assert exposure(parts).area_mm2 == pytest.approx(1000, rel=EXACT)


def test_an_open_mesh_makes_no_parts():
    corners, faces = box()
    with pytest.raises(MeshError, match="not closed"):
        mesh_parts("shell", joined((corners, faces[1:])))
