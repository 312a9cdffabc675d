"""Mouldings: a profile run along a straight line or mitred around a box; profiled board edges.

The area of a mitred run is exact: each point of the profile runs as far as its own projection
reaches, so a strip of girth ds at projection `out` has the area (length + k out) ds, and the
integral of that is length x girth + k x moment of the profile about its back.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace

import manifold3d
import numpy as np

from shapes.boards import board
from shapes.errors import ShapeError
from shapes.grid import size_units, to_mm, to_mm2
from shapes.outline_boards import edge_normals, walls
from shapes.outlines import Points
from shapes.profiles import ProfileSection, section
from shapes.solids import Floats, Ints, Patch, Solid

FACES = ("face", "back", "top", "bottom", "ends")
EDGES = ("front", "back", "left", "right")


@dataclass(frozen=True)
class _Run:
    """One straight run between two stations.

    Attributes:
        length: along the back [grid units].
        growth: how much longer it gets for each unit that it stands out.
        out: the direction in which it stands out, x and y.
    """

    length: int
    growth: int
    out: tuple[float, float]


def moulding(length: float, profile: Points) -> Solid:
    """Return a straight moulding that runs along x, its profiled side to the front.

    Args:
        length: along x [mm].
        profile: as `shapes.profiles` says; its projection is the depth, its height the height.

    Returns:
        A solid with the faces face (the profiled side), back, top and bottom (where the profile
        stands out there) and ends.

    Raises:
        ShapeError: a length out of range, or a profile that breaks a rule.

    Source: girth times length, elementary.

    >>> from shapes.profiles import quarter_round
    >>> round(moulding(1000, quarter_round(20)).area_mm2_of["face"], 3)  # 10 pi x 1000
    31415.927
    """
    cut, run = section(profile), size_units("length", length)
    back = np.array([[0.0, cut.out], [run, cut.out]])
    way = np.array([[0.0, -1.0], [0.0, -1.0]])
    size = (run, cut.out, cut.height)
    return _swept(cut, [_Run(run, 0, (0.0, -1.0))], (back, way), size)


def mitred_moulding(
    width: float, depth: float, profile: Points, *, all_round: bool = False
) -> Solid:
    """Return a moulding mitred around the left, front and right of a box, its back against it.

    Args:
        width: of the box, along x [mm].
        depth: of the box, along y [mm].
        profile: as `shapes.profiles` says.
        all_round: along the back of the box too.

    Returns:
        A solid with the faces face (the profiled sides), back (against the box), top, bottom, and
        ends (towards the back of the box; none if all round). Its own box is wider than the given
        one by the projection on each side that it runs along.

    Raises:
        ShapeError: a size out of range, or a profile that breaks a rule.

    Source: (width + 2 depth) x girth + 4 x moment about the back; all round 2 (width + depth) x
    girth + 8 x moment; Pappus for the corners, elementary.

    >>> from shapes.profiles import chamfer
    >>> around = mitred_moulding(100, 50, chamfer(3, 4))  # girth 5, moment 5 x 1.5
    >>> round(around.area_mm2_of["face"], 9), around.size_mm
    (1030.0, (106.0, 53.0, 4.0))
    """
    cut, wide, deep = section(profile), size_units("width", width), size_units("depth", depth)
    out = cut.out
    left, right, front, rear = out, out + wide, out, out + deep
    runs = [_Run(deep, 1, (-1.0, 0.0)), _Run(wide, 2, (0.0, -1.0)), _Run(deep, 1, (1.0, 0.0))]
    back = np.array([[left, rear], [left, front], [right, front], [right, rear]], dtype=np.float64)
    way = np.array([[-1.0, 0.0], [-1.0, -1.0], [1.0, -1.0], [1.0, 0.0]])
    size = (wide + 2 * out, deep + out * (2 if all_round else 1), cut.height)
    if all_round:
        runs = [_Run(run.length, 2, run.out) for run in runs] + [_Run(wide, 2, (0.0, 1.0))]
        way[:, 1] = [1.0, -1.0, -1.0, 1.0]
    return _swept(cut, runs, (back, way), size)


def _swept(
    cut: ProfileSection,
    runs: list[_Run],
    stations: tuple[Floats, Floats],
    size: tuple[int, int, int],
) -> Solid:
    """Return a section carried from station to station, around and closed if there is a last run.

    Args:
        cut: the section.
        runs: between the stations; as many as stations if the last leads back to the first.
        stations: where the back stands, x and y, and where it goes for each unit out.
        size: of the box [grid units].
    """
    back, way = stations
    ring = cut.ring.points
    count, turns = len(ring), len(back)
    plan = back[:, None] + way[:, None] * ring[None, :, :1]
    heights = np.broadcast_to(ring[None, :, 1:], (turns, count, 1))
    vertices = np.concatenate([plan, heights], axis=2).reshape(-1, 3)
    groups = [_strips(ring, k, (k + 1) % turns) for k in range(len(runs))]
    patches = [patch for run in runs for patch in _strip_patches(cut, run)]
    patch_of = [np.repeat(np.arange(len(patches)), 2)]
    if len(runs) < turns:
        cap = np.array(manifold3d.triangulate([ring], -1.0), dtype=np.int64)
        groups += [cap, cap[:, ::-1] + count * (turns - 1)]
        patch_of.append(len(patches) + np.repeat([0, 1], len(cap)))
        patches += [_end(cut, runs[0], -1.0), _end(cut, runs[-1], 1.0)]
    order = sorted(range(len(patches)), key=lambda number: FACES.index(patches[number].face))
    numbers = np.argsort(order)[np.concatenate(patch_of)]
    listed = tuple(patches[number] for number in order)
    return Solid(vertices, np.concatenate(groups), numbers, listed, size)


def _strips(ring: Floats, start: int, end: int) -> Ints:
    """Return the triangles, two for each edge of the ring, from one station to another."""
    count = len(ring)
    between = walls([ring])
    return np.where(between < count, between + end * count, between + (start - 1) * count)


def _strip_patches(cut: ProfileSection, run: _Run) -> list[Patch]:
    ring = cut.ring
    areas = run.length * ring.lengths + run.growth * ring.moments[:, 0]
    patches = []
    for name, area, (out, up), curved in zip(
        cut.names, areas, edge_normals(ring.points), ring.is_curved, strict=True
    ):
        normal = (float(out * run.out[0]) + 0.0, float(out * run.out[1]) + 0.0, float(up))
        patches.append(Patch(name, to_mm2(float(area)), None if curved else normal))
    return patches


def _end(cut: ProfileSection, run: _Run, sign: float) -> Patch:
    x, y = -sign * run.out[1] + 0.0, sign * run.out[0] + 0.0
    return Patch("ends", to_mm2(cut.ring.area), (x, y, 0.0))


def extra_girth(profile: Points) -> float:
    """Return how much longer a profiled edge is than a square one of the same height [mm].

    Below 0 for most round edges, because they cut the corner off; what the top and bottom of the
    board lose is not in it. `profiled_board` counts all of it.

    Raises:
        ShapeError: as `shapes.profiles.section` says.

    >>> from shapes.profiles import bead
    >>> round(extra_girth(bead(20)), 6)  # 10 pi - 20
    11.415927
    """
    cut = section(profile)
    return to_mm(cut.total(cut.ring.lengths) - cut.height)


def profiled_board(
    width: float,
    depth: float,
    height: float,
    *,
    profile: Points,
    edges: Iterable[str] = ("front", "left", "right"),
) -> Solid:
    """Return a board with a profile worked on some of its edges, its solid left square.

    The solid is the square board, so what touches it hides what it would hide of that; the areas
    are those of the profiled board, mitred where two such edges meet.

    Args:
        width: along x, over all [mm].
        depth: along y, over all [mm].
        height: along z [mm].
        profile: of the whole edge, as high as the board; see `shapes.profiles.edge_of`.
        edges: which are profiled, of front, back, left and right.

    Returns:
        A solid with the faces front, back, left, right, top and bottom; a profiled edge belongs to
        its side.

    Raises:
        ShapeError: a size out of range, a profile that is not as high as the board or too deep for
            it, an unknown edge.

    Source: run times girth less the inset, as for a mitre; elementary.

    >>> from shapes.profiles import bead
    >>> round(profiled_board(600, 400, 20, profile=bead(20)).area_mm2_of["front"], 3)
    18621.237
    """
    square, cut = board(width, depth, height), section(profile)
    chosen = frozenset(edges)
    unknown = sorted(chosen - set(EDGES))
    if unknown:
        raise ShapeError("edges", f"edges of {', '.join(EDGES)}, not {unknown[0]}")
    if cut.height != square.size[2]:
        raise ShapeError("profile", "as high as the board", to_mm(cut.height), height)
    deepest = cut.reach - min(cut.foot, cut.head, _least_out(cut))
    for axis, name in ((0, "width"), (1, "depth")):
        if 2 * deepest >= square.size[axis]:
            limit = to_mm(square.size[axis]) / 2
            raise ShapeError("profile", f"less deep than half of the {name}", to_mm(deepest), limit)
    areas = _profiled_areas(cut, square.size, chosen)
    patches = tuple(replace(patch, area_mm2=areas[patch.face]) for patch in square.patches)
    return replace(square, patches=patches)


def _least_out(cut: ProfileSection) -> float:
    worked = [name == "face" for name in cut.names]
    return float(cut.ring.points[worked, 0].min())


def _profiled_areas(
    cut: ProfileSection, size: tuple[int, int, int], chosen: frozenset[str]
) -> dict[str, float]:
    """Return the area of each side [mm2]."""
    girth, moment = (cut.total(cut.ring.lengths), cut.total(cut.ring.moments[:, 0]))
    inset_moment = cut.reach * girth - moment
    lost = cut.reach * cut.height - cut.ring.area
    areas = {}
    for names, beside, length in ((EDGES[:2], EDGES[2:], size[0]), (EDGES[2:], EDGES[:2], size[1])):
        mitres = len(chosen & set(beside))
        for name in names:
            worked = length * girth - mitres * inset_moment
            square = length * cut.height - mitres * lost
            areas[name] = to_mm2(worked if name in chosen else square)
    for name, at_end in (("top", cut.head), ("bottom", cut.foot)):
        inset = cut.reach - at_end
        across = size[0] - inset * len(chosen & set(EDGES[2:]))
        along = size[1] - inset * len(chosen & set(EDGES[:2]))
        areas[name] = to_mm2(across * along)
    return areas
