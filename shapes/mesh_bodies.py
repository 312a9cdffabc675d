"""Closed bodies in a heap of triangles.

Bodies that are inside out are turned, unless they are the wall of a hollow. Nothing here cuts
bodies that stand in each other: that is the union's work.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from shapes.mesh_edges import Edges, closed_parts, edges_of, is_balanced, turned_alike
from shapes.mesh_repair import CleanMesh, without_copies
from shapes.skins import is_inside
from shapes.solids import Floats, Ints, sums
from shapes.tolerances import LEVEL_UNITS


@dataclass(frozen=True, eq=False)
class Bodies:
    """What the triangles make up.

    Attributes:
        triangles: corner numbers, turned so that bodies have their wood inside, shape (t, 3).
        body_of: the closed body of each triangle, -1 where it was left out as a second skin; a
            hollow counts to the body around it. Shape (t,).
        count: how many closed bodies there are; 0 if any edge is open.
        hollow: whether a triangle is the wall of a sealed hollow, shape (t,).
        notes: what was found and what was turned.
    """

    triangles: Ints
    body_of: Ints
    count: int
    hollow: npt.NDArray[np.bool_]
    notes: tuple[str, ...]

    @property
    def is_closed(self) -> bool:
        """Whether every triangle belongs to a closed body."""
        return self.count > 0


def closed_bodies(mesh: CleanMesh) -> tuple[CleanMesh, Bodies]:
    """Return the mesh without copies of triangles and its closed bodies, or why there are none.

    Where that opens a body, because two have a triangle in common, the copies stay.
    """
    single = without_copies(mesh)
    bodies = find_bodies(single)
    if not bodies.is_closed and single is not mesh:
        whole = find_bodies(mesh)
        if whole.is_closed:
            return mesh, whole
    return single, bodies


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
        return _not_closed(triangles, _open_notes(edges))
    part_of = closed_parts(mesh.vertices, triangles, edges)
    return _sorted_bodies(mesh.vertices, triangles, part_of, notes)


def _not_closed(triangles: Ints, notes: list[str]) -> Bodies:
    none = np.full(len(triangles), -1)
    return Bodies(triangles, none, 0, np.zeros(len(triangles), dtype=np.bool_), tuple(notes))


def _open_notes(edges: Edges) -> list[str]:
    odd = int((edges.counts == 1).sum())
    many = int((edges.counts > 2).sum())
    notes = [f"not closed: {odd} open edges"] if odd else ["not closed: triangles face both ways"]
    if many:
        notes.append(f"{many} edges with more than two triangles")
    return notes


def _sorted_bodies(vertices: Floats, triangles: Ints, part_of: Ints, notes: list[str]) -> Bodies:
    """Tell bodies from hollows, second skins, sheets without thickness and bodies inside out."""
    count = int(part_of.max()) + 1
    first, second, third = (vertices[triangles[:, k]] for k in range(3))
    across = np.cross(second - first, third - first) / 2
    volumes = sums(part_of, ((first - vertices.mean(axis=0)) * across).sum(axis=1) / 3, count)
    areas = sums(part_of, np.sqrt((across * across).sum(axis=1)), count)
    if (np.abs(volumes) < areas * LEVEL_UNITS).any():
        return _not_closed(triangles, ["sheets without thickness, drawn from both sides"])
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
    _noteclosed_parts(notes, len(negative) - len(twins) - int(hollows.sum()), hollows, len(twins))
    kept, renumbered = np.unique(body_of[body_of >= 0], return_inverse=True)
    body_of[body_of >= 0] = renumbered
    return Bodies(triangles, body_of[part_of], len(kept), hollows[part_of], tuple(notes))


def _noteclosed_parts(
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
