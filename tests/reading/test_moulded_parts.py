"""Worked edges and mouldings in a piece file: what is built, and mistakes in words."""

from collections.abc import Callable

import pytest

from shapes.mouldings import mitred_moulding, moulding, moulding_along, moulding_around
from shapes.outline_boards import outline_board
from shapes.outlines import circle, oval, rectangle, rounded_rectangle
from shapes.profiles import chamfer, cove, edge_of, flipped, ogee
from shapes.solids import Solid
from shapes.worked_edges import profiled_board, worked_outline
from surfacecalc.model.pieces import Piece
from surfacecalc.problems import Problem

Read = Callable[[str], tuple[Piece | None, list[Problem]]]
PieceOf = Callable[[str], Piece]

HEAD = '[piece]\nname = "p"\nunit = "mm"\n[[part]]\nname = "a"\n'
BOARD = 'shape = "board"\nwidth = 400\ndepth = 200\nheight = 20\n'
SLAB = 'shape = "outline"\nthickness = 20\n'
RUN = 'shape = "moulding"\nprofile = { form = "cove", radius = 10 }\n'
CHAMFER = 'edge_profile = { form = "chamfer", depth = 6, height = 8 }\n'
EDGE = edge_of(chamfer(6, 8), 20)
ARCH = [[0, 0], [300, 0], [300, 200, 40], [0, 200]]
HALF = [[0, 0], [400, 0, 200]]

BUILT = {
    BOARD + CHAMFER: profiled_board(400, 200, 20, profile=EDGE),
    BOARD + CHAMFER + 'profiled_edges = ["back"]': profiled_board(
        400, 200, 20, profile=EDGE, edges=["back"]
    ),
    BOARD + "edge_profile = [[12, 0], [12, 8], [0, 8], [0, 20]]": profiled_board(
        400, 200, 20, profile=[[12, 0], [12, 8], [0, 8], [0, 20]]
    ),
    SLAB + f"outline = {ARCH}": outline_board(ARCH, 20),
    SLAB + f"outline = {ARCH}\n" + CHAMFER: worked_outline(ARCH, 20, profile=EDGE),
    SLAB + f"outline = {HALF}\nprofiled_edges = [2]\n" + CHAMFER: worked_outline(
        HALF, 20, profile=EDGE, edges=[2]
    ),
    SLAB + 'outline = { oval = [400, 300] }\nlies = "across"\n' + CHAMFER: worked_outline(
        oval(400, 300), 20, profile=EDGE, along="y"
    ),
    SLAB + "outline = { circle = 400 }\nholes = [{ circle = 30, centre = [200, 200] }]\n" + CHAMFER:
        worked_outline(
            circle(400), 20, profile=EDGE, holes=[circle(30, centre=(200, 200))]
        ),
    RUN + "length = 700": moulding(700, cove(10)),
    RUN + "around = [400, 200]": mitred_moulding(400, 200, cove(10)),
    RUN + "around = [400, 200]\nall_round = true": mitred_moulding(
        400, 200, cove(10), all_round=True
    ),
    RUN + f"around = {HALF}": moulding_around(HALF, cove(10)),
    RUN + 'around = { circle = 300 }\nlies = "along"': moulding_around(
        circle(300), cove(10), lies="x"
    ),
    RUN + "opening = [300, 500]": moulding_around(
        rectangle(300, 500), cove(10), inside=True, lies="y"
    ),
    RUN + 'opening = [300, 500]\nlies = "flat"': moulding_around(
        rectangle(300, 500), cove(10), inside=True
    ),
    RUN + "opening = { rounded = [300, 500], radius = 40 }": moulding_around(
        rounded_rectangle(300, 500, radius=40), cove(10), inside=True, lies="y"
    ),
    RUN + f"opening = {ARCH}": moulding_around(ARCH, cove(10), inside=True, lies="y"),
    RUN + "along = [[0, 0, 90], [600, 0]]": moulding_along([[0, 0, 90], [600, 0]], cove(10)),
    RUN + 'along = [[600, 0, 90], [0, 0]]\nlies = "across"': moulding_along(
        [[600, 0, 90], [0, 0]], cove(10), lies="y"
    ),
    'shape = "moulding"\nlength = 700\n'
    'profile = { form = "ogee", depth = 12, height = 18, flipped = true }':
        moulding(700, flipped(ogee(12, 18))),
}  # fmt: skip


@pytest.mark.parametrize("table", BUILT)
def test_a_part_is_the_solid_of_its_measures(table: str, piece_of: PieceOf) -> None:
    (part,) = piece_of(HEAD + table).parts
    expected: Solid = BUILT[table]
    assert expected.area_mm2_of == part.solid.area_mm2_of
    assert expected.size == part.solid.size
    assert (expected.vertices == part.solid.vertices).all()


MISTAKES = {
    BOARD.replace("200", "20") + 'edge_profile = { form = "quarter round", radius = 12 }':
        "edge_profile = {...} must be less deep than half of the depth (10 mm)",
    BOARD + 'edge_profile = { form = "ogee", depth = 12, height = 25 }':
        "edge_profile = {...} must be no higher than the board is thick (20 mm)",
    BOARD + 'profiled_edges = ["front"]':
        "has profiled_edges but no edge_profile; "
        'add edge_profile = { form = "ogee", depth = 12, height = 15 }',
    BOARD + CHAMFER + 'profiled_edges = ["top"]':
        'profiled_edges: "top" is not known; use one of front, back, left, right',
    SLAB + f"outline = {HALF}\nprofiled_edges = [2]":
        "has profiled_edges but no edge_profile; "
        'add edge_profile = { form = "ogee", depth = 12, height = 15 }',
    SLAB + f'outline = {HALF}\nprofiled_edges = ["front"]\n' + CHAMFER:
        'profiled_edges = ["front"] must be the numbers of the points whose line to the next '
        "point is worked, such as profiled_edges = [1, 3]",
    SLAB + f"outline = {HALF}\nprofiled_edges = [3]\n" + CHAMFER:
        "profiled_edges = [3] must be numbers of the outline's points, 1 to 2, not 3",
    SLAB + f"outline = {HALF}\nprofiled_edges = [1]\n" + CHAMFER:
        "profiled_edges = [1] must be a list that also has the curved edges next to a worked one",
    SLAB + "outline = { circle = 11 }\n" + CHAMFER:
        "edge_profile = {...} must be less deep: nothing would be left of one of the edges that "
        "it runs along",
    SLAB + "outline = { circle = 300 }\nholes = [{ circle = 290, centre = [150, 150] }]\n"
    + CHAMFER:
        "holes = [{...}] must be inside the outline and clear of its worked edge: hole 1",
    RUN: "must have one of these: length; around = [width, depth] of the box it goes around; "
    "opening = [width, height] of the frame it goes inside; or along = the points of the line it "
    "follows",
    RUN + "length = 300\nopening = [300, 200]":
        "must have one of these: length; around = [width, depth] of the box it goes around; "
        "opening = [width, height] of the frame it goes inside; or along = the points of the line "
        "it follows",
    RUN + "opening = 300": "opening = 300 must be two lengths, such as opening = [400, 300]",
    RUN + "opening = [300, 0]": "opening = [300, 0] must be more than zero",
    RUN + "opening = [300, 15]":
        "profile = {...} must be less deep: nothing would be left of one of the edges that it runs "
        "along",
    RUN + "opening = { circle = 300 }\nall_round = true":
        "has all_round, which goes only with around = [width, depth]",
    RUN + 'around = [300, 200]\nlies = "across"':
        "has lies, but a straight moulding and one with around = [width, depth] always lie flat; "
        "remove lies, and tilt the part with lean",
    RUN + "around = [[0, 0], [300, 0], [0, 100], [300, 100]]":
        "around = [[0, 0], [300, 0], [0, 100], [300, 100]] must be free of crossings: its line "
        "crosses or touches itself",
    RUN + "along = [300, 200]":
        "along = [300, 200] must be the points of a line, [x, y] or [x, y, rise], such as "
        "along = [[0, 0, 90], [600, 0]]",
    RUN + "along = [[0, 0]]": "along = [[0, 0]] must be at least two points",
    RUN + "along = [[0, 0], [300, 0], [100, 0]]":
        "along = [[0, 0], [300, 0], [100, 0]] must be free of points at which the line turns right "
        "back",
    RUN + 'along = [[0, 0, 90], [600, 0]]\nlies = "up"':
        'lies = "up" is not known; use one of flat, across, along',
}  # fmt: skip


@pytest.mark.parametrize("table", MISTAKES)
def test_a_mistake_is_told_in_words(table: str, read: Read) -> None:
    piece, problems = read(HEAD + table)
    assert piece is None
    assert MISTAKES[table] in [problem.message for problem in problems]


def test_a_profile_that_meets_itself_is_refused(read: Read) -> None:
    """60 mm of wood between the notch and the front, and 35 off both sides of it."""
    notched = "[[0, 0], [300, 0], [300, 100], [200, 60], [100, 100], [0, 100]]"
    profile = 'edge_profile = { form = "chamfer", depth = 35, height = 9 }'
    _, problems = read(f"{HEAD}{SLAB}outline = {notched}\n{profile}")
    assert ["edge_profile = {...} must be less deep: it would meet itself from two sides"] == [
        problem.message for problem in problems
    ]
