"""The union of pieces of solids by `manifold3d`, each triangle with the piece it came from."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

import manifold3d
import numpy as np

from shapes.errors import KernelError
from shapes.shared_patches import flush_pairs
from shapes.solids import Floats, Ints, Solid
from shapes.stretches import CutPiece


@dataclass(frozen=True, eq=False)
class United:
    """Pieces joined into one surface.

    Attributes:
        vertices: corners [grid units], shape (v, 3).
        triangles: corner numbers, outward, shape (t, 3).
        piece_of: the piece of each triangle, shape (t,).
        patch_of: its patch in the solid of that piece, or a lid, as `CutPiece` counts them.
    """

    vertices: Floats
    triangles: Ints
    piece_of: Ints
    patch_of: Ints


def united(
    pieces: Sequence[CutPiece],
    solids: Sequence[Solid],
    places: Floats,
    at_once: int,
    *,
    settle_flush: bool,
) -> United:
    """Return pieces joined, neighbours first.

    Args:
        pieces: the pieces; a solid whose faces are all square to the axes is one piece.
        solids: the solids.
        places: where the corner of each one's box stands [grid units], shape (solids, 3).
        at_once: how many pieces are joined in one call.
        settle_flush: whether whose a flush patch is, is settled first; else the kernel decides.

    Raises:
        KernelError: the kernel refused a solid.
    """
    first_id = manifold3d.Manifold.reserve_ids(len(pieces))

    def body(number: int) -> manifold3d.Manifold:
        return settled.pop(number, None) or _body(pieces[number], first_id + number)

    settled: dict[int, manifold3d.Manifold] = {}
    if settle_flush:
        whole = {piece.number: k for k, piece in enumerate(pieces) if not piece.lids}
        order = np.lexsort(places.T).tolist()
        for number, owners in _owners(flush_pairs(solids, places), order).items():
            bodies = [_body(pieces[whole[k]], first_id + whole[k]) for k in (number, *owners)]
            settled[whole[number]] = _together(bodies, manifold3d.OpType.Subtract)
    nearest = np.lexsort(np.array([piece.corner for piece in pieces]).T).tolist()
    joined = _joined(body, nearest, at_once)
    mesh = joined.to_mesh64()
    starts = np.asarray(mesh.run_index, dtype=np.int64)
    counts = (starts[1:] - starts[:-1]) // 3
    return United(
        np.asarray(mesh.vert_properties)[:, :3],
        np.asarray(mesh.tri_verts, dtype=np.int64),
        np.repeat(np.asarray(mesh.run_original_id, dtype=np.int64) - first_id, counts),
        np.asarray(mesh.face_id, dtype=np.int64),
    )


def _body(piece: CutPiece, original_id: int) -> manifold3d.Manifold:
    mesh = manifold3d.Mesh64(
        vert_properties=piece.vertices,
        tri_verts=np.ascontiguousarray(piece.triangles, dtype=np.uint64),
        run_index=np.array([0, 3 * len(piece.triangles)], dtype=np.uint64),
        run_original_id=np.array([original_id], dtype=np.uint32),
        face_id=piece.patch_of.astype(np.uint64),
    )
    body = manifold3d.Manifold(mesh)
    _check(body, "a solid")
    return body


def _owners(flush: Iterable[tuple[int, int]], order: list[int]) -> dict[int, list[int]]:
    """Return what is taken out of a solid: what is flush with it and comes earlier in the order.

    Args:
        flush: pairs of solids that stand in each other and have faces flush.
        order: the solids, the first owner first.
    """
    rank = {number: k for k, number in enumerate(order)}
    owners: dict[int, list[int]] = {}
    for pair in flush:
        owner, other = sorted(pair, key=lambda number: rank[number])
        owners.setdefault(other, []).append(owner)
    return owners


def _joined(
    body: Callable[[int], manifold3d.Manifold], numbers: list[int], at_once: int
) -> manifold3d.Manifold:
    """Join bodies, some at once; each is made only now, so that few are in memory together."""
    if len(numbers) == 1:
        return body(numbers[0])
    add = manifold3d.OpType.Add
    groups = (numbers[k : k + at_once] for k in range(0, len(numbers), at_once))
    bodies = [_together([body(number) for number in group], add) for group in groups]
    while len(bodies) > 1:
        waiting, bodies = bodies[::-1], []
        while waiting:  # what is joined is let go at once
            bodies.append(_together([waiting.pop() for _ in waiting[:at_once]], add))
    return bodies[0]


def _together(
    bodies: list[manifold3d.Manifold], operation: manifold3d.OpType
) -> manifold3d.Manifold:
    body = manifold3d.Manifold.batch_boolean(bodies, operation)
    _check(body, "the joined piece")
    return body


def _check(body: manifold3d.Manifold, what: str) -> None:
    """Raise where the kernel found fault; it would go on with an empty solid."""
    if body.status() != manifold3d.Error.NoError:
        raise KernelError(f"the solid kernel refused {what}: {body.status().name}")
