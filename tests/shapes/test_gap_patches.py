"""Closed gaps patch by patch: nearest first, nothing moves, in a steady order."""

import pytest
from gap_makers import ROUNDING, pair

from shapes.boards import board
from shapes.cases import case
from shapes.exposure import NearMiss, exposure
from shapes.legs import square_leg
from shapes.placement import corners, place

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
