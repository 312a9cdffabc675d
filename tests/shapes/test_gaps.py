"""Air that a tape measure left between joined parts: closed, listed, or left alone."""

import math

import pytest

from shapes.boards import board
from shapes.cases import case
from shapes.exposure import NearMiss, exposure
from shapes.legs import round_leg, square_leg, tapered_leg
from shapes.panels import panel
from shapes.placement import corners, place

ROUNDING = 1e-9
"""Areas found by overlaying polygons are sums of rounded products of 1e7 grid lines."""


def pair(air, *, height=30):
    """Two boards side by side, the second one lower."""
    return [
        place("a", board(100, 50, height)),
        place("b", board(80, 50, 20), (100 + air, 0, 0)),
    ]


# ---- the two limits


@pytest.mark.parametrize("air", [1 / 80_000, 0.01, 0.5, 25.4 / 64, 25.4 / 32, 0.99999])
def test_air_below_the_gap_is_closed_and_taken_off_both_faces(air):
    shown = exposure(pair(air))
    (miss,) = shown.closed
    assert shown.gaps == ()
    assert (miss.face, miss.other) == (("a", "right"), ("b", "left"))
    assert round(air * 80_000) / 80_000 == pytest.approx(miss.distance_mm, rel=ROUNDING)
    assert pytest.approx(miss.area_mm2, rel=ROUNDING) == 50 * 20
    assert pytest.approx(shown.areas_mm2["a", "right"], rel=ROUNDING) == 50 * 30 - 50 * 20
    assert pytest.approx(shown.areas_mm2["b", "left"], abs=1e-6) == 0.0  # LEAST_PATCH_MM2


@pytest.mark.parametrize("air", [1, 1.5, 25.4 / 16, 25.4 / 8, 4.99999, 5])
def test_air_from_the_gap_to_5_mm_is_listed_and_stays_exposed(air):
    shown = exposure(pair(air))
    (miss,) = shown.gaps
    assert shown.closed == ()
    assert (miss.face, miss.other) == (("a", "right"), ("b", "left"))
    assert round(air * 80_000) / 80_000 == pytest.approx(miss.distance_mm, rel=ROUNDING)
    assert pytest.approx(miss.area_mm2, rel=ROUNDING) == 50 * 20
    assert shown.areas_mm2["a", "right"] == 50 * 30
    assert shown.areas_mm2["b", "left"] == 50 * 20


@pytest.mark.parametrize("air", [5 + 1 / 80_000, 5.1, 25.4 / 4, 100])
def test_air_beyond_5_mm_is_neither_closed_nor_listed(air):
    shown = exposure(pair(air))
    assert (shown.closed, shown.gaps) == ((), ())


def test_touching_faces_are_neither_closed_nor_listed():
    shown = exposure(pair(0))
    assert (shown.closed, shown.gaps) == ((), ())
    assert shown.areas_mm2["a", "right"] == 50 * 10


@pytest.mark.parametrize(("gap", "closed"), [(0, 0), (0.5, 0), (0.6, 1), (3, 1), (5, 1)])
def test_the_gap_can_be_chosen(gap, closed):
    shown = exposure(pair(0.5), gap=gap)
    assert (closed, 1 - closed) == (len(shown.closed), len(shown.gaps))


@pytest.mark.parametrize("hundredths", [57, 69, 113, 114, 138, 201, 477, *range(3, 500, 20)])
def test_air_of_exactly_the_gap_is_listed_and_stays_exposed(hundredths):
    shown = exposure(pair(hundredths / 100), gap=hundredths / 100)
    assert (len(shown.closed), len(shown.gaps)) == (0, 1)
    assert shown.areas_mm2["a", "right"] == 50 * 30


def test_every_area_that_is_listed_as_closed_is_taken_off():
    for hundredths in range(1, 500, 7):
        shown = exposure(pair(hundredths / 100), gap=(hundredths + 1) / 100)
        assert len(shown.closed) == 1
        assert pytest.approx(shown.areas_mm2["a", "right"], rel=ROUNDING) == 50 * 10


# ---- which faces count


@pytest.mark.parametrize(
    ("shift", "faces"),
    [
        ((100.5, 0, 0), ("right", "left")),
        ((-100.5, 0, 0), ("left", "right")),
        ((0, 50.5, 0), ("back", "front")),
        ((0, -50.5, 0), ("front", "back")),
        ((0, 0, 30.5), ("top", "bottom")),
        ((0, 0, -30.5), ("bottom", "top")),
    ],
)
def test_air_is_found_in_all_six_directions(shift, faces):
    shown = exposure([place("a", board(100, 50, 30)), place("b", board(100, 50, 30), shift)])
    (miss,) = shown.closed
    assert (("a", faces[0]), ("b", faces[1])) == (miss.face, miss.other)
    assert pytest.approx(shown.areas_mm2["a", faces[0]], abs=1e-6) == 0.0  # LEAST_PATCH_MM2


def test_air_is_closed_only_where_the_projections_overlap():
    parts = [place("a", board(100, 50, 30)), place("b", board(100, 50, 30), (70, -20, 30.5))]
    shown = exposure(parts)
    (miss,) = shown.closed
    assert pytest.approx(miss.area_mm2, rel=ROUNDING) == 30 * 30
    assert pytest.approx(shown.areas_mm2["a", "top"], rel=ROUNDING) == 5000 - 900
    assert pytest.approx(shown.areas_mm2["b", "bottom"], rel=ROUNDING) == 5000 - 900


def test_parts_that_do_not_overlap_in_projection_have_no_gap():
    parts = [place("a", board(100, 50, 30)), place("b", board(100, 50, 30), (100, 0, 30.5))]
    shown = exposure(parts)
    assert (shown.closed, shown.gaps) == ((), ())


def test_a_step_between_faces_that_look_the_same_way_is_no_gap():
    parts = [place("a", board(100, 50, 30)), place("b", board(100, 50, 30), (100, 0.5, 0.5))]
    shown = exposure(parts)
    assert (shown.closed, shown.gaps) == ((), ())
    assert shown.areas_mm2["a", "top"] == 100 * 50
    assert pytest.approx(shown.areas_mm2["a", "right"], rel=ROUNDING) == 50 * 30 - 49.5 * 29.5


def test_a_part_sunk_by_less_than_the_gap_is_left_as_measured():
    parts = [place("a", board(100, 50, 30)), place("b", board(20, 20, 30), (10, 10, 29.5))]
    shown = exposure(parts)
    assert (shown.closed, shown.gaps) == ((), ())
    assert pytest.approx(shown.areas_mm2["a", "top"], rel=ROUNDING) == 5000 - 400
    assert pytest.approx(shown.areas_mm2["b", "front"], rel=ROUNDING) == 20 * 29.5


def test_two_faces_of_one_part_are_no_gap():
    narrow = case(100, 2.5, 60, board=1, open_sides=["top"])  # 0.5 mm of air inside
    shown = exposure([place("c", narrow), place("far", board(5, 5, 5), (500, 0, 0))])
    assert (shown.closed, shown.gaps) == ((), ())
    assert narrow.area_mm2_of["inside"] == pytest.approx(
        shown.areas_mm2["c", "inside"], rel=ROUNDING
    )


@pytest.mark.parametrize("loose", [(True, True), (False, True), ("lid", "door"), (False, "lid")])
def test_air_next_to_a_loose_part_is_no_gap(loose):
    a, b = pair(0.5)
    parts = [
        place("a", a.solid, loose=loose[0]),
        place("b", b.solid, (100.5, 0, 0), loose=loose[1]),
    ]
    shown = exposure(parts)
    assert (shown.closed, shown.gaps) == ((), ())
    assert shown.areas_mm2["a", "right"] == 1500.0


def test_air_between_loose_parts_of_one_word_is_closed():
    a, b = pair(0.5)
    parts = [
        place("a", a.solid, loose="lid"),
        place("b", b.solid, (100.5, 0, 0), loose="lid"),
    ]
    assert len(exposure(parts).closed) == 1


def test_slanted_faces_that_look_at_each_other_are_closed():
    # two tapered legs, one foot down and one foot up: right of one is parallel to left of the other
    lean = math.hypot(1, 10 / 100)
    down = place("down", tapered_leg(100, 30, 30, foot=50))
    up = place("up", tapered_leg(100, 50, 30, foot=30), (40 + 0.5 * lean, 0, 0))
    shown = exposure([down, up])
    (miss,) = shown.closed
    assert (miss.face, miss.other) == (("down", "right"), ("up", "left"))
    # the box is placed on the grid: within one line, 1/80 000 mm
    assert pytest.approx(miss.distance_mm, abs=2 / 80_000) == 0.5
    area = miss.area_mm2
    assert area > 0
    whole = down.solid.area_mm2_of["right"]
    assert whole - area == pytest.approx(shown.areas_mm2["down", "right"], rel=1e-6)


def test_faces_that_are_not_parallel_are_no_gap():
    leg = place("leg", tapered_leg(100, 30, 30, foot=29))  # leans by 0.5 in 100
    shown = exposure([leg, place("wall", board(20, 30, 100), (30.25, 0, 0))])
    assert (shown.closed, shown.gaps) == ((), ())


def test_a_round_side_next_to_a_flat_one_is_no_gap():
    shown = exposure(
        [place("leg", round_leg(100, 30)), place("w", board(20, 30, 100), (30.5, 0, 0))]
    )
    assert (shown.closed, shown.gaps) == ((), ())


def test_the_round_end_of_a_leg_is_closed_against_an_underside():
    top = place("top", board(200, 200, 20), (-80, -80, 100.4))
    shown = exposure([top, place("leg", round_leg(100, 30))])
    (miss,) = shown.closed
    assert math.pi * 225 == pytest.approx(miss.area_mm2, rel=ROUNDING)
    assert 40_000 - math.pi * 225 == pytest.approx(shown.areas_mm2["top", "bottom"], rel=ROUNDING)
    assert pytest.approx(shown.areas_mm2["leg", "top"], abs=1e-6) == 0.0  # LEAST_PATCH_MM2
    assert math.pi * 30 * 100 == pytest.approx(shown.areas_mm2["leg", "side"], rel=1e-12)


def test_the_field_of_a_panel_is_closed_against_a_board_in_its_recess():
    parts = [
        place("p", panel(400, 20, 600, frame=50, recess=6)),
        place("b", board(200, 5.5, 400), (100, 0, 100)),
    ]
    shown = exposure(parts)
    (miss,) = shown.closed
    assert (miss.face, miss.other) == (("p", "front"), ("b", "back"))
    assert pytest.approx(miss.area_mm2, rel=ROUNDING) == 200 * 400


def test_air_that_is_sealed_already_is_no_gap():
    # the board fills the recess from stile to stile, 0.5 mm before the field
    parts = [
        place("p", panel(400, 20, 600, frame=50, recess=6)),
        place("b", board(300, 5.5, 500), (50, 0, 50)),
    ]
    shown = exposure(parts)
    assert (shown.closed, shown.gaps) == ((), ())
    assert pytest.approx(shown.areas_mm2["p", "front"], rel=ROUNDING) == 400 * 600 - 300 * 500
    assert shown.areas_mm2["b", "back"] == 0.0


# ---- nearest first


def test_a_nearer_face_shades_what_lies_behind_it():
    parts = [
        place("a", board(100, 100, 10)),
        place("thin", board(100, 40, 0.25), (0, 0, 10.25)),
        place("far", board(100, 100, 10), (0, 0, 10.75)),
    ]
    shown = exposure(parts)
    found = {(miss.face[0], miss.other[0]): miss for miss in shown.closed}
    assert {("a", "thin"), ("thin", "far"), ("a", "far")} == set(found)
    assert pytest.approx(found["a", "thin"].area_mm2, rel=ROUNDING) == 4000
    assert pytest.approx(found["thin", "far"].area_mm2, rel=ROUNDING) == 4000
    assert pytest.approx(found["a", "far"].area_mm2, rel=ROUNDING) == 6000
    assert pytest.approx(shown.areas_mm2["a", "top"], abs=1e-6) == 0.0  # LEAST_PATCH_MM2
    assert pytest.approx(shown.areas_mm2["far", "bottom"], abs=1e-6) == 0.0


def test_a_face_wholly_shaded_has_no_gap_with_what_lies_behind():
    parts = [
        place("a", board(100, 100, 10)),
        place("thin", board(100, 100, 1), (0, 0, 12)),
        place("far", board(100, 100, 10), (0, 0, 14)),
    ]
    shown = exposure(parts)
    expected = (
        NearMiss(("a", "top"), ("thin", "bottom"), 2.0, 10_000.0),
        NearMiss(("thin", "top"), ("far", "bottom"), 1.0, 10_000.0),
    )
    assert expected == shown.gaps


def test_a_face_may_have_several_gaps_at_different_distances():
    parts = [
        place("a", board(100, 50, 10)),
        place("b", board(40, 50, 10), (0, 0, 10.5)),
        place("c", board(40, 50, 10), (60, 0, 12)),
    ]
    shown = exposure(parts)
    assert [(miss.other[0], miss.distance_mm) for miss in shown.closed] == [("b", 0.5)]
    assert [(miss.other[0], miss.distance_mm) for miss in shown.gaps] == [("c", 2.0)]
    assert pytest.approx(shown.areas_mm2["a", "top"], rel=ROUNDING) == 5000 - 2000


def test_what_is_already_hidden_is_not_closed_again():
    # b touches the left half of a's top; c hangs 0.5 above all of it, round b
    parts = [
        place("a", board(100, 50, 10)),
        place("b", board(50, 50, 0.5), (0, 0, 10)),
        place("c", board(100, 50, 10), (0, 0, 10.5)),
    ]
    shown = exposure(parts)
    (miss,) = shown.closed
    assert (miss.face, miss.other) == (("a", "top"), ("c", "bottom"))
    assert pytest.approx(miss.area_mm2, rel=ROUNDING) == 2500
    assert pytest.approx(shown.areas_mm2["a", "top"], abs=1e-6) == 0.0  # LEAST_PATCH_MM2


# ---- nothing moves, and no other face changes


def test_the_other_faces_keep_their_area_to_the_last_digit():
    shown = exposure(pair(0.5))
    for part, face in shown.areas_mm2:
        if (part, face) not in {("a", "right"), ("b", "left")}:
            solid = next(p.solid for p in pair(0.5) if p.name == part)
            assert solid.area_mm2_of[face] == shown.areas_mm2[part, face]


@pytest.mark.parametrize("width", [200.5, 201, 300])
def test_the_bottom_of_a_crack_stays_exposed(width):
    # a and b stand on c with 0.5 mm of air between: the strip of c below the air is no part of
    # either face
    parts = [
        place("a", board(100, 50, 20)),
        place("b", board(100, 50, 20), (100.5, 0, 0)),
        place("c", board(width, 50, 10), (0, 0, -10)),
    ]
    shown = exposure(parts)
    strip = 0.5 * 50
    beyond = (width - 200.5) * 50
    assert strip + beyond == pytest.approx(shown.areas_mm2["c", "top"], rel=ROUNDING)


def test_a_closed_gap_moves_nothing():
    shown = exposure(pair(0.5))
    assert shown.size_mm == (180.5, 50.0, 30.0)


def test_a_patch_is_taken_off_each_of_its_faces_once():
    body = place("body", case(400, 400, 300, board=18), (0, 0, 200.5))
    legs = corners("leg", square_leg(200, 60), under=body, set_in=0)
    legs = [place(leg.name, leg.solid, [u / 80_000 for u in leg.at[:2]] + [0]) for leg in legs]
    shown = exposure([body, *legs])
    assert len(shown.closed) == 4
    assert pytest.approx(shown.areas_mm2["body", "bottom"], rel=ROUNDING) == 160_000 - 4 * 3600
    for leg in legs:
        assert pytest.approx(shown.areas_mm2[leg.name, "top"], abs=1e-6) == 0.0
        assert pytest.approx(shown.areas_mm2[leg.name, "front"], rel=1e-12) == 12_000.0


def test_a_leg_between_two_closed_gaps_shows_its_sides_alone():
    parts = [
        place("top", board(100, 100, 10), (0, 0, 50.4)),
        place("leg", square_leg(50, 20), (40, 40, 0)),
        place("foot", board(100, 100, 10), (0, 0, -10.4)),
    ]
    shown = exposure(parts)
    assert len(shown.closed) == 2
    leg_area = sum(area for (part, _), area in shown.areas_mm2.items() if part == "leg")
    assert pytest.approx(leg_area, rel=ROUNDING) == 4 * 1000


# ---- order of the answer


def test_closed_gaps_come_in_the_order_of_the_faces():
    parts = [
        place("b", board(10, 10, 10)),
        place("a", board(10, 10, 10), (10.5, 0, 0)),
        place("c", board(10, 10, 10), (-10.5, 0, 0)),
    ]
    shown = exposure(parts)
    expected = [(("b", "left"), ("c", "right")), (("b", "right"), ("a", "left"))]
    assert expected == [(miss.face, miss.other) for miss in shown.closed]


def test_two_patches_of_one_pair_of_faces_are_one_entry():
    # the rim of a tray is cut in two by a notch, a block that fills it, standing no prouder
    parts = [
        place("body", case(100, 50, 60, board=5, open_sides=["front", "back"])),
        place("bar", board(100, 10, 60), (0, -10.5, 0)),
    ]
    shown = exposure(parts)
    (miss,) = shown.closed
    assert pytest.approx(miss.area_mm2, rel=ROUNDING) == 100 * 60 - 90 * 50


def test_many_slats_are_all_found():
    slats = [place(f"s{k}", board(20, 10, 300), (20.5 * k, 0, 0)) for k in range(60)]
    shown = exposure(slats)
    assert len(shown.closed) == 59
    assert {0.5} == {miss.distance_mm for miss in shown.closed}
    assert (
        pytest.approx(
            sum(p.solid.area_mm2_of["left"] * 2 for p in slats)
            - sum(shown.areas_mm2[p.name, f] for p in slats for f in ("left", "right")),
            rel=ROUNDING,
        )
        == 59 * 2 * 3000
    )


def stools(count):
    """Return pairs of blocks, one 0.5 mm above the other, all at one level."""
    parts = []
    for k in range(count):
        at = 20 * (k % 30), 20 * (k // 30)
        parts.append(place(f"low {k}", board(10, 10, 10), (*at, 0)))
        parts.append(place(f"high {k}", board(8, 8, 10), (*at, 10.5)))
    return parts


def test_many_faces_at_one_level_are_paired_with_their_own_neighbour_only():
    count = 460  # 460 x 460 pairs at one level: more than MANY_PAIRS
    shown = exposure(stools(count))
    expected = {(f"low {k}", f"high {k}", 64.0) for k in range(count)}
    assert expected == {(m.face[0], m.other[0], round(m.area_mm2, 6)) for m in shown.closed}
    # 2 x 10 cubes less the lower one's patch and the upper one's underside
    each = 600 - 64 + 64 + 4 * 80
    assert count * each == pytest.approx(shown.area_mm2, rel=ROUNDING)


def test_the_spatial_index_finds_what_trying_every_pair_finds(monkeypatch):
    plain = exposure(stools(40))
    monkeypatch.setattr("shapes.gaps.MANY_PAIRS", 0)
    assert plain == exposure(stools(40))
