"""Mesh files of every kind: their units, regions and transforms."""

import os

import numpy as np
import pytest
from mesh_file_makers import (
    CORNERS,
    GOOD,
    QUADS,
    glb,
    gltf_file,
    gltf_tree,
    model_3mf,
    obj,
    refused,
    stl_text,
    write,
    zipped,
)

from shapes.meshes.mesh_exposure import mesh_exposure
from shapes.meshes.mesh_files import read_mesh

pytest.importorskip("trimesh")
pytest.importorskip("embreex")


@pytest.mark.parametrize("name", GOOD)
def test_every_kind_is_read_in_the_unit_asked_for(tmp_path, name):
    mesh = read_mesh(write(tmp_path, name, GOOD[name]()), 25.4)
    size = (1, 3, 1) if name == "box.glb" else (1, 1, 1)
    # 1e-6: 32-bit numbers
    assert tuple(25.4 * side for side in size) == pytest.approx(mesh.size_mm, rel=1e-6)
    seen = mesh_exposure(mesh)
    assert seen.way == "union"
    expected = 2 * (size[0] * size[1] + size[1] * size[2] + size[0] * size[2])
    assert expected * 25.4**2 == pytest.approx(seen.area_mm2, rel=1e-5)  # rounded to the grid


@pytest.mark.parametrize("name", GOOD)
def test_the_ending_may_be_in_capitals(tmp_path, name):
    path = write(tmp_path, name.upper(), GOOD[name]())
    assert read_mesh(path, 1).triangles.shape == (12, 3)


def test_what_is_no_file_is_refused_without_waiting_for_it(tmp_path):
    os.mkfifo(tmp_path / "pipe.stl")
    refused(tmp_path / "pipe.stl", "is not a file")
    (tmp_path / "folder.stl").mkdir()
    refused(tmp_path / "folder.stl", "is not a file")


def test_a_link_is_read_as_the_file_it_leads_to(tmp_path):
    folder = tmp_path / "inner"
    folder.mkdir()
    gltf_file(folder, "a.bin")
    write(folder, "a.bin", gltf_tree()[1])
    (tmp_path / "link.gltf").symlink_to(folder / "a.gltf")
    assert len(read_mesh(tmp_path / "link.gltf", 1).triangles) == 24


# regions and transforms


def test_nodes_of_gltf_stand_where_their_transforms_put_them(tmp_path):
    """frame: 2 x 1 x 1; seat, in it: 5 up, mirrored and 3 deep, doubled by its parent."""
    mesh = read_mesh(write(tmp_path, "set.glb", glb()), 1, named_by="nodes")
    # y up becomes z up; 1e-6: 32-bit numbers
    assert (2, 4, 6) == pytest.approx(mesh.size_mm, rel=1e-6)
    frame, seat = 2 * (2 + 2 + 1), 2 * (2 * 3 + 2 * 1 + 3 * 1)
    assert {"frame": frame, "seat": seat} == pytest.approx(mesh_exposure(mesh).areas_mm2, rel=1e-4)
    assert mesh_exposure(mesh).notes == ("union of 2 closed bodies: exact",)


def test_materials_of_gltf_name_regions_across_nodes(tmp_path):
    mesh = read_mesh(write(tmp_path, "set.glb", glb()), 1)
    assert ("oak", "iron") == mesh.regions
    assert sum(mesh.areas_mm2.values()) == pytest.approx(10 + 22, rel=1e-6)


def test_gltf_without_materials_is_named_by_nodes_and_without_both_is_a_surface(tmp_path):
    tree, _ = gltf_tree()
    for primitive in tree["meshes"][0]["primitives"]:
        del primitive["material"]
    assert {"frame", "seat"} == set(read_mesh(write(tmp_path, "a.glb", glb(tree)), 1).regions)
    for node in tree["nodes"]:
        del node["name"]
    assert ("surface",) == read_mesh(write(tmp_path, "b.glb", glb(tree)), 1).regions


def test_the_axis_that_points_up_can_be_said(tmp_path):
    path = write(tmp_path, "set.glb", glb())
    assert (2, 6, 4) == pytest.approx(read_mesh(path, 1, up="z").size_mm, rel=1e-6)


def test_reading_twice_gives_the_same_arrays(tmp_path):
    path = write(tmp_path, "set.glb", glb())
    first, second = read_mesh(path, 1), read_mesh(path, 1)
    assert np.array_equal(first.vertices[first.triangles], second.vertices[second.triangles])
    assert first.regions == second.regions


@pytest.mark.parametrize(
    ("lines", "named_by", "regions"),
    [
        (("usemtl oak", "usemtl iron"), "materials", {"oak", "iron"}),
        (("g seat", "g frame"), "materials", {"seat", "frame"}),
        (("o seat", "o frame"), "nodes", {"seat", "frame"}),
        (("usemtl oak\ng seat", "g frame"), "materials", {"oak"}),
        (("usemtl oak\ng seat", "g frame"), "nodes", {"seat", "frame"}),
        (("usemtl a_1 b", "usemtl a_1"), "materials", {"a_1 b", "a_1"}),
        (("", ""), "materials", {"surface"}),
        (("", "usemtl oak"), "materials", {"surface", "oak"}),
    ],
)
def test_regions_of_obj_come_from_materials_groups_or_objects(tmp_path, lines, named_by, regions):
    mesh = read_mesh(write(tmp_path, "box.obj", obj(lines)), 1, named_by=named_by)
    assert regions == set(mesh.regions)
    assert sum(mesh.areas_mm2.values()) == pytest.approx(6)
    if len(regions) == 2:
        assert set(mesh.areas_mm2.values()) == {3.0}


def test_solids_of_a_text_stl_file_are_regions(tmp_path):
    mesh = read_mesh(write(tmp_path, "two.stl", stl_text("seat", "frame")), 1)
    assert {"seat": 6.0, "frame": 6.0} == mesh.areas_mm2


def test_3mf_has_materials_copies_transforms_and_a_unit(tmp_path):
    extra = (
        '<object id="2" name="pair"><components><component objectid="1"/>'
        '<component objectid="1" transform="2 0 0 0 1 0 0 0 1 10 0 0"/></components></object>'
    )
    build = '<item objectid="2" transform="-1 0 0 0 1 0 0 0 1 0 0 0"/>'
    path = write(tmp_path, "set.3mf", zipped(model_3mf(build, extra, "inch")))
    mesh = read_mesh(path, 1)
    assert mesh.size_mm == (12, 1, 1)
    # iron: the left and right sides, 1 x 1 each
    assert mesh.areas_mm2 == pytest.approx({"iron": 4, "oak": 4 + 8})
    seen = mesh_exposure(mesh)
    assert "the file says its unit is the inch" in seen.notes
    assert not any("inside out" in note for note in seen.notes)  # mirrored, and turned back
    assert ("box",) == read_mesh(path, 1, named_by="nodes").regions


def test_polygons_are_cut_into_triangles(tmp_path):
    text = "".join("v {} {} {}\n".format(*corner) for corner in CORNERS)
    text += "".join("f " + " ".join(str(k + 1) for k in quad) + "\n" for quad in QUADS)
    assert mesh_exposure(read_mesh(write(tmp_path, "q.obj", text), 1)).area_mm2 == 6.0
