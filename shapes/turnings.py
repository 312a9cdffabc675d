"""Solids of revolution about an upright axis.

A circle stands as a polygon of equal area, flat sides towards front, back, left and right, so that
the polygon stays inside the circle there and what it hides of a flat face is exact. True areas come
from the closed forms.
"""

import itertools
import math
from collections.abc import Sequence

import numpy as np

from shapes.errors import ShapeError
from shapes.grid import position_units, size_units, to_mm2
from shapes.solids import Floats, Ints, Patch, Solid
from shapes.tolerances import CURVE_SEGMENTS

TURNED_FACES = ("side", "top", "bottom")
Profile = list[tuple[int, int]]
"""(height, diameter) pairs [grid units], from the foot upward."""


def profile_units(profile: Sequence[Sequence[float]]) -> Profile:
    """Check a profile and return it in grid units.

    Args:
        profile: (height, diameter) pairs [mm].

    Raises:
        ShapeError: as `shapes.legs.turned_leg` says.
    """
    if len(profile) < 2:
        raise ShapeError("profile", "at least two points [height, diameter]")
    points = [_point(number, point) for number, point in enumerate(profile, start=1)]
    if points[0][0] != 0:
        raise ShapeError("profile", "a list that starts at height 0")
    if points[-1][0] == 0:
        raise ShapeError("profile", "higher than 0 at its last point")
    _check_order(points)
    _check_widths(points)
    return points


def _check_order(points: Profile) -> None:
    for number, (below, above) in enumerate(itertools.pairwise(points), start=2):
        if above[0] < below[0]:
            raise ShapeError("profile", f"rising: point {number} is lower than the one before")
        if above == below:
            raise ShapeError("profile", f"free of repeats: point {number} is the one before again")
    for number, (height, _) in enumerate(points, start=1):
        if sum(point[0] == height for point in points) > 2:
            raise ShapeError("profile", f"two points at most at one height: point {number}")


def _check_widths(points: Profile) -> None:
    if not any(diameter for _, diameter in points):
        raise ShapeError("profile", "wider than 0 somewhere")
    for number, (_, diameter) in enumerate(points[1:-1], start=2):
        if diameter == 0:
            raise ShapeError("profile", f"wider than 0 between its ends: point {number} is 0")


def _point(number: int, point: Sequence[float]) -> tuple[int, int]:
    if len(point) != 2:
        raise ShapeError("profile", f"pairs [height, diameter]: point {number}")
    height, diameter = point
    where = f"profile point {number}"
    units = position_units(f"{where} height", height)
    if units < 0:
        raise ShapeError(f"{where} height", "0 or more", height)
    return units, 0 if diameter == 0 else size_units(f"{where} diameter", diameter)


def turned_solid(profile: Profile) -> Solid:
    """Return the solid of revolution of a checked profile [grid units]."""
    across = max(diameter for _, diameter in profile)
    spans = list(itertools.pairwise(profile))
    patches = [_span_patch(below, above) for below, above in spans]
    rings = [_ring(height, diameter, across) for height, diameter in profile]
    starts = np.cumsum([0, *[len(ring) for ring in rings]])
    groups = [
        _band(rings[k], rings[k + 1], int(starts[k]), int(starts[k + 1])) for k in range(len(spans))
    ]
    for name, k, up in (("top", len(rings) - 1, 1), ("bottom", 0, -1)):
        if profile[k][1]:
            patches.append(Patch(name, to_mm2(math.pi * profile[k][1] ** 2 / 4), (0, 0, float(up))))
            groups.append(_disc(int(starts[k]))[:, ::up])
    patch_of = np.repeat(np.arange(len(groups)), [len(group) for group in groups])
    size = (across, across, profile[-1][0])
    return Solid(
        np.concatenate(rings),
        np.concatenate(groups),
        patch_of,
        tuple(patches),
        size,
        rings=tuple(starts[:-1].tolist()),
    )


def _span_patch(below: tuple[int, int], above: tuple[int, int]) -> Patch:
    """Return the side between two points: a frustum of a cone, or a shoulder (flat ring)."""
    rise, radii = above[0] - below[0], (below[1] / 2, above[1] / 2)
    slant = math.hypot(rise, radii[1] - radii[0])
    normal = None if rise else (0.0, 0.0, 1.0 if radii[0] > radii[1] else -1.0)
    return Patch("side", to_mm2(math.pi * (radii[0] + radii[1]) * slant), normal)


def _ring(height: int, diameter: int, across: int) -> Floats:
    """Return the corners of the polygon of a circle's area; one point for a diameter of 0."""
    centre = across / 2
    if diameter == 0:
        return np.array([[centre, centre, float(height)]])
    step = 2 * math.pi / CURVE_SEGMENTS
    radius = diameter / 2 * math.sqrt(step / math.sin(step))
    angles = (np.arange(CURVE_SEGMENTS) + 0.5) * step
    return np.stack(
        [
            centre + radius * np.cos(angles),
            centre + radius * np.sin(angles),
            np.full(CURVE_SEGMENTS, float(height)),
        ],
        axis=1,
    )


def _band(low: Floats, high: Floats, low_start: int, high_start: int) -> Ints:
    """Return the triangles between two rings, either of which may be a point."""
    here = np.arange(CURVE_SEGMENTS)
    after = (here + 1) % CURVE_SEGMENTS
    triangles = []
    if len(low) > 1:
        tip = high_start + (here if len(high) > 1 else here * 0)
        triangles.append(np.stack([low_start + here, low_start + after, tip], axis=1))
    if len(high) > 1:
        tip = low_start + (after if len(low) > 1 else here * 0)
        triangles.append(np.stack([tip, high_start + after, high_start + here], axis=1))
    return np.concatenate(triangles)


def _disc(start: int) -> Ints:
    """Return the triangles of a polygon, seen from above, fanned from its first corner."""
    spokes = np.arange(1, CURVE_SEGMENTS - 1)
    return np.stack([np.full_like(spokes, start), start + spokes, start + spokes + 1], axis=1)
