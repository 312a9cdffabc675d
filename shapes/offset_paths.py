"""Lines in plan that a profile runs along, and the same lines further out.

Right of the way is outside: a closed line that runs counter-clockwise grows, one that runs
clockwise shrinks. Neighbours meet where both lie that far out, which is the mitre, also where an
arc meets a line or another arc at an angle. A line may stay where it is while its neighbours move.
"""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from shapes.errors import ShapeError
from shapes.outlines import Points, Ring, arc_box, corners_and_rises
from shapes.oval_paths import TOO_DEEP, OvalPath
from shapes.path_spans import PathSpan, inner_points, path_span, sweeps
from shapes.solids import Floats, Ints

SMOOTH_SINE = 1e-6
"""Two lines run on into each other where the sine of the angle between them is below this: an arc
drawn from numbers of float64 meets its tangent to 1e-8."""

RUN_OUT_SINE = math.sin(math.radians(15))
"""A profile runs out on the face of a square edge that turns off by at least 15 degrees; where the
edge turns off less, or runs smoothly on, its end is stopped square, or it would be a long slant."""

STEPS = 30
"""Newton steps to a mitre of an arc: five do, more only where an arc shrinks to a point."""

NEAR_UNITS = 1e-6
"""A mitre is found when it is nearer to both lines than this [grid units]."""

FAR_ROUNDING = 1e-14
"""So many times its radius is the way to an arc off: rounding of 64-bit numbers."""


@dataclass(frozen=True, eq=False)
class OffsetPath:
    """Lines and arcs one after the other.

    Attributes:
        spans: the lines and arcs.
        is_closed: whether the last leads back to the first.
    """

    spans: tuple[PathSpan, ...]
    is_closed: bool

    @cached_property
    def span_of(self) -> Ints:
        """Span of each edge of the polygon, shape (edges,)."""
        return np.repeat(np.arange(len(self.spans)), [span.count for span in self.spans])

    @cached_property
    def is_curved(self) -> npt.NDArray[np.bool_]:
        """Whether each span is curved, shape (spans,)."""
        return np.array([span.sweep != 0 for span in self.spans])

    @cached_property
    def moves(self) -> npt.NDArray[np.bool_]:
        """Whether each span moves outward, shape (spans,)."""
        return np.array([span.moves for span in self.spans])

    @cached_property
    def ways(self) -> Floats:
        """Unit direction of each span at its start, shape (spans, 2)."""
        return np.array([span.way(span.start) for span in self.spans])

    @cached_property
    def given(self) -> list[int]:
        """Number of the given point, from 0, that each span leaves."""
        return [span.given for span in self.spans]

    @cached_property
    def last_way(self) -> Floats:
        """Unit direction of the last span at its end, shape (2,)."""
        return self.spans[-1].way(self.spans[-1].end)

    @cached_property
    def is_linear(self) -> bool:
        """Whether all corners run straight outward, and lengths grow evenly."""
        return all(
            not (before.sweep or after.sweep) or is_smooth(before, after)
            for before, after in self._corners
        )

    @cached_property
    def _corners(self) -> list[tuple[PathSpan, PathSpan]]:
        pairs = list(itertools.pairwise(self.spans))
        return [(self.spans[-1], self.spans[0]), *pairs] if self.is_closed else pairs

    def _stations(self, offsets: Floats) -> Floats:
        """Return where the spans start, and the last ends if open, (levels, stations, 2)."""
        found = [self._mitre(before, after, offsets) for before, after in self._corners]
        if not self.is_closed:
            first, last = self.spans[0], self.spans[-1]
            ends = [
                point + offsets[:, None] * span.out(point)
                for span, point in ((first, first.start), (last, last.end))
            ]
            found = [ends[0], *found, ends[1]]
        return np.stack(found, axis=1)

    def _mitre(self, before: PathSpan, after: PathSpan, offsets: Floats) -> Floats:
        """Return where two neighbours meet, shape (levels, 2)."""
        corner, a, b = after.start, before.out(before.end), after.out(after.start)
        if is_smooth(before, after):
            return corner + offsets[:, None] * (a if before.moves else 0 * a)
        if before.moves == after.moves:
            if float(a @ b) < -1 + SMOOTH_SINE:
                raise ShapeError("outline", "free of points at which the line turns right back")
            towards = (a + b) / (1 + a @ b) if before.moves else 0 * a
        else:
            moving, staying = (a, after) if before.moves else (b, before)
            way = staying.way(corner)
            if staying.sweep:
                raise ShapeError("edges", _CURVED_SQUARE)
            towards = way / (moving @ way)
        start = corner + offsets[:, None] * towards
        if not (before.sweep or after.sweep) or not (before.moves or after.moves):
            return start
        return meeting((before, after), offsets, start)

    def lengths(self, offsets: Floats) -> Floats:
        """Return how long each span is further out [grid units], shape (levels, spans)."""
        stations = self._stations(offsets)
        ends = np.roll(stations, -1, axis=1) if self.is_closed else stations[:, 1:]
        found = []
        for number, span in enumerate(self.spans):
            first, last = stations[:, number], ends[:, number]
            if span.sweep:
                found.append(span.radius_at(offsets) * np.abs(sweeps(span, first, last)))
            else:
                found.append((last - first) @ span.way(span.start))
        return np.stack(found, axis=1)

    def points(self, offsets: Floats) -> Floats:
        """Return the polygons further out [grid units], shape (levels, points, 2).

        Each encloses the area of the true line.
        """
        stations = self._stations(offsets)
        ends = np.roll(stations, -1, axis=1) if self.is_closed else stations[:, 1:]
        found = []
        for number, span in enumerate(self.spans):
            first = stations[:, number]
            found.append(first[:, None])
            if span.sweep:
                found.append(inner_points(span, offsets, first, ends[:, number]))
        if not self.is_closed:
            found.append(stations[:, -1:])
        return np.concatenate(found, axis=1)

    def check(self, offsets: Floats) -> None:
        """Check that every line is left, and the whole line crosses nothing, that far out.

        Raises:
            ShapeError: where it does.
        """
        is_line = np.array([span.heading is None for span in self.spans])
        if not (self.lengths(offsets)[:, is_line] > 0).all() or any(
            (np.abs(sweep) >= 2 * math.pi).any() or (sweep * span.sweep <= 0).any()
            for span, sweep in self._turns(offsets)
        ):
            raise ShapeError("profile", TOO_DEEP)
        check_clear(self.points(offsets), is_closed=self.is_closed)

    def _turns(self, offsets: Floats) -> list[tuple[PathSpan, Floats]]:
        stations = self._stations(offsets)
        ends = np.roll(stations, -1, axis=1) if self.is_closed else stations[:, 1:]
        return [
            (span, sweeps(span, stations[:, number], ends[:, number]))
            for number, span in enumerate(self.spans)
            if span.sweep
        ]

    def box(self, offset: float) -> Floats:
        """Return the least and greatest coordinates of the true line further out, shape (2, 2)."""
        offsets = np.array([offset])
        stations = self._stations(offsets)[0]
        ends = np.roll(stations, -1, axis=0) if self.is_closed else stations[1:]
        boxes = [np.stack([stations.min(axis=0), stations.max(axis=0)])]
        for span, first, last in zip(self.spans, stations, ends, strict=False):
            if span.sweep:
                begin = math.atan2(*(first - span.centre)[::-1])
                turn = (begin, float(sweeps(span, first[None], last[None])[0]))
                radius = float(span.radius_at(offsets)[0])
                boxes.append(arc_box(first, last, span.centre, radius, turn))
        return np.stack([np.min(boxes, axis=0)[0], np.max(boxes, axis=0)[1]])


_CURVED_SQUARE = "a list that also has the curved edges next to a worked one"
CROSSES = "less deep: it would meet itself from two sides"


def is_smooth(before: PathSpan, after: PathSpan) -> bool:
    """Whether a line runs on into its neighbour without a corner."""
    a, b = before.out(before.end), after.out(after.start)
    return abs(a[0] * b[1] - a[1] * b[0]) < SMOOTH_SINE and float(a @ b) > 0


def meeting(spans: tuple[PathSpan, PathSpan], offsets: Floats, points: Floats) -> Floats:
    """Return where two lines meet further out, by Newton's method from points near there.

    Args:
        spans: the lines.
        offsets: how far out [grid units], shape (levels,).
        points: where to start, shape (levels, 2).

    Raises:
        ShapeError: where they do not meet.
    """
    near = max(NEAR_UNITS, *[span.radius * FAR_ROUNDING for span in spans])
    outs = np.stack([offsets if span.moves else np.zeros_like(offsets) for span in spans])
    for _ in range(STEPS):
        (first, (ax, ay)), (second, (bx, by)) = _from_lines(spans, points)
        short = outs - [first, second]
        across = ax * by - ay * bx
        if np.abs(short).max() < near:
            return points
        if not (np.abs(across) > SMOOTH_SINE / 10).all():
            break
        step = short[0] * np.stack([by, -bx]) + short[1] * np.stack([-ay, ax])
        points = points + (step / across).T
    raise ShapeError("profile", TOO_DEEP)


def _from_lines(spans: tuple[PathSpan, PathSpan], points: Floats) -> list[tuple[Floats, Floats]]:
    """Return how far right of each line points lie, and the way there, (n,) and (2, n)."""
    found = [span.distance(points) for span in spans]
    return [(far, ways.T) for far, ways in found]


def check_clear(lines: Floats, *, is_closed: bool) -> None:
    """Check that lines cross nothing, of a profile's least and greatest offset.

    Args:
        lines: two lines, shape (2, points, 2).
        is_closed: whether each is closed; else what lies between the two must be clear of itself.

    Raises:
        ShapeError: where they cross.
    """
    import shapely

    rings = lines if is_closed else [np.concatenate([lines[0], lines[1][::-1]])]
    if not all(shapely.is_valid(shapely.Polygon(ring)) for ring in rings):
        raise ShapeError("profile", CROSSES)


def path_through(points: Points, argument: str) -> OffsetPath:
    """Return the open path through points [mm], outside being the right of its way.

    Raises:
        ShapeError: as `shapes.outlines.corners_and_rises` says.
    """
    corners, rises = corners_and_rises(points, argument, is_closed=False)
    spans = map(path_span, corners[:-1], corners[1:], rises[:-1])
    return OffsetPath(tuple(spans), False)


def ring_path(
    ring: Ring, *, inward: bool = False, moving: Sequence[bool] | None = None
) -> "OffsetPath | OvalPath":
    """Return the path along an outline: outside of it or, `inward`, inside.

    Args:
        ring: the outline.
        inward: whether further out is inside the outline.
        moving: whether each line moves, by the given points of the outline; left out, all do.
    """
    if ring.rises is None:
        return OvalPath(ring, -1.0 if inward else 1.0)
    starts = np.flatnonzero(np.concatenate([[True], np.diff(ring.source) != 0]))
    corners = [(round(x), round(y)) for x, y in ring.points[starts].tolist()]
    given: list[int] = ring.source[starts].tolist()
    rises = list(ring.rises)
    if inward:
        corners = [corners[0], *corners[:0:-1]]
        rises, given = [-rise for rise in reversed(rises)], given[::-1]
    works = [moving is None or moving[number] for number in given]
    spans = list(map(path_span, corners, [*corners[1:], corners[0]], rises, works, given))
    return OffsetPath(tuple(_with_stops(spans)), True)


def _with_stops(spans: list[PathSpan]) -> list[PathSpan]:
    """Return the lines of a closed path with stops where a profile ends and the edge runs on."""
    found = []
    for before, after in zip([spans[-1], *spans], spans, strict=False):
        a, b = before.out(before.end), after.out(after.start)
        runs_on = abs(a[0] * b[1] - a[1] * b[0]) < RUN_OUT_SINE and float(a @ b) > 0
        if before.moves != after.moves and runs_on:
            heading, worked = (a, before) if before.moves else (-b, after)
            corner = after.start
            found.append(
                PathSpan(corner, corner, 0.0, 0.0, corner, False, 1, worked.given, heading)
            )
        found.append(after)
    return found


Path = OffsetPath | OvalPath
