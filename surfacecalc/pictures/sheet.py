"""The drawing: one SVG sheet with elevations, a pictorial view, loose parts and a legend.

Promises hidden parts hidden, areas in the legend as measured, and a file that needs nothing else.
The sheet is true to scale where it is printed at its own size.
"""

from collections.abc import Sequence

from shapes.surfaces import Surface, surfaces
from surfacecalc.elements import Element, element, svg_of
from surfacecalc.model.pieces import Piece
from surfacecalc.pictures.arrangement import INNER_WIDTH, loose_reduction
from surfacecalc.pictures.beside import Loose, loose_parts, size_text
from surfacecalc.pictures.drawing_blocks import (
    ZoneFill,
    elevations_block,
    foot_block,
    height_below,
    legend_block,
    loose_block,
)
from surfacecalc.pictures.layout import (
    HEAD_HEIGHT,
    INK,
    MARGIN,
    NAME_TEXT,
    NOTE_INK,
    PAPER,
    SHEET_HEIGHT,
    SHEET_WIDTH,
    TEXT,
)
from surfacecalc.pictures.legend import LegendEntry, legend, sizes
from surfacecalc.pictures.marks import lettering, number, shortened
from surfacecalc.pictures.palette import looks
from surfacecalc.pictures.scenes import Scene, scene
from surfacecalc.pictures.sides import with_both_sides
from surfacecalc.pictures.strips import with_broad_strips
from surfacecalc.pictures.views import FRONT, ISOMETRIC, RIGHT, TOP
from surfacecalc.units.display import Units
from surfacecalc.zones.areas import Measured

STYLE = (
    f".line{{fill:none;stroke:{INK};stroke-linejoin:round;stroke-linecap:round}}"
    "text{unicode-bidi:isolate;white-space:pre}"
)


def draw(piece: Piece, measured: Measured, units: Units) -> str:
    """Return the drawing of a measured piece as the text of an SVG file."""
    return svg_of(drawing(piece, measured, units))


def drawing(
    piece: Piece,
    measured: Measured,
    units: Units,
    *,
    for_owner: bool = False,
    says_scale: bool = True,
) -> Element:
    """Return the drawing of a measured piece as an element <svg>.

    Args:
        piece: the piece.
        measured: its measures.
        units: which units dimensions and areas are shown in.
        for_owner: whether it is for the piece's owner, who needs no areas and no scale.
        says_scale: whether the scale is written beside its bar; untrue on other paper.
    """
    found = _surfaces(piece)
    loose = loose_parts(found, piece.zone_of)
    scenes = [scene(one.surface, ISOMETRIC, shaded=True) for one in loose]
    views = _views(next((surface for surface in found if surface.is_joined), None))
    shown = {piece.zone_of.get(face) for one in [*views, *scenes] for face in one.regions}
    entries = legend(measured, units, shown=shown, has_areas=not for_owner)
    fill = ZoneFill(piece.zone_of, looks(measured))
    body, y = _head(piece, measured, units, has_areas=not for_owner), HEAD_HEIGHT
    if views:
        marks, y, reduction = elevations_block(
            views, measured, units, fill, is_loose=bool(loose), keys=len(entries)
        )
        body += marks
    else:
        reduction = loose_reduction(scenes, units)
    room = SHEET_HEIGHT - y - height_below(len(entries))
    marks, y = loose_block(loose, scenes, 1 / reduction, units, fill, y, room)
    body += marks
    topic = "finishes" if for_owner else "finish zones"
    marks, y = legend_block(entries, fill, y, topic.capitalize())
    body += marks
    if not for_owner:
        marks, y = foot_block(reduction, units, y, says_scale=says_scale)
        body += marks
    title = f"{piece.settings.title}: {topic}"
    words = f"{_views_in_words(measured, loose, units)} {_legend_in_words(entries, topic)}"
    return _document(title, words, y, fill.patterns(), body)


def _surfaces(piece: Piece) -> list[Surface]:
    return [
        with_both_sides(with_broad_strips(surface))
        for surface in surfaces(piece.parts, gap=piece.settings.gap_mm)
    ]


def _views(joined: Surface | None) -> list[Scene]:
    if joined is None:
        return []
    flat = [scene(joined, view) for view in (FRONT, RIGHT, TOP)]
    return [*flat, scene(joined, ISOMETRIC, shaded=True)]


def _head(piece: Piece, measured: Measured, units: Units, *, has_areas: bool) -> list[Element]:
    name = shortened(piece.settings.title, INNER_WIDTH, NAME_TEXT)
    marks = [lettering(name, (MARGIN, 8.5), size=NAME_TEXT, bold=True)]
    for k, text in enumerate(sizes(measured, units, has_areas=has_areas)):
        marks.append(lettering(text, (MARGIN, 14.5 + k * 4.6), size=TEXT, ink=NOTE_INK))
    return marks


def _document(
    title: str, words: str, height: float, patterns: list[Element], body: Sequence[Element]
) -> Element:
    wide, high = number(SHEET_WIDTH), number(height)
    return element(
        "svg",
        element("title", title, id="title"),
        element("desc", words, id="summary"),
        element("style", STYLE),
        element("defs", patterns),
        element("rect", width=wide, height=high, fill=PAPER),
        body,
        xmlns="http://www.w3.org/2000/svg", width=f"{wide}mm", height=f"{high}mm",
        viewBox=f"0 0 {wide} {high}", role="img", aria_labelledby="title summary",
        font_family="sans-serif", style="max-width:100%;height:auto",
    )  # fmt: skip


def _views_in_words(measured: Measured, loose: Sequence[Loose], units: Units) -> str:
    """Return what is drawn, and of which size."""
    names = ", ".join(one.name for one in loose)
    if not any(measured.size_mm):
        return f"Loose parts: {names}."
    beside = f" Beside it: {names}." if loose else ""
    size = size_text(measured.size_mm, units)
    return f"Front, right side, top and corner view of {size}.{beside}"


def _legend_in_words(entries: Sequence[LegendEntry], topic: str) -> str:
    """Return the legend as a sentence."""
    found = []
    for entry in entries:
        note = f"({entry.note})" if entry.note else ""
        found.append(" ".join(filter(None, [entry.name, entry.area, note])))
    return f"{topic.capitalize()}: {'; '.join(found)}."
