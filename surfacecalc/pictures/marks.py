"""Marks of a drawing as SVG text: lines, regions, lettering.

Every word from a user goes through `safe`: nothing in it can end a tag, hide itself or turn the
direction of what follows.
"""

import html
import unicodedata
from collections.abc import Iterable, Sequence
from typing import Any

from surfacecalc.closeness import UNSEEN_MM
from surfacecalc.pictures.layout import INK, TEXT, WIDE_TEXT_SHARE
from surfacecalc.pictures.palette import Pattern, ZoneLook
from surfacecalc.problems import printable

Point = tuple[float, float]
PATTERN_LINE = 0.3
"""Width of a pattern's lines [mm]."""


def safe(text: str) -> str:
    r"""Return a user's text for use between tags or in an attribute.

    >>> safe('<b title="x">\u202e')
    '&lt;b title=&quot;x&quot;&gt;\\u202e'
    """
    return html.escape(printable(text), quote=True)


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
) -> str:  # fmt: skip
    """Return a line of text; upright turns it to be read from the right.

    Args:
        text: as it is to be read; it is escaped here.
        at: where its baseline starts, is centred or ends.
        size: height of the letters [mm].
        anchor: "start", "middle" or "end".
        ink: its colour.
        bold: whether it is heavy.
        upright: whether it runs upward.
    """
    x, y = number(at[0]), number(at[1])
    turn = f' transform="rotate(-90 {x} {y})"' if upright else ""
    weight = ' font-weight="600"' if bold else ""
    return (
        f'<text x="{x}" y="{y}" font-size="{number(size)}" text-anchor="{anchor}" '
        f'fill="{ink}"{weight}{turn}>{safe(text)}</text>'
    )


def line(points: Sequence[Point], *, width: float, ink: str = INK) -> str:
    """Return a line through points."""
    return (
        f'<path d="{_through(points)}" fill="none" stroke="{ink}" stroke-width="{number(width)}"/>'
    )


def lines_path(shape: Any, *, scale: float, at: Point) -> str:
    """Return path data of a shapely line, multiline, polygon or multipolygon, put on the sheet.

    Args:
        shape: in mm, up is positive.
        scale: sheet mm for each of its mm.
        at: where its origin stands on the sheet.
    """
    import shapely

    rings = shapely.get_parts(shape if "Polygon" not in shape.geom_type else shape.boundary)
    pieces = []
    for ring in shapely.simplify(rings, UNSEEN_MM / scale, preserve_topology=False):
        points = [(at[0] + x * scale, at[1] - y * scale) for x, y in shapely.get_coordinates(ring)]
        closed = len(points) > 2 and points[0] == points[-1]
        pieces.append(_through(points[:-1] if closed else points) + ("Z" if closed else ""))
    return "".join(pieces)


def pattern_mark(look: ZoneLook, identity: str) -> str:
    """Return the definition of a look's tint and pattern under an id."""
    size = look.pattern.size
    side = number(size)
    strokes = "".join(
        _through([(x * size, y * size) for x, y in stroke]) for stroke in look.pattern.strokes
    )
    drawn = (
        f'<path d="{strokes}" fill="none" stroke="{look.ink}" stroke-width="{PATTERN_LINE}"/>'
        if strokes
        else ""
    )
    return (
        f'<pattern id="{identity}" width="{side}" height="{side}" patternUnits="userSpaceOnUse">'
        f'<rect width="{side}" height="{side}" fill="{look.tint}"/>{drawn}'
        f"{''.join(_dots(look.pattern, look.ink))}</pattern>"
    )


def _dots(pattern: Pattern, ink: str) -> Iterable[str]:
    for x, y, radius in pattern.dots:
        cx, cy, r = (number(value * pattern.size) for value in (x, y, radius))
        yield f'<circle cx="{cx}" cy="{cy}" r="{r}" fill="{ink}"/>'


def _through(points: Sequence[Point]) -> str:
    return "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points)
