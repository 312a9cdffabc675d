"""What of a surface can see out, by rays: for surfaces that close off no solid.

Points are spread over the surface, one in each of many equal shares of its area. From both sides of
each, rays go out over the hemisphere (`sight`); a point from which one leaves the piece is exposed,
and so is a point that sees such a point, or sees one that does (`hollows`). A line through air
narrower than the gap does not count (`openings`): what lies behind a crack is closed. A sheet
counts once whichever of its sides is exposed, and so do sheets that lie on each other. Errors are
standard errors at 1 sigma: of the sampling, and of hollows that too few lines showed to be open.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from shapes.errors import ShapeError
from shapes.meshes.chunked_sums import areas_and_volumes
from shapes.meshes.hollows import reached
from shapes.meshes.rays import Bools, Caster
from shapes.meshes.sight import LIFT, Sight, Tell
from shapes.solids import Floats, Ints, sums

ASKEW = np.array([0.5345, 0.2673, 0.8018], dtype=np.float32)
"""A direction along no edge of furniture."""

LEAST_POINTS = 200
"""A region gets at least so many points, or its even share of them if that is fewer."""

SPREAD_BITS: Ints = np.bitwise_or.reduce(
    [(np.arange(1024) >> bit & 1) << 3 * bit for bit in range(10)]
)
"""Numbers of ten bits with each bit moved to three times its place."""
PLACE_BITS = 30

LEAST_COUNT, MOST_POINTS = 100, 10_000_000
MOST_DIRECTIONS = 4_096


@dataclass(frozen=True, eq=False)
class SeenArea:
    """What is exposed.

    Attributes:
        areas: exposed area by region [square units of the corners], shape (regions,).
        errors: standard error of each, shape (regions,).
        error: standard error of the sum.
        points: how many points were tried.
        directions: how many directions at most from each side of a point.
        rays: how many rays were cast.
        narrow: area that is seen, but through air narrower than `widest` only.
        behind_cracks: area that air narrower than the gap closes off; not among the areas.
    """

    areas: Floats
    errors: Floats
    error: float
    points: int
    directions: int
    rays: int
    narrow: float = 0.0
    behind_cracks: float = 0.0


def reach(
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
    progress: Callable[[float], None] | None = None,
) -> SeenArea:
    """Return how much of each region is exposed.

    Args:
        vertices: corners, shape (v, 3).
        triangles: corner numbers, no two triangles back to back, shape (t, 3).
        region_of: region of each triangle, shape (t,).
        regions: how many regions there are.
        points: how many points to try in all, from 100 to 10 million.
        directions: how many directions to look along from each side, from 4 to 4 096.
        seed: of points and directions.
        gap: what is reached through narrower air only counts as closed [unit of the corners].
        widest: air narrower than this is worth naming [unit of the corners].
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
    sight, unit = _sight(vertices, triangles, where, chosen, directions, rng)
    among = _uppermost(sight, chosen)
    widths = tuple(width / unit for width in (*sorted({gap, widest} - {0.0}, reverse=True), 0.0))
    seen, unsure = _by_widths(sight, among, widths, rng, progress or (lambda share: None))
    region = np.repeat(np.arange(regions), counts)
    point_areas = (totals / np.maximum(counts, 1))[region]
    at_gap = -1 if gap == 0 else -2
    doubts, doubt = _doubt(unsure[at_gap], point_areas, region, regions)
    shares, variances = _shares(seen[at_gap], counts)
    errors2 = totals**2 * variances
    return SeenArea(
        totals * shares,
        np.sqrt(errors2 + doubts),
        float(np.sqrt(errors2.sum() + doubt)),
        len(where),
        directions,
        sight.caster.rays,
        narrow=float(point_areas[seen[at_gap] & ~seen[0]].sum()),
        behind_cracks=float(point_areas[seen[-1] & ~seen[at_gap]].sum()),
    )


def _check_counts(points: int, directions: int) -> None:
    if not LEAST_COUNT <= points <= MOST_POINTS:
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


def _sight(
    vertices: Floats,
    triangles: Ints,
    where: Floats,
    chosen: Ints,
    directions: int,
    rng: np.random.Generator,
) -> tuple[Sight, float]:
    """Return what casts rays from points on chosen triangles, and the length of its unit."""
    middle = (where.min(axis=0) + where.max(axis=0)) / 2
    size = float(np.abs(vertices - middle).max())
    caster = Caster((vertices - middle) / size, triangles)
    a, b, c = (vertices[triangles[chosen, k]] for k in range(3))
    normals = np.cross(b - a, c - a)
    normals /= np.maximum(np.linalg.norm(normals, axis=1, keepdims=True), np.finfo(float).tiny)
    return Sight(caster, (where - middle) / size, normals, directions, rng), size


def _uppermost(sight: Sight, chosen: Ints) -> Ints:
    """Return the points that belong to the first triangle met from above; the sheet counts there.

    Where sheets lie on each other, or bodies have a face in one plane, each spot of it counts once
    so, whichever way the sheets face: "above" is one side of a plane that is square to nothing.
    """
    points, normals = sight.points.astype(np.float32), sight.normals.astype(np.float32)
    upward = normals * np.copysign(np.float32(1), normals @ ASKEW)[:, None]
    met = sight.caster.first(points + np.float32(LIFT) * upward, -upward)
    return np.flatnonzero(met == chosen)


def _by_widths(
    sight: Sight, among: Ints, widths: tuple[float, ...], rng: np.random.Generator, tell: Tell
) -> tuple[list[Bools], list[Ints]]:
    """Return which points are reached, and their unsure hollows, for each width, widest first."""
    spots = np.zeros(2 * len(sight.points), dtype=np.bool_)
    seen, unsure = [], []
    for number, width in enumerate(widths):
        start = number

        def part(share: float, start: int = start) -> None:
            tell((start + share) / len(widths))

        found = reached(sight, spots, among, width, rng, part)
        spots = found.spots
        seen.append(found.points)
        unsure.append(found.unsure)
    return seen, unsure


def _doubt(unsure: Ints, areas: Floats, regions: Ints, count: int) -> tuple[Floats, float]:
    """Return the variance that unsure hollows add, by region and of the sum.

    Such a hollow may as well be closed: half its area is the standard deviation.

    Args:
        unsure: the unsure hollow of each point, -1 for none.
        areas: what each point counts for.
        regions: the region of each point.
        count: how many regions there are.
    """
    chosen = np.flatnonzero(unsure >= 0)
    if not len(chosen):
        return np.zeros(count), 0.0
    _, hollow = np.unique(unsure[chosen], return_inverse=True)
    table = np.zeros((int(hollow.max()) + 1, count))
    np.add.at(table, (hollow, regions[chosen]), areas[chosen])
    return (table**2).sum(axis=0) / 4, float((table.sum(axis=1) ** 2).sum() / 4)


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
