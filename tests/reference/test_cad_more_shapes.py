"""Outlines, mouldings, raised panels, shaped legs and spindles against an independent CAD kernel.

Source: Open CASCADE Technology, https://dev.opencascade.org , through the package
cadquery-ocp-novtk 8. It knows no triangles: arcs, ovals and Bezier curves are exact, and so are the
surfaces made of them by extrusion, revolution, ruling and intersection. Mitres are made there by
cutting straight runs, not by the formula under test. Faces are followed through its general fuse
by its history.
"""

import itertools
import math
from collections import defaultdict
from dataclasses import dataclass

import numpy as np
import pytest

from shapes import lofts, mouldings, outline_boards, outlines, profiles, raised_panels, spindles
from shapes.boards import board
from shapes.exposure import exposure
from shapes.placement import place
from shapes.transforms import lean, mirror, turn

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
from OCP.BRepOffsetAPI import BRepOffsetAPI_ThruSections
from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox, BRepPrimAPI_MakePrism, BRepPrimAPI_MakeRevol
from OCP.collections import Array1_gp_Pnt, List_TopoDS_Shape
from OCP.GC import GC_MakeArcOfCircle
from OCP.Geom import Geom_BezierCurve
from OCP.GeomAbs import GeomAbs_Plane
from OCP.gp import gp_Ax1, gp_Ax2, gp_Dir, gp_Elips, gp_Pnt, gp_Trsf, gp_Vec
from OCP.GProp import GProp_GProps
from OCP.TopAbs import TopAbs_FACE, TopAbs_REVERSED
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS

FLAT = 1e-9
"""Of a flat face: both kernels compute in float64, and theirs fuses points nearer than 1e-7 mm."""

UNCUT = 1e-8
"""Of a curved face that nothing cuts: their integration over a curved patch is good to 1e-9."""

CUT = 1e-4
"""Of the area of curved faces that other parts cut: `shapes` cuts polygons of 256 sides."""

OVAL_PIECES = 32

NEAR = 1e-5
"""mm: a point lies on a plane. Their intersections are good to 1e-7."""


@dataclass(frozen=True)
class Piece:
    """A part of an assembly: its solid here, its shape there, the rule that names its faces."""

    solid: object
    shape: object
    name: object
    at: tuple[float, float, float] = (0, 0, 0)


# ---- curves and solids of the CAD kernel


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


# ---- names of faces: rules of (middle, outward normal, is flat), in the part's own axes


def side_of(normal):
    names = (("left", "right"), ("front", "back"), ("bottom", "top"))
    axis = int(np.abs(normal).argmax())
    return names[axis][int(normal[axis] > 0)]


def at_ends(axis, length, near, far, rest):
    """Name flat faces at both ends of an axis; the rest by a rule."""

    def name(middle, normal, is_flat):
        if is_flat and abs(abs(normal[axis]) - 1) < NEAR:
            for level, end in ((0, near), (length, far)):
                if abs(middle[axis] - level) < NEAR:
                    return end
        return rest(middle)

    return name


# ---- shapes under test with their twins


def plain(width, depth, height, at=(0, 0, 0)):
    return Piece(
        board(width, depth, height),
        box((0, 0, 0), (width, depth, height)),
        lambda _, normal, __: side_of(normal),
        at,
    )


WAYS = {
    "z": (lambda u, v: (u, v, 0), (0, 0, 1), 2, "bottom", "top"),
    "y": (lambda u, v: (u, 0, v), (0, 1, 0), 1, "front", "back"),
    "x": (lambda u, v: (0, u, v), (1, 0, 0), 0, "left", "right"),
}


def sawn(points, thickness, along="z", holes=(), ovals=(), at=(0, 0, 0)):
    """Return an outline board; its points are counter-clockwise and their box is at the origin."""
    in_space, way, axis, near, far = WAYS[along]
    reach = np.array(way) * thickness
    tools = [prism(outline_wire(hole, in_space), reach) for hole in holes]
    tools += [prism(oval_wire(*oval, in_space, way), reach) for oval in ovals]
    shape = cut(prism(outline_wire(points, in_space), reach), *tools)
    boxes = [outlines.polygon(hole).box / 80_000 for hole in holes]
    rings = [outlines.oval(w, h, centre=c) for w, h, c in ovals]
    boxes += [ring.box / 80_000 for ring in rings]
    kept = [k for k in range(3) if k != axis]

    def rest(middle):
        in_a_hole = any(
            ((b[0] - NEAR < middle[kept]) & (middle[kept] < b[1] + NEAR)).all() for b in boxes
        )
        return "hole" if in_a_hole else "edge"

    solid = outline_boards.outline_board(points, thickness, holes=[*holes, *rings], along=along)
    return Piece(solid, shape, at_ends(axis, thickness, near, far, rest), at)


def oval_board(width, height, thickness, at=(0, 0, 0)):
    in_space, way, axis, near, far = WAYS["z"]
    outline = oval_wire(width, height, (width / 2, height / 2), in_space, way)
    solid = outline_boards.outline_board(outlines.oval(width, height), thickness)
    name = at_ends(axis, thickness, near, far, lambda _: "edge")
    return Piece(solid, prism(outline, (0, 0, thickness)), name, at)


def section_points(profile):
    """Return a profile closed along its foot, its top and its back, counter-clockwise."""
    points = [*profile]
    if profile[-1][0] > 0:
        points.append([0, profile[-1][1]])
    if profile[0][0] > 0:
        points.append([0, 0])
    return points


def straight_run(length, profile, at=(0, 0, 0)):
    solid = mouldings.moulding(length, profile)
    out, height = solid.size_mm[1:]
    shape = prism(
        outline_wire(section_points(profile), lambda u, v: (0, out - u, v)), (length, 0, 0)
    )

    def name(middle, normal, is_flat):
        if is_flat and abs(normal[0]) > 1 - NEAR:
            return "ends"
        if is_flat and normal[1] > 1 - NEAR and abs(middle[1] - out) < NEAR:
            return "back"
        return level_name(height, middle, normal, is_flat)

    return Piece(solid, shape, name, at)


def level_name(height, middle, normal, is_flat):
    if is_flat and abs(normal[2]) > 1 - NEAR:
        for level, end in ((0, "bottom"), (height, "top")):
            if abs(middle[2] - level) < NEAR and (normal[2] > 0) == (level > 0):
                return end
    return "face"


def around(width, depth, profile, all_round=False, at=(0, 0, 0)):
    """Return a mitred moulding: straight runs there, each cut at its mitres, and joined."""
    solid = mouldings.mitred_moulding(width, depth, profile, all_round=all_round)
    out, height = max(solid.size_mm[0] - width, 0) / 2, solid.size_mm[2]
    wide, rear = width + 2 * out, depth + out
    deep = rear + (out if all_round else 0)
    points = section_points(profile)
    sections = {
        "front": ((lambda u, v: (0, out - u, v)), (wide, 0, 0)),
        "left": ((lambda u, v: (out - u, 0, v)), (0, deep, 0)),
        "right": ((lambda u, v: (out + width + u, 0, v)), (0, deep, 0)),
        "back": ((lambda u, v: (0, rear + u, v)), (wide, 0, 0)),
    }
    end = deep if all_round else rear
    plans = {
        "front": [(0, 0), (wide, 0), (wide - out, out), (out, out)],
        "left": [(0, 0), (out, out), (out, rear), (0, end)],
        "right": [(wide, 0), (wide, end), (wide - out, rear), (wide - out, out)],
        "back": [(out, rear), (wide - out, rear), (wide, deep), (0, deep)],
    }
    runs = []
    for side in ("front", "left", "right", "back")[: 4 if all_round else 3]:
        in_space, way = sections[side]
        plan = prism(outline_wire(plans[side], lambda u, v: (u, v, 0)), (0, 0, height))
        runs.append(common(prism(outline_wire(points, in_space), way), plan))

    def name(middle, normal, is_flat):
        if is_flat and not all_round and normal[1] > 1 - NEAR and abs(middle[1] - rear) < NEAR:
            return "ends"
        inner = ((0, out, 1), (0, out + width, -1), (1, out, 1), (1, rear, -1))
        for axis, level, sign in inner[: 4 if all_round else 3]:
            if is_flat and normal[axis] * sign > 1 - NEAR and abs(middle[axis] - level) < NEAR:
                return "back"
        return level_name(height, middle, normal, is_flat)

    return Piece(solid, fuse(runs).Shape(), name, at)


def worked_board(width, depth, height, profile, edges):
    """Return a board with profiled edges: there, what two boards profiled along have in common."""
    out = max(outlines.polygon(section_points(profile)).box[1][0] / 80_000, 0)
    solid = mouldings.profiled_board(width, depth, height, profile=profile, edges=edges)
    # seen along x: the right-hand side of this outline is the front, and y runs to the left
    up = [[p[0] - out, *p[1:]] for p in profile]
    square = [[0, 0], [0, height]]

    def lying(length, first, last):
        """Return an outline across a board: `first` at 0, running down, `last` at its length."""
        risen = list(last if last is not None else square)
        rising = [[length + p[0], *p[1:]] for p in risen]
        low = list(first if first is not None else square)
        rises = [list(p[2:]) for p in low[:-1]]
        falling = [[-p[0], p[1]] for p in reversed(low)]
        return [*rising, *[p + r for p, r in zip(falling, [*reversed(rises), []], strict=True)]]

    pick = {edge: up if edge in edges else None for edge in ("front", "back", "left", "right")}
    across = outline_wire(lying(depth, pick["front"], pick["back"]), lambda u, v: (0, u, v))
    along = outline_wire(lying(width, pick["left"], pick["right"]), lambda u, v: (u, 0, v))
    shape = common(prism(across, (width, 0, 0)), prism(along, (0, depth, 0)))

    def name(middle, normal, is_flat):
        if is_flat and abs(normal[2]) > 1 - NEAR and min(middle[2], height - middle[2]) < NEAR:
            return "top" if normal[2] > 0 else "bottom"
        x, y, _ = middle
        return min(
            (("left", x), ("right", width - x), ("front", y), ("back", depth - y)),
            key=lambda pair: pair[1],
        )[0]

    return Piece(solid, shape, name)


def rectangle(inset, y, width, height):
    right, top = width - inset, height - inset
    return outline_wire(
        [(inset, inset), (right, inset), (right, top), (inset, top)], lambda u, v: (u, y, v)
    )


def loft(wires):
    maker = BRepOffsetAPI_ThruSections(True, True)
    maker.CheckCompatibility(False)  # else it starts sections at other points
    for each in wires:
        maker.AddWire(each)
    maker.Build()
    return maker.Shape()


def raised(width, depth, height, at=(0, 0, 0), **sizes):
    solid = raised_panels.raised_panel(width, depth, height, **sizes)
    frame, recess, bevel = (sizes[key] for key in ("frame", "recess", "bevel"))
    field, step = sizes.get("field", 0), sizes.get("step", 0)
    inner = ((frame, width - frame), (frame, height - frame))
    shape = cut(
        box((0, 0, 0), (width, depth, height)),
        *[
            box((inner[0][0], y, inner[1][0]), (inner[0][1], y + recess, inner[1][1]))
            for y in (0, depth - recess)
        ],
    )
    inset = frame + bevel
    for is_back in (False, True)[: 2 if sizes.get("raised_back") else 1]:
        levels = [depth - y if is_back else y for y in (recess, field + step, field)]
        insets = (frame, inset, inset)
        pairs = [(0, 1), (1, 2)] if step else [(0, 1)]
        for a, b in pairs:
            if levels[a] != levels[b]:
                wires = [rectangle(insets[k], levels[k], width, height) for k in (a, b)]
                shape = fuse([shape, loft(wires)]).Shape()

    return Piece(solid, shape, panel_name(width, depth, height), at)


def panel_name(width, depth, height, reveal=False):
    def name(middle, normal, is_flat):
        size = (width, depth, height)
        axis = int(np.abs(normal).argmax())
        is_square = abs(normal[axis]) > 1 - NEAR and axis != 1
        if is_square and abs(middle[axis] - (size[axis] if normal[axis] > 0 else 0)) < NEAR:
            return "edge"
        if is_square and reveal:
            return "reveal"
        return "front" if middle[1] < depth / 2 else "back"

    return name


def openings(length, frame, count, bar):
    each = (length - 2 * frame - (count - 1) * bar) / count
    return [(frame + k * (each + bar), frame + k * (each + bar) + each) for k in range(count)]


def glazed(width, depth, height, frame, panes, bar, at=(0, 0, 0)):
    holes = [
        box((a, 0, c), (b, depth, d))
        for a, b in openings(width, frame, panes[0], bar)
        for c, d in openings(height, frame, panes[1], bar)
    ]
    solid = raised_panels.open_panel(width, depth, height, frame=frame, panes=panes, bar=bar)
    shape = cut(box((0, 0, 0), (width, depth, height)), *holes)
    return Piece(solid, shape, panel_name(width, depth, height, reveal=True), at)


def panelled(width, depth, height, frame, recess, panels, rail):
    holes = [
        box((a, y, c), (b, y + recess, d))
        for a, b in openings(width, frame, panels[0], rail)
        for c, d in openings(height, frame, panels[1], rail)
        for y in (0, depth - recess)
    ]
    solid = raised_panels.panelled_door(
        width, depth, height, frame=frame, recess=recess, panels=panels, rail=rail
    )
    shape = cut(box((0, 0, 0), (width, depth, height)), *holes)
    return Piece(solid, shape, panel_name(width, depth, height))


def shaped(sections, at=(0, 0, 0)):
    solid = lofts.shaped_leg(sections)
    full = [[*section, 0, 0][:5] for section in sections]
    x, y = min(s[3] - s[1] / 2 for s in full), min(s[4] - s[2] / 2 for s in full)
    wires = []
    for z, width, depth, dx, dy in full:
        a, b = dx - x - width / 2, dy - y - depth / 2
        corners = [(a, b), (a + width, b), (a + width, b + depth), (a, b + depth)]
        wires.append(outline_wire(corners, lambda u, v, z=z: (u, v, z)))
    height = full[-1][0]

    def name(middle, normal, is_flat):
        if abs(abs(normal[2]) - 1) < NEAR and min(middle[2], height - middle[2]) < NEAR:
            return "top" if normal[2] > 0 else "bottom"
        return side_of(normal * (1, 1, 0))

    return Piece(solid, loft(wires), name, at)


def shaped_round(sections, at=(0, 0, 0)):
    """Return a leg of ovals, each of them no deeper than wide."""
    solid = lofts.shaped_round_leg(sections)
    full = [[*section, 0, 0][:5] for section in sections]
    x, y = min(s[3] - s[1] / 2 for s in full), min(s[4] - s[2] / 2 for s in full)
    wires = [
        oval_wire(w, d, (dx - x, dy - y), lambda u, v, z=z: (u, v, z), (0, 0, 1))
        for z, w, d, dx, dy in full
    ]
    return Piece(solid, loft(wires), at_ends(2, full[-1][0], "bottom", "top", lambda _: "side"), at)


def turned(profile, at=(0, 0, 0)):
    """Return a spindle: lines, arcs and Bezier curves there, turned about their axis."""
    solid = spindles.spindle(profile)
    points = [(p[1] / 2, p[0]) for p in profile]
    forms = [p[2] if len(p) > 2 else "smooth" for p in profile[:-1]]
    edges = []
    slopes = slopes_of(points, forms)
    for k, (a, b) in enumerate(itertools.pairwise(points)):
        if isinstance(forms[k], str):
            edges.append(
                bezier(a, b, *slopes[k]) if k in slopes else line((a[0], 0, a[1]), (b[0], 0, b[1]))
            )
        else:
            edges.append(span((*a, forms[k]), b, lambda u, v: (u, 0, v)))
    ring = [(0, points[-1][1]), (0, points[0][1])]
    ring = [points[-1], *ring, points[0]]
    edges += [line((a[0], 0, a[1]), (b[0], 0, b[1])) for a, b in itertools.pairwise(ring) if a != b]
    face = BRepBuilderAPI_MakeFace(wire(edges)).Face()
    shape = BRepPrimAPI_MakeRevol(face, gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(0, 0, 1))).Shape()
    centre = solid.size_mm[0] / 2
    name = at_ends(2, profile[-1][0], "bottom", "top", lambda _: "side")
    return Piece(solid, moved(shape, (centre, centre, 0)), name, at)


def slopes_of(points, forms):
    """Return both end slopes (radius by height) of each smooth span."""
    slopes = {}
    is_smooth = [
        f == "smooth" and a[1] < b[1]
        for f, (a, b) in zip(forms, itertools.pairwise(points), strict=True)
    ]
    for smooth, group in itertools.groupby(range(len(forms)), key=lambda k: is_smooth[k]):
        numbers = list(group)
        if smooth:
            run = np.array(points[numbers[0] : numbers[-1] + 2])
            found = spindles.monotone_slopes(run[:, 1], run[:, 0])
            slopes |= {k: (found[i], found[i + 1]) for i, k in enumerate(numbers)}
    return slopes


def bezier(a, b, low_slope, high_slope):
    """Return a cubic by its ends and slopes: its inner poles stand at thirds of the height."""
    third = (b[1] - a[1]) / 3
    poles = [
        a,
        (a[0] + low_slope * third, a[1] + third),
        (b[0] - high_slope * third, b[1] - third),
        b,
    ]
    array = Array1_gp_Pnt(1, 4)
    for number, (radius, z) in enumerate(poles, start=1):
        array.SetValue(number, gp_Pnt(float(radius), 0.0, float(z)))
    return BRepBuilderAPI_MakeEdge(Geom_BezierCurve(array)).Edge()


def repositioned(piece, solid, trsf, swap=None, at=(0, 0, 0)):
    """Return a piece that the CAD kernel has turned or mirrored, its box moved to the origin."""
    corners = piece.solid.vertices / 80_000
    low = np.min([place_of(trsf, corner) for corner in corners], axis=0)
    back = trsf.Inverted()

    def name(middle, normal, is_flat):
        origin = place_of(back, (0, 0, 0))
        looked = place_of(back, normal) - origin
        named = piece.name(place_of(back, middle + low), looked, is_flat)
        return (swap or {}).get(named, named)

    return Piece(solid, moved(transformed(piece.shape, trsf), -low), name, at)


def place_of(trsf, point):
    placed = gp_Pnt(*map(float, point)).Transformed(trsf)
    return np.array([placed.X(), placed.Y(), placed.Z()])


def rotation(direction, degrees):
    trsf = gp_Trsf()
    trsf.SetRotation(gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(*direction)), math.radians(degrees))
    return trsf


def turned_piece(piece, degrees, at=(0, 0, 0)):
    return repositioned(piece, turn(piece.solid, degrees), rotation((0, 0, 1), degrees), at=at)


def leaned(piece, degrees, towards, at=(0, 0, 0)):
    axes = {"left": (0, -1, 0), "right": (0, 1, 0), "front": (1, 0, 0), "back": (-1, 0, 0)}
    trsf = rotation(axes[towards], degrees)
    return repositioned(piece, lean(piece.solid, degrees, towards=towards), trsf, at=at)


def mirrored(piece, across, at=(0, 0, 0)):
    normal = {"left-right": (1, 0, 0), "front-back": (0, 1, 0)}[across]
    trsf = gp_Trsf()
    trsf.SetMirror(gp_Ax2(gp_Pnt(0, 0, 0), gp_Dir(*normal)))
    a, b = across.split("-")
    return repositioned(piece, mirror(piece.solid, across), trsf, {a: b, b: a}, at)


# ---- the comparison


@dataclass(frozen=True, eq=False)
class Same:
    """A face as a key, whichever way round it lies; the kernel's own == compares handles."""

    shape: object

    def __hash__(self):
        return hash(self.shape)

    def __eq__(self, other):
        return self.shape.IsSame(other.shape)


def cad_areas(pieces):
    """Return whole areas [mm2] by (number, face), exposed ones by claims, and the curved faces."""
    shapes = [moved(piece.shape, piece.at) for piece in pieces]
    operation = fuse(shapes) if len(shapes) > 1 else None
    whole, claims, curved = defaultdict(float), defaultdict(set), set()
    for number, (piece, shape) in enumerate(zip(pieces, shapes, strict=True)):
        for face in faces_of(shape):
            area, middle = area_and_middle(face)
            normal, is_flat = normal_of(face)
            key = number, piece.name(middle - np.array(piece.at), normal, is_flat)
            whole[key] += area
            if not is_flat:
                curved.add(key)
            for image in images_of(face, operation):
                claims[Same(image)].add(key)
    shown = defaultdict(float)
    for face in faces_of(operation.Shape() if operation else shapes[0]):
        assert claims[Same(face)]  # every face of the result is the image of a part's face
        shown[frozenset(claims[Same(face)])] += area_and_middle(face)[0]
    return whole, shown, curved


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


@pytest.fixture(scope="module")
def worst_errors(record_testsuite_property):
    """Gather the worst relative error by shape; `--junitxml` writes them down."""
    errors = defaultdict(float)
    yield errors
    for kind, error in sorted(errors.items()):
        record_testsuite_property(f"worst error, {kind}", f"{error:.1e}")


def compare(kind, pieces, worst_errors):
    """Assert that both kernels agree on whole faces and on what is exposed of them."""
    whole, shown, curved = cad_areas(pieces)
    parts = [place(str(k), piece.solid, piece.at) for k, piece in enumerate(pieces)]
    areas = exposure(parts, gap=0).areas_mm2
    assert {(str(k), face) for k, face in whole} == set(areas)
    for (number, face), area in whole.items():
        error = abs(parts[number].solid.area_mm2_of[face] / area - 1)
        what = "curved" if (number, face) in curved else "flat"
        worst_errors[f"{kind}, {what}"] = max(worst_errors[f"{kind}, {what}"], error)
        assert error < (UNCUT if what == "curved" else FLAT), (number, face)
    cut_area = sum(whole[key] for key in curved if is_cut(key, whole, shown))
    for keys in together(whole, shown):
        expected = sum(area for claim, area in shown.items() if claim <= keys)
        actual = sum(areas[str(number), face] for number, face in keys)
        size = sum(whole[key] for key in keys)
        limit = (UNCUT if keys & curved else FLAT) * size + CUT * cut_area
        assert expected == pytest.approx(actual, abs=limit), sorted(keys)
        if cut_area:
            worst_errors[f"{kind}, cut"] = max(
                worst_errors[f"{kind}, cut"], abs(expected - actual) / max(size, cut_area)
            )


def is_cut(key, whole, shown):
    seen = sum(area for claim, area in shown.items() if key in claim)
    return FLAT < seen / whole[key] < 1 - FLAT


# ---- specimens

APRON = [[0, 0], [60, 0, -35], [540, 0], [600, 0], [600, 90], [0, 90]]
BOW = [[0, 30, 30], [500, 30], [500, 300], [0, 300]]
SHEET = [[0, 0], [200, 0], [200, 200], [0, 200]]
SLAT = [[0, 0], [80, 0], [80, 300, 40], [0, 300]]
PIERCING = [[25, 100], [55, 100, 5], [55, 200, 15], [25, 200, 5]]
OGEE = profiles.ogee(18, 24)
PROFILES = {
    "chamfer": profiles.chamfer(6, 9),
    "quarter round": profiles.quarter_round(15),
    "cove": profiles.cove(15),
    "bead": profiles.bead(14),
    "ogee": OGEE,
    "cornice": profiles.flipped(
        profiles.stacked(profiles.stood_out(OGEE, 12), [[10, 0], [10, 5]], profiles.cove(10))
    ),
    "base": profiles.edge_of(OGEE, 70),
}
CABRIOLE = [
    [0, 48, 48, 22, -22], [18, 50, 50, 22, -22], [45, 27, 27, 14, -14], [150, 30, 30, 3, -3],
    [290, 54, 54, 7, -7], [360, 60, 60, 0, 0], [420, 56, 56, 0, 0],
]  # fmt: skip
SABRE = [[0, 24, 30, 0, -70], [140, 28, 33, 0, -30], [300, 32, 38, 0, -5], [430, 36, 42, 0, 0]]
BRACKET = [[0, 90, 60, 0, 0], [40, 100, 70, 5, 5], [110, 150, 90, 30, 15]]
BALUSTER = [
    [0, 30], [20, 30, 8], [50, 30, "straight"], [50, 44, 6], [80, 44, -3], [100, 40],
    [180, 62], [330, 26], [420, 40, "straight"], [420, 56, "straight"], [450, 56],
]  # fmt: skip
BUN = [[0, 50, 20], [60, 50]]
TIP = [[0, 0], [60, 34], [150, 20], [240, 0]]

ALONE = {
    **{f"apron along {a}": lambda a=a: [sawn(APRON, 20, a, at=(3, -5, 7))] for a in "xyz"},
    "bow front": lambda: [sawn(BOW, 18)],
    "slat": lambda: [sawn(SLAT, 12, "y", holes=[PIERCING])],
    "pierced": lambda: [
        sawn(SLAT, 12, "y", [PIERCING, [[10, 20], [70, 20], [40, 60]]], [((20, 20, (40, 290)))])
    ],
    "hand hole": lambda: [sawn(SHEET, 12, "x", ovals=[(100, 32, (100, 150))])],
    "oval top": lambda: [oval_board(900, 600, 22)],
    "thin oval": lambda: [oval_board(900, 90, 22)],
    "round top": lambda: [oval_board(700, 700, 22)],
    **{f"straight {name}": lambda p=p: [straight_run(800, p)] for name, p in PROFILES.items()},
    **{f"mitred {name}": lambda p=p: [around(500, 300, p)] for name, p in PROFILES.items()},
    **{
        f"all round {name}": lambda p=p: [around(500, 300, p, True)]
        for name, p in PROFILES.items()
    },
    "raised": lambda: [raised(400, 22, 600, frame=60, recess=9, bevel=40, field=1)],
    "raised, step": lambda: [raised(400, 22, 600, frame=60, recess=9, bevel=40, field=1, step=3)],
    "raised both": lambda: [
        raised(400, 22, 600, frame=60, recess=9, bevel=40, field=2, step=3, raised_back=True)
    ],
    "square step": lambda: [raised(400, 22, 600, frame=60, recess=9, bevel=40, field=0, step=9)],
    "glazed": lambda: [glazed(450, 22, 900, 55, (2, 3), 18)],
    "frame": lambda: [glazed(450, 22, 900, 55, (1, 1), 0)],
    "panelled": lambda: [panelled(900, 40, 2000, 110, 12, (2, 2), 100)],
    "cabriole": lambda: [shaped(CABRIOLE)],
    "sabre": lambda: [shaped(SABRE)],
    "bracket": lambda: [shaped(BRACKET)],
    "round cabriole": lambda: [shaped_round(CABRIOLE)],
    "oval leg": lambda: [shaped_round([[0, 30, 18, 10, 0], [200, 34, 30], [400, 60, 20, 0, 15]])],
    "baluster": lambda: [turned(BALUSTER)],
    "bun": lambda: [turned(BUN)],
    "tip": lambda: [turned(TIP)],
    "turned board": lambda: [turned_piece(plain(300, 40, 200), 30)],
    "turned moulding": lambda: [turned_piece(around(300, 200, OGEE), 90)],
    "leaned slat": lambda: [leaned(sawn(SLAT, 12, "y", holes=[PIERCING]), 12, "back")],
    "leaned leg": lambda: [leaned(shaped(SABRE), 8, "left")],
    "laid leg": lambda: [leaned(shaped(SABRE), 90, "front")],
    "mirrored leg": lambda: [mirrored(shaped(CABRIOLE), "left-right")],
    "mirrored bracket": lambda: [mirrored(shaped(BRACKET), "front-back")],
}  # fmt: skip


def table():
    """A top, an arched apron in front and four shaped legs, whose heads are 56 square."""
    width, depth = 800, 500
    head = 420 - 90
    legs = []
    for right, back in itertools.product((False, True), repeat=2):
        sections = [
            [z, w, d, -x if not right else x, y if not back else -y] for z, w, d, x, y in CABRIOLE
        ]
        leg = shaped(sections)
        low = [min(s[k] - s[m] / 2 for s in sections) for k, m in ((3, 1), (4, 2))]
        corner = (width - 100 if right else 44, depth - 100 if back else 44)
        legs.append(shaped(sections, at=(corner[0] + 28 + low[0], corner[1] + 28 + low[1], 0)))
        assert leg.solid.size == legs[-1].solid.size
    apron = [[0, 0], [40, 0, -30], [560, 0], [600, 0], [600, 80], [0, 80]]
    return [
        plain(width, depth, 20, (0, 0, 420)), *legs,
        sawn(apron, 20, "y", at=(100, 60, head + 10)),
    ]  # fmt: skip


JOINED = {
    "table": table,
    "plinth under a body": lambda: [
        plain(500, 300, 400), around(500, 300, PROFILES["base"], at=(-18, -18, 0))
    ],
    "cornice on a body": lambda: [
        plain(500, 300, 400), around(500, 300, PROFILES["cornice"], at=(-30, -30, 361)),
        plain(560, 340, 20, (-30, -30, 400)),
    ],
    "moulding all round": lambda: [
        plain(500, 300, 400), around(500, 300, PROFILES["bead"], True, at=(-7, -7, 200))
    ],
    "moulding cut by a rail": lambda: [
        straight_run(800, OGEE), plain(50, 60, 10, (300, -20, 5)),
    ],
    "mouldings end to end": lambda: [straight_run(300, OGEE), straight_run(200, OGEE, (300, 0, 0))],
    "oval top on a column": lambda: [
        oval_board(900, 600, 22, (0, 0, 450)), turned(BALUSTER, (422, 272, 0))
    ],
    "post through a hole": lambda: [
        sawn(SHEET, 20, ovals=[(40, 40, (100, 100))], at=(0, 0, 200)),
        turned(BALUSTER, (69, 69, 0)),
    ],
    "slats in rails": lambda: [
        plain(400, 30, 40, (0, 0, 0)), plain(400, 30, 40, (0, 0, 330)),
        *[sawn(SLAT, 12, "y", holes=[PIERCING], at=(x, 9, 20)) for x in (40, 160, 280)],
    ],
    "bow front on a body": lambda: [
        sawn(BOW, 18, at=(0, 0, 300)), plain(500, 270, 300, (0, 30, 0))
    ],
    "rail into sabre legs": lambda: [
        shaped(SABRE), shaped(SABRE, (400, 0, 0)), plain(400, 18, 60, (18, 70, 300)),
    ],
    "rail into round legs": lambda: [
        shaped_round(CABRIOLE), shaped_round(CABRIOLE, (400, 0, 0)),
        plain(400, 18, 50, (25, 35, 180)),
    ],
    "rail into oval legs": lambda: [
        shaped_round([[0, 30, 18, 10, 0], [200, 34, 30], [400, 60, 20, 0, 15]]),
        plain(400, 9, 50, (25, 12, 180)),
    ],
    "rail through a baluster": lambda: [turned(BALUSTER), plain(400, 18, 30, (20, 25, 200))],
    "bun under a case": lambda: [turned(BUN), plain(300, 200, 250, (0, 0, 60))],
    "tip in a block": lambda: [turned(TIP), plain(60, 50, 40, (-11, -9, -13))],
    "door before a body": lambda: [
        raised(400, 22, 600, frame=60, recess=9, bevel=40, field=0),
        plain(400, 300, 300, (0, 22, 0)),
        plain(60, 20, 60, (170, -20, 270)),
    ],
    "glazed door and a shelf": lambda: [
        glazed(450, 22, 900, 55, (2, 3), 18), plain(400, 200, 20, (25, 5, 440))
    ],
    "raked back": lambda: [
        leaned(plain(300, 20, 400), 10, "back"), plain(340, 200, 25, (-20, -10, 60))
    ],
    "turned board on a board": lambda: [
        turned_piece(plain(300, 40, 100), 30), plain(400, 300, 20, (-30, -30, -20))
    ],
    "mirrored pair": lambda: [
        shaped(SABRE), mirrored(shaped(CABRIOLE), "left-right", (300, 0, 0)),
        plain(300, 30, 20, (10, 35, 400)),
    ],
}  # fmt: skip


@pytest.mark.parametrize("name", ALONE)
def test_a_shape_alone_has_the_areas_that_the_cad_kernel_says(name, worst_errors):
    compare(name, ALONE[name](), worst_errors)


@pytest.mark.parametrize("name", JOINED)
def test_a_joined_assembly_shows_what_the_cad_kernel_says(name, worst_errors):
    compare(name, JOINED[name](), worst_errors)


EDGES = {
    "all four": ("front", "back", "left", "right"),
    "three": ("front", "left", "right"),
    "front": ("front",),
    "corner": ("front", "right"),
}
EDGE_PROFILES = {
    "chamfer": profiles.edge_of(profiles.chamfer(6, 9), 24),
    "quarter round": profiles.edge_of(profiles.quarter_round(15), 24),
    "cove": profiles.edge_of(profiles.cove(15), 24),
    "bullnose": profiles.bead(24),
    "ogee": profiles.edge_of(profiles.ogee(12, 16), 24),
    "thumb": [[8, 0], [8, 8, 2], [5, 20], [2, 21], [2, 24]],
}


@pytest.mark.parametrize("edges", EDGES)
@pytest.mark.parametrize("name", EDGE_PROFILES)
def test_a_board_with_profiled_edges_has_the_areas_of_the_carved_solid(name, edges, worst_errors):
    """The solid stays square here; areas are compared with the true profiles cut in the CAD."""
    piece = worked_board(600, 400, 24, EDGE_PROFILES[name], EDGES[edges])
    whole, _, _ = cad_areas([piece])
    expected = {face: area for (_, face), area in whole.items()}
    assert expected == pytest.approx(piece.solid.area_mm2_of, rel=UNCUT)
    worst = max(abs(piece.solid.area_mm2_of[f] / a - 1) for f, a in expected.items())
    worst_errors["profiled edges"] = max(worst_errors["profiled edges"], worst)
