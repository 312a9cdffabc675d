"""Measures that several kinds of piece share, and what limits them beside the other answers."""

from collections.abc import Callable
from fractions import Fraction

from surfacecalc.starting.measurements import Measure, Sizes

NARROWEST_OPENING = "3"
LOWEST_OPENING = "2"
LOWEST_APRON_WITH_DRAWERS = "3"
"""Least width and height of an opening, and of the rails with drawers between them [in]: less holds
no drawer box."""


def least_of(s: Sizes, *keys: str) -> Fraction:
    """Return the least of some measures [mm]."""
    return min(s[key] for key in keys)


def _case_breadth(s: Sizes) -> Fraction:
    """Return the smaller of a case's width and depth under its top or lid [mm]."""
    return min(s["width"] - 2 * s["overhang"], s["depth"] - s["overhang"])


def _case_height(s: Sizes) -> Fraction:
    lid = s["lid-thickness"] if "lid-thickness" in s.values else 0
    return s["height"] - s["leg-height"] - lid


def _most_drawers(s: Sizes) -> Fraction:
    board = s["board"]
    return (_case_height(s) - board) / (s.common(LOWEST_OPENING) + board)


def _most_across(s: Sizes) -> Fraction:
    board = s["board"]
    return (s["width"] - 2 * s["overhang"] - board) / (s.common(NARROWEST_OPENING) + board)


def _most_shelves(s: Sizes) -> Fraction:
    board, low = s["board"], s.common(LOWEST_OPENING)
    return (_case_height(s) - 2 * board - low) / (low + board)


def most_desk_drawers(s: Sizes) -> Fraction:
    """Return how many drawers fit side by side between the legs of a desk."""
    if s["apron"] < s.common(LOWEST_APRON_WITH_DRAWERS):
        return Fraction(0)
    between = s["width"] - 2 * (s["overhang"] + s["leg-thickness"])
    return between / (s.common(NARROWEST_OPENING) + s.common("3/4"))


def _most_frame(s: Sizes) -> Fraction:
    width = s["width"] - 2 * s["overhang"]
    return min(width / s.count("doors"), _case_height(s) - s["board"]) / 4


def most_front_frame(s: Sizes) -> Fraction:
    """Return the widest frame that fits on every door of a set [mm]."""
    keys = ("width", "height", "upper-width", "upper-height")
    return min(s[key] for key in keys if key in s.values) / 4


def has(key: str) -> Callable[[Sizes], bool]:
    """Return what tells whether there is something, by its answer."""
    return lambda s: bool(s[key])


def width(least: str, most: str, how: str = "across the front, at the widest point") -> Measure:
    """Return the width over all, with its usual range [in] and how it is measured."""
    return Measure("width", "Width", how, least, most)


def depth(least: str, most: str, how: str = "from front to back, at the deepest point") -> Measure:
    """Return the depth over all, with its usual range [in] and how it is measured."""
    return Measure("depth", "Depth", how, least, most)


def height(least: str, most: str, how: str = "from the floor to the top surface") -> Measure:
    """Return the height over all, with its usual range [in] and how it is measured."""
    return Measure("height", "Height", how, least, most)


CASE_OVERHANG = Measure(
    "overhang", "Top overhang", "from the edge of the top in to the side of the case",
    "1/8", "3", "1/2", hint='Type "none" if the top is flush with the sides.',
    may_be_none=True, room=lambda s: least_of(s, "width", "depth") / 6,
)  # fmt: skip
LEG_HEIGHT = Measure(
    "leg-height", "Leg height", "from the floor to the underside of the case",
    "1/2", "16", "0", hint='Type "none" if the case sits on the floor.',
    may_be_none=True, room=lambda s: s["height"] / 2,
)  # fmt: skip
CASE_LEG = Measure(
    "leg-thickness", "Leg thickness", "across the front of a leg, where it is thickest",
    "3/4", "4", "1 3/4", room=lambda s: _case_breadth(s) / 3, asked=has("leg-height"),
)  # fmt: skip
BOARD = Measure(
    "board", "Board thickness", "across an edge of the case, such as the front edge of a side",
    "3/8", "1 1/2", "3/4",
    room=lambda s: min(_case_breadth(s), _case_height(s)) / 6,
)  # fmt: skip
DRAWERS = Measure(
    "drawers", "Rows of drawers", "the drawers one above the other", "0", "8", "3", "count",
    hint="Type 0 if the front is open.", may_be_none=True, room=_most_drawers,
)  # fmt: skip
ACROSS = Measure(
    "across", "Drawers side by side", "the drawers in one row", "1", "3", "1", "count",
    hint="If the rows differ, give the number that most of them have.",
    room=_most_across, asked=has("drawers"),
)  # fmt: skip
SHELVES = Measure(
    "shelves", "Number of shelves", "the shelves between the bottom and the top",
    "0", "12", "4", "count", hint="Do not count the bottom and the top. Type 0 if there are none.",
    may_be_none=True, room=_most_shelves,
)  # fmt: skip
BACK = Measure(
    "back", "Back", "a panel that closes it from behind", "0", "1", "yes", "presence",
    hint="Does it have a back?",
)  # fmt: skip
DOORS = Measure("doors", "Number of doors", "the doors side by side", "1", "4", "2", "count")
DOOR_FRAME = Measure(
    "frame", "Door frame width", "from the edge of a door in to its panel", "1", "6", "2 1/4",
    hint='Type "none" if the doors are plain boards.', may_be_none=True, room=_most_frame,
)  # fmt: skip
TOP = Measure(
    "top-thickness", "Top thickness", "across the edge of the top", "3/8", "3", "7/8",
    room=lambda s: s["height"] / 4,
)  # fmt: skip
OVERHANG = Measure(
    "overhang", "Top overhang", "from the edge of the top in to the leg", "1/8", "12", "1",
    hint='Type "none" if the legs are flush with the edge.',
    may_be_none=True, room=lambda s: least_of(s, "width", "depth") / 6,
)  # fmt: skip
LEG = Measure(
    "leg-thickness", "Leg thickness", "across the front of a leg, at its top end", "3/4", "5", "2",
    room=lambda s: (least_of(s, "width", "depth") - 2 * s["overhang"]) / 3,
)  # fmt: skip
FOOT = Measure(
    "foot-thickness", "Leg thickness at the floor", "across the front of a leg, at the floor",
    "1/2", "5", hint="A straight leg is as thick here as at its top, a tapered leg is thinner.",
    room=lambda s: s["leg-thickness"], same_as="leg-thickness",
)  # fmt: skip
APRON = Measure(
    "apron", "Apron height", "the rail under the top, from its top edge to its bottom edge",
    "1", "8", "4", hint='Type "none" if there is no apron.',
    may_be_none=True, room=lambda s: (s["height"] - s["top-thickness"]) / 2,
)  # fmt: skip
APRON_INSIDE = Measure(
    "apron-inside", "Inside of the apron", "the inside faces of the apron", "0", "1", "yes",
    "presence", hint="Do you finish the inside faces of the apron too?", asked=has("apron"),
)  # fmt: skip
ON_LEGS = (TOP, OVERHANG, LEG, FOOT, APRON, APRON_INSIDE)

FRONTS = Measure(
    "doors", "Doors", "the doors", "0", "40", "0", "count",
    hint="Type 0 if there are none.", may_be_none=True,
)  # fmt: skip
FRONT_WIDTH = Measure(
    "width", "Width of a door", "across a door, edge to edge", "6", "36",
    hint="If they differ, give the width that most of them have.",
)  # fmt: skip
FRONT_HEIGHT = Measure(
    "height", "Height of a door", "a door from its top edge to its bottom edge", "8", "96",
    hint="If they differ, give the height that most of them have.",
)  # fmt: skip
