"""Where parts stand: by a corner, in a row, or under the corners of another part's box."""

from collections.abc import Sequence

from shapes.errors import ShapeError
from shapes.grid import position_units, to_mm
from shapes.parts import Part
from shapes.solids import Solid
from shapes.tolerances import MAX_LENGTH_MM

Place = Sequence[float]
"""x, y, z [mm]."""
ORIGIN = (0.0, 0.0, 0.0)
MOST_IN_A_ROW = 1_000


def place(name: str, solid: Solid, at: Place = ORIGIN, *, loose: bool | str = False) -> Part:
    """Return a part whose box has its left, front, bottom corner at `at` [mm].

    Raises:
        ShapeError: a position that is not finite or beyond 10 m.
    """
    return Part(name, solid, _units("at", at), loose)


def row(
    name: str, solid: Solid, at: Place, *, of: int, apart: Place, loose: bool | str = False
) -> list[Part]:
    """Return `of` equal parts, each `apart` [mm] from the last, called `name 1`, `name 2` ...

    Raises:
        ShapeError: fewer than one or more than 1 000, or a position beyond 10 m.
    """
    if not 1 <= of <= MOST_IN_A_ROW:
        raise ShapeError("of", f"from 1 to {MOST_IN_A_ROW}")
    start, step = _units("at", at), _units("apart", apart)
    places = [tuple(start[k] + step[k] * number for k in range(3)) for number in range(of)]
    for k in range(3):
        if abs(to_mm(places[-1][k])) > MAX_LENGTH_MM:
            raise ShapeError("apart", "less, so that the row ends within 10 m")
    return [
        Part(f"{name} {number}", solid, (x, y, z), loose, name)
        for number, (x, y, z) in enumerate(places, start=1)
    ]


def corners(
    name: str, solid: Solid, *, under: Part, set_in: float, loose: bool | str = False
) -> list[Part]:
    """Return four equal parts under the corners of another part's box, tops against its underside.

    Args:
        name: they are called `name 1` front left, `name 2` front right, `name 3` back left,
            `name 4` back right.
        solid: the solid of each.
        under: the part whose box they stand under.
        set_in: from the sides of that box to their own boxes [mm].
        loose: as in `Part`.

    Raises:
        ShapeError: a negative set-in, or parts that would reach out of the box.
    """
    inset = position_units("set_in", set_in)
    if inset < 0:
        raise ShapeError("set_in", "0 or more", set_in)
    low, high = [], []
    for k, side in ((0, "width"), (1, "depth")):
        room = under.solid.size[k] - solid.size[k] - inset
        if room < 0:
            rule = f"less, or the part sticks out of {under.name} in its {side}"
            raise ShapeError("set_in", rule, set_in)
        low.append(under.at[k] + inset)
        high.append(under.at[k] + room)
    z = under.at[2] - solid.size[2]
    position_units("height below the floor", to_mm(z))
    places = ((low[0], low[1]), (high[0], low[1]), (low[0], high[1]), (high[0], high[1]))
    return [
        Part(f"{name} {number}", solid, (x, y, z), loose, name)
        for number, (x, y) in enumerate(places, start=1)
    ]


def _units(argument: str, at: Place) -> tuple[int, int, int]:
    if len(at) != 3:
        raise ShapeError(argument, "three lengths: x, y, z")
    x, y, z = (position_units(f"{argument} {axis}", mm) for axis, mm in zip("xyz", at, strict=True))
    return x, y, z
