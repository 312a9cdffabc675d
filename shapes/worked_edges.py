"""Boards with a profile worked on their edges: the wood that it takes away is gone.

A worked edge is cut as a router cuts it that runs right through: its profile is mitred where two
worked edges meet, also at an inner corner, and runs out on the face of a square edge. Where the
edge runs smoothly on and is square there, the cut ends in a small face square to the edge. The
profile lies in the outline where it stands out furthest, so the board keeps its full size.
"""

import itertools
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import manifold3d
import numpy as np
import numpy.typing as npt

from shapes.boards import FACES as SIX_SIDES
from shapes.boards import board
from shapes.errors import ShapeError
from shapes.grid import size_units, to_mm, to_mm2
from shapes.offset_paths import OffsetPath, Path, ring_path
from shapes.outline_boards import (
    ENDS,
    as_ring,
    at_origin,
    check_holes,
    edge_normals,
    hole_patches,
    outline_board,
    point_faces,
    walls,
)
from shapes.outlines import Points, Ring, rectangle
from shapes.profiles import ProfileSection, profile_point, section, stood_out
from shapes.solids import Floats, Ints, Patch, Solid
from shapes.sweeps import PROFILE_SIDES, Sweep
from shapes.tolerances import CURVE_SEGMENTS
from shapes.transforms import laid

IN_OUTLINE = 1e-6
"""A point of a profile lies in the outline of the board when it is nearer than this [grid units]:
rounding of where the profile stands out furthest."""
BEHIND_MM = 10.0
"""Wood behind the deepest point of a profile [mm]; any changes nothing, since the board has it."""
EDGES = ("front", "back", "left", "right")
_ROUND = ("front", "right", "back", "left")
"""The edges of a board, counter-clockwise from its front left corner."""


def profiled_board(
    width: float,
    depth: float,
    height: float,
    *,
    profile: Points,
    edges: Iterable[str] = ("front", "left", "right"),
) -> Solid:
    """Return a board with a profile worked on some of its edges.

    Args:
        width: along x, overall [mm].
        depth: along y, overall [mm].
        height: along z [mm].
        profile: of the whole edge, as high as the board; see `shapes.profiles.edge_of`.
        edges: which are worked, of front, back, left and right.

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
    square, cut = board(width, depth, height), _section(profile)
    chosen = frozenset(edges)
    unknown = sorted(chosen - set(EDGES))
    if unknown:
        raise ShapeError("edges", f"edges of {', '.join(EDGES)}, not {unknown[0]}")
    if not chosen:
        return square
    _check_height(cut, square.size[2])
    for axis, name, pair in ((0, "width", EDGES[2:]), (1, "depth", EDGES[:2])):
        if chosen & set(pair) and 2 * _deepest(cut) >= square.size[axis]:
            limit = to_mm(square.size[axis]) / 2
            raise ShapeError("profile", f"less deep than half of the {name}", None, limit)
    ring = rectangle(to_mm(square.size[0]), to_mm(square.size[1]))
    worked = [name in chosen for name in _ROUND]
    return _WorkedBoard(ring, cut, worked, _ROUND, ENDS["z"]).solid(SIX_SIDES)


def worked_outline(
    outline: Ring | Points,
    thickness: float,
    *,
    profile: Points,
    edges: Sequence[int] | None = None,
    holes: Sequence[Ring | Points] = (),
    along: str = "z",
    named: Mapping[str, Sequence[int]] | None = None,
) -> Solid:
    """Return a board of an outline with a profile worked on its edges.

    Args:
        outline: as of `shapes.outline_boards.outline_board`; the greatest size overall.
        thickness: along the direction [mm].
        profile: of the whole edge, as high as the board is thick, its top towards the outer face;
            see `shapes.profiles.edge_of`.
        edges: numbers of the outline's points, from 1, whose line to the next one is worked; left
            out, all are.
        holes: as of `outline_board`; their edges stay square.
        along: as of `outline_board`.
        named: as of `outline_board`.

    Returns:
        A solid with the faces of `outline_board`; a worked edge belongs to `edge` or its name.

    Raises:
        ShapeError: as of `outline_board`; a profile that is not as high as the board or too deep
            for an edge or an arc; worked and square edges that run on into each other.

    Source: length times girth less 2 pi times the moment of the inset, for a line without corners.

    >>> from shapes.outlines import circle
    >>> from shapes.profiles import chamfer, edge_of
    >>> top = worked_outline(circle(400), 20, profile=edge_of(chamfer(6, 8), 20))
    >>> round(top.area_mm2_of["edge"], 3)  # 400 pi 12 + (400 - 6) pi 10
    27457.52
    """
    if along not in ENDS:
        raise ShapeError("along", f"one of {', '.join(ENDS)}")
    outer = as_ring(outline, "outline")
    names = point_faces(outer, named or {})
    unknown = [number for number in edges or () if not 1 <= number <= len(names)]
    if unknown:
        rule = f"numbers of the outline's points, 1 to {len(names)}, not {unknown[0]}"
        raise ShapeError("edges", rule)
    worked = [edges is None or number + 1 in edges for number in range(len(names))]
    if not any(worked):
        return outline_board(outer, thickness, holes=holes, along=along, named=named)
    is_curved = bool(outer.is_curved.any())
    cut = _section(profile, PROFILE_SIDES if is_curved else CURVE_SEGMENTS)
    _check_height(cut, size_units("thickness", thickness))
    rings = at_origin([outer, *[as_ring(h, f"hole {k}") for k, h in enumerate(holes, start=1)]])
    found = _WorkedBoard(rings[0], cut, worked, names, ENDS[along], tuple(rings[1:]))
    return laid(found.solid((*ENDS[along], *dict.fromkeys(names), "hole")), along)


def _section(profile: Points, sides: int = CURVE_SEGMENTS) -> ProfileSection:
    """Return a profile with wood behind it, so that it may be upright at its deepest."""
    for point in profile:
        profile_point(point)
    return section(stood_out(profile, BEHIND_MM), sides=sides)


def _check_height(cut: ProfileSection, thickness: int) -> None:
    if cut.height != thickness:
        rule = "as high as the board is thick"
        raise ShapeError("profile", rule, to_mm(cut.height), to_mm(thickness))


def _deepest(cut: ProfileSection) -> float:
    """Return how far the profile cuts into the board at most [grid units]."""
    worked = [name == "face" for name in cut.names]
    return cut.reach - min(cut.foot, cut.head, float(cut.ring.points[worked, 0].min()))


@dataclass(frozen=True, eq=False)
class _WorkedBoard:
    """A board of an outline whose edges are worked, lying flat.

    Attributes:
        ring: its outline.
        cut: the profile.
        worked: whether each edge is, by the given points of the outline.
        names: the face of each edge, by the given points.
        ends: names of the flat faces, top and bottom.
        holes: right through it.
    """

    ring: Ring
    cut: ProfileSection
    worked: Sequence[bool]
    names: Sequence[str]
    ends: tuple[str, str]
    holes: tuple[Ring, ...] = ()

    @cached_property
    def path(self) -> Path:
        """The outline as the path of the profile, square edges staying where they are."""
        return ring_path(self.ring, moving=self.worked)

    @cached_property
    def sweep(self) -> Sweep:
        """The profile along it, its furthest point in the outline."""
        return Sweep(self.path, self.cut.ring, self.cut.names.count("face"), -self.cut.reach)

    @cached_property
    def used(self) -> npt.NDArray[np.bool_]:
        """Which corners there are, shape (levels, stations): on square edges the outer two."""
        is_worked = self.path.moves[self.path.span_of]
        used = np.zeros(self.sweep.corners.shape[:2], dtype=np.bool_)
        used[:, is_worked | np.roll(is_worked, 1)] = True
        used[[0, -1]] = True
        for _, square in self.stops:
            used[self._is_outside, square] = False
        return used

    @cached_property
    def stops(self) -> list[tuple[int, int]]:
        """Stations at which the end of a profile starts and ends: on its side, on the square."""
        stations, found = self.sweep.corners.shape[1], []
        for edge, span in enumerate(self.path.span_of.tolist()):
            if self._is_stop(span):
                ends = edge, (edge + 1) % stations
                found.append(ends if self.path.moves[span - 1] else ends[::-1])
        return found

    def _is_stop(self, span: int) -> bool:
        return isinstance(self.path, OffsetPath) and self.path.spans[span].heading is not None

    @property
    def _is_outside(self) -> npt.NDArray[np.bool_]:
        """Which levels of the profile lie in the outline, shape (levels,)."""
        outside: npt.NDArray[np.bool_] = self.sweep.profile[:, 0] + self.sweep.shift > -IN_OUTLINE
        return outside

    @cached_property
    def numbers(self) -> Ints:
        """Number of each corner, -1 where there is none, shape (levels, stations)."""
        numbers = np.full(self.used.shape, -1)
        numbers[self.used] = np.arange(self.used.sum())
        for worked, square in self.stops:
            numbers[self._is_outside, square] = numbers[self._is_outside, worked]
        return numbers

    def solid(self, order: Sequence[str]) -> Solid:
        """Return the solid.

        Args:
            order: of the faces.
        """
        self.path.check(np.array([-_deepest(self.cut), 0.0]))
        self._check_holes()
        groups = [*self._caps(), *self._worked(), *self._square(), *self._hole_walls()]
        groups.sort(key=lambda group: order.index(group[0].face))
        width, depth = (round(float(end)) for end in self.ring.box[1])
        flat = [ring.points[::-1] for ring in self.holes] * 2
        levels = np.repeat([0.0, float(self.cut.height)], sum(map(len, flat)) // 2)
        corners = np.concatenate([np.empty((0, 2)), *flat])
        return Solid(
            vertices=np.concatenate(
                [self.sweep.corners[self.used], np.column_stack([corners, levels])]
            ),
            triangles=np.concatenate([triangles for _, triangles in groups]),
            patch_of=np.repeat(np.arange(len(groups)), [len(group[1]) for group in groups]),
            patches=tuple(patch for patch, _ in groups),
            size=(width, depth, self.cut.height),
        )

    def _check_holes(self) -> None:
        inner = self.path.points(np.array([-_deepest(self.cut)]))[0]
        try:
            check_holes(replace(self.ring, points=inner), self.holes)
        except ShapeError as error:
            rule = error.rule.replace("its edge", "its worked edge")
            raise ShapeError("holes", rule) from None

    def _caps(self) -> list[tuple[Patch, Ints]]:
        """Return top and bottom."""
        count, found = int(self.used.sum()), []
        holes = [ring.points[::-1] for ring in self.holes]
        total = sum(map(len, holes))
        for level, face, up in ((-1, self.ends[0], 1.0), (0, self.ends[1], -1.0)):
            kept, first = np.unique(self.numbers[level], return_index=True)
            order = np.argsort(first)  # a stop may start and end at one corner
            kept, loop = kept[order], self.sweep.corners[level, first[order], :2]
            cap = np.array(manifold3d.triangulate([loop, *holes], -1.0), dtype=np.int64)
            through = count + (total if up > 0 else 0) + np.arange(total)
            triangles = np.concatenate([kept, through])[cap]
            area = _area(loop) - sum(ring.area for ring in self.holes)
            patch = Patch(face, to_mm2(area), (0.0, 0.0, up))
            found.append((patch, triangles if up > 0 else triangles[:, ::-1]))
        return found

    def _worked(self) -> list[tuple[Patch, Ints]]:
        """Return what the profile left of the worked edges."""
        names = [[self.names[k]] * self.sweep.edges for k in self.path.given]
        patches = self.sweep.patches(names)
        triangles, patch_of = self.sweep.strips(self.numbers)
        order = np.argsort(patch_of, kind="stable")
        starts = np.searchsorted(patch_of[order], np.arange(len(patches) + 1))
        pieces = [triangles[order[a:b]] for a, b in itertools.pairwise(starts)]
        return [(p, piece) for p, piece in zip(patches, pieces, strict=True) if len(piece)]

    def _square(self) -> list[tuple[Patch, Ints]]:
        """Return the edges that stay square, cut at their ends where a profile runs out on them."""
        path, found = self.path, []
        spans, faces = path.span_of.tolist(), [self.names[k] for k in self.path.given]
        areas = self.sweep.standing_areas / np.bincount(path.span_of)
        outer = path.points(np.array([-_deepest(self.cut)]))[0]
        normals = edge_normals(outer).tolist()
        for edge, span in enumerate(spans):
            if not path.moves[span]:
                x, y = normals[edge]
                normal = None if path.is_curved[span] else (x, y, 0.0)
                patch = Patch(faces[span], to_mm2(float(areas[span])), normal)
                found.append((patch, self._standing(edge, (-y, x))))
        return found

    def _standing(self, edge: int, way: tuple[float, float]) -> Ints:
        """Return the triangles of an upright edge between what is left of its two ends."""
        after = (edge + 1) % self.used.shape[1]
        ends = [np.flatnonzero(self.numbers[:, k] >= 0).tolist() for k in (edge, after)]
        shared = np.flatnonzero(self.numbers[:, edge] == self.numbers[:, after])
        shared = shared[self.numbers[shared, edge] >= 0]
        levels = len(self.used) - 1
        found = [np.empty((0, 3), dtype=np.int64)]
        for low, high in itertools.pairwise(sorted({0, levels, *shared.tolist()})):
            first, last = ([k for k in end if low <= k <= high] for end in ends)
            loop = [*[(k, after) for k in last], *[(k, edge) for k in first[::-1]]]
            found.append(self._filled(loop, way))
        return np.concatenate(found)

    def _filled(self, loop: list[tuple[int, int]], way: tuple[float, float]) -> Ints:
        """Return the triangles of an upright polygon, none of one without area."""
        numbers, first = np.unique([self.numbers[at] for at in loop], return_index=True)
        if len(numbers) < 3:
            return np.empty((0, 3), dtype=np.int64)
        order = np.argsort(first)
        corners = np.array([self.sweep.corners[loop[k]] for k in first[order]])
        flat = np.column_stack([(corners[:, :2] - corners[0, :2]) @ way, corners[:, 2]])
        # its fast way with convex polygons makes triangles of three points in line
        cap = np.array(manifold3d.triangulate([flat], -1.0, False), dtype=np.int64)
        return numbers[order][cap]

    def _hole_walls(self) -> list[tuple[Patch, Ints]]:
        if not self.holes:
            return []
        loops = [ring.points[::-1] for ring in self.holes]
        quads = walls(loops) + int(self.used.sum())
        patches = [p for ring in self.holes for p in hole_patches(ring, self.cut.height)]
        return list(zip(patches, quads.reshape(-1, 2, 3), strict=True))


def _area(loop: Floats) -> float:
    """Return the area of a polygon [square units]."""
    x, y = (loop - loop[0]).T
    return float(x @ np.roll(y, -1) - np.roll(x, -1) @ y) / 2
