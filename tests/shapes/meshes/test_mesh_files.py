"""Mesh files: what they say is read, and files that lie give one clear error each.

All files are made here. The model of most is a step of two boxes, `seat` on `frame`, 1 m wide.
"""

import base64
import io
import json
import os
import struct
import time
import tracemalloc
import zipfile

import numpy as np
import pytest

from shapes.errors import ShapeError
from shapes.meshes.imported import MeshError
from shapes.meshes.mesh_exposure import mesh_exposure
from shapes.meshes.mesh_files import read_mesh

pytest.importorskip("trimesh")
pytest.importorskip("embreex")

CORNERS = np.array([[x, y, z] for x in (0, 1) for y in (0, 1) for z in (0, 1)], dtype=np.float32)
QUADS = [(0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3)]
FACES = np.array([[quad[k] for k in three] for quad in QUADS for three in ((0, 1, 2), (0, 2, 3))])


def write(folder, name, data):
    path = folder / name
    path.write_bytes(data if isinstance(data, bytes) else data.encode())
    return path


def refused(path, says=None, **options):
    """Assert that reading fails with one error of ours that names the file, and return its text."""
    with pytest.raises(MeshError, match=says) as caught:
        read_mesh(path, 1, **options)
    assert str(caught.value).startswith(f"{path.name}: ")
    assert "\n" not in str(caught.value)
    assert caught.value.__cause__ is None
    assert caught.value.__suppress_context__ or caught.value.__context__ is None
    assert isinstance(caught.value, ShapeError)
    return str(caught.value)


# one good file of each kind


def stl_binary(count=None, corners=CORNERS):
    triangles = corners[FACES].astype("<f4")
    body = b"".join(struct.pack("<12x") + t.tobytes() + b"\0\0" for t in triangles)
    return b"\0" * 80 + struct.pack("<I", len(FACES) if count is None else count) + body


def stl_text(*names):
    text = ""
    for number, name in enumerate(names):
        text += f"solid {name}\n"
        for corners in CORNERS[FACES] + [2 * number, 0, 0]:
            lines = "".join("vertex {} {} {}\n".format(*corner) for corner in corners)
            text += f"facet normal 0 0 0\nouter loop\n{lines}endloop\nendfacet\n"
        text += f"endsolid {name}\n"
    return text


def obj(lines=("usemtl oak", "usemtl iron"), head="", each=6):
    text = head + "".join("v {} {} {}\n".format(*corner) for corner in CORNERS)
    faces = ["f " + " ".join(str(k + 1) for k in face) for face in FACES.tolist()]
    for number, line in enumerate(lines):
        text += line + "\n" + "\n".join(faces[number * each : (number + 1) * each]) + "\n"
    return text


def ply(form="ascii", corners=8, faces=12):
    head = (
        f"ply\nformat {form} 1.0\nelement vertex {corners}\nproperty float x\nproperty float y\n"
        f"property float z\nelement face {faces}\nproperty list uchar int vertex_indices\n"
        "end_header\n"
    ).encode()
    if form == "ascii":
        body = "".join("{} {} {}\n".format(*corner) for corner in CORNERS)
        return head + (body + "".join("3 {} {} {}\n".format(*face) for face in FACES)).encode()
    body = b"".join(b"\3" + np.array(face, "<i4").tobytes() for face in FACES)
    return head + CORNERS.astype("<f4").tobytes() + body


def off(corners=8, faces=12):
    text = f"OFF\n{corners} {faces} 0\n" + "".join("{} {} {}\n".format(*c) for c in CORNERS)
    return text + "".join("3 {} {} {}\n".format(*face) for face in FACES)


def gltf_tree(buffer=None):
    """Return a glTF tree of two nodes with one mesh of two materials, and its buffer."""
    data = CORNERS.astype("<f4").tobytes() + FACES.astype("<u2").tobytes()
    views = [(0, 96), (96, 36), (132, 36)]
    accessors = [
        {"bufferView": 0, "componentType": 5126, "count": 8, "type": "VEC3"},
        {"bufferView": 1, "componentType": 5123, "count": 18, "type": "SCALAR"},
        {"bufferView": 2, "componentType": 5123, "count": 18, "type": "SCALAR"},
    ]
    accessors[0] |= {"min": [0, 0, 0], "max": [1, 1, 1]}
    parts = [{"attributes": {"POSITION": 0}, "indices": 1 + k, "material": k} for k in range(2)]
    tree = {
        "asset": {"version": "2.0"},
        "scene": 0,
        "scenes": [{"nodes": [0]}],
        "nodes": [
            {"name": "frame", "mesh": 0, "children": [1], "scale": [2, 1, 1]},
            {"name": "seat", "mesh": 0, "translation": [0, 5, 0], "scale": [1, 1, -3]},
        ],
        "meshes": [{"name": "box", "primitives": parts}],
        "materials": [{"name": "oak"}, {"name": "iron"}],
        "buffers": [{"byteLength": len(data)} | (buffer or {})],
        "bufferViews": [{"buffer": 0, "byteOffset": o, "byteLength": n} for o, n in views],
        "accessors": accessors,
    }
    return tree, data


def glb(tree=None, data=None):
    own_tree, own_data = gltf_tree()
    text = json.dumps(tree or own_tree).encode()
    text += b" " * (-len(text) % 4)
    data = own_data if data is None else data
    chunks = struct.pack("<I4s", len(text), b"JSON") + text
    chunks += struct.pack("<I4s", len(data), b"BIN\0") + data
    return b"glTF" + struct.pack("<II", 2, 12 + len(chunks)) + chunks


def model_3mf(build='<item objectid="1"/>', extra="", unit="millimeter", triangles="", head=""):
    corners = "".join('<vertex x="{}" y="{}" z="{}"/>'.format(*c) for c in CORNERS)
    faces = "".join(
        '<triangle v1="{}" v2="{}" v3="{}"{}/>'.format(*f, ' pid="9" p1="1"' if k < 4 else "")
        for k, f in enumerate(FACES)
    )
    return (
        f'<?xml version="1.0"?>{head}<model unit="{unit}" '
        'xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02"><resources>'
        '<basematerials id="9"><base name="oak"/><base name="iron"/></basematerials>'
        '<object id="1" name="box" pid="9" pindex="0"><mesh>'
        f"<vertices>{corners}</vertices><triangles>{faces}{triangles}</triangles></mesh></object>"
        f"{extra}</resources><build>{build}</build></model>"
    )


def zipped(model, name="3D/3dmodel.model"):
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr(name, model)
    return held.getvalue()


GOOD = {
    "box.stl": stl_binary,
    "text.stl": lambda: stl_text("box"),
    "box.obj": obj,
    "box.ply": ply,
    "little.ply": lambda: ply("binary_little_endian"),
    "box.off": off,
    "box.glb": lambda: glb(gltf_tree()[0] | {"scenes": [{"nodes": [1]}]}),
    "box.3mf": lambda: zipped(model_3mf()),
}


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


def test_obj_faces_that_count_back_are_read_only_after_all_corners(tmp_path):
    back = obj(("",), each=12)
    for k in range(8, 0, -1):
        back = "\n".join(
            line.replace(f" {k}", f" -{9 - k}") if line.startswith("f") else line
            for line in back.split("\n")
        )
    assert mesh_exposure(read_mesh(write(tmp_path, "a.obj", back), 1)).area_mm2 == 6.0
    refused(write(tmp_path, "b.obj", back + "v 2 2 2\n"), "count back")


@pytest.mark.parametrize("unit", [0, -1, float("nan"), float("inf")])
def test_a_unit_that_is_no_length_is_refused(tmp_path, unit):
    with pytest.raises(ShapeError, match="unit_mm must be more than zero"):
        read_mesh(write(tmp_path, "a.stl", stl_binary()), unit)


def test_a_unit_that_makes_the_piece_longer_than_10_m_is_asked_about(tmp_path):
    with pytest.raises(MeshError, match=r"a.stl: 25400 mm long.*is the unit right"):
        read_mesh(write(tmp_path, "a.stl", stl_binary()), 25_400)


# nothing outside the folder, nothing fetched


@pytest.fixture
def no_network(monkeypatch):
    """Fail on any connection."""

    def refuse(*_):
        raise AssertionError("a connection was tried")

    monkeypatch.setattr("socket.socket.connect", refuse)
    monkeypatch.setattr("socket.getaddrinfo", refuse)


def gltf_file(folder, uri, name="a.gltf"):
    return write(folder, name, json.dumps(gltf_tree({"uri": uri})[0]))


def test_a_buffer_beside_the_file_or_in_it_is_read(tmp_path):
    data = gltf_tree()[1]
    write(tmp_path, "a b.bin", data)
    beside = read_mesh(gltf_file(tmp_path, "a%20b.bin"), 1)
    uri = "data:application/octet-stream;base64," + base64.b64encode(data).decode()
    within = read_mesh(gltf_file(tmp_path, uri, "b.gltf"), 1)
    assert beside.areas_mm2 == within.areas_mm2
    assert sum(within.areas_mm2.values()) == pytest.approx(32, rel=1e-6)


@pytest.mark.parametrize(
    "uri",
    [
        "../secret.bin",
        "%2e%2e/secret.bin",
        "link.bin",
        "http://127.0.0.1:9/secret.bin",
        "https://example.org/a.bin",
        "file:///etc/hostname",
        "//server/share/a.bin",
        "C:/a.bin",
        "\\\\server\\a.bin",
    ],
)
def test_a_buffer_anywhere_else_is_refused(tmp_path, uri, no_network):
    folder = tmp_path / "inner"
    folder.mkdir()
    secret = write(tmp_path, "secret.bin", gltf_tree()[1])
    (folder / "link.bin").symlink_to(secret)
    refused(gltf_file(folder, uri), "outside its folder|another place than its folder")


def test_a_buffer_that_is_an_absolute_path_is_refused(tmp_path, no_network):
    folder = tmp_path / "inner"
    folder.mkdir()
    secret = write(tmp_path, "secret.bin", gltf_tree()[1])
    refused(gltf_file(folder, str(secret)), "outside its folder")


def test_a_buffer_that_is_missing_or_damaged_is_named(tmp_path):
    refused(gltf_file(tmp_path, "a.bin"), "needs a.bin, which is not beside it")
    refused(gltf_file(tmp_path, "data:;base64,@@@@"), "damaged")
    write(tmp_path, "short.bin", b"\0" * 20)
    refused(gltf_file(tmp_path, "short.bin"), "a buffer is shorter than declared")


def test_textures_are_neither_read_nor_fetched(tmp_path, no_network):
    tree, data = gltf_tree()
    tree["images"] = [{"uri": "../secret.png"}, {"uri": "http://127.0.0.1:9/a.png"}]
    tree["textures"] = [{"source": 0}, {"source": 1}]
    tree["materials"][0]["pbrMetallicRoughness"] = {"baseColorTexture": {"index": 1}}
    assert read_mesh(write(tmp_path, "a.glb", glb(tree, data)), 1).regions == ("oak", "iron")


def test_textures_of_ply_are_neither_read_nor_fetched(tmp_path, no_network):
    data = ply().replace(b"element vertex", b"comment TextureFile ../secret.png\nelement vertex")
    write(tmp_path, "secret.png", "none")
    folder = tmp_path / "inner"
    folder.mkdir()
    assert len(read_mesh(write(folder, "a.ply", data), 1).triangles) == 12


@pytest.mark.parametrize("library", ["../secret.mtl", "http://127.0.0.1:9/a.mtl", "missing.mtl"])
def test_material_files_of_obj_are_neither_read_nor_needed(tmp_path, library, no_network):
    write(tmp_path, "secret.mtl", "newmtl stolen\nmap_Kd ../secret.png\n")
    folder = tmp_path / "inner"
    folder.mkdir()
    path = write(folder, "a.obj", obj(head=f"mtllib {library}\n"))
    assert {"oak", "iron"} == set(read_mesh(path, 1).regions)


def test_a_file_outside_the_folder_given_is_refused(tmp_path):
    path = write(tmp_path, "a.stl", stl_binary())
    inner = tmp_path / "inner"
    inner.mkdir()
    refused(path, "lies outside the folder", folder=inner)
    (inner / "b.stl").symlink_to(path)
    refused(inner / "b.stl", "lies outside the folder", folder=inner)
    assert read_mesh(path, 1, tmp_path).size_mm == (1, 1, 1)


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"extensionsRequired": ["KHR_draco_mesh_compression"]}, "KHR_draco_mesh_compression"),
        ({"nodes": [{"children": [1]}, {"children": [0]}]}, "ring"),
        ({"nodes": [{"children": [2]}, {"children": [2]}, {}]}, "two parents"),
        ({"nodes": [{"mesh": 7}]}, "an entry that is not there"),
        ({"nodes": [{"children": [7]}]}, "an entry that is not there"),
        (
            {"bufferViews": [{"buffer": 0, "byteOffset": 160, "byteLength": 36}] * 3},
            "beyond its end",
        ),
        ({"bufferViews": [{"buffer": 0, "byteOffset": -9, "byteLength": 36}] * 3}, "negative"),
        ({"meshes": 5}, "cannot be read as GLB"),
        ({"accessors": [{}] * 3}, "without a buffer"),
    ],
)
def test_gltf_trees_that_hang_together_wrongly_are_refused(tmp_path, change, says):
    tree, data = gltf_tree()
    refused(write(tmp_path, "a.glb", glb(tree | change, data)), says)
