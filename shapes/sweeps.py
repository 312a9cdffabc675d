"""A profile swept along a line in plan: corners, triangles and true areas, for all that is moulded.

Every point of the profile runs along the line as far out as it lies, so what is swept is mitred at
corners. The area of a strip is the integral of its length over its girth: its length grows evenly
with the way out where corners run straight outward, so girth times the length at its mean is exact;
else quadrature over the girth is, to 1e-9.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from shapes.grid import to_mm2
from shapes.offset_paths import Path
from shapes.outline_boards import edge_normals
from shapes.outlines import Ring
from shapes.solids import Floats, Ints, Patch
from shapes.tolerances import GRID_PER_MM

PROFILE_SIDES = 64
"""Sides of the polygon that stands for a whole circle of the profile, where it runs along a curve.
As for spindles: the mesh is a product of both."""

MITRE_STEP = GRID_PER_MM // 2
"""How far out a straight line of the profile runs in one step, where a mitre is curved [grid
units]: a mitre that curves with a radius of 100 mm is then off by 0.0003 mm."""

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(6)


@dataclass(frozen=True, eq=False)
class Sweep:
    """A profile and the line that it runs along.

    Attributes:
        path: the line.
        ring: the profile closed, in (out, up).
        edges: how many edges of the ring are swept, from its first.
        shift: what is added to `out` to get how far out of the line it lies [grid units].
    """

    path: Path
    ring: Ring
    edges: int
    shift: float

    @cached_property
    def _cut(self) -> tuple[Floats, Ints]:
        """Points of the profile from the first to the end of the last edge, and each one's edge."""
        points = np.concatenate([self.ring.points, self.ring.points[:1]])
        found, edge_of = [points[0]], []
        for number in range(self.edges):
            a, b = points[number], points[number + 1]
            steps = 1
            if not self.path.is_linear:
                steps = max(1, int(np.ceil(abs(b[0] - a[0]) / MITRE_STEP)))
            found += [a + (b - a) * k / steps for k in range(1, steps)] + [b]
            edge_of += [number] * steps
        return np.array(found), np.array(edge_of, dtype=np.int64)

    @property
    def profile(self) -> Floats:
        """Points (out, up) that are swept, shape (levels, 2)."""
        return self._cut[0]

    @cached_property
    def corners(self) -> Floats:
        """Where each of them passes each station, shape (levels, stations, 3)."""
        plan = self.path.points(self.profile[:, 0] + self.shift)
        heights = np.broadcast_to(self.profile[:, None, 1:], (*plan.shape[:2], 1))
        corners: Floats = np.concatenate([plan, heights], axis=2)
        return corners

    def strips(self, numbers: Ints) -> tuple[Ints, Ints]:
        """Return the triangles of what is swept and moves, and the patch of each.

        Args:
            numbers: of the corners, shape (levels, stations).

        Returns:
            Triangles, and for each span times `edges` plus its edge of the profile.
        """
        edge_of, stations = self._cut[1], numbers.shape[1]
        here = np.arange(len(self.path.span_of))
        moving = here[self.path.moves[self.path.span_of]]
        after = (moving + 1) % stations
        low, high = numbers[:-1], numbers[1:]
        quads = np.stack(
            [low[:, moving], low[:, after], high[:, after], high[:, moving]], axis=2
        ).reshape(-1, 4)
        patch_of = self.path.span_of[moving][None] * self.edges + edge_of[:, None]
        return quads[:, [0, 1, 2, 0, 2, 3]].reshape(-1, 3), np.repeat(patch_of.ravel(), 2)

    @cached_property
    def areas(self) -> Floats:
        """True area of each edge of the profile along each span, (spans, edges) [square units]."""
        lengths = self.ring.lengths[: self.edges]
        means = self.ring.moments[: self.edges, 0] / lengths + self.shift
        if self.path.is_linear:
            along: Floats = self.path.lengths(means)
        else:
            along = self._mean_lengths(means)
        return along.T * lengths

    @cached_property
    def standing_areas(self) -> Floats:
        """True area of each span as an upright wall between its mitres, shape (spans,)."""
        points = np.concatenate([self.ring.points, self.ring.points[:1]])[: self.edges + 1]
        means = (points[1:, 0] + points[:-1, 0]) / 2 + self.shift
        along = self.path.lengths(means) if self.path.is_linear else self._mean_lengths(means)
        areas: Floats = np.diff(points[:, 1]) @ along
        return areas

    def _mean_lengths(self, means: Floats) -> Floats:
        points = np.concatenate([self.ring.points, self.ring.points[:1]])[: self.edges + 1]
        offsets = means[:, None] + np.diff(points[:, 0])[:, None] / 2 * _NODES
        lengths = self.path.lengths(offsets.ravel())
        mean: Floats = np.tensordot(lengths.reshape(*offsets.shape, -1), _WEIGHTS / 2, (1, 0))
        return mean

    def patches(self, names: list[list[str]]) -> list[Patch]:
        """Return the patch of each edge of the profile along each span, flat or curved.

        Args:
            names: the face of each, by span and edge.
        """
        patches = []
        curved = self.ring.is_curved
        normals = edge_normals(self.ring.points).tolist()
        for span, (x, y) in enumerate(self.path.ways.tolist()):
            for edge in range(self.edges):
                out, up = normals[edge]
                is_level = abs(up) == 1 and not curved[edge]
                normal = None
                if is_level or not (curved[edge] or self.path.is_curved[span]):
                    normal = (out * y + 0.0, -out * x + 0.0, up + 0.0)
                area = to_mm2(float(self.areas[span, edge]))
                patches.append(Patch(names[span][edge], area, normal))
        return patches
