"""The joined skin: what touches vanishes, whatever arithmetic placed it.

Faces that should touch but differ by 1e-14 mm would stay apart, and both would be counted.
"""

import numpy as np
import pytest

from shapes.boards import board
from shapes.exposure import exposure
from shapes.placement import place
from shapes.skins import Skin, has_inverted

UNITS_MM = {"1 mm": 1.0, "1/16 in": 25.4 / 16, "0.1 mm": 0.1, "0.001 in": 0.0254}


@pytest.mark.parametrize("unit", UNITS_MM.values(), ids=UNITS_MM)
@pytest.mark.parametrize("count", [2, 3, 7, 50])
def test_a_row_of_boards_placed_with_ordinary_arithmetic_touches(unit, count):
    width = 3 * unit
    at, parts = 0.1, []
    for number in range(count):
        parts.append(place(f"b{number}", board(width, 10, 10), (at, 0.2, 0.3)))
        at += width  # drifts by some 1e-14 mm
    shown = exposure(parts, gap=0)
    assert shown.gaps == ()
    ends, sides = 2 * 100, 4 * 10 * (3 * unit * count)
    assert ends + sides == pytest.approx(shown.area_mm2, rel=1e-12)


def heap(seed, unit):
    """Return random boxes on whole units, 2 to 12, which touch and overlap a lot."""
    rng = np.random.default_rng(seed)
    parts = []
    for number in range(rng.integers(2, 13)):
        size = [float(rng.integers(1, 7)) * unit for _ in range(3)]
        at = [float(rng.integers(-3, 6)) * unit for _ in range(3)]
        parts.append(place(f"b{number}", board(*size), at))
    return parts


@pytest.mark.parametrize("block", range(4))
@pytest.mark.parametrize("unit", UNITS_MM.values(), ids=UNITS_MM)
def test_random_heaps_of_boxes_equal_an_exact_count(unit, block, count_cells, boxes_of):
    for seed in range(50 * block, 50 * block + 50):
        parts = heap(seed, unit)
        count = count_cells(boxes_of(parts))
        shown = exposure(parts, gap=0)
        least, most = count.least / 80_000**2, count.most / 80_000**2
        # rounding of the sums; least and most differ only where air could pass along a bare edge
        assert least * (1 - 1e-12) <= shown.area_mm2 <= most * (1 + 1e-12), f"heap({seed}, {unit})"


@pytest.mark.parametrize("unit", UNITS_MM.values(), ids=UNITS_MM)
def test_each_face_of_a_random_heap_lies_between_what_is_its_own_and_what_it_shares(
    unit, count_cells, boxes_of
):
    for seed in range(1000, 1060):
        parts = heap(seed, unit)
        count = count_cells(boxes_of(parts))
        if count.least != count.most:
            continue
        shown = exposure(parts, gap=0)
        for number, part in enumerate(parts):
            for face in part.solid.faces:
                sole = count.sole[number, face] / 80_000**2
                shared = count.shared[number, face] / 80_000**2
                area = shown.areas_mm2[part.name, face]
                slack = 1e-12 * part.solid.area_mm2_of[face]  # rounding of the sums
                assert sole - slack <= area <= sole + shared + slack, f"heap({seed}, {unit}) {face}"


@pytest.mark.parametrize("seed", range(4))
def test_a_block_of_bricks_equals_an_exact_count(seed, count_cells, boxes_of):
    rng = np.random.default_rng(seed)
    present = [k for k in range(125) if rng.random() < 0.8]
    parts = [
        place(f"b{k}", board(40, 30, 20), (40 * (k % 5), 30 * (k // 5 % 5), 20 * (k // 25)))
        for k in present
    ]
    count = count_cells(boxes_of(parts))
    shown = exposure(parts, gap=0)
    least, most = count.least / 80_000**2, count.most / 80_000**2
    assert least * (1 - 1e-12) <= shown.area_mm2 <= most * (1 + 1e-12)


UP_NORMALS = np.array([[0.0, 0.0, 1.0]])
CORNERS = np.array([[0.0, 0, 0], [9, 0, 0], [0, 9, 0]])
LEFT_TURN, RIGHT_TURN = [0, 1, 2], [0, 2, 1]


@pytest.mark.parametrize(
    ("triangle", "patch", "is_sealed", "expected"),
    [
        (LEFT_TURN, 0, False, False),
        (RIGHT_TURN, 0, False, True),
        (RIGHT_TURN, 0, True, False),  # nobody looks into a sealed void
        (RIGHT_TURN, 1, False, False),  # a lid stands for what was cut off
    ],
)
def test_only_what_is_seen_of_the_faces_may_not_look_into_the_wood(
    triangle, patch, is_sealed, expected
):
    skin = Skin(
        CORNERS, np.array([triangle]), np.array([patch]), np.array([is_sealed]), np.array([0, 1])
    )
    assert expected == has_inverted(skin, UP_NORMALS)
