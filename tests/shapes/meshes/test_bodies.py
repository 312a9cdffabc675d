"""Closed bodies of an imported mesh, and what of them is hidden.

Areas of made-up meshes are elementary. The union is exact: tolerances of 1e-9 are rounding of sums.
"""

import numpy as np
import pytest
from mesh_makers import EXACT, area, box, flipped, joined, soup

from shapes.boards import board
from shapes.exposure import exposure
from shapes.meshes.bodies import closed_bodies, find_bodies
from shapes.meshes.edges import across_sides
from shapes.meshes.imported import ImportedMesh, cleaned
from shapes.meshes.mesh_exposure import mesh_exposure
from shapes.meshes.repair import merged
from shapes.placement import place

pytest.importorskip("trimesh")
pytest.importorskip("embreex")


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
