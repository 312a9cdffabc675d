"""More forms of parts, each with its twin in the CAD kernel and the rule that names its faces."""

import itertools
import math

import numpy as np
from cad_kernel import (
    box,
    common,
    cut,
    fuse,
    line,
    moved,
    outline_wire,
    prism,
    side_of,
    wire,
)
from cad_twins import NEAR, WAYS, Piece, loft
from OCP.BRepBuilderAPI import (
    BRepBuilderAPI_GTransform,
    BRepBuilderAPI_MakeEdge,
    BRepBuilderAPI_MakeFace,
)
from OCP.BRepPrimAPI import (
    BRepPrimAPI_MakeBox,
    BRepPrimAPI_MakeCone,
    BRepPrimAPI_MakeCylinder,
    BRepPrimAPI_MakeRevol,
)
from OCP.collections import Array1_gp_Pnt
from OCP.Geom import Geom_BezierCurve
from OCP.gp import gp_Ax1, gp_Ax2, gp_Circ, gp_Dir, gp_GTrsf, gp_Pnt

from shapes.arched_panels import arched_frame, arched_panel
from shapes.cases import Bays, case
from shapes.dished_seats import dished
from shapes.drawers import LIPS, drawer
from shapes.outline_boards import outline_board
from shapes.rods import rod


def boxed_drawer(size, thick, lip=None, heights=(None, None), lip_thickness=None, at=(0, 0, 0)):
    """Return a drawer built there of a front, two sides, a back and a bottom.

    Args:
        size: width, depth, height.
        thick: of the front and of the boards.
        lip: by side.
        heights: of the sides and of the back.
        lip_thickness: of a front that is rebated.
        at: where it stands.
    """
    (width, depth, height), (front, wall) = size, thick
    solid = drawer(
        *size, front=front, board=wall, lip=lip, lip_thickness=lip_thickness,
        side_height=heights[0], back_height=heights[1],
    )  # fmt: skip
    left, right, top, bottom = ((lip or {}).get(side, 0) for side in LIPS)
    right, top = width - right, height - top
    sides = bottom + (heights[0] or top - bottom)
    back = bottom + (heights[1] or sides - bottom)
    thin = lip_thickness or front
    strips = [
        ((0, 0, 0), (left, thin, height)),
        ((right, 0, 0), (width, thin, height)),
        ((left, 0, top), (right, thin, height)),
        ((left, 0, 0), (right, thin, bottom)),
    ]
    boards = [
        *[box(*strip) for strip in strips if np.less(*strip).all()],
        box((left, 0, bottom), (right, front, top)),
        box((left, front, bottom), (left + wall, depth, sides)),
        box((right - wall, front, bottom), (right, depth, sides)),
        box((left + wall, depth - wall, bottom), (right - wall, depth, back)),
        box((left + wall, front, bottom), (right - wall, depth - wall, bottom + wall)),
    ]

    def name(middle, normal, _):
        side = side_of(normal)
        x, y, z = middle
        planes = {"left": x - left, "right": x - right, "back": y - depth, "bottom": z - bottom}
        if y < front + NEAR and side == "back":
            in_box = left < x < right and bottom < z < top
            return "inside" if in_box else "edge"
        if y < front:
            return "front" if side == "front" else "edge"
        if abs(planes.get(side, 1)) < NEAR:
            return side
        return "edge" if side == "top" and z > bottom + wall + NEAR else "inside"

    return Piece(solid, fuse(boards).Shape(), name, at)


def divided(size, wall, across, up, divider, opened=("front",), at=(0, 0, 0)):
    """Return a case in bays: there, a block less a box for each bay.

    Args:
        size: width, depth, height.
        wall: thickness of the walls.
        across: clear widths of all bays, from the left.
        up: clear heights, from the bottom.
        divider: thickness of partitions and shelves.
        opened: front, back or both.
        at: where it stands.
    """
    solid = case(*size, board=wall, open_sides=opened, bays=Bays(across[:-1], up[:-1], divider))
    front = -wall if "front" in opened else wall
    back = size[1] + (wall if "back" in opened else -wall)
    spans = []
    for clear in (across, up):
        ends = [wall + sum(clear[:k]) + k * divider for k in range(len(clear))]
        spans.append([(end, end + width) for end, width in zip(ends, clear, strict=True)])
    bays = [(x, z) for z in spans[1] for x in spans[0]]
    shape = cut(box((0, 0, 0), size), *[
        box((x[0], front, z[0]), (x[1], back, z[1])) for x, z in bays
    ])  # fmt: skip

    def name(middle, normal, _):
        side = side_of(normal)
        axis = int(np.abs(normal).argmax())
        if abs(middle[axis] - (size[axis] if normal[axis] > 0 else 0)) < NEAR:
            return "edge" if side in opened else side
        inside = [
            k for k, (x, z) in enumerate(bays, start=1)
            if x[0] - NEAR < middle[0] < x[1] + NEAR and z[0] - NEAR < middle[2] < z[1] + NEAR
        ]  # fmt: skip
        return f"inside {inside[0]}"

    return Piece(solid, shape, name, at)


def dished_seat(points, thickness, dish, deep, centre, holes=(), at=(0, 0, 0)):
    """Return a dished seat: there, a board less what a parabola sweeps around its axis, stretched.

    Args:
        points: outline, counter-clockwise, its box at the origin.
        thickness: of the board.
        dish: width and depth of the bowl.
        deep: how deep it is.
        centre: of the bowl.
        holes: outlines.
        at: where it stands.
    """
    solid = dished(outline_board(points, thickness, holes=holes), dish, deep, centre=centre)
    poles = Array1_gp_Pnt(1, 3)
    for number, (x, z) in enumerate(((0, -deep), (dish[0] / 4, -deep), (dish[0] / 2, 0)), start=1):
        poles.SetValue(number, gp_Pnt(float(x), 0.0, float(z)))
    parabola = BRepBuilderAPI_MakeEdge(Geom_BezierCurve(poles)).Edge()
    rim, top, bottom = (dish[0] / 2, 0, 0), (0, 0, 0), (0, 0, -deep)
    face = BRepBuilderAPI_MakeFace(wire([parabola, line(rim, top), line(top, bottom)])).Face()
    bowl = BRepPrimAPI_MakeRevol(face, gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(0, 0, 1))).Shape()
    stretch = gp_GTrsf()
    stretch.SetValue(2, 2, dish[1] / dish[0])
    bowl = BRepBuilderAPI_GTransform(bowl, stretch, True).Shape()
    board = prism(outline_wire(points, lambda u, v: (u, v, 0)), (0, 0, thickness))
    tools = [prism(outline_wire(hole, lambda u, v: (u, v, 0)), (0, 0, thickness)) for hole in holes]
    shape = cut(board, moved(bowl, (*centre, thickness)), *tools)

    def name(middle, normal, is_flat):
        if is_flat and abs(normal[2]) > 1 - NEAR:
            return "top" if normal[2] > 0 else "bottom"
        if abs(normal[2]) < NEAR:
            return "edge"
        return "dish"

    return Piece(solid, shape, name, at)


def bent(path, diameter, along="y", at=(0, 0, 0)):
    """Return a rod: there, cylinders cut at their mitres and parts of tori, all joined.

    Args:
        path: as for `shapes.rods.rod`, every rise a number.
        diameter: of the stock.
        along: as there.
        at: where it stands.
    """
    solid = rod(path, diameter, along=along)
    in_space = WAYS[along][0]
    normal = np.cross(in_space(1, 0), in_space(0, 1))
    pieces = []
    spans = list(itertools.pairwise(path))
    bends = [a[2] if len(a) > 2 else 0 for a, _ in spans]
    for number, (a, b) in enumerate(spans):
        if bends[number]:
            pieces.append(torus_part(a, b, bends[number], diameter, in_space))
            continue
        start, end = (np.array(in_space(*p[:2]), dtype=float) for p in (a, b))
        way = (end - start) / np.linalg.norm(end - start)
        ends = [start, end]
        cuts = []
        for k, other in ((0, number - 1), (1, number + 1)):
            if 0 <= other < len(spans) and not bends[other]:
                p, q = (np.array(in_space(*point[:2])) for point in spans[other])
                half = way + (q - p) / np.linalg.norm(q - p)
                cuts.append((ends[k], half if k else -half))
                ends[k] = ends[k] + (way if k else -way) * 3 * diameter
        piece = cylinder(ends[0], ends[1], diameter)
        for point, beyond in cuts:
            piece = cut(piece, half_space(point, beyond, normal))
        pieces.append(piece)
    shape = fuse(pieces).Shape() if len(pieces) > 1 else pieces[0]
    start, end = (np.array(in_space(*p[:2]), dtype=float) for p in (path[0], path[-1]))
    low = min_corner(shape, start, solid, in_space)

    def name(middle, _, is_flat):
        near = [np.linalg.norm(middle + low - p) < NEAR for p in (start, end)]
        return "ends" if is_flat and any(near) else "side"

    return Piece(solid, moved(shape, -low), name, at)


def min_corner(shape, start, solid, in_space):
    """Return where the origin of a rod's own box lies, by its first end."""
    number = next(k for k, patch in enumerate(solid.patches) if patch.face == "ends")
    ring = solid.vertices[np.unique(solid.triangles[solid.patch_of == number])] / 80_000
    return start - ring.mean(axis=0)


def cylinder(start, end, diameter):
    way = end - start
    axis = gp_Ax2(gp_Pnt(*map(float, start)), gp_Dir(*map(float, way)))
    return BRepPrimAPI_MakeCylinder(axis, diameter / 2, float(np.linalg.norm(way))).Shape()


def half_space(point, beyond, across):
    """Return a large box whose one face goes through a point, all of it beyond."""
    beyond = beyond / np.linalg.norm(beyond)
    beside = np.cross(beyond, across)
    corner = point - 500 * across - 500 * beside
    axis = gp_Ax2(gp_Pnt(*map(float, corner)), gp_Dir(*map(float, beyond)),
                  gp_Dir(*map(float, across)))  # fmt: skip
    side = np.cross(beyond, across)
    assert side @ beside > 0  # the third axis, so that the box lies around the point
    return BRepPrimAPI_MakeBox(axis, 1000.0, 1000.0, 1000.0).Shape()


def torus_part(a, b, rise, diameter, in_space):
    """Return what a disc sweeps along an arc, its rise to the right of the way."""
    first, last = np.array(a[:2], dtype=float), np.array(b[:2], dtype=float)
    chord = np.linalg.norm(last - first)
    signed = (chord**2 / 4 + rise**2) / (2 * rise)
    right = np.array([(last - first)[1], -(last - first)[0]]) / chord
    centre = (first + last) / 2 + right * (rise - signed)
    around = np.cross(in_space(1, 0), in_space(0, 1)) * np.sign(rise)
    turned = np.array([-(first - centre)[1], (first - centre)[0]]) * np.sign(rise)
    start, middle = np.array(in_space(*first)), np.array(in_space(*centre))
    ring = gp_Ax2(gp_Pnt(*map(float, start)), gp_Dir(*map(float, in_space(*turned))))
    edge = BRepBuilderAPI_MakeEdge(gp_Circ(ring, diameter / 2)).Edge()
    disc = BRepBuilderAPI_MakeFace(wire([edge])).Face()
    axis = gp_Ax1(gp_Pnt(*map(float, middle)), gp_Dir(*map(float, around)))
    return BRepPrimAPI_MakeRevol(disc, axis, 4 * math.atan(2 * abs(rise) / chord)).Shape()


def arched(size, frame, arch, *, recess=None, raise_by=None, raised_back=False, is_round=False,
           at=(0, 0, 0)):  # fmt: skip
    """Return a panel under an arch: there, a board less its openings, and a field built up in them.

    Args:
        size: width, thickness, height.
        frame: width of the frame.
        arch: rise of the arch.
        recess: how far the panel lies back, None for an opening right through.
        raise_by: bevel, field and step of a raised field.
        raised_back: whether it is raised on the back too.
        is_round: whether its outside is arched.
        at: where it stands.
    """
    width, depth, height = size
    half = width / 2 - frame
    radius = (half**2 + arch**2) / (2 * arch)
    low = height - frame - radius  # the middle of the arcs

    def region(inset, first, last):
        """Return the opening, set in, between two depths."""
        x, r = half - inset, radius - inset
        spring = low + math.sqrt(max(r * r - x * x, 0))
        left, right = width / 2 - x, width / 2 + x
        points = [(left, frame + inset), (right, frame + inset), (right, spring, low + r - spring),
                  (left, spring)]  # fmt: skip
        return prism(outline_wire(points, lambda u, v: (u, first, v)), (0, last - first, 0))

    board = region(-frame, 0, depth) if is_round else box((0, 0, 0), size)
    if recess is None:
        solid = arched_frame(*size, frame=frame, arch=arch, is_round=is_round)
        board = cut(board, region(0, -1, depth + 1))
    else:
        sizes = {}
        if raise_by:
            sizes = dict(zip(("bevel", "field", "step"), raise_by, strict=True))
        solid = arched_panel(*size, frame=frame, arch=arch, recess=recess, is_round=is_round,
                             raised_back=raised_back, **sizes)  # fmt: skip
        board = cut(board, region(0, 0, recess), region(0, depth - recess, depth))
        for is_back in (False, True)[: raise_by is not None and 1 + raised_back]:

            def level(y, is_back=is_back):
                return depth - y if is_back else y

            bevel, field, step = raise_by
            foot, top = level(recess), level(field + step)
            slopes = [
                outline_wire(
                    [(frame + k, frame + k), (width - frame - k, frame + k),
                     (width - frame - k, 2 * height), (frame + k, 2 * height)],
                    lambda u, v, y=y: (u, y, v),
                ) for k, y in ((0, foot), (bevel, top))
            ]  # fmt: skip
            axis = gp_Ax2(gp_Pnt(width / 2, foot, low), gp_Dir(0, top - foot, 0))
            cone = BRepPrimAPI_MakeCone(axis, radius, radius - bevel, abs(top - foot)).Shape()
            # the cone's own side, where the walls go straight down
            below = box((0, min(foot, top), -9), (width, max(foot, top), low))
            body = common(fuse([cone, below]).Shape(), loft(slopes))
            board = fuse([board, body]).Shape()
            if step:
                board = fuse([board, region(bevel, top, level(field))]).Shape()
    return Piece(solid, board, arched_name(size), at)


def arched_name(size):
    width, depth, height = size

    def name(middle, normal, _):
        if abs(normal[1]) < NEAR and abs(middle[1] - depth / 2) < NEAR:
            out = normal[0] * (middle[0] - width / 2) + normal[2] * (middle[2] - height / 2)
            return "edge" if out > 0 else "reveal"
        return "front" if middle[1] < depth / 2 else "back"

    return name
