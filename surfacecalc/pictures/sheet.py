"""The drawing: one SVG sheet with elevations, a pictorial view, loose parts and a legend.

Promises hidden parts hidden, areas in the legend as measured, and a file that needs nothing else.
The sheet is true to scale where it is printed at its own size.
"""

from collections.abc import Sequence

from shapes.surfaces import Surface, surfaces
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
from surfacecalc.pictures.marks import lettering, number, pattern_mark, safe, shortened
from surfacecalc.pictures.palette import looks
from surfacecalc.pictures.scenes import Scene, scene
from surfacecalc.pictures.sides import with_both_sides
from surfacecalc.pictures.strips import with_broad_strips
from surfacecalc.pictures.views import FRONT, ISOMETRIC, RIGHT, TOP
from surfacecalc.units.display import Units
from surfacecalc.zones.areas import Measured


def draw(piece: Piece, measured: Measured, units: Units, *, has_areas: bool = True) -> str:
    """Return the drawing of a measured piece as the text of an SVG file.

    Args:
        piece: the piece.
        measured: its measures.
        units: which units dimensions and areas are shown in.
        has_areas: whether areas are told.
    """
    found = [
        with_both_sides(with_broad_strips(surface))
        for surface in surfaces(piece.parts, gap=piece.settings.gap_mm)
    ]
    loose = loose_parts(found, piece.zone_of)
    scenes = [scene(one.surface, ISOMETRIC, shaded=True) for one in loose]
    views = _views(next((surface for surface in found if surface.is_joined), None))
    shown = {piece.zone_of.get(face) for one in [*views, *scenes] for face in one.regions}
    entries = legend(measured, units, shown=shown, has_areas=has_areas)
    ids = {look.name: f"zone-{k}" for k, look in enumerate(looks(measured))}
    fill = ZoneFill(piece.zone_of, ids)
    body, y = _head(piece, measured, units, has_areas=has_areas), HEAD_HEIGHT
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
    marks, y = legend_block(entries, ids, y)
    body += marks
    marks, y = foot_block(reduction, units, y)
    definitions = "".join(pattern_mark(look, ids[look.name]) for look in looks(measured))
    words = _summary(measured, entries, loose, units)
    return _document(piece, words, y, definitions, [*body, *marks])


def _views(joined: Surface | None) -> list[Scene]:
    if joined is None:
        return []
    flat = [scene(joined, view) for view in (FRONT, RIGHT, TOP)]
    return [*flat, scene(joined, ISOMETRIC, shaded=True)]


def _head(piece: Piece, measured: Measured, units: Units, *, has_areas: bool) -> list[str]:
    name = shortened(piece.settings.name, INNER_WIDTH, NAME_TEXT)
    marks = [lettering(name, (MARGIN, 8.5), size=NAME_TEXT, bold=True)]
    for k, text in enumerate(sizes(measured, units, has_areas=has_areas)):
        marks.append(lettering(text, (MARGIN, 14.5 + k * 4.6), size=TEXT, ink=NOTE_INK))
    return marks


def _document(
    piece: Piece, words: str, height: float, definitions: str, body: Sequence[str]
) -> str:
    title = safe(f"{piece.settings.name}: finish zones")
    wide, high = number(SHEET_WIDTH), number(height)
    drawn = "\n".join(body)
    return f"""<?xml version="1.0" encoding="UTF-8"?>
<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm" \
viewBox="0 0 {wide} {high}" role="img" aria-labelledby="title summary" \
font-family="sans-serif" style="max-width:100%;height:auto">
<title id="title">{title}</title>
<desc id="summary">{safe(words)}</desc>
<style>.line{{fill:none;stroke:{INK};stroke-linejoin:round;stroke-linecap:round}}\
text{{unicode-bidi:isolate;white-space:pre}}</style>
<defs>{definitions}</defs>
<rect width="{wide}" height="{high}" fill="{PAPER}"/>
{drawn}
</svg>
"""


def _summary(
    measured: Measured, entries: Sequence[LegendEntry], loose: Sequence[Loose], units: Units
) -> str:
    """Return the drawing in words."""
    zones = "; ".join(
        f"{entry.name} {entry.area}" + (f" ({entry.note})" if entry.note else "")
        for entry in entries
    )
    beside = f" Set beside: {', '.join(one.name for one in loose)}." if loose else ""
    views = "Front, right side, top and isometric view" if any(measured.size_mm) else "Loose parts"
    size = f" of {size_text(measured.size_mm, units)}" if any(measured.size_mm) else ""
    return f"{views}{size}.{beside} Exposed area by finish zone: {zones}."
