"""Faces cut by a line, on shapes of every kind, against an independent CAD kernel.

Source: Open CASCADE Technology, https://dev.opencascade.org , through the package
cadquery-ocp-novtk 8. There the wood itself is sawn through at the line, and the faces of one half
are added up by name, without the sawn one.
"""

from collections import defaultdict

import pytest
from cad_kernel import FLAT, area_and_middle, box, common, faces_of, normal_of
from cad_moves import leaned, mirrored, turned_piece
from cad_smooth import smooth
from cad_twins import (
    around,
    glazed,
    oval_board,
    panelled,
    plain,
    raised,
    sawn,
    shaped,
    shaped_round,
    tapered_below_a_block,
    turned,
    worked_board,
)  # fmt: skip

from shapes import profiles
from shapes.part_cuts import cut_at, cut_by_box

APRON = [[0, 0], [60, 0, -35], [540, 0], [600, 0], [600, 90], [0, 90]]
SLAT = [[0, 0], [80, 0], [80, 300, 40], [0, 300]]
PIERCING = [[25, 100], [55, 100, 5], [55, 200, 15], [25, 200, 5]]
OGEE = profiles.ogee(18, 24)
CABRIOLE = [
    [0, 48, 48, 22, -22], [18, 50, 50, 22, -22], [45, 27, 27, 14, -14], [150, 30, 30, 3, -3],
    [290, 54, 54, 7, -7], [360, 60, 60, 0, 0], [420, 56, 56, 0, 0],
]  # fmt: skip
OVAL_LEG = [[0, 30, 18, 10, 0], [200, 34, 30], [400, 60, 20, 0, 15]]
BALUSTER = [
    [0, 30], [20, 30, 8], [50, 30, "straight"], [50, 44, 6], [80, 44, -3], [100, 40],
    [180, 62], [330, 26], [420, 40, "straight"], [420, 56, "straight"], [450, 56],
]  # fmt: skip
KINDS = {
    "board": lambda: plain(300, 40, 200),
    "apron": lambda: sawn(APRON, 20, "x"),
    "pierced": lambda: sawn(SLAT, 12, "y", holes=[PIERCING]),
    "oval top": lambda: oval_board(900, 600, 22),
    "mitred": lambda: around(500, 300, OGEE),
    "all round": lambda: around(500, 300, profiles.bead(14), True),
    "raised": lambda: raised(
        400, 22, 600, frame=60, recess=9, bevel=40, field=2, step=3, raised_back=True
    ),
    "glazed": lambda: glazed(450, 22, 900, 55, (2, 3), 18),
    "panelled": lambda: panelled(900, 40, 2000, 110, 12, (2, 2), 100),
    "worked": lambda: worked_board(600, 400, 24, profiles.bead(24), ("front", "left", "right")),
    "cabriole": lambda: shaped(CABRIOLE),
    "round cabriole": lambda: shaped_round(CABRIOLE),
    "oval leg": lambda: shaped_round(OVAL_LEG),
    "smooth": lambda: smooth(CABRIOLE),
    "tapered": lambda: tapered_below_a_block(700, 50, 40, 25, 120),
    "baluster": lambda: turned(BALUSTER),
    "bun": lambda: turned([[0, 50, 20], [60, 50]]),
    "leaned": lambda: leaned(shaped(CABRIOLE), 8, "left"),
    "mirrored": lambda: mirrored(shaped(CABRIOLE), "left-right"),
    "turned": lambda: turned_piece(plain(300, 40, 200), 30),
}  # fmt: skip
STRAIGHT = (
    "board", "raised", "glazed", "panelled", "cabriole", "tapered", "leaned", "mirrored", "turned",
)  # fmt: skip
ROUND = 2e-4
"""Of a whole face: triangles stand for what is curved. A bun foot is off by 1.5e-4, the edge of a
face beside an arc by 7e-7, all else measured here by less than 4e-5."""
SHARES = {"x": 0.37, "y": 0.52, "z": 0.23}
FAR = 20_000.0


def sawn_off(piece, low, high):
    """Return the area of each face of what is left in a box, without the sawn faces [mm2]."""
    found: defaultdict[str, float] = defaultdict(float)
    for face in faces_of(common(piece.shape, box(low, high))):
        area, middle = area_and_middle(face)
        normal, is_flat = normal_of(face)
        axis = max(range(3), key=lambda k: abs(normal[k]))
        is_sawn = (
            is_flat
            and abs(abs(normal[axis]) - 1) < 1e-9
            and min(abs(middle[axis] - low[axis]), abs(middle[axis] - high[axis])) < 1e-6
        )
        if not is_sawn:
            found[piece.name(middle, normal, is_flat)] += area
    return found


def check(kind, piece, cut, expected):
    whole = piece.solid.area_mm2_of
    total = 0.0
    for face, area in whole.items():
        actual = cut.area_mm2_of.get(f"{face} dip", 0.0)
        limit = (FLAT if kind in STRAIGHT else ROUND) * area
        assert expected.get(face, 0.0) == pytest.approx(actual, abs=limit), face
        assert area == pytest.approx(actual + cut.area_mm2_of.get(face, 0.0), rel=1e-12)
        total += actual
    assert total > 0


@pytest.mark.parametrize("axis", SHARES)
@pytest.mark.parametrize("kind", KINDS)
def test_a_line_splits_faces_as_the_sawn_solid_has_them(kind, axis):
    piece = KINDS[kind]()
    number = "xyz".index(axis)
    level = round(SHARES[axis] * piece.solid.size_mm[number], 2)
    high = [FAR, FAR, FAR]
    high[number] = level
    expected = sawn_off(piece, [-FAR, -FAR, -FAR], high)
    check(kind, piece, cut_at(piece.solid, axis, level, "dip"), expected)


@pytest.mark.parametrize("kind", ["panelled", "cabriole", "baluster", "pierced"])
def test_a_box_splits_faces_as_the_sawn_solid_has_them(kind):
    piece = KINDS[kind]()
    low = [round(0.2 * size, 2) for size in piece.solid.size_mm]
    high = [round(0.65 * size, 2) for size in piece.solid.size_mm]
    low[1] = -1.0
    expected = sawn_off(piece, low, high)
    check(kind, piece, cut_by_box(piece.solid, low, high, "dip"), expected)
