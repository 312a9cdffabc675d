"""Imported meshes: what is closed, what is hidden, and that the way is always said.

Areas of made-up meshes are elementary. The union is exact: tolerances of 1e-9 are rounding of sums.
"""

import os
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from shapes.boards import board
from shapes.exposure import exposure
from shapes.meshes.bodies import closed_bodies, find_bodies
from shapes.meshes.cuts import cut_at_height, cut_by_box, cut_by_facing
from shapes.meshes.edges import across_sides
from shapes.meshes.imported import ImportedMesh, MeshError, cleaned
from shapes.meshes.mesh_exposure import mesh_exposure
from shapes.meshes.mesh_files import read_mesh
from shapes.meshes.mesh_solids import mesh_parts
from shapes.meshes.repair import clean, merged
from shapes.placement import place

pytest.importorskip("trimesh")
pytest.importorskip("embreex")

EXACT = 1e-9
CORNERS = np.array([[x, y, z] for x in (0, 1) for y in (0, 1) for z in (0, 1)], dtype=np.float64)
QUADS = [(0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3)]
"""left, right, front, back, bottom, top; outward"""
SIDES = ("left", "right", "front", "back", "bottom", "top")


def box(at=(0, 0, 0), size=(10, 10, 10), other_diagonal=False):
    """Return corners and triangles of a box; two triangles for each of `SIDES`."""
    split = [(0, 1, 3), (1, 2, 3)] if other_diagonal else [(0, 1, 2), (0, 2, 3)]
    faces = [[quad[k] for k in three] for quad in QUADS for three in split]
    return CORNERS * size + at, np.array(faces)


def joined(*pieces):
    """Return one mesh of several (corners, triangles), a region for each: `a`, `b` ..."""
    starts = np.cumsum([0, *[len(corners) for corners, _ in pieces]])
    faces = [part + start for (_, part), start in zip(pieces, starts, strict=False)]
    region = np.repeat(np.arange(len(pieces)), [len(part) for part in faces])
    names = tuple("abcdefgh"[: len(pieces)])
    return ImportedMesh(
        np.concatenate([corners for corners, _ in pieces]), np.concatenate(faces), region, names
    )


def soup(mesh):
    """Return the mesh as STL has it: three corners of its own for each triangle."""
    corners = mesh.vertices[mesh.triangles].reshape(-1, 3)
    faces = np.arange(len(corners)).reshape(-1, 3)
    return ImportedMesh(corners, faces, mesh.region_of, mesh.regions)


def flipped(piece, which=slice(None)):
    corners, faces = piece[0], piece[1].copy()
    faces[which] = faces[which][:, ::-1]
    return corners, faces


def area(mesh, way="union"):
    seen = mesh_exposure(mesh)
    assert way == seen.way
    return seen.area_mm2


def test_a_box_of_loose_triangles_is_one_closed_body():
    seen = mesh_exposure(soup(joined(box())))
    assert (seen.way, seen.area_mm2, seen.error_mm2) == ("union", 600.0, 0.0)
    assert seen.size_mm == (10.0, 10.0, 10.0)
    assert "one closed body" in seen.notes[0]


def test_triangles_without_area_and_copies_count_for_nothing():
    corners, faces = box()
    spoilt = np.concatenate([faces, faces[:3], faces[:2][:, [1, 2, 0]], [[0, 0, 1], [2, 2, 2]]])
    seen = mesh_exposure(joined((corners, spoilt)))
    assert (seen.way, seen.area_mm2) == ("union", 600.0)
    assert any(note.startswith("7 triangles without area or drawn twice") for note in seen.notes)


def test_a_needle_that_closes_a_body_is_kept():
    """A triangle whose corners lie on one line fills the crack beside a corner on an edge."""
    corners, faces = box()
    middle = len(corners)
    first = faces[0]
    corners = np.vstack([corners, (corners[first[0]] + corners[first[1]]) / 2])
    halves = [[first[0], middle, first[2]], [middle, first[1], first[2]]]
    needle = [[first[0], first[1], middle]]
    assert area(joined((corners, np.concatenate([faces[1:], halves, needle])))) == 600.0
    assert area(joined((corners, np.concatenate([faces[1:], halves]))), "reach") > 0


def test_a_body_inside_out_is_turned_and_named_in_the_notes():
    seen = mesh_exposure(joined(flipped(box()), box((5, 0, 0))))
    assert pytest.approx(2 * (100 + 2 * 150), rel=EXACT) == seen.area_mm2
    assert any("inside out" in note for note in seen.notes)


@pytest.mark.parametrize("which", [[0], [1, 4, 7], list(range(6))])
def test_triangles_that_face_the_wrong_way_are_turned(which):
    seen = mesh_exposure(joined(flipped(box(), which), box((5, 5, 5))))
    # two boxes that share a cube of 5: 2 x 600 less the 6 faces of that cube
    assert (seen.way, seen.area_mm2) == ("union", pytest.approx(1200 - 150, rel=EXACT))
    assert any("were turned" in note for note in seen.notes)


def test_overlapping_bodies_of_one_mesh_show_what_their_boards_show():
    places = [((0, 0, 0), (30, 10, 10)), ((20, 0, 0), (10, 10, 50)), ((5, -3, 4), (9, 30, 3))]
    mesh = joined(*[box(at, size) for at, size in places])
    parts = [place("abc"[k], board(*size), at) for k, (at, size) in enumerate(places)]
    boards = exposure(parts, gap=0)
    by_part = dict.fromkeys("abc", 0.0)
    for (part, _), shown in boards.areas_mm2.items():
        by_part[part] += shown
    seen = mesh_exposure(mesh)
    # a patch on two touching parts may be given to either
    assert boards.area_mm2 == pytest.approx(seen.area_mm2, rel=EXACT)
    assert by_part == pytest.approx(seen.areas_mm2, rel=EXACT)


def heap(rng):
    """Return boxes on a lattice of 10 mm that touch, overlap and share edges, cut either way."""
    sizes = rng.integers(1, 5, (rng.integers(2, 13), 3)) * 10
    places = rng.integers(0, 7, sizes.shape) * 10
    cuts = rng.integers(0, 2, len(sizes))
    return [
        (at, size, box(at, size, other_diagonal=bool(cut)))
        for at, size, cut in zip(places.tolist(), sizes.tolist(), cuts, strict=True)
    ]


@pytest.mark.parametrize("seed", range(60))
def test_heaps_of_boxes_in_one_mesh_show_what_a_count_of_cells_shows(seed, count_cells):
    """Loose triangles: which of them make up a box has to be found out."""
    boxes = heap(np.random.default_rng(seed))
    corners = np.concatenate([corners for _, _, (corners, _) in boxes])
    faces = np.concatenate([faces + 8 * k for k, (_, _, (_, faces)) in enumerate(boxes)])
    mesh = soup(ImportedMesh(corners, faces, np.zeros(len(faces), np.int64), ("all",)))
    counted = count_cells([(tuple(at), tuple(size)) for at, size, _ in boxes])
    # 1e-9: rounding of sums; air may or may not pass along a bare edge
    assert counted.least * (1 - EXACT) <= area(mesh) <= counted.most * (1 + EXACT)


def test_bodies_that_stand_apart_show_what_each_shows_alone_and_those_that_meet_hide():
    mesh = joined(box(), box((10, 2, 2)), box((100, 0, 0)), box((200, 0, 0)), box((205, 5, 5)))
    seen = mesh_exposure(mesh)
    assert "union of 5 closed bodies: exact" == seen.notes[0]
    # a and b share 8 x 8 mm; d and e stand 5 x 5 x 5 mm deep in each other
    assert 600 - 64 + 600 - 64 == pytest.approx(
        seen.areas_mm2["a"] + seen.areas_mm2["b"], rel=EXACT
    )
    assert seen.areas_mm2["c"] == 600
    assert 1200 - 6 * 25 == pytest.approx(seen.areas_mm2["d"] + seen.areas_mm2["e"], rel=EXACT)


@pytest.mark.parametrize("seed", range(5))
def test_the_short_way_to_find_bodies_finds_what_the_long_way_finds(seed):
    """Where every edge has two triangles, bodies are found without sorting edges by angle."""
    rng = np.random.default_rng(seed)
    pieces = [box(at, (20, 20, 20)) for at in rng.integers(0, 9, (6, 3)) * 30]
    pieces.append(flipped(box((5, 5, 5), (300, 300, 300))))
    mesh = joined(*pieces)
    found = cleaned(soup(mesh))
    assert across_sides(found.triangles, len(found.vertices)) is not None
    short, long = closed_bodies(found)[1], find_bodies(found)
    assert long.count == short.count
    assert (long.triangles == short.triangles).all()
    assert (long.hollow == short.hollow).all()
    pairs = set(zip(long.body_of.tolist(), short.body_of.tolist(), strict=True))
    assert long.count == len(pairs)  # the same bodies, though numbered otherwise


def test_the_triangle_across_each_side_is_its_neighbour():
    corners, faces = box()
    across = across_sides(faces, len(corners))
    for triangle, others in enumerate(across.tolist()):
        for k, other in enumerate(others):
            side = {faces[triangle][k], faces[triangle][(k + 1) % 3]}
            assert side <= set(faces[other].tolist())
            assert other != triangle


@pytest.mark.parametrize(
    "spoil",
    [
        lambda faces: faces[1:],
        lambda faces: np.vstack([faces, faces[:1]]),
        lambda faces: np.vstack([faces, faces[:1, ::-1]]),
        lambda faces: np.vstack([faces[:1, ::-1], faces[1:]]),
    ],
)
def test_a_mesh_with_any_fault_has_no_triangle_across_each_side(spoil):
    corners, faces = box()
    assert across_sides(spoil(faces), len(corners)) is None


def test_corners_that_are_equal_become_one_in_the_order_in_which_they_come():
    rows = np.array([[3, 0, 0], [1, 0, 0], [3, 0, 0], [2, 0, 0], [1, 0, 0.0]])
    distinct, number = merged(rows)
    assert [[3, 0, 0], [1, 0, 0], [2, 0, 0]] == distinct.tolist()
    assert [0, 1, 0, 2, 1] == number.tolist()


def test_two_bodies_may_have_a_triangle_in_common():
    """Boxes of one left side, one deeper than the other: both keep it, and it shows once."""
    seen = mesh_exposure(soup(joined(box(), box((0, 0, 0), (20, 10, 10)))))
    assert (seen.way, seen.area_mm2) == ("union", pytest.approx(2 * (100 + 400), rel=EXACT))
    assert "union of 2 closed bodies" in seen.notes[0]


def test_a_body_in_the_file_twice_counts_once():
    seen = mesh_exposure(soup(joined(box(), box())))
    assert (seen.way, seen.area_mm2) == ("union", 600.0)


@pytest.mark.parametrize("other_diagonal", [False, True])
def test_bodies_drawn_against_each_other_hide_where_they_touch(other_diagonal):
    pieces = box(), box((10, 0, 0), other_diagonal=other_diagonal)
    assert area(soup(joined(*pieces))) == pytest.approx(1000, rel=EXACT)


def test_bodies_that_meet_along_an_edge_or_a_corner_hide_nothing():
    assert area(soup(joined(box(), box((10, 10, 0))))) == pytest.approx(1200, rel=EXACT)
    assert area(soup(joined(box(), box((10, 10, 10))))) == pytest.approx(1200, rel=EXACT)


def test_touching_faces_that_rounding_of_the_file_has_parted_touch():
    """32-bit numbers hold 7 digits: at 1 m they miss by 6e-5 mm, five grid lines."""
    shift = np.array([1000.1, 0, 0])
    corners, faces = box((0, 0, 0), (0.3 * 1000, 10, 10))
    rounded = (corners + shift).astype(np.float32).astype(np.float64)
    drifted = rounded[:, 0].max() * (1 + 1.2e-7)
    other = box((drifted, 0, 0), (50, 10, 10))
    # a box of 350 x 10 x 10; 1e-6: the drift that was taken out, over the length
    assert area(joined((rounded, faces), other)) == pytest.approx(2 * 7100, rel=1e-6)


def test_a_hollow_is_not_exposed():
    seen = mesh_exposure(joined(box(), flipped(box((2, 2, 2), (5, 5, 5)))))
    assert (seen.way, seen.areas_mm2) == ("union", {"a": 600.0, "b": 0.0})
    assert any("hollow" in note for note in seen.notes)


def test_what_stands_in_a_hollow_is_not_exposed():
    pieces = box(), flipped(box((1, 1, 1), (8, 8, 8))), box((3, 3, 3), (2, 2, 2))
    seen = mesh_exposure(joined(*pieces))
    assert seen.areas_mm2 == pytest.approx({"a": 600.0, "b": 0.0, "c": 0.0}, rel=EXACT)


def test_a_hollow_that_another_body_breaks_into_stays_open_to_the_union():
    """A peg through the wall fills its own bore; the hollow stays sealed."""
    pieces = box(), flipped(box((2, 2, 2), (6, 6, 6))), box((4, 4, -5), (2, 2, 8))
    # the box's bottom loses 2 x 2, the peg shows 5 mm below: 4 sides and its end
    assert area(joined(*pieces)) == pytest.approx(600 - 4 + 40 + 4, rel=EXACT)


def test_bodies_that_seal_a_void_together_hide_its_walls():
    walls = [
        box((0, 0, 0), (30, 30, 5)),
        box((0, 0, 25), (30, 30, 5)),
        box((0, 0, 5), (5, 30, 20)),
        box((25, 0, 5), (5, 30, 20)),
        box((5, 0, 5), (20, 5, 20)),
        box((5, 25, 5), (20, 5, 20)),
    ]
    assert area(joined(*walls)) == pytest.approx(6 * 900, rel=EXACT)
    assert area(joined(*walls[:5])) == pytest.approx(6 * 900 + 4 * 25 * 20, rel=EXACT)


def test_a_box_drawn_from_both_sides_counts_once():
    seen = mesh_exposure(joined(box(), flipped(box())))
    assert seen.area_mm2 == pytest.approx(600, rel=EXACT)
    assert any("drawn from both sides" in note for note in seen.notes)


def test_a_sheet_drawn_from_both_sides_counts_once():
    corners, faces = box()
    sheet = faces[:2]
    seen = mesh_exposure(joined((corners, np.concatenate([sheet, sheet[:, ::-1]]))))
    assert seen.way == "reach"
    assert seen.area_mm2 == pytest.approx(100, rel=EXACT)
    assert any("counted once" in note for note in seen.notes)


def test_an_open_box_goes_the_reach_way_and_says_so():
    corners, faces = box()
    seen = mesh_exposure(joined((corners, faces[:10])))
    assert (seen.way, seen.area_mm2) == ("reach", pytest.approx(500, rel=EXACT))
    assert "20000 points, up to 64 directions" in seen.notes[0]
    assert any("4 open edges" in note for note in seen.notes)
    assert 0 < seen.error_mm2 < 0.01 * seen.area_mm2


def test_a_crack_wider_than_rounding_is_detected():
    corners, faces = box()
    cracked = np.vstack([corners, corners[7] + [0, 0, 0.01]])
    faces = np.where((np.arange(12) == 10)[:, None] & (faces == 7), 8, faces)
    assert mesh_exposure(joined((cracked, faces))).way == "reach"


def test_an_edge_with_three_triangles_is_not_closed():
    corners, faces = box()
    fin = np.vstack([corners, [[20, 20, 20]]]), np.vstack([faces, [[0, 1, 8]]])
    seen = mesh_exposure(joined(fin))
    assert seen.way == "reach"
    assert any("more than two triangles" in note for note in seen.notes)


def test_a_band_with_a_half_turn_has_one_side_and_goes_the_reach_way():
    steps = np.arange(40)
    around = 2 * np.pi * steps / 40
    middle = np.stack([50 * np.cos(around), 50 * np.sin(around), 0 * around], axis=1)
    out = np.stack([np.cos(around), np.sin(around), 0 * around], axis=1)
    across = 5 * (np.cos(around / 2)[:, None] * out + np.sin(around / 2)[:, None] * [0, 0, 1])
    corners = np.concatenate([middle - across, middle + across])
    after = np.where(steps < 39, steps + 1, 40)
    after_top = np.where(steps < 39, steps + 41, 0)
    faces = np.concatenate(
        [np.stack([steps, after, after_top], axis=1), np.stack([steps, after_top, steps + 40], 1)]
    )
    band = joined((corners, faces))
    assert mesh_exposure(band).way == "reach"
    # nothing hides anything: a ray from one side of each point leaves
    assert mesh_exposure(band).area_mm2 == pytest.approx(sum(band.areas_mm2.values()), rel=1e-3)


def test_either_way_can_be_asked_for():
    closed, corners_faces = joined(box(), box((5, 0, 0))), box()
    by_rays = mesh_exposure(closed, way="reach")
    # 4 standard errors
    assert abs(by_rays.area_mm2 - 800) < 4 * by_rays.error_mm2
    with pytest.raises(MeshError, match="mesh: not closed: 4 open edges"):
        mesh_exposure(joined((corners_faces[0], corners_faces[1][2:])), way="union")


@pytest.mark.parametrize("scale", [0.1, 3.0])
def test_size_k_gives_k2_area_and_motion_changes_nothing(scale):
    mesh = joined(box(), box((5, 3, 2)))
    rng = np.random.default_rng(7)
    turn = np.linalg.qr(rng.normal(size=(3, 3)))[0]
    turn *= np.sign(np.linalg.det(turn))
    moved = ImportedMesh(
        scale * mesh.vertices @ turn.T + [100, -50, 7], mesh.triangles, mesh.region_of, mesh.regions
    )
    # 1e-4: corners of the small one are rounded to 1/80 000 mm on edges of 1 mm
    assert area(moved) == pytest.approx(scale**2 * area(mesh), rel=1e-4)


def test_order_of_triangles_and_bodies_is_irrelevant():
    mesh = joined(box(), box((5, 3, 2)), box((9, 9, 9)))
    order = np.random.default_rng(3).permutation(len(mesh.triangles))
    shuffled = ImportedMesh(
        mesh.vertices, mesh.triangles[order], mesh.region_of[order], mesh.regions
    )
    first, second = mesh_exposure(mesh).areas_mm2, mesh_exposure(shuffled).areas_mm2
    assert first == pytest.approx(second, rel=EXACT)


def test_mesh_parts_join_with_parametric_parts():
    leg = mesh_parts("leg", joined(box((0, 0, 0), (60, 60, 400))), (20, 20, 0))
    top = place("top", board(1000, 500, 20), (0, 0, 400))
    seen = exposure([top, *leg])
    assert seen.areas_mm2["top", "bottom"] == 500_000 - 3_600
    assert seen.areas_mm2["leg", "a"] == pytest.approx(3_600 + 4 * 24_000, rel=EXACT)
    assert seen.size_mm == (1000, 500, 420)


def test_mesh_parts_of_several_bodies_keep_their_places_and_regions():
    mesh = joined(box((100, 0, 0)), box((120, 5, 0)), box((110, 0, 0)))
    parts = mesh_parts("set", mesh, (0, 0, 0))
    assert {"set 1", "set 2", "set 3"} == {part.name for part in parts}
    assert {(0, 0, 0), (800_000, 0, 0), (1_600_000, 400_000, 0)} == {part.at for part in parts}
    shown = exposure(parts, gap=0)
    assert shown.area_mm2 == pytest.approx(mesh_exposure(mesh).area_mm2, rel=EXACT)
    assert all(part.solid.area_mm2_of for part in parts)


def test_bodies_of_a_loose_mesh_stay_joined_to_each_other():
    parts = mesh_parts("door", joined(box(), box((10, 0, 0))), loose=True)
    assert exposure(parts).area_mm2 == pytest.approx(1000, rel=EXACT)


def test_an_open_mesh_makes_no_parts():
    corners, faces = box()
    with pytest.raises(MeshError, match="not closed"):
        mesh_parts("shell", joined((corners, faces[1:])))


def test_equal_corners_become_one_and_whole_lengths_whole_grid_units():
    corners, faces = box((0, 0, 0), (300.00001, 10, 10))
    mesh = soup(joined((corners, faces)))
    found = clean(mesh.vertices, mesh.triangles, mesh.region_of)
    assert len(found.vertices) == 8
    assert found.vertices[:, 0].max() == 300 * 80_000


@pytest.mark.parametrize(
    ("spoil", "says"),
    [
        (lambda v, t: (v * np.nan, t), "not a finite number"),
        (lambda v, t: (v * np.inf, t), "not a finite number"),
        (lambda v, t: (v, t[:0]), "no triangle"),
        (lambda v, t: (v, t + 1), "names a corner that is not there"),
        (lambda v, t: (v, t - 1), "names a corner that is not there"),
        (lambda v, t: (v * 1001, t), "longer than 10 m: is the unit right"),
        (lambda v, t: (v * 0, t), "all corners are one point"),
        (lambda v, t: (v[:, :2], t), "rows of three"),
        (lambda v, t: (v * 1e-9, t), "no triangle has an area"),
    ],
)
@pytest.mark.filterwarnings("ignore:invalid value")  # 0 times infinity, in making the case
def test_arrays_that_are_no_mesh_are_refused(spoil, says):
    corners, faces = spoil(*box())
    with pytest.raises(MeshError, match=says):
        mesh_exposure(ImportedMesh(corners, faces, np.zeros(len(faces), np.int64), ("a",)))


def test_a_region_of_no_name_or_a_triangle_without_region_is_refused():
    corners, faces = box()
    with pytest.raises(MeshError, match="names a region"):
        ImportedMesh(corners, faces, np.full(12, 1), ("a",))
    with pytest.raises(MeshError, match="one region"):
        ImportedMesh(corners, faces, np.zeros(3, np.int64), ("a",))


# cuts


def test_a_cut_at_a_height_splits_exactly_and_keeps_the_body_closed():
    cut = cut_at_height(joined(box()), 3.3, "low", "high")
    assert cut.areas_mm2 == pytest.approx({"a low": 100 + 132, "a high": 100 + 268}, rel=EXACT)
    seen = mesh_exposure(cut)
    assert seen.way == "union"
    # 1e-5: the cut is rounded to 1/80 000 mm
    assert seen.areas_mm2 == pytest.approx(cut.areas_mm2, rel=1e-5)


@pytest.mark.parametrize(("height", "name"), [(10, "a low"), (0, "a high"), (-5, "a high")])
def test_a_cut_along_a_face_or_beside_the_mesh_splits_no_triangle(height, name):
    cut = cut_at_height(joined(box()), height, "low", "high")
    assert len(cut.triangles) == 12
    # a face in the plane counts as above
    assert cut.areas_mm2[name] == (500 if height == 10 else 600)


def test_a_cut_through_corners_splits_there():
    corners = np.array([[0, 0, 0], [0, 0, 10], [10, 0, 5.0], [-10, 0, 5]])
    cut = cut_at_height(joined((corners, np.array([[0, 1, 2], [0, 3, 1]]))), 5, "low", "high")
    assert cut.areas_mm2 == {"a low": 50.0, "a high": 50.0}


def test_a_cut_by_a_box_takes_what_is_inside():
    cut = cut_by_box(joined(box()), (-1, -1, 2), (4, 11, 5), "in", "out")
    # left side 10 x 3, front and back 4 x 3 each
    assert cut.areas_mm2 == pytest.approx({"a out": 546, "a in": 54}, rel=EXACT)
    assert mesh_exposure(cut).way == "union"


@pytest.mark.parametrize("way", ["left", "right", "front", "back", "down", "up"])
def test_a_cut_by_facing_takes_the_side_that_faces_there(way):
    corners, faces = box()
    side = {"down": "bottom", "up": "top"}.get(way, way)
    mesh = ImportedMesh(corners, faces, np.arange(12) // 2, SIDES)
    cut = cut_by_facing(mesh, way, "seen", "rest", within_degrees=10)
    assert {f"{side} seen"} == {name for name in cut.regions if name.endswith("seen")}
    assert cut.areas_mm2[f"{side} seen"] == 100


def test_a_slope_of_just_the_angle_faces_that_way():
    corners = np.array([[0, 0, 0], [10, 0, 10], [0, 10, 0.0]])
    slope = joined((corners, np.array([[0, 1, 2]])))
    assert cut_by_facing(slope, "up", "up", "not", within_degrees=45).regions == ("a up",)
    assert cut_by_facing(slope, "up", "up", "not", within_degrees=44).regions == ("a not",)


def test_cuts_without_sense_are_refused(check_refused):
    mesh = joined(box())
    check_refused(
        lambda: cut_by_box(mesh, (0, 0, 5), (1, 1, 4), "in", "out"), "high z", "more than low", 4, 5
    )
    check_refused(lambda: cut_by_facing(mesh, "north", "a", "b"), "way", "one of left, right")
    check_refused(
        lambda: cut_by_facing(mesh, "up", "a", "b", within_degrees=91), "within_degrees", "0 to 90"
    )
    with pytest.raises(ValueError, match="height must be a finite length"):
        cut_at_height(mesh, float("nan"), "a", "b")


def test_zones_of_a_cut_add_up_to_the_whole():
    mesh = joined(box(), box((5, 3, 2)))
    whole = mesh_exposure(mesh).area_mm2
    cut = cut_by_facing(cut_at_height(mesh, 6.25, "low", "high"), "up", "up", "else")
    assert mesh_exposure(cut).area_mm2 == pytest.approx(whole, rel=1e-6)  # the cut is rounded


# slow imports


def test_nothing_imports_the_mesh_libraries_before_they_are_needed():
    code = (
        "import sys\n"
        "from shapes.meshes import cuts, mesh_files, scans, visibility\n"
        "print(sorted({'trimesh', 'embreex', 'scipy', 'shapely'} & set(sys.modules)))"
    )
    root = Path(__file__).parents[2]
    found = subprocess.run(
        [sys.executable, "-c", code], cwd=root, capture_output=True, text=True, check=True
    )
    assert found.stdout.strip() == "[]"


# real meshes

KNOWN = {
    # file: (unit [mm], way, area [square units of the file], tolerance, reason)
    "kenney_bathroomCabinet.glb": (200, "union", 34.06, 1e-6, "its box, sizes to 7 digits"),
    "kenney_desk.glb": (200, "union", 164.546, 1e-5, "quoted to 6 digits"),
    "quaternius_Table.glb": (10, "union", 124_249, 1e-5, "quoted to 6 digits"),
    "kaykit_shelf_A_big.obj": (1000, "union", 3.2093, 1e-5, "quoted to 5 digits"),
    "trimesh_7_8ths_cube.stl": (1, "union", 9600, 1e-9, "elementary"),
    "trimesh_angle_block.stl": (25.4, "union", 9.388587, 2e-4, "facets of its round parts"),
    "odedstein_cube_no_bottom.obj": (100, "reach", 20, 1e-9, "elementary: every point sees out"),
}


@pytest.fixture
def real_meshes():
    folder = os.environ.get("SURFACECALC_MESHES")
    if not folder:
        pytest.skip("SURFACECALC_MESHES names no folder with the real meshes")
    return Path(folder)


@pytest.mark.parametrize("name", KNOWN)
def test_real_meshes_show_their_known_areas(real_meshes, name):
    unit, way, expected, tolerance, _ = KNOWN[name]
    seen = mesh_exposure(read_mesh(real_meshes / name, unit))
    assert way == seen.way
    assert pytest.approx(expected, rel=tolerance) == seen.area_mm2 / unit**2


@pytest.mark.parametrize("name", [name for name in KNOWN if KNOWN[name][1] == "union"])
def test_both_ways_agree_on_closed_real_meshes(real_meshes, name):
    mesh = read_mesh(real_meshes / name, KNOWN[name][0])
    exact = mesh_exposure(mesh).area_mm2
    by_rays = mesh_exposure(mesh, way="reach")
    # 1 %: rays see no place that is open only round a corner
    assert exact == pytest.approx(by_rays.area_mm2, rel=0.01)


@pytest.mark.parametrize(
    ("name", "size", "area_m2"),
    [
        ("polyhaven_painted_wooden_cabinet.glb", (1194.7, 616.6, 1181.9), 13.107),
        ("polyhaven_painted_wooden_stool.glb", (384.8, 406.1, 578.9), 1.0889),
    ],
)
def test_real_open_shells_keep_their_size_and_hide_some_of_their_skin(
    real_meshes, name, size, area_m2
):
    mesh = read_mesh(real_meshes / name, 1000)
    assert size == pytest.approx(mesh.size_mm, abs=0.06)  # quoted to 0.1 mm
    assert area_m2 == pytest.approx(sum(mesh.areas_mm2.values()) / 1e6, rel=1e-4)
    seen = mesh_exposure(mesh)
    assert seen.way == "reach"
    assert seen.error_mm2 < 0.01 * seen.area_mm2 < 0.0096 * area_m2 * 1e6


def test_regions_of_a_real_mesh_come_from_materials_or_nodes(real_meshes):
    path = real_meshes / "kenney_bathroomCabinet.glb"
    materials = read_mesh(path, 1)
    assert {"wood", "woodDark", "metal"} == set(materials.regions)
    assert {"bathroomCabinet", "door"} == set(read_mesh(path, 1, named_by="nodes").regions)
    # as the file's list of areas by material has them, to its 7 digits
    expected = {"wood": 56.008182, "woodDark": 1.92003, "metal": 4.009533}
    assert expected == pytest.approx(materials.areas_mm2, rel=1e-6)
