"""More forms of parts are read, and what cannot be made is refused in words, on its line."""

from collections.abc import Callable

import numpy as np
import pytest

from shapes.arched_panels import arched_frame, arched_panel
from shapes.cases import Bays, case
from shapes.chamfered_legs import chamfered_leg, octagonal_leg
from shapes.dished_seats import dished
from shapes.drawers import drawer
from shapes.outline_boards import outline_board
from shapes.rods import rod
from shapes.solids import Solid
from shapes.splayed_legs import splayed_leg, splayed_round_leg, splayed_turned_leg
from surfacecalc.model.pieces import Piece
from surfacecalc.problems import Problem

Read = Callable[[str], tuple[Piece | None, list[Problem]]]
PieceOf = Callable[[str], Piece]

HEAD = '[piece]\nname = "p"\nunit = "mm"\n[[part]]\nname = "a"\n'
"""A part's own keys begin on line 6."""
LEG = 'shape = "leg"\nheight = 400\nwidth = 30\n'
SQUARE = [[0, 0], [400, 0], [400, 400], [0, 400]]
SEAT = f'shape = "outline"\nthickness = 40\noutline = {SQUARE}\n'
BOX = (1000, 400, 600)
CASE = 'shape = "case"\nwidth = 1000\ndepth = 400\nheight = 600\nboard = 18\nopen = ["front"]\n'
SIZE = (500, 22, 700)
DOOR = 'shape = "door"\nwidth = 500\ndepth = 22\nheight = 700\nframe = 60\n'
ROD = 'shape = "rod"\ndiameter = 20\n'
CHAMFERED = f'{LEG}form = "chamfered"\n'
PROFILE = [[0, 24], [200, 40], [400, 30]]
VASE: list[list[float | str]] = [
    [0, 24, "straight"],
    [100, 28],
    [200, 40],
    [300, 28, "straight"],
    [400, 26],
]
SPLAY = {"left": 8, "front": 10}
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
        (f"{SEAT}dish = {{ oval = [300, 260], depth = 12 }}",
         dished(outline_board(SQUARE, 40), [300, 260], 12)),
        (f"{SEAT}dish = {{ circle = 200, depth = 12, centre = [150, 180] }}",
         dished(outline_board(SQUARE, 40), [200, 200], 12, centre=[150, 180])),
        (f"{CASE}bays = {{ across = 3, up = 2 }}",
         case(*BOX, board=18, open_sides=["front"], bays=Bays(3, 2))),
        (f'{CASE}bays = {{ across = [200, "40 cm"], board = 12, closed = [2] }}',
         case(*BOX, board=18, open_sides=["front"],
              bays=Bays([200, 400], divider=12, closed=[2]))),
        (f"{DOOR}arch = 90\nrecess = 6", arched_panel(*SIZE, frame=60, arch=90, recess=6)),
        (f'{DOOR}arch = 90\nform = "open"\narched_top = true',
         arched_frame(*SIZE, frame=60, arch=90, is_round=True)),
        (f'{DOOR}arch = 90\nrecess = 8\nform = "raised"\nbevel = 40\nfield = 1\nstep = 3\n'
         "raised_back = true\narched_top = true",
         arched_panel(*SIZE, frame=60, arch=90, recess=8, bevel=40, field=1, step=3,
                      raised_back=True, is_round=True)),
        (f'{ROD}path = [[0, 0], ["40 cm", 90]]\nlies = "along"',
         rod([[0, 0], [400, 90]], 20, along="x")),
        (f'{ROD}path = [[400, 0], [400, 300, "smooth"], [0, 300], [0, 0]]',
         rod([[400, 0], [400, 300, 200], [0, 300], [0, 0]], 20)),
        (f'{LEG}form = "octagonal"\nfoot = 20', octagonal_leg(400, 30, foot=20)),
        (f'{LEG}form = "chamfered"\ndepth = 40\nchamfer = 6',
         chamfered_leg(400, 30, 40, chamfer=6)),
        (f'{LEG}form = "chamfered"\nchamfer = 6\nstops = [50, "30 cm"]',
         chamfered_leg(400, 30, chamfer=6, stops=[50, 300])),
        (f'{LEG}form = "chamfered"\nchamfer = 6\nstops = [50, 300]\nstop_length = 20',
         chamfered_leg(400, 30, chamfer=6, stops=[50, 300], stop_length=20)),
        (f'{LEG}form = "chamfered"\nchamfer = 6\nstops = [50, 300]\nstop_length = 20\n'
         'stop = "lamb\'s tongue"',
         chamfered_leg(400, 30, chamfer=6, stops=[50, 300], stop_length=20, is_tongue=True)),
        (f"{LEG}splay = {{ left = 8, front = 10 }}", splayed_leg(400, 30, splay=SPLAY)),
        (f'{LEG}form = "tapered"\ndepth = 40\nfoot = 20\nsplay = {{ left = 8, front = 10 }}',
         splayed_leg(400, 30, 40, foot=20, splay=SPLAY)),
        (f'{LEG}form = "round"\nsplay = {{ left = 8, front = 10 }}',
         splayed_round_leg(400, 30, splay=SPLAY)),
        (f'shape = "leg"\nform = "spindle"\nprofile = {VASE}\nsplay = {{ left = 8, front = 10 }}',
         splayed_turned_leg(VASE, splay=SPLAY, between="smooth")),
        (f'shape = "leg"\nform = "turned"\nprofile = {PROFILE}\n'
         "splay = { left = 8, front = 10 }", splayed_turned_leg(PROFILE, splay=SPLAY)),
    ],
)  # fmt: skip
def test_a_form_is_the_solid_of_its_measures(table: str, solid: Solid, piece_of: PieceOf) -> None:
    (found,) = piece_of(HEAD + table).parts
    assert solid.area_mm2_of == pytest.approx(found.solid.area_mm2_of, rel=1e-12)
    # 0.001 grid units: an arc by its rise and the same arc by its way are rounded differently
    assert solid.vertices == pytest.approx(found.solid.vertices, abs=1e-3)


@pytest.mark.parametrize(
    ("table", "message"),
    [
        (f"{DRAWER}lip = true",
         "12: lip = true must be one length for all sides, lip = 10, or lip = { left = 10,"
         " right = 10, top = 10 }"),
        (f"{DRAWER}lip = {{ }}",
         "12: lip has no side; write it like lip = { left = 10, right = 10, top = 10 }"),
        (f"{DRAWER}lip = {{ lift = 9 }}",
         '12: lip: "lift" is not known here; did you mean "left"?'),
        (f"{DRAWER}lip = {{ left = -9 }}", "12: lip left must be 0 or more"),
        (f"{DRAWER}lip = {{ left = 9, thickness = 25 }}",
         "12: lip thickness must be no more than the front (20 mm)"),
        (f"{DRAWER}lip = {{ left = 200, right = 200 }}",
         "12: lip = {...} must be narrower: two of its sides leave no width for the box"),
        (f"{DRAWER}side_height = 160", "12: side_height = 160 must be no higher than the box"
         " (150 mm)"),
        (f"{DRAWER}side_height = 100\nback_height = 110",
         "13: back_height = 110 must be no higher than the sides (100 mm)"),
        (f"{SEAT}dish = 12",
         "9: dish = 12 must be written dish = { oval = [380, 320], depth = 12 }"),
        (f"{SEAT}dish = {{ depth = 12 }}",
         "9: dish: must have either an oval or a circle, such as"
         " dish = { oval = [380, 320], depth = 12 }"),
        (f"{SEAT}dish = {{ circle = 300 }}", "9: dish has no depth; add depth = 12"),
        (f"{SEAT}dish = {{ circle = 300, depth = 40 }}",
         "9: dish depth must be less than the board is thick (40 mm)"),
        (f"{SEAT}dish = {{ circle = 400, depth = 12 }}",
         "9: dish = {...} must be inside the outline and clear of its edge"),
        (f"{SEAT}holes = [{{ circle = 50, centre = [200, 200] }}]\n"
         "dish = { circle = 300, depth = 12 }",
         "10: dish = {...} must be clear of the holes"),
        (f'{SEAT}lies = "across"\ndish = {{ circle = 300, depth = 12 }}',
         '9: has a dish, which goes into the top of a board that lies "flat"'),
        (f"{SEAT}dish = {{ oval = 380, depth = 12 }}",
         "9: dish: oval = 380 must be two lengths, such as oval = [380, 320]"),
        (f"{SEAT}dish = {{ oval = [380], depth = 12 }}",
         "9: dish: oval = [380] must be two lengths, such as oval = [380, 320]"),
        (f"{CASE}dish = {{ circle = 300, depth = 12 }}",
         "12: \"dish\" is not known here; use one of width, depth, height, board, open, bays, name,"
         " shape, loose, veneer, at, row and 11 more"),
        (CASE.replace('["front"]', '"front"'),
         '11: open = "front" must be a list of sides, such as open = ["front"]'),
        (f"{CASE}bays = 3", "12: bays = 3 must be written bays = { across = 3, up = 2 }"),
        (f"{CASE}bays = {{ }}",
         "12: bays has neither across nor up; write it like bays = { across = 3, up = 2 }"),
        (f"{CASE}bays = {{ across = 0 }}",
         "12: bays: across = 0 must be how many bays, such as across = 3, or the clear sizes of all"
         " but the last, such as across = [300, 200]"),
        (f"{CASE}bays = {{ across = [500, 460] }}",
         "12: bays across must be less in total, so that a last bay is left (928 mm)"),
        (f"{CASE}bays = {{ up = 40 }}",
         "12: bays up must be fewer, and at least one: no room is left between so many boards"),
        (f"{CASE}bays = {{ across = 2, closed = [3] }}",
         "12: bays closed must be numbers of bays, 1 to 2, not 3"),
        (f"{CASE}bays = {{ across = 2, closed = 1 }}",
         "12: bays: closed = 1 must be a list of numbers of bays, such as closed = [1, 3]"),
        (f'{CASE.replace("front", "top")}bays = {{ across = 2 }}',
         '11: open = ["top"] must be front, back or both, where a case has bays'),
        (f"{DOOR}arch = 90", "4: has no recess; add recess = 6"),
        (f"{DOOR}recess = 6\narched_top = true", "4: has no arch; add arch = 60"),
        (f"{DOOR}recess = 6\narch = 200",
         "12: arch = 200 must be no more than half of the width between the stiles: half a circle"
         " (190 mm)"),
        ('shape = "panel"\nwidth = 900\ndepth = 22\nheight = 300\nframe = 60\nrecess = 6\n'
         "arch = 180",
         "12: arch = 180 must be less than the height between the rails (180 mm)"),
        (f"{DOOR}recess = 6\narch = 90\npanels = [2, 1]",
         "13: has arch and panels; under an arch goes one field, so take out panels"),
        (f'{DOOR}recess = 6\narch = 90\nform = "raised"\nbevel = 190',
         "14: bevel = 190 must be less than half of the field is wide (190 mm)"),
        (f'{DOOR}arch = 90\nform = "open"\npanes = [2, 2]',
         "13: has arch and panes; under an arch goes one field, so take out panes"),
        ('shape = "rod"\npath = [[0, 0], [9, 9]]', "4: has no diameter; add diameter = 20"),
        (f"{ROD}path = [0, 400]",
         "8: path = [0, 400] must be points along the middle of the rod, such as"
         ' path = [[400, 0], [400, 300, "smooth"], [0, 300], [0, 0]]'),
        (f"{ROD}path = [[0, 0]]", "8: path = [[0, 0]] must be at least two points"),
        (f"{ROD}path = [[0, 0], [0, 0]]",
         "8: path = [[0, 0], [0, 0]] must be free of repeats: point 1 and the one after it are the"
         " same"),
        (f'{ROD}path = [[0, 0, "smooth"], [0, 400]]',
         '8: path = [[0, 0, "smooth"], [0, 400]] must be without "smooth" at its first point,'
         " which follows nothing"),
        (f'{ROD}path = [[0, 0, "bent"], [0, 400]]',
         '8: path: "bent" is not known; write "smooth" or the rise of an arc'),
        (f"{ROD}path = [[0, 0], [0, 300, 30], [400, 300]]",
         "8: path = [[0, 0], [0, 300, 30], [400, 300]] must be without a corner at point 2, where"
         " it turns by 107 degrees: only two straight lines may meet at a corner"),
        (f"{ROD}path = [[0, 0], [0, 400], [10, 0]]",
         "8: path = [[0, 0], [0, 400], [10, 0]] must be less sharp at point 2"),
        (f"{ROD}path = [[0, 0, 9], [18, 0]]",
         "8: path = [[0, 0, 9], [18, 0]] must be bent less sharply at point 1: the stock is"
         " thicker than its bend"),
        (f"{ROD}path = [[0, 0], [400, 0], [400, 400], [200, 400], [200, -100]]",
         "8: path = [[0, 0], [400, 0], [400, 400], [200, 400], ...] must be clear of itself: the"
         " stock crosses itself or a bend is too tight"),
        (f'{LEG}form = "chamfered"', "4: has no chamfer; add chamfer = 8"),
        (f"{CHAMFERED}chamfer = 15",
         "10: chamfer = 15 must be less than half of the narrower side (15 mm)"),
        (f"{CHAMFERED}chamfer = 6\nstops = 50",
         "11: stops = 50 must be two heights, where the chamfer begins and ends:"
         " stops = [100, 600]"),
        (f"{CHAMFERED}chamfer = 6\nstops = [300, 50]",
         "11: stops = [300, 50] must be rising, from 0 to the height (400 mm)"),
        (f"{CHAMFERED}chamfer = 6\nstops = [50, 80]\nstop_length = 20",
         "11: stops = [50, 80] must be further apart than both stops are long"),
        (f"{CHAMFERED}chamfer = 6\nstop_length = 20",
         "11: has stop_length but no stops; add the heights of both ends, stops = [100, 600]"),
        (f'{CHAMFERED}chamfer = 6\nstops = [50, 300]\nstop = "plain"',
         "4: has no stop_length; add stop_length = 25"),
        (f'{CHAMFERED}chamfer = 6\nstops = [50, 300]\nstop = "square"\nstop_length = 9',
         "13: has a stop_length, but a square stop has none; take it out"),
        (f'{CHAMFERED}chamfer = 6\nstops = [50, 300]\nstop_length = 5\nstop = "lamb\'s tongue"',
         "12: stop_length = 5 must be no less than the chamfer (6 mm)"),
        (f"{LEG}splay = 8", "9: splay = 8 must be written splay = { left = 8, front = 10 }"),
        (f"{LEG}splay = {{ }}",
         "9: splay has no direction; write it like splay = { left = 8, front = 10 }, in degrees"),
        (f"{LEG}splay = {{ top = 8 }}",
         '9: splay: "top" is not known here; use one of left, right, front, back'),
        (f"{LEG}splay = {{ left = 8, right = 8 }}",
         "9: splay = {...} must be towards left or right, not both"),
        (f"{LEG}splay = {{ left = 80 }}", "9: splay left must be from 0 to 60 degrees"),
        (f'{LEG}splay = {{ left = "8 in" }}', '9: splay: left = "8 in" must be a number'),
        (f'{LEG}form = "bun"\nneck = 20\nsplay = {{ left = 8 }}',
         "11: splay = {...} does not go with a bun leg; use it with square, tapered, round,"
         " turned, spindle"),
        (f'shape = "leg"\nform = "spindle"\nprofile = {PROFILE}\nsplay = {{ left = 8 }}',
         '8: profile = [[0, 24], [200, 40], [400, 30]] must be straight at both ends, which are'
         ' sawn level: end its first point and its last but one with "straight"'),
        ('shape = "leg"\nform = "turned"\nprofile = [[0, 24], [10, 40], [400, 30]]\n'
         "splay = { left = 40 }",
         "9: splay = {...} must be less, or the leg longer: the cuts at its two ends meet"),
        ('shape = "leg"\nform = "turned"\nprofile = [[0, 0], [400, 30]]\nsplay = { left = 8 }',
         "8: profile = [[0, 0], [400, 30]] must be wider than 0 at both ends, which are sawn"
         " level"),
    ],
)  # fmt: skip
def test_a_form_that_cannot_be_is_refused_in_words(table: str, message: str, read: Read) -> None:
    piece, problems = read(HEAD + table)
    assert piece is None
    assert [message] == [f"{problem.line}: {problem.message}" for problem in problems]


def test_splayed_legs_at_corners_all_go_outward(piece_of: PieceOf) -> None:
    seat = 'shape = "board"\nwidth = 400\ndepth = 300\nheight = 30\nat = [0, 0, 400]\n'
    leg = f'[[part]]\nname = "leg"\n{LEG}splay = {{ left = 8, front = 10 }}\n'
    legs = piece_of(f'{HEAD}{seat}{leg}corners = {{ of = "a", set_in = 20 }}').parts[1:]
    foot, top = ([_middle(part.solid, face) for part in legs] for face in ("bottom", "top"))
    out = [(f[0] - t[0], f[1] - t[1]) for f, t in zip(foot, top, strict=True)]
    assert [(x < 0, y < 0) for x, y in out] == [
        (True, True), (False, True), (True, False), (False, False),
    ]  # fmt: skip


def _middle(solid: Solid, face: str) -> tuple[float, ...]:
    numbers = [k for k, patch in enumerate(solid.patches) if patch.face == face]
    corners = solid.triangles[np.isin(solid.patch_of, numbers)].ravel()
    return tuple(solid.vertices[corners].mean(axis=0))
