"""A film on the sides of a drawer is told with the room that it takes."""

import pytest

from surfacecalc.api import measure, read_piece_text

PIECE = """
[piece]
name = "drawer"
unit = "mm"
[[part]]
name = "drawer"
shape = "drawer"
width = 400
depth = 300
height = 100
front = 18
board = 10
[[zone]]
name = "all"
faces = ["drawer"]
surface = "sealed"
{more}
[[zone.step]]
do = "coat"
product = "{product}"
coats = 3
by = "brush"
[[product]]
name = "paint"
kind = "paint"
covers = "10 m2/L"
[[product]]
name = "film"
kind = "paint"
solids = "40 %"
dry_film = "50 um"
[[product]]
name = "oil"
kind = "oil"
"""


def notes(product, more=""):
    problems = measure(read_piece_text(PIECE.format(product=product, more=more))).notes
    return [problem.message for problem in problems if "the drawer still clears" in problem.message]


@pytest.mark.parametrize(
    ("product", "side", "across"),
    [
        ("paint", "0.11 mm", "0.23 mm"),  # 3 x 100 um wet, 38 % of it stays
        ("film", "0.15 mm", "0.30 mm"),  # 3 x 50 um
    ],
)
def test_film_on_drawer_sides_is_told(product, side, across):
    (message,) = notes(product)
    assert f"about {side} thicker on each side, {across} in total" in message
    assert (product == "paint") == message.endswith(" (how much of it is left when dry is assumed)")


def test_oil_takes_no_room():
    assert notes("oil") == []


def test_faces_without_film_take_no_room():
    assert notes("paint", 'no_film = ["drawer.left", "drawer.right"]') == []
