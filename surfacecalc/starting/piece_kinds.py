"""The kinds of piece: what is measured on each, and who lays out its parts.

Ranges and proposed sizes are common practice. They were compared with what is published where it
was found: outer sizes of most kinds, the proposed thickness of boards, tops, lids, legs and door
frames, and that an apron leaves space for the knees. The sizes and their sources are in
tests/reference/test_typical_sizes.py: handbooks for architects, stock lists of the early twentieth
century, and, marked there, common practice, as all else is.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from surfacecalc.starting.layouts import (
    case_layouts,
    flat_layouts,
    frame_layouts,
    front_layouts,
)
from surfacecalc.starting.measurements import Measure, Sizes
from surfacecalc.starting.part_blocks import Block
from surfacecalc.starting.shared_measures import (
    ACROSS,
    APRON,
    APRON_INSIDE,
    BACK,
    BOARD,
    CASE_LEG,
    CASE_OVERHANG,
    DOOR_FRAME,
    DOORS,
    DRAWERS,
    FOOT,
    FRONT_HEIGHT,
    FRONT_WIDTH,
    FRONTS,
    LEG,
    LEG_HEIGHT,
    ON_LEGS,
    OVERHANG,
    SHELVES,
    TOP,
    depth,
    has,
    height,
    least_of,
    most_desk_drawers,
    most_front_frame,
    width,
)

MESH = "mesh"


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


KINDS = (
    Kind(
        "chest", "a box with a lid, such as a blanket chest",
        (
            width("18", "72"), depth("10", "30"),
            height("10", "36", "from the floor to the top of the closed lid"),
            Measure(
                "lid-thickness", "Lid thickness", "across the edge of the lid", "3/8", "2", "3/4",
                room=lambda s: s["height"] / 6,
            ),
            replace(
                CASE_OVERHANG, what="Lid overhang",
                how="from the edge of the lid in to the side of the box",
                hint='Type "none" if the lid is flush with the sides.',
            ),
            LEG_HEIGHT, CASE_LEG, BOARD,
        ),
        case_layouts.chest,
    ),
    Kind(
        "dresser", "a chest of drawers",
        (
            width("20", "84"), depth("12", "30"), height("24", "72"), CASE_OVERHANG,
            LEG_HEIGHT, CASE_LEG, BOARD, DRAWERS, ACROSS,
        ),
        case_layouts.drawer_case,
    ),
    Kind(
        "nightstand", "a small bedside case, open or with drawers",
        (
            width("10", "36"), depth("8", "24"), height("16", "36"), CASE_OVERHANG,
            LEG_HEIGHT, CASE_LEG, BOARD, replace(DRAWERS, most="4", proposed="2"),
            replace(ACROSS, most="2"),
        ),
        case_layouts.drawer_case,
    ),
    Kind(
        "table", "a top on four legs, such as a dining, side or coffee table",
        (width("12", "120"), depth("12", "60"), height("14", "42"), *ON_LEGS),
        frame_layouts.table,
    ),
    Kind(
        "desk", "a writing table, with or without drawers under the top",
        (
            width("28", "84"), depth("16", "42"), height("24", "44"), *ON_LEGS,
            Measure(
                "drawers", "Number of drawers", "the drawers side by side under the top",
                "0", "3", "1", "count", hint="Type 0 if there are none.",
                may_be_none=True, room=most_desk_drawers,
            ),
        ),
        frame_layouts.desk,
    ),
    Kind(
        "bookcase", "shelves without doors",
        (
            width("12", "72"), depth("6", "20"), height("24", "96"), CASE_OVERHANG,
            LEG_HEIGHT, CASE_LEG, BOARD, BACK, SHELVES,
        ),
        case_layouts.bookcase,
    ),
    Kind(
        "cabinet", "a case with doors, such as a cupboard, sideboard or wardrobe",
        (
            width("12", "84"), depth("8", "30", "the case from front to back, without the doors"),
            height("20", "96"), CASE_OVERHANG, LEG_HEIGHT, CASE_LEG, BOARD, DOORS, DOOR_FRAME,
            replace(SHELVES, proposed="2"),
        ),
        case_layouts.cabinet,
    ),
    Kind(
        "chair", "a chair, or a stool without a back",
        (
            replace(
                width("12", "26", "across the seat, from left to right"), what="Seat width",
            ),
            replace(depth("12", "24", "the seat from front to back"), what="Seat depth"),
            replace(
                height("12", "30", "from the floor to the top of the seat"), what="Seat height",
            ),
            replace(
                TOP, what="Seat thickness", how="across the edge of the seat",
                least="1/2", most="2", proposed="3/4",
            ),
            replace(
                LEG, least="3/4", most="2 1/2", proposed="1 1/2",
                room=lambda s: least_of(s, "width", "depth") / 6,
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
                may_be_none=True, room=lambda s: s["back-height"] / 2, asked=has("back-height"),
            ),
            Measure(
                "slats", "Slats in the back", "the upright slats between the back posts",
                "0", "9", "3", "count", hint="Type 0 if there are none.",
                may_be_none=True, asked=has("back-height"),
            ),
        ),
        frame_layouts.chair,
    ),
    Kind(
        "bench", "a seat on four legs, without a back",
        (
            width("16", "84"), depth("9", "24"),
            replace(
                height("12", "30", "from the floor to the top of the seat"), what="Seat height",
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
            width("30", "84", "across the whole headboard, with its posts"),
            height("24", "78", "from the floor to the top"),
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
            width("6", "60", "the whole frame, from its left edge to its right edge"),
            height("6", "84", "the whole frame, from its top edge to its bottom edge"),
            Measure(
                "frame", "Frame width", "from the outer edge of the frame in to the glass",
                "1/2", "8", room=lambda s: least_of(s, "width", "height") / 3,
            ),
            Measure(
                "board", "Frame thickness", "the frame from front to back", "1/4", "3", "3/4",
            ),
        ),
        flat_layouts.mirror_frame,
    ),
    Kind(
        "doors", "the doors and drawer fronts of a built-in kitchen",
        (
            Measure(
                "doors", "Doors of the lower row",
                "the doors of the cabinets on the floor", "1", "40", None, "count",
                hint="If there is only one row of doors, count it here.",
            ),
            FRONT_WIDTH, FRONT_HEIGHT,
            replace(
                FRONTS, key="upper-doors", what="Doors of the upper row",
                how="the doors of the cabinets on the wall",
            ),
            replace(
                FRONT_WIDTH, key="upper-width", what="Width of an upper door",
                same_as="width", asked=has("upper-doors"),
            ),
            replace(
                FRONT_HEIGHT, key="upper-height", what="Height of an upper door",
                asked=has("upper-doors"),
            ),
            replace(
                FRONTS, key="drawers", what="Drawer fronts", how="the fronts of all drawers",
            ),
            replace(
                FRONT_WIDTH, key="drawer-width", what="Width of a drawer front",
                how="across a drawer front, edge to edge", same_as="width",
                asked=has("drawers"),
            ),
            Measure(
                "drawer-height", "Height of a drawer front",
                "a drawer front from its top edge to its bottom edge", "3", "18",
                hint="If they differ, give the height that most of them have.",
                asked=has("drawers"),
            ),
            Measure(
                "board", "Thickness", "across the edge of a door", "3/8", "1 1/4", "3/4",
            ),
            replace(DOOR_FRAME, room=most_front_frame),
            Measure(
                "drawer-frame", "Drawer front frame width",
                "from the edge of a drawer front in to its panel", "1", "4", "0",
                hint='Type "none" if the drawer fronts are plain boards.', may_be_none=True,
                room=lambda s: least_of(s, "drawer-width", "drawer-height") / 4,
                asked=has("drawers"),
            ),
            Measure(
                "edges", "Edges", "the narrow faces around each front", "0", "1", "yes",
                "presence", hint="Do you finish the edges too?",
            ),
            Measure(
                "inside-faces", "Inside faces", "the faces you see when it is open", "0", "1",
                "no", "presence", hint="Do you finish the inside faces too?",
            ),
        ),
        front_layouts.fronts,
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
