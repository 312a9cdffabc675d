"""The model: areas by material as measured, and the structure that glTF 2.0 asks for."""

import json
import math
import struct
from collections.abc import Sequence

import numpy as np
import pytest

from shapes.grid import to_mm2
from shapes.parts import Part
from shapes.surfaces import Surface, surfaces
from surfacecalc.model.pieces import Piece
from surfacecalc.pictures.beside import set_beside
from surfacecalc.pictures.glb import linear, model
from surfacecalc.pictures.palette import looks
from surfacecalc.zones.areas import Measured

FLAT = 1e-6
"""Corners are 32-bit floats: 6e-8 of a metre-long coordinate, over faces a hundredth as wide."""
CURVED = 5e-5
"""A turned side's polygon has more area than the true side, by 2.5e-5."""
SIZES = {5126: 4, 5125: 4}
WIDTHS = {"VEC3": 3, "SCALAR": 1}
KINDS = {5126: "<f4", 5125: "<u4"}


def parsed(data: bytes) -> tuple[dict, bytes]:
    """Return the tables and the binary chunk, checking the container."""
    magic, version, length = struct.unpack_from("<4sII", data)
    assert (magic, version, length) == (b"glTF", 2, len(data))
    size, kind = struct.unpack_from("<I4s", data, 12)
    assert (kind, size % 4) == (b"JSON", 0)
    tables = json.loads(data[20 : 20 + size].decode())
    rest = data[20 + size :]
    size, kind = struct.unpack_from("<I4s", rest)
    assert (kind, size % 4, size) == (b"BIN\0", 0, len(rest) - 8)
    return tables, rest[8:]


def values(tables: dict, binary: bytes, number: int) -> np.ndarray:
    accessor = tables["accessors"][number]
    view = tables["bufferViews"][accessor["bufferView"]]
    wide = WIDTHS[accessor["type"]]
    assert accessor["count"] * wide * SIZES[accessor["componentType"]] == view["byteLength"]
    data = binary[view["byteOffset"] : view["byteOffset"] + view["byteLength"]]
    return np.frombuffer(data, KINDS[accessor["componentType"]]).reshape(-1, wide)


def primitives(tables: dict, binary: bytes):
    """Yield material, corners in place and triangles of each primitive."""
    for node in tables["nodes"]:
        for primitive in tables["meshes"][node["mesh"]]["primitives"]:
            corners = values(tables, binary, primitive["attributes"]["POSITION"])
            numbers = values(tables, binary, primitive["indices"]).reshape(-1, 3)
            name = tables["materials"][primitive["material"]]["name"]
            yield name, corners.astype(float) + node["translation"], numbers


def areas(data: bytes) -> dict[str, float]:
    found: dict[str, float] = {}
    for name, corners, numbers in primitives(*parsed(data)):
        a, b, c = (corners[numbers[:, k]] for k in range(3))
        area = np.linalg.norm(np.cross(b - a, c - a), axis=1).sum() / 2
        found[name] = found.get(name, 0.0) + float(area)
    return found


def drawn_share(part: Part) -> dict[str, float]:
    """Return the area of each face's triangles over its true area.

    It is 1 but for carved faces and worked edges, whose true area no triangle shows.
    """
    drawn: dict[str, float] = {}
    for patch, area in zip(part.solid.patches, part.solid.patch_mesh_areas, strict=True):
        drawn[patch.face] = drawn.get(patch.face, 0.0) + to_mm2(float(area))
    return {face: area / part.solid.area_mm2_of[face] for face, area in drawn.items()}


def test_a_model_keeps_every_rule(example):
    piece, measured = example
    data = model(piece, measured)
    has_the_area_of_each_material(piece, measured, data)
    has_the_structure_of_the_specification(data)
    found = surfaces(piece.parts, gap=piece.settings.gap_mm)
    moves = set_beside(found)
    has_loose_parts_clear_of_the_piece_and_of_each_other(found, moves)
    assert [[0, 0, 0]] == [
        move.tolist() for one, move in zip(found, moves, strict=True) if one.is_joined
    ]


def has_the_area_of_each_material(piece: Piece, measured: Measured, data: bytes) -> None:
    shares = {part.name: drawn_share(part) for part in piece.parts}
    zones = [(zone.zone.name, zone.faces) for zone in measured.one.zones if zone.area_m2]
    if measured.in_no_zone:
        zones.append(("in no zone", measured.in_no_zone))
    expected = {
        name: sum(face.area_m2 * shares[face.part][face.face] for face in faces)
        for name, faces in zones
    }
    is_turned = any(patch.normal is None for part in piece.parts for patch in part.solid.patches)
    tolerance = CURVED if is_turned else FLAT
    assert expected == pytest.approx(areas(data), rel=tolerance)


def has_the_structure_of_the_specification(data: bytes) -> None:
    tables, binary = parsed(data)
    assert tables["asset"]["version"] == "2.0"
    assert 0 <= len(binary) - tables["buffers"][0]["byteLength"] < 4
    end = 0
    for view in tables["bufferViews"]:
        assert view["byteOffset"] == end  # no gaps, no overlaps
        assert view["byteOffset"] % 4 == 0
        end += view["byteLength"]
    assert end == tables["buffers"][0]["byteLength"]
    assert tables["scenes"][tables["scene"]]["nodes"] == list(range(len(tables["nodes"])))
    used = set()
    for mesh in tables["meshes"]:
        for primitive in mesh["primitives"]:
            used.add(primitive["material"])
            _check_primitive(tables, binary, primitive)
    assert used == set(range(len(tables["materials"])))


def _check_primitive(tables: dict, binary: bytes, primitive: dict) -> None:
    position = primitive["attributes"]["POSITION"]
    corners = values(tables, binary, position)
    normals = values(tables, binary, primitive["attributes"]["NORMAL"])
    numbers = values(tables, binary, primitive["indices"])
    bounds = tables["accessors"][position]
    assert corners.min(axis=0).tolist() == bounds["min"]
    assert corners.max(axis=0).tolist() == bounds["max"]
    assert len(corners) == len(normals)
    assert set(numbers.ravel().tolist()) == set(range(len(corners)))
    # 1e-6: three 32-bit squares
    assert np.linalg.norm(normals.astype(float), axis=1) == pytest.approx(1, abs=1e-6)


def test_front_looks_to_plus_z_and_up_is_plus_y(read_example):
    piece, measured = read_example("linen-cupboard")
    found = list(primitives(*parsed(model(piece, measured))))
    every = np.concatenate([corners for _, corners, _ in found])
    assert every[:, 1].min() == pytest.approx(0, abs=1e-6)  # 32-bit: it stands on the floor
    assert every[:, 1].max() == pytest.approx(1.58, abs=1e-6)
    turned = [  # area towards each axis must cancel out on closed bodies seen from outside
        np.cross(c[n[:, 1]] - c[n[:, 0]], c[n[:, 2]] - c[n[:, 0]]) for _, c, n in found
    ]
    assert np.concatenate(turned).sum(axis=0) == pytest.approx(0, abs=1e-3)  # the closed gap
    name, corners, numbers = found[0]
    crossed = np.cross(*(corners[numbers[:, k]] - corners[numbers[:, 0]] for k in (1, 2)))
    # outward: the volume is positive
    assert (crossed * corners[numbers[:, 0]]).sum() > 0, name


def has_loose_parts_clear_of_the_piece_and_of_each_other(
    found: Sequence[Surface], moves: Sequence[np.ndarray]
) -> None:
    boxes = [
        (surface.box_mm[0] + move, surface.box_mm[1] + move)
        for surface, move in zip(found, moves, strict=True)
    ]
    for k, (low, high) in enumerate(boxes):
        for other_low, other_high in boxes[:k]:
            assert (low > other_high).any() or (high < other_low).any()


def test_colours_are_those_of_the_palette_in_linear_light(read_example):
    piece, measured = read_example("writing-table")
    tables, _ = parsed(model(piece, measured))
    for material, look in zip(tables["materials"], looks(measured), strict=False):
        assert material["name"] == look.name
        assert material["pbrMetallicRoughness"]["baseColorFactor"] == [*linear(look.tint), 1.0]


def test_the_middle_of_the_curve_of_light():
    """Source: the usual table value, sRGB 188 of 255 is half the light."""
    assert linear("#bcbcbc")[0] == pytest.approx(0.5, abs=0.004)  # a step of one of 255


def test_a_turned_side_has_even_normals(read_example):
    piece, measured = read_example("plant-stand")
    tables, binary = parsed(model(piece, measured))
    primitive = tables["meshes"][-1]["primitives"][0]  # a knob: a cylinder of 15 mm
    corners = values(tables, binary, primitive["attributes"]["POSITION"]).astype(float)
    normals = values(tables, binary, primitive["attributes"]["NORMAL"]).astype(float)
    middle = (corners.max(axis=0) + corners.min(axis=0)) / 2
    side = np.abs(normals[:, 1]) < 0.5
    outward = (corners - middle)[side]
    outward[:, 1] = 0
    outward /= np.linalg.norm(outward, axis=1, keepdims=True)
    # triangles at a corner are not symmetric: up to a third of a step between flats
    assert (outward * normals[side]).sum(axis=1).min() > math.cos(2 * math.pi / 256)


def test_an_independent_reader_finds_the_same_areas(read_example):
    trimesh = pytest.importorskip("trimesh", reason="trimesh is not installed")
    import io

    piece, measured = read_example("linen-cupboard")
    data = io.BytesIO(model(piece, measured))
    loaded = trimesh.load(data, file_type="glb", process=False)
    found: dict[str, float] = {}
    for name in loaded.graph.nodes_geometry:
        transform, geometry = loaded.graph[name]
        body = loaded.geometry[geometry].copy()
        body.apply_transform(transform)
        material = body.visual.material.name
        found[material] = found.get(material, 0.0) + float(body.area)
    expected = {zone.zone.name: zone.area_m2 for zone in measured.one.zones}
    assert expected == pytest.approx(found, rel=FLAT)
