"""What of a surface can see out, by rays: for surfaces that close off no solid.

Points are spread over the surface, one in each of many equal shares of its area. From both sides of
each, rays go out over the hemisphere; a point from which one leaves the piece is exposed. A sheet
counts once whichever of its sides sees out, and so do sheets that lie on each other. What can be
seen only round a corner counts as hidden. Errors are standard errors of the sampling alone, at 1
sigma.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np

from shapes.errors import ShapeError
from shapes.meshes.chunked_sums import areas_and_volumes
from shapes.meshes.rays import Bools, Caster, Singles
from shapes.solids import Floats, Ints, sums

LIFT = 2e-5
"""How far off the surface a ray starts, as a share of the mesh's size: 0.02 mm on 1 m. The ray
library works in 32 bits, which hold 6e-8 of the size; faces nearer than this hide each other."""

ASKEW = np.array([0.5345, 0.2673, 0.8018], dtype=np.float32)
"""A direction along no edge of furniture."""

DIRECTION_SETS = 64
"""Sets of directions, each turned at random, that the points draw from."""

CHUNK_RAYS = 500_000
"""Rays cast at once: some 15 MB, and a call that ends within about a second."""

LEAST_POINTS = 200
"""A region gets at least so many points, or its even share of them if that is fewer."""

SPREAD_BITS: Ints = np.bitwise_or.reduce(
    [(np.arange(1024) >> bit & 1) << 3 * bit for bit in range(10)]
)
"""Numbers of ten bits with each bit moved to three times its place."""
PLACE_BITS = 30

MOST_POINTS = 10_000_000
MOST_DIRECTIONS = 4_096


@dataclass(frozen=True, eq=False)
class SeenArea:
    """What can see out.

    Attributes:
        areas: area that sees out by region [square units of the corners], shape (regions,).
        errors: standard error of each, shape (regions,).
        error: standard error of the sum.
        points: how many points were tried.
        directions: how many directions at most from each side of a point.
        rays: how many rays were cast.
    """

    areas: Floats
    errors: Floats
    error: float
    points: int
    directions: int
    rays: int


def reach(
    vertices: Floats,
    triangles: Ints,
    region_of: Ints,
    regions: int,
    *,
    points: int = 20_000,
    directions: int = 64,
    seed: int = 1,
    progress: Callable[[float], None] | None = None,
) -> SeenArea:
    """Return how much of each region can see out.

    Args:
        vertices: corners, shape (v, 3).
        triangles: corner numbers, no two triangles back to back, shape (t, 3).
        region_of: region of each triangle, shape (t,).
        regions: how many regions there are.
        points: how many points to try in all, from 100 to 10 million.
        directions: how many directions to look along from each side, from 4 to 4 096.
        seed: of points and directions.
        progress: told the share that is done between chunks; what it raises passes through.

    Raises:
        ShapeError: points or directions out of range.

    Source: one point in each of n equal shares of the area is stratified sampling, its variance
    estimated from neighbouring shares taken in pairs ("collapsed strata"): W. G. Cochran, Sampling
    Techniques, 3rd edition (1977), section 5A.12 (from memory).

    >>> corners = np.array([[0, 0, 0], [1, 0, 0], [0, 1, 0]], dtype=np.float64)
    >>> found = reach(corners, np.array([[0, 1, 2]]), np.array([0]), 1, points=100)
    >>> found.areas.tolist()
    [0.5]
    """
    _check_counts(points, directions)
    rng = np.random.default_rng(seed)
    areas, _ = areas_and_volumes(vertices, triangles)
    order = np.argsort((region_of << PLACE_BITS) | _places(vertices, triangles), kind="stable")
    totals = sums(region_of, areas, regions)
    counts = _counts(totals, points)
    chosen = order[_spread(areas[order], totals, counts, rng)]
    where = _points_on(vertices, triangles[chosen], rng)
    seen, rays = _which_see_out(vertices, triangles, where, chosen, directions, rng, progress)
    shares, variances = _shares(seen, counts)
    errors = totals * np.sqrt(variances)
    error = float(np.sqrt((errors**2).sum()))
    return SeenArea(totals * shares, errors, error, len(seen), directions, rays)


def _check_counts(points: int, directions: int) -> None:
    if not 100 <= points <= MOST_POINTS:
        raise ShapeError("points", "from 100 to 10 million")
    if not 4 <= directions <= MOST_DIRECTIONS:
        raise ShapeError("directions", "from 4 to 4 096")


def _places(vertices: Floats, triangles: Ints) -> Ints:
    """Number the triangles so that near ones get near numbers (bits of x, y and z in turn)."""
    centres = np.take(vertices, triangles[:, 0], axis=0)
    low, high = centres.min(axis=0), centres.max(axis=0)
    cells = (centres - low) / max(float((high - low).max()), 1e-300) * 1023
    spread = SPREAD_BITS[cells.astype(np.int64)]
    places: Ints = spread[:, 0] | spread[:, 1] << 1 | spread[:, 2] << 2
    return places


def _counts(totals: Floats, points: int) -> Ints:
    """Return how many points each region gets; an even number, none where it has no area."""
    least = min(LEAST_POINTS, points // len(totals))
    wanted = np.maximum(points * totals / totals.sum(), least)
    return np.where(totals > 0, 2 * np.ceil(wanted / 2), 0).astype(np.int64)


def _spread(areas: Floats, totals: Floats, counts: Ints, rng: np.random.Generator) -> Ints:
    """Return the triangle of each point: one point in each equal share of a region's area.

    Args:
        areas: of the triangles, sorted by region.
        totals: area of each region.
        counts: points of each region.
        rng: draws where in its share a point lies.
    """
    ends = np.cumsum(areas)
    starts = np.cumsum([0.0, *totals[:-1]])
    number = np.arange(counts.sum()) - np.repeat(np.cumsum(counts) - counts, counts)
    inside = (number + rng.random(len(number))) / np.repeat(counts, counts)
    along = np.repeat(starts, counts) + inside * np.repeat(totals, counts)
    found: Ints = np.minimum(np.searchsorted(ends, along, side="right"), len(areas) - 1)
    return found


def _points_on(vertices: Floats, triangles: Ints, rng: np.random.Generator) -> Floats:
    """Return a random point on each triangle, shape (n, 3)."""
    u, v = rng.random((2, len(triangles), 1))
    folded = u + v > 1
    u, v = np.where(folded, 1 - u, u), np.where(folded, 1 - v, v)
    a, b, c = (vertices[triangles[:, k]] for k in range(3))
    where: Floats = a + u * (b - a) + v * (c - a)
    return where


def _which_see_out(
    vertices: Floats,
    triangles: Ints,
    where: Floats,
    chosen: Ints,
    directions: int,
    rng: np.random.Generator,
    progress: Callable[[float], None] | None,
) -> tuple[Bools, int]:
    """Return which points see out, and how many rays that took."""
    middle = (where.min(axis=0) + where.max(axis=0)) / 2
    size = float(np.abs(vertices - middle).max())
    caster = Caster((vertices - middle) / size, triangles)
    a, b, c = (vertices[triangles[chosen, k]] for k in range(3))
    normals = np.cross(b - a, c - a)
    normals /= np.maximum(np.linalg.norm(normals, axis=1, keepdims=True), np.finfo(float).tiny)
    scaled, normals = ((where - middle) / size).astype(np.float32), normals.astype(np.float32)
    uncovered = _is_uppermost(caster, scaled, normals, chosen)
    sets = _direction_sets(2 * directions, rng)
    first = rng.integers(0, len(sets) * 2 * directions, len(where))
    seen = np.zeros(len(where), dtype=np.bool_)
    rays = len(where)
    for start, count in _rounds(2 * directions):
        left = np.flatnonzero(uncovered & ~seen)
        for begin in range(0, len(left), max(1, CHUNK_RAYS // count)):
            mine = left[begin : begin + CHUNK_RAYS // count]
            lines = _lines(sets, first[mine], start, count)
            origins = _lifted(scaled[mine], normals[mine], lines)
            hit = caster.hits(origins.reshape(-1, 3), lines.reshape(-1, 3))
            seen[mine] = ~hit.reshape(len(mine), count).all(axis=1)
            rays += len(hit)
            if progress is not None:
                progress((start + count * (begin + len(mine)) / len(left)) / (2 * directions))
    return seen, rays


def _is_uppermost(caster: Caster, points: Singles, normals: Singles, chosen: Ints) -> Bools:
    """Return which points belong to the first triangle met from above; the sheet counts there.

    Where sheets lie on each other, or bodies have a face in one plane, each spot of it counts once
    so, whichever way the sheets face: "above" is one side of a plane that is square to nothing.
    """
    upward = normals * np.copysign(np.float32(1), normals @ ASKEW)[:, None]
    uppermost: Bools = caster.first(points + np.float32(LIFT) * upward, -upward) == chosen
    return uppermost


def _rounds(directions: int) -> Iterator[tuple[int, int]]:
    """Yield (first direction, how many): few at first, as most points soon see out."""
    start, count = 0, 1
    while start < directions:
        yield start, min(count, directions - start)
        start, count = start + count, start + count


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


def _lines(sets: Singles, first: Ints, start: int, count: int) -> Singles:
    """Return `count` directions for each point, from its own set and place, shape (n, count, 3)."""
    in_set = sets.shape[1]
    row = (first // in_set)[:, None]
    column = ((first % in_set)[:, None] + start + np.arange(count)) % in_set
    lines: Singles = sets.reshape(-1, 3)[row * in_set + column]
    return lines


def _lifted(points: Singles, normals: Singles, lines: Singles) -> Singles:
    """Return where the rays start: off the surface, on the side towards which they go."""
    side = np.einsum("nk,nck->nc", normals, lines)
    lift = np.copysign(np.float32(LIFT), side)
    origins: Singles = points[:, None, :] + lift[:, :, None] * normals[:, None, :]
    return origins


def _shares(seen: Bools, counts: Ints) -> tuple[Floats, Floats]:
    """Return the share of each region's points that see out, and its variance.

    A region where all or no points see out still has an error: as if one more of two had not.
    """
    region = np.repeat(np.arange(len(counts)), counts)
    some = np.maximum(counts, 1)
    shares = sums(region, seen.astype(np.float64), len(counts)) / some
    differences = (seen[0::2] != seen[1::2]).astype(np.float64)
    paired = sums(region[0::2], differences, len(counts)) / some**2
    guard = (some + 1) / (some + 2) ** 2 / (some + 2)
    return shares, np.maximum(paired, guard) * (counts > 0)
