"""Spots on a surface, and what can be seen from them along straight lines.

A spot is one side of a point: number 2 k is that towards which the normal of point k looks, 2 k + 1
the other one.
"""

from collections.abc import Callable, Iterator

import numpy as np

from shapes.meshes.openings import is_wide
from shapes.meshes.rays import ENDLESS, Caster, Singles
from shapes.solids import Floats, Ints

LIFT = 2e-5
"""How far off the surface a ray starts, as a share of the mesh's size: 0.02 mm on 1 m. The ray
library works in 32 bits, which hold 6e-8 of the size; faces nearer than this hide each other."""

DIRECTION_SETS = 64
"""Sets of directions, each turned at random, that the points draw from."""

CHUNK_RAYS = 500_000
"""Rays cast at once: some 15 MB, and a call that ends within about a second."""

TRIED = 2
"""Free lines of a point, of one round, whose air is measured; the next round tries others."""

CLEAR = 8
"""Lines within which a spot in the open sees out; one in a hollow may need all of them."""

Tell = Callable[[float], None]


class Sight:
    """Points of a surface, and the lines of sight from a little above them.

    Args:
        caster: casts rays at the surface; corners of size 1 or so.
        points: in the unit of the caster, shape (n, 3).
        normals: unit normals there, shape (n, 3).
        directions: how many directions it looks along from each side.
        rng: draws the directions.
    """

    def __init__(
        self,
        caster: Caster,
        points: Floats,
        normals: Floats,
        directions: int,
        rng: np.random.Generator,
    ) -> None:
        self.caster, self.points, self.normals = caster, points, normals
        self._directions = 2 * directions
        self._sets = _direction_sets(self._directions, rng)
        self._first = rng.integers(0, len(self._sets) * self._directions, len(points))

    def through(self, width: float, among: Ints) -> "Lookout":
        """Return the view from some points where air narrower than a width hides."""
        return Lookout(self, width, among)

    def lines(self, chosen: Ints, start: int, count: int) -> Singles:
        """Return `count` directions for each point, from its own set and place, (n, count, 3)."""
        in_set = self._sets.shape[1]
        row = (self._first[chosen] // in_set)[:, None]
        column = ((self._first[chosen] % in_set)[:, None] + start + np.arange(count)) % in_set
        lines: Singles = self._sets.reshape(-1, 3)[row * in_set + column]
        return lines

    def rounds(self) -> Iterator[tuple[int, int]]:
        """Yield (first direction, how many): few at first, as most points soon see out."""
        start, count = 0, 1
        while start < self._directions:
            yield start, min(count, self._directions - start)
            start, count = start + count, start + count


class Lookout:
    """What is seen where air narrower than a width hides what is behind it.

    Lines start as far above the surface as the air is wide, so that what is near a line is not the
    surface it starts from; a spot without so much air above it sees nothing.

    Args:
        sight: the points.
        width: of the air that lines need around them.
        among: the points that are looked from.

    Attributes:
        has_air: which spots have so much air above them, shape (2 n,); False for other points.
    """

    def __init__(self, sight: Sight, width: float, among: Ints) -> None:
        self._sight, self._width = sight, width
        self._ways = np.repeat(sight.normals, 2, axis=0)
        self._ways[1::2] *= -1
        self._raised = np.repeat(sight.points, 2, axis=0) + max(LIFT, width) * self._ways
        spots = np.concatenate([2 * among, 2 * among + 1])
        self.has_air = np.zeros(len(self._ways), dtype=np.bool_)
        self.has_air[spots] = True
        if width > LIFT:
            ways = self._ways[spots].astype(np.float32)
            starts = np.repeat(sight.points, 2, axis=0)[spots].astype(np.float32)
            long = np.full(len(spots), width - LIFT, dtype=np.float32)
            met = sight.caster.hits(starts + np.float32(LIFT) * ways, ways, long)
            self.has_air[spots[met]] = False

    def look_out(self, chosen: Ints, tell: Tell) -> tuple[Ints, Ints]:
        """Return the spots of chosen points from which a line leaves.

        At most one spot of each point; lines are tried until one is found.

        Args:
            chosen: points.
            tell: told the share that is done between chunks.

        Returns:
            Those found by the first few lines, and those that needed more.
        """
        clear: list[Ints] = []
        seeing: list[Ints] = []
        left = chosen
        total = sum(count for _, count in self._sight.rounds())
        for start, count in self._sight.rounds():
            new: list[Ints] = []
            step = max(1, CHUNK_RAYS // count)
            for begin in range(0, len(left), step):
                new.append(self._leaving(left[begin : begin + step], start, count))
                done = min(1.0, (begin + step) / len(left))
                tell((start + count * done) / total)
            (clear if start < CLEAR else seeing).extend(new)
            found = np.concatenate([*new, np.zeros(0, dtype=np.int64)]) // 2
            left = np.setdiff1d(left, found, assume_unique=True)
        none = np.zeros(0, dtype=np.int64)
        return np.concatenate([*clear, none]), np.concatenate([*seeing, none])

    def _leaving(self, mine: Ints, start: int, count: int) -> Ints:
        """Return spots of points that see out along some of their directions."""
        lines = self._sight.lines(mine, start, count)
        normals = self._sight.normals[mine].astype(np.float32)
        side = np.einsum("nk,nck->nc", normals, lines) < 0
        spots = 2 * mine[:, None] + side
        row, column = np.nonzero(self.has_air[spots])
        lines, spots = lines[row, column], spots[row, column]
        origins = self._raised[spots].astype(np.float32)
        free = np.flatnonzero(~self._sight.caster.hits(origins, lines))
        tried = free[np.arange(len(free)) - np.searchsorted(row[free], row[free]) < TRIED]
        endless = np.full(len(tried), ENDLESS, dtype=np.float32)
        wide = is_wide(self._sight.caster, origins[tried], lines[tried], endless, self._width)
        _, first = np.unique(row[tried[wide]], return_index=True)
        leaving: Ints = spots[tried[wide][first]]
        return leaving

    def links(self, spots: Ints, others: Ints) -> tuple[Ints, Ints]:
        """Return which spots see another point, and the spot that is seen there.

        Args:
            spots: from where, with air above them, shape (n,).
            others: a point for each, shape (n,).

        Returns:
            Places in `spots`, and the spot that each of them sees.
        """
        points, start = self._sight.points, self._raised[spots]
        facing = ((start - points[others]) * self._sight.normals[others]).sum(axis=1)
        ends = 2 * others + (facing < 0)
        line = self._raised[ends] - start
        lengths = np.linalg.norm(line, axis=1)
        ahead = ((self._raised[ends] - points[spots // 2]) * self._ways[spots]).sum(axis=1) > 0
        kept = np.flatnonzero(
            ahead & self.has_air[ends] & (lengths > LIFT) & (others != spots // 2)
        )
        ways = (line[kept] / lengths[kept, None]).astype(np.float32)
        starts, long = start[kept].astype(np.float32), lengths[kept].astype(np.float32)
        caster = self._sight.caster
        free = np.flatnonzero(~caster.hits(starts, ways, long))
        free = free[is_wide(caster, starts[free], ways[free], long[free], self._width)]
        return kept[free], ends[kept[free]]


def _direction_sets(count: int, rng: np.random.Generator) -> Singles:
    """Return sets of directions even over the sphere in random order, shape (sets, count, 3).

    Source: spiral of equal steps in height and golden angles, R. Swinbank, R. J. Purser, "Fibonacci
    grids", Quarterly Journal of the Royal Meteorological Society 132 (2006) 1769-1793 (from
    memory).
    """
    number = np.arange(count)
    height = 1 - (2 * number + 1) / count
    angle = np.pi * (3 - np.sqrt(5)) * number
    flat = np.sqrt(1 - height**2)
    spiral = np.stack([flat * np.cos(angle), flat * np.sin(angle), height], axis=1)
    turns = np.linalg.qr(rng.normal(size=(DIRECTION_SETS, 3, 3)))[0]
    sets: Singles = np.stack([rng.permutation(spiral @ turn) for turn in turns]).astype(np.float32)
    return sets
