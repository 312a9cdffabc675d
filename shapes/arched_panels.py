"""Panels and doors under an arch: the top rail is cut to an arc, and the panel follows it.

Flat, raised or open for glass. The rail is as wide as the rest of the frame at the crown; the door
may be arched outside as well, its rail then as wide everywhere. All areas are closed forms: a bevel
has one slope all round, so it is the ground that it covers times its slant.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass

import manifold3d
import numpy as np

from shapes.errors import ShapeError
from shapes.grid import position_units, size_units, to_mm, to_mm2
from shapes.outlines import arc_sides, equal_area_radius
from shapes.solids import Floats, Ints, Patch, Solid, triangle_areas

FACES = ("front", "back", "edge", "reveal")


@dataclass(frozen=True, eq=False)
class _Loop:
    """A closed line seen from the front: a flat foot, two upright sides, an arc or a line on top.

    Attributes:
        points: its corners, counter-clockwise from the lower left one [grid units], shape (n, 2).
        lengths: true length from each to the next [grid units], shape (n,).
        area: true area inside [square grid units].
    """

    points: Floats
    lengths: Floats
    area: float

    @property
    def length(self) -> float:
        """Its true length [grid units]."""
        return float(self.lengths.sum())

    def is_straight(self, k: int) -> bool:
        """Whether the stretch from a corner to the next is straight: all but those of an arc."""
        return k in (0, 1, len(self.points) - 1) or len(self.points) == 4


@dataclass(frozen=True)
class _Frame:
    """A frame under an arch [grid units].

    Attributes:
        size: width, thickness and height.
        rail: width of its stiles and rails.
        radius: of the arc under the top rail.
        is_round: whether its outside is arched too.
    """

    size: tuple[int, int, int]
    rail: int
    radius: float
    is_round: bool

    def outside(self) -> _Loop:
        """Return its outside."""
        return self.opening(-self.rail) if self.is_round else self._square()

    def opening(self, inset: float = 0.0) -> _Loop:
        """Return its opening, set in all round."""
        half, radius = self.size[0] / 2 - self.rail - inset, self.radius - inset
        middle, low = self.size[0] / 2, self.rail + inset
        # 0 where the arc is half a circle, but for rounding
        above = math.sqrt(max((radius - half) * (radius + half), 0.0))
        spring = self.size[2] - self.rail - self.radius + above
        sweep = 2 * math.atan2(half, above)
        angles = (math.pi - sweep) / 2 + sweep * np.arange(self.steps) / self.steps
        around = np.stack([np.cos(angles), np.sin(angles)], axis=1)
        arc = equal_area_radius(radius, sweep, self.steps) * around + [middle, spring - above]
        arc[0] = middle + half, spring
        ends = [[middle - half, low], [middle + half, low]]
        side, length = spring - low, radius * sweep
        return _Loop(
            np.concatenate([ends, arc, [[middle - half, spring]]]),
            np.array([2 * half, side, *[length / self.steps] * self.steps, side]),
            2 * half * side + radius * radius * (sweep - math.sin(sweep)) / 2,
        )

    def _square(self) -> _Loop:
        width, _, height = (float(length) for length in self.size)
        points = np.array([[0.0, 0.0], [width, 0.0], [width, height], [0.0, height]])
        return _Loop(points, np.array([width, height, width, height]), width * height)

    @property
    def steps(self) -> int:
        """Steps of all its arcs, so that their corners pair; as many as the widest one needs."""
        radius = self.radius + (self.rail if self.is_round else 0)
        half = self.size[0] / 2 - (0 if self.is_round else self.rail)
        return arc_sides(radius, 2 * math.asin(min(half / radius, 1.0)))


def arched_panel(
    width: float,
    depth: float,
    height: float,
    *,
    frame: float,
    arch: float,
    recess: float,
    bevel: float | None = None,
    field: float = 0.0,
    step: float = 0.0,
    raised_back: bool = False,
    is_round: bool = False,
) -> Solid:
    """Return a frame and panel whose top rail is arched below; the panel follows the arch.

    Args:
        width: along x [mm].
        depth: thickness, along y [mm].
        height: along z, at the crown [mm].
        frame: width of the stiles and rails, of the top rail at its crown [mm].
        arch: how much higher the crown of the arch is than its ends [mm].
        recess: how far the panel lies back where it meets the frame, on both faces [mm].
        bevel: width of the bevel around a raised field, seen from the front [mm]; left out, the
            panel is flat.
        field: how far a raised field lies back from the frame [mm].
        step: height of the square step between bevel and field [mm], 0 for none.
        raised_back: whether the back is raised too; else it is a flat panel, `recess` deep.
        is_round: whether the outside of the top rail is arched too, as wide everywhere.

    Returns:
        A solid with the faces front and back (frame, steps, bevel and field) and edge.

    Raises:
        ShapeError: a size out of range, sizes that leave no field, an arch of more than half a
            circle.

    Source: segment of a circle r2 (angle - sin angle) / 2; elementary.

    >>> door = arched_panel(500, 20, 700, frame=60, arch=190, recess=6)
    >>> round(door.area_mm2_of["front"], 3)  # 350 000 + 6 (380 + 2 x 390 + 190 pi)
    360541.416
    """
    under, deep = (
        _frame((width, depth, height), frame, arch, is_round),
        size_units("recess", recess),
    )
    if 2 * deep >= under.size[1]:
        raise ShapeError("recess", "less than half of the depth", recess, depth / 2)
    flat = [(0.0, 0), (0.0, deep)]
    raised = flat
    if bevel is not None:
        raised = [*flat, *_raised(under, deep, (bevel, field, step))]
    return _built(under, raised, raised if raised_back else flat)


def arched_frame(
    width: float, depth: float, height: float, *, frame: float, arch: float, is_round: bool = False
) -> Solid:
    """Return a frame without a field under an arch, for glass.

    Args:
        width: along x [mm].
        depth: thickness, along y [mm].
        height: along z, at the crown [mm].
        frame: width of the stiles and rails, of the top rail at its crown [mm].
        arch: how much higher the crown of the arch is than its ends [mm].
        is_round: whether the outside of the top rail is arched too, as wide everywhere.

    Returns:
        A solid with the faces front, back, edge (outside) and reveal (inside the opening).

    Raises:
        ShapeError: as for `arched_panel`.

    >>> door = arched_frame(500, 20, 700, frame=60, arch=190)
    >>> round(door.area_mm2_of["reveal"], 3)  # 20 (380 + 2 x 390 + 190 pi)
    35138.052
    """
    return _built(_frame((width, depth, height), frame, arch, is_round), [(0.0, 0)], [(0.0, 0)])


def _frame(size: tuple[float, float, float], frame: float, arch: float, is_round: bool) -> _Frame:
    width, depth, height = (
        size_units(name, mm) for name, mm in zip(("width", "depth", "height"), size, strict=True)
    )
    rail, rise = size_units("frame", frame), size_units("arch", arch)
    half = width / 2 - rail
    if half <= 0:
        raise ShapeError("frame", "less than half of the width", frame, size[0] / 2)
    if rise > half:
        rule = "no more than half of the width between the stiles: half a circle"
        raise ShapeError("arch", rule, arch, to_mm(half))
    if height - 2 * rail - rise <= 0:
        limit = to_mm(height - 2 * rail)
        raise ShapeError("arch", "less than the height between the rails", arch, limit)
    return _Frame((width, depth, height), rail, (half * half + rise * rise) / (2 * rise), is_round)


def _raised(under: _Frame, deep: int, sizes: tuple[float, float, float]) -> list[tuple[float, int]]:
    """Return the insets and depths of a bevel and a field, from the foot of the bevel on."""
    bevel, field, step = sizes
    slope = size_units("bevel", bevel)
    level, rise = (position_units(name, mm) for name, mm in (("field", field), ("step", step)))
    for name, units, mm in (("field", level, field), ("step", rise, step)):
        if units < 0:
            raise ShapeError(name, "0 or more", mm)
    if level + rise > deep:
        limit = to_mm(deep - rise)
        raise ShapeError("field", "less deep than the recess, with the step", field, limit)
    room = min(under.size[0] / 2 - under.rail, under.radius)
    if slope >= room:
        raise ShapeError("bevel", "less than half of the field is wide", bevel, to_mm(room))
    inner = under.opening(slope).points
    if inner[2, 1] <= inner[1, 1]:
        raise ShapeError(
            "bevel", "narrower: it leaves no field between arch and bottom rail", bevel
        )
    return [(slope, level + rise), *([(slope, level)] if rise else [])]


def _built(under: _Frame, front: list[tuple[float, int]], back: list[tuple[float, int]]) -> Solid:
    """Return the solid of a frame whose faces go through insets and depths to a flat field.

    One inset alone, at the face itself, is an opening right through.
    """
    build = _Builder()
    thick, outside = under.size[1], under.outside()
    rims = []
    for face, levels, sign in (("front", front, 1), ("back", back, -1)):
        loops = [(under.opening(inset), deep) for inset, deep in levels]
        at = [build.add(loop, deep if sign > 0 else thick - deep) for loop, deep in loops]
        rims.append((build.add(outside, 0 if sign > 0 else thick), at[0]))
        build.frame(face, outside, loops[0][0], rims[-1], sign)
        for k, (inset, deep) in enumerate(levels[1:]):
            (loop, before), (after, _) = loops[k], loops[k + 1]
            if inset == levels[k][0]:
                build.walls(face, loop, deep - before, (at[k], at[k + 1]), sign)
            else:
                build.slope(face, loop, after, deep - before, (at[k], at[k + 1]), sign)
        if len(levels) > 1:
            build.field(face, loops[-1][0], at[-1], sign)
    build.walls("edge", outside, -thick, (rims[0][0], rims[1][0]), -1)
    if len(front) == 1:
        build.walls("reveal", under.opening(), thick, (rims[0][1], rims[1][1]), 1)
    return build.solid(under.size)


class _Builder:
    """Collects loops of corners and the patches between them, face by face."""

    def __init__(self) -> None:
        self._corners: list[Floats] = []
        self._count = 0
        self._pieces: list[tuple[Patch, Ints]] = []

    def add(self, loop: _Loop, y: float) -> int:
        """Add a loop at a depth and return the number of its first corner."""
        first, x, z = self._count, loop.points[:, 0], loop.points[:, 1]
        self._corners.append(np.stack([x, np.full(len(x), float(y)), z], axis=1))
        self._count += len(x)
        return first

    def frame(self, face: str, outer: _Loop, inner: _Loop, at: tuple[int, int], sign: int) -> None:
        """Add the flat of a frame between its outside and its opening."""
        rings = [outer.points, inner.points[::-1]]
        numbers = np.concatenate(
            [at[0] + np.arange(len(rings[0])), at[1] + np.arange(len(rings[1]))[::-1]]
        )
        triangles = numbers[np.array(manifold3d.triangulate(rings, -1.0), dtype=np.int64)]
        self._flat(face, outer.area - inner.area, triangles, sign)

    def field(self, face: str, loop: _Loop, at: int, sign: int) -> None:
        """Add the flat field."""
        triangles = np.array(manifold3d.triangulate([loop.points], -1.0), dtype=np.int64)
        self._flat(face, loop.area, triangles + at, sign)

    def _flat(self, face: str, area: float, triangles: Ints, sign: int) -> None:
        patch = Patch(face, to_mm2(area), (0.0, -float(sign), 0.0))
        self._pieces.append((patch, triangles[:, ::sign]))

    def walls(self, face: str, loop: _Loop, sunk: float, at: tuple[int, int], sign: int) -> None:
        """Add walls square to the face, from one loop to the same one at another depth.

        They look into the loop where they go down, out of it where they rise.
        """
        way = np.roll(loop.points, -1, axis=0) - loop.points
        for k, quad in enumerate(self._strips(len(loop.points), at, sign)):
            x, z = (float(value) for value in way[k] / math.hypot(*way[k]))
            into = math.copysign(1.0, sunk)
            normal = (-z * into + 0.0, 0.0, x * into + 0.0) if loop.is_straight(k) else None
            area = to_mm2(float(loop.lengths[k]) * abs(sunk))
            self._pieces.append((Patch(face, area, normal), quad))

    def slope(
        self, face: str, outer: _Loop, inner: _Loop, sunk: float, at: tuple[int, int], sign: int
    ) -> None:
        """Add a bevel between two loops, its area shared out as its triangles share it."""
        ground = outer.area - inner.area
        inset = float(inner.points[0, 0] - outer.points[0, 0])
        area = to_mm2(ground * math.hypot(inset, sunk) / inset)
        strips = list(self._strips(len(outer.points), at, sign))
        corners = np.concatenate(self._corners)
        meshed = np.array([triangle_areas(corners, strip).sum() for strip in strips])
        for strip, share in zip(strips, meshed / meshed.sum(), strict=True):
            self._pieces.append((Patch(face, area * float(share), None), strip))

    @staticmethod
    def _strips(count: int, at: tuple[int, int], sign: int) -> Iterable[Ints]:
        """Yield the two triangles between each stretch of two loops."""
        for k in range(count):
            after = (k + 1) % count
            a, b, c, d = at[0] + k, at[0] + after, at[1] + after, at[1] + k
            yield np.array([[a, b, c], [a, c, d]])[:, ::sign]

    def solid(self, size: tuple[int, int, int]) -> Solid:
        """Return the solid of all that was added."""
        self._pieces.sort(key=lambda piece: FACES.index(piece[0].face))
        triangles = np.concatenate([triangles for _, triangles in self._pieces])
        patch_of = np.repeat(np.arange(len(self._pieces)), [len(t) for _, t in self._pieces])
        patches = tuple(patch for patch, _ in self._pieces)
        return Solid(np.concatenate(self._corners), triangles, patch_of, patches, size)
