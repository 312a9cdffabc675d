"""Turned parts that are cut where nothing is near, against the same parts joined uncut."""

from dataclasses import replace

import numpy as np
import pytest

from shapes.boards import board
from shapes.cases import case
from shapes.exposure import exposure
from shapes.joining import join
from shapes.legs import round_leg, turned_leg
from shapes.lofts import shaped_round_leg
from shapes.placement import place, row
from shapes.refinement import refined
from shapes.spindles import bun_foot, spindle
from shapes.stretches import Stack
from shapes.surfaces import surfaces
from shapes.transforms import lean, mirror, turn

Profile = list[list[float | str]]
SAME = 1e-9
"""Of an area: the same triangles, summed in another order, and some cut at another corner."""

BALUSTER: Profile = [
    [0, 30], [20, 30, 8], [50, 30, "straight"], [50, 44, 6], [80, 44, -3], [100, 40],
    [180, 62], [330, 26], [420, 40, "straight"], [420, 56, "straight"], [450, 56],
]  # fmt: skip
SPINDLE: Profile = [[0, 12], [120, 18], [210, 22], [300, 18], [420, 12]]
BALL: Profile = [[0, 10, "straight"], [20, 10, 21], [60, 10, "straight"], [80, 10]]
"""Its bead is more than half a circle, so its widest ring is not between the rings by it."""

SOLIDS = {
    "spindle": spindle(SPINDLE),
    "baluster": spindle(BALUSTER),
    "turned leg": turned_leg([[0, 0], [10, 20], [10, 30], [200, 40], [200, 24], [400, 30]]),
    "round leg": round_leg(400, 30),
    "oval leg": shaped_round_leg([[0, 30, 18, 10, 0], [200, 34, 30], [400, 60, 20, 0, 15]]),
    "smooth oval leg": shaped_round_leg([[0, 30, 18, 10, 0], [400, 34, 30]], smooth=True),
    "bun": bun_foot(60, 90, neck=30),
    "leaning": lean(spindle(BALUSTER), 11, towards="left"),
    "lying": lean(spindle(SPINDLE), 90, towards="front"),
    "turned": turn(lean(spindle(SPINDLE), 24, towards="back"), 31),
    "mirrored": mirror(lean(spindle(BALUSTER), 8, towards="right")),
}


def uncut(parts):
    return [replace(part, solid=replace(part.solid, rings=())) for part in parts]


def assert_same(parts, gap=1.0):
    """Assert that cutting changes nothing, and return what is exposed."""
    seen, expected = exposure(parts, gap=gap), exposure(uncut(parts), gap=gap)
    total = sum(expected.areas_mm2.values())
    assert expected.areas_mm2 == pytest.approx(seen.areas_mm2, rel=SAME, abs=SAME * total)
    assert expected.seams_mm == pytest.approx(seen.seams_mm, rel=1e-6, abs=1e-4)
    for ours, theirs in ((seen.gaps, expected.gaps), (seen.closed, expected.closed)):
        assert [(g.face, g.other) for g in theirs] == [(g.face, g.other) for g in ours]
        areas = [g.area_mm2 for g in theirs]
        assert areas == pytest.approx([g.area_mm2 for g in ours], rel=SAME)
    return seen


@pytest.mark.parametrize("name", SOLIDS)
def test_the_pieces_of_a_solid_are_closed_and_are_the_solid(name):
    stack = Stack(SOLIDS[name])
    count = len(stack.solid.patches)
    triangles = 0
    volume = 0.0
    for number in range(stack.count):
        piece = stack.piece(0, np.zeros(3), number, number)
        halves = piece.triangles[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2)
        assert {tuple(h) for h in halves} == {tuple(h[::-1]) for h in halves}
        corners = piece.vertices[piece.triangles]
        volume += np.linalg.det(corners - corners[0, 0]).sum()
        triangles += int((piece.patch_of < count).sum())
    whole = stack.solid.vertices[stack.solid.triangles]
    assert len(whole) == triangles
    assert np.linalg.det(whole - whole[0, 0]).sum() == pytest.approx(volume, rel=1e-9)


@pytest.mark.parametrize("profile", [BALL, BALUSTER])
def test_a_solid_is_cut_only_where_all_below_is_below(profile):
    stack, origin = Stack(spindle(profile)), np.zeros(3)
    last = stack.count - 1
    assert last > 20
    for number in range(last):
        below = stack.piece(0, origin, 0, number).vertices[:, 2].max()
        assert below == stack.piece(0, origin, number + 1, last).vertices[:, 2].min()


def test_every_point_of_a_smooth_line_is_a_place_to_cut():
    assert Stack(spindle(SPINDLE)).count == 4 * 16
    assert Stack(board(10, 10, 10)).count == 1


@pytest.mark.parametrize("name", SOLIDS)
@pytest.mark.parametrize("seed", range(4))
def test_cutting_changes_nothing_of_what_is_exposed(name, seed):
    """Parts stand in, through, on and just above each other, leaning and turned ones too."""
    rng = np.random.default_rng([seed, sorted(SOLIDS).index(name)])
    solid = SOLIDS[name]
    parts = [place("a", solid, (40, 30, 20))]
    size = np.array(solid.size_mm)
    for number in range(3):
        block = rng.choice([20, 45, 80, 160], 3).astype(float)
        at = np.array([40, 30, 20]) + rng.uniform(-0.2, 0.9, 3) * size - block / 2
        if number == 2:  # against its top or its underside, with air or without
            air = float(rng.choice([0, 0.4, 2]))
            at[2] = 20 + size[2] + air if rng.random() < 0.5 else 20 - block[2] - air
        shape = board(*block)
        if number == 1 and seed % 2:
            shape = lean(shape, float(rng.choice([5, 12, 30])), towards="back")
        parts.append(place("bcd"[number], shape, at.round(1).tolist()))
    assert_same(parts)


def test_spindles_that_cross_each_other_are_cut_where_they_meet():
    up, across = spindle(SPINDLE), lean(spindle(SPINDLE), 90, towards="right")
    parts = [place("up", up), place("across", across, (-200, 0, 200)), place("off", up, (60, 0, 0))]
    seen = assert_same(parts)
    assert seen.areas_mm2["off", "side"] < up.area_mm2_of["side"]  # the one lying runs through it


def test_a_stretch_inside_the_wood_of_another_part_is_hidden():
    parts = [
        place("dowel", spindle([[0, 8], [30, 10], [300, 8]])),
        place("block", board(40, 40, 260)),
    ]
    parts[0] = replace(parts[0], at=(15 * 80_000, 15 * 80_000, 20 * 80_000))
    seen = assert_same(parts)
    assert 0 < seen.areas_mm2["dowel", "side"] < 0.3 * parts[0].solid.area_mm2_of["side"]
    assert seen.areas_mm2["dowel", "bottom"] == 0


def test_what_stands_in_a_sealed_case_is_sealed_along_its_whole_length():
    box = case(200, 200, 400, board=20, open_sides=[])
    inside = spindle([[0, 16], [150, 30], [370, 16]])
    parts = [place("box", box), place("in", inside, (80, 80, 15)), place("lid", board(50, 50, 5))]
    seen = assert_same(parts)
    assert seen.areas_mm2["in", "side"] == 0
    hovering = [
        place("box", box),
        place("in", spindle([[0, 16], [100, 30], [200, 16]]), (80, 80, 90)),
    ]
    assert assert_same(hovering).areas_mm2["in", "side"] == 0


def test_a_part_that_touches_nothing_keeps_its_closed_form_to_the_last_digit():
    parts = [place("a", spindle(BALUSTER)), place("far", board(40, 40, 40), (500, 0, 0))]
    assert parts[0].solid.area_mm2_of == pytest.approx(
        {f: exposure(parts).areas_mm2["a", f] for f in ("side", "top", "bottom")}, rel=1e-15
    )


def gallery(count):
    """Two rails and spindles that are tenoned into both."""
    long = 40 * count + 40
    return [
        place("seat", board(long, 60, 40)),
        place("rail", board(long, 60, 40), (0, 0, 430)),
        *row("spindle", spindle(SPINDLE), (20, 16, 30), of=count, apart=(40, 0, 0)),
    ]


def test_few_triangles_of_a_long_row_are_joined():
    joined = join(gallery(6), 80_000)
    each = len(spindle(SPINDLE).triangles)
    assert len(joined.skin.triangles) < 6 * each / 8
    assert len(joined.skin.with_all_triangles().triangles) > 6 * each * 0.8


def test_a_row_so_long_that_its_rails_are_refined_shows_what_short_ones_show():
    short, long = exposure(gallery(20)), exposure(gallery(40))
    for face, grown in (("top", 20 * 40 * 60), ("bottom", 20 * 40 * 60)):
        lost = 20 * 40 * 60 - (long.areas_mm2["seat", face] - short.areas_mm2["seat", face])
        per_spindle = 60 * 40 - (short.areas_mm2["seat", face] - 40 * 60) / 20
        assert grown > 0
        assert lost / 20 == pytest.approx(per_spindle, abs=1e-6)


def test_refining_keeps_the_form_and_leaves_edges_that_would_not_stay_exact():
    block = board(1000, 60, 40)
    finer = refined(block, 200)
    assert len(finer.triangles) > 4 * len(block.triangles)
    assert block.patch_mesh_areas.tolist() == finer.patch_mesh_areas.tolist()
    halves = finer.triangles[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2)
    assert {tuple(h) for h in halves} == {tuple(h[::-1]) for h in halves}
    leaning = lean(block, 10, towards="back")
    assert len(refined(leaning, 200).triangles) == len(leaning.triangles)
    assert refined(block, 5) is block


@pytest.mark.parametrize("count", [1, 3])
def test_a_picture_has_all_triangles_closed_and_in_one_piece(count):
    (surface,) = surfaces(gallery(count))
    halves = np.sort(surface.triangles[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1)
    _, times = np.unique(halves, axis=0, return_counts=True)
    assert set(times.tolist()) == {2}
    areas = exposure(gallery(count)).areas_mm2
    for key, area in surface.areas_mm2().items():
        assert areas[key] == pytest.approx(area, rel=2e-4)  # triangles stand for round sides
    sheets = surface.sheet_of[surface.face_of == surface.faces.index(("spindle 1", "side"))]
    assert len(np.unique(sheets)) == 1
