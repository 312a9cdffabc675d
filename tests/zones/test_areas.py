"""Areas of zones and where zones meet, worked out by hand."""

import pytest

ROUNDING = 1e-12
"""Sums of float64 products; lengths themselves are whole grid lines."""

CHEST = """
[piece]
name = "Chest"
unit = "mm"
[[part]]
name = "body"
shape = "case"
width = 1000
depth = 500
height = 600
board = 18
at = [0, 0, 200]
[[part]]
name = "leg"
shape = "leg"
width = 60
height = 200
corners = { of = "body", set_in = SET_IN }
"""
LEAVE = "leave = true\n"


def chest(*zones, set_in=0):
    text = CHEST.replace("SET_IN", str(set_in))
    for name, *faces in zones:
        listed = ", ".join(f'"{face}"' for face in faces)
        text += f'[[zone]]\nname = "{name}"\nfaces = [{listed}]\n{LEAVE}'
    return text


def areas(found):
    return {zone.zone.name: zone.area_m2 for zone in found.zones}


def test_chest_on_legs(measured):
    """The body's outside less four legs' tops; each leg's four sides and underside."""
    sides = 2 * (1 * 0.5 + 1 * 0.6 + 0.5 * 0.6)  # 2.8 m2, the closed inside is not seen
    found = measured(chest(("body", "body"), ("legs", "leg *")))
    expected = {"body": sides - 4 * 0.06**2, "legs": 4 * (4 * 0.06 * 0.2 + 0.06**2)}
    assert expected == pytest.approx(areas(found), rel=ROUNDING)
    assert {"body": 2.7856, "legs": 0.2064} == pytest.approx(areas(found), rel=ROUNDING)
    assert (1000, 500, 800) == found.size_mm
    assert 2.992 == pytest.approx(found.exposed_m2, rel=ROUNDING)


def test_legs_that_stand_in_meet_the_underside_around_each_top(measured):
    """Four squares of 60 mm: 0.96 m of line."""
    found = measured(chest(("body", "body"), ("legs", "leg *"), set_in=50))
    assert {"legs": 0.96} == pytest.approx(found.zones[0].meets_m, rel=ROUNDING)
    assert {"body": 0.96} == pytest.approx(found.zones[1].meets_m, rel=ROUNDING)


def test_zones_meet_alike_from_both_sides(measured):
    found = measured(
        chest(("front", "body.front"), ("legs", "leg *"), ("rest", "*"), ("top", "body.top"))
    )
    meets = {zone.zone.name: zone.meets_m for zone in found.zones}
    pairs = [(a, b) for a in meets for b in meets[a]]
    assert {("front", "top"), ("front", "rest"), ("front", "legs"), ("rest", "top")} <= set(pairs)
    for a, b in pairs:
        assert a != b
        assert meets[a][b] == meets[b][a]
    assert 1.0 == pytest.approx(meets["front"]["top"], rel=ROUNDING)  # its front edge
    assert 0.12 == pytest.approx(meets["front"]["legs"], rel=ROUNDING)  # two legs of 60 mm


def test_zones_stand_in_the_order_of_the_file(measured):
    found = measured(chest(("legs", "leg *"), ("rest", "*"), ("top", "body.top")))
    assert ["legs", "rest", "top"] == [zone.zone.name for zone in found.zones]
    assert ["legs", "top"] == list(found.zones[1].meets_m)


def test_a_zone_never_meets_what_is_in_no_zone(measured):
    found = measured(chest(("top", "body.top")))
    assert {} == found.zones[0].meets_m


def test_zones_and_the_rest_add_up_to_the_whole(measured):
    found = measured(chest(("top", "body.top"), ("front legs", "leg 1", "leg 2")))
    total = 2.992
    assert total == pytest.approx(sum(areas(found).values()) + found.in_no_zone_m2, rel=ROUNDING)
    assert total == pytest.approx(found.exposed_m2, rel=ROUNDING)
    assert total - 0.5 - 0.2064 / 2 == pytest.approx(found.in_no_zone_m2, rel=ROUNDING)


def test_faces_that_nothing_is_seen_of_are_in_the_zone_but_not_among_the_unclaimed(measured):
    found = measured(chest(("top", "body.top")))
    unclaimed = {(face.part, face.face) for face in found.in_no_zone}
    assert ("leg 1", "bottom") in unclaimed
    assert not unclaimed & {("leg 1", "top"), ("body", "inside")}
    legs = measured(chest(("legs", "leg *"))).zones[0]
    assert 0.0 == next(f.area_m2 for f in legs.faces if (f.part, f.face) == ("leg 1", "top"))


def test_with_everything_in_zones_nothing_is_left(measured):
    found = measured(chest(("all", "*")))
    assert ((), 0) == (found.in_no_zone, found.in_no_zone_m2)


LID = """
[[part]]
name = "lid"
shape = "board"
width = 1000
depth = 500
height = 20
at = [0, 0, 800]
loose = true
"""


def test_a_loose_lid_hides_nothing_and_is_measured_all_round(measured):
    found = measured(chest(("lid", "lid"), ("rest", "*")) + LID)
    lid = 2 * (1 * 0.5 + 1 * 0.02 + 0.5 * 0.02)
    assert {"lid": lid, "rest": 2.992} == pytest.approx(areas(found), rel=ROUNDING)
    assert {} == found.zones[0].meets_m
    assert (1000, 500, 800) == found.size_mm


def test_zones_of_a_loose_lid_meet_each_other(measured):
    found = measured(chest(("lid top", "lid.top"), ("lid", "lid")) + LID)
    assert {"lid": 3.0} == pytest.approx(found.zones[0].meets_m, rel=ROUNDING)


def test_narrow_air_is_closed_and_wider_air_is_listed(measured):
    """A lid that is joined and floats: 0.5 mm of air is none, 2 mm of it are told about."""
    joined = LID.replace("loose = true\n", "")
    touching = measured(chest(("all", "*")) + joined)
    near = measured(chest(("all", "*")) + joined.replace("800]", "800.5]"))
    apart = measured(chest(("all", "*")) + joined.replace("800]", "802]"))
    assert (0, 0) == (len(touching.closed), len(touching.gaps))
    assert [(0.5, 500_000.0)] == [(m.distance_mm, m.area_mm2) for m in near.closed]
    assert [(2.0, 500_000.0)] == [(m.distance_mm, m.area_mm2) for m in apart.gaps]
    assert (0, 0) == (len(near.gaps), len(apart.closed))
    assert touching.exposed_m2 == pytest.approx(near.exposed_m2, rel=ROUNDING)
    assert touching.exposed_m2 + 2 * 0.5 == pytest.approx(apart.exposed_m2, rel=ROUNDING)
