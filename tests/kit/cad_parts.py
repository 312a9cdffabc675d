"""Plain parts, here and in the CAD kernel, with the rules that name their faces."""

from dataclasses import dataclass
from typing import Any

import numpy as np
import pytest
from cad_kernel import (
    box,
    cut,
    fuse,
    moved,
    side_of,
)

from shapes.boards import board
from shapes.cases import case
from shapes.drawers import drawer
from shapes.legs import round_leg, square_leg, tapered_leg, turned_leg
from shapes.panels import panel

pytest.importorskip("OCP")

from OCP.BRepBuilderAPI import (
    BRepBuilderAPI_MakeFace,
    BRepBuilderAPI_MakePolygon,
    BRepBuilderAPI_MakeSolid,
    BRepBuilderAPI_Sewing,
)
from OCP.BRepLib import BRepLib
from OCP.BRepPrimAPI import BRepPrimAPI_MakeCylinder, BRepPrimAPI_MakeRevol
from OCP.gp import gp_Ax1, gp_Ax2, gp_Dir, gp_Pnt
from OCP.TopoDS import TopoDS


@dataclass(frozen=True)
class Piece:
    """A part of an assembly: what shape, its measures, and where it stands [mm]."""

    kind: str
    measures: tuple
    at: tuple[float, float, float]


# ---- the solids under test


def solid_of(piece):
    m = piece.measures
    return {
        "board": lambda: board(*m),
        "case": lambda: case(*m[:3], board=m[3], open_sides=m[4]),
        "drawer": lambda: drawer(*m[:3], front=m[3], board=m[4]),
        "panel": lambda: panel(*m[:3], frame=m[3], recess=m[4]),
        "square": lambda: square_leg(*m),
        "tapered": lambda: tapered_leg(*m[:3], foot=m[3]),
        "round": lambda: round_leg(*m),
        "turned": lambda: turned_leg(m),
    }[piece.kind]()


# ---- the same solids in the CAD kernel, each with a rule that names its faces
# A rule takes the middle of a face and its outward normal, both in the part's own axes.


def is_outer(middle, normal, size):
    axis = int(np.abs(normal).argmax())
    return abs(middle[axis] - (size[axis] if normal[axis] > 0 else 0)) < 1e-6  # mm


def cad_board(width, depth, height):
    return box((0, 0, 0), (width, depth, height)), lambda _, normal: side_of(normal)


def cad_case(width, depth, height, wall, opened):
    size = (width, depth, height)
    names = (("left", "right"), ("front", "back"), ("bottom", "top"))
    # beyond the open sides by one wall, so that no skin is left there
    low = [-wall if a in opened else wall for a, _ in names]
    high = [s + wall if b in opened else s - wall for s, (_, b) in zip(size, names, strict=True)]

    def name(middle, normal):
        if not is_outer(middle, normal, size):
            return "inside"
        side = side_of(normal)
        return "edge" if side in opened else side

    return cut(box((0, 0, 0), size), box(low, high)), name


def cad_drawer(width, depth, height, facing, wall):
    size = (width, depth, height)
    body = cut(
        box((0, facing, 0), size),
        box((wall, facing - wall, wall), (width - wall, depth - wall, height + wall)),
    )
    shape = fuse([box((0, 0, 0), (width, facing, height)), body]).Shape()

    def name(middle, normal):
        if not is_outer(middle, normal, size):
            return "inside"
        side = side_of(normal)
        in_front = middle[1] < facing and side in {"left", "right", "top", "bottom"}
        return "edge" if in_front or side == "top" else side

    return shape, name


def cad_panel(width, depth, height, frame, recess):
    low, high = (frame, -recess, frame), (width - frame, recess, height - frame)
    back_low = (frame, depth - recess, frame)
    back_high = (width - frame, depth + recess, height - frame)
    shape = cut(box((0, 0, 0), (width, depth, height)), box(low, high), box(back_low, back_high))

    def name(middle, normal):
        if abs(normal[1]) < 0.5 and is_outer(middle, normal, (width, depth, height)):
            return "edge"
        return "front" if middle[1] < depth / 2 else "back"

    return shape, name


def cad_square(height, width, depth):
    return cad_board(width, depth, height)


def cad_tapered(height, width, depth, foot):
    foot_depth = foot * depth / width
    x, y = max(width, foot) / 2, max(depth, foot_depth) / 2
    rings = [
        [(x + sx * w / 2, y + sy * d / 2, z) for sx, sy in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
        for w, d, z in ((foot, foot_depth, 0), (width, depth, height))
    ]
    sides = [[rings[0][k], rings[0][k - 1], rings[1][k - 1], rings[1][k]] for k in range(4)]
    sewing = BRepBuilderAPI_Sewing()
    for corners in [*rings, *sides]:
        sewing.Add(BRepBuilderAPI_MakeFace(wire_of(corners)).Face())
    sewing.Perform()
    solid = BRepBuilderAPI_MakeSolid(TopoDS.Shell(sewing.SewedShape())).Solid()
    BRepLib.OrientClosedSolid_s(solid)
    return solid, lambda _, normal: side_of(normal)


def cad_round(height, width):
    axis = gp_Ax2(gp_Pnt(width / 2, width / 2, 0), gp_Dir(0, 0, 1))
    return BRepPrimAPI_MakeCylinder(axis, width / 2, float(height)).Shape(), turned_name(height)


def cad_turned(*profile):
    across = max(d for _, d in profile)
    points = [(0, 0, 0), *[(d / 2, 0, h) for h, d in profile], (0, 0, profile[-1][0])]
    points = [p for k, p in enumerate(points) if p != points[k - 1]]
    face = BRepBuilderAPI_MakeFace(wire_of(points)).Face()
    solid = BRepPrimAPI_MakeRevol(face, gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(0, 0, 1))).Shape()
    return moved(solid, (across / 2, across / 2, 0)), turned_name(profile[-1][0])


def turned_name(height):
    def name(middle, normal):
        if abs(normal[2]) == 1:
            for level, end in ((0, "bottom"), (height, "top")):
                if abs(middle[2] - level) < 1e-6:  # mm
                    return end
        return "side"

    return name


CAD: dict[str, Any] = {
    "board": cad_board,
    "case": cad_case,
    "drawer": cad_drawer,
    "panel": cad_panel,
    "square": cad_square,
    "tapered": cad_tapered,
    "round": cad_round,
    "turned": cad_turned,
}


def wire_of(points):
    polygon = BRepBuilderAPI_MakePolygon()
    for point in points:
        polygon.Add(gp_Pnt(*map(float, point)))
    polygon.Close()
    return polygon.Wire()
