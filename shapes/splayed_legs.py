"""Splayed legs: legs that lean in one or two directions, both ends sawn level.

The stick keeps its own section and leans without twisting; its top lies flat under a seat, its foot
flat on the floor. Square legs are exact: a side is still a flat quadrangle. A round one is cut to
ellipses, and its side comes from the closed form of a cone between two cuts, summed around it: a
smooth periodic sum, off by less than 1e-12 of itself.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from shapes.boards import FACES as SIX_SIDES
from shapes.errors import ShapeError
from shapes.grid import size_units, to_mm2
from shapes.solids import Floats, Patch, Solid, flat_patch
from shapes.spindles import spindle
from shapes.transforms import TOWARDS
from shapes.turnings import profile_units, turned_solid

MOST_DEGREES = 60.0
"""A leg that leans further is no leg; a slip of the finger is caught here."""

TOO_SHORT = "less, or the leg longer: the cuts at its two ends meet"
STRAIGHT_ENDS = (
    "straight at both ends, which are sawn level:"
    ' end its first point and its last but one with "straight"'
)
AROUND = 720
"""Points around a round leg at which its cuts are summed."""


@dataclass(frozen=True, eq=False)
class _Lean:
    """How a leg leans.

    Attributes:
        rotation: turns the upright leg into the leaning one, shape (3, 3).
        cos: of the angle between the leg and the vertical.
        sin: of that angle.
    """

    rotation: Floats
    cos: float
    sin: float


def splayed_leg(
    height: float,
    width: float,
    depth: float | None = None,
    *,
    splay: Mapping[str, float],
    foot: float | None = None,
) -> Solid:
    """Return a square or tapered leg that leans, sawn level at both ends.

    Args:
        height: straight up from the floor [mm].
        width: across the stick at its top [mm].
        depth: the other way across it [mm]; left out, the width.
        splay: where its foot goes, and how far from the vertical [degrees], as seen from the front
            for left and right, from the side for front and back: {"left": 8, "front": 10}.
        foot: width across the stick at its foot [mm]; left out, the width. The depth there is
            foot x depth / width.

    Returns:
        A solid with the faces front, back, left, right, top and bottom.

    Raises:
        ShapeError: a size out of range, an unknown direction, an angle out of range, or a leg so
            short that one cut meets the other.

    Source: quadrangle between parallel cuts, in its own plane; elementary.

    >>> leg = splayed_leg(400, 30, splay={"left": 10})
    >>> round(leg.area_mm2_of["front"], 6)  # 30 x 400 / cos 10
    12185.119343
    """
    units = size_units("height", height)
    across = size_units("width", width)
    along = across if depth is None else size_units("depth", depth)
    below = across if foot is None else size_units("foot", foot)
    leaning = _lean(splay)
    length = units / leaning.cos
    signs: Floats = np.array([(-1, -1), (1, -1), (1, 1), (-1, 1)], dtype=np.float64)
    wide = np.array([across, along], dtype=np.float64) / 2
    ends = [
        np.column_stack([signs * wide * share, np.full(4, at)]) @ leaning.rotation.T
        for share, at in ((below / across, 0.0), (1.0, length))
    ]
    rings = [_level(ends[0], ends[1], at) for at in (0, units)]
    if not (_way(ends[0], ends[1], 0) < _way(ends[0], ends[1], units)).all():
        raise ShapeError("splay", TOO_SHORT)
    quads = np.array([[0, 1, 5, 4], [2, 3, 7, 6], [3, 0, 4, 7], [1, 2, 6, 5],
                      [4, 5, 6, 7], [3, 2, 1, 0]])  # fmt: skip
    vertices, size = _in_box(np.concatenate(rings))
    patches = tuple(
        flat_patch(name, vertices[quad]) for name, quad in zip(SIX_SIDES, quads, strict=True)
    )
    triangles = quads[:, [0, 1, 2, 0, 2, 3]].reshape(-1, 3)
    return Solid(vertices, triangles, np.repeat(np.arange(6), 2), patches, size)


def splayed_round_leg(height: float, width: float, *, splay: Mapping[str, float]) -> Solid:
    """Return a round leg of one diameter that leans, sawn level at both ends.

    Args:
        height: straight up from the floor [mm].
        width: its diameter, across the stick [mm].
        splay: as for `splayed_leg`.

    Returns:
        A solid with the faces side, top and bottom.

    Raises:
        ShapeError: as for `splayed_leg`.

    Source: cylinder between parallel cuts, pi d times its length along the stick; elementary.

    >>> leg = splayed_round_leg(400, 30, splay={"left": 10})
    >>> round(leg.area_mm2_of["side"], 6)  # 30 pi x 400 / cos 10
    38280.68141
    """
    units, across = size_units("height", height), size_units("width", width)
    leaning = _lean(splay)
    length = units / leaning.cos
    upright = turned_solid([(0, across), (round(length), across)])
    cone = _Cone(across / 2, 0.0, (0.0, length))
    return _sawn(upright, (cone, cone), leaning, units)


def splayed_turned_leg(
    profile: Sequence[Sequence[float | str]],
    *,
    splay: Mapping[str, float],
    between: str = "straight",
) -> Solid:
    """Return a turned leg that leans, sawn level at both ends.

    Args:
        profile: [height, diameter] or [height, diameter, form] [mm] along the leg, as for
            `shapes.spindles.spindle`. The saw goes through the middle of both ends, where the
            line must be straight; it is run on to meet the saw.
        splay: as for `splayed_leg`.
        between: form of the lines that state none, "smooth" or "straight".

    Returns:
        A solid with the faces side, top and bottom.

    Raises:
        ShapeError: as for `splayed_leg` and `spindle`; an end of diameter 0 or with a curve or a
            shoulder; an end whose line is too short for a cut so slanting.

    Source: cone between a section and a slanting cut, sqrt(1 + m2) times the integral around it of
    r0 s + m s2 / 2, where s is how far the cut is at each angle; elementary.

    >>> leg = splayed_turned_leg([[0, 25], [400, 40]], splay={"left": 10, "front": 10})
    >>> round(leg.size_mm[2], 3)  # 400 / sqrt(1 + 2 tan2 10)
    388.115
    """
    upright = spindle(profile, between=between)
    points = profile_units([[float(value) for value in point[:2]] for point in profile])
    if not (points[0][1] and points[-1][1]):
        raise ShapeError("profile", "wider than 0 at both ends, which are sawn level")
    forms = [point[2] if len(point) > 2 else between for point in profile]
    if (forms[0], forms[-2]) != ("straight", "straight"):
        raise ShapeError("profile", STRAIGHT_ENDS)
    ends = _Cone.of(*points[:2]), _Cone.of(*points[-2:])
    leaning = _lean(splay)
    return _sawn(upright, ends, leaning, round(points[-1][0] * leaning.cos))


def _lean(splay: Mapping[str, float]) -> _Lean:
    """Return the lean of a leg whose foot goes out as told."""
    for side, degrees in splay.items():
        if side not in TOWARDS:
            raise ShapeError("splay", f"towards {', '.join(TOWARDS)}, not {side}")
        if not 0 <= degrees <= MOST_DEGREES:  # nan too
            raise ShapeError(f"splay {side}", f"from 0 to {MOST_DEGREES:g} degrees")
    for one, other in (("left", "right"), ("front", "back")):
        if one in splay and other in splay:
            raise ShapeError("splay", f"towards {one} or {other}, not both")
    slopes = {side: math.tan(math.radians(degrees)) for side, degrees in splay.items()}
    x = slopes.get("left", 0.0) - slopes.get("right", 0.0)
    y = slopes.get("front", 0.0) - slopes.get("back", 0.0)
    cos = 1 / math.sqrt(1 + x * x + y * y)
    up = np.array([x, y, 1.0]) * cos
    # the turn that brings the vertical there by the shortest way
    bent = np.outer(up[:2], up[:2]) / (1 + cos)
    rotation = np.eye(3)
    rotation[:2, :2] -= bent
    rotation[:2, 2], rotation[2, :2], rotation[2, 2] = up[:2], -up[:2], cos
    return _Lean(rotation, cos, math.sqrt(x * x + y * y) * cos)


def _way(feet: Floats, tops: Floats, level: float) -> Floats:
    """Return how far along each line from foot to top a level lies, as a share of the line."""
    rise = tops[:, 2] - feet[:, 2]
    if not (rise > 0).all():
        raise ShapeError("splay", TOO_SHORT)
    share: Floats = (level - feet[:, 2]) / rise
    return share


def _level(feet: Floats, tops: Floats, level: float) -> Floats:
    """Return where the lines from each foot point to its top point meet a level."""
    cut = feet + (tops - feet) * _way(feet, tops, level)[:, None]
    cut[:, 2] = level  # without rounding
    return cut


def _in_box(vertices: Floats) -> tuple[Floats, tuple[int, int, int]]:
    """Move corners so that their box starts at the origin, and return its size."""
    low, high = vertices.min(axis=0), vertices.max(axis=0)
    low[2] = 0.0
    width, depth, height = (math.ceil(length) for length in high - low)
    return vertices - low, (width, depth, height)


@dataclass(frozen=True)
class _Cone:
    """A stretch of a turned leg that a level cuts.

    Attributes:
        radius: where its line would be at the foot of the axis [grid units].
        growth: of the radius along the axis.
        reach: where it begins and ends along the axis [grid units].
    """

    radius: float
    growth: float
    reach: tuple[float, float]

    @classmethod
    def of(cls, below: tuple[int, int], above: tuple[int, int]) -> "_Cone":
        """Return the stretch between two points (height, diameter)."""
        if below[0] == above[0]:
            raise ShapeError("profile", "free of shoulders at both ends, which are sawn level")
        growth = (above[1] - below[1]) / 2 / (above[0] - below[0])
        return cls(below[1] / 2 - growth * below[0], growth, (below[0], above[0]))

    def cut(self, leaning: _Lean, level: float) -> Floats:
        """Return how far along the axis a level cuts it, at angles all around, shape (AROUND,)."""
        slope = leaning.sin * np.cos(2 * math.pi * np.arange(AROUND) / AROUND)
        rise = leaning.cos + slope * self.growth
        if not (rise > 0).all():
            raise ShapeError("splay", TOO_SHORT)
        at: Floats = (level - slope * self.radius) / rise
        return at

    def section(self, at: Floats) -> float:
        """Return the area of a cut as seen along the axis [square grid units]."""
        return math.pi * float(((self.radius + self.growth * at) ** 2).mean())

    def side(self, below: Floats | float, above: Floats | float) -> float:
        """Return the area between two cuts [square grid units]."""
        if not np.all(below < above):
            raise ShapeError("splay", TOO_SHORT)
        reach = self.radius * (above - below) + self.growth * (above**2 - below**2) / 2
        return 2 * math.pi * math.hypot(1, self.growth) * float(np.mean(reach))


def _sawn(upright: Solid, ends: tuple[_Cone, _Cone], leaning: _Lean, height: int) -> Solid:
    """Return a turned leg that leans, cut at the floor and at a height [grid units].

    Args:
        upright: the leg as it is turned, a ring of corners for each of its circles.
        ends: its lowest and its highest stretch; the same one twice if it has no other.
        leaning: how it leans.
        height: of the upper cut.
    """
    count = int((upright.vertices[:, 2] == 0).sum())
    axis = np.array([upright.size[0] / 2, upright.size[1] / 2, 0.0])
    rings = list(((upright.vertices - axis) @ leaning.rotation.T).reshape(-1, count, 3))
    rings[0], rings[-1] = _level(rings[0], rings[1], 0), _level(rings[-2], rings[-1], height)
    if any(ring[:, 2].min() <= 0 or ring[:, 2].max() >= height for ring in rings[1:-1]):
        raise ShapeError("splay", TOO_SHORT)
    low, high = ends[0].cut(leaning, 0), ends[1].cut(leaning, height)
    last = len(upright.patches) - 1
    if ends[0] == ends[1]:
        sides = {0: ends[0].side(low, high)}
    else:
        sides = {
            0: ends[0].side(low, ends[0].reach[1]),
            last - 2: ends[1].side(ends[1].reach[0], high),
        }
    patches = [_leaned(patch, leaning.rotation) for patch in upright.patches]
    for number, area in sides.items():
        patches[number] = Patch("side", to_mm2(area), None)
    for number, end, cut, up in ((last - 1, -1, high, 1.0), (last, 0, low, -1.0)):
        sawn = ends[end].section(cut) / leaning.cos
        rings[end] = _of_area(rings[end], sawn)
        patches[number] = Patch(patches[number].face, to_mm2(sawn), (0.0, 0.0, up))
    vertices, size = _in_box(np.concatenate(rings))
    return replace(upright, vertices=vertices, patches=tuple(patches), size=size)


def _leaned(patch: Patch, rotation: Floats) -> Patch:
    if patch.normal is None:
        return patch
    x, y, z = (float(value) + 0.0 for value in rotation @ np.array(patch.normal))
    return replace(patch, normal=(x, y, z))


def _of_area(ring: Floats, area: float) -> Floats:
    """Return a level polygon scaled about its middle to an area [square grid units].

    A cone's polygon of equal area is off by some 1e-6 once it is cut at a slant.
    """
    middle = ring.mean(axis=0)
    x, y = (ring - middle)[:, :2].T
    meshed = float((x * np.roll(y, -1) - np.roll(x, -1) * y).sum()) / 2
    scaled: Floats = middle + (ring - middle) * math.sqrt(area / meshed)
    scaled[:, 2] = ring[:, 2]
    return scaled
