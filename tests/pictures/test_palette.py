"""Looks of zones: patterns that differ without colour, inks that can be read on their tints."""

import itertools

import numpy as np
import pytest
import shapely
from scipy.signal import correlate

from surfacecalc.pictures.layout import INK, NOTE_INK, PAPER
from surfacecalc.pictures.palette import CROSSED, PATTERNS, PLAIN, TINTS, Pattern

LINE = 0.3
GRID = 96
SWATCH = 12.0


def darkness(pattern: Pattern) -> np.ndarray:
    """Return which points of a swatch of 12 mm lie under ink."""
    tiles = int(np.ceil(SWATCH / pattern.size)) + 1
    marks = []
    for i, j in itertools.product(range(tiles), repeat=2):
        for stroke in pattern.strokes:
            points = [((x + i) * pattern.size, (y + j) * pattern.size) for x, y in stroke]
            marks.append(shapely.LineString(points).buffer(LINE / 2))
        for x, y, radius in pattern.dots:
            at = shapely.Point((x + i) * pattern.size, (y + j) * pattern.size)
            marks.append(at.buffer(radius * pattern.size))
    ink = shapely.union_all(marks)
    steps = (np.arange(GRID) + 0.5) * SWATCH / GRID
    across, down = np.meshgrid(steps, steps)
    return np.asarray(shapely.contains_xy(ink, across, down))


def likeness(one: np.ndarray, other: np.ndarray) -> float:
    """Return how alike two swatches are at best when one is shifted over the other: 1 is equal."""
    one, other = ((swatch - swatch.mean()) / swatch.std() for swatch in (one, other))
    shifted = correlate(np.tile(one, (2, 2)), other, mode="valid")
    return float(shifted.max() / other.size)


def luminance(colour: str) -> float:
    """Return the relative luminance of WCAG 2.2."""
    shares = [int(colour[k : k + 2], 16) / 255 for k in (1, 3, 5)]
    r, g, b = (s / 12.92 if s <= 0.04045 else ((s + 0.055) / 1.055) ** 2.4 for s in shares)
    return 0.2126 * r + 0.7152 * g + 0.0722 * b


def contrast(one: str, other: str) -> float:
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def test_there_are_at_least_eight_patterns_that_differ_without_colour():
    found = [darkness(pattern) for pattern in (*PATTERNS, CROSSED[2])]
    assert len(found) >= 9
    for one, other in itertools.combinations(found, 2):
        # 1 is the same pattern, shifted or not; the two most alike share 0.32
        assert likeness(one, other) < 0.5


def test_patterns_repeat_without_a_break():
    """Ink along one side of a tile meets ink along the opposite one."""
    for pattern in (*PATTERNS, CROSSED[2]):
        marks = [shapely.LineString(stroke).buffer(0.02) for stroke in pattern.strokes]
        marks += [shapely.Point(x, y).buffer(radius) for x, y, radius in pattern.dots]
        ink = shapely.union_all(marks)
        for across in ((1, 0), (0, 1)):
            near = shapely.LineString([(0, 0), across[::-1]])
            far = shapely.transform(near, lambda at, way=across: at + np.array(way))
            back = shapely.transform(ink.intersection(far), lambda at, way=across: at - way)
            # 0.02 of the tile: corners of two strokes that meet there are cut differently
            assert ink.intersection(near).symmetric_difference(back).length <= 0.02


@pytest.mark.parametrize(("tint", "ink"), [*TINTS, PLAIN[:2], CROSSED[:2]])
def test_ink_on_tint_reaches_level_aa_for_text(tint, ink):
    assert contrast(tint, ink) >= 4.5
    assert contrast(tint, INK) >= 4.5


def test_lettering_on_paper_reaches_level_aa():
    assert contrast(PAPER, INK) >= 4.5
    assert contrast(PAPER, NOTE_INK) >= 4.5


def test_tints_differ():
    assert len(set(TINTS)) == len(TINTS) == len(PATTERNS) + 1
