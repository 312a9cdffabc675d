"""Outline boards: boards sawn to an outline, with holes right through.

Round tops, arched aprons, bow fronts, hand holes, pierced slats. A board lies flat (its outline
seen from above), stands across the piece (seen from the front) or stands along it (seen from the
right).
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import manifold3d
import numpy as np

from shapes.errors import ShapeError
from shapes.grid import size_units, to_mm2
from shapes.outlines import Points, Ring, moved, polygon
from shapes.solids import Floats, Ints, Patch, Solid

FACES = ("top", "bottom", "front", "back", "right", "left", "edge", "hole")


@dataclass(frozen=True)
class _Way:
    """A direction of thickness: the two outline axes and the third, and the ends along it."""

    axes: tuple[int, int, int]
    is_reversed: bool
    far_end: str
    near_end: str


_WAYS = {
    "z": _Way((0, 1, 2), False, "top", "bottom"),
    "y": _Way((0, 2, 1), True, "front", "back"),
    "x": _Way((1, 2, 0), False, "right", "left"),
}
"""Across an outline in x and z the right-handed third axis points to the front, against y."""


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
    if along not in _WAYS:
        raise ShapeError("along", f"one of {', '.join(_WAYS)}")
    outer = as_ring(outline, "outline")
    inner = [as_ring(hole, f"hole {number}") for number, hole in enumerate(holes, start=1)]
    check_holes(outer, inner)
    origin: Floats = -np.round(outer.box[0])
    rings = [moved(ring, (float(origin[0]), float(origin[1]))) for ring in [outer, *inner]]
    names = _edge_names(outer, named or {})
    return _prism(rings, size_units("thickness", thickness), _WAYS[along], names)


def _edge_names(outer: Ring, named: Mapping[str, Sequence[int]]) -> list[str]:
    """Return the face of each edge of the outline."""
    face_of = {number: face for face, numbers in named.items() for number in numbers}
    points = int(outer.source.max()) + 1
    for number in face_of:
        if not 1 <= number <= points:
            raise ShapeError("named", f"numbers of the outline's points, 1 to {points}: {number}")
    return [face_of.get(int(number) + 1, "edge") for number in outer.source]


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


def _prism(rings: list[Ring], thickness: int, way: _Way, names: list[str]) -> Solid:
    """Return the solid of an outline and holes [grid units]; the holes are turned clockwise."""
    loops = [rings[0].points, *[ring.points[::-1] for ring in rings[1:]]]
    flat = np.concatenate(loops)
    count = len(flat)
    cap = np.array(manifold3d.triangulate(loops, -1.0), dtype=np.int64)
    triangles = np.concatenate([cap + count, cap[:, ::-1], walls(loops)])
    patches = [*_ends(rings, way), *_edges(rings, thickness, way, names)]
    patch_of = np.concatenate([np.repeat([0, 1], len(cap)), np.repeat(np.arange(2, count + 2), 2)])
    levels = (thickness, 0) if way.is_reversed else (0, thickness)
    vertices = np.empty((2 * count, 3))
    vertices[:, way.axes[0]], vertices[:, way.axes[1]] = np.tile(flat, (2, 1)).T
    vertices[:, way.axes[2]] = np.repeat(levels, count)
    size = [0, 0, 0]
    width, height = (round(float(end)) for end in rings[0].box[1])
    for axis, length in zip(way.axes, (width, height, thickness), strict=True):
        size[axis] = length
    return Solid(vertices, triangles, patch_of, tuple(patches), (size[0], size[1], size[2]))


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


def _ends(rings: list[Ring], way: _Way) -> list[Patch]:
    area = to_mm2(rings[0].area - sum(ring.area for ring in rings[1:]))
    sign = -1.0 if way.is_reversed else 1.0
    return [
        Patch(way.far_end, area, _in_space((0.0, 0.0, sign), way)),
        Patch(way.near_end, area, _in_space((0.0, 0.0, -sign), way)),
    ]


def _edges(rings: list[Ring], thickness: int, way: _Way, names: list[str]) -> list[Patch]:
    patches = []
    for number, ring in enumerate(rings):
        areas = ring.lengths * thickness
        normals, is_curved = edge_normals(ring.points), ring.is_curved
        if number:  # a hole is walked backwards, and its wood lies outside
            normals = -normals
            # the edge that leaves corner k of the reversed hole is the one that reached it
            order = np.arange(len(areas))[::-1] - 1
            areas, normals, is_curved = areas[order], normals[order], is_curved[order]
        faces = ["hole"] * len(areas) if number else names
        for face, area, normal, curved in zip(faces, areas, normals, is_curved, strict=True):
            direction = (
                None if curved else _in_space((float(normal[0]), float(normal[1]), 0.0), way)
            )
            patches.append(Patch(face, to_mm2(float(area)), direction))
    return patches


def _in_space(direction: tuple[float, float, float], way: _Way) -> tuple[float, float, float]:
    """Return a direction in outline axes and third axis as x, y, z."""
    turned = [0.0, 0.0, 0.0]
    for axis, component in zip(way.axes, direction, strict=True):
        turned[axis] = component + 0.0
    return turned[0], turned[1], turned[2]
