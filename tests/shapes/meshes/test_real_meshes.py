"""Real meshes from SURFACECALC_MESHES, each with its known area."""

import os
from pathlib import Path

import pytest

from shapes.meshes.mesh_exposure import mesh_exposure
from shapes.meshes.mesh_files import read_mesh

pytest.importorskip("trimesh")
pytest.importorskip("embreex")

# real meshes

KNOWN = {
    # file: (unit [mm], way, area [square units of the file], tolerance, reason)
    "kenney_bathroomCabinet.glb": (200, "union", 34.06, 1e-6, "its box, sizes to 7 digits"),
    "kenney_desk.glb": (200, "union", 164.546, 1e-5, "quoted to 6 digits"),
    "quaternius_Table.glb": (10, "union", 124_249, 1e-5, "quoted to 6 digits"),
    "kaykit_shelf_A_big.obj": (1000, "union", 3.2093, 1e-5, "quoted to 5 digits"),
    "trimesh_7_8ths_cube.stl": (1, "union", 9600, 1e-9, "elementary"),
    "trimesh_angle_block.stl": (25.4, "union", 9.388587, 2e-4, "facets of its round parts"),
    "odedstein_cube_no_bottom.obj": (100, "reach", 20, 1e-9, "elementary: every point sees out"),
}


@pytest.fixture
def real_meshes():
    folder = os.environ.get("SURFACECALC_MESHES")
    if not folder:
        pytest.skip("SURFACECALC_MESHES names no folder with the real meshes")
    return Path(folder)


@pytest.mark.parametrize("name", KNOWN)
def test_real_meshes_show_their_known_areas(real_meshes, name):
    unit, way, expected, tolerance, _ = KNOWN[name]
    seen = mesh_exposure(read_mesh(real_meshes / name, unit))
    assert way == seen.way
    assert pytest.approx(expected, rel=tolerance) == seen.area_mm2 / unit**2


@pytest.mark.parametrize("name", [name for name in KNOWN if KNOWN[name][1] == "union"])
def test_both_ways_agree_on_closed_real_meshes(real_meshes, name):
    mesh = read_mesh(real_meshes / name, KNOWN[name][0])
    # without a gap: rays close narrow slits of one body as well, the union only air between bodies
    exact = mesh_exposure(mesh, gap=0).area_mm2
    by_rays = mesh_exposure(mesh, way="reach", gap=0)
    # 1 %: the scatter of small meshes
    assert exact == pytest.approx(by_rays.area_mm2, rel=0.01)


@pytest.mark.parametrize(
    ("name", "size", "area_m2"),
    [
        ("polyhaven_painted_wooden_cabinet.glb", (1194.7, 616.6, 1181.9), 13.107),
        ("polyhaven_painted_wooden_stool.glb", (384.8, 406.1, 578.9), 1.0889),
    ],
)
def test_real_open_shells_keep_their_size_and_hide_some_of_their_skin(
    real_meshes, name, size, area_m2
):
    mesh = read_mesh(real_meshes / name, 1000)
    assert size == pytest.approx(mesh.size_mm, abs=0.06)  # quoted to 0.1 mm
    assert area_m2 == pytest.approx(sum(mesh.areas_mm2.values()) / 1e6, rel=1e-4)
    seen = mesh_exposure(mesh)
    assert seen.way == "reach"
    assert seen.error_mm2 < 0.01 * seen.area_mm2 < 0.0096 * area_m2 * 1e6


def test_regions_of_a_real_mesh_come_from_materials_or_nodes(real_meshes):
    path = real_meshes / "kenney_bathroomCabinet.glb"
    materials = read_mesh(path, 1)
    assert {"wood", "woodDark", "metal"} == set(materials.regions)
    assert {"bathroomCabinet", "door"} == set(read_mesh(path, 1, named_by="nodes").regions)
    # as the file's list of areas by material has them, to its 7 digits
    expected = {"wood": 56.008182, "woodDark": 1.92003, "metal": 4.009533}
    assert expected == pytest.approx(materials.areas_mm2, rel=1e-6)
