"""Scenes: what a view shows of a surface, by zone, with the lines to draw. In mm, not yet scaled.

Lines stand where one smooth sheet of a face ends: at edges, at joints between parts, at silhouettes
of round parts and where something nearer hides the rest; never between triangles.
"""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
import numpy.typing as npt

from shapes.parts import FaceKey
from shapes.solids import Ints
from shapes.surfaces import NO_FACE, Surface
from surfacecalc.closeness import BETWEEN_SHEETS_MM
from surfacecalc.pictures.layout import LIGHT, SHADES
from surfacecalc.pictures.seen_facets import Region, clean, gathered, merged
from surfacecalc.pictures.views import View
from surfacecalc.pictures.visible import Seen, see

Flags = npt.NDArray[np.bool_]


@dataclass(frozen=True, eq=False)
class Scene:
    """What a view shows of a surface.

    Attributes:
        view: the view.
        regions: visible region of each face of which anything shows.
        shades: region of each shade but the lightest, by its number in `layout.SHADES`.
        edges: lines where a sheet ends, a shapely geometry.
    """

    view: View
    regions: Mapping[FaceKey, Region]
    shades: Mapping[int, Region]
    edges: Any

    @cached_property
    def outline(self) -> Region:
        """Everything that shows, as one region."""
        return _joined(list(self.regions.values()))

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Least right, least up, greatest right, greatest up [mm]."""
        left, low, right, high = self.outline.bounds
        return left, low, right, high

    @property
    def size(self) -> tuple[float, float]:
        """Width and height [mm]."""
        left, low, right, high = self.box
        return right - left, high - low

    def areas_mm2(self) -> dict[FaceKey, float]:
        """Return how much of the sheet each face covers [mm2]."""
        return {face: float(region.area) for face, region in self.regions.items()}

    def by_zone(self, zone_of: Mapping[FaceKey, str]) -> dict[str | None, Region]:
        """Return the visible region of each zone, None for faces in no zone."""
        found: dict[str | None, list[Region]] = defaultdict(list)
        for face, region in self.regions.items():
            found[zone_of.get(face)].append(region)
        return {zone: gathered(regions) for zone, regions in found.items()}


def scene(surface: Surface, view: View, *, shaded: bool = False) -> Scene:
    """Return what a view shows of a surface.

    Args:
        surface: the surface.
        view: the view.
        shaded: whether faces turned from the light are to be darkened.
    """
    import shapely

    seen = see(surface, view)
    sheets = {
        sheet: _smooth(seen, seen.sheet_of == sheet)
        for sheet in np.unique(seen.sheet_of[seen.face_of != NO_FACE]).tolist()
    }
    face_of = dict(zip(seen.sheet_of.tolist(), seen.face_of.tolist(), strict=True))
    regions: dict[FaceKey, list[Region]] = defaultdict(list)
    for sheet, region in sheets.items():
        if not region.is_empty:
            regions[surface.faces[face_of[sheet]]].append(region)
    by_face = {face: gathered(found) for face, found in regions.items()}
    rings = [region.boundary for region in sheets.values()]
    edges = shapely.line_merge(shapely.union_all(rings, grid_size=BETWEEN_SHEETS_MM))
    return Scene(view, by_face, _shades(seen) if shaded else {}, edges)


def _joined(regions: list[Region]) -> Region:
    import shapely

    if len(regions) == 1:
        return clean(regions[0])
    return clean(shapely.union_all(regions, grid_size=BETWEEN_SHEETS_MM))


def _smooth(seen: Seen, chosen: Flags) -> Region:
    """Return chosen facets of one sheet as one region."""
    whole = seen.regions[chosen & seen.whole]
    cut = seen.regions[chosen & ~seen.whole & ~seen.empty].tolist()
    return _joined([merged(whole), *cut] if len(whole) else cut)


def _shades(seen: Seen) -> dict[int, Region]:
    shade_of = _shade_numbers(seen)
    found: dict[int, list[Region]] = defaultdict(list)
    real = seen.face_of != NO_FACE
    pairs = np.unique(np.stack([shade_of, seen.sheet_of], axis=1)[real & (shade_of > 0)], axis=0)
    for shade, sheet in pairs.tolist():
        found[shade].append(_smooth(seen, (shade_of == shade) & (seen.sheet_of == sheet)))
    return {shade: gathered(regions) for shade, regions in found.items()}


def _shade_numbers(seen: Seen) -> Ints:
    """Return the shade of each facet: 0 turned to the light, the last one away from it."""
    light = np.array(LIGHT) / np.linalg.norm(LIGHT)
    away = (1 - seen.normals @ light) / 2
    numbers: Ints = np.minimum((away * 2 * len(SHADES)).astype(np.int64), len(SHADES) - 1)
    return numbers
