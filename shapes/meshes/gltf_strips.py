"""Strips and fans of triangles in glTF, made into triangles that stand apart.

Of a strip's triangles every second one goes round the other way; those of a fan share its first
corner.

Source: Khronos Group, glTF 2.0 Specification, ISO/IEC 12113:2022, 3.7.2.1 (layout from memory).
"""

from typing import Any

import numpy as np

from shapes.meshes.file_headers import MOST_TRIANGLES
from shapes.meshes.imported import MeshError
from shapes.solids import Ints

APART, STRIP, FAN = 4, 5, 6
"""The primitives that are triangles."""
_INDEX_TYPES = {5121: "<u1", 5123: "<u2", 5125: "<u4"}
_UNSIGNED_INT = 5125
Tree = dict[str, Any]


def triangles_of(numbers: Ints, mode: int) -> Ints:
    """Return the triangles of a strip or a fan, shape (t, 3), all facing one way.

    >>> triangles_of(np.array([7, 8, 9, 10]), STRIP).tolist()
    [[7, 8, 9], [8, 10, 9]]
    >>> triangles_of(np.array([7, 8, 9, 10]), FAN).tolist()
    [[7, 8, 9], [7, 9, 10]]
    """
    count = max(len(numbers) - 2, 0)
    step = np.arange(count)
    if mode == FAN:
        picks = np.stack([np.zeros_like(step), step + 1, step + 2], axis=1)
    else:
        odd = step % 2
        picks = np.stack([step, step + 1 + odd, step + 2 - odd], axis=1)
    return numbers[picks]


def set_apart(source: str, tree: Tree, buffers: dict[str, bytes]) -> None:
    """Replace strips and fans in a checked tree by triangles, their numbers in a new buffer.

    Raises:
        MeshError: their numbers are not of a type that counts corners, or there are too many.
    """
    views, accessors = tree.setdefault("bufferViews", []), tree.setdefault("accessors", [])
    primitives = [one for mesh in tree.get("meshes", []) for one in mesh.get("primitives", [])]
    total = 0
    for primitive in primitives:
        mode = primitive.get("mode", APART)
        if mode not in (STRIP, FAN) or "POSITION" not in primitive.get("attributes", {}):
            continue
        numbers = _numbers(source, tree, buffers, primitive)
        total += len(numbers)
        if total > MOST_TRIANGLES:
            raise MeshError(source, f"more than {MOST_TRIANGLES} triangles")
        data = triangles_of(numbers, mode).astype("<u4")
        name = f"buffer{len(buffers)}"
        views.append({"buffer": len(buffers), "byteOffset": 0, "byteLength": data.nbytes})
        accessors.append({"bufferView": len(views) - 1, "componentType": _UNSIGNED_INT,
                          "count": data.size, "type": "SCALAR"})  # fmt: skip
        buffers[name] = data.tobytes()
        primitive["mode"], primitive["indices"] = APART, len(accessors) - 1


def _numbers(source: str, tree: Tree, buffers: dict[str, bytes], primitive: Tree) -> Ints:
    """Return the corners of a primitive one after the other."""
    if "indices" not in primitive:
        return np.arange(tree["accessors"][primitive["attributes"]["POSITION"]]["count"])
    accessor = tree["accessors"][primitive["indices"]]
    if accessor["componentType"] not in _INDEX_TYPES or "bufferView" not in accessor:
        raise MeshError(source, "numbers of corners are of a type that cannot count them")
    view = tree["bufferViews"][accessor["bufferView"]]
    kind = np.dtype(_INDEX_TYPES[accessor["componentType"]])
    start = int(view.get("byteOffset", 0)) + int(accessor.get("byteOffset", 0))
    return np.ndarray(
        accessor["count"],
        kind,
        buffers[f"buffer{view['buffer']}"],
        start,
        (int(view.get("byteStride") or kind.itemsize),),
    ).astype(np.int64)
