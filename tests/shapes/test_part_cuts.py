"""Faces told apart by a line: closed forms, and what must hold for every shape that there is."""

import math
from collections import Counter, defaultdict
from typing import Any

import numpy as np
import pytest

import shapes
from shapes import ShapeError
from shapes.cases import Bays, case
from shapes.exposure import exposure
from shapes.part_cuts import cut_at, cut_by_box
from shapes.placement import place
from shapes.plane_splits import split_at
from shapes.solids import area_mm2

OUTLINE = [[0, 0], [80, 0], [80, 300, 40], [0, 300]]
HOLES = [shapes.circle(40, centre=(40, 150))]
SECTIONS = [[0, 30, 30, -40, 0], [400, 30, 40, 0, 0]]
EVERY_SHAPE = {
    "board": lambda: shapes.board(500, 40, 300),
    "case": lambda: case(600, 400, 700, board=20, open_sides=["front"], bays=Bays(2, 2)),
    "drawer": lambda: shapes.drawer(400, 450, 150, front=20, board=12),
    "panel": lambda: shapes.panel(400, 22, 600, frame=60, recess=6),
    "square leg": lambda: shapes.square_leg(700, 45),
    "tapered leg": lambda: shapes.tapered_leg(700, 45, 45, foot=25),
    "round leg": lambda: shapes.round_leg(700, 45),
    "turned leg": lambda: shapes.turned_leg([[0, 30], [200, 50], [500, 34], [700, 50]]),
    "shaped leg": lambda: shapes.shaped_leg(SECTIONS),
    "shaped round leg": lambda: shapes.shaped_round_leg(SECTIONS),
    "spindle": lambda: shapes.spindle([[0, 30], [20, 30, 8], [50, 44], [420, 40]]),
    "octagonal leg": lambda: shapes.octagonal_leg(700, 60, foot=40),
    "chamfered leg": lambda: shapes.chamfered_leg(700, 60, 50, chamfer=8, stops=[100, 600]),
    "splayed leg": lambda: shapes.splayed_leg(700, 40, splay={"left": 8, "front": 11}),
    "splayed round leg": lambda: shapes.splayed_round_leg(700, 40, splay={"left": 8}),
    "outline": lambda: shapes.outline_board(
        OUTLINE, 12, holes=[shapes.circle(40, centre=(40, 150))]
    ),
    "moulding": lambda: shapes.moulding(300, shapes.ogee(18, 24)),
    "mitred moulding": lambda: shapes.mitred_moulding(300, 200, shapes.ogee(18, 24)),
    "raised panel": lambda: shapes.raised_panel(400, 22, 600, frame=60, recess=9, bevel=40),
    "panelled door": lambda: shapes.panelled_door(900, 40, 2000, frame=110, recess=12),
    "arched panel": lambda: shapes.arched_panel(500, 22, 700, frame=60, arch=190, recess=6),
    "dished seat": lambda: shapes.dished(shapes.board(420, 380, 45), [300, 260], 15),
    "rod": lambda: shapes.rod([[400, 0], [400, 250, "smooth"], [0, 250]], 20),
    "leaning leg": lambda: shapes.lean(shapes.square_leg(700, 45), 8, towards="back"),
}


def pieces_of(solid):
    """Return the area of each face before any cut, its pieces added up [mm2]."""
    found: defaultdict[Any, float] = defaultdict(float)
    for face, area in solid.area_mm2_of.items():
        found[solid.names_of(face)[0]] += area
    return found


@pytest.mark.parametrize("axis", "xyz")
@pytest.mark.parametrize("kind", EVERY_SHAPE)
def test_a_cut_moves_no_area_from_one_face_to_another_and_keeps_the_solid_closed(kind, axis):
    solid = EVERY_SHAPE[kind]()
    cut = cut_at(solid, axis, 0.31 * solid.size_mm["xyz".index(axis)], "dip", "rest")
    assert solid.area_mm2_of == pytest.approx(pieces_of(cut), rel=1e-12)
    assert all(face.endswith((" dip", " rest")) for face in cut.faces)
    edges: Counter[tuple[int, int]] = Counter()
    for triangle in cut.triangles.tolist():
        edges.update(zip(triangle, [*triangle[1:], triangle[0]], strict=True))
    assert all(count == edges[end, start] for (start, end), count in edges.items())
    level = 0.31 * solid.size[("xyz").index(axis)]
    for number, patch in enumerate(cut.patches):
        across = cut.vertices[cut.triangles[cut.patch_of == number]][..., "xyz".index(axis)]
        on_its_side = across <= level + 1 if patch.face.endswith("dip") else across >= level - 1
        assert on_its_side.all()


@pytest.mark.parametrize("kind", EVERY_SHAPE)
def test_what_a_joined_part_hides_is_hidden_of_its_pieces_too(kind):
    solid = EVERY_SHAPE[kind]()
    width, depth, height = solid.size_mm
    block = place("block", shapes.board(width, depth, 0.2 * height), (3, 2, 0.2 * height))
    cut = cut_at(solid, "z", 0.31 * height, "dip")
    whole = exposure([place("part", solid), block]).areas_mm2
    split = exposure([place("part", cut), block]).areas_mm2
    found: defaultdict[Any, float] = defaultdict(float)
    for (part, face), area in split.items():
        found[part, cut.names_of(face)[0] if part == "part" else face] += area
    assert set(whole) == set(found)
    for key, area in whole.items():
        # 1e-6 of the part: where the block cuts a curved face, other triangles are cut
        assert area == pytest.approx(found[key], abs=1e-6 * area_mm2(solid)), key


def test_a_dipped_square_leg() -> None:
    leg = cut_at(shapes.square_leg(700, 45), "z", 120, "dip")
    areas = leg.area_mm2_of
    assert [45 * 120] * 4 == [areas[f"{side} dip"] for side in ("front", "back", "left", "right")]
    assert [45 * 580] * 4 == [areas[side] for side in ("front", "back", "left", "right")]
    assert (45 * 45, 45 * 45) == (areas["bottom dip"], areas["top"])
    assert "bottom" not in areas


def test_a_dipped_tapered_round_leg() -> None:
    """Lateral area of a frustum: pi (r + R) times its slant; elementary."""
    leg = cut_at(shapes.turned_leg([[0, 25], [600, 45]]), "z", 150, "dip")
    low, cut, high = 12.5, 15.0, 22.5

    def frustum(r: float, other: float, height: float) -> float:
        return math.pi * (r + other) * math.hypot(height, other - r)

    areas = leg.area_mm2_of
    assert frustum(low, cut, 150) == pytest.approx(areas["side dip"], rel=1e-9)
    assert frustum(cut, high, 450) == pytest.approx(areas["side"], rel=1e-9)


def test_a_cylinder_split_lengthways_has_half_of_its_side_on_each_side() -> None:
    leg = cut_at(shapes.round_leg(600, 40), "x", 20, "left half", "right half")
    areas = leg.area_mm2_of
    half = math.pi * 40 * 600 / 2
    assert [half, half] == pytest.approx([areas["side left half"], areas["side right half"]])


def test_relief_counts_in_both_pieces() -> None:
    from shapes.relief import relief

    board = cut_at(relief(shapes.board(300, 20, 400), ["front"], 1.5), "z", 100, "dip")
    assert 1.5 * 300 * 100 == pytest.approx(board.area_mm2_of["front dip"])
    assert 1.5 * 300 * 300 == pytest.approx(board.area_mm2_of["front"])


def test_a_box_takes_a_corner() -> None:
    board = cut_by_box(shapes.board(300, 20, 400), (200, -1, 300), (301, 21, 401), "ear")
    areas = board.area_mm2_of
    assert (100 * 100, 100 * 20, 100 * 20) == (
        areas["front ear"], areas["top ear"], areas["right ear"]
    )  # fmt: skip
    assert 300 * 400 - 100 * 100 == pytest.approx(areas["front"])
    assert "left ear" not in areas


def test_two_cuts_with_one_word_are_one_piece_of_each_face() -> None:
    board = shapes.board(300, 20, 400)
    bands = cut_at(cut_at(board, "z", 50, below="dark"), "z", 380, above="dark")
    assert 300 * 70 == pytest.approx(bands.area_mm2_of["front dark"])
    assert 300 * 330 == pytest.approx(bands.area_mm2_of["front"])
    nested = cut_at(cut_at(board, "z", 200, below="low"), "x", 100, below="near")
    assert ("front", "low", "near") == nested.names_of("front low near")
    assert 100 * 200 == pytest.approx(nested.area_mm2_of["front low near"])


def test_a_piece_in_two_cuts_of_one_word_has_it_once() -> None:
    twice = cut_at(cut_at(shapes.board(300, 20, 400), "z", 200, "dark"), "x", 100, "dark")
    fronts = [face for face in twice.faces if face.startswith("front")]
    assert {"front", "front dark"} == set(fronts)
    assert 300 * 200 + 100 * 200 == pytest.approx(twice.area_mm2_of["front dark"])


def test_a_cut_turned_leg_is_no_stack_of_rings_any_more() -> None:
    leg = shapes.turned_leg([[0, 30], [200, 50], [700, 50]])
    assert leg.rings
    assert not cut_at(leg, "z", 100, "dip").rings


def test_a_corner_in_the_plane_but_for_rounding_makes_no_sliver() -> None:
    corners = np.array([[0, 0, -10], [8, 0, 1e-4], [0, 8, 1e-4], [0, 0, 10]], dtype=np.float64)
    triangles = np.array([[0, 1, 2], [1, 3, 2]])
    vertices, pieces, _ = split_at(corners, triangles, 2, 0.0, near=1e-3)
    assert 4 == len(vertices)
    assert triangles.tolist() == pieces.tolist()


def test_corners_of_square_parts_stay_whole() -> None:
    cut = cut_at(shapes.board(301, 23, 407), "z", 100, "dip")
    assert (cut.vertices == np.round(cut.vertices)).all()
    assert cut.is_square


def test_a_moved_cut_solid_keeps_its_pieces() -> None:
    leg = cut_at(shapes.square_leg(700, 45), "z", 120, "dip")
    leaning = shapes.turn(shapes.lean(leg, 10, towards="left"), 30)
    assert leg.area_mm2_of == leaning.area_mm2_of
    assert leg.called == leaning.called


@pytest.mark.parametrize(
    ("cut", "rule"),
    [
        (lambda s: cut_at(s, "z", 0, "dip"), "within the part"),
        (lambda s: cut_at(s, "z", 400, "dip"), "within the part"),
        (lambda s: cut_at(s, "q", 100, "dip"), "x, y or z"),
        (lambda s: cut_at(s, "z", 100), "a name for one side"),
        (lambda s: cut_at(s, "z", 100, "dip", "dip"), "a name for one side"),
        (lambda s: cut_at(s, "z", 100, "front"), "front is a face"),
        (lambda s: cut_at(s, "z", 100, "a.b"), "without . and *"),
        (lambda s: cut_at(s, "z", 100, " dip"), "without spaces around it"),
        (lambda s: cut_by_box(s, (0, 0, 0), (0, 10, 10), "ear"), "lower corner to a higher one"),
        (lambda s: cut_by_box(s, (0, 0), (1, 1, 1), "ear"), "three lengths each"),
        (lambda s: cut_by_box(s, (500, 0, 0), (600, 9, 9), "ear"), "all of it is on one side"),
    ],
)
def test_a_cut_that_cannot_be_is_refused(cut, rule) -> None:
    with pytest.raises(ShapeError, match="must be") as error:
        cut(shapes.board(300, 20, 400))
    assert rule in str(error.value)
