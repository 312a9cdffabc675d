"""Corners and faces of an OFF file; colours are passed over."""

import re
from itertools import chain, islice

from shapes.meshes import file_headers
from shapes.meshes.imported import MeshError
from shapes.meshes.mesh_words import real_numbers, whole_numbers
from shapes.meshes.polygons import Polygons


def read_off(source: str, data: bytes) -> Polygons:
    """Return the faces of an OFF file.

    Raises:
        MeshError: it holds less than it declares, or a line cannot be read.
    """
    face_count = file_headers.check_off(source, data)
    if b"\r" in data:
        data = data.replace(b"\r\n", b"\n").replace(b"\r", b"\n")
    data = re.sub(rb"#[^\n]*", b"", data)
    head = re.match(rb"\s*C?OFF\s+(\d+)[ \t]+\d+[^\n]*", data)
    if head is None:
        raise MeshError(source, "the counts of corners and faces must be on one line")
    corner_count = int(head[1])
    lines = [line.split() for line in data[head.end() :].split(b"\n")]
    filled = [line for line in lines if line]
    rows, faces = filled[:corner_count], filled[corner_count : corner_count + face_count]
    if len(rows) < corner_count or len(faces) < face_count:
        raise MeshError(source, "truncated: declares more corners or faces than it holds")
    if any(len(row) < 3 for row in rows):
        raise MeshError(source, "a corner has fewer than three numbers")
    corners = real_numbers([word for row in rows for word in row[:3]]).reshape(-1, 3)
    sizes = whole_numbers([face[0] for face in faces])
    if any(not 0 <= size < len(face) for size, face in zip(sizes.tolist(), faces, strict=True)):
        raise MeshError(source, "truncated: a face has fewer corners than it declares")
    named = (face[1 : size + 1] for size, face in zip(sizes.tolist(), faces, strict=True))
    numbers = whole_numbers(list(chain.from_iterable(named)))

    def place(face: int) -> str:
        first = data.count(b"\n", 0, head.end()) + 1
        held = (number for number, line in enumerate(lines, first) if line)
        return f"the face on line {next(islice(held, corner_count + face, None))}"

    return Polygons(corners, sizes, numbers, place)
