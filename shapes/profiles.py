"""Profiles: the outline of a moulding or of a board's edge, from its foot to its top.

A profile is a list of points [out, up] or [out, up, rise] [mm]: `out` is how far it stands out from
the flat back, `up` its height above the foot, and `rise` how far the arc to the next point stands
out of the straight line at its middle, above 0 away from the wood (bead), below 0 into it (cove).
It starts at height 0 and ends at its own height. The named profiles are all wide below and narrow
above, as on a plinth or a table top; `flipped` makes a cornice of them.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from shapes.errors import ShapeError
from shapes.grid import position_units, size_units, to_mm
from shapes.outlines import QUARTER_RISE, Points, Ring, polygon
from shapes.solids import Floats
from shapes.tolerances import CURVE_SEGMENTS

Profile = list[list[float]]


@dataclass(frozen=True, eq=False)
class ProfileSection:
    """A profile closed by its foot, its top and its flat back.

    Attributes:
        ring: the closed line, in (out, up).
        names: of the face that each edge of the ring becomes: face, back, top or bottom.
        reach: how far it truly stands out at most [grid units].
        foot: how far it stands out at its foot [grid units].
        head: how far it stands out at its top [grid units].
        height: from foot to top [grid units].
    """

    ring: Ring
    names: tuple[str, ...]
    reach: float
    foot: int
    head: int
    height: int

    @property
    def out(self) -> int:
        """How far it stands out at most, rounded to the grid [grid units]."""
        return round(self.reach)

    def total(self, weights: Floats) -> float:
        """Return the sum of one weight for each edge over the profiled side alone."""
        return float(weights[[name == "face" for name in self.names]].sum())


def section(profile: Points, *, sides: int = CURVE_SEGMENTS) -> ProfileSection:
    """Return a profile as a closed section, checked.

    Args:
        profile: as above.
        sides: of the polygon that stands for a whole circle.

    Raises:
        ShapeError: fewer than two points, a first height that is not 0, a top that is not the
            highest point, a line that crosses itself or the back.
    """
    if len(profile) < 2:
        raise ShapeError("profile", "at least two points [out, up]")
    given = [profile_point(point) for point in profile]
    ends = given[0], given[-1]
    if ends[0][1] != 0:
        raise ShapeError("profile", "a list that starts at height 0")
    height = ends[1][1]
    if height <= 0:
        raise ShapeError("profile", "higher than 0 at its last point")
    points = [list(point) for point in profile]
    points[-1] = points[-1][:2]
    names = ["face"] * (len(points) - 1)
    for has_width, name, point in (
        (ends[1][0] > 0, "top", [0.0, to_mm(height)]),
        (True, "back", [0.0, 0.0]),
        (ends[0][0] > 0, "bottom", None),
    ):
        if has_width:
            names.append(name)
            points += [point] if point else []
    if ends[0][0] == 0:
        points.pop()
    ring = polygon(points, "profile", sides=sides)
    _check_inside(ring, height)
    edges = tuple(names[int(number)] for number in ring.source)
    return ProfileSection(ring, edges, float(ring.box[1][0]), ends[0][0], ends[1][0], height)


def profile_point(point: Sequence[float]) -> tuple[int, int]:
    """Return a point [grid units], checked.

    Raises:
        ShapeError: not two or three numbers, or a point behind the back.
    """
    if len(point) not in (2, 3):
        raise ShapeError("profile", "points [out, up] or [out, up, rise]")
    out = position_units("profile out", point[0])
    if out < 0:
        raise ShapeError("profile", "in front of its back: out is 0 or more", point[0])
    return out, position_units("profile height", point[1])


def _check_inside(ring: Ring, height: int) -> None:
    # 1 grid unit: the crown of an arc may fall between two grid lines
    if ring.box[0][1] < -1 or ring.box[1][1] > height + 1:
        raise ShapeError("profile", "between its foot and its top", None, to_mm(height))


def girth(profile: Points) -> float:
    """Return the length of the profiled side [mm], as a tape laid into it would read.

    Raises:
        ShapeError: as `section` says.

    >>> round(girth(quarter_round(20)), 6)  # 10 pi
    31.415927
    """
    whole = section(profile)
    return to_mm(whole.total(whole.ring.lengths))


def chamfer(depth: float, height: float) -> Profile:
    """Return a straight slope, `depth` out at the foot and 0 at `height`."""
    _check_sizes(depth=depth, height=height)
    return [[depth, 0.0], [0.0, height]]


def quarter_round(radius: float) -> Profile:
    """Return a convex quarter circle."""
    _check_sizes(radius=radius)
    return [[radius, 0.0, radius * math.sqrt(2) * QUARTER_RISE], [0.0, radius]]


def cove(radius: float) -> Profile:
    """Return a hollow quarter circle."""
    _check_sizes(radius=radius)
    return [[radius, 0.0, -radius * math.sqrt(2) * QUARTER_RISE], [0.0, radius]]


def bead(diameter: float) -> Profile:
    """Return a half round: half a circle that stands out by half its diameter."""
    _check_sizes(diameter=diameter)
    return [[0.0, 0.0, diameter / 2], [0.0, diameter]]


def ogee(depth: float, height: float) -> Profile:
    """Return an S of two equal arcs, round below and hollow above.

    Its ends run upright where it is higher than deep, else level; quarter circles where it is both.
    """
    _check_sizes(depth=depth, height=height)
    lean = math.atan(min(depth, height) / max(depth, height))
    rise = math.hypot(depth, height) / 4 * math.tan(lean / 2)
    return [[depth, 0.0, rise], [depth / 2, height / 2, -rise], [0.0, height]]


def _check_sizes(**sizes: float) -> None:
    for name, size in sizes.items():
        size_units(name, size)


def flipped(profile: Points) -> Profile:
    """Return a profile upside down.

    >>> flipped([[9, 0], [5, 3, 1], [0, 10]])
    [[0, 0, 1], [5, 7], [9, 10]]
    """
    top = profile[-1][1]
    rises = [list(point[2:]) for point in profile[:-1]]
    turned = [[point[0], top - point[1]] for point in reversed(profile)]
    return [point + rise for point, rise in zip(turned, [*reversed(rises), []], strict=True)]


def stood_out(profile: Points, by: float) -> Profile:
    """Return a profile that stands out further, with as much more wood behind it.

    >>> stood_out([[9, 0], [5, 3, 1], [0, 10]], 4)
    [[13, 0], [9, 3, 1], [4, 10]]
    """
    return [[point[0] + by, *point[1:]] for point in profile]


def stacked(*profiles: Points) -> Profile:
    """Return profiles one above the other, with a flat step where their ends differ.

    >>> stacked([[9, 0], [5, 3]], [[7, 0], [0, 4]])
    [[9, 0], [5, 3], [7, 3], [0, 7]]
    """
    points: Profile = []
    for profile in profiles:
        foot = points[-1][1] if points else 0
        above = [[point[0], point[1] + foot, *point[2:]] for point in profile]
        if points and points[-1][:2] == above[0][:2]:
            points.pop()
        points += above
    return points


def edge_of(profile: Points, thickness: float) -> Profile:
    """Return a profile worked on the upper edge of a board, the edge below it left square.

    Args:
        profile: as high as the board is thick, or lower.
        thickness: of the board [mm].

    Raises:
        ShapeError: a profile higher than the board, or one that is 0 wide at its foot.

    >>> edge_of(chamfer(5, 5), 20)
    [[5, 0.0], [5, 15.0], [0.0, 20]]
    """
    below = thickness - profile[-1][1]
    if below < 0:
        raise ShapeError("profile", "no higher than the board is thick", profile[-1][1], thickness)
    out = profile[0][0]
    if out <= 0:
        raise ShapeError("profile", "wider than 0 at its foot, where the square edge goes on", out)
    return stacked([[out, 0.0], [out, below]], profile) if below else [list(p) for p in profile]
