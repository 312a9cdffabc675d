"""The kinds of piece: what is measured on each, and who lays out its parts.

Ranges and proposed sizes are common practice. They were compared with what is published where it
was found: outer sizes of most kinds, the proposed thickness of boards, tops, lids, legs and door
frames, and that an apron leaves room for the knees. The sizes and their sources stand in
tests/reference/test_typical_sizes.py: handbooks for architects, stock lists of the early twentieth
century, and, marked there, memory. All else has no source.
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
        told: what it is, in a few words.
        measures: what is measured, in the order of the questions.
        layout: yields its parts.
    """

    key: str
    told: str
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


def _width(least: str, most: str, how: str = "across the front, at the widest place") -> Measure:
    return Measure("width", "Width", how, least, most)


def _depth(least: str, most: str, how: str = "from front to back, at the deepest place") -> Measure:
    return Measure("depth", "Depth", how, least, most)


def _height(
    least: str, most: str, how: str = "from the floor to the upper side of the top"
) -> Measure:
    return Measure("height", "Height", how, least, most)


LEG_HEIGHT = Measure(
    "leg-height", "Height of the legs",
    "from the floor to the underside of the case; none if it stands on the floor itself",
    "1/2", "16", "0", may_be_none=True, room=lambda s: s["height"] / 2,
)  # fmt: skip
CASE_LEG = Measure(
    "leg-thickness", "Thickness of a leg", "across its front, where it is thickest",
    "3/4", "4", "1 3/4", room=lambda s: _least(s, "width", "depth") / 3, asked=_has("leg-height"),
)  # fmt: skip
BOARD = Measure(
    "board", "Thickness of the boards", "across an edge of the case, such as that of a side",
    "3/8", "1 1/2", "3/4",
    room=lambda s: min(_least(s, "width", "depth"), _case_height(s)) / 6,
)  # fmt: skip
DRAWERS = Measure(
    "drawers", "Rows of drawers", "drawers one above the other; 0 for an open front",
    "0", "8", "3", "count", may_be_none=True, room=_most_drawers,
)  # fmt: skip
ACROSS = Measure(
    "across", "Drawers side by side", "drawers in a row; where rows differ, in most of them",
    "1", "3", "1", "count",
    room=_most_across, asked=_has("drawers"),
)  # fmt: skip
SHELVES = Measure(
    "shelves", "Shelves", "between the bottom and the top, without these two",
    "0", "12", "4", "count", may_be_none=True, room=_most_shelves,
)  # fmt: skip
BACK = Measure(
    "back", "Has it a back?", "a panel that closes it behind", "0", "1", "yes", "presence"
)
DOORS = Measure("doors", "Doors", "side by side", "1", "4", "2", "count")
DOOR_FRAME = Measure(
    "frame", "Frame of a door",
    "width of the frame around its panel, from the edge inwards; none for plain boards",
    "1", "6", "2 1/4", may_be_none=True, room=_most_frame,
)  # fmt: skip
TOP = Measure(
    "top-thickness", "Thickness of the top", "across its edge", "3/8", "3", "7/8",
    room=lambda s: s["height"] / 4,
)  # fmt: skip
OVERHANG = Measure(
    "overhang", "Overhang of the top", "from the edge of the top in to the leg; none if flush",
    "1/8", "12", "1", may_be_none=True, room=lambda s: _least(s, "width", "depth") / 6,
)  # fmt: skip
LEG = Measure(
    "leg-thickness", "Thickness of a leg", "across its front, at its upper end", "3/4", "5", "2",
    room=lambda s: (_least(s, "width", "depth") - 2 * s["overhang"]) / 3,
)  # fmt: skip
FOOT = Measure(
    "foot-thickness", "Thickness of a leg at the floor",
    "the same as above where the leg is straight, less where it tapers", "1/2", "5",
    room=lambda s: s["leg-thickness"], same_as="leg-thickness",
)  # fmt: skip
APRON = Measure(
    "apron", "Height of the apron",
    "the rail under the top, from leg to leg: its upper edge to its lower; none without one",
    "1", "8", "4", may_be_none=True, room=lambda s: (s["height"] - s["top-thickness"]) / 2,
)  # fmt: skip
ON_LEGS = (TOP, OVERHANG, LEG, FOOT, APRON)

KINDS = (
    Kind(
        "chest", "a box with a lid, such as a blanket chest",
        (
            _width("18", "72"), _depth("10", "30"),
            _height("10", "36", "from the floor to the upper side of the closed lid"),
            Measure(
                "lid-thickness", "Thickness of the lid", "across its edge", "3/8", "2", "3/4",
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
        "nightstand", "a small case beside the bed, with drawers or open",
        (
            _width("10", "36"), _depth("8", "24"), _height("16", "36"),
            LEG_HEIGHT, CASE_LEG, BOARD, replace(DRAWERS, most="4", proposed="2"),
            replace(ACROSS, most="2"),
        ),
        case_layouts.drawer_case,
    ),
    Kind(
        "table", "a top on four legs: dining, side or coffee table",
        (_width("12", "120"), _depth("12", "60"), _height("14", "42"), *ON_LEGS),
        frame_layouts.table,
    ),
    Kind(
        "desk", "a writing table, with drawers under its top or without",
        (
            _width("28", "84"), _depth("16", "42"), _height("24", "44"), *ON_LEGS,
            Measure(
                "drawers", "Drawers", "side by side under the top; 0 for none",
                "0", "3", "1", "count", may_be_none=True, room=_most_desk_drawers,
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
        "cabinet", "a case with doors: cupboard, sideboard, wardrobe",
        (
            _width("12", "84"), _depth("8", "30", "of the case, from front to back, without doors"),
            _height("20", "96"), LEG_HEIGHT, CASE_LEG, BOARD, DOORS, DOOR_FRAME,
            replace(SHELVES, proposed="2"),
        ),
        case_layouts.cabinet,
    ),
    Kind(
        "chair", "a chair, or a stool without a back",
        (
            _width("12", "26", "of the seat, from left to right"),
            _depth("12", "24", "of the seat, from front to back"),
            _height("12", "30", "from the floor to the upper side of the seat"),
            replace(TOP, what="Thickness of the seat", least="1/2", most="2", proposed="3/4"),
            replace(
                LEG, least="3/4", most="2 1/2", proposed="1 1/2",
                room=lambda s: _least(s, "width", "depth") / 6,
            ),
            replace(
                APRON, what="Height of the seat rail",
                how="the rail under the seat, its upper edge to its lower; none without one",
                most="5", proposed="2",
            ),
            Measure(
                "rungs", "Rungs", "bars between two legs, one above the other, on each side",
                "0", "3", "1", "count", may_be_none=True,
            ),
            Measure(
                "back-height", "Height of the back",
                "from the seat up to the top of the posts; none for a stool",
                "6", "40", may_be_none=True,
            ),
            Measure(
                "top-rail", "Height of the top rail",
                "the rail at the top of the back, its upper edge to its lower; none without one",
                "1", "8", "3", may_be_none=True, room=lambda s: s["back-height"] / 2,
                asked=_has("back-height"),
            ),
            Measure(
                "slats", "Slats in the back", "upright ones between the posts",
                "0", "9", "3", "count", may_be_none=True, asked=_has("back-height"),
            ),
        ),
        frame_layouts.chair,
    ),
    Kind(
        "bench", "a seat on four legs, without a back",
        (
            _width("16", "84"), _depth("9", "24"),
            _height("12", "30", "from the floor to the upper side of the seat"),
            replace(TOP, what="Thickness of the seat"),
            replace(
                OVERHANG, what="Overhang of the seat",
                how="from the edge of the seat in to the leg; none if flush",
            ),
            LEG, FOOT,
            replace(APRON, how=APRON.how.replace("the top,", "the seat,")),
        ),
        frame_layouts.bench,
    ),
    Kind(
        "headboard", "the head of a bed",
        (
            _width("30", "84", "from the outside of one post to the outside of the other"),
            _height("24", "78", "from the floor to its top"),
            Measure(
                "post-thickness", "Thickness of a post", "across its front; none without posts",
                "1", "5", "2 1/2", may_be_none=True, room=lambda s: s["width"] / 6,
            ),
            Measure(
                "board-height", "Height of the board", "the board between the posts, top to bottom",
                "6", "72", room=lambda s: s["height"],
            ),
            Measure(
                "board", "Thickness of the board", "across its edge", "3/8", "2", "3/4",
                room=lambda s: s["post-thickness"] or s.common("4"),
            ),
        ),
        flat_layouts.headboard,
    ),
    Kind(
        "mirror", "the frame of a mirror or a picture",
        (
            _width("6", "60", "of the frame, over its outer edges"),
            _height("6", "84", "of the frame, over its outer edges"),
            Measure(
                "frame", "Width of the frame", "from its outer edge in to the glass",
                "1/2", "8", room=lambda s: _least(s, "width", "height") / 3,
            ),
            Measure("board", "Thickness of the frame", "from its front to its back",
                    "1/4", "3", "3/4"),
        ),
        flat_layouts.mirror_frame,
    ),
    Kind(MESH, "a mesh file or a scan of the piece: STL, OBJ, PLY, GLB, GLTF, 3MF or OFF"),
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
