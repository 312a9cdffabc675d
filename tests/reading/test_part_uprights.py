"""Uprights between a part below and one above; keys of legs and outlines that came with them."""

from collections.abc import Callable
from typing import Any

import pytest

Read = Callable[[str], Any]

TWO = """[piece]
name = "p"
unit = "mm"
[[part]]
name = "seat"
shape = "board"
width = 430
depth = 410
height = 30
at = [0, 0, 420]
[[part]]
name = "crest"
shape = "board"
width = 430
depth = 410
height = 60
at = [0, 0, 860]
"""
SPINDLE = """[[part]]
name = "spindle"
shape = "leg"
"""
FORM = 'form = "spindle"\nprofile = [[0, 12], [10, 22], [20, 12]]\n'
BETWEEN = 'between = { below = "seat", above = "crest", of = 3, tenon = 10 }\n'


def spindles(read: Read, text: str) -> Any:
    piece, problems = read(TWO + SPINDLE + text)
    assert piece is not None, problems
    return [part for part in piece.parts if part.name.startswith("spindle")]


@pytest.mark.parametrize(
    "form",
    [
        FORM,
        'form = "turned"\nprofile = [[0, 12], ["1/2 in", 22], [20, 12]]\n',
        'form = "round"\nwidth = 22\n',
        'form = "round"\nwidth = 22\nheight = 77\n',
        'form = "tapered"\nwidth = 22\nfoot = 20\nstraight = 30\n',
        'form = "shaped"\nsections = [[0, 20, 20], [20, 30, 30]]\nsmooth = true\n',
    ],
)
def test_an_upright_gets_its_length_from_its_parts(form: str, read: Read) -> None:
    found = spindles(read, form + BETWEEN)
    assert ["spindle 1", "spindle 2", "spindle 3"] == [part.name for part in found]
    assert {430.0} == {part.solid.size_mm[2] for part in found}
    assert {440 * 80_000} == {part.at[2] for part in found}


def test_a_leaning_one_is_longer(read: Read) -> None:
    upright = spindles(read, FORM + BETWEEN)[0].solid
    leaning = spindles(read, FORM + BETWEEN + 'lean = { degrees = 10, towards = "back" }\n')[0]
    assert leaning.solid.area_mm2_of["side"] > 1.01 * upright.area_mm2_of["side"]


def test_a_spindle_stands_between_posts_as_well(read: Read) -> None:
    posts = TWO.replace("width = 430", "width = 40").replace("[0, 0, 860]", "[390, 0, 420]")
    text = SPINDLE + FORM + 'between = { first = "seat", last = "crest", of = 2 }\n'
    piece, problems = read(posts + text)
    assert piece is not None, problems


@pytest.mark.parametrize("key", ["lines", "between"])
def test_lines_may_be_straight_by_the_new_and_the_old_key(key: str, read: Read) -> None:
    smooth, straight = spindles(read, FORM), spindles(read, f'{FORM}{key} = "straight"\n')
    assert smooth[0].solid.area_mm2_of["side"] > 1.001 * straight[0].solid.area_mm2_of["side"]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (FORM + BETWEEN.replace("seat", "seet"), "seat"),
        (FORM + BETWEEN.replace("below", "belov"), "below"),
        (FORM + BETWEEN.replace(', above = "crest"', ""), "above"),
        (FORM + BETWEEN.replace("of = 3", "of = 30"), "fit"),
        (FORM + BETWEEN.replace('"crest"', '"seat"'), "higher"),
        (FORM + BETWEEN.replace("tenon = 10", "tenon = -10"), "tenon"),
        (FORM + BETWEEN.replace("tenon = 10", 'axis = "z"'), "axis"),
        (FORM + BETWEEN + "at = [0, 0, 0]\n", "keep one of them"),
        (FORM + 'lines = "wavy"\n', "lines"),
        ('form = "tapered"\nheight = 90\nwidth = 20\nfoot = 10\nstraight = 90\n', "straight"),
        ('form = "tapered"\nheight = 90\nwidth = 20\nfoot = 10\nstraight = -9\n', "straight"),
    ],
)
def test_what_cannot_be_is_said(text: str, message: str, read: Read) -> None:
    piece, problems = read(TWO + SPINDLE + text)
    assert piece is None
    assert any(message in problem.message for problem in problems), problems


def test_a_shape_without_a_height_is_refused(read: Read) -> None:
    text = SPINDLE.replace('"leg"', '"outline"') + "thickness = 10\noutline = { circle = 20 }\n"
    piece, problems = read(TWO + text + BETWEEN)
    assert piece is None
    assert any("a leg or a board only" in problem.message for problem in problems), problems


def test_a_rounded_outline_takes_its_centre_or_its_corner(read: Read) -> None:
    part = SPINDLE.replace('"leg"', '"outline"') + "thickness = 10\noutline = {} \n".replace(
        "{}", "{{ circle = 300 }}\nholes = [{{ rounded = [40, 20], radius = 5, {} }}]"
    )
    by_centre, by_corner = (
        read(TWO + part.format(where))[0].parts[-1].solid
        for where in ("centre = [150, 140]", "corner = [130, 130]")
    )
    assert by_corner.vertices.tolist() == by_centre.vertices.tolist()
    piece, problems = read(TWO + part.format("corner = [1, 1], centre = [2, 2]"))
    assert piece is None
    assert any("both corner and centre" in problem.message for problem in problems)
