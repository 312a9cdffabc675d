"""Facets that face the viewer, projected, and regions of the sheet free of rounding."""

from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt

from shapes.solids import Floats, Ints, sums
from shapes.surfaces import unit_sums
from surfacecalc.closeness import LEAST_WIDTH_MM, ONE_LAYER

Region = Any
"""A shapely polygon or multipolygon."""


@dataclass(frozen=True, eq=False)
class Facing:
    """Facets that face the viewer, projected: polygons, planes and spans of nearness."""

    polygons: npt.NDArray[Any]
    planes: Floats
    low: Floats
    high: Floats

    def chosen(self, facets: Ints) -> "Facing":
        """Return some of the facets."""
        return Facing(
            self.polygons[facets], self.planes[facets], self.low[facets], self.high[facets]
        )

    def nearness(self, facets: Ints, points: Floats) -> Floats:
        """Return how near each facet's plane is at a point, within the span of the facet."""
        a, b, c = self.planes[facets].T
        near: Floats = np.clip(
            a * points[:, 0] + b * points[:, 1] + c, self.low[facets], self.high[facets]
        )
        return near


def facing_facets(corners: Floats, crossed: Floats, facet_of: Ints) -> Facing:
    """Return facets from their projected triangles.

    Args:
        corners: of each triangle, right, up and nearness [mm], shape (t, 3, 3).
        crossed: normal of each triangle in the same axes, as long as twice its area, shape (t, 3).
        facet_of: facet of each triangle, from 0 up, shape (t,).
    """
    import shapely

    count = int(facet_of.max(initial=-1)) + 1
    order = np.argsort(facet_of, kind="stable")
    triangles = shapely.polygons(corners[order, :, :2])
    groups = np.split(triangles, np.cumsum(np.bincount(facet_of, minlength=count))[:-1])
    polygons = np.empty(count, dtype=object)
    for k in range(count):
        polygons[k] = merged(groups[k])
    low, high = np.full(count, np.inf), np.full(count, -np.inf)
    np.minimum.at(low, facet_of, corners[:, :, 2].min(axis=1))
    np.maximum.at(high, facet_of, corners[:, :, 2].max(axis=1))
    normals = unit_sums(facet_of, crossed)
    weights = np.linalg.norm(crossed, axis=1)
    middles = corners.mean(axis=1) * weights[:, None]
    middle = np.stack([sums(facet_of, middles[:, k], count) for k in range(3)], axis=1)
    middle /= sums(facet_of, weights, count)[:, None]
    levels = (normals * middle).sum(axis=1)
    planes = np.column_stack([-normals[:, :2], levels]) / normals[:, 2:]
    return Facing(polygons, planes, low, high)


def merged(pieces: npt.NDArray[Any]) -> Region:
    """Return one region of pieces that share their corners along common edges."""
    import shapely

    if len(pieces) == 1:
        return pieces[0]
    try:
        whole = shapely.coverage_union_all(pieces)
    except shapely.GEOSException:  # pieces that lie on each other, as a strip seen almost edge-on
        return shapely.union_all(pieces)
    if whole.is_valid and is_same_area(whole, pieces):
        return whole
    return shapely.union_all(pieces)


def is_same_area(whole: Region, pieces: npt.NDArray[Any]) -> bool:
    """Whether pieces fill a region without lying on each other."""
    import shapely

    total = float(shapely.area(pieces).sum())
    return abs(float(whole.area) - total) <= ONE_LAYER * total


def gathered(regions: list[Region]) -> Region:
    """Return regions that do not overlap as one, without joining what touches."""
    import shapely

    return shapely.multipolygons(shapely.get_parts(np.array(regions, dtype=object)))


def clean(region: Region) -> Region:
    """Return the polygons of a region that are wider than rounding, without holes that are not."""
    import shapely

    parts = shapely.get_parts(region)
    parts = parts[shapely.get_type_id(parts) == shapely.GeometryType.POLYGON]
    parts = parts[widths(parts) > LEAST_WIDTH_MM]
    holed = shapely.get_num_interior_rings(parts) > 0
    parts[holed] = [_without_slits(part) for part in parts[holed]]
    return shapely.MultiPolygon(parts.tolist())


def cleaned(regions: npt.NDArray[Any]) -> npt.NDArray[Any]:
    """Return each region as `clean` does and without hairs that stand out of it.

    A hair is left where an edge of what hides and one of what is hidden should coincide.
    """
    import shapely

    inner = shapely.buffer(regions, -LEAST_WIDTH_MM / 2, join_style="mitre")
    regions = shapely.buffer(inner, LEAST_WIDTH_MM / 2, join_style="mitre")

    is_plain = shapely.get_type_id(regions) == shapely.GeometryType.POLYGON
    is_plain &= shapely.get_num_interior_rings(regions) == 0
    is_plain &= widths(regions) > LEAST_WIDTH_MM
    found = regions.copy()
    for k in np.flatnonzero(~is_plain & ~shapely.is_empty(regions)).tolist():
        found[k] = clean(regions[k])
    return found


def _without_slits(polygon: Region) -> Region:
    import shapely

    rings = shapely.get_rings(polygon)[1:]
    wide = widths(shapely.polygons(rings)) > LEAST_WIDTH_MM
    return shapely.polygons(polygon.exterior, rings[wide])


def widths(regions: npt.NDArray[Any]) -> Floats:
    """Return the mean width of regions [mm], 0 where they have no area."""
    import shapely

    areas, lengths = shapely.area(regions), shapely.length(regions)
    found: Floats = np.divide(2 * areas, lengths, out=np.zeros_like(areas), where=areas > 0)
    return found
