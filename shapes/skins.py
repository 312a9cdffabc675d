"""The skin of solids joined into one, and which patch each triangle of it came from.

The union is made by `manifold3d` with explicit ids: `run_original_id` names the solid and `face_id`
the patch, and both survive. Triangles of a sealed void, and of whatever stands inside one, are
marked: no brush gets in.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import manifold3d
import numpy as np
import numpy.typing as npt

from shapes.errors import KernelError
from shapes.shared_patches import flush_pairs
from shapes.solids import Floats, Ints, Solid, sums, triangle_areas
from shapes.tolerances import LEVEL_UNITS


@dataclass(frozen=True, eq=False)
class Skin:
    """The surface of several solids joined into one.

    Attributes:
        vertices: corners [grid units], shape (v, 3).
        triangles: corner numbers, outward, shape (t, 3).
        patch_of: patch of each triangle, counted through all solids, shape (t,).
        sealed: whether a triangle lies in a sealed void, shape (t,).
        patches: how many patches the solids have.
    """

    vertices: Floats
    triangles: Ints
    patch_of: Ints
    sealed: npt.NDArray[np.bool_]
    patches: int

    def patch_areas(self, triangles: npt.NDArray[np.bool_]) -> Floats:
        """Return the area of chosen triangles by patch [square grid units], shape (patches,)."""
        areas = triangle_areas(self.vertices, self.triangles[triangles])
        return sums(self.patch_of[triangles], areas, self.patches)


def joined_skin(
    solids: Sequence[Solid],
    places: npt.ArrayLike,
    *,
    at_once: int = 16,
    settle_flush: bool = True,
) -> Skin:
    """Return the skin of solids joined into one.

    Neighbours are joined first, some at once. That is faster than joining all at once in any order,
    and the kernel then seldom leaves faces back to back that should have vanished. Where solids
    stand in each other with faces flush, the shared patch belongs to the one whose corner is lower,
    then further front, then further left, then named first.

    Args:
        solids: the solids.
        places: where the corner of each one's box stands [grid units], shape (solids, 3).
        at_once: how many solids are joined in one call.
        settle_flush: whether whose a flush patch is, is settled first; else the kernel decides.

    Raises:
        KernelError: the kernel refused a solid.
    """
    corners = np.asarray(places, dtype=np.float64)
    first_patch = np.cumsum([0, *[len(solid.patches) for solid in solids]])
    if len(solids) == 1:
        vertices = solids[0].vertices + corners[0]
        triangles, patch_of = solids[0].triangles, solids[0].patch_of
    else:
        vertices, triangles, patch_of = _union(
            solids, corners, first_patch, at_once, settle_flush=settle_flush
        )
    if any(solid.is_open for solid in solids):
        sealed = np.zeros(len(triangles), dtype=np.bool_)
    else:
        sealed = _sealed(vertices, triangles)
    return Skin(vertices, triangles, patch_of, sealed, int(first_patch[-1]))


def has_inverted(skin: Skin, normals: Floats) -> bool:
    """Whether any exposed triangle of a flat patch looks into the wood: a fault of the union.

    Args:
        skin: the joined skin.
        normals: outward unit normals of the patches, NaN where curved, shape (patches, 3).
    """
    triangles = skin.triangles[~skin.sealed]
    outward = normals[skin.patch_of[~skin.sealed]]
    first, second, third = (skin.vertices[triangles[:, k]] for k in range(3))
    facing = (np.cross(second - first, third - first) * outward).sum(axis=1)
    return bool((facing < -1).any())  # twice an area of less than a square unit is rounding


def _union(
    solids: Sequence[Solid],
    places: Floats,
    first_patch: Ints,
    at_once: int,
    *,
    settle_flush: bool,
) -> tuple[Floats, Ints, Ints]:
    first_id = manifold3d.Manifold.reserve_ids(len(solids))
    bodies = [
        _body(solid, place, first_id + number)
        for number, (solid, place) in enumerate(zip(solids, places, strict=True))
    ]
    order = np.lexsort(places.T).tolist()
    if settle_flush:
        bodies = _without_owned(bodies, solids, places, order)
    joined = _join([bodies[k] for k in order], at_once)
    mesh = joined.to_mesh64()
    triangles = np.asarray(mesh.tri_verts, dtype=np.int64)
    starts = np.asarray(mesh.run_index, dtype=np.int64)
    runs = (starts[1:] - starts[:-1]) // 3
    solid_of = np.repeat(np.asarray(mesh.run_original_id, dtype=np.int64) - first_id, runs)
    patch_of = first_patch[solid_of] + np.asarray(mesh.face_id, dtype=np.int64)
    return np.asarray(mesh.vert_properties)[:, :3], triangles, patch_of


def _body(solid: Solid, place: Floats, original_id: int) -> manifold3d.Manifold:
    mesh = manifold3d.Mesh64(
        vert_properties=solid.vertices + place,
        tri_verts=np.ascontiguousarray(solid.triangles, dtype=np.uint64),
        run_index=np.array([0, 3 * len(solid.triangles)], dtype=np.uint64),
        run_original_id=np.array([original_id], dtype=np.uint32),
        face_id=solid.patch_of.astype(np.uint64),
    )
    body = manifold3d.Manifold(mesh)
    _check(body, "a solid")
    return body


def _without_owned(
    bodies: list[manifold3d.Manifold],
    solids: Sequence[Solid],
    places: Floats,
    order: list[int],
) -> list[manifold3d.Manifold]:
    """Take out of each body what stands in it, is flush with it and comes earlier in the order."""
    rank = {number: k for k, number in enumerate(order)}
    owners: dict[int, list[int]] = {}
    for pair in flush_pairs(solids, places):
        owner, other = sorted(pair, key=lambda number: rank[number])
        owners.setdefault(other, []).append(owner)
    settled = list(bodies)
    for number, owned in owners.items():
        parts = [bodies[number], *[bodies[owner] for owner in owned]]
        settled[number] = manifold3d.Manifold.batch_boolean(parts, manifold3d.OpType.Subtract)
    return settled


def _join(bodies: list[manifold3d.Manifold], at_once: int) -> manifold3d.Manifold:
    while len(bodies) > 1:
        groups = [bodies[k : k + at_once] for k in range(0, len(bodies), at_once)]
        bodies = [manifold3d.Manifold.batch_boolean(g, manifold3d.OpType.Add) for g in groups]
        for body in bodies:
            _check(body, "the joined piece")
    return bodies[0]


def _check(body: manifold3d.Manifold, what: str) -> None:
    """Raise where the kernel found fault; it would go on with an empty solid."""
    if body.status() != manifold3d.Error.NoError:
        raise KernelError(f"the solid kernel refused {what}: {body.status().name}")


def _sealed(vertices: Floats, triangles: Ints) -> npt.NDArray[np.bool_]:
    """Return which triangles lie in a sealed void or on a body inside one.

    Between many touching boxes the kernel may leave two faces back to back, a void without volume.
    """
    body_of = _bodies(len(vertices), triangles)[triangles[:, 0]]
    _, body_of = np.unique(body_of, return_inverse=True)
    corners = vertices - vertices.mean(axis=0)
    first, second, third = (corners[triangles[:, k]] for k in range(3))
    volumes = np.bincount(body_of, (first * np.cross(second, third)).sum(axis=1) / 6)
    areas = np.bincount(body_of, triangle_areas(vertices, triangles))
    is_void = volumes < areas * LEVEL_UNITS
    is_sealed = is_void.copy()
    if (~is_void).sum() == 1:
        return is_sealed[body_of]  # the one body around the voids is outside all of them
    for void in np.flatnonzero(is_void):
        wall = triangles[body_of == void]
        for body in np.flatnonzero(~is_sealed):
            inner = triangles[np.flatnonzero(body_of == body)[0]]
            is_sealed[body] = is_inside(vertices[inner].mean(axis=0), vertices[wall])
    return is_sealed[body_of]


def _bodies(count: int, triangles: Ints) -> Ints:
    """Return for each vertex the lowest vertex it is connected to, shape (count,)."""
    lowest = np.arange(count)
    while True:
        best = np.repeat(lowest[triangles].min(axis=1), 3)
        lower = lowest.copy()
        np.minimum.at(lower, triangles.ravel(), best)
        lower = lower[lower]
        if np.array_equal(lower, lowest):
            return lowest
        lowest = lower


def is_inside(point: Floats, wall: Floats) -> bool:
    """Whether a point lies inside a closed surface, by the solid angle that it fills.

    Args:
        point: shape (3,).
        wall: triangles of the surface, shape (t, 3, 3).

    Source: A. van Oosterom, J. Strackee, "The Solid Angle of a Plane Triangle", IEEE Transactions
    on Biomedical Engineering 30 (1983) 125-126 (formula from memory).
    """
    a, b, c = (wall[:, k] - point for k in range(3))
    la, lb, lc = (np.linalg.norm(side, axis=1) for side in (a, b, c))
    volume = (a * np.cross(b, c)).sum(axis=1)
    dots = la * lb * lc + (a * b).sum(1) * lc + (b * c).sum(1) * la + (c * a).sum(1) * lb
    angle = 2 * np.arctan2(volume, dots).sum()
    return bool(abs(angle) > 2 * np.pi)
