"""Smooth shaped legs in the CAD kernel: their sides are Bezier surfaces, without any straight step.

A cubic by its ends and slopes is a Bezier curve whose inner poles stand at thirds of the height; a
piece of an oval is a rational one of degree two. A side of a leg is the product of the two.
"""

import itertools
import math

import numpy as np
from cad_kernel import OVAL_PIECES, outline_wire, side_of
from cad_twins import NEAR, Piece, at_ends
from OCP.BRepBuilderAPI import (
    BRepBuilderAPI_MakeEdge,
    BRepBuilderAPI_MakeFace,
    BRepBuilderAPI_MakeSolid,
    BRepBuilderAPI_MakeWire,
    BRepBuilderAPI_Sewing,
)
from OCP.BRepLib import BRepLib
from OCP.collections import Array1_double, Array1_gp_Pnt, Array2_double, Array2_gp_Pnt
from OCP.Geom import Geom_BezierCurve, Geom_BezierSurface
from OCP.gp import gp_Pnt
from OCP.TopoDS import TopoDS

from shapes import lofts, spindles

SQUARE = [(-1, -1), (1, -1), (1, 1), (-1, 1)]


def smooth(sections, *, is_round=False, at=(0, 0, 0)):
    """Return a smooth leg; its offsets must be such that the given sections reach furthest."""
    build = lofts.shaped_round_leg if is_round else lofts.shaped_leg
    full = np.array([[*section, 0, 0][:5] for section in sections], dtype=float)
    full[:, 3:] -= (full[:, 3:] - full[:, 1:3] / 2).min(axis=0)
    sides = list(_arcs()) if is_round else [((a, b), (1, 1)) for a, b in _around(SQUARE)]
    sewing = BRepBuilderAPI_Sewing(1e-5)
    for poles in _poles(full):
        for ends, weights in sides:
            sewing.Add(_side(poles, ends, weights))
    for level in (full[0], full[-1]):
        sewing.Add(_end(level, is_round=is_round))
    sewing.Perform()
    shape = BRepBuilderAPI_MakeSolid(TopoDS.Shell(sewing.SewedShape())).Solid()
    BRepLib.OrientClosedSolid_s(shape)
    height = float(full[-1][0])

    def name(middle, normal, is_flat):
        if abs(abs(normal[2]) - 1) < NEAR and min(middle[2], height - middle[2]) < NEAR:
            return "top" if normal[2] > 0 else "bottom"
        return side_of(normal * (1, 1, 0))

    rule = at_ends(2, height, "bottom", "top", lambda _: "side") if is_round else name
    return Piece(build(sections, smooth=True), shape, rule, at)


def _poles(full):
    """Return the four poles of height, sizes and middle for each two sections."""
    at = full[:, 0]
    slopes = np.stack([spindles.monotone_slopes(at, column) for column in full.T], axis=1)
    for k, rise in enumerate(np.diff(at)):
        low, high = slopes[k] * rise / 3, slopes[k + 1] * rise / 3
        yield np.array([full[k], full[k] + low, full[k + 1] - high, full[k + 1]])


def _around(corners):
    return itertools.pairwise([*corners, corners[0]])


def _arcs():
    """Return the poles of the pieces of a circle, and their weights."""
    half = math.pi / OVAL_PIECES
    for number in range(OVAL_PIECES):
        middle = (2 * number + 1) * half
        angles = (middle - half, middle, middle + half)
        lengths = (1, 1 / math.cos(half), 1)
        poles = [(r * math.cos(t), r * math.sin(t)) for r, t in zip(lengths, angles, strict=True)]
        yield poles, (1, math.cos(half), 1)


def _side(poles, ends, weights):
    points, shares = Array2_gp_Pnt(1, len(ends), 1, 4), Array2_double(1, len(ends), 1, 4)
    for i, (x, y) in enumerate(ends, start=1):
        for j, (z, width, depth, mx, my) in enumerate(poles, start=1):
            place = gp_Pnt(float(mx + x * width / 2), float(my + y * depth / 2), float(z))
            points.SetValue(i, j, place)
            shares.SetValue(i, j, float(weights[i - 1]))
    return BRepBuilderAPI_MakeFace(Geom_BezierSurface(points, shares), 1e-9).Face()


def _end(level, *, is_round):
    z, width, depth, mx, my = map(float, level)
    if not is_round:
        corners = [(mx + x * width / 2, my + y * depth / 2) for x, y in SQUARE]
        return BRepBuilderAPI_MakeFace(outline_wire(corners, lambda u, v: (u, v, z))).Face()
    maker = BRepBuilderAPI_MakeWire()
    for ends, weights in _arcs():
        points, shares = Array1_gp_Pnt(1, 3), Array1_double(1, 3)
        for i, (x, y) in enumerate(ends, start=1):
            points.SetValue(i, gp_Pnt(mx + x * width / 2, my + y * depth / 2, z))
            shares.SetValue(i, float(weights[i - 1]))
        maker.Add(BRepBuilderAPI_MakeEdge(Geom_BezierCurve(points, shares)).Edge())
    return BRepBuilderAPI_MakeFace(maker.Wire()).Face()
