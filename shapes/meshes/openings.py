"""How wide the air around a line of sight is.

A line through a crack has the two edges of the crack close by, one on either side of it. Lines
parallel to it, a little aside, find them: the air is narrow where, along one way across the line,
what is free on both sides together is less than a width.
"""

import numpy as np

from shapes.meshes.rays import Bools, Caster, Singles
from shapes.solids import Floats, Ints

TURNS = 6
"""Ways across a line that are tried, every 30 degrees: a slit that lies between two of them seems
wider than it is by at most 1 / cos 15 degrees, 3.5 %."""

HALVINGS = 6
"""How often the place of an edge is halved: it is found to 1/64 of the width."""


def is_wide(
    caster: Caster, starts: Singles, ways: Singles, lengths: Singles, width: float
) -> Bools:
    """Return which free lines have air around them that is nowhere narrower than a width.

    What bounds the air is taken to be as thick as the width at least, or it is seen past.

    Args:
        caster: casts rays at the mesh.
        starts: where the lines start, a little off the surface, shape (n, 3).
        ways: their unit directions, shape (n, 3).
        lengths: how long they are, shape (n,).
        width: in the unit of the starts.
    """
    wide = np.ones(len(starts), dtype=np.bool_)
    if width <= 0:
        return wide
    least = np.eye(3, dtype=np.float32)[np.abs(ways).argmin(axis=1)]
    one = np.cross(ways, least)
    one /= np.maximum(np.linalg.norm(one, axis=1, keepdims=True), np.float32(1e-30))
    two = np.cross(ways, one)
    for angle in np.arange(TURNS) * np.pi / TURNS:
        left = np.flatnonzero(wide)
        aside = (np.cos(angle) * one[left] + np.sin(angle) * two[left]).astype(np.float32)
        lines = _Lines(caster, starts[left], ways[left], lengths[left], aside)
        full = np.full(len(left), width)
        for sign in (1, -1):
            chosen = np.flatnonzero(lines.blocked(sign * full))
            lines, left, full = lines.some(chosen), left[chosen], full[chosen]
        wide[left] = lines.free(full) + lines.free(-full) >= full
    return wide


class _Lines:
    """Lines with a way across each of them."""

    def __init__(
        self, caster: Caster, starts: Singles, ways: Singles, lengths: Singles, aside: Singles
    ) -> None:
        self._caster = caster
        self._starts, self._ways, self._lengths, self._aside = starts, ways, lengths, aside

    def some(self, chosen: Ints) -> "_Lines":
        """Return chosen ones of the lines."""
        return _Lines(
            self._caster,
            self._starts[chosen],
            self._ways[chosen],
            self._lengths[chosen],
            self._aside[chosen],
        )

    def blocked(self, shifts: Floats) -> Bools:
        """Return which lines meet the mesh on their way aside or, moved aside, along themselves."""
        if not len(shifts):
            return np.zeros(0, dtype=np.bool_)
        across = self._aside * np.sign(shifts).astype(np.float32)[:, None]
        met = self._caster.hits(self._starts, across, np.abs(shifts).astype(np.float32))
        left = np.flatnonzero(~met)
        if len(left):
            moves = self._aside[left] * shifts[left, None].astype(np.float32)
            moved = self._starts[left] + moves
            met[left] = self._caster.hits(moved, self._ways[left], self._lengths[left])
        return met

    def free(self, shifts: Floats) -> Floats:
        """Return how far to one side each line is free; blocked at the whole shift."""
        low, high = np.zeros(len(shifts)), shifts.astype(np.float64)
        for _ in range(HALVINGS):
            middle = (low + high) / 2
            met = self.blocked(middle)
            low, high = np.where(met, low, middle), np.where(met, middle, high)
        free: Floats = np.abs(high)
        return free
