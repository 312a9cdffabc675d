"""Hollows of a surface that closes off no solid, and which of them open to the outside.

What cannot itself see out may see a place that can: the back of a shelf behind a door that is ajar.
So the spots that see each other are taken together as one hollow, and a hollow counts as reached
when any of it is. Lines through air narrower than a width do not count, neither to the outside nor
from spot to spot: a hollow behind a crack stays closed.
"""

from dataclasses import dataclass

import numpy as np

from shapes.meshes.rays import Bools
from shapes.meshes.sight import Lookout, Sight, Tell
from shapes.solids import Floats, Ints

PASSES = 24
"""How often each spot of a hollow looks for others: at its next neighbour, then at any point."""

NEIGHBOURS = 12
"""Points next to a spot that it looks at in turn."""

IDLE_PASSES = 4
"""Passes that find nothing, after which no more are made."""

MORE_PASSES = 16
"""How many times as long is looked where a hollow opens, but few lines were found to show it."""

LEAST_SHARE = 1e-3
"""Hollows of a smaller share of the points are not looked at longer; their doubt is as small."""

SURE = 6
"""Lines out of a hollow that settle that it opens. Of openings that let six through on average,
fewer than one in 400 is missed."""


@dataclass(frozen=True, eq=False)
class Reached:
    """Which points are reached.

    Attributes:
        points: whether each point is reached from one of its sides, shape (n,).
        spots: whether each spot is, shape (2 n,).
        unsure: the hollow of each point that is reached by fewer lines than make it sure, -1 for
            all other points, shape (n,).
    """

    points: Bools
    spots: Bools
    unsure: Ints


def reached(
    sight: Sight, open_spots: Bools, among: Ints, width: float, rng: np.random.Generator, tell: Tell
) -> Reached:
    """Return which points are reached through air of a width.

    Args:
        sight: the points.
        open_spots: spots that are known to be reached, shape (2 n,).
        among: the points that are asked about.
        width: air narrower than this lets nothing through.
        rng: draws which points look at each other.
        tell: told the share that is done.
    """
    spots = open_spots.copy()
    left = among[~spots.reshape(-1, 2)[among].any(axis=1)]
    view = sight.through(width, among)
    clear, shy = view.look_out(left, lambda share: tell(share / 2))
    spots[clear] = True
    left = np.setdiff1d(left, clear // 2, assume_unique=True)
    both = np.concatenate([2 * left, 2 * left + 1])
    hollows = _Hollows(view, sight.points, spots, both[view.has_air[both]], shy, among, rng)
    opened, unsure = hollows.opened(lambda share: tell((1 + share) / 2))
    spots[opened] = True
    return Reached(spots[0::2] | spots[1::2], spots, unsure)


class _Hollows:
    """Spots that hardly see out or not at all, taken together where they see each other.

    One line to the outside must not open a hollow for certain, however many spots see the one that
    has it. So each hollow counts the spots in the open that it sees, and its own that see out.
    """

    def __init__(
        self,
        view: Lookout,
        points: Floats,
        open_spots: Bools,
        spots: Ints,
        shy: Ints,
        among: Ints,
        rng: np.random.Generator,
    ) -> None:
        self._view, self._points, self._open, self._rng = view, points, open_spots, rng
        self._among, self._spots = among, spots
        self._place = np.full(len(open_spots), -1)
        self._place[self._spots] = np.arange(len(self._spots))
        self._hollow_of = np.arange(len(self._spots))
        self._lines_out = np.stack([self._place[shy], shy], axis=1)

    def opened(self, tell: Tell) -> tuple[Ints, Ints]:
        """Return the spots of hollows that open, and the unsure hollow of each point, else -1."""
        unsure = np.full(len(self._open) // 2, -1)
        if not len(self._spots):
            return self._spots, unsure
        near = self._neighbours()
        idle = 0
        for number in range(PASSES):
            found = self._look(np.arange(len(self._spots)), near[:, number % near.shape[1]])
            idle = 0 if found else idle + 1
            if idle == IDLE_PASSES:
                break
            tell((number + 1) / PASSES / 2)
        for number in range(PASSES * (MORE_PASSES - 1)):
            ways = self._of_hollow()
            left = np.flatnonzero((ways > 0) & (ways < SURE) & self._is_large())
            if not len(left):
                break
            self._look(left, near[left, number % near.shape[1]])
            tell(0.5 + (number + 1) / PASSES / MORE_PASSES / 2)
        ways = self._of_hollow()
        few = (ways > 0) & (ways < SURE)
        unsure[self._spots[few] // 2] = self._hollow_of[few]
        return self._spots[ways > 0], unsure

    def _is_large(self) -> Bools:
        """Return which spots are in a hollow that is worth looking longer."""
        sizes = np.bincount(self._hollow_of, minlength=len(self._spots))
        large: Bools = sizes[self._hollow_of] > LEAST_SHARE * len(self._among)
        return large

    def _neighbours(self) -> Ints:
        """Return the points nearest to each spot, shape (spots, k)."""
        from scipy.spatial import cKDTree

        count = min(NEIGHBOURS + 1, len(self._among))
        tree = cKDTree(self._points[self._among])
        mine, which = np.unique(self._spots // 2, return_inverse=True)
        _, near = tree.query(self._points[mine], k=count)
        nearest: Ints = self._among[near.reshape(len(mine), count)][which]
        return nearest[:, 1:] if count > 1 else nearest

    def _look(self, places: Ints, near: Ints) -> int:
        """Have some spots look at a point near by and at any one, and take together what meets.

        Returns:
            How many lines were found, out of a hollow or from one to another.
        """
        far = self._rng.choice(self._among, len(places))
        sources, points = np.tile(places, 2), np.concatenate([near, far])
        ways = self._of_hollow()[sources]
        here = self._hollow_of[sources]
        there = np.stack([self._place[2 * points], self._place[2 * points + 1]])
        same = ((there >= 0) & (self._hollow_of[there] == here)).any(axis=0)
        asked = np.flatnonzero((ways < SURE) & ~same)
        seen, ends = self._view.links(self._spots[sources[asked]], points[asked])
        start = sources[asked[seen]]
        out = self._open[ends]
        new = np.stack([start[out], ends[out]], axis=1)
        self._lines_out = np.concatenate([self._lines_out, new])
        inner = ~out & (self._place[ends] >= 0)
        self._join(start[inner], self._place[ends[inner]])
        return len(seen)

    def _join(self, first: Ints, second: Ints) -> None:
        """Take hollows together that see each other."""
        from scipy.sparse import coo_array
        from scipy.sparse.csgraph import connected_components

        if not len(first):
            return
        count = len(self._spots)
        pairs = self._hollow_of[first], self._hollow_of[second]
        graph = coo_array((np.ones(len(first)), pairs), shape=(count, count))
        _, number = connected_components(graph, directed=False)
        self._hollow_of = number[self._hollow_of].astype(np.int64)

    def _of_hollow(self) -> Ints:
        """Return, for each spot, how many lines lead out of its hollow, each to another spot."""
        start, end = self._lines_out.T
        pairs = np.unique(self._hollow_of[start] * len(self._open) + end)
        totals = np.bincount(pairs // len(self._open), minlength=len(self._spots))
        ways: Ints = totals[self._hollow_of].astype(np.int64)
        return ways
