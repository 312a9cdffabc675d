"""Cases, closed and with every combination of open sides, against the boxes they are made of."""

import itertools
import math
from dataclasses import replace

import numpy as np
import pytest

from shapes.boards import FACES as SIX_SIDES
from shapes.cases import FACES, Bays, case
from shapes.exposure import exposure
from shapes.placement import place
from shapes.solids import area_mm2

SIDES = (("left", "right"), ("front", "back"), ("bottom", "top"))
OPEN = [
    opened for count in range(6) for opened in itertools.combinations(SIX_SIDES, count)
]  # all but all six


def expected_areas(size, wall, opened):
    """Outer side: all of it. Rim: the outer side less the inner box's. Inside: the inner box's."""
    inner = [size[k] - wall * sum(side not in opened for side in SIDES[k]) for k in range(3)]
    areas: dict[str, float] = {}
    for axis, sides in enumerate(SIDES):
        i, j = (k for k in range(3) if k != axis)
        for side in sides:
            if side in opened:
                rim = size[i] * size[j] - inner[i] * inner[j]
                areas["edge"] = areas.get("edge", 0) + rim
            else:
                areas[side] = size[i] * size[j]
                areas["inside"] = areas.get("inside", 0) + inner[i] * inner[j]
    return {face: float(area) for face, area in areas.items() if area}


def case_cells(size, wall, opened):
    """Return 1 mm cells of a case, filled or not."""
    cells = np.ones(size, dtype=bool)
    spans = [
        slice(
            0 if low in opened else wall,
            size[k] if high in opened else size[k] - wall,
        )
        for k, (low, high) in enumerate(SIDES)
    ]
    cells[tuple(spans)] = False
    return cells


def surface_of_cells(cells):
    padded = np.pad(cells, 1).astype(int)
    return sum(int(np.abs(np.diff(padded, axis=k)).sum()) for k in range(3))


def test_every_combination_but_all_six_is_tried():
    assert len(OPEN) == 2**6 - 1


@pytest.mark.parametrize("opened", OPEN, ids="+".join)
def test_areas_are_those_of_the_two_boxes(opened):
    solid = case(70, 50, 90, board=6, open_sides=opened)
    assert expected_areas((70, 50, 90), 6, opened) == solid.area_mm2_of


@pytest.mark.parametrize("opened", OPEN, ids="+".join)
def test_area_equals_a_count_of_cells(opened):
    solid = case(7, 5, 9, board=2, open_sides=opened)
    assert surface_of_cells(case_cells((7, 5, 9), 2, opened)) == area_mm2(solid)


@pytest.mark.parametrize("opened", OPEN, ids="+".join)
def test_mesh_is_closed_outward_and_of_the_stated_area(opened, check_mesh):
    volume = int(case_cells((7, 5, 9), 2, opened).sum())
    is_one_wall = len(opened) == 5  # the box is then the one given, not the wall's
    solid = case(7, 5, 9, board=2, open_sides=opened)
    check_mesh(solid, volume_mm3=volume, fills_box=not is_one_wall)


@pytest.mark.parametrize("opened", OPEN, ids="+".join)
def test_alone_all_but_a_closed_void_is_exposed(opened):
    solid = case(70, 50, 90, board=6, open_sides=opened)
    shown = exposure([place("c", solid)])
    expected = {("c", face): area for face, area in solid.area_mm2_of.items()}
    if not opened:
        expected["c", "inside"] = 0.0
    assert expected == pytest.approx(shown.areas_mm2, rel=1e-12)  # rounding of the sums


def test_open_front_by_hand():
    areas = case(1000, 500, 600, board=18, open_sides=["front"]).area_mm2_of
    inner = 964, 482, 564  # 1000 - 36, 500 - 18, 600 - 36
    inside = inner[0] * inner[2] + 2 * inner[1] * inner[2] + 2 * inner[0] * inner[1]
    assert inside == areas["inside"]
    assert areas["edge"] == 1000 * 600 - 964 * 564
    assert "front" not in areas


def test_faces_come_in_the_order_of_the_reference():
    solid = case(70, 50, 90, board=6, open_sides=["left"])
    assert tuple(face for face in FACES if face != "left") == solid.faces


def test_order_and_repeats_of_open_sides_change_nothing():
    one = case(70, 50, 90, board=6, open_sides=["left", "top"])
    other = case(70, 50, 90, board=6, open_sides=iter(["top", "left", "top"]))
    assert one.area_mm2_of == other.area_mm2_of


@pytest.mark.parametrize(
    ("size", "wall", "opened", "rule", "limit"),
    [
        ((10, 30, 30), 5, (), "less than half of the width", 5.0),
        ((30, 10, 30), 6, (), "less than half of the depth", 5.0),
        ((30, 30, 10), 5, (), "less than half of the height", 5.0),
        ((10, 30, 30), 10, ("left",), "less than the width", 10.0),
        ((30, 10, 30), 11, ("back",), "less than the depth", 10.0),
        ((30, 30, 10), 10, ("top",), "less than the height", 10.0),
    ],
)
def test_a_board_that_leaves_no_room_is_refused(size, wall, opened, rule, limit, check_refused):
    check_refused(lambda: case(*size, board=wall, open_sides=opened), "board", rule, wall, limit)


def test_a_board_may_be_as_thick_as_an_axis_open_at_both_ends_is_long():
    solid = case(10, 50, 50, board=20, open_sides=["left", "right"])
    assert solid.area_mm2_of["edge"] == 2 * (50 * 50 - 10 * 10)


@pytest.mark.parametrize("name", ["width", "depth", "height", "board"])
@pytest.mark.parametrize("value", [0, -3, 10_001, math.inf])
def test_sizes_out_of_range_are_refused(name, value, check_refused):
    sizes = {"width": 90, "depth": 90, "height": 90, "board": 5} | {name: value}
    limit = 10_000.0 if value == 10_001 else None
    rule = {0: "zero", -3: "zero", 10_001: "10 m", math.inf: "finite"}[value]
    check_refused(lambda: case(**sizes), name, rule, value, limit)


def test_an_unknown_open_side_is_refused(check_refused):
    check_refused(
        lambda: case(9, 9, 9, board=1, open_sides=["top", "lid"]),
        "open",
        "sides of front, back, left, right, top, bottom, not lid",
    )


def test_six_open_sides_are_refused(check_refused):
    check_refused(
        lambda: case(9, 9, 9, board=1, open_sides=SIX_SIDES), "open", "at most five of the six"
    )


SHELVED = Bays(across=[200, 400], up=2, divider=12)
"""Three bays of 200, 400 and 340 across and two of 276 up in a case of 1000 x 400 x 600."""


def test_bays_by_hand():
    areas = case(1000, 400, 600, board=18, open_sides=["front"], bays=SHELVED).area_mm2_of
    bays = {(c, r): (wide, 276.0) for r in range(2) for c, wide in enumerate((200, 400, 340))}
    for (column, row), (wide, high) in bays.items():
        inside = 2 * 382 * (wide + high) + wide * high
        assert inside == areas[f"inside {1 + column + 3 * row}"]
    assert areas["edge"] == 1000 * 600 - sum(wide * high for wide, high in bays.values())
    assert areas["left"] == 400 * 600
    assert "front" not in areas


def test_bays_alike_share_what_the_dividers_leave():
    areas = case(
        1000, 400, 600, board=20, open_sides=["front", "back"], bays=Bays(across=4)
    ).area_mm2_of
    each = (1000 - 40 - 60) / 4
    expected = 2 * 400 * (each + 560)
    assert [expected] * 4 == [areas[f"inside {number}"] for number in range(1, 5)]


def test_one_bay_is_the_undivided_case():
    plain = case(1000, 400, 600, board=18, open_sides=["front"])
    same = case(1000, 400, 600, board=18, open_sides=["front"], bays=Bays())
    assert plain.area_mm2_of == same.area_mm2_of


def test_a_closed_bay_has_a_board_in_front_and_nothing_exposed_inside():
    bays = Bays(across=3, closed=[2])
    solid = case(940, 400, 600, board=20, open_sides=["front", "back"], bays=bays)
    each = (940 - 80) / 3
    assert solid.area_mm2_of["front"] == pytest.approx(each * 560, rel=1e-7)  # thirds on the grid
    assert solid.area_mm2_of["back"] == pytest.approx(each * 560, rel=1e-7)
    shown = exposure([place("c", solid)]).areas_mm2
    assert shown["c", "inside 2"] == 0
    assert shown["c", "inside 1"] == pytest.approx(solid.area_mm2_of["inside 1"])


def test_mesh_of_a_case_in_bays_is_closed_and_outward(check_mesh):
    solid = case(1000, 400, 600, board=18, open_sides=["front"], bays=replace(SHELVED, closed=[1]))
    air = 382 * 276 * (200 + 2 * 400 + 2 * 340) + 364 * 276 * 200
    check_mesh(solid, volume_mm3=1000 * 400 * 600 - air)


@pytest.mark.parametrize(
    ("bays", "argument", "rule", "limit"),
    [
        (Bays(across=0), "bays across", "at least one", None),
        (Bays(across=60), "bays across", "no room is left", None),
        (Bays(across=[500, 460]), "bays across", "a last bay is left", 928.0),
        (Bays(up=[700]), "bays up", "a last bay is left", 546.0),
        (Bays(across=2, closed=[3]), "bays closed", "1 to 2, not 3", None),
        (Bays(across=2, closed=[0]), "bays closed", "1 to 2, not 0", None),
        (Bays(across=[-5]), "bays across", "more than zero", None),
    ],
)
def test_bays_that_do_not_fit_are_refused(bays, argument, rule, limit, check_refused):
    value = -5 if bays == Bays(across=[-5]) else None
    check_refused(
        lambda: case(1000, 400, 600, board=18, open_sides=["front"], bays=bays),
        argument, rule, value, limit,
    )  # fmt: skip


def test_bays_of_a_case_that_is_open_above_are_refused(check_refused):
    check_refused(
        lambda: case(1000, 400, 600, board=18, open_sides=["top"], bays=Bays(across=2)),
        "open", "front, back or both",
    )  # fmt: skip
