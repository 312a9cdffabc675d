"""Edges of triangles, and which triangles hang together across them.

Where two triangles meet at an edge they are of one part. Where more meet, those are taken together
between which there is wood, so that bodies drawn against each other come apart.
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from shapes.solids import Floats, Ints

SAME_ANGLE = 1e-7
"""Two triangles leave an edge at one angle when they differ by less [radians]: whole grid units
over a short edge tell no finer."""


@dataclass(frozen=True, eq=False)
class MeshEdges:
    """Sides of triangles sorted by edge.

    Attributes:
        sides: side numbers (3 x triangle + k: from corner k to the next), shape (3 t,).
        forward: whether each runs from the lower corner to the higher one, shape (3 t,).
        starts: where each edge's sides start, shape (e,).
        counts: how many sides each edge has, shape (e,).
    """

    sides: Ints
    forward: npt.NDArray[np.bool_]
    starts: Ints
    counts: Ints


def edges_of(triangles: Ints, count: int) -> MeshEdges:
    """Return the edges of triangles on `count` corners."""
    start = triangles.ravel()
    end = triangles[:, [1, 2, 0]].ravel()
    keys = np.minimum(start, end) * count + np.maximum(start, end)
    sides = np.argsort(keys)
    is_new = np.append(True, np.diff(keys[sides]) != 0)
    starts = np.flatnonzero(is_new)
    counts = np.diff(np.append(starts, len(sides)))
    return MeshEdges(sides, (start < end)[sides], starts, counts)


def across_sides(triangles: Ints, count: int) -> Ints | None:
    """Return the triangle across each side, None unless just two meet, facing alike, at every edge.

    That is the common case, and what it says makes most other questions needless: it is closed, no
    triangle is there twice, and none faces the wrong way.

    Args:
        triangles: corner numbers, shape (t, 3).
        count: how many corners there are.

    Returns:
        Triangle numbers; side k runs from corner k to the next; shape (t, 3).
    """
    from scipy.sparse import coo_array

    start = triangles.ravel().astype(np.int32)
    end = triangles[:, [1, 2, 0]].ravel().astype(np.int32)
    sides = np.arange(len(start), dtype=np.int32)
    # sides sorted by where they start and end, and by where they end and start: counting sorts
    back = coo_array((sides, (start, end)), shape=(count, count)).tocsr().T.tocsr()
    along = back.T.tocsr()
    if back.nnz < len(sides):
        return None  # two sides run the same way, and were added up
    if (along.indptr != back.indptr).any() or (along.indices != back.indices).any():
        return None
    other = np.empty(len(sides), dtype=np.int64)
    other[along.data] = back.data // 3
    return other.reshape(-1, 3)


def linked_parts(across: Ints) -> Ints:
    """Return the number of the part that each triangle belongs to, from those across its sides."""
    from scipy.sparse import csr_array
    from scipy.sparse.csgraph import connected_components

    starts = np.arange(0, across.size + 1, 3, dtype=np.int32)
    ones = np.ones(across.size, dtype=np.int8)
    links = csr_array((ones, across.ravel().astype(np.int32), starts), shape=(len(across),) * 2)
    # every link has its opposite, so what can be reached both ways is what can be reached at all
    label: Ints = connected_components(links, connection="strong")[1].astype(np.int64)
    return label


def is_balanced(edges: MeshEdges) -> bool:
    """Whether as many sides run one way along each edge as the other: every body is closed."""
    turns = np.add.reduceat(np.where(edges.forward, 1, -1), edges.starts)
    return not turns.any()


def turned_alike(triangles: Ints, edges: MeshEdges) -> Ints | None:
    """Return the triangles turned so that neighbours agree, None where none can be.

    Each triangle is two nodes, as it is and turned; nodes that agree are linked. A surface that can
    be turned alike falls into two mirror components for each of its pieces.
    """
    two = edges.starts[edges.counts == 2]
    if (edges.counts % 2).any():
        return None
    first, second = edges.sides[two] // 3, edges.sides[two + 1] // 3
    differs = edges.forward[two] == edges.forward[two + 1]
    count = len(triangles)
    links = np.concatenate(
        [
            np.stack([first, second + count * differs], axis=1),
            np.stack([first + count, second + count * ~differs], axis=1),
        ]
    )
    label = _components(links, 2 * count)
    if (label[:count] == label[count:]).any():
        return None
    turned = triangles.copy()
    is_turned = label[:count] > label[count:]
    turned[is_turned] = turned[is_turned][:, ::-1]
    return turned


def _components(links: Ints, count: int) -> Ints:
    """Return the number of the connected component of each of `count` nodes."""
    from scipy.sparse import coo_array
    from scipy.sparse.csgraph import connected_components

    ones = np.ones(len(links), dtype=np.int8)
    graph = coo_array((ones, (links[:, 0], links[:, 1])), shape=(count, count)).tocsr()
    label: Ints = connected_components(graph, directed=False)[1].astype(np.int64)
    return label


def closed_parts(vertices: Floats, triangles: Ints, edges: MeshEdges) -> Ints:
    """Return the number of the closed part that each triangle belongs to.

    Triangles that share an edge with no third are of one part. At the other edges, parts that
    already close there are left alone; of the rest, two that fit only each other are linked first,
    and then those with wood between them.
    """
    two = edges.starts[edges.counts == 2]
    pairs = np.stack([edges.sides[two], edges.sides[two + 1]], axis=1) // 3
    piece_of = _components(pairs, len(triangles))
    crowded = np.flatnonzero(edges.counts > 2)
    if not len(crowded):
        return piece_of
    links = _Links(int(piece_of.max()) + 1)
    waiting = []
    for k in crowded.tolist():
        span = slice(edges.starts[k], edges.starts[k] + edges.counts[k])
        waiting.append((edges.sides[span], edges.forward[span]))
    while True:
        before, count = links.made, len(waiting)
        waiting = [edge for edge in waiting if not links.close(piece_of[edge[0] // 3], edge[1])]
        if (links.made, len(waiting)) == (before, count):
            break
    for sides, forward in waiting:
        left = links.unclosed(piece_of[sides // 3], forward)
        if left:
            angles = _angles(vertices, triangles, sides[left], forward[left])
            for one, other in _wedges(piece_of[sides[left] // 3].tolist(), forward[left], angles):
                links.join(one, other)
    whole = np.array([links.find(piece) for piece in range(int(piece_of.max()) + 1)])
    _, number = np.unique(whole, return_inverse=True)
    return number.reshape(-1)[piece_of]


class _Links:
    """Pieces of surface that belong to one part, as they are found."""

    def __init__(self, count: int) -> None:
        self._above = list(range(count))
        self.made = 0

    def find(self, piece: int) -> int:
        """Return the piece that stands for all that this one is linked to."""
        while self._above[piece] != piece:
            self._above[piece] = self._above[self._above[piece]]
            piece = self._above[piece]
        return piece

    def join(self, piece: int, other: int) -> None:
        """Link two pieces."""
        low, high = sorted((self.find(piece), self.find(other)))
        if low != high:
            self._above[high] = low
            self.made += 1

    def unclosed(self, pieces: Ints, forward: npt.NDArray[np.bool_]) -> list[int]:
        """Return the positions of sides that no side of their own part closes at this edge."""
        open_sides: dict[int, list[int]] = {}
        for position, piece in enumerate(pieces.tolist()):
            mine = open_sides.setdefault(self.find(piece), [])
            if mine and forward[mine[-1]] != forward[position]:
                mine.pop()
            else:
                mine.append(position)
        return sorted(position for mine in open_sides.values() for position in mine)

    def close(self, pieces: Ints, forward: npt.NDArray[np.bool_]) -> bool:
        """Link the two parts that are left at an edge if there are but two; say if none is left."""
        left = self.unclosed(pieces, forward)
        if len(left) == 2:
            self.join(int(pieces[left[0]]), int(pieces[left[1]]))
        return len(left) <= 2


def _angles(
    vertices: Floats, triangles: Ints, sides: Ints, forward: npt.NDArray[np.bool_]
) -> Floats:
    """Return the angle at which triangles leave an edge, seen along it [radians from the first]."""
    corners = triangles[sides // 3]
    start, end, tip = (corners[np.arange(len(sides)), (sides + k) % 3] for k in range(3))
    low, high = (start[0], end[0]) if forward[0] else (end[0], start[0])
    axis = vertices[high] - vertices[low]
    axis = axis / np.linalg.norm(axis)
    across = vertices[tip] - vertices[low]
    across = across - np.outer(across @ axis, axis)
    second = np.cross(axis, across[0])
    length = max(float(np.linalg.norm(second)), 1.0)
    angles = np.arctan2(across @ second / length, across @ across[0] / length)
    rounded: Floats = np.round(angles % (2 * np.pi) / SAME_ANGLE)
    return rounded % round(2 * np.pi / SAME_ANGLE)


def _wedges(
    owners: list[int], forward: npt.NDArray[np.bool_], angles: Floats
) -> list[tuple[int, int]]:
    """Pair the owners of the triangles around an edge that have wood between them.

    Going round the edge, a backward side opens wood and a forward side closes it; at one angle
    bodies close before others open. The latest to open is closed first.
    """
    order = np.lexsort([~forward, angles])
    depth = np.cumsum(np.where(forward[order], -1, 1))
    order = np.roll(order, -int(depth.argmin()) - 1)
    opened: list[int] = []
    pairs = []
    for side in order.tolist():
        if forward[side]:
            pairs.append((owners[opened.pop()], owners[side]))
        else:
            opened.append(side)
    return pairs
