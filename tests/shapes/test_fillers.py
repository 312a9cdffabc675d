"""What a closed gap seals, and that it disturbs nothing else."""

import dataclasses

import pytest
from gap_makers import pair

from shapes.boards import board
from shapes.cases import case
from shapes.exposure import exposure
from shapes.joining import join
from shapes.placement import place

ROUNDING = 1e-9
"""Areas found by overlaying polygons are sums of rounded products of 1e7 grid lines."""


def covered_case(air, *, depth=8):
    return [
        place("body", case(100, 50, 60, board=5, open_sides=["front"])),
        place("door", board(100, depth, 60), (0, -depth - air, 0)),
    ]


@pytest.mark.parametrize("air", [0.25, 0.5, 25.4 / 32])
def test_a_closed_gap_seals_what_lies_behind_it(air):
    touching, near = exposure(covered_case(0)), exposure(covered_case(air))
    assert len(near.closed) == 1
    assert near.areas_mm2["body", "inside"] == 0.0
    assert pytest.approx(near.areas_mm2["body", "edge"], abs=1e-6) == 0.0  # LEAST_PATCH_MM2
    assert pytest.approx(near.areas_mm2["door", "back"], abs=1e-6) == 0.0
    assert touching.areas_mm2 == pytest.approx(near.areas_mm2, rel=ROUNDING, abs=1e-6)


def test_a_gap_that_stays_open_seals_nothing():
    shown = exposure(covered_case(2))
    assert len(shown.gaps) == 1
    inside = covered_case(2)[0].solid.area_mm2_of["inside"]
    assert inside == pytest.approx(shown.areas_mm2["body", "inside"], rel=ROUNDING)
    assert pytest.approx(shown.areas_mm2["door", "back"], rel=ROUNDING) == 6000.0


def test_a_lid_half_a_millimetre_above_four_walls_seals_them():
    w, d, h, t = 100, 50, 60, 5
    parts = [
        place("tray", case(w, d, h, board=t, open_sides=["top"])),
        place("lid", board(w, d, t), (0, 0, h + 0.5)),
    ]
    shown = exposure(parts)
    (miss,) = shown.closed
    assert w * d - (w - 2 * t) * (d - 2 * t) == pytest.approx(miss.area_mm2, rel=ROUNDING)
    assert shown.areas_mm2["tray", "inside"] == 0.0
    assert pytest.approx(shown.areas_mm2["lid", "bottom"], abs=1e-6) == 0.0  # LEAST_PATCH_MM2


def test_what_stands_in_a_case_sealed_by_a_closed_gap_is_not_exposed():
    parts = [*covered_case(0.5), place("x", board(10, 10, 10), (30, 20, 20))]
    shown = exposure(parts)
    assert {0.0} == {area for (part, _), area in shown.areas_mm2.items() if part == "x"}


def test_a_gap_closed_elsewhere_leaves_what_was_sealed_sealed():
    # a post stands through the wall of a closed case and ends flush with its inside; a shelf hangs
    # 0.5 mm above the part of the post that is outside
    parts = [
        place("shelf", board(4, 6, 2), (0, -3.5, 5)),
        place("body", case(6, 7, 4, board=0.5), (2, -4, 1)),
        place("post", board(2, 4, 4), (0.5, 0.5, 0.5)),
    ]
    apart, near = exposure(parts, gap=0), exposure(parts, gap=1)
    (miss,) = near.closed
    assert (
        miss.face,
        miss.other,
        pytest.approx(miss.area_mm2, rel=ROUNDING),
    ) == (("shelf", "bottom"), ("post", "top"), 3.0)
    assert apart.area_mm2 - 2 * 3.0 == pytest.approx(near.area_mm2, rel=ROUNDING)


def test_a_flush_patch_counts_once_also_where_a_gap_seals_a_case():
    # the scene above, and beside it a case with its door half a millimetre away
    parts = [
        place("shelf", board(4, 6, 2), (0, -3.5, 5)),
        place("body", case(6, 7, 4, board=0.5), (2, -4, 1)),
        place("post", board(2, 4, 4), (0.5, 0.5, 0.5)),
        place("box", case(100, 50, 60, board=5, open_sides=["front"]), (200, 0, 0)),
        place("door", board(100, 8, 60), (200, -8.5, 0)),
    ]
    apart, near = exposure(parts, gap=0), exposure(parts, gap=1)
    inside = parts[3].solid.area_mm2_of["inside"] + 90 * 50  # the case's, and the door's part of it
    rim = 100 * 60 - 90 * 50
    hidden = 2 * 3.0 + 2 * rim + inside
    assert apart.area_mm2 - hidden == pytest.approx(near.area_mm2, rel=ROUNDING)


def test_a_filler_between_square_parts_is_as_thick_as_the_gap():
    (made,) = join(pair(0.5), 80_000).fillers
    assert {100 * 80_000.0, 100.5 * 80_000.0} == set(made.solid.vertices[:, 0].tolist())


def test_faces_that_the_kernel_left_back_to_back_have_nothing_to_fill(monkeypatch):
    (near,) = join(pair(0.5), 80_000).closed
    fault = dataclasses.replace(near, distance=0.0)
    monkeypatch.setattr("shapes.joining.find_gaps", lambda *_: [fault])
    joined = join(pair(0.5), 80_000)
    assert ([fault], []) == (joined.closed, joined.fillers)
