"""Outline boards: boards sawn to an outline, with holes right through.

Round tops, arched aprons, bow fronts, hand holes, pierced slats. A board lies flat (its outline
seen from above), stands across the piece (seen from the front) or stands along it (seen from the
right).
"""

from collections.abc import Mapping, Sequence

import manifold3d
import numpy as np

from shapes.errors import ShapeError
from shapes.grid import size_units, to_mm2
from shapes.outlines import Points, Ring, moved, polygon
from shapes.solids import Floats, Ints, Patch, Solid
from shapes.transforms import laid

FACES = ("top", "bottom", "front", "back", "right", "left", "edge", "hole")


ENDS = {"z": ("top", "bottom"), "y": ("front", "back"), "x": ("right", "left")}
"""Names of the two flat faces by the direction of the thickness, the outer one first."""


def outline_board(
    outline: Ring | Points,
    thickness: float,
    *,
    holes: Sequence[Ring | Points] = (),
    along: str = "z",
    named: Mapping[str, Sequence[int]] | None = None,
) -> Solid:
    """Return a board of an outline, with holes.

    Args:
        outline: a ring of `shapes.outlines`, or points [x, y] or [x, y, rise] [mm]. For a board
            along y its second axis is z; along x its axes are y and z.
        thickness: along the direction [mm].
        holes: rings or points in the axes of the outline.
        along: direction of the thickness: "z" lies flat, "y" stands and shows its outline to the
            front, "x" stands and shows it to the right.
        named: faces of their own for parts of the edge: name to numbers of the outline's points,
            from 1, whose line to the next point is meant: {"bow": [2]}.

    Returns:
        A solid with the faces top and bottom (along z), front and back (along y) or right and
        left (along x); edge; hole (the edges of all holes); and the faces named.

    Raises:
        ShapeError: a size out of range, an outline that crosses itself, a hole that is not clear
            of the outline and of the others, an unknown direction, a point named that is not there.

    Source: area enclosed, and length times thickness; see `shapes.outlines`.

    >>> from shapes.outlines import oval
    >>> tray = outline_board([[0, 0], [500, 0], [500, 300], [0, 300]], 12, holes=[
    ...     oval(90, 30, centre=(250, 260))])
    >>> tray.area_mm2_of["edge"], round(tray.area_mm2_of["hole"], 3)
    (19200.0, 2405.681)
    """
    if along not in ENDS:
        raise ShapeError("along", f"one of {', '.join(ENDS)}")
    outer = as_ring(outline, "outline")
    inner = [as_ring(hole, f"hole {number}") for number, hole in enumerate(holes, start=1)]
    check_holes(outer, inner)
    rings = at_origin([outer, *inner])
    face_of = point_faces(outer, named or {})
    names = [face_of[number] for number in outer.source.tolist()]
    return laid(_prism(rings, size_units("thickness", thickness), ENDS[along], names), along)


def at_origin(rings: Sequence[Ring]) -> list[Ring]:
    """Return rings moved so that the box of the first starts at the origin."""
    x, y = (-np.round(rings[0].box[0])).tolist()
    return [moved(ring, (x, y)) for ring in rings]


def point_faces(outer: Ring, named: Mapping[str, Sequence[int]]) -> list[str]:
    """Return the face of the line from each given point of an outline to the next.

    Raises:
        ShapeError: a point named that is not there.
    """
    face_of = {number: face for face, numbers in named.items() for number in numbers}
    points = int(outer.source.max()) + 1
    for number in face_of:
        if not 1 <= number <= points:
            raise ShapeError("named", f"numbers of the outline's points, 1 to {points}: {number}")
    return [face_of.get(number, "edge") for number in range(1, points + 1)]


def as_ring(outline: Ring | Points, argument: str) -> Ring:
    """Return a ring as it is, and points as a ring.

    Raises:
        ShapeError: as `shapes.outlines.polygon` says.
    """
    return outline if isinstance(outline, Ring) else polygon(outline, argument)


def check_holes(outer: Ring, holes: Sequence[Ring]) -> None:
    """Check that holes lie inside an outline, apart from it and from each other.

    Raises:
        ShapeError: naming the first hole that does not.
    """
    if not holes:
        return
    import shapely

    around = shapely.Polygon(outer.points)
    shapes = [shapely.Polygon(hole.points) for hole in holes]
    for number, hole in enumerate(shapes, start=1):
        if not around.contains_properly(hole):
            raise ShapeError("holes", f"inside the outline and clear of its edge: hole {number}")
        for before, other in enumerate(shapes[: number - 1], start=1):
            if not hole.disjoint(other):
                raise ShapeError("holes", f"clear of each other: hole {before} and hole {number}")


def edge_normals(points: Floats) -> Floats:
    """Return the unit normals, to the right of the way, of a polygon's edges, shape (n, 2)."""
    way = np.roll(points, -1, axis=0) - points
    turned = np.stack([way[:, 1], -way[:, 0]], axis=1)
    normals: Floats = turned / np.hypot(way[:, 0], way[:, 1])[:, None] + 0.0
    return normals


def _prism(rings: list[Ring], thickness: int, ends: tuple[str, str], names: list[str]) -> Solid:
    """Return the solid, lying flat, of an outline and holes [grid units]."""
    loops = [rings[0].points, *[ring.points[::-1] for ring in rings[1:]]]
    flat = np.concatenate(loops)
    count = len(flat)
    cap = np.array(manifold3d.triangulate(loops, -1.0), dtype=np.int64)
    triangles = np.concatenate([cap + count, cap[:, ::-1], walls(loops)])
    area = to_mm2(rings[0].area - sum(ring.area for ring in rings[1:]))
    patches = [Patch(ends[0], area, (0.0, 0.0, 1.0)), Patch(ends[1], area, (0.0, 0.0, -1.0))]
    patches += _edge_patches(rings[0], thickness, names)
    for ring in rings[1:]:
        patches += hole_patches(ring, thickness)
    patch_of = np.concatenate([np.repeat([0, 1], len(cap)), np.repeat(np.arange(2, count + 2), 2)])
    heights = np.repeat([0.0, float(thickness)], count)
    vertices = np.column_stack([np.tile(flat, (2, 1)), heights])
    width, depth = (round(float(end)) for end in rings[0].box[1])
    return Solid(vertices, triangles, patch_of, tuple(patches), (width, depth, thickness))


def walls(loops: Sequence[Floats]) -> Ints:
    """Return the triangles, two for each edge, between loops and the same loops numbered on."""
    starts = np.cumsum([0, *[len(loop) for loop in loops]])
    count = int(starts[-1])
    here = np.arange(count)
    after = np.concatenate(
        [
            start + np.roll(np.arange(len(loop)), -1)
            for start, loop in zip(starts[:-1], loops, strict=True)
        ]
    )
    pairs = np.stack([[here, after, after + count], [here, after + count, here + count]])
    triangles: Ints = pairs.transpose(2, 0, 1).reshape(-1, 3)
    return triangles


def _edge_patches(ring: Ring, thickness: int, names: Sequence[str]) -> list[Patch]:
    rows = zip(names, ring.lengths, edge_normals(ring.points), ring.is_curved, strict=True)
    return [_upright(name, length * thickness, way, curved) for name, length, way, curved in rows]


def hole_patches(ring: Ring, thickness: int) -> list[Patch]:
    """Return the walls of a hole, in the order of its corners walked backwards.

    Args:
        ring: the hole.
        thickness: of the board [grid units].
    """
    # the edge that leaves corner k of the reversed hole is the one that reached it
    order = np.arange(len(ring.lengths))[::-1] - 1
    rows = zip(ring.lengths, -edge_normals(ring.points), ring.is_curved, strict=True)
    walls_of = [_upright("hole", length * thickness, way, curved) for length, way, curved in rows]
    return [walls_of[number] for number in order]


def _upright(face: str, area: float, way: Floats, is_curved: bool) -> Patch:
    x, y = way.tolist()
    return Patch(face, to_mm2(float(area)), None if is_curved else (x, y, 0.0))
