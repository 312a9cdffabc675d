"""More forms of legs, each with its twin in the CAD kernel and the rule that names its faces."""

import itertools
import math

import numpy as np
from cad_kernel import (
    area_and_middle,
    box,
    common,
    cut,
    faces_of,
    line,
    moved,
    normal_of,
    outline_wire,
    prism,
    side_of,
    transformed,
    wire,
)
from cad_twins import NEAR, Piece, loft
from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeFace
from OCP.BRepPrimAPI import (
    BRepPrimAPI_MakeRevol,
)
from OCP.gp import gp_Ax1, gp_Dir, gp_Pnt, gp_Quaternion, gp_Trsf, gp_Vec

from shapes.chamfered_legs import chamfered_leg, octagonal_leg
from shapes.splayed_legs import splayed_leg, splayed_round_leg, splayed_turned_leg


def splayed(profile, splay, height=None, depth=None, is_round=True, at=(0, 0, 0)):
    """Return a leg leaned there from the upright by the shortest turn, and cut by two levels.

    Args:
        profile: [height, diameter or width] along the stick; its end lines are run on.
        splay: where the foot goes, in degrees.
        height: straight up, for a stick of two points whose length follows from it.
        depth: of a square one at its top.
        is_round: whether it is turned.
        at: where it stands.
    """
    slope = [
        math.tan(math.radians(splay.get(a, 0) - splay.get(b, 0)))
        for a, b in (("left", "right"), ("front", "back"))
    ]
    way = np.array([*slope, 1]) / math.hypot(*slope, 1)
    if is_round and height is None:
        solid = splayed_turned_leg(profile, splay=splay)
    elif is_round:
        solid = splayed_round_leg(height, profile[-1][1], splay=splay)
    else:
        top, foot = profile[-1][1], profile[0][1]
        solid = splayed_leg(height, top, depth, splay=splay, foot=foot)
    if height is not None:
        profile = [[0, profile[0][1]], [height / way[2], profile[-1][1]]]
    height = solid.size_mm[2]
    longer = run_on(profile, 60)
    if is_round:
        stick = turned_stick(longer)
    else:
        ratio = 1 if depth is None else depth / profile[-1][1]
        stick = loft([level_rectangle(w, w * ratio, z) for z, w in longer])
    trsf = gp_Trsf()
    trsf.SetRotation(gp_Quaternion(gp_Vec(0, 0, 1), gp_Vec(*map(float, way))))
    shape = common(transformed(stick, trsf), box((-900, -900, 0), (900, 900, height)))
    shape = moved(shape, middle_below(solid) - middle_of_bottom(shape))

    def name(middle, normal, is_flat):
        if is_flat and abs(abs(normal[2]) - 1) < NEAR and min(middle[2], height - middle[2]) < NEAR:
            return "top" if normal[2] > 0 else "bottom"
        if is_round:
            return "side"
        upright = gp_Vec(*map(float, normal)).Transformed(trsf.Inverted())
        return side_of(np.array([upright.X(), upright.Y(), 0]))

    return Piece(solid, shape, name, at)


def run_on(profile, by):
    """Return a profile whose two end lines are run on."""
    (a, b), (c, d) = profile[:2], profile[-2:]
    below, above = ((p[1] - q[1]) / (p[0] - q[0]) for p, q in ((a, b), (c, d)))
    low = [a[0] - by, a[1] - by * below]
    return [low, *profile[1:-1], [d[0] + by, d[1] + by * above]]


def turned_stick(profile):
    points = [(0, 0, profile[0][0]), *[(d / 2, 0, z) for z, d in profile], (0, 0, profile[-1][0])]
    edges = [line(a, b) for a, b in itertools.pairwise([*points, points[0]])]
    face = BRepBuilderAPI_MakeFace(wire(edges)).Face()
    return BRepPrimAPI_MakeRevol(face, gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(0, 0, 1))).Shape()


def level_rectangle(width, depth, z):
    x, y = width / 2, depth / 2
    return outline_wire([(-x, -y), (x, -y), (x, y), (-x, y)], lambda u, v: (u, v, z))


def middle_below(solid):
    """Return the middle of the bottom of a solid."""
    numbers = [k for k, patch in enumerate(solid.patches) if patch.face == "bottom"]
    corners = solid.vertices[solid.triangles[np.isin(solid.patch_of, numbers)]] / 80_000
    crossed = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])[:, 2]
    return (corners.mean(axis=1) * crossed[:, None]).sum(axis=0) / crossed.sum()


def middle_of_bottom(shape):
    for face in faces_of(shape):
        normal, is_flat = normal_of(face)
        _, middle = area_and_middle(face)
        if is_flat and normal[2] < NEAR - 1 and abs(middle[2]) < NEAR:
            return middle
    raise AssertionError("nothing stands on the floor")


def octagonal(height, width, foot=None, at=(0, 0, 0)):
    """Return an octagonal post: there, what two square posts have in common, one turned by 45."""
    solid = octagonal_leg(height, width, foot=foot)
    square = loft([level_rectangle(w, w, z) for w, z in ((foot or width, 0), (width, height))])
    trsf = gp_Trsf()
    trsf.SetRotation(gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(0, 0, 1)), math.pi / 4)
    middle = solid.size_mm[0] / 2
    shape = moved(common(square, transformed(square, trsf)), (middle, middle, 0))
    return Piece(solid, shape, post_name(height), at)


def chamfered(size, chamfer, stops=None, length=0, is_tongue=False, at=(0, 0, 0)):
    """Return a chamfered post: there, a block less what the chisel takes off each corner."""
    width, depth, height = size
    solid = chamfered_leg(
        height, width, depth, chamfer=chamfer, stops=stops, stop_length=length, is_tongue=is_tongue
    )
    low, high = stops or (0, height)
    sunk = chamfer / math.sqrt(2)
    # the line of the cut: along the post, and how deep below the corner
    line_of_cut = [*stop_points(low, length, sunk, is_tongue, low > 0)]
    falling = stop_points(low, length, sunk, is_tongue, high < height)
    line_of_cut += [(low + high - p[0], *p[1:]) for p in mirrored_points(falling)]
    line_of_cut = [p for k, p in enumerate(line_of_cut) if k == 0 or p != line_of_cut[k - 1]]
    points = [*line_of_cut, (high, -5), (low, -5)]
    tools = []
    for corner, way in (((0, 0), (1, 1)), ((width, 0), (-1, 1)),
                        ((width, depth), (-1, -1)), ((0, depth), (1, -1))):  # fmt: skip
        into = np.array([*way, 0]) / math.sqrt(2)
        across = np.array([-way[1], way[0], 0]) / math.sqrt(2)
        start = np.array([*corner, 0]) - across * 2 * chamfer

        def in_space(up, below, start=start, into=into):
            return start + into * below + np.array([0, 0, up])

        tools.append(prism(outline_wire(points, in_space), across * 4 * chamfer))
    return Piece(solid, cut(box((0, 0, 0), size), *tools), post_name(height), at)


def stop_points(at, length, sunk, is_tongue, has_stop):
    """Return the points (height, depth, rise) of a cut from its lower end to its full depth."""
    if not has_stop:
        return [(at, sunk)]
    if not is_tongue:
        return [(at, 0), (at + length, sunk)]
    # two arcs that run along the post at both ends: radius from the angle at which they meet
    angle = 2 * math.atan(sunk / length)
    rise = length / 2 / math.sin(angle) * (1 - math.cos(angle / 2))
    return [(at, 0, rise), (at + length / 2, sunk / 2, -rise), (at + length, sunk)]


def mirrored_points(points):
    """Return points in the other direction, each rise with the point that then begins it."""
    rises = [list(point[2:]) for point in points[:-1]]
    turned = [list(point[:2]) for point in reversed(points)]
    return [point + rise for point, rise in zip(turned, [*reversed(rises), []], strict=True)]


def post_name(height):
    def name(middle, normal, is_flat):
        if is_flat and abs(abs(normal[2]) - 1) < NEAR and min(middle[2], height - middle[2]) < NEAR:
            return "top" if normal[2] > 0 else "bottom"
        level = np.abs(normal[:2]) / np.hypot(*normal[:2]) if abs(normal[2]) < 0.9 else np.zeros(2)
        return side_of(normal * (1, 1, 0)) if level.max() > 0.95 else "chamfer"

    return name
