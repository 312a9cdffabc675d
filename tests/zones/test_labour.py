"""How much work a surface is, worked out by hand from the published measuring rules.

Girth under 6 in counts as 6 in, 6 to 12 in as 12 in (G. Terry, Pigments, Paint and Painting);
panelled work 1.30 times its area, carved work twice (IS 1200, Part 15); edges of panelled doors
twice (Radford's Cyclopedia of Construction, vol. 10). By hand: round, moulded, carved, under 40
mm, 25 mm beside inside corners, which is assumed.
"""

import math
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from piece_texts import measured, piece_text

from shapes.outline_boards import outline_board
from shapes.solids import Patch, Solid
from surfacecalc import api
from surfacecalc.work.sittings import sittings
from surfacecalc.zones.labour import (
    GIRTHS_MM,
    PLAIN,
    Surroundings,
    counted_girth,
    is_panelled,
    labour_of_part,
    relief_ratio,
)

IN_M = 0.0254
ROUNDED = 1e-9
"""Sums of a few float64 products."""
SPINDLE = {
    "name": "spindle", "shape": "leg", "form": "turned", "height": 400,
    "profile": [[0, 25], [400, 25]], "loose": True,
}  # fmt: skip


DOOR = {
    "name": "door", "shape": "door", "width": 500, "height": 700, "depth": 20,
    "frame": 70, "recess": 6,
}  # fmt: skip


def zone_of(part, **zone):
    return measured(piece_text({"do": "dust off"}, part=[part], zone=zone)).measured.zones[0]


def board(width, depth, height, **keys):
    return {
        "name": "board", "shape": "board", "width": width, "depth": depth, "height": height, **keys
    }  # fmt: skip


def test_a_broad_board_is_the_work_that_it_is():
    zone = zone_of(board(500, 400, 20))
    assert zone.labour_m2 == pytest.approx(zone.area_m2, rel=ROUNDED)


@pytest.mark.parametrize(
    ("side_mm", "counted_in"),
    [(20, 6), (37, 6), (39, 12), (60, 12), (76, 12), (77, None)],
)
def test_a_slender_part_counts_by_its_girth(side_mm, counted_in):
    """Four sides of a square stick; its ends are not in the zone."""
    faces = [f"board.{face}" for face in ("front", "back", "top", "bottom")]
    zone = zone_of(board(700, side_mm, side_mm), faces=faces)
    area_m2 = 4 * side_mm * 700e-6
    assert zone.area_m2 == pytest.approx(area_m2, rel=ROUNDED)
    by_rule_m2 = area_m2 if counted_in is None else counted_in * IN_M * 0.7
    assert zone.labour_m2 == pytest.approx(by_rule_m2, rel=ROUNDED)


def test_a_turned_spindle_counts_as_six_inches_and_goes_by_hand():
    zone = zone_of(SPINDLE, faces=["spindle.side"])
    assert zone.area_m2 == pytest.approx(math.pi * 0.025 * 0.4, rel=1e-4)
    assert zone.labour_m2 == pytest.approx(6 * IN_M * 0.4, rel=ROUNDED)
    assert zone.by_hand_m2 == pytest.approx(zone.labour_m2, rel=ROUNDED)


@pytest.mark.parametrize(
    ("height_mm", "share"), [(39, 1.0), (39.5, 1.0), (40, 0.0), (40.5, 0.0), (41, 0.0)]
)
def test_narrow_faces_go_by_hand(height_mm, share):
    zone = zone_of(board(500, 400, height_mm), faces=["board.front"])
    assert zone.by_hand_m2 == pytest.approx(share * zone.labour_m2, rel=ROUNDED)


@pytest.mark.parametrize(
    ("keys", "counts"),
    [
        ({"frame": 70, "recess": 6}, 1.3),
        ({"form": "raised", "frame": 70, "recess": 8, "bevel": 40}, 1.3),
    ],
)
def test_a_framed_door_counts_as_panelled_work(keys, counts):
    door = {"name": "door", "shape": "door", "width": 500, "height": 700, "depth": 20, **keys}
    zone = zone_of(door, faces=["door.front", "door.back", "door.edge"])
    by_face = {face.face: face.labour.counts for face in zone.faces}
    assert by_face == {"front": counts, "back": counts, "edge": 2}


def test_a_framed_door_that_is_cut_stays_panelled_work():
    cuts = [{"height": 300, "below": "low", "above": "high"}]
    zone = zone_of(DOOR | {"cuts": cuts}, faces=["door.front", "door.back", "door.edge"])
    by_face = {face.face: face.labour.counts for face in zone.faces}
    expected = {"front": 1.3, "back": 1.3, "edge": 2}
    words = ("low", "high")
    assert by_face == {f"{face} {word}": expected[face] for face in expected for word in words}


def test_the_edge_of_a_door_alone_counts_by_its_girth_where_that_is_more():
    """The edge is 20 x 2 x (500 + 700) mm2 along 700 mm: 68.6 mm around, and 6 in is 2.2 times."""
    zone = zone_of(DOOR, faces=["door.edge"])
    assert zone.area_m2 == pytest.approx(0.02 * 2 * (0.5 + 0.7), rel=ROUNDED)
    assert zone.labour_m2 == pytest.approx(6 * IN_M * 0.7, rel=ROUNDED)


def test_effort_takes_the_place_of_the_rule_on_its_face_alone():
    faces = [{"faces": ["board.front"], "times": 3}]
    zone = zone_of(board(700, 60, 60), effort=faces)
    by_face = {face.face: face.labour.counts for face in zone.faces}
    assert by_face["front"] == 3
    assert by_face["back"] > 1
    assert by_face["back"] != 3


@pytest.mark.parametrize("times", [0.05, 25])
def test_effort_out_of_range_is_told(times):
    text = piece_text(
        {"do": "dust off"}, zone={"effort": [{"faces": ["board.top"], "times": times}]}
    )
    (told,) = api.read_piece_text(text).problems
    assert "effort" not in told.message or "0.1 to 20" in told.message
    assert "must be from 0.1 to 20" in told.message


SANDED = {"do": "sand", "grits": [120], "with": "disc", "by": "machine"}
DISC = {"name": "disc", "form": "125 mm disc"}


def hours_of(part, *steps, **zone):
    job = measured(piece_text(*steps, part=[part], zone=zone, abrasive=DISC))
    return sum(entry.task.work_h for entry in api.plan(job).entries)


def test_the_machine_does_what_it_reaches_and_the_hand_the_rest():
    """4 m2/h by machine and 2 by hand, both assumed: catalogue/rates.toml."""
    faces = ["board.top", "board.front"]
    hours = hours_of(board(500, 400, 20), SANDED, faces=faces)
    assert hours == pytest.approx(0.5 * 0.4 / 4 + 0.5 * 0.02 / 2, rel=ROUNDED)


def test_a_rate_of_your_own_holds_for_all_of_it():
    sanded = {**SANDED, "rate": "3 m2/h"}
    hours = hours_of(board(500, 400, 20), sanded, faces=["board.top", "board.front"])
    assert hours == pytest.approx((0.5 * 0.4 + 0.5 * 0.02) / 3, rel=ROUNDED)


def test_a_time_of_your_own_holds_whatever_the_shape():
    assert hours_of(SPINDLE, {**SANDED, "time": "30 min"}) == pytest.approx(0.5, rel=ROUNDED)


CHAIR = Path(__file__).parents[2] / "examples" / "spindle-chair.toml"


@pytest.mark.parametrize("word", ["sand", "coat"])
def test_a_spindle_chair_is_more_work_than_a_board_of_its_area(word):
    """1.35 times at least; a chair of 20 thin parts came to 1.39 by the rule of 6 in alone."""
    chair = api.measure(api.read_piece(CHAIR))
    (zone,) = (one for one in chair.measured.zones if one.zone.name == "chair")
    flat = board(1000, zone.area_m2 * 1e6 / 1000, 40)
    steps: dict[str, dict[str, Any]] = {
        "sand": SANDED,
        "coat": {"do": "coat", "product": "paint", "coats": 1, "by": "brush"},
    }
    paint = {"name": "paint", "kind": "waterborne paint"}
    text = piece_text(
        steps[word], part=[flat], zone={"faces": ["board.top"]}, abrasive=DISC, product=paint
    )
    on_board = sum(entry.task.work_h for entry in api.plan(measured(text)).entries)
    on_chair = sum(
        sitting.work_h
        for step in measured(text).piece.zones[0].steps
        for sitting in sittings(measured(text).piece, zone, step, 1.0)
    )
    assert on_chair >= 1.35 * on_board
    assert on_board == pytest.approx(zone.area_m2 / {"sand": 4, "coat": 5}[word], rel=1e-6)


def part_of(**keys):
    """Return the one part of a piece, a board of a length that floats hold exactly."""
    found = measured(piece_text({"do": "dust off"}, part=[board(512, 16, 16, **keys)]))
    (part,) = found.piece.parts
    return part


def test_a_girth_of_just_six_inches_counts_as_twelve():
    """Under 6 in counts as 6, and 6 to 12 in as 12; 12 in and more count as they are."""
    length_mm = 512.0
    assert counted_girth(GIRTHS_MM[0] * 512, length_mm) == pytest.approx(2.0, rel=ROUNDED)
    assert counted_girth(GIRTHS_MM[0] * 511, length_mm) == pytest.approx(512 / 511, rel=ROUNDED)
    assert counted_girth(GIRTHS_MM[1] * 512, length_mm) == pytest.approx(1.0, rel=ROUNDED)


def test_a_sliver_less_than_a_millimetre_around_counts_as_six_inches():
    """A strip of 256 mm2 along 512 mm is 0.5 mm around: 152.4 / 0.5 times."""
    assert counted_girth(256.0, 512.0) == pytest.approx(6 * 25.4 / 0.5, rel=ROUNDED)


@pytest.mark.parametrize(
    ("cut_mm", "word", "length_mm"), [(200, "foot", 200), (200, "rest", 500), (10, "foot", 10)]
)
def test_of_a_cut_stick_only_the_length_that_is_worked_on_counts(cut_mm, word, length_mm):
    """The four sides of a stick 20 mm square and 700 mm long, 6 in around, also of a short foot."""
    stick = board(20, 20, 700, cuts=[{"height": cut_mm, "below": "foot", "above": "rest"}])
    sides = [f"board.{face} {word}" for face in ("front", "back", "left", "right")]
    zone = zone_of(stick, faces=sides)
    assert zone.area_m2 == pytest.approx(4 * 20 * length_mm / 1e6, rel=ROUNDED)
    assert zone.labour_m2 == pytest.approx(6 * IN_M * length_mm / 1e3, rel=ROUNDED)


def test_the_end_of_a_cut_stick_is_as_long_as_its_longer_side():
    """An end of 30 by 20 mm is 20 mm around along its 30 mm; all of it is across the stick."""
    stick = board(30, 20, 700, cuts=[{"height": 200, "below": "foot", "above": "rest"}])
    zone = zone_of(stick, faces=["board.top rest"])
    assert zone.area_m2 == pytest.approx(0.03 * 0.02, rel=ROUNDED)
    assert zone.labour_m2 == pytest.approx(6 * IN_M * 0.03, rel=ROUNDED)


def test_a_part_of_which_nothing_is_worked_on_counts_as_it_is():
    assert counted_girth(0.0, 512.0) == 1.0


def test_faces_of_a_mesh_say_nothing_of_the_hand():
    """A stick 16 mm thick is narrow, so it is worked by hand; of a mesh nobody knows."""
    part = part_of()
    for is_mesh, by_hand in ((False, 1.0), (True, 0.0)):
        around = Surroundings({}, {}, {}, frozenset(["board"] if is_mesh else []))
        found = labour_of_part(part, {"front": 512.0 * 16}, around)
        assert found["front"].by_hand == by_hand


def test_a_face_of_which_nothing_is_said_counts_once_and_by_machine():
    assert (1.0, 0.0, False) == (PLAIN.counts, PLAIN.by_hand, PLAIN.is_slender)


@pytest.mark.parametrize(("side_mm", "is_slender"), [(75, True), (77, False)])
def test_a_part_is_slender_up_to_twelve_inches_around(side_mm, is_slender):
    """A stick 4000 mm long; with its ends 75 mm square is 302.8 mm around, 77 mm is 311.0."""
    around_mm = (4 * side_mm * 4000 + 2 * side_mm**2) / 4000
    assert (around_mm < 12 * 25.4) == is_slender
    zone = zone_of(board(4000, side_mm, side_mm), faces=["board.front"])
    assert [face.labour.is_slender for face in zone.faces] == [is_slender]


def test_a_face_whose_triangles_have_no_area_has_no_relief():
    """Three corners on one line."""
    corners = np.array([[0, 0, 0], [1, 0, 0], [2, 0, 0]], dtype=np.float64)
    line = Solid(
        corners, np.array([[0, 1, 2]]), np.array([0]), (Patch("line", 0.0, None),), (2, 0, 0)
    )
    assert relief_ratio(line, "line") == 1.0


def test_a_face_is_as_narrow_as_it_is_beside_its_own_length():
    """The left side is 400 mm by 45 mm, however long the front is."""
    zone = zone_of(board(900, 400, 45), faces=["board.left"])
    assert zone.by_hand_m2 == pytest.approx(0.0, abs=ROUNDED)


FLAT_FRONT = outline_board([[0, 0], [500, 0], [500, 300], [0, 300]], 20, along="y")


def test_a_flat_front_is_no_panelled_work():
    """A board of an outline has a front and an edge as a door has, but its front is one plane."""
    assert not is_panelled(FLAT_FRONT)


def test_a_plane_and_one_round_moulding_are_panelled_work():
    moulded = (*FLAT_FRONT.patches, Patch("front", 900.0, None))
    assert is_panelled(replace(FLAT_FRONT, patches=moulded))


@pytest.mark.parametrize(
    ("ratio", "counts", "by_hand"),
    [(1.05, 1, 0), (1.2, 1, 0), (1.25, 1.6, 1), (2.0, 1, 1), (3, 1, 1)],
)
def test_carving_counts_twice_its_flat_area_and_goes_by_hand(ratio, counts, by_hand):
    """A front of 500 by 300 mm; what is carved deeper than twice counts as it is."""
    zone = zone_of(board(500, 40, 300, relief={"front": ratio}), faces=["board.front"])
    assert zone.area_m2 == pytest.approx(0.15 * ratio, rel=ROUNDED)
    assert zone.labour_m2 == pytest.approx(0.15 * ratio * counts, rel=1e-6)
    assert zone.by_hand_m2 == pytest.approx(zone.labour_m2 * by_hand, rel=ROUNDED)


def test_carving_on_a_slender_part_counts_by_whichever_rule_is_more():
    """A front 20 mm wide, carved to 1.8 times that: 36 mm counts as 6 in, more than twice 20 mm."""
    zone = zone_of(board(700, 20, 20, relief={"front": 1.8}), faces=["board.front"])
    assert zone.area_m2 == pytest.approx(0.7 * 0.02 * 1.8, rel=ROUNDED)
    assert zone.labour_m2 == pytest.approx(6 * IN_M * 0.7, rel=1e-6)


def test_an_inch_beside_inside_corners_goes_by_hand():
    """A box 600 by 400 by 700 mm of 18 mm board, open in front: inside 564 by 664, 382 deep.

    Eight corners, each for both sides: the back's rim and four lines from the back to the front.
    """
    box = {
        "name": "box", "shape": "case", "width": 600, "depth": 400, "height": 700, "board": 18,
        "open": ["front"],
    }  # fmt: skip
    zone = zone_of(box, faces=["box.inside"])
    assert zone.area_m2 == pytest.approx((564 * 664 + 2 * 382 * (564 + 664)) / 1e6, rel=ROUNDED)
    corners_mm = 2 * (2 * (564 + 664) + 4 * 382)
    assert zone.by_hand_m2 == pytest.approx(corners_mm * 25 / 1e6, rel=ROUNDED)


def test_what_stands_on_a_board_makes_inside_corners_on_it():
    """A post 100 mm square on a board 500 by 400 mm: 400 mm of corner around its foot."""
    post = {
        "name": "post", "shape": "board", "width": 100, "depth": 100, "height": 300,
        "at": [200, 150, 60],
    }  # fmt: skip
    text = piece_text(
        {"do": "dust off"}, part=[board(500, 400, 60), post], zone={"faces": ["board.top"]}
    )
    (zone, *_) = measured(text).measured.zones
    assert zone.by_hand_m2 == pytest.approx(400 * 25 / 1e6, rel=ROUNDED)


def test_corners_never_make_more_than_all_of_a_face_go_by_hand():
    """A box 40 mm wide and high inside, 382 mm deep."""
    box = {
        "name": "box", "shape": "case", "width": 76, "depth": 400, "height": 76, "board": 18,
        "open": ["front"],
    }  # fmt: skip
    zone = zone_of(box, faces=["box.inside"])
    assert zone.by_hand_m2 == pytest.approx(zone.labour_m2, rel=ROUNDED)
