"""Volumes: how much wood a solid holds, how much of its box is hollow, how much two parts share.

Volumes come from the triangles, so a round part's is that of the polygon that stands for it (its
polygon has the circle's area, so a straight round leg's is right; a turned one's is off by 5e-5).
"""

import manifold3d
import numpy as np

from shapes.errors import KernelError
from shapes.parts import Part
from shapes.solids import Solid
from shapes.tolerances import GRID_PER_MM


def volume_mm3(solid: Solid) -> float:
    """Return the volume of the wood of a closed solid [mm3].

    Source: divergence theorem, a sum of signed tetrahedra; common knowledge of the field.

    >>> from shapes.boards import board
    >>> volume_mm3(board(20, 30, 40))
    24000.0
    """
    corners = solid.vertices[solid.triangles] / GRID_PER_MM
    first, second, third = (corners[:, k] - corners[:, 0].mean(axis=0) for k in range(3))
    return float((first * np.cross(second, third)).sum()) / 6


def hollow_mm3(solid: Solid) -> float:
    """Return what a solid's box holds beside its wood [mm3]: what a case or a drawer has room for.

    Of a drawer with a lip or with low sides it is an upper bound: it counts the air beside the box.

    >>> from shapes.cases import case
    >>> round(hollow_mm3(case(100, 100, 100, board=10, open_sides=["top"])))
    576000
    """
    width, depth, height = solid.size_mm
    return width * depth * height - volume_mm3(solid)


def is_hollow(solid: Solid) -> bool:
    """Whether a solid is a case or a drawer: whether it has an inside, in one piece or in bays.

    >>> from shapes.cases import Bays, case
    >>> is_hollow(case(100, 100, 100, board=10, bays=Bays(across=2)))
    True
    """
    return any(face.partition(" ")[0] == "inside" for face in solid.faces)


def shared_mm3(first: Part, second: Part) -> float:
    """Return the volume of the wood that two parts share as they stand [mm3].

    Args:
        first: a part whose solid is closed.
        second: another one.

    Raises:
        KernelError: the kernel refused a solid.

    >>> from shapes.boards import board
    >>> from shapes.placement import place
    >>> round(shared_mm3(place("a", board(2, 2, 2)), place("b", board(2, 2, 2), (1, 0, 0))), 9)
    4.0
    """
    common = _body(first) ^ _body(second)
    return float(common.volume()) / GRID_PER_MM**3


def _body(part: Part) -> manifold3d.Manifold:
    mesh = manifold3d.Mesh64(
        vert_properties=part.solid.vertices + np.array(part.at, dtype=np.float64),
        tri_verts=np.ascontiguousarray(part.solid.triangles, dtype=np.uint64),
    )
    body = manifold3d.Manifold(mesh)
    if body.status() != manifold3d.Error.NoError:
        raise KernelError(f"the solid kernel refused {part.name}: {body.status().name}")
    return body
