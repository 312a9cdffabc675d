"""Outlines: closed lines of straight edges, arcs and ovals.

A curve stands as a polygon that encloses the same area, so what it leaves of a flat face is exact.
Length and moment of every edge are those of the true curve, from the closed forms; for an oval,
whose arcs have none, the edges share out the perimeter that the arithmetic-geometric mean gives.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

import numpy as np
import numpy.typing as npt

from shapes.errors import ShapeError
from shapes.grid import position_units, size_units, to_mm
from shapes.solids import Floats, Ints
from shapes.tolerances import CURVE_SEGMENTS, GRID_PER_MM, MOST_SAG_UNITS

Points = Sequence[Sequence[float]]
"""[x, y] or [x, y, rise] [mm]. `rise` is how far the arc to the next point stands out of the
straight line at its middle: above 0 away from the wood or out of the hole, below 0 into it."""

QUARTER_RISE = (math.sqrt(2) - 1) / 2
"""Rise of a quarter circle as a share of its chord: (1 - cos 45) / (2 sin 45)."""

_T = TypeVar("_T")
_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(12)


@dataclass(frozen=True, eq=False)
class Ring:
    """A closed line, counter-clockwise, as a polygon of the same area.

    Attributes:
        points: corners of the polygon [grid units], shape (n, 2).
        lengths: true length of the line from each corner to the next [grid units], shape (n,).
        moments: integral of the position along it [square grid units], shape (n, 2).
        source: number of the given point, from 0, whose line to the next it is part of, shape (n,).
        is_curved: whether it is part of a curve, shape (n,).
        area: true area enclosed [square grid units].
        box: least and greatest coordinates of the true line [grid units], shape (2, 2).
        rises: how far the line stands out between one given point and the next, in the order of
            the ring [grid units]; None of an oval.
    """

    points: Floats
    lengths: Floats
    moments: Floats
    source: Ints
    is_curved: npt.NDArray[np.bool_]
    area: float
    box: Floats
    rises: tuple[float, ...] | None = None

    @property
    def length_mm(self) -> float:
        """True length of the whole line [mm]."""
        return to_mm(float(self.lengths.sum()))


def moved(ring: Ring, by: tuple[float, float]) -> Ring:
    """Return a ring moved by whole grid units."""
    shift = np.array(by, dtype=np.float64)
    moments = ring.moments + ring.lengths[:, None] * shift
    return replace(ring, points=ring.points + shift, moments=moments, box=ring.box + shift)


def polygon(points: Points, argument: str = "outline", *, sides: int = CURVE_SEGMENTS) -> Ring:
    """Return the ring through points, joined by straight lines or arcs.

    Args:
        points: [x, y] or [x, y, rise] [mm], in either direction round.
        argument: what an error calls it.
        sides: of the polygon that stands for a whole circle.

    Raises:
        ShapeError: fewer than three points (two, if arcs join them), the same point twice running,
            a line that crosses or touches itself, or a position out of range.

    Source: arc of chord c and rise s: angle 4 atan(2 s / c), radius c / (2 sin(angle / 2)),
    segment r2 (angle - sin angle) / 2; centroid at r sin(a) / a. Elementary.

    >>> round(polygon([[0, 0], [60, 0, 30], [60, 60], [0, 60]]).length_mm, 6)  # 180 + 30 pi
    274.24778
    """
    corners, rises = corners_and_rises(points, argument)
    twice = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, _after(corners), strict=True))
    numbers = list(range(len(corners)))
    if twice < 0:
        corners, rises, twice = corners[::-1], _after(rises[::-1]), -twice
        numbers = _after(numbers[::-1])
    ends = zip(corners, _after(corners), rises, strict=True)
    arcs = [span(a, b, rise, sides=sides) for a, b, rise in ends]
    counts = [len(arc.points) for arc in arcs]
    ring = Ring(
        points=np.concatenate([arc.points for arc in arcs]),
        lengths=np.concatenate([arc.lengths for arc in arcs]),
        moments=np.concatenate([arc.moments for arc in arcs]),
        source=np.repeat(numbers, counts),
        is_curved=np.repeat([rise != 0 for rise in rises], counts),
        area=twice / 2 + sum(arc.area for arc in arcs),
        box=np.array(
            [np.min([a.box[0] for a in arcs], axis=0), np.max([a.box[1] for a in arcs], axis=0)]
        ),
        rises=tuple(rises),
    )
    _check_simple(ring, argument)
    return ring


def oval(width: float, height: float, *, centre: Sequence[float] | None = None) -> Ring:
    """Return an ellipse.

    Args:
        width: its first axis [mm].
        height: its other axis [mm].
        centre: where its middle lies [mm]; left out, its box starts at the origin.

    Raises:
        ShapeError: a size or a position out of range.

    Source: area pi a b; perimeter 4 a E(e), by the arithmetic-geometric mean: Abramowitz and
    Stegun, Handbook of Mathematical Functions (1964), 17.6.3 and 17.6.4.

    >>> round(oval(20, 10).length_mm, 9)
    48.442241103
    """
    axes = size_units("width", width), size_units("height", height)
    middle = np.array(axes) / 2
    if centre is not None:
        middle = np.array([position_units("centre", mm) for mm in centre], dtype=np.float64)
    half: Floats = np.array(axes, dtype=np.float64) / 2
    step = 2 * math.pi / CURVE_SEGMENTS
    angles: Floats = (np.arange(CURVE_SEGMENTS, dtype=np.float64) + 0.5) * step
    scale = math.sqrt(step / math.sin(step))
    lengths, moments = _oval_edges(half, angles, step)
    lengths_true = lengths * (_oval_perimeter(float(half[0]), float(half[1])) / lengths.sum())
    return Ring(
        points=middle + half * scale * np.stack([np.cos(angles), np.sin(angles)], axis=1),
        lengths=lengths_true,
        moments=moments + middle * lengths_true[:, None],
        source=np.zeros(CURVE_SEGMENTS, dtype=np.int64),
        is_curved=np.ones(CURVE_SEGMENTS, dtype=np.bool_),
        area=math.pi * float(half[0] * half[1]),
        box=np.stack([middle - half, middle + half]),
    )


def circle(diameter: float, *, centre: Sequence[float] | None = None) -> Ring:
    """Return a circle.

    Raises:
        ShapeError: a size or a position out of range.

    >>> round(circle(10).length_mm, 9)
    31.415926536
    """
    size_units("diameter", diameter)
    return oval(diameter, diameter, centre=centre)


def rectangle(width: float, height: float) -> Ring:
    """Return a rectangle whose box starts at the origin.

    Raises:
        ShapeError: a size out of range.

    >>> rectangle(60, 40).length_mm
    200.0
    """
    right, top = to_mm(size_units("width", width)), to_mm(size_units("height", height))
    return polygon([[0.0, 0.0], [right, 0.0], [right, top], [0.0, top]])


def rounded_rectangle(
    width: float,
    height: float,
    *,
    radius: float,
    corner: Sequence[float] = (0.0, 0.0),
    centre: Sequence[float] | None = None,
) -> Ring:
    """Return a rectangle with quarter circles for corners.

    Args:
        width: its first size [mm].
        height: its other size [mm].
        radius: of the corners [mm], at most half of the smaller size.
        corner: where the lower left corner of its box lies [mm].
        centre: where its middle lies instead [mm].

    Raises:
        ShapeError: a size out of range, or a radius that does not fit.

    >>> round(rounded_rectangle(100, 60, radius=10).length_mm, 6)  # 320 - 80 + 20 pi
    302.831853
    """
    for name, size in (("width", width), ("height", height)):
        if 2 * size_units("radius", radius) > size_units(name, size):
            raise ShapeError("radius", f"at most half of the {name}", radius, size / 2)
    x, y = corner if centre is None else (centre[0] - width / 2, centre[1] - height / 2)
    rise = radius * math.sqrt(2) * QUARTER_RISE
    right, top = x + width, y + height
    points: list[tuple[float, ...]] = [
        (x + radius, y), (right - radius, y, rise),
        (right, y + radius), (right, top - radius, rise),
        (right - radius, top), (x + radius, top, rise),
        (x, top - radius), (x, y + radius, rise),
    ]  # fmt: skip
    kept = [p for p, after in zip(points, _after(points), strict=True) if p[:2] != after[:2]]
    return polygon(kept)


@dataclass(frozen=True, eq=False)
class OutlineSpan:
    """The line from one given point to the next, its end left out; attributes as of a ring.

    Its area is that between the line and its chord.
    """

    points: Floats
    lengths: Floats
    moments: Floats
    area: float
    box: Floats


def _after(items: Sequence[_T]) -> list[_T]:
    """Return the items from the second on, and the first at the end."""
    return [*items[1:], *items[:1]]


def corners_and_rises(
    points: Points, argument: str, *, is_closed: bool = True
) -> tuple[list[tuple[int, int]], list[float]]:
    """Return the given points and the rise after each [grid units], checked.

    Args:
        points: [x, y] or [x, y, rise] [mm].
        argument: what an error calls them.
        is_closed: whether the last point is joined to the first.

    Raises:
        ShapeError: too few points, the same point twice running, a position out of range.
    """
    corners, rises = [], []
    for number, point in enumerate(points, start=1):
        where = f"{argument} point {number}"
        if len(point) not in (2, 3):
            raise ShapeError(argument, f"points [x, y] or [x, y, rise]: point {number}")
        corners.append((position_units(where, point[0]), position_units(where, point[1])))
        rise = point[2] if len(point) == 3 else 0.0
        position_units(f"{where} rise", rise)
        rises.append(rise * GRID_PER_MM)  # not rounded: it stands for a radius
    if is_closed and len(corners) < (2 if any(rises) else 3):
        raise ShapeError(argument, "at least three points, or two joined by an arc")
    if len(corners) < 2:
        raise ShapeError(argument, "at least two points")
    pairs = list(zip(corners, _after(corners), strict=True))
    for number, (corner, after) in enumerate(pairs if is_closed else pairs[:-1], start=1):
        if corner == after:
            rule = f"free of repeats: point {number} and the one after it are the same"
            raise ShapeError(argument, rule)
    return corners, rises


def span(
    start: tuple[float, float],
    end: tuple[float, float],
    rise: float,
    *,
    sides: int = CURVE_SEGMENTS,
) -> OutlineSpan:
    """Return the line between two different points [grid units], straight or an arc.

    Args:
        start: where it starts.
        end: where it ends.
        rise: how far it stands out at its middle to the right of the way [grid units].
        sides: of the polygon that stands for a whole circle.
    """
    first, last = np.array(start, dtype=np.float64), np.array(end, dtype=np.float64)
    if rise:
        return _arc(first, last, rise, sides)
    length = math.hypot(*(last - first))
    return OutlineSpan(
        points=first[None],
        lengths=np.array([length]),
        moments=(first + last)[None] * (length / 2),
        area=0.0,
        box=np.stack([np.minimum(first, last), np.maximum(first, last)]),
    )


def _arc(start: Floats, end: Floats, rise: float, sides: int) -> OutlineSpan:
    """Return an arc that stands out by `rise` to the right of the way from start to end."""
    chord = math.hypot(*(end - start))
    sweep = 4 * math.atan(2 * rise / chord)  # below 0 where the arc turns to the right
    signed = (chord * chord / 4 + rise * rise) / (2 * rise)
    radius, sign = abs(signed), math.copysign(1.0, sweep)
    out = np.array([end[1] - start[1], start[0] - end[0]]) / chord
    centre = (start + end) / 2 + out * (rise - signed)
    count = arc_sides(radius, abs(sweep), sides)
    begin = math.atan2(*(start - centre)[::-1])
    angles = begin + sweep * np.arange(count + 1) / count
    around = np.stack([np.cos(angles), np.sin(angles)], axis=1)
    points = centre + equal_area_radius(radius, abs(sweep), count) * around
    points[0] = start
    step = radius * abs(sweep) / count
    turned = np.stack([around[1:, 1] - around[:-1, 1], around[:-1, 0] - around[1:, 0]], axis=1)
    return OutlineSpan(
        points=points[:-1],
        lengths=np.full(count, step),
        moments=centre * step + turned * (radius * radius * sign),
        area=radius * radius * (sweep - math.sin(sweep)) / 2,
        box=arc_box(start, end, centre, radius, (begin, sweep)),
    )


def arc_sides(radius: float, sweep: float, sides: int = CURVE_SEGMENTS) -> int:
    """Return how many sides stand for an arc: an odd number, more on a wide and shallow one.

    Args:
        radius: of the arc [grid units].
        sweep: angle that it turns [radians].
        sides: of the polygon that stands for a whole circle; a coarser one than usual stays so.
    """
    count = sides / (2 * math.pi)
    if sides >= CURVE_SEGMENTS:
        count = max(count, math.sqrt(radius / (8 * MOST_SAG_UNITS)))
    return max(5, math.ceil(count * sweep)) | 1


def equal_area_radius(radius: float, sweep: float, count: int) -> float:
    """Return where the inner corners of an arc's polygon lie, its ends being on the arc.

    An odd number of sides puts a side, not a corner, at the crown of the arc: the polygon then
    stays inside the arc's box.
    """
    sector = radius * radius * sweep / math.sin(sweep / count)
    return (math.sqrt(radius * radius + (count - 2) * sector) - radius) / (count - 2)


def arc_box(
    start: Floats, end: Floats, centre: Floats, radius: float, turn: tuple[float, float]
) -> Floats:
    """Return the box of an arc that begins at an angle and sweeps through another."""
    reached = [start, end]
    low, high = sorted((turn[0], turn[0] + turn[1]))
    quarter = math.pi / 2
    for number in range(math.ceil(low / quarter), math.floor(high / quarter) + 1):
        x, y = ((1, 0), (0, 1), (-1, 0), (0, -1))[number % 4]
        reached.append(centre + radius * np.array([x, y]))
    return np.stack([np.min(reached, axis=0), np.max(reached, axis=0)])


def _oval_perimeter(first: float, second: float) -> float:
    """Return the perimeter of an ellipse by its half axes."""
    a, b = max(first, second), min(first, second)
    total, weight = (a * a + b * b) / 2, 1.0
    while a - b > 1e-14 * a:  # the next step squares this: far beyond double precision
        a, b, half_gap = (a + b) / 2, math.sqrt(a * b), (a - b) / 2
        total -= weight * half_gap * half_gap
        weight *= 2
    return 2 * math.pi * total / a


def _oval_edges(half: Floats, angles: Floats, step: float) -> tuple[Floats, Floats]:
    """Return length and moment of an ellipse about its middle between angles, by quadrature."""
    t = angles[:, None] + step * (_NODES + 1) / 2
    speed = np.hypot(half[0] * np.sin(t), half[1] * np.cos(t)) * (_WEIGHTS * step / 2)
    x, y = half[0] * np.cos(t) * speed, half[1] * np.sin(t) * speed
    return speed.sum(axis=1), np.stack([x.sum(axis=1), y.sum(axis=1)], axis=1)


def _check_simple(ring: Ring, argument: str) -> None:
    import shapely

    if ring.area <= 0 or not shapely.is_valid(shapely.Polygon(ring.points)):
        raise ShapeError(argument, "free of crossings: its line crosses or touches itself")
