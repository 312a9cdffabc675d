"""Relations: where parts stand by what they stand on, under or against.

Only boxes count, in grid units. A part is centred on the other one along the axes that nothing is
said about; `set_in` says how far its side lies in from the same side of the other box, 0 for flush
and below 0 for an overhang. Half a grid unit (6 nanometres) of a centred part is dropped.
"""

from collections.abc import Mapping, Sequence

from shapes.cells import SIDES
from shapes.errors import ShapeError
from shapes.grid import position_units, to_mm
from shapes.parts import Part
from shapes.placement import MOST_IN_A_ROW, Place
from shapes.solids import Solid

At = tuple[int, int, int]
Insets = Mapping[str, float]
"""Side to distance [mm]: {"left": 0, "front": -10} is flush left and hangs over the front by 10."""

_SIDE = {name: (axis, end) for axis, pair in enumerate(SIDES) for end, name in enumerate(pair)}


def beside(
    solid: Solid, other: Part, side: str, *, set_in: Insets | None = None, apart: float = 0.0
) -> At:
    """Return where a solid stands against a side of another part's box [grid units].

    Args:
        solid: the solid to place.
        other: the part it stands against.
        side: of the other: left, right, front, back, bottom or top.
        set_in: along the two other axes; left out, centred.
        apart: air between the two [mm], below 0 to let it into the other.

    Raises:
        ShapeError: an unknown side, or a set-in from both sides or along the axis of the side.

    >>> from shapes.boards import board
    >>> from shapes.placement import place
    >>> top = place("top", board(1000, 600, 20))
    >>> at = beside(board(800, 20, 90), top, "bottom", set_in={"front": 40})
    >>> tuple(to_mm(units) for units in at)
    (100.0, 40.0, -90.0)
    """
    axis, end = _checked_side("side", side)
    place = _inside(solid, other, set_in or {})
    if any(_SIDE[name][0] == axis for name in set_in or {}):
        raise ShapeError("set_in", f"of sides other than {' and '.join(SIDES[axis])}")
    air = position_units("apart", apart)
    far = other.at[axis] + other.solid.size[axis] + air
    place[axis] = far if end else other.at[axis] - air - solid.size[axis]
    return _in_room(place)


def within(solid: Solid, other: Part, *, set_in: Insets | None = None) -> At:
    """Return where a solid stands inside another part's box [grid units].

    Args:
        solid: the solid to place.
        other: the part whose box it stands in.
        set_in: along the axes where it is not centred.

    Raises:
        ShapeError: an unknown side, or a set-in from two opposite sides.

    >>> from shapes.boards import board
    >>> from shapes.placement import place
    >>> case = place("case", board(1000, 400, 800))
    >>> at = within(board(964, 380, 18), case, set_in={"back": 18, "bottom": 300})
    >>> tuple(to_mm(units) for units in at)
    (18.0, 2.0, 300.0)
    """
    return _in_room(_inside(solid, other, set_in or {}))


def on(
    name: str,
    solid: Solid,
    other: Part,
    *,
    set_in: Insets | None = None,
    loose: bool | str = False,
) -> Part:
    """Return a part that stands on another one's box; see `beside`."""
    return Part(name, solid, beside(solid, other, "top", set_in=set_in), loose)


def under(
    name: str,
    solid: Solid,
    other: Part,
    *,
    set_in: Insets | None = None,
    loose: bool | str = False,
) -> Part:
    """Return a part whose top is against the underside of another one's box; see `beside`."""
    return Part(name, solid, beside(solid, other, "bottom", set_in=set_in), loose)


def against(
    name: str,
    solid: Solid,
    other: Part,
    side: str,
    *,
    set_in: Insets | None = None,
    apart: float = 0.0,
    loose: bool | str = False,
) -> Part:
    """Return a part that stands against a side of another one's box; see `beside`."""
    return Part(name, solid, beside(solid, other, side, set_in=set_in, apart=apart), loose)


def grid(
    name: str,
    solid: Solid,
    at: Place,
    *,
    of: Sequence[int],
    apart: Sequence[Place],
    loose: bool | str = False,
) -> list[Part]:
    """Return equal parts in rows in two directions, called `name 1`, `name 2` ... row by row.

    Args:
        name: what they are called before the number.
        solid: the solid of each.
        at: where the first one stands [mm].
        of: how many along the first and along the second direction.
        apart: how far each stands from the last [mm], x, y and z, in each direction.
        loose: as in `Part`.

    Raises:
        ShapeError: not two directions, fewer than one or more than 1 000 in all, a place out of
            range.

    >>> from shapes.boards import board
    >>> knobs = grid("knob", board(20, 20, 20), (0, 0, 0), of=(2, 3),
    ...              apart=((200, 0, 0), (0, 0, 150)))
    >>> [part.name for part in knobs][-1], to_mm(knobs[-1].at[0]), to_mm(knobs[-1].at[2])
    ('knob 6', 200.0, 300.0)
    """
    if len(of) != 2 or len(apart) != 2:
        raise ShapeError("of", "two numbers, with two steps apart")
    if min(of) < 1 or of[0] * of[1] > MOST_IN_A_ROW:
        raise ShapeError("of", f"from 1 to {MOST_IN_A_ROW} in total")
    start = _units("at", at)
    steps = [_units("apart", step) for step in apart]
    places = [
        [start[k] + first * steps[0][k] + second * steps[1][k] for k in range(3)]
        for second in range(of[1])
        for first in range(of[0])
    ]
    return [
        Part(f"{name} {number}", solid, _in_room(place), loose, name)
        for number, place in enumerate(places, start=1)
    ]


def between(
    name: str,
    solid: Solid,
    first: Part,
    last: Part,
    *,
    of: int,
    axis: str = "x",
    set_in: Insets | None = None,
    loose: bool | str = False,
) -> list[Part]:
    """Return equal parts with equal air between two other parts: slats between posts.

    Args:
        name: what they are called before the number.
        solid: the solid of each.
        first: the part on the lower side, towards the left, front or bottom.
        last: the part on the other side.
        of: how many.
        axis: along which they follow each other: x, y or z.
        set_in: in the first part's box, along the other axes; left out, centred.
        loose: as in `Part`.

    Raises:
        ShapeError: fewer than one, an unknown axis, or no room for them.

    >>> from shapes.boards import board
    >>> from shapes.placement import place
    >>> posts = place("left", board(40, 40, 700)), place("right", board(40, 40, 700), (500, 0, 0))
    >>> slats = between("slat", board(60, 12, 500), *posts, of=4)
    >>> [to_mm(slat.at[0]) for slat in slats]  # 460 less 4 x 60, five times 44
    [84.0, 188.0, 292.0, 396.0]
    """
    if axis not in ("x", "y", "z"):
        raise ShapeError("axis", "one of x, y, z")
    if not 1 <= of <= MOST_IN_A_ROW:
        raise ShapeError("of", f"from 1 to {MOST_IN_A_ROW}")
    k = "xyz".index(axis)
    start = first.at[k] + first.solid.size[k]
    air = last.at[k] - start - of * solid.size[k]
    if air < 0:
        rule = f"such that they fit between {first.name} and {last.name}"
        raise ShapeError("of", rule, to_mm(of * solid.size[k]), to_mm(last.at[k] - start))
    parts = []
    for number in range(1, of + 1):
        place = _inside(solid, first, set_in or {})
        place[k] = start + (number - 1) * solid.size[k] + air * number // (of + 1)
        parts.append(Part(f"{name} {number}", solid, _in_room(place), loose, name))
    return parts


def _inside(solid: Solid, other: Part, set_in: Insets) -> list[int]:
    """Return where a solid is centred in another part's box, or set in from its sides."""
    place = [other.at[k] + (other.solid.size[k] - solid.size[k]) // 2 for k in range(3)]
    done: set[int] = set()
    for name, mm in set_in.items():
        axis, end = _checked_side("set_in", name)
        if axis in done:
            raise ShapeError("set_in", f"from {' or '.join(SIDES[axis])}, not both")
        done.add(axis)
        inset = position_units(f"set_in {name}", mm)
        room = other.solid.size[axis] - solid.size[axis]
        place[axis] = other.at[axis] + (room - inset if end else inset)
    return place


def _checked_side(argument: str, side: str) -> tuple[int, int]:
    if side not in _SIDE:
        raise ShapeError(argument, f"one of {', '.join(_SIDE)}, not {side}")
    return _SIDE[side]


def _units(argument: str, place: Place) -> At:
    if len(place) != 3:
        raise ShapeError(argument, "three lengths: x, y, z")
    x, y, z = (position_units(f"{argument} {k}", mm) for k, mm in zip("xyz", place, strict=True))
    return x, y, z


def _in_room(place: Sequence[int]) -> At:
    for axis, units in zip("xyz", place, strict=True):
        position_units(f"at {axis}", to_mm(units))
    return place[0], place[1], place[2]
