"""Solids made of the filled cells of a rectangular lattice.

Boards, cases, drawers, panels and square legs are all this: cuts along x, y and z, and for each
cell whether there is wood in it. Every corner is a whole number of grid units and every area a
whole number of square units, so nothing is approximated. Cells must not meet along an edge only.
"""

from collections.abc import Callable

import numpy as np
import numpy.typing as npt

from shapes.grid import to_mm2
from shapes.solids import Ints, Patch, Solid

Cuts = tuple[list[int], list[int], list[int]]
Filled = npt.NDArray[np.bool_]
FaceName = Callable[[int, int, tuple[int, int, int]], str]
"""Names the face that a cell shows towards `sign` along `axis`: (axis, sign, cell) -> name."""

SIDES = (("left", "right"), ("front", "back"), ("bottom", "top"))
"""Names of the six sides by axis, the lower one first."""


def side_name(axis: int, sign: int) -> str:
    """Return the name of the side that looks towards `sign` along `axis`."""
    return SIDES[axis][sign > 0]


def solid_of_cells(
    cuts: Cuts, filled: Filled, face_name: FaceName, order: tuple[str, ...]
) -> Solid:
    """Build a solid from filled cells.

    Args:
        cuts: where the lattice is cut along x, y, z [grid units], rising from 0.
        filled: whether each cell is wood, shape (len(xs) - 1, len(ys) - 1, len(zs) - 1).
        face_name: names the face that a cell shows in a direction.
        order: the names in the order in which the faces are to be listed.
    """
    quads: dict[tuple[int, int, int, str], list[list[int]]] = {}
    areas: dict[tuple[int, int, int, str], int] = {}
    for axis in range(3):
        for sign in (-1, 1):
            for cell in _bare_sides(filled, axis, sign):
                plane = cell[axis] + (sign > 0)
                key = (axis, sign, plane, face_name(axis, sign, cell))
                quads.setdefault(key, []).append(_corners(filled, cell, axis, sign))
                areas[key] = areas.get(key, 0) + _cell_area(cuts, cell, axis)
    keys = sorted(quads, key=lambda key: (order.index(key[3]), key[:3]))
    patches = tuple(
        Patch(name, to_mm2(areas[axis, sign, plane, name]), _unit(axis, sign))
        for axis, sign, plane, name in keys
    )
    corners = np.array([quad for key in keys for quad in quads[key]], dtype=np.int64)
    patch_of = np.repeat(np.arange(len(keys)), [2 * len(quads[key]) for key in keys])
    return _compact(cuts, corners, patch_of, patches)


def _bare_sides(filled: Filled, axis: int, sign: int) -> list[tuple[int, int, int]]:
    """List the filled cells with no filled neighbour towards `sign` along `axis`."""
    padded = np.pad(filled, 1)
    neighbour = np.roll(padded, -sign, axis=axis)[1:-1, 1:-1, 1:-1]
    return [(int(x), int(y), int(z)) for x, y, z in np.argwhere(filled & ~neighbour)]


def _corners(filled: Filled, cell: tuple[int, int, int], axis: int, sign: int) -> list[int]:
    """Return lattice numbers of the four corners of a cell's side, outward."""
    _, ny, nz = filled.shape
    second, third = (axis + 1) % 3, (axis + 2) % 3
    numbers = []
    for b, c in ((0, 0), (1, 0), (1, 1), (0, 1))[::sign]:
        corner = list(cell)
        corner[axis] += sign > 0
        corner[second] += b
        corner[third] += c
        numbers.append((corner[0] * (ny + 1) + corner[1]) * (nz + 1) + corner[2])
    return numbers


def _cell_area(cuts: Cuts, cell: tuple[int, int, int], axis: int) -> int:
    """Return the area of a cell's side across `axis` [square grid units]."""
    lengths = [cuts[k][cell[k] + 1] - cuts[k][cell[k]] for k in range(3) if k != axis]
    return lengths[0] * lengths[1]


def _unit(axis: int, sign: int) -> tuple[float, float, float]:
    normal = [0.0, 0.0, 0.0]
    normal[axis] = float(sign)
    return normal[0], normal[1], normal[2]


def _compact(cuts: Cuts, corners: Ints, patch_of: Ints, patches: tuple[Patch, ...]) -> Solid:
    """Make the solid from quads on the whole lattice, dropping the corners that no quad uses."""
    used, renumbered = np.unique(corners, return_inverse=True)
    quads = renumbered.reshape(corners.shape)
    shape = tuple(len(cut) for cut in cuts)
    index = np.unravel_index(used, shape)
    vertices = np.stack([np.array(cuts[k], dtype=np.float64)[index[k]] for k in range(3)], axis=1)
    triangles = quads[:, [0, 1, 2, 0, 2, 3]].reshape(-1, 3)
    size = (cuts[0][-1], cuts[1][-1], cuts[2][-1])
    return Solid(vertices, triangles, patch_of, patches, size)
