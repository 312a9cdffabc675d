"""Mesh files that lie or are cut short: one clear sentence each, and no time or memory lost."""

import time
import tracemalloc

import numpy as np
import pytest
from mesh_file_makers import (
    CORNERS,
    GOOD,
    glb,
    gltf_tree,
    model_3mf,
    obj,
    off,
    ply,
    refused,
    stl_binary,
    write,
    zipped,
)

from shapes.errors import ShapeError
from shapes.meshes.imported import MeshError
from shapes.meshes.mesh_files import read_mesh

pytest.importorskip("trimesh")
pytest.importorskip("embreex")

# files that lie


ENDINGS = ("stl", "obj", "ply", "off", "glb", "gltf", "3mf")


@pytest.mark.parametrize(
    ("name", "ending"), [(name, end) for name in GOOD for end in ENDINGS if not name.endswith(end)]
)
def test_a_wrong_ending_is_named(tmp_path, name, ending):
    refused(write(tmp_path, f"wrong.{ending}", GOOD[name]()), "is not|declares|truncated")


@pytest.mark.parametrize("name", ["a.txt", "a", "a.step", "a.zip"])
def test_an_unknown_ending_is_refused(tmp_path, name):
    refused(write(tmp_path, name, "solid"), "is not one of STL, OBJ, PLY, GLB")


def test_a_file_that_is_not_there_is_one_error(tmp_path):
    refused(tmp_path / "a.stl", "No such file")


@pytest.mark.parametrize("name", [name for name in GOOD if name != "box.obj"])
@pytest.mark.parametrize("share", [0.999, 0.9, 0.5, 0.2, 0.02])
def test_a_file_cut_short_is_refused(tmp_path, name, share):
    """An OBJ file has no end that could be missed; a text STL file may lack part of its name."""
    data = GOOD[name]()
    data = data if isinstance(data, bytes) else data.encode()
    end = data.rindex(b"endsolid") if name == "text.stl" else len(data)
    refused(write(tmp_path, name, data[: int(end * share) - 1]))


def test_an_obj_file_cut_within_its_corners_has_no_face(tmp_path):
    refused(write(tmp_path, "a.obj", obj()[:60]), "empty: it has no face")


@pytest.mark.parametrize("ending", ENDINGS)
@pytest.mark.parametrize(
    "data", [b"", b"\0" * 300, b"\xff\xfe\x00" * 99, b"PK\x03\x04", b"{}", b"ply\n"]
)
def test_rubbish_is_refused(tmp_path, ending, data):
    refused(write(tmp_path, f"a.{ending}", data))


MANY = 1_000_000_000
HUGE = {
    "a.stl": lambda: stl_binary(MANY),
    "a.ply": lambda: ply("binary_little_endian", faces=MANY),
    "b.ply": lambda: ply("ascii", corners=MANY),
    "a.off": lambda: off(faces=MANY),
    "b.off": lambda: off(corners=MANY),
}


def huge_accessor(sparse):
    tree, data = gltf_tree()
    tree["accessors"][1]["count"] = 3 * MANY
    if sparse:
        del tree["accessors"][1]["bufferView"]
    return glb(tree, data)


HUGE["a.glb"] = lambda: huge_accessor(sparse=False)
HUGE["b.glb"] = lambda: huge_accessor(sparse=True)


def bounded(call):
    """Run a call; assert that it takes under 2 s and 50 MB, a thousandth of what is declared."""
    tracemalloc.start()
    start = time.perf_counter()
    try:
        call()
        assert time.perf_counter() - start < 2
        assert tracemalloc.get_traced_memory()[1] < 50e6
    finally:
        tracemalloc.stop()


@pytest.mark.parametrize("name", HUGE)
def test_a_thousand_million_faces_that_are_not_there_cost_nothing(tmp_path, name):
    path = write(tmp_path, name, HUGE[name]())
    bounded(lambda: refused(path, "truncated|without a buffer"))


def test_fewer_faces_declared_than_held_is_a_lie_too(tmp_path):
    refused(write(tmp_path, "a.stl", stl_binary(5)), "declares 5 triangles and holds 12")


def test_many_copies_of_one_mesh_are_refused_before_they_are_made(tmp_path):
    tree, data = gltf_tree()
    data += data[96:132] * 1000
    tree["buffers"][0]["byteLength"] = len(data)
    tree["bufferViews"][1] = {"buffer": 0, "byteOffset": 168, "byteLength": 36_000}
    tree["accessors"][1]["count"] = 18_000
    tree["nodes"] = [{"mesh": 0} for _ in range(4_000)]
    tree["scenes"] = [{"nodes": [0]}]
    path = write(tmp_path, "a.glb", glb(tree, data))
    bounded(lambda: refused(path, "more than 5000000 triangles"))


def test_copies_of_copies_in_3mf_are_refused_before_they_are_made(tmp_path):
    """Thirty objects, each twice the one before: 2^30 boxes."""
    extra = "".join(
        f'<object id="{k}"><components><component objectid="{k - 1}"/>'
        f'<component objectid="{k - 1}"/></components></object>'
        for k in range(2, 32)
    )
    path = write(tmp_path, "a.3mf", zipped(model_3mf('<item objectid="31"/>', extra)))
    bounded(lambda: refused(path, "too many copies"))


def test_objects_of_3mf_within_themselves_are_refused(tmp_path):
    extra = '<object id="2"><components><component objectid="2"/></components></object>'
    refused(
        write(tmp_path, "a.3mf", zipped(model_3mf('<item objectid="2"/>', extra))),
        "too many copies",
    )


def test_a_zip_bomb_is_refused_unpacked_to_its_bound_only(tmp_path):
    bomb = zipped(model_3mf(extra=" " * 200_000_000))
    assert len(bomb) < 1_000_000
    path = write(tmp_path, "a.3mf", bomb)
    bounded(lambda: refused(path, "unpacks to far more than its size"))


def test_entities_in_3mf_are_refused(tmp_path):
    head = '<!DOCTYPE model [<!ENTITY a SYSTEM "file:///etc/hostname">]>'
    refused(write(tmp_path, "a.3mf", zipped(model_3mf(head=head))), "declarations of its own")


@pytest.mark.parametrize(
    ("name", "data"),
    [
        ("a.stl", stl_binary(corners=CORNERS * np.float32(np.nan))),
        ("a.obj", obj().replace("v 0.0 0.0 0.0", "v nan 0.0 0.0")),
        ("a.off", off().replace("0.0 0.0 0.0", "inf 0.0 0.0", 1)),
        ("a.glb", glb(data=b"\x00\x00\xc0\x7f" + gltf_tree()[1][4:])),
        ("a.3mf", zipped(model_3mf().replace('x="0.0"', 'x="nan"', 1))),
    ],
)
def test_a_corner_that_is_no_number_is_refused(tmp_path, name, data):
    refused(write(tmp_path, name, data), "a corner is not a finite number")


@pytest.mark.parametrize(
    ("name", "data"),
    [
        ("a.stl", b"\0" * 84),
        ("b.stl", "solid a\nendsolid a\n"),
        ("a.obj", "v 0 0 0\nv 1 0 0\n"),
        ("a.ply", ply(corners=0, faces=0)),
        ("a.off", "OFF\n0 0 0\n"),
        ("a.glb", glb({"asset": {"version": "2.0"}})),
        ("a.3mf", zipped(model_3mf(build=""))),
        ("b.3mf", zipped("x", "other.txt")),
    ],
)
def test_a_file_without_triangles_is_refused(tmp_path, name, data):
    refused(write(tmp_path, name, data))


@pytest.mark.parametrize(
    ("name", "data"),
    [
        ("a.obj", obj().replace("f 1 ", "f 99 ", 1)),
        ("a.off", off().replace("3 0 ", "3 99 ", 1)),
        ("a.ply", ply().replace(b"3 0 ", b"3 99 ", 1)),
        ("a.glb", glb(data=gltf_tree()[1][:96] + b"\x63\0" + gltf_tree()[1][98:])),
        ("a.3mf", zipped(model_3mf(triangles='<triangle v1="0" v2="1" v3="99"/>'))),
    ],
)
def test_a_triangle_that_names_no_corner_is_refused(tmp_path, name, data):
    refused(write(tmp_path, name, data))


@pytest.mark.parametrize("unit", [0, -1, float("nan"), float("inf")])
def test_a_unit_that_is_no_length_is_refused(tmp_path, unit):
    with pytest.raises(ShapeError, match="unit_mm must be more than zero"):
        read_mesh(write(tmp_path, "a.stl", stl_binary()), unit)


def test_a_unit_that_makes_the_piece_longer_than_10_m_is_asked_about(tmp_path):
    with pytest.raises(MeshError, match=r"a.stl: 25400 mm long.*is the unit right"):
        read_mesh(write(tmp_path, "a.stl", stl_binary()), 25_400)
