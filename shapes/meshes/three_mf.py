"""3MF files: a zip archive with triangles in XML.

Read here and not by `trimesh`, for three reasons: the names of base materials are kept, unpacked
size and the number of copies are bounded before anything is built, and no XML library is needed
beyond Python's own. Nothing outside the archive is read; entities are refused.

Source: 3MF Consortium, 3D Manufacturing Format Core Specification 1.3, and Production Extension 1.1
(names of elements from memory).
"""

import io
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import NamedTuple
from xml.etree import ElementTree as ET  # entities are refused before it sees a file

import numpy as np

from shapes.meshes.file_headers import MOST_TRIANGLES
from shapes.meshes.imported import MeshError
from shapes.solids import Floats, Ints

MOST_UNPACKED = 600_000_000
"""Most bytes a 3MF file unpacks to: 5 million triangles at some 65 bytes of XML each, with room."""
MOST_RATIO = 100
"""A part of the archive may unpack to so many times its size; XML of meshes comes to some
10 (judged)."""
RATIO_FROM = 1_000_000
"""Bytes below which the ratio does not matter."""
MOST_COPIES = 100_000
DEEPEST = 64
"""Objects made of objects are followed so far; a set of drawers in a chest takes four."""
UNITS_MM = {
    "micron": 0.001,
    "millimeter": 1.0,
    "centimeter": 10.0,
    "inch": 25.4,
    "foot": 304.8,
    "meter": 1000.0,
}
Key = tuple[str, str]
"""An object: (part of the archive, id)."""


class Found(NamedTuple):
    """Triangles in pieces, the material and the object that each is named by, and notes."""

    corners: list[Floats]
    triangles: list[Ints]
    materials: list[str | None]
    objects: list[str | None]
    notes: tuple[str, ...]


@dataclass
class _Object:
    """An object of the file: triangles of its own, or other objects."""

    name: str | None
    property: tuple[str, str]
    corners: list[tuple[float, float, float]] = field(default_factory=list)
    triangles: list[tuple[int, int, int]] = field(default_factory=list)
    properties: list[tuple[str, str]] = field(default_factory=list)
    parts: list[tuple[Key, Floats]] = field(default_factory=list)


@dataclass
class _Model:
    """Everything that the parts of the archive say."""

    objects: dict[Key, _Object] = field(default_factory=dict)
    materials: dict[tuple[str, str], list[str]] = field(default_factory=dict)
    items: list[tuple[Key, Floats]] = field(default_factory=list)
    unit: str = "millimeter"


def read(source: str, data: bytes) -> Found:
    """Return the triangles of a 3MF file, in its own unit, and a note that names that unit.

    Args:
        source: name of the file, for errors.
        data: its bytes.

    Raises:
        MeshError: not an archive, too large unpacked, or too many copies.
    """
    model = _Model()
    for part, text in _parts(source, data):
        _read_part(source, model, part, text)
    if not model.items:
        raise MeshError(source, "empty: nothing in it is to be built")
    found = Found([], [], [], [], (f"the file says its unit is the {model.unit}",))
    for key, matrix in _placed(source, model):
        _add(found, model, key, matrix)
    return found


def _parts(source: str, data: bytes) -> Iterator[tuple[str, bytes]]:
    """Yield the models of the archive, the main one last."""
    try:
        archive = zipfile.ZipFile(io.BytesIO(data))
        entries = [entry for entry in archive.infolist() if entry.filename.endswith(".model")]
        if not entries:
            raise MeshError(source, "is not 3MF: no model in it")
        left = MOST_UNPACKED
        for entry in sorted(entries, key=_is_main):
            allowed = min(left, max(RATIO_FROM, MOST_RATIO * entry.compress_size))
            with archive.open(entry) as packed:
                text = packed.read(allowed + 1)
            if len(text) > allowed:
                raise MeshError(source, "unpacks to far more than its size: refused")
            left -= len(text)
            yield entry.filename.lstrip("/"), text
    except (zipfile.BadZipFile, EOFError, OSError) as error:
        raise MeshError(source, f"damaged or truncated archive: {error}") from None


def _is_main(entry: zipfile.ZipInfo) -> bool:
    return entry.filename.lstrip("/").lower() == "3d/3dmodel.model"


def _read_part(source: str, model: _Model, part: str, text: bytes) -> None:
    """Add what one part of the archive says to the model."""
    if b"<!" in text.replace(b"<!--", b"") or b"\x00" in text[:64]:
        raise MeshError(source, "XML with declarations of its own is not read")
    read = _Reader(model, part)
    for event, element in ET.iterparse(io.BytesIO(text), events=("start", "end")):  # noqa: S314
        if event == "end":
            element.clear()
        else:
            read.start(element.tag.rpartition("}")[2], element.attrib)


class _Reader:
    """Adds the elements of one part of the archive to the model, in the order they come."""

    def __init__(self, model: _Model, part: str) -> None:
        self._model = model
        self._part = part
        self._object = _Object(None, ("", ""))
        self._group: list[str] = []
        self._container = {
            "object": self._start_object,
            "basematerials": self._start_materials,
            "base": lambda has: self._group.append(has.get("name", "")),
            "component": lambda has: self._object.parts.append(_placing(has, part)),
            "item": lambda has: model.items.append(_placing(has, part)),
            "model": self._start_model,
        }

    def start(self, tag: str, has: dict[str, str]) -> None:
        """Take in one element."""
        if tag == "vertex":
            self._object.corners.append((float(has["x"]), float(has["y"]), float(has["z"])))
        elif tag == "triangle":
            self._object.triangles.append((int(has["v1"]), int(has["v2"]), int(has["v3"])))
            self._object.properties.append((has.get("pid", ""), has.get("p1", "")))
        elif tag in self._container:
            self._container[tag](has)

    def _start_object(self, has: dict[str, str]) -> None:
        self._object = _Object(has.get("name"), (has.get("pid", ""), has.get("pindex", "0")))
        self._model.objects[self._part, has["id"]] = self._object

    def _start_materials(self, has: dict[str, str]) -> None:
        self._group = self._model.materials.setdefault((self._part, has["id"]), [])

    def _start_model(self, has: dict[str, str]) -> None:
        self._model.unit = has.get("unit", "millimeter")


def _placing(has: dict[str, str], part: str) -> tuple[Key, Floats]:
    """Return the object that an item or component names, and where it goes: rows x, y, z, shift."""
    other = next((value for name, value in has.items() if name.endswith("path")), part)
    matrix = np.array([[1, 0, 0], [0, 1, 0], [0, 0, 1], [0, 0, 0]], dtype=np.float64)
    if "transform" in has:
        matrix = np.array(has["transform"].split(), dtype=np.float64).reshape(4, 3)
    return (other.lstrip("/"), has["objectid"]), matrix


def _placed(source: str, model: _Model) -> Iterator[tuple[Key, Floats]]:
    """Yield the objects with triangles, and where each of their copies goes."""
    counted: dict[Key, tuple[int, int]] = {}
    totals = [_counted(source, model, key, counted, 0) for key, _ in model.items]
    copies, triangles = (sum(column) for column in zip(*totals, strict=True))
    if copies > MOST_COPIES or triangles > MOST_TRIANGLES:
        raise MeshError(source, "too many copies of its objects: refused")
    waiting = list(reversed(model.items))
    while waiting:
        key, matrix = waiting.pop()
        if model.objects[key].triangles:
            yield key, matrix
        for other, inner in reversed(model.objects[key].parts):
            moved = inner @ matrix[:3]
            moved[3] += matrix[3]
            waiting.append((other, moved))


def _counted(
    source: str, model: _Model, key: Key, counted: dict[Key, tuple[int, int]], depth: int
) -> tuple[int, int]:
    """Return how many objects and triangles an object comes to with all that it is made of."""
    if depth > DEEPEST:
        raise MeshError(source, "too many copies of its objects, one within the other: refused")
    if key not in counted:
        found = model.objects.get(key)
        if found is None:
            raise MeshError(source, f"places an object {key[1]} that is not there")
        parts = [_counted(source, model, other, counted, depth + 1) for other, _ in found.parts]
        copies = 1 + sum(part[0] for part in parts)
        counted[key] = copies, len(found.triangles) + sum(part[1] for part in parts)
    return counted[key]


def _add(found: Found, model: _Model, key: Key, matrix: Floats) -> None:
    """Add one copy of an object, a piece for each of its materials."""
    made = model.objects[key]
    corners = np.array(made.corners, dtype=np.float64).reshape(-1, 3) @ matrix[:3] + matrix[3]
    triangles = np.array(made.triangles, dtype=np.int64)
    if np.linalg.det(matrix[:3]) < 0:
        triangles = triangles[:, ::-1]
    names = [_material(model, key[0], own, made.property) for own in made.properties]
    for name in dict.fromkeys(names):
        chosen = np.array([other == name for other in names])
        found.corners.append(corners)
        found.triangles.append(triangles[chosen])
        found.materials.append(name)
        found.objects.append(made.name)


def _material(
    model: _Model, part: str, own: tuple[str, str], default: tuple[str, str]
) -> str | None:
    """Return the name of a triangle's base material, else of its object's."""
    group, index = own if own[0] else (default[0], own[1] or default[1])
    names = model.materials.get((part, group), [])
    number = int(index) if index.isdigit() else 0
    return names[number] or None if number < len(names) else None
