"""Strips and fans of triangles in glTF, against closed forms."""

import numpy as np
import pytest
from mesh_file_makers import glb, gltf_tree, refused, write

from shapes.meshes.mesh_exposure import mesh_exposure
from shapes.meshes.mesh_files import read_mesh

pytest.importorskip("trimesh")
pytest.importorskip("embreex")

TYPES = {"<u1": 5121, "<u2": 5123, "<u4": 5125}
FAN, STRIP = 6, 5


def glb_of(*primitives, kind="<u2"):
    """Return a GLB file of (mode, corners, numbers or None), one mesh at one node."""
    data, views, accessors, parts = b"", [], [], []

    def add(array, **accessor):
        nonlocal data
        data += b"\0" * (-len(data) % 4)
        views.append({"buffer": 0, "byteOffset": len(data), "byteLength": array.nbytes})
        accessors.append({"bufferView": len(views) - 1, **accessor})
        data += array.tobytes()
        return len(accessors) - 1

    for mode, corners, numbers in primitives:
        part = {"mode": mode, "attributes": {"POSITION": add(
            np.array(corners, "<f4"), componentType=5126, count=len(corners), type="VEC3",
            min=np.min(corners, axis=0).tolist(), max=np.max(corners, axis=0).tolist(),
        )}}  # fmt: skip
        if numbers is not None:
            part["indices"] = add(
                np.array(numbers, kind),
                componentType=TYPES[kind],
                count=len(numbers),
                type="SCALAR",
            )
        parts.append(part)
    tree = {
        "asset": {"version": "2.0"}, "scene": 0, "scenes": [{"nodes": [0]}],
        "nodes": [{"mesh": 0}], "meshes": [{"primitives": parts}],
        "buffers": [{"byteLength": len(data)}], "bufferViews": views, "accessors": accessors,
    }  # fmt: skip
    return glb(tree, data)


def ring(sides, height):
    angles = 2 * np.pi * np.arange(sides) / sides
    return [(np.cos(a), height, -np.sin(a)) for a in angles]


@pytest.mark.parametrize("kind", TYPES)
def test_a_prism_of_two_fans_and_a_strip_is_closed_and_has_its_area(tmp_path, kind):
    """A prism of 12 sides, radius 1, height 2, y up: two ends of 12/2 sin(30) and 12 sides."""
    low, high = ring(12, 0), ring(12, 2)
    around = [k % 12 + 12 * end for k in range(13) for end in (1, 0)]
    data = glb_of(
        (FAN, high, range(12)),
        (FAN, low[::-1], None),
        (STRIP, low + high, around),
        kind=kind,
    )
    mesh = read_mesh(write(tmp_path, "prism.glb", data), 100)
    seen = mesh_exposure(mesh)
    expected = 2 * 6 * np.sin(np.pi / 6) + 12 * 2 * np.sin(np.pi / 12) * 2
    assert seen.way == "union"
    assert not any("inside out" in note for note in seen.notes)
    # 1e-6: corners of 32 bits
    assert expected * 100**2 == pytest.approx(seen.area_mm2, rel=1e-6)
    assert len(mesh.triangles) == 10 + 10 + 24


def test_every_triangle_of_a_strip_faces_the_same_way(tmp_path):
    corners = [(k // 2, k % 2, 0) for k in range(9)]
    mesh = read_mesh(write(tmp_path, "a.glb", glb_of((STRIP, corners, None))), 1, up="z")
    a, b, c = (mesh.vertices[mesh.triangles[:, k]] for k in range(3))
    assert np.cross(b - a, c - a)[:, 2].tolist() == [-1.0] * 7


def test_a_strip_too_short_for_a_triangle_is_no_surface(tmp_path):
    path = write(tmp_path, "a.glb", glb_of((STRIP, [(0, 0, 0), (1, 0, 0)], None)))
    refused(path, "empty: it has no triangle")


def test_a_fan_that_names_no_corner_is_refused(tmp_path):
    path = write(tmp_path, "a.glb", glb_of((FAN, ring(4, 0), [0, 1, 2, 9])))
    refused(path, "a corner that is not there")


def test_one_strip_used_over_and_over_is_refused_before_it_is_made(tmp_path):
    tree, data = gltf_tree()
    data += data[96:132] * 20_000
    tree["buffers"][0]["byteLength"] = len(data)
    tree["bufferViews"][1] = {"buffer": 0, "byteOffset": 168, "byteLength": 720_000}
    tree["accessors"][1]["count"] = 360_000
    part = {"attributes": {"POSITION": 0}, "indices": 1, "mode": STRIP}
    tree["meshes"].append({"primitives": [part] * 1_000})
    refused(write(tmp_path, "a.glb", glb(tree, data)), "more than 5000000 triangles")
