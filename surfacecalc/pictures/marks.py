"""Marks of a drawing as elements of SVG: lines, regions, lettering, patterns."""

import unicodedata
from collections.abc import Iterator, Sequence
from typing import Any

from surfacecalc.closeness import UNSEEN_MM
from surfacecalc.elements import Element, element
from surfacecalc.pictures.layout import INK, TEXT, WIDE_TEXT_SHARE
from surfacecalc.pictures.palette import Pattern, ZoneLook
from surfacecalc.problems import printable

Point = tuple[float, float]
PATTERN_LINE = 0.3
"""Width of a pattern's lines [mm]."""


def number(value: float) -> str:
    """Return a length on paper with the places that count (0.01 mm)."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def text_width(text: str, size: float = TEXT) -> float:
    """Return about how wide a line of text is on paper [mm], rather more than less."""
    wide = sum(unicodedata.east_asian_width(sign) in "WF" for sign in text)
    return size * (wide * 1.05 + (len(text) - wide) * WIDE_TEXT_SHARE)


def shortened(text: str, width: float, size: float = TEXT) -> str:
    """Return a user's text, made printable and cut with three dots where it is too wide."""
    text = printable(text)
    if text_width(text, size) <= width:
        return text
    while text and text_width(text + "...", size) > width:
        text = text[:-1]
    return text.rstrip() + "..."


def wrapped(text: str, width: float, *, most: int) -> list[str]:
    """Return a user's text as lines, made printable; what is too long is cut with three dots.

    >>> wrapped("doors and drawer fronts", 30, most=2)
    ['doors and', 'drawer fronts']
    """
    words = printable(text).split()
    lines: list[str] = []
    for number, word in enumerate(words):
        if lines and text_width(f"{lines[-1]} {word}") <= width:
            lines[-1] += f" {word}"
        elif len(lines) == most - 1:
            return [*lines, shortened(" ".join(words[number:]), width)]
        else:
            lines.append(shortened(word, width))
    return lines


def lettering(
    text: str, at: Point, *, size: float = TEXT, anchor: str = "start", ink: str = INK,
    bold: bool = False, upright: bool = False,
) -> Element:  # fmt: skip
    """Return a line of text; upright turns it to be read from the right.

    Args:
        text: as it is to be read.
        at: where its baseline starts, is centred or ends.
        size: height of the letters [mm].
        anchor: "start", "middle" or "end".
        ink: its colour.
        bold: whether it is heavy.
        upright: whether it runs upward.
    """
    x, y = number(at[0]), number(at[1])
    return element(
        "text", text, x=x, y=y, font_size=number(size), text_anchor=anchor, fill=ink,
        font_weight="600" if bold else None,
        transform=f"rotate(-90 {x} {y})" if upright else None,
    )  # fmt: skip


def line(points: Sequence[Point], *, width: float, ink: str = INK) -> Element:
    """Return a line through points."""
    return element("path", d=_through(points), fill="none", stroke=ink, stroke_width=number(width))


def lines_path(shape: Any, *, scale: float, at: Point) -> str:
    """Return path data of a shapely line, multiline, polygon or multipolygon, put on the sheet.

    Args:
        shape: in mm, up is positive.
        scale: sheet mm for each of its mm.
        at: where its origin is on the sheet.
    """
    import shapely

    rings = shapely.get_parts(shape if "Polygon" not in shape.geom_type else shape.boundary)
    pieces = []
    for ring in shapely.simplify(rings, UNSEEN_MM / scale, preserve_topology=False):
        points = [(at[0] + x * scale, at[1] - y * scale) for x, y in shapely.get_coordinates(ring)]
        closed = len(points) > 2 and points[0] == points[-1]
        pieces.append(_through(points[:-1] if closed else points) + ("Z" if closed else ""))
    return "".join(pieces)


def pattern_mark(look: ZoneLook, identity: str) -> Element:
    """Return the definition of a look's pattern under an id; its ground is not in it."""
    side = number(look.pattern.size)
    return element(
        "pattern", _strokes(look), _dots(look.pattern, look.ink),
        id=identity, width=side, height=side, patternUnits="userSpaceOnUse",
    )  # fmt: skip


def filled(tag: str, look: ZoneLook, identity: str, **shape: str) -> list[Element]:
    """Return a face in the look of its zone: its tint in one piece, and the pattern over it.

    A pattern is printed tile by tile. Where each tile has its own ground, viewers leave fine white
    lines between them; so the ground is under the whole face, and the tiles hold marks alone.

    Args:
        tag: "path" or "rect".
        look: the look of the zone.
        identity: the id of its pattern.
        shape: attributes that say where it is and how its edge is drawn.
    """
    ground = element(tag, fill=look.tint, **shape)
    if not look.pattern.has_marks:
        return [ground]
    return [ground, element(tag, fill=f"url(#{identity})", **shape)]


def _strokes(look: ZoneLook) -> Element | None:
    size = look.pattern.size
    if not look.pattern.strokes:
        return None
    path = "".join(
        _through([(x * size, y * size) for x, y in stroke]) for stroke in look.pattern.strokes
    )
    return element("path", d=path, fill="none", stroke=look.ink, stroke_width=PATTERN_LINE)


def _dots(pattern: Pattern, ink: str) -> Iterator[Element]:
    for x, y, radius in pattern.dots:
        cx, cy, r = (number(value * pattern.size) for value in (x, y, radius))
        yield element("circle", cx=cx, cy=cy, r=r, fill=ink)


def _through(points: Sequence[Point]) -> str:
    return "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points)
