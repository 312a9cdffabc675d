"""glTF and GLB files, checked and stripped to what geometry needs.

Left are nodes, meshes and the names of materials. Buffers come from the file itself or from files
in its folder; every count is checked against the bytes behind it. Nothing is fetched.

Source: Khronos Group, glTF 2.0 Specification, ISO/IEC 12113:2022 (layout from memory).
"""

import base64
import binascii
import json
import urllib.parse
from pathlib import Path
from typing import Any

from shapes.meshes.file_headers import MOST_TRIANGLES
from shapes.meshes.gltf_strips import APART, set_apart
from shapes.meshes.imported import MeshError

COMPONENT_BYTES = {5120: 1, 5121: 1, 5122: 2, 5123: 2, 5125: 4, 5126: 4}
COMPONENTS = {"SCALAR": 1, "VEC2": 2, "VEC3": 3, "VEC4": 4, "MAT2": 4, "MAT3": 9, "MAT4": 16}
PACKED = ("KHR_draco_mesh_compression", "EXT_meshopt_compression", "KHR_mesh_quantization")
GLB_HEAD = 12
NODE_KEYS = ("mesh", "children", "matrix", "translation", "rotation", "scale")
MATERIAL = "material: "
"""Before the name of a material, to tell it from a name that the reader makes up."""
KEPT = ("bufferViews", "accessors", "scene", "scenes")
Tree = dict[str, Any]


def checked(
    source: str, data: bytes, folder: Path, inside: Path
) -> tuple[bytes, dict[str, bytes], list[str | None]]:
    """Return a glTF text with geometry alone, its buffers by name, and the names of its nodes.

    In the text, nodes are called by their number: several may have one name.

    Args:
        source: name of the file, for errors.
        data: its bytes, glTF or GLB.
        folder: where it lies.
        inside: what may be read of.

    Raises:
        MeshError: the file lies about its contents or refers to what must not be read.
    """
    text, own = _chunks(source, data) if data.startswith(b"glTF") else (data, None)
    tree = json.loads(text)
    if not isinstance(tree, dict):
        raise MeshError(source, "is not glTF: no object at its top")
    for packing in PACKED:
        if packing in tree.get("extensionsRequired", []):
            raise MeshError(source, f"is packed with {packing}, which is not read")
    buffers = {
        f"buffer{k}": _buffer(source, buffer, own, folder, inside)
        for k, buffer in enumerate(tree.get("buffers", []))
    }
    _check_views(source, tree, list(buffers.values()))
    _check_meshes(source, tree)
    _check_nodes(source, tree)
    set_apart(source, tree, buffers)
    names = [str(node["name"]) if node.get("name") else None for node in tree.get("nodes", [])]
    return json.dumps(_stripped(tree, buffers)).encode(), buffers, names


def material_name(label: str | None) -> str | None:
    """Return the name of a material from what the stripped text calls it, None if it has none."""
    return label.removeprefix(MATERIAL) or None if label and label.startswith(MATERIAL) else None


def _chunks(source: str, data: bytes) -> tuple[bytes, bytes | None]:
    """Return the text and the binary chunk of a GLB file."""
    if len(data) < GLB_HEAD + 8 or int.from_bytes(data[8:12], "little") != len(data):
        raise MeshError(source, "truncated: its length is not the length it declares")
    chunks: dict[bytes, bytes] = {}
    start = GLB_HEAD
    while start + 8 <= len(data):
        length = int.from_bytes(data[start : start + 4], "little")
        if start + 8 + length > len(data):
            raise MeshError(source, "truncated: a chunk is longer than the file")
        chunks.setdefault(data[start + 4 : start + 8], data[start + 8 : start + 8 + length])
        start += 8 + length
    if b"JSON" not in chunks:
        raise MeshError(source, "is not GLB: it has no description")
    return chunks[b"JSON"], chunks.get(b"BIN\x00")


def _buffer(source: str, buffer: Tree, own: bytes | None, folder: Path, inside: Path) -> bytes:
    """Return the bytes of a buffer: of the file itself, written in it, or beside it."""
    uri = buffer.get("uri")
    if uri is None:
        data = own or b""
    elif uri.startswith("data:"):
        try:
            data = base64.b64decode(uri.partition(",")[2], validate=True)
        except binascii.Error:
            raise MeshError(source, "a buffer written in it is damaged") from None
    else:
        data = _beside(source, uri, folder, inside)
    if len(data) < int(buffer.get("byteLength", 0)):
        raise MeshError(source, "truncated: a buffer is shorter than declared")
    return data


def _beside(source: str, uri: str, folder: Path, inside: Path) -> bytes:
    name = urllib.parse.unquote(uri)
    if "://" in name or name.startswith(("//", "\\")) or ":" in name.split("/")[0]:
        raise MeshError(source, "refers to another place than its folder; nothing is fetched")
    path = (folder / name).resolve()
    if not path.is_relative_to(folder) or not path.is_relative_to(inside):
        raise MeshError(source, "refers to a file outside its folder")
    if not path.is_file():
        raise MeshError(source, f"needs {path.name}, which is not beside it")
    return path.read_bytes()


def _check_views(source: str, tree: Tree, buffers: list[bytes]) -> None:
    """Raise where a view or an accessor reaches beyond the bytes behind it."""
    views = tree.get("bufferViews", [])
    for view in views:
        end = int(view.get("byteOffset", 0)) + int(view["byteLength"])
        if min(end, int(view["byteLength"]), int(view.get("byteOffset", 0))) < 0:
            raise MeshError(source, "a part of a buffer has a negative length")
        if end > len(_entry(source, buffers, view["buffer"])):
            raise MeshError(source, "truncated: a part of a buffer lies beyond its end")
    for accessor in tree.get("accessors", []):
        if "sparse" in accessor or "bufferView" not in accessor:
            if _is_used(tree, accessor):
                raise MeshError(source, "numbers without a buffer behind them are not read")
            accessor["count"] = 0
            continue
        view = _entry(source, views, accessor["bufferView"])
        each = COMPONENT_BYTES[accessor["componentType"]] * COMPONENTS[accessor["type"]]
        count, stride = int(accessor["count"]), int(view.get("byteStride") or each)
        last = int(accessor.get("byteOffset", 0)) + stride * (count - 1) + each
        if count < 0 or (count and last > view["byteLength"]):
            raise MeshError(source, "truncated: declares more numbers than it holds")


def _is_used(tree: Tree, accessor: Tree) -> bool:
    number = next(k for k, other in enumerate(tree["accessors"]) if other is accessor)
    return any(
        number in (primitive.get("indices"), primitive.get("attributes", {}).get("POSITION"))
        for mesh in tree.get("meshes", [])
        for primitive in mesh.get("primitives", [])
    )


def _check_meshes(source: str, tree: Tree) -> None:
    """Raise where the triangles of all nodes together are too many."""
    accessors = tree.get("accessors", [])
    totals = []
    for mesh in tree.get("meshes", []):
        total = 0
        for primitive in mesh.get("primitives", []):
            corners = primitive.get("indices", primitive.get("attributes", {}).get("POSITION"))
            total += 0 if corners is None else _entry(source, accessors, corners)["count"]
        totals.append(total)
    nodes = [node["mesh"] for node in tree.get("nodes", []) if "mesh" in node]
    if sum(_entry(source, totals, number) for number in nodes) > 3 * MOST_TRIANGLES:
        raise MeshError(source, f"more than {MOST_TRIANGLES} triangles")


def _check_nodes(source: str, tree: Tree) -> None:
    """Raise where nodes do not form a tree."""
    nodes = tree.get("nodes", [])
    parents = [child for node in nodes for child in node.get("children", [])]
    if len(set(parents)) < len(parents):
        raise MeshError(source, "a node has two parents")
    roots = set(range(len(nodes))) - set(parents)
    reached, waiting = 0, list(roots)
    while waiting:
        reached += 1
        waiting += _entry(source, nodes, waiting.pop()).get("children", [])
    if reached < len(nodes):
        raise MeshError(source, "nodes form a ring")


def _entry(source: str, entries: list[Any], number: int) -> Any:
    if not 0 <= number < len(entries):
        raise MeshError(source, "refers to an entry that is not there")
    return entries[number]


def _stripped(tree: Tree, buffers: dict[str, bytes]) -> Tree:
    """Return what geometry needs of a glTF tree."""
    meshes = []
    for mesh in tree.get("meshes", []):
        primitives = [
            {
                **{key: primitive[key] for key in ("indices", "material") if key in primitive},
                "mode": APART,
                "attributes": {"POSITION": primitive["attributes"]["POSITION"]},
            }
            for primitive in mesh.get("primitives", [])
            if primitive.get("mode", APART) == APART and "POSITION" in primitive["attributes"]
        ]
        meshes.append({"name": str(mesh.get("name", "mesh")), "primitives": primitives})
    kept: Tree = {key: tree[key] for key in KEPT if key in tree}
    nodes = [
        {**{k: node[k] for k in NODE_KEYS if k in node}, "name": f"{number}|"}
        for number, node in enumerate(tree.get("nodes", []))
    ]
    materials = [{"name": MATERIAL + str(one.get("name", ""))} for one in tree.get("materials", [])]
    named = [{"uri": name, "byteLength": len(data)} for name, data in buffers.items()]
    return {
        "asset": {"version": "2.0"},
        **kept,
        "nodes": nodes,
        "meshes": meshes,
        "materials": materials,
        "buffers": named,
    }
