"""What a scan leaves unsure of its own area: edges that came out round, and waves.

A scanner rounds sharp edges, which takes area away; and what its noise has in common over several
samples makes waves, which add some. Neither can be told from a piece that is so. Both are measured
here where the scan has flat faces, so that they can be named and counted to what is unsure.

Promises nothing for pieces without flat faces.
"""

from dataclasses import dataclass, replace

import numpy as np

from shapes.meshes.scan_noise import corner_normals
from shapes.solids import Floats, Ints

FLAT, APART = np.cos(np.radians(15)), np.cos(np.radians(30))
"""A triangle is of a flat face when its normal is within 15 degrees of the face's; two faces are
not one when theirs are 30 degrees apart."""

LEAST_FACE = 0.1
"""Share of the area that a way must have for it to be that of a flat face: more than round
furniture has within 15 degrees of any one way (a column 30 / 360)."""

MOST_FACES = 9
"""Flat faces that are looked for."""

LEAST_FLAT = 0.5
"""Share of the area that flat faces must have, or nothing is said of edges and waves."""

RAMP = (10.0, 25.0)
"""Degrees from the nearest flat face between which a triangle counts more and more as one of a
rounded edge: facets of a few samples fall on both sides of any one bound."""

LOST = (2 - np.pi / 2) / (np.pi / 2) / (1 - sum(RAMP) / 2 / 45)
"""What a sharp edge of 90 degrees has more than a round one (two radii instead of pi / 2 of them),
over what counts of the round one."""

SHORT = 1.25
"""How many times as much as is found rounded edges may have lost."""

METHOD, METHOD_BY_NOISE = 0.01, 0.02
"""What taking off noise is off by, as a share of the area, and how much more with noise, which is a
share of the sampling. Seen: 0.5 % on most shapes, 1.1 % with waves on a turned leg."""

LEFT_BY_NOISE = 0.1
"""Share of flat faces that noise leaves after smoothing and that looks like waves, over the square
of the noise, which is a share of the sampling."""

NOTHING = 1e-4
"""Share of the area that edges and waves have in a mesh that has none of either."""

MOST_NOISE = 0.3
"""Noise, as a share of the sampling, from which it looks like rounded edges."""

WORTH_NAMING = 0.005
"""Share of the area from which edges and waves are named."""

TIGHT = 0.2
"""Least turn of the normal per sample of a rounded edge: its radius is below five samples, which is
what a scanner makes; what is rounder was made so."""


@dataclass(frozen=True)
class ScanDoubts:
    """What a scan leaves unsure.

    Attributes:
        rounded: area that sharp edges would have more [square units].
        waved: area that waves add on flat faces [square units].
    """

    rounded: float = 0.0
    waved: float = 0.0

    def without(self, smoothed_off: float) -> "ScanDoubts":
        """Return the same without the area of edges that smoothing rounded, which is put back."""
        return replace(self, rounded=max(0.0, self.rounded - smoothed_off))

    def total(self, area: float, noise: float) -> float:
        """Return how far off the area may be [square units].

        Args:
            area: of the scan without noise [square units].
            noise: that was taken off, as a share of the sampling; 0 where none was.
        """
        seen = SHORT * self.rounded + self.waved
        is_drawn = not noise and seen < NOTHING * area
        return seen + (0.0 if is_drawn else (METHOD + METHOD_BY_NOISE * noise) * area)

    def notes(self, area: float, noise: float) -> tuple[str, ...]:
        """Return what is worth naming; the arguments are the same."""
        rounded = self.rounded / area
        waved = self.waved / area - LEFT_BY_NOISE * noise**2
        found = []
        if rounded > WORTH_NAMING and noise < MOST_NOISE:
            found.append(
                f"edges look rounded; if they are sharp, the true area is about {rounded:.1%} more"
            )
        if waved > WORTH_NAMING:
            found.append(
                f"flat faces look wavy; if they are flat, the true area is about {waved:.1%} less"
            )
        return tuple(found)


def scan_doubts(vertices: Floats, triangles: Ints) -> ScanDoubts:
    """Return what a scan leaves unsure.

    Args:
        vertices: corners without noise, shape (v, 3).
        triangles: corner numbers, shape (t, 3).
    """
    a, b, c = (vertices[triangles[:, k]] for k in range(3))
    across = np.cross(b - a, c - a)
    twice = np.linalg.norm(across, axis=1)
    units = across / np.maximum(twice, 1e-300)[:, None]
    areas = twice / 2
    faces = _flat_ways(units, areas)
    if not len(faces):
        return ScanDoubts()
    nearest = np.max(units @ faces.T, axis=1)
    if areas[nearest > FLAT].sum() < LEAST_FLAT * areas.sum():
        return ScanDoubts()
    normals = corner_normals(vertices, triangles)
    turn = np.max(
        [
            np.linalg.norm(normals[triangles[:, k]] - normals[triangles[:, k - 1]], axis=1)
            for k in range(3)
        ],
        axis=0,
    )
    away = np.degrees(np.arccos(np.clip(nearest, -1.0, 1.0)))
    weight = np.clip((away - RAMP[0]) / (RAMP[1] - RAMP[0]), 0.0, 1.0)
    middle = float((areas * weight)[turn > TIGHT].sum())
    flat = nearest > FLAT
    waved = float((areas[flat] * (1 - nearest[flat])).sum())
    return ScanDoubts(LOST * middle, waved)


def _flat_ways(units: Floats, areas: Floats) -> Floats:
    """Return the ways that flat faces look, largest first, shape (n, 3)."""
    step = max(1, len(units) // 2_000)
    some, weights = units[::step], areas[::step]
    left = weights.copy()
    found: list[Floats] = []
    for _ in range(MOST_FACES):
        near = (some @ some.T > FLAT) @ left
        best = int(near.argmax())
        if near[best] < LEAST_FACE * weights.sum():
            break
        mine = (some @ some[best] > FLAT) & (left > 0)
        way = (some[mine] * left[mine, None]).sum(axis=0)
        way /= np.linalg.norm(way)
        found.append(way)
        left[some @ way > APART] = 0.0
    return np.array(found).reshape(-1, 3)
