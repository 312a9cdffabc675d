"""Dimensions as workshop drawings show them, after ISO 129-1.

Extension lines start a little off the outline and run a little past the dimension line; oblique
strokes end it; the text is over the line and is read from below or from the right. Where the text
is longer than the line, it is beside it, over the line drawn out.
"""

from surfacecalc.elements import Element
from surfacecalc.pictures.layout import (
    DIMENSION_LINE,
    DIMENSION_OFFSET,
    EXTENSION_BEYOND,
    EXTENSION_GAP,
    STROKE_LENGTH,
    TEXT_GAP,
)
from surfacecalc.pictures.marks import lettering, line, text_width


def dimension_below(start: float, end: float, edge: float, text: str) -> list[Element]:
    """Return a dimension under a view.

    Args:
        start: left end on the sheet [mm].
        end: right end.
        edge: the view's lower edge.
        text: the measure.
    """
    level = edge + DIMENSION_OFFSET
    marks = [
        line([(x, edge + EXTENSION_GAP), (x, level + EXTENSION_BEYOND)], width=DIMENSION_LINE)
        for x in (start, end)
    ]
    marks += [_stroke(x, level) for x in (start, end)]
    wide = text_width(text)
    fits = wide + STROKE_LENGTH <= end - start
    reach = end if fits else end + STROKE_LENGTH + wide
    marks.append(line([(start, level), (reach, level)], width=DIMENSION_LINE))
    middle = (start + end) / 2 if fits else end + STROKE_LENGTH + wide / 2
    marks.append(lettering(text, (middle, level - TEXT_GAP), anchor="middle"))
    return marks


def dimension_left(top: float, bottom: float, edge: float, text: str) -> list[Element]:
    """Return a dimension to the left of a view.

    Args:
        top: upper end on the sheet [mm].
        bottom: lower end.
        edge: the view's left edge.
        text: the measure.
    """
    level = edge - DIMENSION_OFFSET
    marks = [
        line([(edge - EXTENSION_GAP, y), (level - EXTENSION_BEYOND, y)], width=DIMENSION_LINE)
        for y in (top, bottom)
    ]
    marks += [_stroke(level, y) for y in (top, bottom)]
    wide = text_width(text)
    fits = wide + STROKE_LENGTH <= bottom - top
    reach = top if fits else top - STROKE_LENGTH - wide
    marks.append(line([(level, bottom), (level, reach)], width=DIMENSION_LINE))
    middle = (top + bottom) / 2 if fits else top - STROKE_LENGTH - wide / 2
    marks.append(lettering(text, (level - TEXT_GAP, middle), anchor="middle", upright=True))
    return marks


def bar(at: tuple[float, float], length: float, height: float) -> list[Element]:
    """Return a scale bar in two halves, the first one filled."""
    x, y = at
    half = length / 2
    box = [(x, y), (x + length, y), (x + length, y + height), (x, y + height), (x, y)]
    filled = line([(x, y + height / 2), (x + half, y + height / 2)], width=height)
    return [filled, line(box, width=DIMENSION_LINE)]


def _stroke(x: float, y: float) -> Element:
    """Return an oblique stroke at 45 degrees, rising to the right."""
    half = STROKE_LENGTH / 2 / 2**0.5
    return line([(x - half, y + half), (x + half, y - half)], width=2 * DIMENSION_LINE)
