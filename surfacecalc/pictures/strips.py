"""Broad strips: neighbouring facets of a curved sheet that are nearly one plane, taken as one.

A turned side comes as narrow bands, since its area is reckoned band by band; a picture needs no
such fineness. Promises the same triangles, faces and sheets, so outlines stay as they are, and
that no strip stands out of its plane by more than `OUT_OF_PLANE_MM`.
"""

from dataclasses import replace

import numpy as np

from shapes.solids import Floats, Ints
from shapes.surfaces import STRIP_STEP, Surface, connected, unit_sums
from surfacecalc.closeness import OUT_OF_PLANE_MM

SPANS_MM = (np.inf, 80.0, 40.0, 20.0)
"""Facets go into one strip while their middles lie in the same cube of this side [mm]. Where strips
of one span stand out too far, the next one is tried."""


def with_broad_strips(surface: Surface) -> Surface:
    """Return a surface whose facets are joined to strips as broad as a picture allows."""
    facets = surface.facet_of
    pairs = _edge_pairs(surface)
    normals = unit_sums(facets, surface.crossed_mm2)
    strip_of = np.arange(len(normals))
    settled = np.zeros(len(normals), dtype=np.bool_)
    rounded = np.round(normals / STRIP_STEP)
    middles = _middles_mm(surface)
    for span in SPANS_MM:
        keys = np.column_stack([rounded, np.floor(middles / span)])
        alike = (keys[pairs[:, 0]] == keys[pairs[:, 1]]).all(axis=1)
        alike &= ~settled[pairs].any(axis=1)
        joined = connected(len(normals), pairs[alike])
        level = (_rise_mm(surface, joined[facets]) <= OUT_OF_PLANE_MM)[joined] & ~settled
        strip_of[level] = joined[level]
        settled |= level
    return replace(surface, facet_of=np.unique(strip_of[facets], return_inverse=True)[1])


def _edge_pairs(surface: Surface) -> Ints:
    """Return pairs of facets of one sheet that share an edge, each once, shape (p, 2)."""
    ends = np.sort(surface.triangles[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1)
    order = np.lexsort(ends.T)
    same = np.flatnonzero((ends[order[1:]] == ends[order[:-1]]).all(axis=1))
    first, second = order[same] // 3, order[same + 1] // 3
    one_sheet = surface.sheet_of[first] == surface.sheet_of[second]
    facets = np.stack([surface.facet_of[first], surface.facet_of[second]], axis=1)[one_sheet]
    is_between = facets[:, 0] != facets[:, 1]
    found: Ints = np.unique(np.sort(facets[is_between], axis=1), axis=0)
    return found


def _middles_mm(surface: Surface) -> Floats:
    """Return the mean corner of each facet [mm], shape (n, 3)."""
    facets = surface.facet_of
    corners = surface.vertices[surface.triangles].mean(axis=1)
    counts = np.bincount(facets)
    totals = [np.bincount(facets, weights=corners[:, k]) for k in range(3)]
    middles: Floats = np.stack(totals, axis=1) / counts[:, None]
    return middles


def _rise_mm(surface: Surface, strip_of: Ints) -> Floats:
    """Return how far each strip's corners stand apart along its mean normal [mm]."""
    count = int(strip_of.max(initial=-1)) + 1
    normals = unit_sums(strip_of, surface.crossed_mm2)
    corners = surface.vertices[surface.triangles]
    levels = (corners * normals[strip_of][:, None, :]).sum(axis=2)
    low, high = np.full(count, np.inf), np.full(count, -np.inf)
    np.minimum.at(low, strip_of, levels.min(axis=1))
    np.maximum.at(high, strip_of, levels.max(axis=1))
    rise: Floats = high - low
    return rise
