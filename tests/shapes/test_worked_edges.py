"""Worked edges: the wood that a profile takes away is gone, and hides nothing any more."""

import math

import pytest

from shapes.boards import board
from shapes.errors import ShapeError
from shapes.exposure import exposure
from shapes.outline_boards import outline_board
from shapes.outlines import circle, oval
from shapes.placement import place
from shapes.profiles import bead, chamfer, edge_of, quarter_round
from shapes.worked_edges import EDGES, profiled_board, worked_outline

ROUNDING = 1e-12
"""Sums of a few hundred float64 terms."""
CHAMFER = edge_of(chamfer(6, 8), 20)
"""12 square and a slope of 10, 6 in at the top."""
ELL = [[0, 0], [300, 0], [300, 100], [120, 100], [120, 200], [0, 200]]
ROUND_TOP = [[0, 0], [80, 0], [80, 300, 40], [0, 300]]
SHEET = [[0, 0], [400, 0], [400, 200], [0, 200]]


def seen(solid, *others):
    parts = [place("board", solid), *[place(f"p{k}", *other) for k, other in enumerate(others)]]
    return exposure(parts, gap=0).areas_mm2


def test_a_block_at_the_edge_covers_only_the_top_that_is_left():
    solid = profiled_board(600, 400, 20, profile=CHAMFER, edges=["front"])
    areas = seen(solid, (board(100, 50, 30), (200, 0, 20)))
    assert 600 * 394 - 100 * 44 == pytest.approx(areas["board", "top"], rel=ROUNDING)
    assert 100 * 6 == pytest.approx(areas["p0", "bottom"], rel=ROUNDING)
    assert solid.area_mm2_of["front"] == pytest.approx(areas["board", "front"], rel=ROUNDING)


def test_a_block_under_a_bullnose_shows_what_hangs_free_of_it():
    areas = seen(profiled_board(600, 400, 20, profile=bead(20)), (board(60, 40, 30), (200, 0, -30)))
    assert 60 * 10 == pytest.approx(areas["p0", "top"], rel=ROUNDING)


def test_a_rail_against_a_worked_edge_leaves_the_profile_to_see():
    """A rail as high as the board covers its square part and nothing above."""
    solid = profiled_board(600, 400, 20, profile=CHAMFER, edges=["front"])
    areas = seen(solid, (board(600, 30, 20), (0, -30, 0)))
    assert 600 * 10 == pytest.approx(areas["board", "front"], rel=ROUNDING)
    assert 600 * 8 == pytest.approx(areas["p0", "back"], rel=ROUNDING)


def test_a_rebate_is_square_and_keeps_whole_numbers():
    rebate = [[12, 0], [12, 8], [0, 8], [0, 20]]
    solid = profiled_board(600, 400, 20, profile=rebate, edges=["front", "left"])
    assert solid.is_square
    assert (solid.vertices == solid.vertices.round()).all()
    # upright below, the shoulder less half a mitre, upright above
    expected = 600 * 8 + (600 * 12 - 12 * 12 / 2) + 588 * 12
    assert expected == pytest.approx(solid.area_mm2_of["front"], rel=ROUNDING)


def test_an_inner_corner_is_mitred():
    """The slope runs 6 in: shorter by 6 for each outer corner, longer by 6 at the inner one."""
    areas = worked_outline(ELL, 20, profile=CHAMFER).area_mm2_of
    perimeter = 1000
    assert perimeter * 12 + 10 * (perimeter - 4 * 6) == pytest.approx(areas["edge"], rel=ROUNDING)
    top = 42_000 - 6 * perimeter + 6 * 6 * 4
    assert top == pytest.approx(areas["top"], rel=ROUNDING)


def test_a_profile_runs_out_on_a_square_edge_at_an_inner_corner():
    areas = worked_outline(ELL, 20, profile=CHAMFER, edges=[3]).area_mm2_of
    # the slope lies on the 180 mm ledge; the end at the front right loses its section of 24, and
    # the wall above the ledge shows as much more
    assert 1000 * 20 - 180 * 8 + 180 * 10 == pytest.approx(areas["edge"], rel=ROUNDING)
    assert 42_000 - 180 * 6 == pytest.approx(areas["top"], rel=ROUNDING)


def test_an_oval_top_by_the_parallels_of_a_convex_line():
    """Source: J. Steiner: L - 2 pi d, A - L d + pi d2."""
    shape = oval(500, 300)
    around, area = shape.length_mm, math.pi * 250 * 150
    areas = worked_outline(shape, 20, profile=CHAMFER).area_mm2_of
    assert 12 * around + 10 * (around - 6 * math.pi) == pytest.approx(areas["edge"], rel=ROUNDING)
    assert area - 6 * around + 36 * math.pi == pytest.approx(areas["top"], rel=ROUNDING)
    assert area == pytest.approx(areas["bottom"], rel=ROUNDING)


def test_a_cut_that_ends_where_the_edge_runs_on_has_a_small_face_there():
    areas = worked_outline(ROUND_TOP, 20, profile=CHAMFER, edges=[3]).area_mm2_of
    square = outline_board(ROUND_TOP, 20).area_mm2_of
    slope = 10 * math.pi * (40 - 3) - 8 * math.pi * 40
    assert square["edge"] + slope + 2 * 24 == pytest.approx(areas["edge"], rel=ROUNDING)
    lost = math.pi * (40 * 40 - 34 * 34) / 2
    assert square["top"] - lost == pytest.approx(areas["top"], rel=ROUNDING)


def test_curved_edges_that_stay_square_keep_their_area():
    """The two straight sides of a board with round ends are worked, and stop at its ends."""
    ended = [[0, 0], [300, 0, 60], [300, 120], [0, 120, 60]]
    areas = worked_outline(ended, 20, profile=CHAMFER, edges=[1, 3]).area_mm2_of
    expected = 2 * 300 * 22 + 120 * math.pi * 20 + 4 * 24
    assert expected == pytest.approx(areas["edge"], rel=ROUNDING)


def test_the_top_looks_where_the_board_shows_its_outline():
    for along, outer, inner in (
        ("z", "top", "bottom"),
        ("y", "front", "back"),
        ("x", "right", "left"),
    ):
        areas = worked_outline(SHEET, 20, profile=CHAMFER, along=along).area_mm2_of
        assert 388 * 188 == pytest.approx(areas[outer], rel=ROUNDING)
        assert 400 * 200 == pytest.approx(areas[inner], rel=ROUNDING)


def test_a_hole_stays_square():
    hole = circle(40, centre=(100, 100))
    areas = worked_outline(SHEET, 20, profile=CHAMFER, holes=[hole]).area_mm2_of
    assert 40 * math.pi * 20 == pytest.approx(areas["hole"], rel=ROUNDING)
    assert 388 * 188 - 400 * math.pi == pytest.approx(areas["top"], rel=ROUNDING)


def test_named_edges_keep_their_names_and_all_square_is_a_plain_board():
    solid = worked_outline(SHEET, 20, profile=CHAMFER, edges=[1], named={"bow": [1]})
    assert solid.faces == ("top", "bottom", "bow", "edge")
    assert 400 * 22 == pytest.approx(solid.area_mm2_of["bow"], rel=ROUNDING)
    plain = worked_outline(SHEET, 20, profile=CHAMFER, edges=[])
    assert outline_board(SHEET, 20).area_mm2_of == plain.area_mm2_of


def test_a_rectangle_is_worked_alike_as_a_board_and_as_an_outline():
    one = profiled_board(400, 200, 20, profile=CHAMFER, edges=EDGES).area_mm2_of
    other = worked_outline(SHEET, 20, profile=CHAMFER).area_mm2_of
    assert sum(one[edge] for edge in EDGES) == pytest.approx(other["edge"], rel=ROUNDING)
    assert one["top"] == pytest.approx(other["top"], rel=ROUNDING)


def test_a_narrow_board_may_be_worked_along_its_ends():
    solid = profiled_board(400, 10, 20, profile=CHAMFER, edges=["left"])
    assert 10 * 22 == pytest.approx(solid.area_mm2_of["left"], rel=ROUNDING)


STRIP = [[0, 0], [9, 0], [9, 90], [0, 90]]
NARROW = [[0, 0], [300, 0], [300, 100], [200, 60], [100, 100], [0, 100]]


@pytest.mark.parametrize(
    ("call", "argument"),
    [
        (lambda: worked_outline(SHEET, 20, profile=bead(19)), "profile"),
        (lambda: worked_outline(SHEET, 20, profile=[[-1, 0], [-2, 20]]), "profile"),
        (lambda: worked_outline(SHEET, 20, profile=[[], [0, 20]]), "profile"),
        (lambda: worked_outline(SHEET, 20, profile=[]), "profile"),
        (lambda: worked_outline(SHEET, 20, profile=CHAMFER, edges=[5]), "edges"),
        (lambda: worked_outline(SHEET, 20, profile=CHAMFER, along="up"), "along"),
        # a side of 10 between two mitres of 6
        (
            lambda: worked_outline([[0, 0], [9, 0], [9, 90], [0, 90]], 20, profile=CHAMFER),
            "profile",
        ),
        # radius 5 inside a slope of 6
        (lambda: worked_outline(circle(10), 20, profile=CHAMFER), "profile"),
        (lambda: worked_outline([[0, 0, 5], [10, 0, 5]], 20, profile=CHAMFER), "profile"),
        # an oval whose tightest radius is 4
        (lambda: worked_outline(oval(200, 40), 20, profile=CHAMFER), "profile"),
        # 60 of wood between the notch and the front, 35 off both
        (lambda: worked_outline(NARROW, 20, profile=edge_of(chamfer(35, 9), 20)), "profile"),
        (lambda: worked_outline([[0, 0], [400, 0, 200]], 20, profile=CHAMFER, edges=[1]), "edges"),
        (
            lambda: worked_outline(
                SHEET, 20, profile=CHAMFER, holes=[circle(30, centre=(20, 100))]
            ),
            "holes",
        ),
        (lambda: profiled_board(90, 400, 20, profile=edge_of(quarter_round(20), 19)), "profile"),
    ],
)
def test_what_is_wrong_is_named(call, argument):
    with pytest.raises(ShapeError) as caught:
        call()
    assert argument == caught.value.argument
