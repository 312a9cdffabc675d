"""Rods: round stock, straight or bent along a path of lines and arcs. Bow backs, hoops, rungs.

The path is the middle of the stock. Lines and arcs flow into each other; two straight lines may
also meet at a corner, which is mitred. The side of every stretch has the area of the first theorem
of Pappus, circumference times length of the middle; a mitre adds on one side what it takes off the
other.
"""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from shapes.errors import ShapeError
from shapes.grid import position_units, size_units, to_mm2
from shapes.outline_boards import walls
from shapes.solids import Floats, Ints, Patch, Solid
from shapes.tolerances import CURVE_SEGMENTS, GRID_PER_MM

FACES = ("side", "ends")
AXES = {"z": (0, 1), "y": (0, 2), "x": (1, 2)}
"""Axes of a path by the direction across its plane, as of an outline board."""

AROUND = 128
"""Sides of the polygon that stands for the round of the stock; of equal area. Halved against legs,
since a bow has a ring of them for every degree or two of its bend."""

LEAST_KINK = math.radians(2)
"""A path that turns less than this where an arc meets a line still flows on: what the mitre there
adds to an arc is off by less than 1e-5 of the stretch."""
SHARPEST = math.radians(120)
"""Two lines that turn more than this run back along each other; no stock is mitred so."""

SMOOTH = "smooth"
Path = Sequence[Sequence[float | str]]
"""[u, v], [u, v, rise] or [u, v, "smooth"] [mm]; `rise` is how far the arc to the next point stands
out of the straight line at its middle, above 0 to the right of the way; a smooth one flows on from
the stretch before it."""


@dataclass(frozen=True, eq=False)
class _Stretch:
    """A line or an arc from one given point to the next [grid units].

    Attributes:
        points: where its sections are, its end left out, shape (n, 2).
        ways: directions of the path there, shape (n, 2).
        end: its end, shape (2,).
        last: direction there, shape (2,).
        length: of the whole stretch.
        radius: of its arc; infinite of a line.
        crowns: points of the arc that look along an axis, shape (k, 2).
    """

    points: Floats
    ways: Floats
    end: Floats
    last: Floats
    length: float
    radius: float
    crowns: Floats


def rod(path: Path, diameter: float, *, along: str = "y") -> Solid:
    """Return round stock along a path.

    Args:
        path: points of the middle of the stock, see `Path`. Across y its axes are x and z, along z
            x and y, along x y and z.
        diameter: of the stock [mm].
        along: direction across the plane of the path: "y" shows it to the front, "z" from above,
            "x" to the right.

    Returns:
        A solid with the faces side and ends.

    Raises:
        ShapeError: fewer than two points, the same point twice running, a size out of range, a
            path that crosses itself, is bent more sharply than the stock is thick, or has a
            corner beside an arc.

    Source: first theorem of Pappus, CRC Concise Encyclopedia of Mathematics, "Pappus's Centroid
    Theorem".

    >>> bow = rod([[400, 0], [400, 300, "smooth"], [0, 300], [0, 0]], 20)
    >>> round(bow.area_mm2_of["side"], 3)  # 20 pi (600 + 200 pi)
    77177.529
    """
    if along not in AXES:
        raise ShapeError("along", f"one of {', '.join(AXES)}")
    across = size_units("diameter", diameter)
    stretches = _stretches(path)
    _check_bends(stretches, across)
    middles, sides, counts = _sections(stretches, across / 2)
    _check_clear(middles, sides)
    patches = [
        Patch("side", to_mm2(math.pi * across * stretch.length / count), None)
        for stretch, count in zip(stretches, counts, strict=True)
        for _ in range(count)
    ]
    flat = to_mm2(math.pi * across * across / 4)
    outward = -stretches[0].ways[0], stretches[-1].last
    patches += [Patch("ends", flat, _in_space(way, along)) for way in outward]
    low, high = _box(stretches, middles, sides)
    shift = np.round(low)
    vertices = _tube(middles - shift, sides, across, along)
    spokes = np.arange(1, AROUND - 1)
    cap: Ints = np.stack([0 * spokes, spokes, spokes + 1], axis=1)
    between = walls([np.empty((AROUND, 2))])
    groups = [between + AROUND * k for k in range(len(middles) - 1)]
    groups += [cap[:, ::-1], cap + AROUND * (len(middles) - 1)]
    patch_of = np.repeat(np.arange(len(groups)), [len(group) for group in groups])
    size = [across, across, across]
    for axis, length in zip(AXES[along], high - low, strict=True):
        size[axis] = round(float(length))
    return Solid(
        vertices, np.concatenate(groups), patch_of, tuple(patches), (size[0], size[1], size[2])
    )


def _stretches(path: Path) -> list[_Stretch]:
    """Return the lines and arcs of a path, checked one by one."""
    if len(path) < 2:
        raise ShapeError("path", "at least two points")
    points = [_point(number, point) for number, point in enumerate(path, start=1)]
    found: list[_Stretch] = []
    for number, (start, end) in enumerate(itertools.pairwise(points), start=1):
        if (start == end).all():
            rule = f"free of repeats: point {number} and the one after it are the same"
            raise ShapeError("path", rule)
        bend = path[number - 1][2] if len(path[number - 1]) == 3 else 0.0
        rise = _smooth_rise(found, start, end) if bend == SMOOTH else _rise(number, bend)
        found.append(_arc(start, end, rise) if rise else _line(start, end))
    return found


def _point(number: int, point: Sequence[float | str]) -> Floats:
    where = f"path point {number}"
    if len(point) not in (2, 3) or any(isinstance(value, str) for value in point[:2]):
        raise ShapeError("path", f"points of two lengths, with a rise or without: point {number}")
    units = [position_units(where, float(value)) for value in point[:2]]
    return np.array(units, dtype=np.float64)


def _rise(number: int, bend: float | str) -> float:
    if isinstance(bend, str):
        raise ShapeError("path", f'straight, "{SMOOTH}" or with a rise at point {number}')
    position_units(f"path point {number} rise", bend)
    return bend * GRID_PER_MM  # not rounded: it stands for a radius


def _smooth_rise(before: list[_Stretch], start: Floats, end: Floats) -> float:
    """Return the rise of the arc that flows on from what is before it."""
    if not before:
        raise ShapeError("path", f'without "{SMOOTH}" at its first point, which follows nothing')
    turned = _turn(before[-1].last, end - start)
    return math.hypot(*(end - start)) / 2 * math.tan(turned / 2)


def _turn(way: Floats, other: Floats) -> float:
    """Return the angle from one direction to another, above 0 to the left [radians]."""
    cross = float(way[0] * other[1] - way[1] * other[0])
    return math.atan2(cross, float(way @ other))


def _line(start: Floats, end: Floats) -> _Stretch:
    length = math.hypot(*(end - start))
    way = (end - start) / length
    return _Stretch(start[None], way[None], end, way, length, math.inf, np.empty((0, 2)))


def _arc(start: Floats, end: Floats, rise: float) -> _Stretch:
    chord = math.hypot(*(end - start))
    sweep = 4 * math.atan(2 * rise / chord)
    signed = (chord * chord / 4 + rise * rise) / (2 * rise)
    right = np.array([end[1] - start[1], start[0] - end[0]]) / chord
    centre = (start + end) / 2 + right * (rise - signed)
    count = max(2, math.ceil(CURVE_SEGMENTS * abs(sweep) / (2 * math.pi)))
    begin = math.atan2(*(start - centre)[::-1])
    angles = begin + sweep * np.arange(count + 1) / count
    around = np.stack([np.cos(angles), np.sin(angles)], axis=1)
    ways = np.stack([-around[:, 1], around[:, 0]], axis=1) * math.copysign(1, sweep)
    points = centre + abs(signed) * around
    points[0] = start
    quarters = np.arange(*np.sort([begin, begin + sweep]) // (math.pi / 2) + 1) * (math.pi / 2)
    crowns = centre + abs(signed) * np.stack([np.cos(quarters), np.sin(quarters)], axis=1)
    length = abs(signed * sweep)
    return _Stretch(points[:-1], ways[:-1], end, ways[-1], length, abs(signed), crowns)


def _check_bends(stretches: list[_Stretch], across: int) -> None:
    for number, stretch in enumerate(stretches, start=1):
        if stretch.radius <= across / 2:
            rule = f"bent less sharply at point {number}: the stock is thicker than its bend"
            raise ShapeError("path", rule)
    for number, (one, other) in enumerate(itertools.pairwise(stretches), start=2):
        turned = abs(_turn(one.last, other.ways[0]))
        both_straight = math.isinf(one.radius) and math.isinf(other.radius)
        if turned > LEAST_KINK and not both_straight:
            raise ShapeError(
                "path",
                f"without a corner at point {number}, where it turns by {math.degrees(turned):.0f}"
                " degrees: only two straight lines may meet at a corner",
            )
        if turned > SHARPEST:
            raise ShapeError("path", f"less sharp at point {number}")


def _sections(stretches: list[_Stretch], radius: float) -> tuple[Floats, Floats, list[int]]:
    """Return middles and half axes in the plane of all sections, and the steps of each stretch."""
    ways = np.concatenate([*[stretch.ways for stretch in stretches], stretches[-1].last[None]])
    middles = np.concatenate([stretch.points for stretch in stretches])
    counts = [len(stretch.points) for stretch in stretches]
    longer = np.ones(len(ways))
    for number, joint in enumerate(np.cumsum(counts)[:-1]):
        before, after = stretches[number].last, ways[joint]
        half = before + after
        ways[joint] = half / math.hypot(*half)
        longer[joint] = 2 / math.hypot(*half)  # 1 / cos of half the turn
    sides = np.stack([ways[:, 1], -ways[:, 0]], axis=1) * (radius * longer)[:, None]
    return np.concatenate([middles, stretches[-1].end[None]]), sides, counts


def _check_clear(middles: Floats, sides: Floats) -> None:
    """Check that the stock, seen across its plane, nowhere runs through itself."""
    import shapely

    outline = np.concatenate([middles + sides, (middles - sides)[::-1]])
    if not shapely.is_valid(shapely.Polygon(outline)):
        raise ShapeError("path", "clear of itself: the stock crosses itself or a bend is too tight")


def _tube(middles: Floats, sides: Floats, across: int, along: str) -> Floats:
    """Return the corners of all sections, shape (sections x AROUND, 3)."""
    step = 2 * math.pi / AROUND
    angles = (np.arange(AROUND) + 0.5) * step
    grown = math.sqrt(step / math.sin(step))
    plane = middles[:, None] + sides[:, None] * (grown * np.cos(angles))[None, :, None]
    first, second = AXES[along]
    third = 3 - first - second
    sign = -1 if along == "y" else 1  # x, z and the way to the front are right-handed
    vertices = np.empty((len(middles), AROUND, 3))
    vertices[:, :, first], vertices[:, :, second] = plane[:, :, 0], plane[:, :, 1]
    vertices[:, :, third] = across / 2 * (1 - sign * grown * np.sin(angles))
    return vertices.reshape(-1, 3)


def _box(stretches: list[_Stretch], middles: Floats, sides: Floats) -> tuple[Floats, Floats]:
    """Return the least and the greatest coordinates in the plane of the path."""
    reached = [middles - np.abs(sides), middles + np.abs(sides)]
    radius = math.hypot(*sides[0])
    for stretch in stretches:
        reached += [stretch.crowns - radius, stretch.crowns + radius]
    whole = np.concatenate(reached)
    return whole.min(axis=0), whole.max(axis=0)


def _in_space(way: Floats, along: str) -> tuple[float, float, float]:
    direction = [0.0, 0.0, 0.0]
    for axis, component in zip(AXES[along], way, strict=True):
        direction[axis] = float(component) + 0.0
    return direction[0], direction[1], direction[2]
