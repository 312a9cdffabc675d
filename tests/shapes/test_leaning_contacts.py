"""Leaning and turned parts that touch cover each other as upright ones do.

A part's place is rounded to the grid, 1/80 000 mm, so leaning faces that are meant to touch stand
up to 2.2e-5 mm apart or in each other. The areas expected here are written out from lengths.
"""

import math
from dataclasses import dataclass

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from leaning import Pose, posed

from shapes.boards import board
from shapes.cases import case
from shapes.exposure import exposure
from shapes.joining import join
from shapes.skins import joined_skin

FAST = settings(
    max_examples=60, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow]
)

ANGLES = (1, 3, 5, 8, 10, 12, 15, 18, 20, 22.5, 25, 27, 30, 33, 36, 40, 45, 52.5, 60, 75)
"""Degrees: of raked backs, splayed legs, sloping lids, mitred and many-sided work."""
PAIRS = 25
"""Random pairs at each angle."""

PLACED = 1e-7
"""Of a pair's area: places rounded to 1/80 000 mm along edges of some metres on 0.1 m2 and more."""

RIGHT_TRIANGLE = math.degrees(math.atan2(3, 4))
"""Sine 0.6 and cosine 0.8: places of parts 50 mm apart fall on the grid, their faces in a plane."""

SIDES = (("left", "right"), ("front", "back"), ("bottom", "top"))


@dataclass(frozen=True)
class Pair:
    """Two boards, the second one before one face of the first.

    Attributes:
        lid: sizes of the first [mm].
        cleat: sizes of the second [mm].
        at: where the second one stands upright, the first one at the origin [mm].
        axis: along which the second one follows the first.
    """

    lid: tuple[float, float, float]
    cleat: tuple[float, float, float]
    at: tuple[float, float, float]
    axis: int

    def upright(self, air):
        at = [place + air * (k == self.axis) for k, place in enumerate(self.at)]
        return [("lid", board(*self.lid), (0, 0, 0)), ("cleat", board(*self.cleat), tuple(at))]

    @property
    def covered(self):
        """Area of the contact [mm2]."""
        spans = [
            max(0.0, min(a, at + b) - max(0.0, at))
            for a, b, at in zip(self.lid, self.cleat, self.at, strict=True)
        ]
        return math.prod(span for k, span in enumerate(spans) if k != self.axis)

    @property
    def touching(self):
        """The two faces that touch."""
        return ("lid", SIDES[self.axis][1]), ("cleat", SIDES[self.axis][0])


def random_pair(rng):
    """Return a pair in tenths of a millimetre, sixteenths of an inch or millimetres."""
    step = rng.choice([0.1, 25.4 / 16, 1.0])

    def length(low, high):
        return float(round(rng.uniform(low, high) / step) * step)

    lid = rng.permutation([length(200, 900), length(150, 600), length(12, 40)]).tolist()
    cleat = rng.permutation([length(20, 300), length(20, 120), length(10, 50)]).tolist()
    axis = int(rng.integers(3))
    how = rng.integers(3)
    at: list[float] = []
    for k, (a, b) in enumerate(zip(lid, cleat, strict=True)):
        over = length(-0.8 * b, a - 0.2 * b)
        within = length(min(0, a - b), max(0, a - b))
        flush = float(rng.choice([0.0, a - b]))
        at.append(a if k == axis else (over, within, flush)[how])
    x, y, z = at
    return Pair(tuple(lid), tuple(cleat), (x, y, z), axis)


def random_pose(rng, angle):
    """Return a pose that leans, turns or does both by an angle."""
    towards = str(rng.choice(["left", "right", "front", "back"]))
    poses = Pose(angle, towards), Pose(turn=angle), Pose(angle, towards, 1.7 * angle)
    return poses[rng.integers(3)]


def faces_of(parts):
    return sum(area for part in parts for area in part.solid.area_mm2_of.values())


@pytest.mark.parametrize("air", [0.0, 0.5])
@pytest.mark.parametrize("angle", ANGLES)
def test_each_face_of_a_leaning_pair_shows_what_the_contact_leaves(angle, air):
    for number in range(PAIRS):
        rng = np.random.default_rng([number, ANGLES.index(angle)])
        pair, pose = random_pair(rng), random_pose(rng, angle)
        parts = posed(pose, pair.upright(air), tuple(rng.uniform(-50, 300, 3).round(1)))
        shown = exposure(parts)
        whole = faces_of(parts)
        expected = {(p.name, f): area for p in parts for f, area in p.solid.area_mm2_of.items()}
        for face in pair.touching:
            expected[face] -= pair.covered
        assert expected == pytest.approx(shown.areas_mm2, abs=PLACED * whole), (pair, pose)
        assert min(shown.areas_mm2.values()) >= 0.0, (pair, pose)
        listed = [(miss.face, miss.other) for miss in shown.closed]
        assert listed == ([pair.touching] if air and pair.covered else []), (pair, pose)
        assert shown.gaps == ()


def lid_with_cleat(air=0.0):
    """Return a lid and a cleat on it; leaned to the front, rounding leaves air between them."""
    cleat = board(120, 60, 30)
    return [("lid", board(500, 300, 50), (0, 0, 0)), ("cleat", cleat, (50, 50, 50 + air))]


@pytest.mark.parametrize("air", [0.0, 0.5])
@pytest.mark.parametrize("degrees", [3, 8, 10, 22.5, 30, RIGHT_TRIANGLE])
@pytest.mark.parametrize("towards", ["front", "back"])
def test_a_cleat_meets_a_leaning_lid_all_round(towards, degrees, air):
    shown = exposure(posed(Pose(degrees, towards), lid_with_cleat(air)))
    met = {
        other[1] if one == ("lid", "top") else one[1]: length
        for (one, other), length in shown.seams_mm.items()
        if one[0] != other[0]
    }
    assert {"left": 60, "right": 60, "front": 120, "back": 120} == pytest.approx(met, abs=1e-4)


@pytest.mark.parametrize("air", [0.0, 0.5])
@pytest.mark.parametrize("pose", [Pose(8), Pose(12, "left", 20), Pose(turn=30), Pose(60, "front")])
def test_a_leaning_box_with_its_lid_on_is_sealed(pose, air):
    width, depth, height, wall = 300, 200, 150, 12
    lid = board(width + 20, depth + 20, wall)
    parts = posed(
        pose,
        [
            ("tray", case(width, depth, height, board=wall, open_sides=["top"]), (0, 0, 0)),
            ("lid", lid, (-10, -10, height + air)),
            ("inside", board(20, 30, 40), (50, 50, wall + air)),
        ],
    )
    shown = exposure(parts)
    within = [area for (part, face), area in shown.areas_mm2.items() if "inside" in (part, face)]
    assert within == pytest.approx([0.0] * len(within), abs=1e-3)
    outside = 2 * (width + depth) * height + width * depth
    lid_mm2 = sum(lid.area_mm2_of.values()) - width * depth
    assert outside + lid_mm2 == pytest.approx(shown.area_mm2, rel=PLACED)


@pytest.mark.parametrize("degrees", [3, 8, 10, 22.5, 30])
def test_rounding_of_places_is_contact_whatever_gap_is_asked_for(degrees):
    parts = posed(Pose(degrees, "front"), lid_with_cleat())
    shown = exposure(parts, gap=0)
    assert faces_of(parts) - 2 * 120 * 60 == pytest.approx(shown.area_mm2, rel=PLACED)
    assert shown.closed == shown.gaps == ()


def test_rounding_of_places_is_no_fault_of_the_kernel(monkeypatch):
    made = []

    def counted(*args, **kwargs):
        made.append(args)
        return joined_skin(*args, **kwargs)

    monkeypatch.setattr("shapes.joining.joined_skin", counted)
    joined = join(posed(Pose(10, "front"), lid_with_cleat()), 0)
    assert [near.is_touching for near in joined.closed] == [True]
    assert len(made) == 2  # without and with what fills the air


@pytest.mark.parametrize("pose", [Pose(8), Pose(12, "left", 20), Pose(turn=30), Pose(60, "front")])
def test_the_bottom_of_a_crack_stays_exposed_on_a_leaning_box_that_a_gap_seals(pose):
    lid, block = board(300, 200, 12), board(40, 30, 20)
    parts = posed(
        pose,
        [
            ("tray", case(300, 200, 150, board=12, open_sides=["top"]), (0, 0, 0)),
            ("lid", lid, (0, 0, 150.5)),
            ("a", block, (50, 50, 162.5)),
            ("b", block, (90.5, 50, 162.5)),
        ],
    )
    shown = exposure(parts)
    outside = 2 * (300 + 200) * (150 + 12) + 2 * 300 * 200
    blocks = 2 * (2 * 40 * 20 + 30 * 20)  # each without its underside and the side at the crack
    assert outside + blocks == pytest.approx(shown.area_mm2, rel=PLACED)


def test_half_a_millimetre_stays_open_where_no_gap_closes():
    pair = Pair((400, 300, 20), (100, 40, 30), (30, 30, 20), 2)
    parts = posed(Pose(22.5, "left", 10), pair.upright(0.5))
    shown = exposure(parts, gap=0)
    assert faces_of(parts) == pytest.approx(shown.area_mm2, rel=1e-12)
    (miss,) = shown.gaps
    assert (0.5, 4000.0) == pytest.approx((miss.distance_mm, miss.area_mm2), abs=3e-5)


# ---- assemblies

MAKERS = {
    "board": lambda: board(60, 80, 100),
    "plank": lambda: board(180, 40, 20),
    "case": lambda: case(120, 100, 140, board=20),
    "bay": lambda: case(120, 100, 140, board=20, open_sides=["front", "top"]),
}
LARGE = {
    "board": board(150, 200, 250),
    "plank": board(450, 100, 50),
    "case": case(300, 250, 350, board=50),
    "bay": case(300, 250, 350, board=50, open_sides=["front", "top"]),
}
SOLIDS = st.lists(
    st.tuples(st.sampled_from(list(MAKERS)), st.tuples(*[st.integers(-5, 6)] * 3)),
    min_size=2,
    max_size=4,
)
POSES = st.builds(
    Pose,
    st.sampled_from([0, *ANGLES]),
    st.sampled_from(["left", "right", "front", "back"]),
    st.sampled_from([0, 90, *ANGLES]),
)


@FAST
@given(SOLIDS, POSES, st.tuples(*[st.integers(-500, 500)] * 3))
def test_a_piece_leaned_or_turned_as_a_whole_shows_what_it_showed(solids, pose, base):
    upright = [
        (f"p{number}", MAKERS[kind](), tuple(20 * k for k in at))
        for number, (kind, at) in enumerate(solids)
    ]
    straight = exposure(posed(Pose(), upright))
    leaning = exposure(posed(pose, upright, tuple(k / 10 for k in base)))
    assert straight.area_mm2 == pytest.approx(leaning.area_mm2, rel=PLACED)
    assert straight.closed == leaning.closed == ()


FLUSH = [
    # two closed cases and a plank through one of them, flush with its bottom and with its floor
    ("p0", MAKERS["case"](), (80, 0, -100)),
    ("p1", MAKERS["case"](), (40, -100, 0)),
    ("p2", MAKERS["plank"](), (40, 40, -100)),
]
SEALED = [
    # beside them a case with its door half a millimetre away
    ("box", case(100, 50, 60, board=5, open_sides=["front"]), (400, 0, 0)),
    ("door", board(100, 8, 60), (400, -8.5, 0)),
]


@pytest.mark.parametrize("beside", [[], SEALED], ids=["nothing sealed", "a case sealed"])
def test_closed_gaps_leave_flush_patches_of_a_turned_piece_to_their_owners(beside):
    upright = [*FLUSH, *beside]
    straight = exposure(posed(Pose(), upright))
    turned = exposure(posed(Pose(turn=15), upright, (-45.1, 40.7, -14.3)))
    assert straight.area_mm2 == pytest.approx(turned.area_mm2, rel=PLACED)


@pytest.mark.parametrize("towards", ["left", "right", "front", "back"])
def test_faces_in_one_plane_but_for_rounding_hide_each_other(towards):
    kinds = list(MAKERS)
    for seed in range(25):
        rng = np.random.default_rng(seed)
        upright = [
            (f"p{k}", LARGE[kinds[rng.integers(4)]], tuple(50.0 * rng.integers(-5, 6, 3)))
            for k in range(3)
        ]
        pose = Pose(RIGHT_TRIANGLE, towards)
        straight = exposure(posed(Pose(), upright))
        assert straight.area_mm2 == pytest.approx(
            exposure(posed(pose, upright)).area_mm2, rel=PLACED
        )
        assert not any(near.is_fault for near in join(posed(pose, upright), 80_000).closed)
