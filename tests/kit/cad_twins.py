"""Shapes under test, each with its twin built in the CAD kernel and the rule that names its faces.

Mitres are made there by cutting straight runs, not by the formula under test.
"""

import itertools
from dataclasses import dataclass

import numpy as np
from cad_kernel import (
    box,
    common,
    cut,
    fuse,
    line,
    moved,
    outline_wire,
    oval_wire,
    prism,
    side_of,
    span,
    wire,
)
from OCP.BRepBuilderAPI import (
    BRepBuilderAPI_MakeEdge,
    BRepBuilderAPI_MakeFace,
)
from OCP.BRepOffsetAPI import BRepOffsetAPI_ThruSections
from OCP.BRepPrimAPI import BRepPrimAPI_MakeRevol
from OCP.collections import Array1_gp_Pnt
from OCP.Geom import Geom_BezierCurve
from OCP.gp import gp_Ax1, gp_Dir, gp_Pnt

from shapes import lofts, mouldings, outline_boards, outlines, raised_panels, spindles, worked_edges
from shapes.boards import board

NEAR = 1e-5
"""mm: a point lies on a plane. Their intersections are good to 1e-7."""


@dataclass(frozen=True)
class Piece:
    """A part of an assembly: its solid here, its shape there, the rule that names its faces."""

    solid: object
    shape: object
    name: object
    at: tuple[float, float, float] = (0, 0, 0)


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
    tools += [prism(oval_wire(w, h, at, in_space, way), reach) for w, h, at in ovals]
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
    solid = worked_edges.profiled_board(width, depth, height, profile=profile, edges=edges)
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
        if np.abs(normal[:2]).max() > NEAR:
            return side_of(normal * (1, 1, 0))
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
    slopes: dict[int, tuple[float, float]] = {}
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
