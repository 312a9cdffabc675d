"""Corners, faces and names of an OBJ file; nothing else in it matters to an area.

Numbers of corners may count from the first corner (1, 2 ...) or back from the face (-1, -2 ...).
Names of materials are taken from the file itself, so no material file is opened.
"""

import re
from itertools import chain, islice
from typing import Literal, NamedTuple

import numpy as np

from shapes.meshes.imported import MeshError
from shapes.meshes.mesh_words import real_numbers, whole_numbers
from shapes.meshes.polygons import Polygons
from shapes.solids import Ints

_LINE = re.compile(
    rb"(?m)^[ \t]*(v|fo?|usemtl|g|o|surf)(?=[ \t\n]|$)([^\\\n#]*(?:\\\n?[^\\\n#]*)*)"
)
"""A line that matters, its word and what follows, without a remark; one that ends in a backslash
goes on in the next."""
_FACE = re.compile(rb"(?m)^[ \t]*fo?(?=[ \t])")
_AFTER_SLASH = re.compile(rb"/\S*")


class ObjFaces(NamedTuple):
    """The faces of a file.

    Attributes:
        polygons: corners and faces.
        name_of: the number of each face's name, shape (f,).
        names: these names; None where a face has none.
    """

    polygons: Polygons
    name_of: Ints
    names: list[str | None]


class _Lines(NamedTuple):
    corners: list[bytes]
    faces: list[bytes]
    corners_before: list[int]
    name_of: list[int]
    names: list[str | None]


def read_obj(data: bytes, named_by: Literal["materials", "nodes"]) -> ObjFaces:
    """Return the faces of an OBJ file, each with the name that counts.

    Raises:
        MeshError: it has no face, or a line cannot be read.
    """
    if b"\r" in data:
        data = data.replace(b"\r\n", b"\n").replace(b"\r", b"\n")
    lines = _sorted_lines(data, named_by)
    if not lines.faces:
        raise MeshError("mesh", "empty: it has no face")
    words = [line.split()[:3] for line in lines.corners]
    if any(len(three) < 3 for three in words):
        raise MeshError("mesh", "a corner (a line that begins with v) has fewer than three numbers")
    corners = real_numbers(list(chain.from_iterable(words))).reshape(-1, 3)
    text = b"\n".join(lines.faces)
    faces = (_AFTER_SLASH.sub(b"", text) if b"/" in text else text).split(b"\n")
    sizes = np.array([len(line.split()) for line in faces], dtype=np.int64)
    numbers = whole_numbers(b" ".join(faces).split())

    def place(face: int) -> str:
        found = next(islice(_FACE.finditer(data), face, None))
        line = data.count(b"\n", 0, found.start()) + 1
        return f"the face on line {line}"

    counted = _counted_from_0(numbers, sizes, np.array(lines.corners_before))
    polygons = Polygons(corners, sizes, counted, place)
    return ObjFaces(polygons, np.array(lines.name_of, dtype=np.int64), lines.names)


def _sorted_lines(data: bytes, named_by: Literal["materials", "nodes"]) -> _Lines:
    """Return the lines of corners and of faces, and what each face is called."""
    order = [b"usemtl", b"g", b"o"] if named_by == "materials" else [b"g", b"o", b"usemtl"]
    current: dict[bytes, str | None] = dict.fromkeys(order)
    names: dict[str | None, int] = {None: 0}
    found, name = _Lines([], [], [], [], []), 0
    for match in _LINE.finditer(data):
        word, rest = match.groups()
        if b"\\" in rest:
            rest = rest.replace(b"\\\n", b" ")
        if word == b"v":
            found.corners.append(rest)
        elif word in (b"f", b"fo"):
            found.faces.append(rest)
            found.corners_before.append(len(found.corners))
            found.name_of.append(name)
        elif word == b"surf":
            raise MeshError("mesh", "has curved surfaces (surf), which are not read: export it as"
                            " a mesh of flat faces")  # fmt: skip
        else:
            current[word] = rest.decode("utf-8", "replace").strip() or None
            text = next((current[key] for key in order if current[key]), None)
            name = names.setdefault(text, len(names))
    return found._replace(names=list(names))


def _counted_from_0(numbers: Ints, sizes: Ints, corners_before: Ints) -> Ints:
    """Return corner numbers counted from the first, 0; out of range where there is no corner."""
    before = np.repeat(corners_before, sizes)
    return np.where(numbers < 0, before + numbers, numbers - 1)
