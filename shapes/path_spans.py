"""Straight lines and arcs in plan, and the same ones further out to the right of their way."""

import math
from dataclasses import dataclass

import numpy as np

from shapes.outlines import arc_sides, equal_area_radius
from shapes.solids import Floats


@dataclass(frozen=True, eq=False)
class PathSpan:
    """A straight line or an arc, or the stop at which a profile ends.

    A stop is a point from which the end of the profile runs into the wood, square to the edge.

    Attributes:
        start: its start [grid units], shape (2,).
        end: its end.
        sweep: angle that it turns to the left [radians], 0 where it is straight.
        radius: of an arc [grid units].
        centre: of an arc.
        moves: whether it moves outward, or stays.
        count: sides of the polygon that stands for it.
        given: number of the given point, from 0, that it leaves.
        heading: of a stop: the unit direction in which its face is passed.
    """

    start: Floats
    end: Floats
    sweep: float
    radius: float
    centre: Floats
    moves: bool
    count: int
    given: int = 0
    heading: Floats | None = None

    def way(self, point: Floats) -> Floats:
        """Return the unit direction in which it runs through one of its points."""
        if self.heading is not None:
            return self.heading
        if not self.sweep:
            chord: Floats = self.end - self.start
            return chord / math.hypot(*chord)
        x, y = (point - self.centre) * (math.copysign(1.0, self.sweep) / self.radius)
        return np.array([-y, x])

    def out(self, point: Floats) -> Floats:
        """Return the unit normal to the right of the way at one of its points."""
        x, y = self.way(point)
        return np.array([y, -x]) + 0.0

    def radius_at(self, offsets: Floats) -> Floats:
        """Return the radius of an arc further out [grid units], shape of the offsets."""
        out = offsets if self.moves else np.zeros_like(offsets)
        return self.radius + math.copysign(1.0, self.sweep) * out

    def distance(self, points: Floats) -> tuple[Floats, Floats]:
        """Return how far right of the whole line points lie, and the way there, (n,) and (n, 2)."""
        if not self.sweep:
            out = self.out(self.start)
            return (points - self.start) @ out, np.broadcast_to(out, points.shape)
        sign = math.copysign(1.0, self.sweep)
        rays = points - self.centre
        lengths = np.hypot(rays[:, 0], rays[:, 1])
        return sign * (lengths - self.radius), sign * rays / lengths[:, None]


def path_span(
    start: tuple[int, int], end: tuple[int, int], rise: float, moves: bool = True, given: int = 0
) -> PathSpan:
    """Return the line from one point to the next [grid units].

    Args:
        start: where it starts.
        end: where it ends.
        rise: how far it stands out at its middle to the right of the way [grid units].
        moves: whether it moves outward.
        given: number of the given point that it leaves.

    Source: as `shapes.outlines.polygon`.
    """
    first, last = np.array(start, dtype=np.float64), np.array(end, dtype=np.float64)
    if not rise:
        return PathSpan(first, last, 0.0, 0.0, first, moves, 1, given)
    chord = math.hypot(*(last - first))
    sweep = 4 * math.atan(2 * rise / chord)
    signed = (chord * chord / 4 + rise * rise) / (2 * rise)
    out = np.array([last[1] - first[1], first[0] - last[0]]) / chord
    centre = (first + last) / 2 + out * (rise - signed)
    count = arc_sides(abs(signed), abs(sweep))
    return PathSpan(first, last, sweep, abs(signed), centre, moves, count, given)


def sweeps(span: PathSpan, first: Floats, last: Floats) -> Floats:
    """Return the angle that an arc turns between points [radians], shape (levels,)."""
    a, b = first - span.centre, last - span.centre
    turn = np.arctan2(b[:, 1], b[:, 0]) - np.arctan2(a[:, 1], a[:, 0])
    sweeps: Floats = turn - 2 * math.pi * np.round((turn - span.sweep) / (2 * math.pi))
    return sweeps


def inner_points(span: PathSpan, offsets: Floats, first: Floats, last: Floats) -> Floats:
    """Return the corners of an arc's polygon between its ends, shape (levels, count - 1, 2)."""
    turns, radii = sweeps(span, first, last), span.radius_at(offsets)
    begin = np.arctan2(*(first - span.centre).T[::-1])
    angles = begin[:, None] + turns[:, None] * np.arange(1, span.count) / span.count
    around = np.stack([np.cos(angles), np.sin(angles)], axis=2)
    at = [
        equal_area_radius(float(radius), abs(float(turn)), span.count)
        for radius, turn in zip(radii, turns, strict=True)
    ]
    inner: Floats = span.centre + np.array(at)[:, None, None] * around
    return inner
