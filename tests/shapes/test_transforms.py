"""Transforms: rigid motion changes no area, quarters are exact, and names stay with the wood."""

import math

import numpy as np
import pytest

from shapes.boards import board
from shapes.cases import case
from shapes.errors import ShapeError
from shapes.exposure import exposure
from shapes.legs import round_leg
from shapes.lofts import shaped_leg
from shapes.outline_boards import outline_board
from shapes.placement import place
from shapes.transforms import lean, mirror, turn

SABRE = shaped_leg([[0, 24, 30, 0, -70], [140, 28, 33, 3, -30], [430, 36, 42, 0, 0]])
BOARD = board(600, 20, 100)
SOLIDS = {
    "board": BOARD,
    "case": case(300, 200, 250, board=18, open_sides=["front"]),
    "leg": SABRE,
    "round": round_leg(200, 60),
    "arched": outline_board([[0, 0], [60, 0, -35], [540, 0], [600, 0], [600, 90], [0, 90]], 20),
}
MOTIONS = {
    "turn 90": lambda s: turn(s, 90),
    "turn 33": lambda s: turn(s, 33),
    "lean left": lambda s: lean(s, 8, towards="left"),
    "lean back": lambda s: lean(s, 12, towards="back"),
    "laid down": lambda s: lean(s, 90, towards="front"),
    "mirror": mirror,
    "mirror front-back": lambda s: mirror(s, "front-back"),
}
NEAR = 1e-12
"""Rounding of sines and of unit vectors."""


def volume(solid):
    a, b, c = (solid.vertices[solid.triangles[:, k]] for k in range(3))
    return float((a * np.cross(b, c)).sum() / 6)


@pytest.mark.parametrize("motion", MOTIONS)
@pytest.mark.parametrize("name", SOLIDS)
def test_areas_volume_and_outwardness_stay(name, motion):
    before, after = SOLIDS[name], MOTIONS[motion](SOLIDS[name])
    assert [p.area_mm2 for p in before.patches] == [p.area_mm2 for p in after.patches]
    assert volume(before) == pytest.approx(volume(after), rel=1e-9)  # sums of large products
    assert volume(after) > 0


@pytest.mark.parametrize("motion", MOTIONS)
@pytest.mark.parametrize("name", SOLIDS)
def test_normals_are_unit_and_those_of_the_triangles(name, motion):
    solid = MOTIONS[motion](SOLIDS[name])
    a, b, c = (solid.vertices[solid.triangles[:, k]] for k in range(3))
    crossed = np.cross(b - a, c - a)
    crossed /= np.linalg.norm(crossed, axis=1, keepdims=True)
    for number, patch in enumerate(solid.patches):
        if patch.normal is not None:
            assert math.hypot(*patch.normal) == pytest.approx(1, rel=NEAR)
            assert (crossed[solid.patch_of == number] @ np.array(patch.normal) > 1 - 1e-9).all()


@pytest.mark.parametrize("motion", MOTIONS)
@pytest.mark.parametrize("name", ["board", "case", "leg", "arched"])
def test_the_box_is_back_at_the_origin(name, motion):
    solid = MOTIONS[motion](SOLIDS[name])
    # a grid unit: sizes are rounded to the grid
    assert np.abs(solid.vertices.min(axis=0)).max() < 1
    assert np.abs(solid.vertices.max(axis=0) - solid.size).max() <= 1


@pytest.mark.parametrize("degrees", [90, 180, 270, -90, 450])
@pytest.mark.parametrize("name", ["board", "case"])
def test_quarter_turns_keep_whole_numbers(name, degrees):
    for solid in (
        turn(SOLIDS[name], degrees),
        *[lean(SOLIDS[name], degrees, towards=t) for t in ("left", "right", "front", "back")],
    ):
        assert (solid.vertices == solid.vertices.round()).all()
        assert {abs(n) for p in solid.patches for n in p.normal} == {0.0, 1.0}


@pytest.mark.parametrize("name", SOLIDS)
def test_four_quarters_and_two_mirrors_change_nothing(name):
    solid = SOLIDS[name]
    around = solid
    for _ in range(4):
        around = turn(around, 90)
    twice = mirror(mirror(solid))
    for back in (around, twice):
        assert solid.vertices == pytest.approx(back.vertices, abs=1e-6)  # grid units, of 1e8
        assert solid.size == back.size
        assert [p.normal for p in solid.patches] == [p.normal for p in back.patches]
    assert [p.face for p in solid.patches] == [p.face for p in twice.patches]


def normal_of(solid, face):
    return next(patch.normal for patch in solid.patches if patch.face == face)


def test_names_stay_with_the_wood():
    assert normal_of(turn(BOARD, 90), "front") == (1.0, 0.0, 0.0)
    assert normal_of(turn(BOARD, 180), "left") == (1.0, 0.0, 0.0)
    assert normal_of(lean(BOARD, 90, towards="back"), "top") == (0.0, 1.0, 0.0)
    assert normal_of(lean(BOARD, 90, towards="left"), "top") == (-1.0, 0.0, 0.0)


def test_a_turn_goes_counter_clockwise_seen_from_above():
    assert normal_of(turn(BOARD, 30), "right") == pytest.approx(
        (math.cos(math.pi / 6), 0.5, 0.0), rel=NEAR
    )


@pytest.mark.parametrize(
    ("towards", "expected"),
    [("left", (-1, 0)), ("right", (1, 0)), ("front", (0, -1)), ("back", (0, 1))],
)
def test_the_top_leans_to_the_side_named(towards, expected):
    normal = normal_of(lean(BOARD, 30, towards=towards), "top")
    assert normal[:2] == pytest.approx([0.5 * e for e in expected], abs=NEAR)
    assert normal[2] == pytest.approx(math.cos(math.pi / 6), rel=NEAR)


def test_the_box_of_a_turned_board_by_hand():
    cos, sin = math.cos(math.radians(30)), math.sin(math.radians(30))
    width, depth, height = turn(BOARD, 30).size_mm
    # 1e-5 mm: sizes are rounded to 1/80 000 mm
    assert width == pytest.approx(600 * cos + 20 * sin, abs=1e-5)
    assert depth == pytest.approx(600 * sin + 20 * cos, abs=1e-5)
    assert height == 100.0


def test_a_mirror_swaps_the_names_of_its_two_sides_only():
    swapped = mirror(SABRE).area_mm2_of
    assert swapped["left"] == SABRE.area_mm2_of["right"]
    assert swapped["front"] == SABRE.area_mm2_of["front"]
    behind = mirror(SABRE, "front-back").area_mm2_of
    assert behind["front"] == SABRE.area_mm2_of["back"]
    assert behind["left"] == SABRE.area_mm2_of["left"]
    assert normal_of(mirror(BOARD), "left") == (-1.0, 0.0, 0.0)


def test_a_piece_turned_as_a_whole_shows_the_same():
    """Two boards in an L, and the same L turned by a quarter: every face is hidden alike."""
    other = board(20, 300, 100)
    flat = exposure([place("a", BOARD), place("b", other, (0, 20, 0))]).areas_mm2
    parts = [place("a", turn(BOARD, 90), (300, 0, 0)), place("b", turn(other, 90), (0, 0, 0))]
    assert flat == exposure(parts).areas_mm2


def test_turned_faces_that_look_at_each_other_count_as_touching():
    """Both boards are turned by 30 degrees, half a millimetre of air between front and back."""
    cos, sin = math.cos(math.radians(30)), math.sin(math.radians(30))
    near = place("near", turn(BOARD, 30))
    far = place("far", turn(BOARD, 30), (-20.5 * sin, 20.5 * cos, 0))
    seen = exposure([near, far], gap=1)
    assert [(m.face, m.other) for m in seen.closed] == [(("near", "back"), ("far", "front"))]
    assert seen.closed[0].distance_mm == pytest.approx(0.5, abs=2e-5)  # places are on the grid
    # they are shifted square to their faces: all of both is hidden, but for the grid
    assert seen.closed[0].area_mm2 == pytest.approx(60_000, rel=1e-6)


@pytest.mark.parametrize(
    ("call", "argument"),
    [
        (lambda: turn(BOARD, math.inf), "degrees"),
        (lambda: lean(BOARD, math.nan, towards="left"), "degrees"),
        (lambda: lean(BOARD, 5, towards="up"), "towards"),
        (lambda: mirror(BOARD, "top-bottom"), "across"),
    ],
)
def test_what_is_wrong_is_named(call, argument):
    with pytest.raises(ShapeError) as caught:
        call()
    assert argument == caught.value.argument
