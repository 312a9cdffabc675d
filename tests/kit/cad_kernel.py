"""The independent CAD kernel: its curves, its solids, its fuse, and the faces of what comes out.

Source: Open CASCADE Technology, https://dev.opencascade.org , through the package
cadquery-ocp-novtk 8. Whatever imports this module skips where the package is not installed.
"""

import itertools
import math
from dataclasses import dataclass
from typing import Any

import numpy as np
import pytest

pytest.importorskip("OCP")

from OCP.BRepAdaptor import BRepAdaptor_Surface
from OCP.BRepAlgoAPI import BRepAlgoAPI_Common, BRepAlgoAPI_Cut, BRepAlgoAPI_Fuse
from OCP.BRepBuilderAPI import (
    BRepBuilderAPI_MakeEdge,
    BRepBuilderAPI_MakeFace,
    BRepBuilderAPI_MakeWire,
    BRepBuilderAPI_Transform,
)
from OCP.BRepGProp import BRepGProp
from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox, BRepPrimAPI_MakePrism
from OCP.collections import List_TopoDS_Shape
from OCP.GC import GC_MakeArcOfCircle
from OCP.GeomAbs import GeomAbs_Plane
from OCP.gp import gp_Ax2, gp_Dir, gp_Elips, gp_Pnt, gp_Trsf, gp_Vec
from OCP.GProp import GProp_GProps
from OCP.TopAbs import TopAbs_FACE, TopAbs_REVERSED
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS

FLAT = 1e-9
"""Of a flat face: both kernels compute in float64, and theirs fuses points nearer than 1e-7 mm."""

OVAL_PIECES = 32
"""An oval's edge comes in pieces: the kernel's integration is off by up to 2 % on a whole one."""


def line(a, b):
    return BRepBuilderAPI_MakeEdge(gp_Pnt(*map(float, a)), gp_Pnt(*map(float, b))).Edge()


def arc(a, crown, b):
    points = [gp_Pnt(*map(float, p)) for p in (a, crown, b)]
    return BRepBuilderAPI_MakeEdge(GC_MakeArcOfCircle(*points).Value()).Edge()


def span(a, b, in_space):
    """Return an edge from one point (u, v, rise) to the next; rises stand out to the right."""
    rise = a[2] if len(a) > 2 else 0
    if not rise:
        return line(in_space(*a[:2]), in_space(*b[:2]))
    du, dv = b[0] - a[0], b[1] - a[1]
    length = math.hypot(du, dv)
    crown = (a[0] + b[0]) / 2 + dv / length * rise, (a[1] + b[1]) / 2 - du / length * rise
    return arc(in_space(*a[:2]), in_space(*crown), in_space(*b[:2]))


def wire(edges):
    maker = BRepBuilderAPI_MakeWire()
    for edge in edges:
        maker.Add(edge)
    return maker.Wire()


def outline_wire(points, in_space):
    """Return the wire of points given counter-clockwise."""
    return wire(span(a, b, in_space) for a, b in itertools.pairwise([*points, points[0]]))


def oval_wire(width, height, centre, in_space, normal):
    """Return the wire of an oval that is no higher than wide."""
    origin, right = np.array(in_space(*centre)), np.array(in_space(centre[0] + 1, centre[1]))
    axes = gp_Ax2(gp_Pnt(*map(float, origin)), gp_Dir(*normal), gp_Dir(*map(float, right - origin)))
    ellipse = gp_Elips(axes, width / 2, height / 2)
    # in pieces: their integration is off by up to 2 % on the side of a whole oval
    angles = itertools.pairwise(np.linspace(0, 2 * math.pi, OVAL_PIECES + 1).tolist())
    return wire(BRepBuilderAPI_MakeEdge(ellipse, *pair).Edge() for pair in angles)


def prism(outline, along):
    face = BRepBuilderAPI_MakeFace(outline).Face()
    return BRepPrimAPI_MakePrism(face, gp_Vec(*map(float, along))).Shape()


def box(low, high):
    return BRepPrimAPI_MakeBox(gp_Pnt(*map(float, low)), gp_Pnt(*map(float, high))).Shape()


def cut(shape, *tools):
    for tool in tools:
        shape = BRepAlgoAPI_Cut(shape, tool).Shape()
    return shape


def common(first, second):
    return BRepAlgoAPI_Common(first, second).Shape()


def fuse(shapes):
    arguments, tools = List_TopoDS_Shape(), List_TopoDS_Shape()
    arguments.Append(shapes[0])
    for shape in shapes[1:]:
        tools.Append(shape)
    operation = BRepAlgoAPI_Fuse()
    operation.SetArguments(arguments)
    operation.SetTools(tools)
    operation.Build()
    assert operation.IsDone()
    return operation


def transformed(shape, trsf):
    return BRepBuilderAPI_Transform(shape, trsf, True).Shape()


def moved(shape, by):
    trsf = gp_Trsf()
    trsf.SetTranslation(gp_Vec(*map(float, by)))
    return transformed(shape, trsf)


def faces_of(shape):
    explorer = TopExp_Explorer(shape, TopAbs_FACE)
    while explorer.More():
        yield TopoDS.Face(explorer.Current())
        explorer.Next()


def area_and_middle(face):
    props = GProp_GProps()
    BRepGProp.SurfaceProperties_s(face, props, 1e-12)  # relative error asked of the integration
    middle = props.CentreOfMass()
    return props.Mass(), np.array([middle.X(), middle.Y(), middle.Z()])


def normal_of(face):
    """Return the outward normal at the middle of a face's parameters, and whether it is flat."""
    surface = BRepAdaptor_Surface(face)
    point, along, across = gp_Pnt(), gp_Vec(), gp_Vec()
    u = (surface.FirstUParameter() + surface.LastUParameter()) / 2
    v = (surface.FirstVParameter() + surface.LastVParameter()) / 2
    surface.D1(u, v, point, along, across)
    crossed = along.Crossed(across)
    normal = np.array([crossed.X(), crossed.Y(), crossed.Z()]) / crossed.Magnitude()
    sign = -1 if face.Orientation() == TopAbs_REVERSED else 1
    return sign * normal, surface.GetType() == GeomAbs_Plane


def side_of(normal):
    names = (("left", "right"), ("front", "back"), ("bottom", "top"))
    axis = int(np.abs(normal).argmax())
    return names[axis][int(normal[axis] > 0)]


@dataclass(frozen=True, eq=False)
class Same:
    """A face as a key, whichever way round it lies; the kernel's own == compares handles."""

    shape: Any

    def __hash__(self):
        return hash(self.shape)

    def __eq__(self, other):
        return self.shape.IsSame(other.shape)


def images_of(face, operation):
    if operation is None:
        return [face]
    modified = list(operation.Modified(face))
    return modified or ([] if operation.IsDeleted(face) else [face])


def together(whole, shown):
    """Return groups of faces that share a claim; most are one face alone."""
    group_of = {key: {key} for key in whole}
    for keys in shown:
        merged = set().union(*[group_of[key] for key in keys])
        for key in merged:
            group_of[key] = merged
    return {frozenset(group) for group in group_of.values()}
