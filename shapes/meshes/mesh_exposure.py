"""What of an imported mesh is left to see.

Closed bodies go the union way, exactly as parametric parts do. Anything else (open shells, sheets,
cracks, scans, bodies that run through themselves) goes the reach way, by rays, with a standard
error. The result always says which.
"""

from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
import numpy.typing as npt

from shapes.errors import KernelError, ShapeError
from shapes.exposure import NearMiss, exposure
from shapes.meshes.bodies import Bodies, closed_bodies, stand_alone
from shapes.meshes.imported import ImportedMesh, MeshError, Progress, by_name, cleaned
from shapes.meshes.mesh_solids import body_parts
from shapes.meshes.repair import CleanMesh, without_copies, without_opposites
from shapes.solids import sums
from shapes.tolerances import GRID_PER_MM, WIDEST_GAP_MM

Way = Literal["union", "reach"]


@dataclass(frozen=True)
class MeshExposure:
    """What of a mesh is left to see.

    Attributes:
        areas_mm2: exposed area by region [mm2].
        way: "union" (closed bodies, exact) or "reach" (rays).
        error_mm2: standard error of the whole area [mm2]; 0 for the union.
        errors_mm2: standard error by region [mm2].
        size_mm: width, depth, height of the mesh's box [mm].
        notes: how it was measured and what was found.
        narrow_mm2: area among these that is reached only through openings from the gap to 5 mm
            wide; told of the reach way alone [mm2].
        behind_mm2: area that is not among these, as it lies behind openings narrower than the gap;
            told of the reach way alone [mm2].
        doubt_mm2: how far off the area of a scan may be, 9 times in 10, besides that error [mm2].
        closed: air between bodies that counts as touching; told of the union alone.
        gaps: air between bodies that is too wide for that, up to 5 mm; likewise.
    """

    areas_mm2: dict[str, float]
    way: Way
    error_mm2: float
    errors_mm2: dict[str, float]
    size_mm: tuple[float, float, float]
    notes: tuple[str, ...]
    narrow_mm2: float = 0.0
    behind_mm2: float = 0.0
    doubt_mm2: float = 0.0
    closed: tuple[NearMiss, ...] = ()
    gaps: tuple[NearMiss, ...] = ()

    @property
    def area_mm2(self) -> float:
        """Exposed area of all regions [mm2]."""
        return sum(self.areas_mm2.values())


def mesh_exposure(
    mesh: ImportedMesh,
    *,
    way: Way | None = None,
    points: int = 20_000,
    directions: int = 64,
    seed: int = 1,
    gap: float = 1.0,
    progress: Progress | None = None,
) -> MeshExposure:
    """Return what of a mesh is left to see, by region.

    Args:
        mesh: the mesh.
        way: "union" or "reach" to insist on one, else the union where every body is closed.
        points: how many points the reach way tries; more where the answer still moves.
        directions: how many directions it looks along from each side of a point.
        seed: of the points and directions; one seed gives one answer.
        gap: air narrower than this counts as closed [mm], from 0 to 5.
        progress: told the share that is done; what it raises passes through.

    Raises:
        MeshError: no triangle has an area, or the union is asked for and the mesh is not closed.
        ShapeError: points, directions or gap out of range.

    >>> corners = np.array([[0, 0, 0], [3, 0, 0], [0, 4, 0], [0, 0, 5]], dtype=np.float64)
    >>> faces = np.array([[0, 2, 1], [0, 1, 3], [0, 3, 2], [1, 2, 3]])
    >>> seen = mesh_exposure(ImportedMesh(corners, faces, np.zeros(4, np.int64), ("all",)))
    >>> seen.way, round(seen.areas_mm2["all"], 3)
    ('union', 37.365)
    """
    if not 0 <= gap <= WIDEST_GAP_MM:
        raise ShapeError("gap", "from 0 to 5 mm", gap)
    found = cleaned(mesh)
    notes: list[str] = []
    _tell(progress, 0.2)
    if way != "reach":
        kept, bodies = closed_bodies(found)
        notes += bodies.notes
        _tell(progress, 0.5)
        if bodies.is_closed:
            try:
                seen = _by_union(mesh, kept, bodies, notes, gap)
                _tell(progress, 1.0)
                return seen
            except KernelError as error:
                notes.append(str(error))
        if way == "union":
            raise MeshError("mesh", "; ".join(notes))
    sampling = {"points": points, "directions": directions, "seed": seed}
    return _by_reach(mesh, without_copies(found), notes, sampling, gap, progress)


def _notes(mesh: ImportedMesh, kept: CleanMesh, first: str, found: list[str]) -> tuple[str, ...]:
    dropped = f"{kept.dropped} triangles without area or drawn twice left out"
    return (first, *mesh.notes, *[dropped] * (kept.dropped > 0), *found)


def _by_union(
    mesh: ImportedMesh, found: CleanMesh, bodies: Bodies, notes: list[str], gap: float
) -> MeshExposure:
    alone = np.ones(1, dtype=np.bool_)
    if bodies.count > 1:
        alone = stand_alone(found.vertices, bodies, WIDEST_GAP_MM * GRID_PER_MM)
    shown = ~bodies.hollow & (bodies.body_of >= 0) & alone[bodies.body_of]
    totals = sums(found.region_of, bodies.areas * shown, len(mesh.regions))
    areas_mm2 = by_name(mesh.regions, totals / GRID_PER_MM**2)
    closed: tuple[NearMiss, ...] = ()
    gaps: tuple[NearMiss, ...] = ()
    if not alone.all():
        seen = exposure(body_parts(found, _those(bodies, ~alone), mesh.regions), gap=gap)
        for (_, region), area in seen.areas_mm2.items():
            areas_mm2[region] += area
        closed, gaps = seen.closed, seen.gaps
    text = f"union of {bodies.count} closed bodies" if bodies.count > 1 else "one closed body"
    none = dict.fromkeys(areas_mm2, 0.0)
    sure = "exact" if not bodies.overlap else "exact but for what a body hides of itself"
    all_notes = _notes(mesh, found, f"{text}: {sure}", notes)
    return MeshExposure(
        areas_mm2, "union", 0.0, none, mesh.size_mm, all_notes, closed=closed, gaps=gaps
    )


def _those(bodies: Bodies, chosen: npt.NDArray[np.bool_]) -> Bodies:
    """Return chosen bodies alone, numbered anew."""
    number = np.append(np.where(chosen, np.cumsum(chosen) - 1, -1), -1)  # -1 stays -1
    return replace(bodies, body_of=number[bodies.body_of], count=int(chosen.sum()))


def _by_reach(
    mesh: ImportedMesh,
    clean: CleanMesh,
    notes: list[str],
    sampling: dict[str, int],
    gap: float,
    progress: Progress | None,
) -> MeshExposure:
    from shapes.meshes.settled_reach import settled_reach

    single = without_opposites(clean)
    if single.dropped > clean.dropped:
        notes.append("sheets drawn from both sides are counted once")
    found = settled_reach(
        single.vertices / GRID_PER_MM,
        single.triangles,
        single.region_of,
        len(mesh.regions),
        gap=gap,
        widest=WIDEST_GAP_MM,
        **sampling,
        progress=lambda share: _tell(progress, 0.5 + share / 2),
    )
    _tell(progress, 1.0)
    areas, errors = by_name(mesh.regions, found.areas), by_name(mesh.regions, found.errors)
    note = f"measured with {found.rays} rays from {found.points} points"
    return MeshExposure(
        areas,
        "reach",
        found.error,
        errors,
        mesh.size_mm,
        _notes(mesh, clean, note, notes),
        found.narrow,
        found.behind_cracks,
    )


def _tell(progress: Progress | None, share: float) -> None:
    if progress is not None:
        progress(share)
