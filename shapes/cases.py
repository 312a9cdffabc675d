"""Cases: hollow boxes, closed or open on some of their sides, undivided or in bays."""

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np

from shapes.boards import FACES as SIX_SIDES
from shapes.cells import SIDES, side_name, solid_of_cells
from shapes.errors import ShapeError
from shapes.grid import size_units, to_mm
from shapes.solids import Solid

FACES = (*SIX_SIDES, "edge", "inside")
INSIDE = "inside"


@dataclass(frozen=True)
class Bays:
    """How a case is divided by partitions and shelves.

    Attributes:
        across: how many bays side by side, all alike; or their clear widths from the left [mm],
            the last bay being what is left.
        up: the same from the bottom up.
        divider: thickness of partitions and shelves [mm]; None, that of the walls.
        closed: numbers of bays that are closed where the case is open, from 1: from left to right,
            the lowest row first.
    """

    across: int | Sequence[float] = 1
    up: int | Sequence[float] = 1
    divider: float | None = None
    closed: Sequence[int] = ()


def case(
    width: float,
    depth: float,
    height: float,
    *,
    board: float,
    open_sides: Iterable[str] = (),
    bays: Bays | None = None,
) -> Solid:
    """Return a case: the outer box less the inner box, stretched through each open side.

    Args:
        width: outer size along x [mm].
        depth: outer size along y [mm].
        height: outer size along z [mm].
        board: thickness of every wall [mm].
        open_sides: sides that are open, of front, back, left, right, top, bottom; not all six.
        bays: how it is divided; left out, it is not.

    Returns:
        A solid with the closed sides as faces, edge (the rims of the open sides) and inside; in
        bays these are inside 1, inside 2 and so on. An open side is no face, but for the boards
        that close bays. The inside of a closed case or bay is a face, which exposure leaves out.

    Raises:
        ShapeError: a size out of range, boards that leave no room inside, an unknown open side,
            bays in a case that is open elsewhere than in front or at the back.

    Source: area of boxes, elementary.

    >>> case(1000, 500, 600, board=18, open_sides=["front"]).area_mm2_of["edge"]
    56304.0
    >>> case(1000, 500, 600, board=20, open_sides=["front"], bays=Bays(across=3)).faces[-2:]
    ('inside 2', 'inside 3')
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
    return _case(size, wall, opened) if bays is None else _in_bays(size, wall, opened, bays)


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


def _in_bays(size: tuple[int, int, int], wall: int, opened: frozenset[str], bays: Bays) -> Solid:
    """Return a case divided into bays, which are cells 1, 3, 5 ... of its width and height."""
    if not opened <= {"front", "back"}:
        raise ShapeError("open", "front, back or both, where a case has bays")
    divider = wall if bays.divider is None else size_units("bays divider", bays.divider)
    across = _divided("bays across", bays.across, size[0], (wall, divider))
    up = _divided("bays up", bays.up, size[2], (wall, divider))
    wide, high = len(across) // 2 - 1, len(up) // 2 - 1
    shut = frozenset(bays.closed)
    for number in shut:
        if not 1 <= number <= wide * high:
            raise ShapeError("bays closed", f"numbers of bays, 1 to {wide * high}, not {number}")
    walls = tuple(side not in opened for side in SIDES[1])
    along = _cuts(size[1], wall, tuple(is_closed or bool(shut) for is_closed in walls))
    filled = np.ones((len(across) - 1, len(along) - 1, len(up) - 1), dtype=np.bool_)
    for number in range(wide * high):
        front, back = (is_closed or number + 1 in shut for is_closed in walls)
        room = slice(1 if front else 0, len(along) - (2 if back else 1))
        filled[2 * (number % wide) + 1, room, 2 * (number // wide) + 1] = False
    insides = [f"{INSIDE} {number}" for number in range(1, wide * high + 1)]
    if len(insides) == 1:
        insides = [INSIDE]

    def face_name(axis: int, sign: int, cell: tuple[int, int, int]) -> str:
        if cell[axis] != (filled.shape[axis] - 1 if sign > 0 else 0):
            x, _, z = (cell[k] + sign * (k == axis) for k in range(3))
            return insides[x // 2 + wide * (z // 2)]
        side, is_of_bay = side_name(axis, sign), cell[0] % 2 == cell[2] % 2 == 1
        return "edge" if side in opened and not is_of_bay else side

    return solid_of_cells((across, along, up), filled, face_name, (*SIX_SIDES, "edge", *insides))


def _divided(
    argument: str, given: int | Sequence[float], length: int, thick: tuple[int, int]
) -> list[int]:
    """Return cuts along one side: wall, bay, divider, bay, ... wall [grid units]."""
    wall, divider = thick
    count = given if isinstance(given, int) else len(given) + 1
    clear = length - 2 * wall - (count - 1) * divider
    if count < 1 or clear < count:
        rule = "fewer, and at least one: no room is left between so many boards"
        raise ShapeError(argument, rule)
    ends = [clear * number // count for number in range(1, count + 1)]
    if not isinstance(given, int):
        ends = [*itertools.accumulate(size_units(argument, mm) for mm in given), clear]
        if clear <= sum(ends[-2:-1]):
            limit = to_mm(clear)
            raise ShapeError(argument, "less in total, so that a last bay is left", None, limit)
    cuts = [0]
    for number, (start, end) in enumerate(itertools.pairwise([0, *ends])):
        cuts += [wall + number * divider + start, wall + number * divider + end]
    return [*cuts, length]
