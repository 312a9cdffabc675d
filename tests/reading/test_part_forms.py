"""More forms of parts are read, and what cannot be made is refused in words, on its line."""

from collections.abc import Callable

import pytest

from shapes.drawers import drawer
from shapes.solids import Solid
from surfacecalc.model.pieces import Piece
from surfacecalc.problems import Problem

Read = Callable[[str], tuple[Piece | None, list[Problem]]]
PieceOf = Callable[[str], Piece]

HEAD = '[piece]\nname = "p"\nunit = "mm"\n[[part]]\nname = "a"\n'
"""A part's own keys begin on line 6."""
DRAWER = 'shape = "drawer"\nwidth = 400\ndepth = 450\nheight = 150\nfront = 20\nboard = 12\n'


@pytest.mark.parametrize(
    ("table", "solid"),
    [
        (f"{DRAWER}lip = 9",
         drawer(400, 450, 150, front=20, board=12,
                lip={"left": 9, "right": 9, "top": 9, "bottom": 9})),
        (f'{DRAWER}lip = {{ left = "1 cm", top = 6, thickness = 9 }}\nside_height = 110\n'
         "back_height = 80",
         drawer(400, 450, 150, front=20, board=12, lip={"left": 10, "top": 6}, lip_thickness=9,
                side_height=110, back_height=80)),
    ],
)  # fmt: skip
def test_a_form_is_the_solid_of_its_measures(table: str, solid: Solid, piece_of: PieceOf) -> None:
    (found,) = piece_of(HEAD + table).parts
    assert solid.area_mm2_of == found.solid.area_mm2_of
    assert solid.size == found.solid.size


@pytest.mark.parametrize(
    ("table", "message"),
    [
        (f"{DRAWER}lip = true",
         "12: lip = true must be one length for all sides, lip = 10, or lip = { left = 10,"
         " right = 10, top = 10 }"),
        (f"{DRAWER}lip = {{ }}",
         "12: lip has no side; write it like lip = { left = 10, right = 10, top = 10 }"),
        (f"{DRAWER}lip = {{ lift = 9 }}", '12: lip: "lift" is not known here; did you mean "left"?'),
        (f"{DRAWER}lip = {{ left = -9 }}", "12: lip left must be 0 or more"),
        (f"{DRAWER}lip = {{ left = 9, thickness = 25 }}",
         "12: lip thickness must be no more than the front (20 mm)"),
        (f"{DRAWER}lip = {{ left = 200, right = 200 }}",
         "12: lip = {...} must be narrower: two of its sides leave no width for the box"),
        (f"{DRAWER}side_height = 160", "12: side_height = 160 must be no higher than the box"
         " (150 mm)"),
        (f"{DRAWER}side_height = 100\nback_height = 110",
         "13: back_height = 110 must be no higher than the sides (100 mm)"),
    ],
)  # fmt: skip
def test_a_form_that_cannot_be_is_refused_in_words(table: str, message: str, read: Read) -> None:
    piece, problems = read(HEAD + table)
    assert piece is None
    assert [message] == [f"{problem.line}: {problem.message}" for problem in problems]
