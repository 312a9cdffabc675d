"""True hidden-surface removal: of each facet, the region of the sheet where nothing is nearer.

Facets belong to closed solids, so two of them never cross: where their projections overlap, one is
nearer over each connected stretch of the overlap, and that stretch is taken off the other. Nothing
is sorted, so rings of parts that hide each other come out right. For flat faces that is exact. The
strips of round ones count as plane when depths are compared (off by 0.07 mm for a leg of 100 mm);
their outlines are not touched by that. Where triangles of one imported solid cross each other, the
middle of the overlap decides.
"""

from collections import defaultdict
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
import numpy.typing as npt

from shapes.solids import Floats, Ints
from shapes.surfaces import Surface, unit_sums
from surfacecalc.closeness import EDGE_ON, LEAST_WIDTH_MM, PROJECTED_PLACES, SAME_DEPTH_MM
from surfacecalc.pictures.seen_facets import (
    Facing,
    Region,
    cleaned,
    facing_facets,
    is_same_area,
    merged,
    widths,
)
from surfacecalc.pictures.views import View


@dataclass(frozen=True, eq=False)
class Seen:
    """What a view shows of a surface.

    Attributes:
        facets: numbers of the facets that face the viewer, shape (n,).
        regions: of each, the region that nothing hides [mm on the sheet, unscaled], shape (n,).
        whole: whether nothing hides any of it, shape (n,).
        face_of: face of each, shape (n,).
        sheet_of: smooth sheet of each, shape (n,).
        normals: outward unit normal of each, shape (n, 3).
    """

    facets: Ints
    regions: npt.NDArray[Any]
    whole: npt.NDArray[np.bool_]
    face_of: Ints
    sheet_of: Ints
    normals: Floats

    @cached_property
    def empty(self) -> npt.NDArray[np.bool_]:
        """Whether each is hidden altogether, shape (n,)."""
        import shapely

        found: npt.NDArray[np.bool_] = shapely.is_empty(self.regions)
        return found


def see(surface: Surface, view: View) -> Seen:
    """Return the regions of each facet of a surface that a view shows."""
    points = np.round(view.project(surface.vertices), PROJECTED_PLACES) + 0.0
    crossed = view.project(surface.crossed_mm2)
    shown = np.flatnonzero(crossed[:, 2] > EDGE_ON * np.linalg.norm(crossed, axis=1))
    facets, first, facet_of = np.unique(
        surface.facet_of[shown], return_index=True, return_inverse=True
    )
    facing = facing_facets(points[surface.triangles[shown]], crossed[shown], facet_of)
    triangles = shown[first]
    sheets, faces = surface.sheet_of[triangles], surface.face_of[triangles]
    normals = unit_sums(facet_of, surface.crossed_mm2[shown])
    wide = np.flatnonzero(widths(facing.polygons) > LEAST_WIDTH_MM)
    facing = facing.chosen(wide)
    layers = _layers(facing, sheets[wide])
    left = _cut_by_layers(facing, layers) if len(wide) else facing.polygons
    regions = _cut(left, _hiding(facing, _pairs(facing, layers, left)))
    whole = np.array(
        [a is b for a, b in zip(regions, facing.polygons, strict=True)], dtype=np.bool_
    )
    return Seen(facets[wide], regions, whole, faces[wide], sheets[wide], normals[wide])


def _layers(facing: Facing, sheets: Ints) -> Ints:
    """Return a number for each facet; those of one number cannot hide each other."""
    layers = np.arange(len(sheets))
    for sheet in np.unique(sheets):
        mine = np.flatnonzero(sheets == sheet)
        pieces = facing.polygons[mine]
        if is_same_area(merged(pieces), pieces):
            layers[mine] = mine[0]
    return layers


def _pairs(facing: Facing, layers: Ints, left: npt.NDArray[Any]) -> Ints:
    """Return pairs of facets whose boxes overlap and that may still hide each other, shape (2, p).

    Left out are pairs in one layer, pairs with nothing left to hide, and pairs apart in depth whose
    farther one has lost to the nearer one's layer already.
    """
    import shapely

    if not len(facing.polygons):
        return np.zeros((2, 0), dtype=np.int64)
    pairs: Ints = shapely.STRtree(facing.polygons).query(facing.polygons)
    boxes = shapely.bounds(facing.polygons)
    first, second = boxes[pairs[0]], boxes[pairs[1]]
    across = np.minimum(first[:, 2:], second[:, 2:]) - np.maximum(first[:, :2], second[:, :2])
    keep = (pairs[0] < pairs[1]) & (across > LEAST_WIDTH_MM).all(axis=1)
    keep &= layers[pairs[0]] != layers[pairs[1]]
    gone = shapely.is_empty(left)
    for far, near in (pairs, pairs[::-1]):
        keep &= ~(gone[far] & (facing.low[near] >= facing.high[far] - SAME_DEPTH_MM))
    keep &= ~(gone[pairs[0]] & gone[pairs[1]])
    return pairs[:, keep]


def _covers(facing: Facing, layers: Ints) -> tuple[Ints, Ints, list[Region]]:
    """Return pairs (facet, number of a whole layer that is nearer than it), and the layers."""
    import shapely

    numbers, member_of = np.unique(layers, return_inverse=True)
    low = np.full(len(numbers), np.inf)
    np.minimum.at(low, member_of, facing.low)
    order = np.argsort(member_of, kind="stable")
    members = np.split(facing.polygons[order], np.cumsum(np.bincount(member_of))[:-1])
    wholes = [merged(one) for one in members]
    near, far = shapely.STRtree(facing.polygons).query(np.array(wholes), predicate="intersects")
    ahead = (low[near] >= facing.high[far] - SAME_DEPTH_MM) & (member_of[far] != near)
    return far[ahead], near[ahead], wholes


def _cut_by_layers(facing: Facing, layers: Ints) -> npt.NDArray[Any]:
    """Return the polygons without what lies behind whole layers."""
    import shapely

    far, near, wholes = _covers(facing, layers)
    by_facet: dict[int, list[int]] = defaultdict(list)
    for facet, layer in zip(far.tolist(), near.tolist(), strict=True):
        by_facet[facet].append(layer)
    by_cover: dict[tuple[int, ...], list[int]] = defaultdict(list)
    for facet, found in by_facet.items():
        by_cover[tuple(found)].append(facet)
    left = facing.polygons.copy()
    for covering, facets in by_cover.items():
        cover = shapely.union_all([wholes[layer] for layer in covering])
        shapely.prepare(cover)
        left[facets] = cleaned(shapely.difference(left[facets], cover))
    return left


def _hiding(facing: Facing, pairs: Ints) -> dict[int, list[Region]]:
    """Return the regions that hide each facet.

    Where one of a pair is nearer wherever they overlap, that is all of it: an overlap that was
    worked out would leave a hair of the other along their common edge.
    """
    import shapely

    shared = shapely.intersection(facing.polygons[pairs[0]], facing.polygons[pairs[1]])
    parts, source = shapely.get_parts(shared, return_index=True)
    wide = widths(parts) > LEAST_WIDTH_MM
    parts, source = parts[wide], source[wide]
    middles = shapely.get_coordinates(shapely.centroid(parts))
    ahead = facing.nearness(pairs[1, source], middles) - facing.nearness(pairs[0, source], middles)
    hiding: dict[int, list[Region]] = defaultdict(list)
    count = pairs.shape[1]
    for way, (far, near) in ((1, pairs), (-1, pairs[::-1])):
        wins = np.bincount(source[way * ahead > SAME_DEPTH_MM], minlength=count) > 0
        loses = np.bincount(source[way * ahead < -SAME_DEPTH_MM], minlength=count) > 0
        for pair in np.flatnonzero(wins & ~loses).tolist():
            hiding[int(far[pair])].append(facing.polygons[near[pair]])
        for k in np.flatnonzero((wins & loses)[source] & (way * ahead > SAME_DEPTH_MM)).tolist():
            hiding[int(far[source[k]])].append(_wider(parts[k]))
    return hiding


def _wider(region: Region) -> Region:
    """Return a region with a rim that takes such hairs along."""
    return region.buffer(LEAST_WIDTH_MM / 2, join_style="mitre")


def _cut(polygons: npt.NDArray[Any], hiding: dict[int, list[Region]]) -> npt.NDArray[Any]:
    """Return the polygons without what hides each."""
    import shapely

    left = polygons.copy()
    numbers = list(hiding)
    for number, regions in hiding.items():
        cover = shapely.union_all(regions) if len(regions) > 1 else regions[0]
        left[number] = shapely.difference(polygons[number], cover)
    if numbers:
        left[numbers] = cleaned(left[numbers])
    return left
