"""Spindles and bun feet: turned parts with smooth curves, arcs and straight lines between points.

A smooth curve is a monotone cubic: it runs through every point with one tangent and never bulges
beyond the diameters given. The area of every band comes from the first theorem of Pappus, in
closed form for straight lines and arcs, by quadrature to a relative error below 1e-10 for cubics.
"""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from shapes.errors import ShapeError
from shapes.grid import position_units, size_units, to_mm, to_mm2
from shapes.outlines import span
from shapes.solids import Floats, Ints, Patch, Solid
from shapes.tolerances import CURVE_SEGMENTS, GRID_PER_MM
from shapes.turnings import Profile, profile_units

FACES = ("side", "top", "bottom")
SMOOTH_STEPS = 16
"""Bands that stand for a smooth curve between two points. With 8 a flat face that the side passes
through was off by 1.0e-4 of the side's area, with 16 by 5.0e-5."""
ARC_SIDES = 64
"""Sides of the polygon that stands for a whole circle along the axis. With 32 a cut ball is off by
7e-4 of its face, with 64 by less than 1e-4."""

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(12)


@dataclass(frozen=True, eq=False)
class _Band:
    """The line from one given point to the next.

    Attributes:
        line: points (radius, height) [grid units], the last left out, shape (n, 2).
        areas: of revolution, from each to the next [square grid units], shape (n,).
        box: least and greatest radius and height of the true line [grid units], shape (2, 2).
    """

    line: Floats
    areas: Floats
    box: Floats


def spindle(profile: Sequence[Sequence[float | str]], *, between: str = "smooth") -> Solid:
    """Return a turned part.

    Args:
        profile: [height, diameter] or [height, diameter, form] [mm] from height 0 upward. The
            form of the line to the next point is "smooth", "straight", or a number: the rise of
            an arc at its middle [mm], above 0 for a bead, below 0 for a cove. Equal heights make
            a shoulder, which is straight unless it has a rise, and ends a smooth curve.
        between: form of the lines that state none, "smooth" or "straight".

    Returns:
        A solid with the faces side, top and bottom; an end of diameter 0 has no face.

    Raises:
        ShapeError: as `shapes.legs.turned_leg` says, an unknown form, or an arc that crosses the
            axis, another line, or the level of an end.

    Source: first theorem of Pappus, CRC Concise Encyclopedia of Mathematics, "Pappus's Centroid
    Theorem"; monotone cubic: "Monotone Piecewise Cubic Interpolation", SIAM
    Journal on Numerical Analysis 17 (1980) 238-246.

    >>> bowl = spindle([[0, 0, 25 * (1 - 0.5**0.5)], [25, 50]])  # half a sphere, 2 pi 25^2
    >>> round(bowl.area_mm2_of["side"], 6)
    3926.990817
    """
    points = profile_units([[_number(value) for value in point[:2]] for point in profile])
    forms = [_form(number, point, between) for number, point in enumerate(profile, start=1)]
    forms = [
        "straight" if form == "smooth" and low[0] == high[0] else form
        for form, (low, high) in zip(forms, itertools.pairwise(points), strict=False)
    ]
    bands = []
    for form, group in itertools.groupby(range(len(forms)), key=lambda k: forms[k]):
        numbers = list(group)
        if form == "smooth":
            bands += _smooth(points[numbers[0] : numbers[-1] + 2])
        else:
            rise = 0.0 if form == "straight" else float(form) * GRID_PER_MM
            bands += [_arc(points[k], points[k + 1], rise) for k in numbers]
    return _revolved(bands, points)


def bun_foot(height: float, width: float, *, neck: float) -> Solid:
    """Return a bun foot: an arc in section, of one diameter at the floor and at the top.

    Args:
        height: along z [mm].
        width: its greatest diameter [mm].
        neck: its diameter at the floor and at the top [mm].

    Returns:
        A solid with the faces side, top and bottom.

    Raises:
        ShapeError: a size out of range, a neck that is not narrower than the width, or a width
            that would bulge below the floor.

    >>> foot = bun_foot(60, 90, neck=30)  # outer half of a torus, 2 pi^2 R r + 4 pi r^2
    >>> round(foot.area_mm2_of["side"], 6)
    20192.377514
    """
    for name, size in (("height", height), ("width", width), ("neck", neck)):
        size_units(name, size)
    if neck >= width:
        raise ShapeError("neck", "less than the width", neck, width)
    if width > neck + height:
        raise ShapeError("width", "no more than neck and height together", width, neck + height)
    return spindle([[0, neck, (width - neck) / 2], [height, neck]])


def monotone_slopes(at: Floats, values: Floats) -> Floats:
    """Return slopes at rising points so that the cubics between them never overshoot.

    Args:
        at: where the points are, rising, shape (n,).
        values: the values there, shape (n,).

    Source: Fritsch and Carlson 1980, as in `spindle`: mean of the secants, 0 where they change
    sign or one is 0, then both slopes of a cubic reduced to the circle of radius 3 secants.

    >>> monotone_slopes(np.array([0.0, 1, 2, 3]), np.array([0.0, 1, 1, 4])).tolist()
    [1.0, 0.0, 0.0, 3.0]
    """
    secants = np.diff(values) / np.diff(at)
    inner = np.where(secants[:-1] * secants[1:] > 0, (secants[:-1] + secants[1:]) / 2, 0.0)
    slopes: Floats = np.concatenate([secants[:1], inner, secants[-1:]])
    for k in np.flatnonzero(secants):
        ratio = float(np.hypot(slopes[k], slopes[k + 1]) / abs(secants[k]))
        if ratio > 3:
            slopes[k : k + 2] *= 3 / ratio
    return slopes


def hermite(
    t: float | Floats,
    low: float | Floats,
    high: float | Floats,
    low_slope: float | Floats,
    high_slope: float | Floats,
) -> tuple[Floats, Floats]:
    """Return a cubic from 0 to 1, and its derivative.

    Args:
        t: where, from 0 to 1.
        low: its value at 0.
        high: its value at 1.
        low_slope: its derivative at 0.
        high_slope: its derivative at 1.
    """
    rise = high - low
    second = 3 * rise - 2 * low_slope - high_slope
    third = low_slope + high_slope - 2 * rise
    value = low + t * (low_slope + t * (second + t * third))
    return np.asarray(value), np.asarray(low_slope + t * (2 * second + 3 * t * third))


def _number(value: float | str) -> float:
    if isinstance(value, str):
        raise ShapeError("profile", f"points [height, diameter]: {value} is not a length")
    return value


def _form(number: int, point: Sequence[float | str], between: str) -> str | float:
    form = point[2] if len(point) > 2 else between
    if len(point) > 3 or (isinstance(form, str) and form not in {"smooth", "straight"}):
        rule = f"[height, diameter] or with smooth, straight or the rise of an arc: point {number}"
        raise ShapeError("profile" if len(point) > 2 else "between", rule)
    if isinstance(form, str):
        return form
    position_units(f"profile point {number} rise", form)
    return float(form)


def _arc(below: tuple[int, int], above: tuple[int, int], rise: float) -> _Band:
    """Return a straight line or an arc; diameters are doubled radii, and so are heights here."""
    line = span((below[1], 2 * below[0]), (above[1], 2 * above[0]), 2 * rise, sides=ARC_SIDES)
    return _Band(line.points / 2, line.moments[:, 0] * (math.pi / 2), line.box / 2)


def _smooth(points: Profile) -> list[_Band]:
    """Return a smooth curve through points, a band for each two of them."""
    at = np.array([point[0] for point in points], dtype=np.float64)
    radii = np.array([point[1] for point in points], dtype=np.float64) / 2
    slopes = monotone_slopes(at, radii)
    bands = []
    steps = np.arange(SMOOTH_STEPS) / SMOOTH_STEPS
    nodes = steps[:, None] + (_NODES + 1) / 2 / SMOOTH_STEPS
    for k, length in enumerate(np.diff(at)):
        ends = (radii[k], radii[k + 1], slopes[k] * length, slopes[k + 1] * length)
        radius, slope = hermite(nodes, *ends)
        density = radius * np.hypot(length, slope) * _WEIGHTS
        areas = density.sum(axis=1) * (math.pi / SMOOTH_STEPS)
        corners = np.stack([hermite(steps, *ends)[0], at[k] + steps * length], axis=1)
        box = np.array([[min(ends[:2]), at[k]], [max(ends[:2]), at[k + 1]]])
        bands.append(_Band(corners, areas, box))
    return bands


def _revolved(bands: list[_Band], points: Profile) -> Solid:
    """Return the solid of revolution of a line (radius, height)."""
    height, widths = points[-1][0], (points[0][1], points[-1][1])
    line = np.concatenate([*[band.line for band in bands], [[widths[1] / 2, height]]])
    low = np.min([band.box[0] for band in bands], axis=0)
    high = np.max([band.box[1] for band in bands], axis=0)
    _check_line(line, low, high, height)
    across = round(2 * float(high[0]))
    patches = [
        Patch("side", to_mm2(float(area)), _normal(below, above))
        for area, (below, above) in zip(
            np.concatenate([band.areas for band in bands]), itertools.pairwise(line), strict=True
        )
    ]
    vertices, starts, groups = _rings(line, across / 2)
    for face, width, up in (("top", widths[1], 1), ("bottom", widths[0], -1)):
        if width:
            patches.append(Patch(face, to_mm2(math.pi * width * width / 4), (0, 0, float(up))))
            spokes = np.arange(1, CURVE_SEGMENTS - 1)
            fan = np.stack([0 * spokes, spokes, spokes + 1], axis=1)
            groups.append(fan[:, ::up] + (len(vertices) - CURVE_SEGMENTS if up > 0 else 0))
    patch_of = np.repeat(np.arange(len(groups)), [len(group) for group in groups])
    size = (across, across, height)
    return Solid(
        vertices, np.concatenate(groups), patch_of, tuple(patches), size, rings=tuple(starts)
    )


def _check_line(line: Floats, low: Floats, high: Floats, height: int) -> None:
    import shapely

    # 1 grid unit: the crown of an arc may fall between two grid lines
    if low[1] < -1 or high[1] > height + 1:
        raise ShapeError(
            "profile", "between its ends: an arc bulges beyond one", None, to_mm(height)
        )
    axis = [[0.0, float(end[1])] for end in (line[-1], line[0]) if end[0] > 0]
    if low[0] < -1 or not shapely.is_valid(shapely.Polygon([*line.tolist(), *axis])):
        raise ShapeError("profile", "free of crossings: an arc crosses a line or the axis")


def _normal(below: Floats, above: Floats) -> tuple[float, float, float] | None:
    """Return the normal of a shoulder, None for the rest."""
    if below[1] != above[1]:
        return None
    return 0.0, 0.0, 1.0 if below[0] > above[0] else -1.0


def _rings(line: Floats, centre: float) -> tuple[Floats, list[int], list[Ints]]:
    """Return the corners of the polygons of a line's circles, their starts, triangles by band.

    A polygon has its circle's area and flat sides to the front, back, left and right.
    """
    step = 2 * math.pi / CURVE_SEGMENTS
    angles = (np.arange(CURVE_SEGMENTS) + 0.5) * step
    around = np.stack([np.cos(angles), np.sin(angles)], axis=1) * math.sqrt(step / math.sin(step))
    rings = [
        np.column_stack([centre + radius * circle, np.full(len(circle), height)])
        for radius, height in line
        for circle in [around if radius > 0 else around[:1]]
    ]
    starts = np.cumsum([0, *[len(ring) for ring in rings]])
    here = np.arange(CURVE_SEGMENTS)
    after = np.roll(here, -1)
    groups: list[Ints] = []
    for k, (below, above) in enumerate(itertools.pairwise(rings)):
        # at a point on the axis the two corners of a side are one, and its triangle vanishes
        wide = [len(below) > 1, len(above) > 1]
        a, b = (starts[k] + corners * wide[0] for corners in (here, after))
        c, d = (starts[k + 1] + corners * wide[1] for corners in (after, here))
        lower = [np.stack([a, b, d], axis=1)] if wide[0] else []
        groups.append(np.concatenate([*lower, *([np.stack([b, c, d], axis=1)] if wide[1] else [])]))
    return np.concatenate(rings), starts[:-1].tolist(), groups
