"""Worked outlines and mouldings along them, here and in the CAD kernel.

There a worked edge is what lies behind its profile, run on far beyond both ends or turned about the
centre of its arc. The board is what all of them have in common; at an inner corner it is what
either of the two has. Mitres come of that by themselves.
"""

import itertools
import math
from functools import reduce

import numpy as np
from cad_kernel import box, common, cut, fuse, moved, outline_wire, prism
from cad_twins import NEAR, Piece, section_points
from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeFace
from OCP.BRepPrimAPI import BRepPrimAPI_MakeRevol
from OCP.gp import gp_Ax1, gp_Dir, gp_Pnt

from shapes import mouldings, outlines, worked_edges

FAR = 3000
"""mm: beyond every piece."""


def behind(start, end, profile, height):
    """Return the wood behind a profile, along the line from one outline point to the next.

    Args:
        start: [x, y] or [x, y, rise]; the wood is on the left of the way.
        end: the next point.
        profile: points (out, up), out being how far right of the line they lie.
        height: of the profile.
    """
    rise = start[2] if len(start) > 2 else 0
    a, b = np.array(start[:2], dtype=float), np.array(end[:2], dtype=float)
    way = (b - a) / math.hypot(*(b - a))
    out = np.array([way[1], -way[0]])
    if not rise:
        foot = a - FAR * way
        section = outline_wire(
            [*profile, [-FAR, height], [-FAR, 0]],
            lambda u, v: (*(foot + out * u), v),
        )
        return prism(section, (*(2 * FAR * way), 0))
    chord = math.hypot(*(b - a))
    radius = (chord * chord / 4 + rise * rise) / (2 * rise)
    centre = (a + b) / 2 + out * (rise - radius)
    inner = -radius if rise > 0 else -FAR
    section = outline_wire(
        [*profile, [inner, height], [inner, 0]],
        lambda u, v: (centre[0] + abs(radius + u), centre[1], v),
    )
    axis = gp_Ax1(gp_Pnt(float(centre[0]), float(centre[1]), 0.0), gp_Dir(0, 0, 1))
    return BRepPrimAPI_MakeRevol(BRepBuilderAPI_MakeFace(section).Face(), axis).Shape()


def joined(points, profiles, height, inner=()):
    """Return what is behind all profiles of an outline.

    Args:
        points: of the outline, counter-clockwise.
        profiles: one for the line from each point to the next.
        height: of all of them.
        inner: numbers, from 1, of points with an inner corner between straight lines.
    """
    pairs = itertools.pairwise([*points, points[0]])
    woods = [behind(*pair, p, height) for pair, p in zip(pairs, profiles, strict=True)]
    for number in inner:
        woods[number - 1] = fuse([woods[number - 2], woods[number - 1]]).Shape()
        woods[number - 2] = None
    return reduce(common, [wood for wood in woods if wood is not None])


def reach_of(profile):
    return float(outlines.polygon(section_points(profile)).box[1][0]) / 80_000


def worked(points, thickness, profile, edges=None, inner=(), at=(0, 0, 0)):
    """Return a board of an outline whose box is at the origin, some of its edges worked."""
    out = reach_of(profile)
    inset = [[p[0] - out, *p[1:]] for p in profile]
    square = [[0, 0], [0, thickness]]
    numbers = range(1, len(points) + 1)
    chosen = [inset if edges is None or k in edges else square for k in numbers]
    shape = joined(points, chosen, thickness, inner)
    # what runs on beyond the outline at its inner corners is no part of it
    shape = common(shape, prism(outline_wire(points, lambda u, v: (u, v, 0)), (0, 0, thickness)))
    solid = worked_edges.worked_outline(points, thickness, profile=profile, edges=edges)

    return Piece(solid, shape, edge_name(thickness), at)


def round_ended(length, depth, thickness, profile, at=(0, 0, 0)):
    """Return a board with two round ends, worked all round: there, two turned ends and a middle."""
    out, half = reach_of(profile), depth / 2
    points = [[half, 0], [length - half, 0, half], [length - half, depth], [half, depth, half]]
    inset = [[p[0] - out, *p[1:]] for p in profile]
    pairs = list(itertools.pairwise([*points, points[0]]))
    front, right, back, left = (behind(*pair, inset, thickness) for pair in pairs)
    room = box((half, 0, 0), (length - half, depth, thickness))
    middle = common(common(front, back), room)
    ends = [
        common(end, box((low, 0, 0), (high, depth, thickness)))
        for end, low, high in ((left, 0, half), (right, length - half, length))
    ]
    shape = fuse([middle, *ends]).Shape()
    solid = worked_edges.worked_outline(points, thickness, profile=profile)
    return Piece(solid, shape, edge_name(thickness), at)


def round_topped(width, height, thickness, profile, at=(0, 0, 0)):
    """Return a board with one round end, worked there alone: there, a turned end and a square."""
    out, half = reach_of(profile), width / 2
    points = [[0, 0], [width, 0], [width, height, half], [0, height]]
    inset = [[p[0] - out, *p[1:]] for p in profile]
    end = common(
        behind(points[2], points[3], inset, thickness),
        box((0, height, 0), (width, height + half, thickness)),
    )
    shape = fuse([box((0, 0, 0), (width, height, thickness)), end]).Shape()
    solid = worked_edges.worked_outline(points, thickness, profile=profile, edges=[3])
    return Piece(solid, shape, edge_name(thickness), at)


def edge_name(thickness):
    def name(middle, normal, _):
        if abs(normal[2]) > 1 - NEAR and min(middle[2], thickness - middle[2]) < NEAR:
            return "top" if normal[2] > 0 else "bottom"
        return "edge"

    return name


def along(points, profile, inside=False, at=(0, 0, 0)):
    """Return a moulding around a convex outline, or inside of it, its box at the origin."""
    height, out = profile[-1][1], reach_of(profile)
    sawn = prism(outline_wire(points, lambda u, v: (u, v, 0)), (0, 0, height))
    solid = mouldings.moulding_around(points, profile, inside=inside)
    if inside:
        hollow = joined(
            points,
            [[[-p[0], *[p[1]], *[-r for r in p[2:]]] for p in profile]] * len(points),
            height,
        )
        shape, shift = cut(sawn, hollow), np.zeros(2)
    else:
        shape = cut(joined(points, [profile] * len(points), height), sawn)
        shift = np.array([out, out])
    middle_of = outlines.polygon(points).box.mean(axis=0) / 80_000

    def name(middle, normal, is_flat):
        if is_flat and abs(normal[2]) > 1 - NEAR:
            for level, end in ((0, "bottom"), (height, "top")):
                if abs(middle[2] - level) < NEAR and (normal[2] > 0) == (level > 0):
                    return end
        is_outward = float(normal[:2] @ (middle[:2] - shift - middle_of)) > 0
        return "face" if is_outward != inside else "back"

    return Piece(solid, moved(shape, (*shift, 0)), name, at)
