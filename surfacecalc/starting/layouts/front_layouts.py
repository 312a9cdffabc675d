"""Fronts of a built-in kitchen or closet: doors and drawer fronts that are taken off.

What is not measured follows common practice and is noted in a comment of the file.
"""

from collections.abc import Iterator
from fractions import Fraction

from surfacecalc.starting.layouts.case_layouts import ZERO
from surfacecalc.starting.measurements import Sizes
from surfacecalc.starting.part_blocks import Block, row

EDGES = {"door": ("edge",), "board": ("left", "right", "top", "bottom")}
"""The faces around a front, by its shape."""
APART = "2"
"""Air between fronts in a drawing [in]."""
LONGEST_ROW_MM = 9_000
"""Longest row in a drawing; no row of parts may reach further than 10 m."""
NOT_FINISHED = "faces left alone"


def fronts(s: Sizes) -> Iterator[Block]:
    """Yield the doors of the lower and the upper row, and the drawer fronts."""
    rows = (
        ("lower door", "doors", "", "frame"),
        ("upper door", "upper-doors", "upper-", "frame"),
        ("drawer front", "drawers", "drawer-", "drawer-frame"),
    )
    low = ZERO
    for name, counted, prefix, framed in rows:
        count = s.count(counted)
        if count:
            size = s[f"{prefix}width"], s[f"{prefix}height"]
            yield _front(s, name, count, size, s[framed], low)
            low += size[1] + s.common(APART)


def _front(
    s: Sizes,
    name: str,
    count: int,
    size: tuple[Fraction, Fraction],
    frame: Fraction,
    low: Fraction,
) -> Block:
    """Return a row of equal fronts, panelled where they have a frame.

    Args:
        s: what was measured.
        name: what one is called.
        count: how many there are.
        size: width and height of each [mm].
        frame: its width, 0 for a plain board [mm].
        low: where the row is in the drawing, above that below it [mm].
    """
    width, height = size
    step = width + s.common(APART)
    if count * step > LONGEST_ROW_MM:  # one behind the other
        step = s["board"] + s.common(APART)
        aside = (ZERO, step, ZERO)
    else:
        aside = (step, ZERO, ZERO)
    shape = "door" if frame else "board"
    keys = {"width": width, "depth": s["board"], "height": height}
    recess = min(s.common("1/4"), s.part_of(s["board"], 3))
    panelled = {"frame": frame, "recess": recess} if frame else {}
    comment = "Those of another size: give each size a [[part]] of its own."
    if frame:
        comment = f"The depth of the panels is common practice. {comment}"
    return Block(
        name,
        shape,
        {**keys, **panelled, "loose": True, "at": (ZERO, ZERO, low), **row(count, aside)},
        _zones(s, shape),
        comment,
    )


def _zones(s: Sizes, shape: str) -> dict[str, tuple[str, ...]]:
    """Return the zones of a front's faces; what is not finished is a zone of its own."""
    alone = () if s["edges"] else EDGES[shape]
    if s["inside-faces"]:
        return {"fronts": (), "inside faces": ("back",), **({NOT_FINISHED: alone} if alone else {})}
    return {"fronts": (), NOT_FINISHED: ("back", *alone)}
