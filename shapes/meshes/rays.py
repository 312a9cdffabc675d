"""The ray library: the only place that knows it.

Works in 32 bits, in the library's robust mode: no ray slips through between two triangles that
share an edge.
"""

from typing import Any

import numpy as np
import numpy.typing as npt

from shapes.solids import Floats, Ints

Singles = npt.NDArray[np.float32]
Bools = npt.NDArray[np.bool_]

ENDLESS = 1e30
"""Length of a ray that leaves the piece."""


class Caster:
    """Casts rays at triangles.

    Args:
        vertices: corners within a box of some units around the origin, shape (v, 3).
        triangles: corner numbers, shape (t, 3).

    Attributes:
        rays: how many rays were cast so far.
    """

    def __init__(self, vertices: Floats, triangles: Ints) -> None:
        from embreex.mesh_construction import TriangleMesh
        from embreex.rtcore_scene import EmbreeScene

        self._scene: Any = EmbreeScene(robust=True)
        corners, numbers = vertices.astype(np.float32), triangles.astype(np.int32)
        self._kept = TriangleMesh(self._scene, corners, numbers)
        self.rays = 0

    def hits(self, origins: Singles, directions: Singles, lengths: Singles | None = None) -> Bools:
        """Return whether each ray hits a triangle.

        Args:
            origins: where the rays start, shape (n, 3).
            directions: unit vectors, shape (n, 3).
            lengths: how far each one goes, shape (n,); None, without end.
        """
        self.rays += len(origins)
        ends = {} if lengths is None else {"dists": lengths}
        found: Bools = self._scene.run(origins, directions, query="OCCLUDED", **ends) != -1
        return found

    def first(self, origins: Singles, directions: Singles) -> Ints:
        """Return the triangle that each ray hits first, -1 for none."""
        self.rays += len(origins)
        found: Ints = self._scene.run(origins, directions, query="INTERSECT").astype(np.int64)
        return found
