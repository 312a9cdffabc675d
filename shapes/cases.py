"""Cases: hollow boxes, closed or open on some of their sides."""

from collections.abc import Iterable

import numpy as np

from shapes.boards import FACES as SIX_SIDES
from shapes.cells import SIDES, side_name, solid_of_cells
from shapes.errors import ShapeError
from shapes.grid import size_units, to_mm
from shapes.solids import Solid

FACES = (*SIX_SIDES, "edge", "inside")


def case(
    width: float, depth: float, height: float, *, board: float, open_sides: Iterable[str] = ()
) -> Solid:
    """Return a case: the outer box less the inner box, stretched through each open side.

    Args:
        width: outer size along x [mm].
        depth: outer size along y [mm].
        height: outer size along z [mm].
        board: thickness of every wall [mm].
        open_sides: sides that are open, of front, back, left, right, top, bottom; not all six.

    Returns:
        A solid with the closed sides as faces, edge (the rims of the open sides) and inside. An
        open side is no face. The inside of a closed case is a face, which exposure leaves out.

    Raises:
        ShapeError: a size out of range, boards that leave no room inside, an unknown open side.

    Source: area of boxes, elementary.

    >>> case(1000, 500, 600, board=18, open_sides=["front"]).area_mm2_of["edge"]
    56304.0
    """
    size = size_units("width", width), size_units("depth", depth), size_units("height", height)
    wall = size_units("board", board)
    opened = _checked_open(open_sides)
    for axis, name in enumerate(("width", "depth", "height")):
        closed = sum(side not in opened for side in SIDES[axis])
        if closed and wall * closed >= size[axis]:
            share = "half of " if closed == 2 else ""
            raise ShapeError(
                "board", f"less than {share}the {name}", board, to_mm(size[axis]) / closed
            )
    return _case(size, wall, opened)


def _checked_open(open_sides: Iterable[str]) -> frozenset[str]:
    opened = frozenset(open_sides)
    unknown = sorted(opened - set(SIX_SIDES))
    if unknown:
        raise ShapeError("open", f"sides of {', '.join(SIX_SIDES)}, not {unknown[0]}")
    if len(opened) == len(SIX_SIDES):
        raise ShapeError("open", "at most five of the six sides")
    return opened


def _case(size: tuple[int, int, int], wall: int, opened: frozenset[str]) -> Solid:
    closed = [tuple(side not in opened for side in sides) for sides in SIDES]
    cuts = [_cuts(size[axis], wall, closed[axis]) for axis in range(3)]
    filled = np.ones([len(cut) - 1 for cut in cuts], dtype=np.bool_)
    filled[tuple(slice(low, low + 1) for low, _ in closed)] = False

    def face_name(axis: int, sign: int, cell: tuple[int, int, int]) -> str:
        if cell[axis] != (filled.shape[axis] - 1 if sign > 0 else 0):
            return "inside"
        side = side_name(axis, sign)
        return "edge" if side in opened else side

    return solid_of_cells((cuts[0], cuts[1], cuts[2]), filled, face_name, FACES)


def _cuts(length: int, wall: int, closed: tuple[bool, ...]) -> list[int]:
    """Cut a length at the inner face of each closed wall."""
    low, high = closed
    return [0, *([wall] if low else []), *([length - wall] if high else []), length]
