"""Exposure against areas worked out by hand and against exact counts of cells."""

import math

import pytest

from shapes.boards import board
from shapes.cases import case
from shapes.drawers import drawer
from shapes.exposure import exposure
from shapes.legs import round_leg, square_leg, tapered_leg, turned_leg
from shapes.panels import panel
from shapes.placement import corners, place, row

CUT_TURNED = 1e-4
"""Of a turned face's area: its polygon has 256 sides, and the exposed share is off by less."""


def six_boards(size, thick, *, lid_up=0.0, loose=False):
    """Return a closed box of six boards, outer size (width, depth, height)."""
    w, d, h = size
    t = thick
    return [
        place("bottom", board(w, d, t), loose=loose),
        place("left", board(t, d, h - 2 * t), (0, 0, t), loose=loose),
        place("right", board(t, d, h - 2 * t), (w - t, 0, t), loose=loose),
        place("front", board(w - 2 * t, t, h - 2 * t), (t, 0, t), loose=loose),
        place("back", board(w - 2 * t, t, h - 2 * t), (t, d - t, t), loose=loose),
        place("lid", board(w, d, t), (0, 0, h - t + lid_up), loose=loose),
    ]


# ---- joined by hand


def test_a_top_over_four_legs():
    top = place("top", board(1000, 500, 20), (0, 0, 200))
    shown = exposure([top, *corners("leg", square_leg(200, 60), under=top, set_in=10)])
    assert shown.areas_mm2["top", "bottom"] == 1000 * 500 - 4 * 60 * 60
    assert [shown.areas_mm2[f"leg {k}", "top"] for k in range(1, 5)] == [0.0] * 4
    legs = 4 * (4 * 60 * 200 + 60 * 60)
    top_area = 2 * 1000 * 500 + 2 * (1000 + 500) * 20 - 4 * 60 * 60
    assert top_area + legs == pytest.approx(shown.area_mm2, rel=1e-12)  # rounding of the sum


def test_faces_come_in_the_order_of_the_parts():
    parts = [place("b", board(1, 2, 3)), place("a", round_leg(5, 2), (50, 0, 0), loose=True)]
    keys = [(part.name, face) for part in parts for face in part.solid.faces]
    assert keys == list(exposure(parts).areas_mm2)


def test_nothing_at_all_has_no_area():
    shown = exposure([])
    assert (
        shown.areas_mm2,
        shown.seams_mm,
        shown.area_mm2,
        shown.size_mm,
    ) == ({}, {}, 0, (0.0, 0.0, 0.0))


def test_a_part_wholly_inside_another_is_not_exposed():
    shown = exposure([place("a", board(9, 9, 9)), place("b", board(3, 3, 3), (2, 3, 4))])
    assert shown.area_mm2 == 6 * 81
    assert [area for (part, _), area in shown.areas_mm2.items() if part == "b"] == [0.0] * 6


def test_sunk_parts_hide_what_is_inside_the_other():
    # a post 10 x 10 x 40 sunk 15 deep into the top of a block 50 x 50 x 30
    shown = exposure(
        [place("block", board(50, 50, 30)), place("post", board(10, 10, 40), (20, 20, 15))]
    )
    assert shown.areas_mm2["block", "top"] == 50 * 50 - 10 * 10
    assert pytest.approx(shown.areas_mm2["post", "front"], rel=1e-12) == 10 * 25
    assert shown.areas_mm2["post", "bottom"] == 0.0
    assert shown.areas_mm2["post", "top"] == 100.0


def test_a_round_leg_hides_exactly_its_section():
    top = place("top", case(1000, 500, 300, board=18), (0, 0, 200))
    legs = corners("leg", round_leg(200, 61), under=top, set_in=3)
    shown = exposure([top, *legs])
    # 1e-9: the kernel's polygon has the circle's area up to rounding
    section = math.pi * 61**2 / 4
    hidden = 500_000 - shown.areas_mm2["top", "bottom"]
    assert 4 * section == pytest.approx(hidden, rel=1e-9)
    for leg in legs:
        assert shown.areas_mm2[leg.name, "top"] == 0.0
        assert section == pytest.approx(shown.areas_mm2[leg.name, "bottom"], rel=1e-12)
        assert math.pi * 61 * 200 == pytest.approx(shown.areas_mm2[leg.name, "side"], rel=1e-12)


def test_a_turned_leg_hides_exactly_its_end():
    top = place("top", board(300, 300, 20), (-100, -100, 360))
    leg = place("leg", turned_leg([[0, 30], [120, 24], [300, 40], [300, 56], [360, 50]]))
    hidden = 90_000 - exposure([top, leg]).areas_mm2["top", "bottom"]
    assert math.pi * 50**2 / 4 == pytest.approx(hidden, rel=1e-9)


def test_a_tapered_leg_hides_its_top():
    top = place("top", board(300, 300, 20), (-100, -100, 400))
    shown = exposure([top, place("leg", tapered_leg(400, 50, 40, foot=30))])
    assert pytest.approx(shown.areas_mm2["top", "bottom"], rel=1e-12) == 300 * 300 - 50 * 40
    assert shown.areas_mm2["leg", "top"] == 0.0


def test_a_shelf_in_an_open_case():
    body = place("body", case(600, 300, 800, board=20, open_sides=["front"]))
    shelf = place("shelf", board(560, 280, 20), (20, 0, 390))
    shown = exposure([body, shelf])
    inside = 560 * 760 + 2 * 280 * (760 + 560)
    touching = 2 * 280 * 20 + 560 * 20  # both ends and the back edge
    assert inside - touching == pytest.approx(shown.areas_mm2["body", "inside"], rel=1e-12)
    assert shown.areas_mm2["shelf", "front"] == 560 * 20
    assert shown.areas_mm2["shelf", "left"] == 0.0
    assert shown.areas_mm2["shelf", "back"] == 0.0
    assert pytest.approx(shown.areas_mm2["shelf", "top"], rel=1e-12) == 560 * 280


# ---- cut turned faces


@pytest.mark.parametrize("offset", [0, 5, 13, 29.5])
def test_a_round_leg_set_into_a_wall_shows_an_arc(offset):
    # the axis stands `offset` before the wall's front: what shows is more than half of it
    leg = place("leg", round_leg(200, 60), (0, 0, 0))
    wall = place("wall", board(200, 50, 200), (-70, 30 + offset, 0))
    shown = exposure([leg, wall])
    arc = 2 * math.pi - 2 * math.acos(offset / 30)
    whole = math.pi * 60 * 200
    expected = arc * 30 * 200
    assert expected == pytest.approx(shown.areas_mm2["leg", "side"], abs=CUT_TURNED * whole)


@pytest.mark.parametrize("sunk", [1, 50, 199])
def test_a_cone_sunk_point_down_shows_its_upper_frustum(sunk):
    cone = place("cone", turned_leg([[0, 0], [200, 60]]), (0, 0, 300 - sunk))
    block = place("block", board(200, 200, 300), (-70, -70, 0))
    shown = exposure([cone, block])
    whole = math.pi * 30 * math.hypot(200, 30)
    expected = whole * (1 - (sunk / 200) ** 2)
    assert expected == pytest.approx(shown.areas_mm2["cone", "side"], abs=CUT_TURNED * whole)
    hole = math.pi * (30 * sunk / 200) ** 2
    # 1e-9: the cut of the cone is again a polygon of the circle's area
    assert 40_000 - hole == pytest.approx(shown.areas_mm2["block", "top"], rel=1e-9)


def test_a_rail_through_a_round_leg_hides_two_bites():
    # a rail as high as 40 of the leg's 200, thinner than the leg, running through its axis
    leg = place("leg", round_leg(200, 60))
    rail = place("rail", board(300, 20, 40), (-120, 20, 80))
    shown = exposure([leg, rail])
    bites = 2 * (2 * math.asin(10 / 30)) * 30 * 40
    whole = math.pi * 60 * 200
    expected = whole - bites
    assert expected == pytest.approx(shown.areas_mm2["leg", "side"], abs=CUT_TURNED * whole)


# ---- sealed voids


def test_the_inside_of_a_closed_case_is_not_exposed():
    shown = exposure([place("body", case(100, 50, 60, board=5))])
    assert shown.areas_mm2["body", "inside"] == 0.0
    assert shown.area_mm2 == 2 * (5000 + 6000 + 3000)


@pytest.mark.parametrize("loose", [False, "word"])
def test_the_inside_of_six_boards_is_not_exposed(loose):
    shown = exposure(six_boards((100, 50, 60), 5, loose=loose))
    assert pytest.approx(shown.area_mm2, rel=1e-12) == 2 * (5000 + 6000 + 3000)
    inner = [("bottom", "top"), ("lid", "bottom"), ("left", "right"), ("right", "left")]
    inner += [("front", "back"), ("back", "front")]
    assert [shown.areas_mm2[key] for key in inner] == [0.0] * 6


def test_six_loose_boards_hide_nothing():
    parts = six_boards((100, 50, 60), 5, loose=True)
    assert {
        (part.name, face): area for part in parts for face, area in part.solid.area_mm2_of.items()
    } == pytest.approx(exposure(parts).areas_mm2, rel=1e-12)


@pytest.mark.parametrize("loose", [True, "word"])
def test_the_inside_of_a_loose_closed_case_is_not_exposed(loose):
    parts = [place("top", board(10, 10, 10)), place("c", case(100, 50, 60, board=5), loose=loose)]
    assert exposure(parts).areas_mm2["c", "inside"] == 0.0


@pytest.mark.parametrize(
    "inner",
    [board(10, 10, 10), round_leg(10, 10), case(20, 20, 20, board=3), tapered_leg(9, 9, foot=5)],
)
def test_what_floats_in_a_void_is_not_exposed(inner):
    shown = exposure([place("body", case(100, 50, 60, board=5)), place("x", inner, (30, 15, 20))])
    assert pytest.approx(shown.area_mm2, rel=1e-12) == 2 * (5000 + 6000 + 3000)
    assert {0.0} == {area for (part, _), area in shown.areas_mm2.items() if part == "x"}


def test_nested_cases_show_the_outermost_outside_alone():
    parts = [
        place(f"c{k}", case(100 - 20 * k, 90 - 20 * k, 80 - 20 * k, board=2), (10 * k,) * 3)
        for k in range(4)
    ]
    assert exposure(parts).area_mm2 == 2 * (100 * 90 + 100 * 80 + 90 * 80)


def test_bodies_apart_are_all_exposed_and_their_voids_are_not():
    parts = [
        place("a", case(100, 50, 60, board=5)),
        place("b", case(40, 40, 40, board=5), (300, 0, 0)),
        place("in b", board(5, 5, 5), (315, 15, 15)),
        place("c", board(10, 10, 10), (-500, 0, 0)),
    ]
    shown = exposure(parts)
    assert pytest.approx(shown.area_mm2, rel=1e-12) == 28_000 + 6 * 1600 + 600


def test_a_body_in_the_bay_of_an_open_case_is_exposed():
    parts = [
        place("body", case(100, 50, 60, board=5, open_sides=["front"])),
        place("x", board(10, 10, 10), (30, 20, 20)),
    ]
    assert sum(area for (part, _), area in exposure(parts).areas_mm2.items() if part == "x") == 600


def test_a_void_cut_off_by_another_part_is_not_exposed():
    # an open case whose front is covered by a board
    parts = [
        place("body", case(100, 50, 60, board=5, open_sides=["front"])),
        place("door", board(100, 8, 60), (0, -8, 0)),
    ]
    shown = exposure(parts)
    assert shown.areas_mm2["body", "inside"] == 0.0
    assert shown.areas_mm2["body", "edge"] == 0.0
    assert shown.areas_mm2["door", "back"] == 0.0
    assert pytest.approx(shown.area_mm2, rel=1e-12) == 2 * (100 * 58 + 100 * 60 + 58 * 60)


def test_a_loose_door_seals_nothing():
    body = case(100, 50, 60, board=5, open_sides=["front"])
    parts = [place("body", body), place("door", board(100, 8, 60), (0, -8, 0), loose=True)]
    shown = exposure(parts)
    assert body.area_mm2_of["inside"] == pytest.approx(shown.areas_mm2["body", "inside"], rel=1e-12)
    assert shown.areas_mm2["door", "back"] == 6000.0


# ---- joined and loose


def test_loose_parts_neither_hide_nor_are_hidden():
    a, b = board(10, 10, 10), board(10, 10, 10)
    shown = exposure([place("a", a), place("b", b, (10, 0, 0), loose=True)])
    assert shown.area_mm2 == 1200


def test_parts_of_one_word_hide_each_other_only():
    parts = [
        place("body", board(30, 10, 10)),
        place("lid 1", board(10, 10, 10), (0, 0, 10), loose="lid"),
        place("lid 2", board(10, 10, 10), (10, 0, 10), loose="lid"),
        place("door", board(10, 10, 10), (20, 0, 10), loose="door"),
        place("knob", board(10, 10, 10), (10, 0, 10), loose=True),
    ]
    shown = exposure(parts)
    assert shown.area_mm2 == 2 * (300 + 300 + 100) + (1200 - 200) + 600 + 600
    assert shown.areas_mm2["lid 1", "right"] == 0.0
    assert shown.areas_mm2["body", "top"] == 300.0
    assert shown.areas_mm2["door", "left"] == 100.0


def test_a_word_that_is_a_loose_part_s_name_joins_nothing_to_it():
    parts = [
        place("lid", board(10, 10, 10), loose=True),
        place("knob", board(10, 10, 10), (10, 0, 0), loose="lid"),
    ]
    assert exposure(parts).area_mm2 == 1200


def test_an_empty_word_does_not_join_a_loose_part_to_the_piece():
    parts = [
        place("a", board(10, 10, 10)),
        place("b", board(10, 10, 10), (10, 0, 0), loose=""),
    ]
    assert exposure(parts).area_mm2 == 1200


def test_the_size_is_that_of_the_joined_parts():
    parts = [
        place("a", board(10, 20, 30), (-5, 0, 0)),
        place("b", board(1, 1, 1), (25.4, 0, -7)),
        place("c", board(500, 500, 500), loose=True),
    ]
    assert exposure(parts).size_mm == (31.4, 20.0, 37.0)


def test_the_size_of_a_piece_without_joined_parts_is_zero():
    parts = [place("a", board(1, 1, 1), loose=True), place("b", board(1, 1, 1), loose="lid")]
    assert exposure(parts).size_mm == (0.0, 0.0, 0.0)


def test_a_drawer_and_a_panel_joined_to_a_board():
    parts = [
        place("d", drawer(400, 450, 150, front=20, board=12)),
        place("p", panel(400, 20, 600, frame=50, recess=6), (0, -20, -450)),
    ]
    shown = exposure(parts)
    # the drawer's front covers the upper rail, the field and both steps stay below it:
    # overlap 400 x 150, of which the field's 300 x 100 lies 6 back; closed to a pocket
    assert shown.areas_mm2["d", "front"] - 300 * 100 == 0.0
    steps = 2 * (300 + 500) * 6
    frame = 400 * 600 - 300 * 500 - (400 * 150 - 300 * 100)
    assert frame + 300 * 500 + steps == pytest.approx(shown.areas_mm2["p", "back"], rel=1e-12)


# ---- outlines of legs under a body


@pytest.mark.parametrize("set_in", [0, 0.5, 1, 40])
def test_legs_flush_or_set_in_hide_the_same(set_in):
    body = place("body", case(1000, 500, 600, board=18), (0, 0, 200))
    shown = exposure([body, *corners("leg", square_leg(200, 60), under=body, set_in=set_in)])
    assert pytest.approx(shown.areas_mm2["body", "bottom"], rel=1e-12) == 500_000 - 4 * 3600
    assert pytest.approx(shown.areas_mm2["body", "front"], rel=1e-12) == 600_000.0
    for number in range(1, 5):
        for face in ("front", "back", "left", "right"):
            assert pytest.approx(shown.areas_mm2[f"leg {number}", face], rel=1e-12) == 12_000.0
    assert shown.closed == ()
    assert shown.gaps == ()


def test_slats_in_a_row_between_two_rails():
    rails = row("rail", board(500, 30, 40), (0, 0, 0), of=2, apart=(0, 0, 340))
    slats = row("slat", board(20, 10, 300), (15, 10, 40), of=9, apart=(50, 0, 0))
    shown = exposure([*rails, *slats])
    assert pytest.approx(shown.areas_mm2["rail 1", "top"], rel=1e-12) == 500 * 30 - 9 * 200
    assert pytest.approx(shown.areas_mm2["rail 2", "bottom"], rel=1e-12) == 500 * 30 - 9 * 200
    each = 2 * (20 + 10) * 300
    slat_area = sum(area for (part, _), area in shown.areas_mm2.items() if part[:4] == "slat")
    assert 9 * each == pytest.approx(slat_area, rel=1e-12)
