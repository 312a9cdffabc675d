"""Pieces built as a case: chests, dressers and nightstands, bookcases, cabinets.

What is not measured follows common practice and is noted in a comment of the file.
"""

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from surfacecalc.starting.measurements import Sizes
from surfacecalc.starting.part_blocks import Block, row

ZERO = Fraction(0)
BEHIND = {"back and underside": ("back", "bottom")}
"""The zone of the faces of a case that nobody sees."""
OVERHANGING = "It overhangs at the front and on both sides, and is flush with the back."
PLAY = "1/8"
"""Air of a drawer or a door in its opening, both sides together [in]; common practice, assumed."""


def chest(s: Sizes) -> Iterator[Block]:
    """Yield a box that is open above, its lid, and its legs."""
    lid = s["lid-thickness"]
    yield Block(
        "box",
        "case",
        _box(s, ("top",)),
        {"outside": (), "inside": ("inside", "edge"), "underside": ("bottom",)},
    )
    yield from _legs(s, "box", "underside")
    yield Block(
        "lid",
        "board",
        {"width": s["width"], "depth": s["depth"], "height": lid, "loose": "lid"},
        {"lid": (), "inside": ("bottom",)},
        OVERHANGING if s["overhang"] else "As wide and deep as the box.",
    )


def drawer_case(s: Sizes) -> Iterator[Block]:
    """Yield a case with drawers in rows, one above the other and side by side."""
    rows = s.count("drawers")
    inside = "behind the drawers" if rows else "inside"
    yield Block(
        "case",
        "case",
        _box(s, ("front", "top")),
        {"outside": (), inside: ("inside",), **BEHIND},
        "Open above, where the top is. The back is taken to be as thick as the other boards.",
    )
    yield _top(s, inside)
    yield from _legs(s, "case", "back and underside")
    if rows:
        yield from _drawers(s, rows, s.count("across"))


def _drawers(s: Sizes, rows: int, across: int) -> Iterator[Block]:
    """Yield the rails and uprights between drawers, and the drawers."""
    board, width, depth, height = _opening(s)
    high = s.part_of(height - (rows - 1) * board, rows)
    wide = s.part_of(width - (across - 1) * board, across)
    x, y, low = _corner(s, ZERO, ZERO, s["leg-height"] + board)
    between = {"outside": ("front",), "behind the drawers": ()}
    if rows > 1:
        deep = min(s.common("2"), s.part_of(depth, 2))
        size = {"width": width, "depth": deep, "height": board}
        place = {"at": (x + board, y, low + high), **row(rows - 1, (ZERO, ZERO, high + board))}
        comment = "Between the drawers, flush with the front. The depth is common practice."
        yield Block("rail", "board", {**size, **place}, between, comment)
    if across > 1:
        size = {"width": board, "depth": depth, "height": height}
        place = {"at": (x + board + wide, y, low), **row(across - 1, (wide + board, ZERO, ZERO))}
        yield Block(
            "upright", "board", {**size, **place}, between, "Between drawers that are side by side."
        )
    play = s.common(PLAY)
    box = wide - play, depth - s.common("1/2"), high - play
    yield drawer(s, box, _grid(rows, across, wide + board, high + board))


def drawer(s: Sizes, size: tuple[Fraction, Fraction, Fraction], steps: dict[str, Any]) -> Block:
    """Return drawers of a size (width, depth, height) [mm], off the piece."""
    width, depth, height = size
    keys = {"width": width, "depth": depth, "height": height}
    boards = {"front": s.common("3/4"), "board": s.common("1/2")}
    return Block(
        "drawer",
        "drawer",
        {**keys, **boards, "loose": True, **steps},
        {"drawer fronts": ("front", "edge"), "inside of the drawers": ()},
        f"Inset, with {s.scale.words(s.common(PLAY))} of play in the opening. The thickness of the"
        " front and of the other boards and the gap behind the drawer are common practice; measure"
        " a drawer to be sure.",
    )


def _grid(rows: int, across: int, right: Fraction, up: Fraction) -> dict[str, Any]:
    if rows > 1 and across > 1:
        return {
            "row": {"of": (across, rows), "apart": ((right, ZERO, ZERO), (ZERO, ZERO, up))},
        }
    return row(across, (right, ZERO, ZERO)) if across > 1 else row(rows, (ZERO, ZERO, up))


def bookcase(s: Sizes) -> Iterator[Block]:
    """Yield a case that is open in front, with or without a back, and its shelves."""
    has_back = bool(s["back"])
    hidden = "back and underside" if has_back else "underside"
    yield Block(
        "case",
        "case",
        _box(s, ("front", "top") if has_back else ("front", "back", "top")),
        {
            "outside": (),
            "inside and shelves": ("inside",),
            hidden: ("back", "bottom") if has_back else ("bottom",),
        },
        "The back is taken to be as thick as the other boards." if has_back else "",
    )
    yield _top(s, "inside and shelves")
    yield from _legs(s, "case", hidden)
    yield from _shelves(s, "inside and shelves", has_back=has_back)


def cabinet(s: Sizes) -> Iterator[Block]:
    """Yield a case with doors before it, and its shelves."""
    yield Block(
        "case",
        "case",
        _box(s, ("front", "top")),
        {"outside": (), "inside": ("inside",), **BEHIND},
        "The back is taken to be as thick as the other boards.",
    )
    yield _top(s, "inside")
    yield from _legs(s, "case", "back and underside")
    yield from _shelves(s, "inside", has_back=True)
    doors, play = s.count("doors"), s.common(PLAY)
    width, _, height = _case_size(s)
    wide = s.part_of(width, doors)
    size = {"width": wide - play, "depth": s.common("3/4"), "height": height - play}
    frame = s["frame"]
    framed = {"frame": frame, "recess": s.common("1/4")} if frame else {}
    yield Block(
        "door",
        "door" if frame else "board",
        {**size, **framed, "loose": True, **row(doors, (wide, ZERO, ZERO))},
        {"doors": (), "inside": ("back",)},
        "In front of the case, together as wide and as high as the case. Their thickness and the"
        " depth of the panels are common practice.",
    )


def _case_size(s: Sizes) -> tuple[Fraction, Fraction, Fraction]:
    """Return width, depth and height of the case between its legs and its top or lid [mm].

    What covers it overhangs at the front and on both sides. The depth of a cabinet is measured on
    the case itself, because of the doors before it; any other is measured over its top.
    """
    over = s["overhang"]
    cover = s["lid-thickness"] if "lid-thickness" in s.values else s["board"]
    deep = s["depth"] if "doors" in s.values else s["depth"] - over
    return s["width"] - 2 * over, deep, s["height"] - s["leg-height"] - cover


def _corner(s: Sizes, x: Fraction, y: Fraction, z: Fraction) -> tuple[Fraction, Fraction, Fraction]:
    """Return a position from the corner of the case as one from the corner of its top [mm]."""
    return x + s["overhang"], y + s["overhang"], z


def _box(s: Sizes, opened: tuple[str, ...]) -> dict[str, Any]:
    """Return the keys of a case on its legs."""
    width, depth, height = _case_size(s)
    return {
        "width": width,
        "depth": depth,
        "height": height,
        "board": s["board"],
        "open": opened,
        "at": _corner(s, ZERO, ZERO, s["leg-height"]),
    }


def _top(s: Sizes, inside: str) -> Block:
    """Return the top of a case; its underside goes with the inside."""
    thick = s["board"]
    _, depth, _ = _case_size(s)
    size = {"width": s["width"], "depth": depth + s["overhang"], "height": thick}
    over = f" {OVERHANGING}" if s["overhang"] else ""
    return Block(
        "top",
        "board",
        {**size, "at": (ZERO, ZERO, s["height"] - thick)},
        {"top": (), inside: ("bottom",)},
        f"Taken to be as thick as the other boards.{over}",
    )


def _opening(s: Sizes) -> tuple[Fraction, Fraction, Fraction, Fraction]:
    """Return the board, and width, depth and height inside of a case with a back [mm]."""
    board = s["board"]
    width, depth, height = _case_size(s)
    return board, width - 2 * board, depth - board, height - board


def _legs(s: Sizes, of: str, hidden: str) -> Iterator[Block]:
    if s["leg-height"]:
        keys = {"height": s["leg-height"], "width": s["leg-thickness"]}
        corners = {"corners": {"of": of, "set_in": ZERO}}
        zones = {"outside": (), hidden: ("bottom",)}
        yield Block(
            "leg", "leg", {**keys, **corners}, zones, "Square, flush with the corners of the case."
        )


def _shelves(s: Sizes, zone: str, *, has_back: bool) -> Iterator[Block]:
    shelves = s.count("shelves")
    if not shelves:
        return
    board, width, depth, height = _opening(s)
    high = s.part_of(height - shelves * board, shelves + 1)
    yield Block(
        "shelf",
        "board",
        {
            "width": width,
            "depth": depth if has_back else depth + board,
            "height": board,
            "at": _corner(s, board, ZERO, s["leg-height"] + board + high),
            **row(shelves, (ZERO, ZERO, high + board)),
        },
        {zone: ()},
        "Evenly spaced, as thick as the boards of the case and as deep as its inside.",
    )
