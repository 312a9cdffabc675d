"""The blocks of the drawing, from top to bottom: elevations, loose parts, legend, scale.

Each returns its marks and where the next block may start on the sheet [mm].
"""

from collections.abc import Mapping, Sequence

from shapes.parts import FaceKey
from surfacecalc.elements import Element, element
from surfacecalc.pictures.arrangement import (
    INNER_WIDTH,
    Elevations,
    Placed,
    arrange,
    flow,
)
from surfacecalc.pictures.beside import Loose, size_text
from surfacecalc.pictures.dimensions import bar, dimension_below, dimension_left
from surfacecalc.pictures.layout import (
    BAR_HEIGHT,
    BARS,
    EDGE,
    FOOT_HEIGHT,
    GUTTER,
    INK,
    LABEL_HEIGHT,
    LABEL_WIDTH,
    LEGEND_GAP,
    LEGEND_ROW,
    LONGEST_BAR,
    LOOSE_HEIGHT,
    MARGIN,
    MOST_BELOW,
    NOTE_INK,
    NOTE_TEXT,
    OUTLINE,
    SHADES,
    SHEET_WIDTH,
    SWATCH,
)
from surfacecalc.pictures.legend import LegendEntry
from surfacecalc.pictures.marks import (
    filled,
    lettering,
    line,
    lines_path,
    number,
    pattern_mark,
    shortened,
    text_width,
    wrapped,
)
from surfacecalc.pictures.palette import ZoneLook, look_of
from surfacecalc.pictures.scenes import Scene
from surfacecalc.units.display import Units, format_length
from surfacecalc.zones.areas import Measured


class ZoneFill:
    """How faces of zones are filled, with the ids of their patterns."""

    def __init__(self, zone_of: Mapping[FaceKey, str], found: Sequence[ZoneLook]):
        self._zone_of = zone_of
        self._looks = look_of(found)
        self._ids = {look.name: f"zone-{k}" for k, look in enumerate(found)}

    def patterns(self) -> list[Element]:
        """Return the definitions of all patterns."""
        return [pattern_mark(look, self._ids[name]) for name, look in self._looks.items()]

    def face(self, zone: str | None, tag: str, **shape: str) -> list[Element]:
        """Return a face of a zone, or of none."""
        return filled(tag, self._looks[zone], self._ids[zone], **shape)

    def marks(self, placed: Placed) -> Element:
        """Return what a placed view shows."""
        scene, scale, at = placed.scene, placed.scale, placed.origin
        found: list[Element] = []
        for zone, region in scene.by_zone(self._zone_of).items():
            path = lines_path(region, scale=scale, at=at)
            found += self.face(zone, "path", d=path, fill_rule="evenodd")
        for shade, region in scene.shades.items():
            path = lines_path(region, scale=scale, at=at)
            ink = {"fill": INK, "fill_opacity": str(SHADES[shade])}
            found.append(element("path", d=path, fill_rule="evenodd", **ink))
        for shape, width in ((scene.edges, EDGE), (scene.outline, OUTLINE)):
            path = lines_path(shape, scale=scale, at=at)
            found.append(element("path", d=path, look="line", stroke_width=width))
        return element("g", found)


def height_below(keys: int) -> float:
    """Return what the legend and the scale take [mm]."""
    return LABEL_HEIGHT + 4 + -(-keys // 2) * LEGEND_ROW + FOOT_HEIGHT


def elevations_block(
    views: Sequence[Scene],
    measured: Measured,
    units: Units,
    fill: ZoneFill,
    *,
    is_loose: bool,
    keys: int,
) -> tuple[list[Element], float, int]:
    """Return the views of the joined piece, where the next thing starts, and n of 1:n."""
    room = min(height_below(keys) + (LOOSE_HEIGHT if is_loose else 0.0), MOST_BELOW)
    front, right, top, picture = views
    found = arrange(front, right, top, picture, units, room=room)
    marks: list[Element] = []
    for placed in (found.top, found.picture, found.front, found.right):
        marks.append(fill.marks(placed))
        x, y = placed.at
        if placed is found.picture:
            x += max(0.0, (placed.size[0] - text_width(placed.scene.view.name)) / 2)
        marks.append(_label(placed.scene.view.name, (x, y - 2.6)))
    marks.append(_dimensions(found, measured, units))
    return marks, found.bottom, found.reduction


def _dimensions(found: Elevations, measured: Measured, units: Units) -> Element:
    width, depth, height = (format_length(length, units) for length in measured.size_mm)
    (left, top), (wide, high) = found.front.at, found.front.size
    (side, _), (deep, _) = found.right.at, found.right.size
    return element(
        "g",
        dimension_below(left, left + wide, top + high, width),
        dimension_left(top, top + high, left, height),
        dimension_below(side, side + deep, top + high, depth),
    )


def _label(text: str, at: tuple[float, float]) -> Element:
    return lettering(text, at, bold=True)


def loose_block(
    loose: Sequence[Loose], scenes: Sequence[Scene], scale: float, units: Units, fill: ZoneFill,
    start: float, room: float,
) -> tuple[list[Element], float]:  # fmt: skip
    """Return the loose parts with their names and sizes, and where they end."""
    if not loose:
        return [], start
    labels = [(shortened(one.name, LABEL_WIDTH), size_text(one.size_mm, units)) for one in loose]
    widths = [max(text_width(name), text_width(size, NOTE_TEXT)) for name, size in labels]
    top = start + LABEL_HEIGHT + 3
    placed, end = flow(scenes, widths, scale, top, room - (top - start))
    share = placed[0].scale / scale
    note = "" if share == 1 else f", drawn at {share:.0%} of the size of the views above"
    marks = [_rule(start), _label(f"Loose parts{note}", (MARGIN, start + LABEL_HEIGHT))]
    for (name, size), one in zip(labels, placed, strict=True):
        marks.append(fill.marks(one))
        x, y = one.at[0], one.at[1] + one.size[1]
        marks.append(lettering(name, (x, y + 4.6)))
        marks.append(lettering(size, (x, y + 8.4), size=NOTE_TEXT, ink=NOTE_INK))
    return marks, end + 3


def _rule(y: float) -> Element:
    return line([(MARGIN, y), (SHEET_WIDTH - MARGIN, y)], width=EDGE, ink="#b9b4ab")


def legend_block(
    entries: Sequence[LegendEntry], fill: ZoneFill, start: float, title: str
) -> tuple[list[Element], float]:
    """Return the legend in two columns, and where it ends."""
    marks = [_rule(start), _label(title, (MARGIN, start + LABEL_HEIGHT))]
    column = (INNER_WIDTH - GUTTER) / 2
    rows = -(-len(entries) // 2)
    top = start + LABEL_HEIGHT + 3
    for k, entry in enumerate(entries):
        x = MARGIN + (column + GUTTER) * (k // rows)
        marks += _key(entry, fill, (x, top + k % rows * LEGEND_ROW), column)
    return marks, top + rows * LEGEND_ROW + 1


def _key(
    entry: LegendEntry, fill: ZoneFill, at: tuple[float, float], column: float
) -> list[Element]:
    x, y = at
    wide, high = SWATCH
    text = x + wide + 3
    room = column - wide - 3 - LEGEND_GAP - text_width(entry.area)
    box = {"x": x, "y": y, "width": wide, "height": high}
    shape = {key: number(value) for key, value in box.items()}
    names = wrapped(entry.name, room, most=1 if entry.note else 2)
    levels = [3.4, 7.6] if entry.note or len(names) > 1 else [5.3]
    marks = [
        *fill.face(entry.look.name, "rect", **shape, stroke=INK, stroke_width=str(EDGE)),
        lettering(entry.area, (x + column, y + levels[0]), anchor="end"),
    ]
    marks += [
        lettering(name, (text, y + level)) for name, level in zip(names, levels, strict=False)
    ]
    if entry.note:
        note_at = (text, y + levels[1])
        marks.append(lettering(entry.note, note_at, size=NOTE_TEXT, ink=NOTE_INK))
    return marks


def foot_block(
    reduction: int, units: Units, start: float, *, says_scale: bool
) -> tuple[list[Element], float]:
    """Return the scale and its bar, and where the sheet ends."""
    lengths = [length for length in BARS[units] if length / reduction <= LONGEST_BAR]
    length = lengths[-1] if lengths else BARS[units][0]
    y = start + 5.5
    end = MARGIN + length / reduction
    scale = f", scale 1:{reduction} when printed {SHEET_WIDTH:.0f} mm wide" if says_scale else ""
    text = f"{format_length(length, units)}{scale}"
    marks = [
        _rule(start),
        *bar((MARGIN, y), length / reduction, BAR_HEIGHT),
        lettering(text, (end + 3, y + 2.2), size=NOTE_TEXT, ink=NOTE_INK),
    ]
    return marks, start + FOOT_HEIGHT - 3
