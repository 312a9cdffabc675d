"""Dimensions as workshop drawings show them."""

from surfacecalc.elements import Element
from surfacecalc.pictures.dimensions import dimension_below, dimension_left
from surfacecalc.pictures.layout import DIMENSION_OFFSET, EXTENSION_BEYOND, EXTENSION_GAP
from surfacecalc.pictures.marks import text_width


def lines(marks: list[Element]) -> list[list[tuple[float, ...]]]:
    paths = [one.attributes["d"].removeprefix("M") for one in marks if one.tag == "path"]
    return [[tuple(map(float, point.split())) for point in path.split("L")] for path in paths]


def text_of(marks: list[Element]) -> Element:
    (text,) = [one for one in marks if one.tag == "text"]
    return text


def text_at(marks: list[Element]) -> tuple[float, float]:
    given = text_of(marks).attributes
    return float(given["x"]), float(given["y"])


def test_extension_lines_start_off_the_outline_and_pass_the_dimension_line():
    left, right, *_ = lines(dimension_below(20, 120, 50, "1000 mm"))
    ends = [50 + EXTENSION_GAP, 50 + DIMENSION_OFFSET + EXTENSION_BEYOND]
    assert left == [(20, ends[0]), (20, ends[1])]
    assert right == [(120, ends[0]), (120, ends[1])]


def test_the_dimension_line_runs_between_them_under_its_text():
    marks = dimension_below(20, 120, 50, "1000 mm")
    level = 50 + DIMENSION_OFFSET
    assert [(20, level), (120, level)] in lines(marks)
    x, y = text_at(marks)
    assert x == 70
    assert y < level


def test_oblique_strokes_stand_at_45_degrees_over_both_ends():
    strokes = lines(dimension_below(20, 120, 50, "1000 mm"))[2:4]
    for (x0, y0), (x1, y1) in strokes:
        assert x1 - x0 == y0 - y1 > 0
    assert [(x0 + x1) / 2 for (x0, _), (x1, _) in strokes] == [20, 120]


def test_a_text_wider_than_its_line_stands_beside_it():
    text = "1000 mm"
    marks = dimension_below(20, 24, 50, text)
    assert text_at(marks)[0] - text_width(text) / 2 > 24
    marks = dimension_left(20, 24, 50, text)
    assert text_at(marks)[1] + text_width(text) / 2 < 20


def test_a_height_stands_left_of_its_line_and_runs_upward():
    marks = dimension_left(20, 120, 50, "1000 mm")
    x, y = text_at(marks)
    assert x < 50 - DIMENSION_OFFSET
    assert y == 70
    assert f"rotate(-90 {x:g} {y:g})" == text_of(marks).attributes["transform"]
