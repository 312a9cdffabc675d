"""Reading of mesh files: STL, OBJ, PLY, GLB, glTF, 3MF and OFF.

STL and glTF are read by `trimesh`, the others here: 3MF, and the kinds whose faces may have any
number of corners, which `trimesh` cuts into fans whatever their form. A file is checked before
anything is built from it; nothing is read but the file and, for glTF, buffers in its own folder;
nothing is fetched, no texture and no material file is opened. Whatever is wrong with a file is one
MeshError.
"""

import io
import re
import warnings
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any, Literal, NamedTuple

import numpy as np

from shapes.errors import ShapeError
from shapes.meshes import file_headers, gltf, three_mf
from shapes.meshes.imported import UNNAMED, ImportedMesh, MeshError
from shapes.meshes.obj_files import read_obj
from shapes.meshes.off_files import read_off
from shapes.meshes.ply_files import read_ply
from shapes.meshes.polygons import Polygons, cut_into_triangles
from shapes.solids import Floats, Ints

KINDS = ("stl", "obj", "ply", "glb", "gltf", "3mf", "off")
MOST_BYTES = 1_500_000_000
"""Largest file that is read [bytes]: 5 million triangles take 0.25e9 in binary STL, and some 1.3e9
in text."""

NamedBy = Literal["materials", "nodes"]
Up = Literal["y", "z"]


class _Pieces(NamedTuple):
    """What a reader found: triangles in pieces with a name each, None where it has none."""

    corners: list[Floats]
    triangles: list[Ints]
    names: list[str | None]
    notes: tuple[str, ...] = ()


def read_mesh(
    path: str | Path,
    unit_mm: float,
    folder: Path | None = None,
    *,
    named_by: NamedBy = "materials",
    up: Up | None = None,
) -> ImportedMesh:
    """Return the triangles of a file, in millimetres, z up, with a named region each.

    Args:
        path: the file; its ending says its kind.
        unit_mm: length of the file's unit [mm]: 1000 for metres, 25.4 for inches. Files carry none
            or a wrong one, so look at `size_mm` of what is returned.
        folder: the file must lie in this folder, if one is given, and reads nothing outside it;
            without it, nothing outside its own folder.
        named_by: where regions get their names: "materials", or "nodes" (nodes of glTF, groups and
            objects of OBJ and 3MF, solids of STL). Where the file has none of the one, the other
            serves; triangles with neither are called "surface".
        up: the axis that points up; None, what the kind of file says: y in glTF, else z.

    Raises:
        MeshError: the file cannot be read, is not what it seems, or holds no triangle.
        ShapeError: the unit is not a length above zero.
    """
    path = Path(path)
    if not (np.isfinite(unit_mm) and unit_mm > 0):
        raise ShapeError("unit_mm", "more than zero", unit_mm)
    kind = path.suffix.lower().removeprefix(".")
    if kind not in KINDS:
        raise MeshError(path.name, f"is not one of {', '.join(KINDS).upper()}")
    inside = (folder or path.resolve().parent).resolve()
    data = _contents(path, inside)
    file_headers.check_kind(path.name, kind, data)
    try:
        pieces = _READERS[kind](path, kind, data, inside, named_by)
        return _assembled(path.name, pieces, unit_mm, up or ("y" if "gl" in kind else "z"))
    except MeshError as error:
        if error.source != "mesh":
            raise
        raise MeshError(path.name, error.problem) from None
    except Exception as error:  # whatever a reader stumbles over, the file is what is wrong
        raise MeshError(path.name, f"cannot be read as {kind.upper()}: {_reason(error)}") from None


def _contents(path: Path, inside: Path) -> bytes:
    if not path.resolve().is_relative_to(inside):
        raise MeshError(path.name, "lies outside the folder")
    try:
        size = path.stat().st_size
        if not path.is_file():
            raise MeshError(path.name, "is not a file")
        if size > MOST_BYTES:
            raise MeshError(path.name, f"{size} bytes long, more than {MOST_BYTES}")
        return path.read_bytes()
    except OSError as error:
        raise MeshError(path.name, error.strerror or "cannot be opened") from None


def _reason(error: Exception) -> str:
    text = str(error).splitlines()[0][:200] if str(error) else ""
    return text or "it is damaged"


def _read_stl(path: Path, kind: str, data: bytes, inside: Path, named_by: NamedBy) -> _Pieces:
    declared = file_headers.check_stl(path.name, data)
    pieces = _scene_pieces(_load(data, kind, {}), "nodes")
    if sum(len(triangles) for triangles in pieces.triangles) < declared:
        raise MeshError(path.name, f"truncated: declares {declared} faces and holds fewer")
    return pieces._replace(names=[name if _is_own_name(name) else None for name in pieces.names])


def _is_own_name(name: str | None) -> bool:
    """Whether a name is the file's own, not one that the reader made up."""
    return name is not None and not re.fullmatch(r"geometry(_\d+)?", name)


def _read_obj(path: Path, kind: str, data: bytes, inside: Path, named_by: NamedBy) -> _Pieces:
    found = read_obj(data, named_by)
    return _cut_pieces(found.polygons, found.name_of, found.names)


def _read_off(path: Path, kind: str, data: bytes, inside: Path, named_by: NamedBy) -> _Pieces:
    return _cut_pieces(read_off(path.name, data))


def _read_ply(path: Path, kind: str, data: bytes, inside: Path, named_by: NamedBy) -> _Pieces:
    return _cut_pieces(read_ply(path.name, data))


def _cut_pieces(
    polygons: Polygons, name_of: Ints | None = None, names: Sequence[str | None] = (None,)
) -> _Pieces:
    """Return faces cut into triangles, a piece for each name, with the corners it uses."""
    cut = cut_into_triangles(polygons)
    number = np.zeros(len(cut.triangles), np.int64) if name_of is None else name_of[cut.face_of]
    pieces = _Pieces([], [], [], cut.notes)
    for present in np.unique(number).tolist():
        used, triangles = np.unique(cut.triangles[number == present], return_inverse=True)
        pieces.corners.append(polygons.corners[used])
        pieces.triangles.append(triangles.reshape(-1, 3))
        pieces.names.append(names[present])
    return pieces


def _read_gltf(path: Path, kind: str, data: bytes, inside: Path, named_by: NamedBy) -> _Pieces:
    folder = path.resolve().parent
    tree, buffers, nodes = gltf.checked(path.name, data, folder, inside)
    scene = _load(tree, "gltf", buffers)
    numbered = _scene_pieces(scene, "nodes").names
    own = [nodes[int((name or "0").partition("|")[0])] for name in numbered]
    pieces = _scene_pieces(scene, "materials")
    materials = [gltf.material_name(name) for name in pieces.names]
    pairs = zip(materials, own, strict=True)
    if named_by == "materials":
        return pieces._replace(names=[material or node for material, node in pairs])
    return pieces._replace(names=[node or material for material, node in pairs])


def _read_3mf(path: Path, kind: str, data: bytes, inside: Path, named_by: NamedBy) -> _Pieces:
    found = three_mf.read(path.name, data)
    chosen = found.materials if named_by == "materials" else found.objects
    other = found.objects if named_by == "materials" else found.materials
    names = [a or b for a, b in zip(chosen, other, strict=True)]
    return _Pieces(found.corners, found.triangles, names, found.notes)


_READERS = {
    **dict.fromkeys(("glb", "gltf"), _read_gltf),
    "stl": _read_stl,
    "obj": _read_obj,
    "off": _read_off,
    "ply": _read_ply,
    "3mf": _read_3mf,
}


def _load(data: bytes, kind: str, others: Mapping[str, bytes]) -> Any:
    """Return the scene that `trimesh` reads, with no file to open but those given."""
    import trimesh

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        resolver: Any = dict(others)
        return trimesh.load_scene(
            io.BytesIO(data), file_type=kind, resolver=resolver, process=False
        )


def _scene_pieces(scene: Any, named_by: NamedBy) -> _Pieces:
    """Return the triangles of a scene, each node where its transform puts it."""
    pieces = _Pieces([], [], [])
    total = 0
    order = {name: number for number, name in enumerate(scene.geometry)}
    # the reader makes up names of nodes at random where one has several materials
    for node in sorted(scene.graph.nodes_geometry, key=lambda n: (order[scene.graph[n][1]], n)):
        transform, geometry_name = scene.graph[node]
        geometry = scene.geometry[geometry_name]
        if not hasattr(geometry, "faces"):
            continue
        total += len(geometry.faces)
        if total > file_headers.MOST_TRIANGLES:
            raise MeshError("mesh", f"more than {file_headers.MOST_TRIANGLES} triangles")
        matrix = np.asarray(transform, dtype=np.float64)
        corners = np.asarray(geometry.vertices, dtype=np.float64)
        if not np.array_equal(matrix, np.eye(4)):
            corners = corners @ matrix[:3, :3].T + matrix[:3, 3]
        triangles = np.asarray(geometry.faces, dtype=np.int64).reshape(-1, 3)
        mirrored = np.linalg.det(matrix[:3, :3]) < 0
        pieces.corners.append(corners)
        pieces.triangles.append(triangles[:, ::-1] if mirrored else triangles)
        material = getattr(getattr(geometry.visual, "material", None), "name", None)
        own = str(node)
        pieces.names.append((material or own) if named_by == "materials" else (own or material))
    return pieces


def _assembled(source: str, pieces: _Pieces, unit_mm: float, up: Up) -> ImportedMesh:
    """Put the pieces together, in millimetres and z up."""
    if not sum(len(triangles) for triangles in pieces.triangles):
        raise MeshError(source, "empty: it has no triangle")
    _check_numbers(source, pieces)
    starts = np.cumsum([0, *[len(corners) for corners in pieces.corners]])
    vertices = np.concatenate(pieces.corners) * unit_mm
    if up == "y":
        vertices = np.stack([vertices[:, 0], -vertices[:, 2], vertices[:, 1]], axis=1)
    shifted = [part + start for part, start in zip(pieces.triangles, starts[:-1], strict=True)]
    names = [name or UNNAMED for name in pieces.names]
    regions = tuple(dict.fromkeys(names))
    number = [regions.index(name) for name in names]
    region_of = np.repeat(number, [len(part) for part in pieces.triangles]).astype(np.int64)
    return ImportedMesh(vertices, np.concatenate(shifted), region_of, regions, pieces.notes)


def _check_numbers(source: str, pieces: _Pieces) -> None:
    for corners, triangles in zip(pieces.corners, pieces.triangles, strict=True):
        if len(triangles) and not 0 <= triangles.min() <= triangles.max() < len(corners):
            raise MeshError(source, "a triangle names a corner that is not there")
        if not np.isfinite(corners).all():
            raise MeshError(source, "a corner is not a finite number")
