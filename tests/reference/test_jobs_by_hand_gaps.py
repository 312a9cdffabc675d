"""Parts a little apart, worked out by hand: what a closed gap hides, and where zones meet.

Three blocks stand on the ground in a row, with air between them that is under the gap of the file:

    big    600 wide, 400 deep, 300 high, from x = 0
    small  200 wide, 100 deep, 100 high, from x = 602: 2 mm of air, 150 mm from the front
    stop   5 mm square and high, from x = 804.5: 2.5 mm of air, 180 mm from the front

Each pair of faces that look at each other loses the patch where they do: 100 x 100 mm, 5 x 5 mm.
"""

import pytest
from asked_jobs import asked_job, asked_supplies

ROUNDING = 1e-9
"""Sums of whole numbers of a fine grid; only the last digits of a float64 may differ."""

BLOCKS = """
[[part]]
name = "big"
shape = "board"
width = 600
depth = 400
height = 300

[[part]]
name = "small"
shape = "board"
width = 200
depth = 100
height = 100
at = [602, 150, 0]

[[part]]
name = "stop"
shape = "board"
width = 5
depth = 5
height = 5
at = [804.5, 180, 0]
"""

ZONES = """
[[zone]]
name = "big"
faces = ["big"]
surface = "bare"

[[zone.step]]
do = "mask"
tape = "tape"
overlap = "0 %"

[[zone]]
name = "small"
faces = ["small"]
leave = true

[[zone]]
name = "stop"
faces = ["stop"]
surface = "bare"

[[zone.step]]
do = "mask"
tape = "narrow tape"
overlap = "0 %"

[[tape]]
name = "tape"

[[tape]]
name = "narrow tape"
"""

BIG_M2 = 2 * (0.6 * 0.4 + 0.6 * 0.3 + 0.4 * 0.3)
"""All six faces: 1.08 m2."""
SMALL_M2 = 2 * (0.2 * 0.1 + 0.2 * 0.1 + 0.1 * 0.1)
"""All six faces: 0.1 m2."""
STOP_M2 = 6 * 0.005**2
"""All six faces: 0.00015 m2."""


def file(gap, parts=BLOCKS, zones=ZONES):
    """Return a piece file; `gap` is the line that gives it, or nothing."""
    return f'[piece]\nname = "blocks"\nunit = "mm"\n{gap}\n{parts}{zones}'


def areas(text):
    """Return the area of each zone [m2]."""
    return {zone.zone.name: zone.area_m2 for zone in asked_job(text).measured.zones}


def meets(text):
    """Return how far each zone meets the others [m]."""
    return {zone.zone.name: zone.meets_m for zone in asked_job(text).measured.zones}


def test_a_gap_of_3_mm_closes_air_of_2_and_of_2_5_mm():
    """The big one loses 0.01 m2; the small one that and 0.000025 m2; the stop 0.000025 m2."""
    by_hand = {
        "big": BIG_M2 - 0.1 * 0.1,
        "small": SMALL_M2 - 0.1 * 0.1 - 0.005 * 0.005,
        "stop": STOP_M2 - 0.005 * 0.005,
    }
    assert by_hand == pytest.approx(areas(file('gap = "3 mm"')), rel=ROUNDING)


def test_a_gap_of_2_2_mm_closes_the_narrower_air_only():
    by_hand = {"big": BIG_M2 - 0.01, "small": SMALL_M2 - 0.01, "stop": STOP_M2}
    assert by_hand == pytest.approx(areas(file('gap = "2.2 mm"')), rel=ROUNDING)


def test_without_a_gap_in_the_file_air_of_2_mm_stays_open():
    """One millimetre is what the program takes where nothing is written."""
    by_hand = {"big": BIG_M2, "small": SMALL_M2, "stop": STOP_M2}
    assert by_hand == pytest.approx(areas(file("")), rel=ROUNDING)
    assert {"big": {}, "small": {}, "stop": {}} == meets(file(""))


def test_zones_meet_around_a_closed_gap():
    """Around the end of the small block: its front, its top and its back, 3 x 100 mm.

    At the ground both blocks end, so that their undersides meet along the 100 mm there as well:
    400 mm in all. The stop's 5 mm square on the small block's face is 4 x 5 mm around.
    """
    by_hand = {
        "big": {"small": 0.4},
        "small": {"big": 0.4, "stop": 0.02},
        "stop": {"small": 0.02},
    }
    found = meets(file('gap = "3 mm"'))
    assert by_hand.keys() == found.keys()
    for zone, lengths in by_hand.items():
        assert lengths == pytest.approx(found[zone], rel=ROUNDING)


def test_tape_is_cut_for_lines_of_any_length():
    """40 cm of tape for the big block and 2 cm for the stop: no line is too short to be taped."""
    found = asked_supplies(file('gap = "3 mm"'))
    assert pytest.approx(0.4, rel=ROUNDING) == found["tape"].need.likely
    assert pytest.approx(0.02, rel=ROUNDING) == found["narrow tape"].need.likely


SIDE_BY_SIDE = """
[[part]]
name = "left"
shape = "board"
width = 300
depth = 500
height = 20

[[part]]
name = "right"
shape = "board"
width = 300
depth = 500
height = 20
at = [301.5, 350, 0]
"""
"""Two boards with 1.5 mm of air; the right one begins 350 mm further back: 150 mm are common."""

TWO_TOPS = """
[[zone]]
name = "left top"
faces = ["left.top"]
surface = "bare"

[[zone.step]]
do = "mask"
tape = "tape"
overlap = "10 %"
against = ["right top"]

[[zone]]
name = "right top"
faces = ["right.top"]
leave = true

[[zone]]
name = "rest"
faces = ["*"]
leave = true

[[tape]]
name = "tape"
packs = [{ length = "5 m", price = 2 }]
"""


def test_two_boards_meet_where_they_face_each_other_and_no_further():
    """The tops meet along 150 mm; each meets the rest of the boards along its other edges.

    left:  300 + 300 + 500 mm around, and 350 mm of the side that nothing faces: 1.45 m
    right: the same. Where the line across the gap ends, nothing else is counted.
    """
    found = meets(file('gap = "2 mm"', SIDE_BY_SIDE, TWO_TOPS))
    by_hand = {"right top": 0.15, "rest": 0.3 + 0.3 + 0.5 + 0.35}
    assert by_hand == pytest.approx(found["left top"], rel=ROUNDING)


def test_tape_along_a_closed_gap():
    """150 mm and a tenth more: 165 mm."""
    found = asked_supplies(file('gap = "2 mm"', SIDE_BY_SIDE, TWO_TOPS))
    assert pytest.approx(0.15 * 1.1, rel=ROUNDING) == found["tape"].need.likely


def test_area_of_two_boards_across_a_closed_gap():
    """The sides lose 150 x 20 mm each; the tops are whole."""
    found = areas(file('gap = "2 mm"', SIDE_BY_SIDE, TWO_TOPS))
    around = 2 * 0.02 * (0.3 + 0.5)
    by_hand = {
        "left top": 0.3 * 0.5,
        "right top": 0.3 * 0.5,
        "rest": 2 * (0.3 * 0.5 + around - 0.15 * 0.02),
    }
    assert by_hand == pytest.approx(found, rel=ROUNDING)


SMALLEST = """
[[part]]
name = "board"
shape = "board"
width = 300
depth = 300
height = 20

[[part]]
name = "pin"
shape = "board"
width = 0.09
depth = 0.09
height = 0.09
at = [302, 150, 5]

[[zone]]
name = "pin"
faces = ["pin"]
leave = true
"""


def test_no_gap_is_too_small_to_be_closed():
    """A pin of 0.09 mm, 2 mm from the board's side: five of its six faces are left."""
    found = areas(file('gap = "3 mm"', SMALLEST, ""))
    assert 5 * 0.00009**2 == pytest.approx(found["pin"], rel=ROUNDING)


CROWDED = (
    SIDE_BY_SIDE
    + """
[[part]]
name = "left block"
shape = "board"
width = 50
depth = 60
height = 40
at = [250, 440, 20]

[[part]]
name = "right block"
shape = "board"
width = 50
depth = 40
height = 40
at = [301.5, 350, 20]

[[zone]]
name = "left"
faces = ["left.top"]
leave = true

[[zone]]
name = "left block"
faces = ["left block"]
leave = true

[[zone]]
name = "right"
faces = ["right.top"]
leave = true

[[zone]]
name = "right block"
faces = ["right block"]
leave = true
"""
)
"""The two boards with a block on each, flush with the gap, which runs from 350 to 500 mm.

The left block is there from 440 to 500 mm, the right one from 350 to 390 mm.
"""


def test_what_meets_across_a_gap_changes_along_it():
    """350 to 390 mm: the left board and the right block. To 440 mm: both boards. Then the left
    block and the right board. The two blocks are nowhere opposite each other.
    """
    found = meets(file('gap = "2 mm"', CROWDED, ""))
    # a block also meets its own board along its three other edges, or two where it ends flush
    by_hand = {
        "left": {"left block": 0.05 + 0.06, "right": 0.05, "right block": 0.04},
        "left block": {"left": 0.05 + 0.06, "right": 0.06},
        "right": {"left": 0.05, "left block": 0.06, "right block": 0.05 + 0.04},
        "right block": {"left": 0.04, "right": 0.05 + 0.04},
    }
    assert by_hand.keys() == found.keys()
    for zone, lengths in by_hand.items():
        assert lengths == pytest.approx(found[zone], rel=ROUNDING)


HOVERING = CROWDED.replace("at = [250, 440, 20]", "at = [250, 400, 20.8]").replace(
    "at = [301.5, 350, 20]", "at = [301.5, 410, 20.8]"
)
"""The blocks are now 0.8 mm above their boards, the left one from 400 to 460 mm, the right one from
410 to 450 mm; that air counts as touching as well."""


def test_tops_meet_across_a_gap_only_where_neither_is_covered():
    """350 to 400 mm and 460 to 500 mm of the left board are free, all but 410 to 450 of the right.

    So the tops are opposite each other from 350 to 400 mm and from 460 to 500 mm: 90 mm.
    """
    found = meets(file('gap = "2 mm"', HOVERING, ""))
    assert pytest.approx(0.09, rel=ROUNDING) == found["left"]["right"]


STEPPED = """
[[part]]
name = "left"
shape = "outline"
thickness = 20
outline = [[0, 0], [300, 0], [300, 200], [298.5, 200], [298.5, 500], [0, 500]]

[[part]]
name = "right"
shape = "board"
width = 300
depth = 500
height = 20
at = [300, 0, 0]

[[zone]]
name = "left"
faces = ["left.top"]
leave = true

[[zone]]
name = "right"
faces = ["right.top"]
leave = true
"""


def test_two_faces_that_touch_and_stand_apart():
    """200 mm where the boards touch, and 300 mm where a saw took 1.5 mm: 500 mm in all.

    With the usual gap of 1 mm only where they touch.
    """
    found = meets(file('gap = "2 mm"', STEPPED, ""))
    assert {"right": 0.5} == pytest.approx(found["left"], rel=ROUNDING)
    assert {"right": 0.2} == pytest.approx(meets(file("", STEPPED, ""))["left"], rel=ROUNDING)
