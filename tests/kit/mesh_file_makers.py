"""One good mesh file of each kind, to be spoiled by tests."""

import io
import json
import struct
import zipfile

import numpy as np
import pytest

from shapes.errors import ShapeError
from shapes.meshes.imported import MeshError
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
    packed = b"".join(b"\3" + np.array(face, "<i4").tobytes() for face in FACES)
    return head + CORNERS.astype("<f4").tobytes() + packed


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


def gltf_file(folder, uri, name="a.gltf"):
    return write(folder, name, json.dumps(gltf_tree({"uri": uri})[0]))
