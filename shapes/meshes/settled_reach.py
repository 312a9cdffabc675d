"""Exposed area by rays, with ever more points until the answer moves no more than its error.

A quarter of the points are tried first, then all, and where the two answers differ by more than
chance, four and sixteen times as many. What still moves then is part of the error.
"""

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from shapes.meshes.visibility import LEAST_COUNT, MOST_POINTS, SeenArea, reach
from shapes.solids import Floats, Ints

STEP = 4
"""How many times the points of one answer the next one has; a quarter more time if none follows."""

MOST_STEPS = 3
"""Answers after the first one: the last has 16 times the points that were asked for."""

AGREED = 2.5
"""Standard errors within which two answers agree: 99 times in 100."""


def settled_reach(
    vertices: Floats,
    triangles: Ints,
    region_of: Ints,
    regions: int,
    *,
    points: int = 20_000,
    directions: int = 64,
    seed: int = 1,
    gap: float = 0.0,
    widest: float = 0.0,
    progress: Callable[[float], None] = lambda share: None,
) -> SeenArea:
    """Return what `reach` returns, from as many points as it takes; its arguments are the same."""

    def answer(count: int, start: float, end: float) -> SeenArea:
        return reach(
            vertices,
            triangles,
            region_of,
            regions,
            points=count,
            directions=directions,
            seed=seed + count,
            gap=gap,
            widest=widest,
            progress=lambda share: progress(start + share * (end - start)),
        )

    few = answer(max(LEAST_COUNT, points // STEP), 0.0, 1 / STEP)
    rays, at = few.rays, 1 / STEP
    for step in range(MOST_STEPS):
        count = min(points * STEP**step, MOST_POINTS)
        end = 1 - (1 - at) / STEP
        many = answer(count, at, end)
        rays, at = rays + many.rays, end
        moved = abs(float(many.areas.sum() - few.areas.sum()))
        if moved <= AGREED * float(np.hypot(few.error, many.error)) or count == MOST_POINTS:
            return replace(many, rays=rays)
        few, before = many, few
    moves = np.abs(few.areas - before.areas)
    errors = np.hypot(few.errors, moves / AGREED)
    return replace(few, rays=rays, errors=errors, error=float(np.hypot(few.error, moved / AGREED)))
