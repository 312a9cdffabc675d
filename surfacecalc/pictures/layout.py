"""Every measure of the drawing: sizes on paper [mm], line widths, scales, colours of the sheet.

The sheet is as wide as fits both A4 and Letter upright with margins, and as high as it needs.
"""

from surfacecalc.units.display import Units

SHEET_WIDTH = 186.0
"""A4 is 210 mm wide and Letter 216 mm: margins of 12 mm and more remain."""
SHEET_HEIGHT = 254.0
"""What is aimed at: Letter is 279 mm high."""
MOST_BELOW = 0.6 * SHEET_HEIGHT
"""What the blocks below may take from the views; with a longer legend the sheet grows."""
MARGIN = 5.0

NAME_TEXT = 6.0
TEXT = 3.5
"""Height of lettering, one of the sizes of ISO 3098-1 (2.5, 3.5, 5, 7 mm)."""
NOTE_TEXT = 3.0
WIDE_TEXT_SHARE = 0.57
"""Width of an average letter of a sans-serif face, as a share of its size, on the safe side."""

HEAD_HEIGHT = 24.0
LABEL_HEIGHT = 6.5
"""Room for a view's name above it."""
GUTTER = 9.0
"""Between two views."""
LEAST_VIEW_WIDTH = 20.0
"""Room a narrow view takes all the same, so that its name fits above it."""

DIMENSION_OFFSET = 8.0
"""From the outline to the dimension line."""
DIMENSION_ROOM = 11.0
"""What a dimension takes beside a view."""
EXTENSION_GAP = 1.0
"""Between the outline and the start of an extension line."""
EXTENSION_BEYOND = 1.6
"""How far an extension line runs past the dimension line."""
STROKE_LENGTH = 2.6
"""Oblique stroke that ends a dimension line, drawn at 45 degrees."""
TEXT_GAP = 1.1
"""Between a dimension line and its text."""

OUTLINE = 0.5
EDGE = 0.25
"""Wide and narrow lines, 2 : 1 as ISO 128-2 wants."""
DIMENSION_LINE = 0.18

PICTURE_HEIGHT = 66.0
"""Least height that is given to the pictorial view in a row of its own making."""
LEAST_PICTURE_SHARE = 0.6
"""The pictorial view is drawn at this share of the scale or more."""

LOOSE_SHARES = (1.0, 0.8, 0.6, 0.45, 0.3, 0.2, 0.1)
"""Shares of the scale at which loose parts may be drawn, largest first."""
LOOSE_HEIGHT = 52.0
"""Room that is kept for loose parts when the scale of the piece is chosen; with no piece beside
them they may take LOOSE_HEIGHT_ALONE."""
LOOSE_HEIGHT_ALONE = 150.0
SMALL_DRAWING = 14.0
"""Loose parts are not drawn smaller than to this height of the highest one."""
LOOSE_GAP = 8.0
LOOSE_LABEL_HEIGHT = 10.5
LABEL_WIDTH = 46.0
"""What the label of a loose part may take."""

LEGEND_ROW = 11.0
SWATCH = (14.0, 8.0)
LEGEND_GAP = 6.0
BAR_HEIGHT = 1.6
FOOT_HEIGHT = 15.0

SCALES = {
    Units.METRIC: (1, 2, 5, 10, 15, 20, 25, 30, 40, 50, 75, 100, 200),
    Units.US: (1, 2, 3, 4, 6, 8, 10, 12, 16, 20, 24, 32, 48, 64, 96, 192),
}
"""Reductions 1:n, rising. Metric: ISO 5455 and the steps between that workshops use; US: whole
fractions of an inch or of a foot."""

INCH_MM = 25.4
BARS = {
    Units.METRIC: (10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0),
    Units.US: tuple(INCH_MM * inches for inches in (0.5, 1, 2, 4, 6, 12, 24, 48, 96, 192)),
}
"""Lengths of a scale bar [mm]."""
LONGEST_BAR = 50.0
"""Longest scale bar on paper."""

PAPER = "#ffffff"
INK = "#26231f"
NOTE_INK = "#55504a"
SHADES = (0.0, 0.06, 0.13, 0.2)
"""How much ink darkens a face in the pictorial view, by how far it turns from the light."""
LIGHT = (-0.35, -0.55, 0.76)
"""Where the light comes from: front, left, above."""

SET_BESIDE_SHARE = 0.12
"""Distance between things set beside each other, as a share of the piece's longest side."""
