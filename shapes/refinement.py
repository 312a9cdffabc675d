"""Large flat faces that many turned parts stand on, cut into more triangles before they are joined.

The kernel cuts each triangle of a face anew around all that stands on it, in time that grows with
the square of how much that is. With a fair number on each triangle it grows as their number. Only
edges whose halves stay exact are cut: along an axis, or inside a patch that is square to the axes.
"""

import heapq
import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from shapes.solids import Solid

MANY = 32
"""Solids near one that needs no more triangles for them. With 8 or 128 a board with 800 dowels in
it took as long, give or take a fifth; with two triangles in all, four times as long."""

FINE_ENOUGH = 100
"""Triangles for each solid near, beyond which a mesh is left as it is."""

Edge = tuple[int, int]


def refined(solid: Solid, near: int) -> Solid:
    """Return a solid whose large triangles are cut so that few others are near each.

    Args:
        solid: the solid; its form, its patches and their areas stay.
        near: how many other solids are near it.

    >>> from shapes.boards import board
    >>> rail = board(1000, 50, 20)
    >>> len(rail.triangles), len(refined(rail, 64).triangles), len(refined(rail, 128).triangles)
    (12, 60, 188)
    """
    if near <= MANY or len(solid.triangles) > FINE_ENOUGH * near:
        return solid
    mesh = _Mesh(solid)
    mesh.cut(max(solid.size) * MANY / near)
    return mesh.solid()


class _Mesh:
    """A closed mesh whose edges are cut in half, the longest first."""

    def __init__(self, solid: Solid) -> None:
        self._whole = solid
        self._corners: list[tuple[float, float, float]] = [(x, y, z) for x, y, z in solid.vertices]
        self._triangles: list[tuple[int, int, int]] = [(a, b, c) for a, b, c in solid.triangles]
        self._patch_of: list[int] = solid.patch_of.tolist()
        self._is_square = [
            patch.normal is not None and sorted(map(abs, patch.normal)) == [0, 0, 1]
            for patch in solid.patches
        ]
        self._sides: dict[Edge, set[int]] = {}
        for number in range(len(self._triangles)):
            self._note(number)

    def cut(self, longest: float) -> None:
        """Cut all edges longer than this [grid units] that may be cut."""
        waiting = [(-self._length(edge), edge) for edge in self._sides if self._may_cut(edge)]
        heapq.heapify(waiting)
        while waiting and -waiting[0][0] > longest:
            _, edge = heapq.heappop(waiting)
            for new in self._halved(edge):
                if self._may_cut(new):
                    heapq.heappush(waiting, (-self._length(new), new))

    def solid(self) -> Solid:
        """Return the solid."""
        return replace(
            self._whole,
            vertices=np.array(self._corners, dtype=np.float64),
            triangles=np.array(self._triangles, dtype=np.int64),
            patch_of=np.array(self._patch_of, dtype=np.int64),
        )

    def _note(self, number: int) -> None:
        a, b, c = self._triangles[number]
        for edge in ((a, b), (b, c), (c, a)):
            self._sides.setdefault(_key(*edge), set()).add(number)

    def _length(self, edge: Edge) -> float:
        return math.dist(self._corners[edge[0]], self._corners[edge[1]])

    def _may_cut(self, edge: Edge) -> bool:
        patches = [self._patch_of[number] for number in self._sides[edge]]
        if len(patches) != 2 or not all(self._is_square[patch] for patch in patches):
            return False
        ends = zip(*(self._corners[end] for end in edge), strict=True)
        return patches[0] == patches[1] or sum(low != high for low, high in ends) == 1

    def _halved(self, edge: Edge) -> Iterator[Edge]:
        """Cut an edge and the triangles on its two sides; yield the edges that this makes."""
        x, y, z = (
            float(round((low + high) / 2))
            for low, high in zip(*(self._corners[end] for end in edge), strict=True)
        )
        middle = len(self._corners)
        self._corners.append((x, y, z))
        for number in self._sides.pop(edge):
            a, b, c = self._triangles[number]
            while _key(a, b) != edge:
                a, b, c = b, c, a
            self._sides[_key(b, c)].remove(number)
            self._triangles[number] = (a, middle, c)
            self._triangles.append((middle, b, c))
            self._patch_of.append(self._patch_of[number])
            self._note(number)
            self._note(len(self._triangles) - 1)
            yield _key(middle, c)
        yield from (_key(end, middle) for end in edge)


def _key(first: int, second: int) -> Edge:
    return (first, second) if first < second else (second, first)
