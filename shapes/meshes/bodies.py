"""Closed bodies in a heap of triangles.

Bodies that are inside out are turned, unless they are the wall of a hollow. Nothing here cuts
bodies that stand in each other: that is the union's work. A body that runs through itself is none:
the union joins bodies, it does not look for a body's own overlaps.
"""

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from shapes.meshes.chunked_sums import areas_and_volumes
from shapes.meshes.crossings import crossings
from shapes.meshes.edges import (
    MeshEdges,
    across_sides,
    closed_parts,
    edges_of,
    is_balanced,
    linked_parts,
    turned_alike,
)
from shapes.meshes.repair import CleanMesh, without_copies
from shapes.solids import Floats, Ints, sums
from shapes.tolerances import LEVEL_UNITS
from shapes.voids import is_inside

LEAST_SHARE = 2e-4
"""A body that hides less of its skin from itself is said nothing of: a dozen crossings of lines, of
which rounding at sharp inner edges may make one or two."""

MOST_SHARE = 1e-3
"""A body that hides more of its skin from itself goes another way; that way's own error is larger
than this."""


@dataclass(frozen=True, eq=False)
class Bodies:
    """What the triangles make up.

    Attributes:
        triangles: corner numbers, turned so that bodies have their wood inside, shape (t, 3).
        body_of: the closed body of each triangle, -1 where it was left out as a second skin; a
            hollow counts to the body around it. Shape (t,).
        count: how many closed bodies there are; 0 if any edge is open.
        hollow: whether a triangle is the wall of a sealed hollow, shape (t,).
        areas: area of each triangle [square grid units], shape (t,).
        notes: what was found and what was turned.
        overlap: share of the skin that bodies hide from themselves, where that is too little to
            mind; it counts as exposed.
    """

    triangles: Ints
    body_of: Ints
    count: int
    hollow: npt.NDArray[np.bool_]
    areas: Floats
    notes: tuple[str, ...]
    overlap: float = 0.0

    @property
    def is_closed(self) -> bool:
        """Whether every triangle belongs to a closed body."""
        return self.count > 0


def closed_bodies(mesh: CleanMesh) -> tuple[CleanMesh, Bodies]:
    """Return the mesh without copies of triangles and its closed bodies, or why there are none.

    Where that opens a body, because two have a triangle in common, the copies stay.
    """
    across = across_sides(mesh.triangles, len(mesh.vertices))
    if across is not None:
        return mesh, _sorted_bodies(mesh.vertices, mesh.triangles, linked_parts(across), [])
    single = without_copies(mesh)
    bodies = find_bodies(single)
    if not bodies.is_closed and single is not mesh:
        whole = find_bodies(mesh)
        if whole.is_closed:
            return mesh, whole
    return single, bodies


def stand_alone(vertices: Floats, bodies: Bodies, air: float) -> npt.NDArray[np.bool_]:
    """Return which bodies have a box that no other body's box is near, shape (count,).

    Args:
        vertices: corners [grid units], shape (v, 3).
        bodies: the bodies.
        air: boxes further apart than this are not near [grid units].
    """
    order = np.argsort(bodies.body_of, kind="stable")
    bounds = np.searchsorted(bodies.body_of[order], np.arange(bodies.count))
    corners = vertices[bodies.triangles[order[bounds[0] :]]]
    low = np.minimum.reduceat(corners.min(axis=1), bounds - bounds[0])
    high = np.maximum.reduceat(corners.max(axis=1), bounds - bounds[0])
    alone = np.ones(bodies.count, dtype=np.bool_)
    for body in range(bodies.count):
        meets = ((low[body] - air <= high) & (low - air <= high[body])).all(axis=1)
        alone[body] = meets.sum() == 1
    return alone


def find_bodies(mesh: CleanMesh) -> Bodies:
    """Return the closed bodies, or why there are none."""
    triangles, notes = mesh.triangles, []
    edges = edges_of(triangles, len(mesh.vertices))
    if not is_balanced(edges):
        turned = turned_alike(triangles, edges)
        if turned is not None:
            triangles = turned
            edges = edges_of(triangles, len(mesh.vertices))
            notes.append("triangles that faced the other way than their neighbours were turned")
    if not is_balanced(edges):
        return _none(triangles, _open_notes(edges))
    part_of = closed_parts(mesh.vertices, triangles, edges)
    return _sorted_bodies(mesh.vertices, triangles, part_of, notes)


def _none(triangles: Ints, notes: list[str]) -> Bodies:
    count = len(triangles)
    hollow = np.zeros(count, dtype=np.bool_)
    return Bodies(triangles, np.full(count, -1), 0, hollow, np.zeros(count), tuple(notes))


def _open_notes(edges: MeshEdges) -> list[str]:
    odd = int((edges.counts == 1).sum())
    many = int((edges.counts > 2).sum())
    notes = [f"not closed: {odd} open edges"] if odd else ["not closed: triangles face both ways"]
    if many:
        notes.append(f"{many} edges with more than two triangles")
    return notes


def _sorted_bodies(vertices: Floats, triangles: Ints, part_of: Ints, notes: list[str]) -> Bodies:
    """Tell bodies from hollows, second skins, sheets without thickness and bodies inside out."""
    count = int(part_of.max()) + 1
    areas, shares = areas_and_volumes(vertices, triangles)
    volumes = sums(part_of, shares, count)
    if (np.abs(volumes) < sums(part_of, areas, count) * LEVEL_UNITS).any():
        return _none(triangles, ["sheets without thickness, drawn from both sides"])
    body_of = np.arange(count)
    hollows = np.zeros(count, dtype=np.bool_)
    negative = np.flatnonzero(volumes < 0)
    twins = np.intersect1d(negative, _back_to_back(triangles, part_of) if len(negative) else [])
    for part in negative:
        if part in twins:
            body_of[part] = -1
            continue
        around = _body_around(vertices, triangles, part_of, int(part), volumes)
        if around is None:
            mine = part_of == part
            triangles = triangles.copy()
            triangles[mine] = triangles[mine][:, ::-1]
        else:
            body_of[part], hollows[part] = around, True
    _note_parts(notes, len(negative) - len(twins) - int(hollows.sum()), hollows, len(twins))
    kept, renumbered = np.unique(body_of[body_of >= 0], return_inverse=True)
    body_of[body_of >= 0] = renumbered
    found = Bodies(triangles, body_of[part_of], len(kept), hollows[part_of], areas, tuple(notes))
    return _without_overlaps(vertices, found)


def _without_overlaps(vertices: Floats, found: Bodies) -> Bodies:
    """Return the bodies; none, where they hide a noticeable share of their skin from themselves."""
    triangles, body_of, areas = found.triangles, found.body_of, found.areas
    if (body_of < 0).any():
        kept = body_of >= 0
        triangles, body_of, areas = triangles[kept], body_of[kept], areas[kept]
    met = crossings(vertices, triangles, body_of, float(areas.sum()))
    if met.hidden < LEAST_SHARE:
        return found
    what = "runs through itself" if met.within >= met.touching else "touches itself"
    note = f"a body {what}: about {met.hidden:.2%} of its skin is hidden within it"
    if met.hidden < MOST_SHARE:
        notes = (*found.notes, f"{note}, and is counted as exposed")
        return replace(found, notes=notes, overlap=met.hidden)
    return _none(found.triangles, [*found.notes, note])


def _note_parts(
    notes: list[str], turned: int, hollows: npt.NDArray[np.bool_], doubled: int
) -> None:
    for number, what in (
        (turned, "bodies were inside out and were turned"),
        (int(hollows.sum()), "sealed hollows are not exposed"),
        (doubled, "bodies were drawn from both sides and are counted once"),
    ):
        if number:
            notes.append(f"{number} {what}")


def _back_to_back(triangles: Ints, part_of: Ints) -> Ints:
    """Return the parts whose every triangle lies back to back with another part's."""
    ordered = np.sort(triangles, axis=1)
    _, number, copies = np.unique(ordered, axis=0, return_inverse=True, return_counts=True)
    lonely = copies[number.reshape(-1)] == 1
    return np.setdiff1d(np.unique(part_of), np.unique(part_of[lonely]))


def _body_around(
    vertices: Floats, triangles: Ints, part_of: Ints, part: int, volumes: Floats
) -> int | None:
    """Return the smallest body around a part, None if it stands free."""
    inner = vertices[triangles[part_of == part]].reshape(-1, 3)
    point = inner[:3].mean(axis=0)
    for body in np.argsort(volumes):
        if volumes[body] <= -volumes[part]:
            continue
        wall = vertices[triangles[part_of == body]]
        box = wall.min(axis=(0, 1)), wall.max(axis=(0, 1))
        inside_box = (box[0] <= inner.min(axis=0)).all() and (inner.max(axis=0) <= box[1]).all()
        if inside_box and is_inside(point, wall):
            return int(body)
    return None
