"""Mouldings: a profile run along a straight line, around a box, inside a frame, or along a curve.

The area of a mitred run is exact: each point of the profile runs as far as its own projection
reaches, so a strip of girth ds at projection `out` has the area (length + k out) ds, and the
integral of that is length x girth + k x moment of the profile about its back.
"""

import manifold3d
import numpy as np

from shapes.grid import size_units, to_mm, to_mm2
from shapes.offset_paths import Path, path_through, ring_path
from shapes.outline_boards import as_ring
from shapes.outlines import Points, Ring, rectangle
from shapes.profiles import ProfileSection, section
from shapes.solids import Floats, Patch, Solid
from shapes.sweeps import PROFILE_SIDES, Sweep
from shapes.tolerances import CURVE_SEGMENTS
from shapes.transforms import laid

FACES = ("face", "back", "top", "bottom", "ends")


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
    cut, run = section(profile), to_mm(size_units("length", length))
    return _along(cut, path_through([[0.0, 0.0], [run, 0.0]], "length"))


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
    cut = section(profile)
    wide, deep = (to_mm(size_units(name, mm)) for name, mm in (("width", width), ("depth", depth)))
    if all_round:
        return _along(cut, ring_path(rectangle(wide, deep)))
    around = [[0.0, deep], [0.0, 0.0], [wide, 0.0], [wide, deep]]
    return _along(cut, path_through(around, "around"))


def moulding_around(
    outline: Ring | Points, profile: Points, *, inside: bool = False, lies: str = "z"
) -> Solid:
    """Return a moulding that follows an outline all round, mitred at its corners.

    Args:
        outline: a ring of `shapes.outlines`, or points [x, y] or [x, y, rise] [mm]: of the solid
            that it runs around, or of the opening that it runs inside of.
        profile: as `shapes.profiles` says.
        inside: whether it runs inside the outline, as along the sticking of a frame.
        lies: "z": the outline is seen from above; "y": from the front, and the profile's top
            looks to the front; "x": from the right, and its top looks to the right.

    Returns:
        A solid with the faces face, back (against the outline), top and bottom (of the profile).

    Raises:
        ShapeError: an outline that crosses itself, a profile that breaks a rule or is too deep for
            an arc, an edge or the opening.

    Source: length x girth, more or less 2 pi x moment for a line that has no corners, and mitres as
    above; elementary.

    >>> from shapes.profiles import chamfer
    >>> from shapes.outlines import circle
    >>> ring = moulding_around(circle(100), chamfer(3, 4))  # 5 x pi x (100 + 3)
    >>> round(ring.area_mm2_of["face"], 6)
    1617.920217
    """
    path = ring_path(as_ring(outline, "outline"), inward=inside)
    return laid(_along(_section(profile, path), path), lies)


def moulding_along(line: Points, profile: Points, *, lies: str = "z") -> Solid:
    """Return a moulding that follows an open line, such as an arch, on the right of its way.

    Args:
        line: points [x, y] or [x, y, rise] [mm]; a rise above 0 bends to the right.
        profile: as `shapes.profiles` says.
        lies: as of `moulding_around`.

    Returns:
        A solid with the faces face, back (against the line), top, bottom and ends.

    Raises:
        ShapeError: a line that crosses itself, a profile that breaks a rule or is too deep for an
            arc or an edge.

    >>> from shapes.profiles import chamfer
    >>> arch = moulding_along([[0, 0, 50], [100, 0]], chamfer(3, 4))  # 5 x pi x 51.5
    >>> round(arch.area_mm2_of["face"], 6)
    808.960108
    """
    path = path_through(line, "line")
    return laid(_along(_section(profile, path), path), lies)


def _section(profile: Points, path: Path) -> ProfileSection:
    is_curved = bool(path.is_curved.any())
    return section(profile, sides=PROFILE_SIDES if is_curved else CURVE_SEGMENTS)


def _along(cut: ProfileSection, path: Path) -> Solid:
    """Return a section carried along a path, its box at the origin."""
    path.check(np.array([0.0, cut.reach]))
    ring = cut.ring
    sweep = Sweep(path, ring, len(ring.points), 0.0)
    corners = sweep.corners[:-1]  # the last one is the first again
    levels, stations = corners.shape[:2]
    numbers = np.arange(levels * stations).reshape(levels, stations)
    triangles, patch_of = sweep.strips(np.concatenate([numbers, numbers[:1]]))
    patches = sweep.patches([list(cut.names)] * len(path.ways))
    if not path.is_closed:
        cap = np.array(manifold3d.triangulate([sweep.profile[:-1]], -1.0), dtype=np.int64)
        ends = [numbers[cap, 0], numbers[cap[:, ::-1], stations - 1]]
        patch_of = np.concatenate([patch_of, len(patches) + np.repeat([0, 1], len(cap))])
        triangles = np.concatenate([triangles, *ends])
        patches += [_end(ring, -path.ways[0]), _end(ring, path.last_way)]
    low, high = _box(path, cut.reach)
    vertices = corners.reshape(-1, 3) - [*low, 0.0]
    order = sorted(range(len(patches)), key=lambda number: FACES.index(patches[number].face))
    listed = tuple(patches[number] for number in order)
    width, depth = (round(float(side)) for side in high - low)
    return Solid(
        vertices, triangles, np.argsort(order)[patch_of], listed, (width, depth, cut.height)
    )


def _end(ring: Ring, way: Floats) -> Patch:
    return Patch("ends", to_mm2(ring.area), (float(way[0]) + 0.0, float(way[1]) + 0.0, 0.0))


def _box(path: Path, reach: float) -> tuple[Floats, Floats]:
    """Return where the box of a moulding starts and ends, on whole grid lines."""
    boxes = [path.box(0.0), path.box(reach)]
    low, high = np.min(boxes, axis=0)[0], np.max(boxes, axis=0)[1]
    return np.round(low), np.round(high)


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
