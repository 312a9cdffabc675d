"""The model: a GLB file with one material for each finish zone.

Source: glTF 2.0 specification (Khronos Group, 3D Formats Working Group, 2021; ISO/IEC 12113:2022):
3.4 units and axes (metres, right-handed, y up, front towards +z), 3.6 buffers and accessors, 3.9
materials, 4 binary layout. Written from memory of the text; checked by the tests of this module.
"""

import json
import struct
from collections.abc import Sequence
from typing import Any

import numpy as np
import numpy.typing as npt

from shapes.solids import Floats
from shapes.surfaces import Surface, surfaces
from surfacecalc.model.pieces import Piece
from surfacecalc.pictures.beside import set_beside
from surfacecalc.pictures.legend import NO_ZONE
from surfacecalc.pictures.palette import ZoneLook, looks
from surfacecalc.pictures.zone_meshes import Mesh, meshes
from surfacecalc.problems import printable
from surfacecalc.zones.areas import Measured

MAGIC, VERSION = 0x46546C67, 2
JSON_CHUNK, BINARY_CHUNK = 0x4E4F534A, 0x004E4942
FLOAT, UNSIGNED_INT = 5126, 5125
CORNERS, NUMBERS = 34962, 34963
"""Targets of buffer views: vertex attributes and indices."""
MM_IN_M = 1_000
ROUGHNESS = 0.9
"""Nearly matt, so that the zone's colour is what is seen."""

Table = dict[str, Any]


def model(piece: Piece, measured: Measured) -> bytes:
    """Return the model of a measured piece as the bytes of a GLB file.

    Args:
        piece: the piece; loose parts are set beside it.
        measured: its measures, for the order of the zones.
    """
    found = surfaces(piece.parts, gap=piece.settings.gap_mm)
    shown = [meshes(surface, piece.zone_of) for surface in found]
    present = {mesh.zone for group in shown for mesh in group}
    materials = [look for look in looks(measured) if look.name in present]
    number = {look.name: k for k, look in enumerate(materials)}
    writer = _Writer()
    tables = [
        {
            "name": _name(surface, piece),
            "primitives": [writer.primitive(mesh, number[mesh.zone]) for mesh in group],
        }
        for surface, group in zip(found, shown, strict=True)
    ]
    moves = [
        move + surface.box_mm[0] for move, surface in zip(set_beside(found), found, strict=True)
    ]
    nodes = [
        {"name": table["name"], "mesh": k, "translation": (_axes(move[None])[0] / MM_IN_M).tolist()}
        for k, (table, move) in enumerate(zip(tables, moves, strict=True))
    ]
    title = printable(piece.settings.title)
    return writer.file(
        {
            "asset": {"version": "2.0", "generator": "surfacecalc"},
            "scene": 0,
            "scenes": [{"name": title, "nodes": list(range(len(nodes)))}],
            "nodes": nodes,
            "meshes": tables,
            "materials": [_material(look) for look in materials],
        }
    )


class _Writer:
    """Collects buffers and writes the file."""

    def __init__(self) -> None:
        self._binary = bytearray()
        self._views: list[Table] = []
        self._accessors: list[Table] = []

    def primitive(self, mesh: Mesh, material: int) -> Table:
        """Add a mesh's buffers and return its primitive."""
        positions = (_axes(mesh.points) / MM_IN_M).astype(np.float32)
        least, greatest = positions.min(axis=0).tolist(), positions.max(axis=0).tolist()
        normals = _axes(mesh.normals).astype(np.float32)
        numbers = mesh.triangles.ravel().astype(np.uint32)
        return {
            "attributes": {
                "POSITION": self._accessor(positions, CORNERS, {"min": least, "max": greatest}),
                "NORMAL": self._accessor(normals, CORNERS, {}),
            },
            "indices": self._accessor(numbers, NUMBERS, {}),
            "material": material,
        }

    def _accessor(self, values: npt.NDArray[Any], target: int, bounds: Table) -> int:
        data = values.astype(values.dtype.newbyteorder("<")).tobytes()
        self._views.append(
            {
                "buffer": 0,
                "byteOffset": len(self._binary),
                "byteLength": len(data),
                "target": target,
            }
        )
        self._binary += data
        is_vector = values.ndim == 2
        self._accessors.append(
            {
                "bufferView": len(self._views) - 1,
                "componentType": FLOAT if is_vector else UNSIGNED_INT,
                "count": len(values),
                "type": "VEC3" if is_vector else "SCALAR",
                **bounds,
            }
        )
        return len(self._accessors) - 1

    def file(self, tables: Table) -> bytes:
        """Return the file of the collected buffers and other tables."""
        tables = {
            **tables,
            "accessors": self._accessors,
            "bufferViews": self._views,
            "buffers": [{"byteLength": len(self._binary)}],
        }
        tables = {key: value for key, value in tables.items() if value != []}
        text = json.dumps(tables, separators=(",", ":")).encode()
        text += b" " * (-len(text) % 4)
        binary = bytes(self._binary) + b"\0" * (-len(self._binary) % 4)
        chunks = struct.pack("<II", len(text), JSON_CHUNK) + text
        chunks += struct.pack("<II", len(binary), BINARY_CHUNK) + binary
        return struct.pack("<III", MAGIC, VERSION, 12 + len(chunks)) + chunks


def _axes(points: Floats) -> Floats:
    """Return points with x right, y up and z to the front."""
    turned: Floats = np.stack([points[:, 0], points[:, 2], -points[:, 1]], axis=1)
    return turned


def _name(surface: Surface, piece: Piece) -> str:
    if surface.is_joined:
        return printable(piece.settings.name)
    first = surface.parts[0]
    return printable(first.loose if isinstance(first.loose, str) else first.name)


def _material(look: ZoneLook) -> Table:
    return {
        "name": NO_ZONE if look.name is None else printable(look.name),
        "pbrMetallicRoughness": {
            "baseColorFactor": [*linear(look.tint), 1.0],
            "metallicFactor": 0.0,
            "roughnessFactor": ROUGHNESS,
        },
    }


def linear(colour: str) -> Sequence[float]:
    """Return red, green and blue of #rrggbb as linear shares.

    Source: sRGB transfer function, IEC 61966-2-1:1999.

    >>> linear("#ff0000")
    [1.0, 0.0, 0.0]
    """
    shares = [int(colour[k : k + 2], 16) / 255 for k in (1, 3, 5)]
    return [
        round(share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4, 6)
        for share in shares
    ]
