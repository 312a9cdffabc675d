"""The kinds of piece: what is measured on each, and who lays out its parts.

Ranges and proposed sizes are common practice. They were compared with what is published where it
was found: outer sizes of most kinds, the proposed thickness of boards, tops, lids, legs and door
frames, and that an apron leaves space for the knees. The sizes and their sources are in
tests/reference/test_typical_sizes.py: handbooks for architects, stock lists of the early twentieth
century, and, marked there, common practice, as all else is.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from surfacecalc.starting.layouts import case_layouts, flat_layouts, frame_layouts
from surfacecalc.starting.measurements import Measure, Sizes
from surfacecalc.starting.part_blocks import Block

MESH = "mesh"
NARROWEST_OPENING = "3"
LOWEST_OPENING = "2"
LOWEST_APRON_WITH_DRAWERS = "3"
"""Least width and height of an opening, and of the rails with drawers between them [in]: less holds
no drawer box."""


@dataclass(frozen=True)
class Kind:
    """A kind of piece.

    Attributes:
        key: what it is called on the command line.
        meaning: what it is, in a few words.
        measures: what is measured, in the order of the questions.
        layout: yields its parts.
    """

    key: str
    meaning: str
    measures: tuple[Measure, ...] = ()
    layout: Callable[[Sizes], Iterator[Block]] = lambda sizes: iter(())

    @property
    def title(self) -> str:
        """The name that a piece of this kind gets if it gets no other."""
        return self.key.capitalize()


def _least(s: Sizes, *keys: str) -> Fraction:
    return min(s[key] for key in keys)


def _case_height(s: Sizes) -> Fraction:
    lid = s["lid-thickness"] if "lid-thickness" in s.values else 0
    return s["height"] - s["leg-height"] - lid


def _most_drawers(s: Sizes) -> Fraction:
    board = s["board"]
    return (_case_height(s) - board) / (s.common(LOWEST_OPENING) + board)


def _most_across(s: Sizes) -> Fraction:
    board = s["board"]
    return (s["width"] - board) / (s.common(NARROWEST_OPENING) + board)


def _most_shelves(s: Sizes) -> Fraction:
    board, low = s["board"], s.common(LOWEST_OPENING)
    return (_case_height(s) - 2 * board - low) / (low + board)


def _most_desk_drawers(s: Sizes) -> Fraction:
    if s["apron"] < s.common(LOWEST_APRON_WITH_DRAWERS):
        return Fraction(0)
    between = s["width"] - 2 * (s["overhang"] + s["leg-thickness"])
    return between / (s.common(NARROWEST_OPENING) + s.common("3/4"))


def _most_frame(s: Sizes) -> Fraction:
    return min(s["width"] / s.count("doors"), _case_height(s)) / 4


def _has(key: str) -> Callable[[Sizes], bool]:
    return lambda s: bool(s[key])


def _width(least: str, most: str, how: str = "across the front, at the widest point") -> Measure:
    return Measure("width", "Width", how, least, most)


def _depth(least: str, most: str, how: str = "from front to back, at the deepest point") -> Measure:
    return Measure("depth", "Depth", how, least, most)


def _height(least: str, most: str, how: str = "from the floor to the top surface") -> Measure:
    return Measure("height", "Height", how, least, most)


LEG_HEIGHT = Measure(
    "leg-height", "Leg height", "from the floor to the underside of the case",
    "1/2", "16", "0", hint='Type "none" if the case sits on the floor.',
    may_be_none=True, room=lambda s: s["height"] / 2,
)  # fmt: skip
CASE_LEG = Measure(
    "leg-thickness", "Leg thickness", "across the front of a leg, where it is thickest",
    "3/4", "4", "1 3/4", room=lambda s: _least(s, "width", "depth") / 3, asked=_has("leg-height"),
)  # fmt: skip
BOARD = Measure(
    "board", "Board thickness", "across an edge of the case, such as the front edge of a side",
    "3/8", "1 1/2", "3/4",
    room=lambda s: min(_least(s, "width", "depth"), _case_height(s)) / 6,
)  # fmt: skip
DRAWERS = Measure(
    "drawers", "Rows of drawers", "the drawers one above the other", "0", "8", "3", "count",
    hint="Type 0 if the front is open.", may_be_none=True, room=_most_drawers,
)  # fmt: skip
ACROSS = Measure(
    "across", "Drawers side by side", "the drawers in one row", "1", "3", "1", "count",
    hint="If the rows differ, give the number that most of them have.",
    room=_most_across, asked=_has("drawers"),
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
    may_be_none=True, room=lambda s: _least(s, "width", "depth") / 6,
)  # fmt: skip
LEG = Measure(
    "leg-thickness", "Leg thickness", "across the front of a leg, at its top end", "3/4", "5", "2",
    room=lambda s: (_least(s, "width", "depth") - 2 * s["overhang"]) / 3,
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
    "presence", hint="Do you finish the inside faces of the apron too?", asked=_has("apron"),
)  # fmt: skip
ON_LEGS = (TOP, OVERHANG, LEG, FOOT, APRON, APRON_INSIDE)

KINDS = (
    Kind(
        "chest", "a box with a lid, such as a blanket chest",
        (
            _width("18", "72"), _depth("10", "30"),
            _height("10", "36", "from the floor to the top of the closed lid"),
            Measure(
                "lid-thickness", "Lid thickness", "across the edge of the lid", "3/8", "2", "3/4",
                room=lambda s: s["height"] / 6,
            ),
            LEG_HEIGHT, CASE_LEG, BOARD,
        ),
        case_layouts.chest,
    ),
    Kind(
        "dresser", "a chest of drawers",
        (
            _width("20", "84"), _depth("12", "30"), _height("24", "72"),
            LEG_HEIGHT, CASE_LEG, BOARD, DRAWERS, ACROSS,
        ),
        case_layouts.drawer_case,
    ),
    Kind(
        "nightstand", "a small bedside case, open or with drawers",
        (
            _width("10", "36"), _depth("8", "24"), _height("16", "36"),
            LEG_HEIGHT, CASE_LEG, BOARD, replace(DRAWERS, most="4", proposed="2"),
            replace(ACROSS, most="2"),
        ),
        case_layouts.drawer_case,
    ),
    Kind(
        "table", "a top on four legs, such as a dining, side or coffee table",
        (_width("12", "120"), _depth("12", "60"), _height("14", "42"), *ON_LEGS),
        frame_layouts.table,
    ),
    Kind(
        "desk", "a writing table, with or without drawers under the top",
        (
            _width("28", "84"), _depth("16", "42"), _height("24", "44"), *ON_LEGS,
            Measure(
                "drawers", "Number of drawers", "the drawers side by side under the top",
                "0", "3", "1", "count", hint="Type 0 if there are none.",
                may_be_none=True, room=_most_desk_drawers,
            ),
        ),
        frame_layouts.desk,
    ),
    Kind(
        "bookcase", "shelves without doors",
        (
            _width("12", "72"), _depth("6", "20"), _height("24", "96"),
            LEG_HEIGHT, CASE_LEG, BOARD, BACK, SHELVES,
        ),
        case_layouts.bookcase,
    ),
    Kind(
        "cabinet", "a case with doors, such as a cupboard, sideboard or wardrobe",
        (
            _width("12", "84"), _depth("8", "30", "the case from front to back, without the doors"),
            _height("20", "96"), LEG_HEIGHT, CASE_LEG, BOARD, DOORS, DOOR_FRAME,
            replace(SHELVES, proposed="2"),
        ),
        case_layouts.cabinet,
    ),
    Kind(
        "chair", "a chair, or a stool without a back",
        (
            replace(
                _width("12", "26", "across the seat, from left to right"), what="Seat width",
            ),
            replace(_depth("12", "24", "the seat from front to back"), what="Seat depth"),
            replace(
                _height("12", "30", "from the floor to the top of the seat"), what="Seat height",
            ),
            replace(
                TOP, what="Seat thickness", how="across the edge of the seat",
                least="1/2", most="2", proposed="3/4",
            ),
            replace(
                LEG, least="3/4", most="2 1/2", proposed="1 1/2",
                room=lambda s: _least(s, "width", "depth") / 6,
            ),
            replace(
                APRON, what="Seat rail height", how=APRON.how.replace("the top,", "the seat,"),
                hint='Type "none" if there is no seat rail.', most="5", proposed="2",
            ),
            Measure(
                "rungs", "Rungs on each side", "the bars between two legs, one above the other",
                "0", "3", "1", "count", hint="Type 0 if there are none.", may_be_none=True,
            ),
            Measure(
                "back-height", "Back height", "from the seat up to the top of the back posts",
                "6", "40", hint='Type "none" for a stool.', may_be_none=True,
            ),
            Measure(
                "top-rail", "Top rail height",
                "the rail at the top of the back, from its top edge to its bottom edge",
                "1", "8", "3", hint='Type "none" if there is no top rail.',
                may_be_none=True, room=lambda s: s["back-height"] / 2, asked=_has("back-height"),
            ),
            Measure(
                "slats", "Slats in the back", "the upright slats between the back posts",
                "0", "9", "3", "count", hint="Type 0 if there are none.",
                may_be_none=True, asked=_has("back-height"),
            ),
        ),
        frame_layouts.chair,
    ),
    Kind(
        "bench", "a seat on four legs, without a back",
        (
            _width("16", "84"), _depth("9", "24"),
            replace(
                _height("12", "30", "from the floor to the top of the seat"), what="Seat height",
            ),
            replace(TOP, what="Seat thickness", how="across the edge of the seat"),
            replace(
                OVERHANG, what="Seat overhang", how="from the edge of the seat in to the leg",
            ),
            LEG, FOOT,
            replace(APRON, how=APRON.how.replace("the top,", "the seat,")),
            APRON_INSIDE,
        ),
        frame_layouts.bench,
    ),
    Kind(
        "headboard", "the headboard of a bed",
        (
            _width("30", "84", "across the whole headboard, with its posts"),
            _height("24", "78", "from the floor to the top"),
            Measure(
                "post-thickness", "Post thickness", "across the front of a post", "1", "5", "2 1/2",
                hint='Type "none" if there are no posts.',
                may_be_none=True, room=lambda s: s["width"] / 6,
            ),
            Measure(
                "board-height", "Panel height", "the panel from its top edge to its bottom edge",
                "6", "72", room=lambda s: s["height"],
            ),
            Measure(
                "board", "Panel thickness", "across the edge of the panel", "3/8", "2", "3/4",
                room=lambda s: s["post-thickness"] or s.common("4"),
            ),
        ),
        flat_layouts.headboard,
    ),
    Kind(
        "mirror", "the frame of a mirror or picture",
        (
            _width("6", "60", "the whole frame, from its left edge to its right edge"),
            _height("6", "84", "the whole frame, from its top edge to its bottom edge"),
            Measure(
                "frame", "Frame width", "from the outer edge of the frame in to the glass",
                "1/2", "8", room=lambda s: _least(s, "width", "height") / 3,
            ),
            Measure(
                "board", "Frame thickness", "the frame from front to back", "1/4", "3", "3/4",
            ),
        ),
        flat_layouts.mirror_frame,
    ),
    Kind(MESH, "a 3D model or scan of the piece, in a mesh file"),
)  # fmt: skip
"""Every kind; questions list them in this order."""


def measure_keys() -> tuple[str, ...]:
    """Return the keys of all measures of all kinds, each once."""
    return tuple(dict.fromkeys(key for kind in KINDS for key in own_keys(kind)))


def own_keys(kind: Kind) -> tuple[str, ...]:
    """Return the keys of what is measured on a kind of piece."""
    if kind.key == MESH:
        return ("mesh", "mesh-unit")
    return tuple(measure.key for measure in kind.measures)


def kind_of(key: str) -> Kind:
    """Return the kind that a key names."""
    return next(kind for kind in KINDS if kind.key == key)
