"""Corners and faces of a PLY file, text or binary; colours and the like are passed over.

Source: Greg Turk, The PLY Polygon File Format, 1994 (layout from memory).
"""

import re
from itertools import chain
from typing import NamedTuple

import numpy as np

from shapes.meshes import file_headers
from shapes.meshes.imported import MeshError
from shapes.meshes.mesh_words import real_numbers, whole_numbers
from shapes.meshes.polygons import Polygons
from shapes.solids import Floats, Ints

INDEX_NAMES = ("vertex_indices", "vertex_index")
_TYPES = {
    **dict.fromkeys(("char", "int8"), "i1"),
    **dict.fromkeys(("uchar", "uint8"), "u1"),
    **dict.fromkeys(("short", "int16"), "i2"),
    **dict.fromkeys(("ushort", "uint16"), "u2"),
    **dict.fromkeys(("int", "int32"), "i4"),
    **dict.fromkeys(("uint", "uint32"), "u4"),
    **dict.fromkeys(("float", "float32"), "f4"),
    **dict.fromkeys(("double", "float64"), "f8"),
}


class _Property(NamedTuple):
    name: str
    type: str
    count_type: str | None


class _Element(NamedTuple):
    name: str
    length: int
    properties: list[_Property]

    @property
    def has_lists(self) -> bool:
        return any(one.count_type for one in self.properties)


class _Lists(NamedTuple):
    """The list of corner numbers of each face."""

    sizes: Ints
    numbers: Ints


_NO_LISTS = _Lists(np.zeros(0, np.int64), np.zeros(0, np.int64))


def read_ply(source: str, data: bytes) -> Polygons:
    """Return the faces of a PLY file.

    Raises:
        MeshError: it holds less than it declares, or a line cannot be read.
    """
    file_headers.check_ply(source, data)
    end = re.search(rb"(?m)^end_header[ \t]*\r?\n", data)
    if end is None:
        raise MeshError(source, "truncated: no end of the header")
    header = data[: end.end()].decode("ascii", "replace")
    elements = _elements(source, header)
    _check_elements(source, elements)
    if re.search(r"(?m)^format\s+ascii", header):
        corners, faces, lines = _from_text(source, elements, data[end.end() :])
        first = header.count("\n") + 1 + lines
        return Polygons(corners, *faces, lambda face: f"the face on line {first + face}")
    order = ">" if re.search(r"(?m)^format\s+binary_big", header) else "<"
    corners, faces = _from_bytes(source, elements, data, end.end(), order)
    return Polygons(corners, *faces, lambda face: f"face {face + 1}")


def _elements(source: str, header: str) -> list[_Element]:
    elements: list[_Element] = []
    for line in header.splitlines():
        words = line.split()
        if words[:1] == ["element"] and len(words) == 3:
            if not words[2].isdecimal():
                raise MeshError(source, "a count in the header is not a number")
            elements.append(_Element(words[1], int(words[2]), []))
        elif words[:1] == ["property"] and elements:
            is_list = words[1:2] == ["list"]
            kinds = words[1 + is_list : -1]
            if len(kinds) != 1 + is_list or not all(kind in _TYPES for kind in kinds):
                raise MeshError(source, f'the line "{line.strip()[:60]}" of its header is not PLY')
            count_type = _TYPES[words[2]] if is_list else None
            elements[-1].properties.append(_Property(words[-1], _TYPES[words[-2]], count_type))
    return elements


def _check_elements(source: str, elements: list[_Element]) -> None:
    count = {element.name: element.length for element in elements}
    if count.get("tristrips") and not count.get("face"):
        raise MeshError(source, "holds its surface in strips (tristrips), which are not read:"
                        " export it with faces")  # fmt: skip
    if not count.get("face"):
        raise MeshError(source, "empty: it has no face")
    for element in elements:
        names = {one.name for one in element.properties}
        if element.name == "vertex" and not {"x", "y", "z"} <= names:
            raise MeshError(source, "its corners have no x, y and z")
        if element.name == "face" and not names.intersection(INDEX_NAMES):
            raise MeshError(source, "its faces have no list called vertex_indices")


def _from_text(source: str, elements: list[_Element], body: bytes) -> tuple[Floats, _Lists, int]:
    """Return corners, faces, and how many lines come before the faces."""
    lines = body.splitlines()
    corners, faces, start, before = np.zeros((0, 3)), _NO_LISTS, 0, 0
    for element in elements:
        rows = [line.split() for line in lines[start : start + element.length]]
        if len(rows) < element.length:
            raise MeshError(source, f"truncated: declares more of {element.name} than it holds")
        if element.name == "vertex":
            corners = _text_corners(source, element, rows)
        elif element.name == "face":
            faces, before = _text_faces(source, element, rows), start
        start += element.length
    return corners, faces, before


def _text_corners(source: str, element: _Element, rows: list[list[bytes]]) -> Floats:
    names = [one.name for one in element.properties]
    if element.has_lists or any(len(row) < len(names) for row in rows):
        raise MeshError(source, "a corner has fewer numbers than the header says")
    x, y, z = (names.index(axis) for axis in "xyz")
    return real_numbers([row[k] for row in rows for k in (x, y, z)]).reshape(-1, 3)


def _text_faces(source: str, element: _Element, rows: list[list[bytes]]) -> _Lists:
    wanted, lists = _index_property(element), []
    for row in rows:
        start = 0
        for number, one in enumerate(element.properties):
            size = 1
            if one.count_type:
                size = int(row[start]) if start < len(row) and row[start].isdigit() else len(row)
                start += 1
            if start + size > len(row):
                raise MeshError(source, "truncated: a face has fewer numbers than it declares")
            if number == wanted:
                lists.append(row[start : start + size])
            start += size
    sizes = np.array([len(one) for one in lists], dtype=np.int64)
    return _Lists(sizes, whole_numbers(list(chain.from_iterable(lists))))


def _from_bytes(
    source: str, elements: list[_Element], data: bytes, start: int, order: str
) -> tuple[Floats, _Lists]:
    corners, faces = np.zeros((0, 3)), _NO_LISTS
    for element in (one for one in elements if one.length):
        try:
            if element.has_lists:
                found, start = _rows_with_lists(element, data, start, order)
                faces = found if element.name == "face" else faces
            else:
                form = np.dtype([(one.name, order + one.type) for one in element.properties])
                table = np.frombuffer(data, form, element.length, start)
                start += table.nbytes
                if element.name == "vertex":
                    corners = np.stack([table[axis].astype(np.float64) for axis in "xyz"], axis=1)
        except (ValueError, IndexError):
            short = f"truncated: declares more of {element.name} than it holds"
            raise MeshError(source, short) from None
    return corners, faces


def _rows_with_lists(element: _Element, data: bytes, start: int, order: str) -> tuple[_Lists, int]:
    """Return the corner numbers of rows that hold lists, and where the rows end."""
    alike = _rows_alike(element, data, start, order)
    return alike or _rows_unlike(element, data, start, order)


def _rows_alike(
    element: _Element, data: bytes, start: int, order: str
) -> tuple[_Lists, int] | None:
    """Read all rows at once if their lists are as long as those of the first; else None."""
    fields, at, sizes = [], start, {}
    for number, one in enumerate(element.properties):
        if one.count_type is None:
            fields.append((f"{number}", order + one.type, (1,)))
        else:
            size = int(np.frombuffer(data, order + one.count_type, 1, at)[0])
            at += np.dtype(one.count_type).itemsize
            sizes[number] = size
            fields.append((f"{number} count", order + one.count_type, (1,)))
            fields.append((f"{number}", order + one.type, (size,)))
        at += np.dtype(one.type).itemsize * sizes.get(number, 1)
    form = np.dtype(fields)
    if start + form.itemsize * element.length > len(data):
        return None
    table = np.frombuffer(data, form, element.length, start)
    if any((table[f"{number} count"] != size).any() for number, size in sizes.items()):
        return None
    wanted = _index_property(element)
    rows = table[f"{wanted}"].astype(np.int64) if wanted in sizes else np.zeros((0, 0), np.int64)
    lists = _Lists(np.full(len(rows), rows.shape[1], dtype=np.int64), rows.reshape(-1))
    return lists, start + table.nbytes


def _index_property(element: _Element) -> int | None:
    names = [one.name if one.count_type else "" for one in element.properties]
    return next((names.index(name) for name in INDEX_NAMES if name in names), None)


def _rows_unlike(element: _Element, data: bytes, start: int, order: str) -> tuple[_Lists, int]:
    """Read rows one by one, as their lists differ in length."""
    wanted, lists = _index_property(element), []
    steps = [(np.dtype(order + one.type), one.count_type and np.dtype(order + one.count_type))
             for one in element.properties]  # fmt: skip
    for _ in range(element.length):
        for number, (kind, count_kind) in enumerate(steps):
            size = 1
            if count_kind:
                size = int(np.frombuffer(data, count_kind, 1, start)[0])
                start += count_kind.itemsize
            if size < 0 or start + size * kind.itemsize > len(data):
                raise ValueError("truncated")
            if number == wanted:
                lists.append(np.frombuffer(data, kind, size, start))
            start += size * kind.itemsize
    sizes = np.array([len(one) for one in lists], dtype=np.int64)
    numbers = np.concatenate(lists).astype(np.int64) if lists else np.zeros(0, np.int64)
    return _Lists(sizes, numbers), start
