"""Scans: the area that measuring noise adds to a scanned surface, taken off again.

Noise folds a surface: a flat panel sampled each 4 mm with 1 mm of noise measures 11 % too large.
The noise is estimated first; a mesh with next to none is left as it is, so that true fine detail
keeps its area, and so is one that shows it was drawn (`scan_signs`). Else the area comes from three
steps, each a published method:

1. smooth by lambda|mu (Taubin), which shrinks nothing that is much longer than the sampling, and
   along the way in which the surface turns least (Clarenz, Diewald, Rumpf: anisotropic diffusion),
   which keeps edges, flutes and mouldings of three samples (`scan_smoothing`);
2. measure what noise of that size still adds after smoothing, on a copy of the smoothed shape with
   fresh noise of known size (parametric bootstrap), and divide by it;
3. smooth more, and less, and extrapolate to no smoothing (Richardson), which gives rounded edges
   their area back.

Good for noise up to half the sampling and features of some ten samples. It finds no shape: a bead
that the noise has drowned stays drowned.

Source: G. Taubin, "A signal processing approach to fair surface design", SIGGRAPH 1995, 351-358;
B. Efron, R. Tibshirani, An Introduction to the Bootstrap (1993), chapter 10; L. F. Richardson,
J. A. Gaunt, "The deferred approach to the limit", Philosophical Transactions of the Royal Society A
226 (1927) 299-361 (all from memory).
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from shapes.meshes.imported import ImportedMesh, by_name, cleaned
from shapes.meshes.mesh_exposure import MeshExposure, mesh_exposure
from shapes.meshes.repair import without_copies
from shapes.meshes.scan_doubts import scan_doubts
from shapes.meshes.scan_noise import corner_normals, noise_of
from shapes.meshes.scan_signs import sign_of_drawing
from shapes.meshes.scan_smoothing import averaging, averaging_along, links_of, smoothed
from shapes.solids import Floats, sums, triangle_areas
from shapes.tolerances import GRID_PER_MM

LEAST_NOISE = 0.03
"""Noise below this share of the sampling is left alone: it adds less than 0.2 % to a flat panel."""

MOST_NOISE = 0.6
"""Noise above this share of the sampling is more than was tried: the result says so."""

ROUNDS = (3, 10)
"""Rounds of smoothing that are compared. Fewer leave too much to the bootstrap, which takes noise
for alike in all directions; more eat detail."""

OWN_STREAM = 351
"""Goes into every seed, so that a scan made with noise of the same seed gets noise of its own."""

EDGE_SHARE = 1.92
"""What sharp edges lose in 3 rounds over what they lose in the next 7. Measured without noise: 1.8
to 2.0 on boxes of 100 mm and more sampled each 4 and 10 mm, 2.4 where a side has but four samples;
1.0 to 1.6 on mouldings and flutes, which therefore come out up to 1 % too large. Measured with
smoothing alike in all directions; along edges less is lost and so less is put back."""


@dataclass(frozen=True, eq=False)
class CleanScan:
    """A scan without its noise.

    Attributes:
        mesh: the smoothed mesh; the scan itself where there is next to no noise.
        areas_mm2: area by region without what the noise added [mm2].
        scanned_mm2: area by region of the scan as it came [mm2].
        noise_mm: estimated noise across the surface, standard deviation [mm].
        spacing_mm: distance of neighbouring samples, median [mm].
        notes: what was taken off, and why.
        doubt_mm2: how far off the area may be, 9 times in 10 [mm2]: by the noise, by edges that the
            scanner rounded, by waves.
    """

    mesh: ImportedMesh
    areas_mm2: dict[str, float]
    scanned_mm2: dict[str, float]
    noise_mm: float
    spacing_mm: float
    notes: tuple[str, ...]
    doubt_mm2: float = 0.0

    @property
    def area_mm2(self) -> float:
        """Area without what the noise added [mm2]."""
        return sum(self.areas_mm2.values())

    @property
    def removed_mm2(self) -> float:
        """Area that the noise had added [mm2]."""
        return sum(self.scanned_mm2.values()) - self.area_mm2


def clean_scan(
    mesh: ImportedMesh, *, seed: int = 1, progress: Callable[[float], None] | None = None
) -> CleanScan:
    """Return a scan without its noise.

    Args:
        mesh: the scanned surface, open or closed; its triangles are about one sample wide.
        seed: of the noise that step 2 adds; one seed gives one answer.
        progress: told the share that is done; what it raises passes through.

    Raises:
        MeshError: no triangle has an area.

    >>> x, y = (side.ravel() for side in np.mgrid[0:80:4.0, 0:80:4.0])
    >>> first = np.add.outer(20 * np.arange(19), np.arange(19)).ravel()
    >>> two = [[first, first + 20, first + 21], [first, first + 21, first + 1]]
    >>> faces = np.concatenate([np.stack(three, axis=1) for three in two])
    >>> wavy = np.random.default_rng(1).normal(size=400)
    >>> scan = ImportedMesh(np.stack([x, y, wavy], axis=1), faces, 0 * faces[:, 0], ("top",))
    >>> found = clean_scan(scan)
    >>> round(found.scanned_mm2["top"]), abs(found.area_mm2 - 76 * 76) < 0.02 * 76 * 76
    (6370, True)
    """
    tell = progress or (lambda share: None)
    welded = without_copies(cleaned(mesh))
    work = replace(
        mesh,
        vertices=welded.vertices / GRID_PER_MM,
        triangles=welded.triangles,
        region_of=welded.region_of,
    )
    tell(0.1)
    links = links_of(work.triangles, len(work.vertices))
    average = averaging(links)
    smooth = smoothed(work.vertices, average, ROUNDS[1])
    tell(0.2)
    noise, spacing = noise_of(work.vertices, smooth, work.triangles, links.edges)
    tell(0.4)
    if noise < LEAST_NOISE * spacing:
        note = f"noise of {noise:.2g} mm at {spacing:.3g} mm sampling: nothing to take off"
        doubts, area = scan_doubts(work.vertices, work.triangles), sum(mesh.areas_mm2.values())
        said, doubt = (note, *doubts.notes(area, 0.0)), doubts.total(area, 0.0)
        return CleanScan(mesh, mesh.areas_mm2, mesh.areas_mm2, noise, spacing, said, doubt)
    drawn = sign_of_drawing(work.vertices, smooth, work.triangles, average)
    if drawn is not None:
        note = f"no noisy scan, so nothing is taken off: {drawn}"
        return CleanScan(mesh, mesh.areas_mm2, mesh.areas_mm2, noise, spacing, (note,))
    along = averaging_along(smooth, work.triangles, links, average)
    tell(0.5)
    noise, smooth, areas, smoothed_off = _without_noise(work, along, noise, seed, tell)
    named = by_name(mesh.regions, areas)
    notes = _notes(sum(mesh.areas_mm2.values()), float(areas.sum()), noise, spacing)
    doubts = scan_doubts(smooth, work.triangles).without(smoothed_off)
    area = float(areas.sum())
    notes = (*notes, *doubts.notes(area, noise / spacing))
    tell(1.0)
    shown = replace(work, vertices=smooth)
    doubt = doubts.total(area, noise / spacing)
    return CleanScan(shown, named, mesh.areas_mm2, noise, spacing, notes, doubt)


def scan_exposure(
    mesh: ImportedMesh,
    *,
    seed: int = 1,
    gap: float = 1.0,
    progress: Callable[[float], None] | None = None,
) -> MeshExposure:
    """Return what of a scan is left to see, without the area that its noise added.

    The exposed share of each region is found on the smoothed mesh, its area by `clean_scan`.

    Args:
        mesh: the scanned surface.
        seed: as in `clean_scan` and `mesh_exposure`.
        gap: as in `mesh_exposure` [mm].
        progress: told the share that is done; what it raises passes through.

    Raises:
        MeshError: no triangle has an area.
    """
    tell = progress or (lambda share: None)
    scan = clean_scan(mesh, seed=seed, progress=lambda share: tell(share / 2))
    seen = mesh_exposure(
        scan.mesh, seed=seed, gap=gap, progress=lambda share: tell((1 + share) / 2)
    )
    factor = {
        name: scan.areas_mm2[name] / area if area else 1.0
        for name, area in scan.mesh.areas_mm2.items()
    }
    return replace(
        seen,
        areas_mm2={name: area * factor[name] for name, area in seen.areas_mm2.items()},
        errors_mm2={name: error * factor[name] for name, error in seen.errors_mm2.items()},
        error_mm2=seen.error_mm2 * scan.area_mm2 / sum(scan.mesh.areas_mm2.values()),
        size_mm=mesh.size_mm,
        doubt_mm2=scan.doubt_mm2 * seen.area_mm2 / sum(scan.mesh.areas_mm2.values()),
        notes=(*scan.notes, *seen.notes),
    )


def _without_noise(
    mesh: ImportedMesh, average: Any, noise: float, seed: int, tell: Callable[[float], None]
) -> tuple[float, Floats, Floats, float]:
    """Return noise, smoothed corners, areas without noise, and what of these smoothing took.

    Lengths are in mm, areas in mm2; the areas are those of the regions.

    Args:
        mesh: the scan.
        average: matrix that averages along the surface.
        noise: its noise, as far as is known [mm]; less is found where smoothing moves less.
        seed: of the noise that is added.
        tell: told the share that is done.
    """
    smooth = smoothed(mesh.vertices, average, ROUNDS[1])
    unit = np.random.default_rng((seed, OWN_STREAM)).normal(size=smooth.shape)
    normals = corner_normals(smooth, mesh.triangles)
    moved, moved_by_unit = (
        float(np.median(np.abs((by * normals).sum(axis=1))))
        for by in (mesh.vertices - smooth, unit - smoothed(unit, average, ROUNDS[1]))
    )
    noise = min(noise, moved / moved_by_unit)
    noisy = smooth + noise * unit
    freed = []
    for number, rounds in enumerate(ROUNDS):
        measured, bare, again = (
            _region_areas(mesh, smoothed(corners, average, rounds))
            for corners in (mesh.vertices, smooth, noisy)
        )
        freed.append(measured * bare / np.where(again > 0, again, 1.0))
        tell(0.6 + 0.2 * (number + 1))
    little, much = freed
    without = little + EDGE_SHARE * np.maximum(little - much, 0.0)
    # noise adds area, it takes none away
    areas = np.minimum(without, _region_areas(mesh, mesh.vertices))
    return noise, smooth, areas, float(np.maximum(without - much, 0.0).sum())


def _region_areas(mesh: ImportedMesh, vertices: Floats) -> Floats:
    return sums(mesh.region_of, triangle_areas(vertices, mesh.triangles), len(mesh.regions))


def _notes(scanned: float, left: float, noise: float, spacing: float) -> tuple[str, ...]:
    share = noise / spacing
    note = (
        f"{scanned - left:.0f} mm2 ({(scanned - left) / scanned:.1%}) taken off: noise of "
        f"{noise:.2g} mm, {share:.0%} of the sampling of {spacing:.3g} mm, folds the surface"
    )
    beyond = f"noise above {MOST_NOISE:.0%} of the sampling: the area is uncertain by over 6 %"
    return (note, beyond) if share > MOST_NOISE else (note,)
