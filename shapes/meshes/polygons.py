"""Faces of a mesh file with any number of corners, cut into triangles.

Promises triangles that fill a face without overlap, also a concave one, with every corner of the
face in them, so that neighbours stay joined. A face need not be quite flat: it is cut as it looks
along its own normal. A face that crosses or touches itself there is refused, never guessed at.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from shapes.meshes.file_headers import MOST_TRIANGLES
from shapes.meshes.imported import MeshError
from shapes.solids import Floats, Ints, sums, triangle_areas
from shapes.tolerances import NO_AREA, NOTED_WARP, WRITTEN_SHARE

REMEDY = "fix it in the program that made the file, or export the mesh as triangles"
FARTHEST = 1e15
"""Farthest corner, in any unit of a file: its square and cube stay far inside 64-bit numbers."""
Bools = npt.NDArray[np.bool_]


@dataclass(frozen=True, eq=False)
class Polygons:
    """Faces as a file has them.

    Attributes:
        corners: in the file's unit, shape (v, 3).
        sizes: how many corners each face has, shape (f,).
        numbers: the corners of all faces one after the other, counted from 0.
        place: where in the file a face is, for messages: "the face on line 12".
    """

    corners: Floats
    sizes: Ints
    numbers: Ints
    place: Callable[[int], str]


@dataclass(frozen=True, eq=False)
class CutFaces:
    """Faces as triangles.

    Attributes:
        triangles: corner numbers, shape (t, 3), facing as their face does.
        face_of: the face that each triangle is of, shape (t,).
        notes: what there is to say of the faces.
    """

    triangles: Ints
    face_of: Ints
    notes: tuple[str, ...]


def cut_into_triangles(polygons: Polygons) -> CutFaces:
    """Return the faces as triangles; a face of fewer than three different corners has none.

    Raises:
        MeshError: a face names a corner that is not there or that is no point, uses a corner
            twice, or crosses itself.

    >>> dart = np.array([[0, 0, 0], [4, 0, 0], [1, 1, 0], [0, 4, 0]], dtype=np.float64)
    >>> one = Polygons(dart, np.array([4]), np.arange(4), "face {}".format)
    >>> cut_into_triangles(one).triangles.tolist()
    [[0, 1, 2], [0, 2, 3]]
    """
    if int(np.maximum(polygons.sizes - 2, 0).sum()) > MOST_TRIANGLES:
        raise MeshError("mesh", f"more than {MOST_TRIANGLES} triangles")
    _check_corners(polygons)
    sizes, numbers = _without_repeats(polygons.sizes, polygons.numbers)
    starts = np.cumsum(sizes) - sizes
    triangles, faces = [], []
    for size in np.unique(sizes[sizes > 2]).tolist():
        chosen = np.flatnonzero(sizes == size)
        rows = numbers[starts[chosen, None] + np.arange(size)]
        _check_used_twice(polygons, chosen, rows)
        found, row_of = _cut(polygons, chosen, rows)
        triangles.append(found)
        faces.append(chosen[row_of])
    if not triangles:
        return CutFaces(np.zeros((0, 3), np.int64), np.zeros(0, np.int64), ())
    face_of = np.concatenate(faces)
    order = np.argsort(face_of, kind="stable")
    cut = CutFaces(np.concatenate(triangles)[order], face_of[order], ())
    return CutFaces(cut.triangles, cut.face_of, _warp_notes(polygons.corners, cut))


def _check_corners(polygons: Polygons) -> None:
    numbers, count = polygons.numbers, len(polygons.corners)
    wrong = (numbers < 0) | (numbers >= count)
    if not wrong.any():
        if not np.isfinite(polygons.corners).all(axis=1).take(numbers).all():
            raise MeshError("mesh", "a corner is not a finite number")
        if (np.abs(polygons.corners).max(axis=1).take(numbers) > FARTHEST).any():
            raise MeshError("mesh", "a corner is farther away than any furniture reaches: the file"
                            " is damaged, so export it again")  # fmt: skip
        return
    first = int(np.argmax(wrong))
    face = int(np.searchsorted(np.cumsum(polygons.sizes), first, side="right"))
    raise MeshError(
        "mesh",
        f"{polygons.place(face)} uses a corner that is not in the file, which has {count} corners:"
        " the file is cut short or damaged, so export it again",
    )


def _without_repeats(sizes: Ints, numbers: Ints) -> tuple[Ints, Ints]:
    """Return faces without corners that are named twice in a row, which change no area."""
    face = np.repeat(np.arange(len(sizes)), sizes)
    is_last = np.append(face[1:] != face[:-1], True)[: len(face)]
    following = np.roll(numbers, -1)
    ends = np.cumsum(sizes)[sizes > 0]
    following[ends - 1] = numbers[ends - sizes[sizes > 0]]
    kept = (numbers != following) | (is_last & (sizes[face] == 1))
    return np.bincount(face[kept], minlength=len(sizes)).astype(np.int64), numbers[kept]


def _check_used_twice(polygons: Polygons, chosen: Ints, rows: Ints) -> None:
    ordered = np.sort(rows, axis=1)
    wrong = (ordered[:, 1:] == ordered[:, :-1]).any(axis=1)
    _refuse(polygons, chosen[wrong], "uses a corner twice, as a face with a hole does")


def _refuse(polygons: Polygons, faces: Ints, wrong: str) -> None:
    if not len(faces):
        return
    more = f" (and {len(faces) - 1} more like it)" if len(faces) > 1 else ""
    raise MeshError("mesh", f"{polygons.place(int(faces[0]))} {wrong}{more}; {REMEDY}")


def _cut(polygons: Polygons, chosen: Ints, rows: Ints) -> tuple[Ints, Ints]:
    """Return triangles of faces with one number of corners, and the row that each is of."""
    if rows.shape[1] == 3:
        return rows, np.arange(len(rows))
    points = polygons.corners[rows]
    points = points - points.mean(axis=1, keepdims=True)
    scale = np.abs(points).max(axis=(1, 2))
    points = points / np.where(scale > 0, scale, 1.0)[:, None, None]
    normals = np.cross(points, np.roll(points, -1, axis=1)).sum(axis=1) / 2
    areas = np.linalg.norm(normals, axis=1)
    is_thin = areas <= NO_AREA
    on_line = _on_one_line(points)
    _refuse(polygons, chosen[is_thin & ~on_line], "crosses itself")
    directions = normals / np.where(is_thin, 1.0, areas)[:, None]
    cut = _cut_quads if rows.shape[1] == 4 else _cut_larger
    picks, row_of, is_wrong = cut(points, directions, ~is_thin)
    _refuse(polygons, chosen[is_wrong & ~on_line], "crosses or touches itself")
    return rows[row_of[:, None], picks], row_of


def _on_one_line(points: Floats) -> Bools:
    """Whether all corners of a face lie on one line through its middle, so that it has no area."""
    row = np.arange(len(points))
    far = points[row, np.linalg.norm(points, axis=2).argmax(axis=1)]
    length = np.linalg.norm(far, axis=1, keepdims=True)
    along = far / np.where(length > 0, length, 1.0)
    aside: Bools = np.linalg.norm(np.cross(points, along[:, None]), axis=2) > WRITTEN_SHARE
    return np.logical_not(aside.any(axis=1))


_DIAGONALS = np.array([[[0, 1, 2], [0, 2, 3]], [[1, 2, 3], [1, 3, 0]]])
"""The two ways to cut a face of four corners."""


def _cut_quads(points: Floats, directions: Floats, has_area: Bools) -> tuple[Ints, Ints, Bools]:
    """Cut along the diagonal that lies inside, of two the one that leaves no thin triangle."""
    a, b, c = (points[:, _DIAGONALS[:, :, k]] for k in range(3))
    signed = (np.cross(b - a, c - a) * directions[:, None, None]).sum(axis=-1) / 2
    least = signed.min(axis=2)
    best = least.argmax(axis=1)
    is_wrong = has_area & (least.max(axis=1) < -WRITTEN_SHARE)
    row_of = np.repeat(np.arange(len(points)), 2)
    return _DIAGONALS[best].reshape(-1, 3), row_of, is_wrong


def _cut_larger(points: Floats, directions: Floats, has_area: Bools) -> tuple[Ints, Ints, Bools]:
    """Cut faces of five corners and more as they look along their normals."""
    import shapely

    flat = _looked_at(points[has_area], directions[has_area])
    count, size = flat.shape[:2]
    number = np.broadcast_to(np.arange(size, dtype=np.float64)[:, None], (count, size, 1))
    rings = shapely.linearrings(np.concatenate([flat, number], axis=2))
    polygons = shapely.polygons(rings)
    is_sound = shapely.is_valid(polygons)
    pieces, of = shapely.get_parts(
        shapely.constrained_delaunay_triangles(polygons[is_sound]), return_index=True
    )
    picks = shapely.get_coordinates(pieces, include_z=True).reshape(-1, 4, 3)[:, :3, 2]
    picks, row_of = picks.astype(np.int64), np.flatnonzero(is_sound)[of]
    picks, signed = _facing_alike(flat, picks, row_of)
    # what the library returns is checked: as many triangles as fill a face, and its whole area
    whole = shapely.area(polygons)
    is_full = np.isclose(sums(row_of, signed, count), whole, rtol=1e-9, atol=NO_AREA)
    is_full &= np.bincount(row_of, minlength=count) == size - 2
    rows = np.flatnonzero(has_area)
    is_wrong = np.zeros(len(points), dtype=np.bool_)
    is_wrong[rows[~is_full]] = True
    return picks, rows[row_of], is_wrong


def _looked_at(points: Floats, directions: Floats) -> Floats:
    """Return corners in the plane across a direction each, shape (f, n, 2)."""
    aside = np.eye(3)[np.abs(directions).argmin(axis=1)]
    right = np.cross(aside, directions)
    right /= np.linalg.norm(right, axis=1, keepdims=True)
    up = np.cross(directions, right)
    return np.stack([np.einsum("fnk,fk->fn", points, axis) for axis in (right, up)], axis=2)


def _facing_alike(flat: Floats, picks: Ints, row_of: Ints) -> tuple[Ints, Floats]:
    """Return triangles turned to go round as their faces do, and their areas."""
    a, b, c = (flat[row_of, picks[:, k]] for k in range(3))
    p, q = b - a, c - a
    signed = (p[:, 0] * q[:, 1] - p[:, 1] * q[:, 0]) / 2
    return np.where(signed[:, None] < 0, picks[:, ::-1], picks), np.abs(signed)


def _warp_notes(corners: Floats, cut: CutFaces) -> tuple[str, ...]:
    """Say where faces are so far from flat that how they are cut matters to the area.

    The vector sum of a face's triangles depends on its rim alone, and no surface with that rim has
    less area; what the triangles have above it is what a cut can change.
    """
    a, b, c = (corners[cut.triangles[:, k]] for k in range(3))
    vectors = np.cross(b - a, c - a) / 2
    areas = triangle_areas(corners, cut.triangles)
    count = int(cut.face_of.max()) + 1
    summed = np.stack([sums(cut.face_of, vectors[:, k], count) for k in range(3)], axis=1)
    by_face = sums(cut.face_of, areas, count)
    above = by_face - np.linalg.norm(summed, axis=1)
    share = float(above.sum() / by_face.sum()) if by_face.sum() else 0.0
    if share < NOTED_WARP:
        return ()
    bent = int((above > NOTED_WARP * by_face).sum())
    subject, they = ("one face is", "it was") if bent == 1 else (f"{bent} faces are", "they were")
    return (
        f"{subject} not flat; {they} cut into triangles, and another cut would change the area"
        f" by about {100 * share:.1g} %",
    )
