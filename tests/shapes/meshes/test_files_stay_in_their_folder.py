"""Nothing outside the folder is read, and nothing is fetched."""

import base64

import pytest
from mesh_file_makers import glb, gltf_file, gltf_tree, obj, ply, refused, stl_binary, write

from shapes.meshes.mesh_files import read_mesh

pytest.importorskip("trimesh")
pytest.importorskip("embreex")

# nothing outside the folder, nothing fetched


@pytest.fixture
def no_network(monkeypatch):
    """Fail on any connection."""

    def refuse(*_):
        raise AssertionError("a connection was tried")

    monkeypatch.setattr("socket.socket.connect", refuse)
    monkeypatch.setattr("socket.getaddrinfo", refuse)


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
