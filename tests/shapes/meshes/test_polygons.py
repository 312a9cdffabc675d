"""Faces of any number of corners in OBJ, PLY and OFF, against closed forms."""

from collections import Counter

import numpy as np
import pytest
import shapely
from mesh_file_makers import refused, write
from polygon_makers import (
    COMB,
    COMB_AREA,
    COMB_RIM,
    FILES,
    in_space,
    obj,
    off,
    ply,
    prism,
    shoelace,
    tangled,
)

from shapes.meshes.mesh_exposure import mesh_exposure
from shapes.meshes.mesh_files import read_mesh

pytest.importorskip("trimesh")
pytest.importorskip("embreex")

ROUNDING = 1e-9
"""64-bit numbers, over slivers of polygons that are tangled at random."""


@pytest.mark.parametrize("name", FILES)
def test_a_comb_is_closed_and_has_its_area_in_every_kind_of_file(tmp_path, name):
    """The two ends have 12 corners each; as fans they had 55 instead of 19."""
    mesh = read_mesh(write(tmp_path, name, FILES[name](*prism(COMB, 3))), 10)
    seen = mesh_exposure(mesh)
    assert (2 * COMB_AREA + 3 * COMB_RIM) * 10**2 == pytest.approx(seen.area_mm2, rel=ROUNDING)
    assert seen.notes == ("one closed body: exact",)


@pytest.mark.parametrize("name", FILES)
@pytest.mark.parametrize("size", [4, 5, 6, 9, 16, 30])
def test_concave_faces_leaning_anywhere_have_the_area_of_their_rim(tmp_path, name, size):
    random = np.random.default_rng(size)
    for _ in range(10):
        flat = tangled(random, size)
        corners = in_space(random, flat)
        mesh = read_mesh(write(tmp_path, name, FILES[name](corners, [range(size)])), 1, up="z")
        assert shoelace(flat) == pytest.approx(mesh.areas_mm2["surface"], rel=ROUNDING)
        assert len(mesh.triangles) == size - 2
        assert rim(mesh) == Counter((k, (k + 1) % size) for k in range(size))
        assert mesh.notes == ()


def rim(mesh):
    """Return the edges, each the way it goes, that no other triangle goes the other way."""
    edges = Counter((int(t[k]), int(t[k - 2])) for t in mesh.triangles for k in range(3))
    return Counter({edge: edges[edge] for edge in edges if not edges[edge[::-1]]})


def test_corners_along_a_straight_rim_stay_in_it(tmp_path):
    """Else a neighbour that has such a corner would be cracked open along that rim."""
    corners = [(0, 0, 0), (1, 0, 0), (2, 0, 0), (3, 0, 0), (4, 0, 0), (4, 4, 0), (0, 4, 0)]
    mesh = read_mesh(write(tmp_path, "a.obj", obj(corners, [range(7)])), 1)
    assert rim(mesh) == Counter((k, (k + 1) % 7) for k in range(7))
    assert {"surface": 16.0} == mesh.areas_mm2


@pytest.mark.parametrize("turn", range(4))
def test_a_dart_is_cut_from_its_hollow(tmp_path, turn):
    dart = [(0, 0, 0), (4, 0, 0), (1, 1, 0), (0, 4, 0)]
    face = [(k + turn) % 4 for k in range(4)]
    mesh = read_mesh(write(tmp_path, "a.obj", obj(dart, [face])), 1)
    assert mesh.areas_mm2["surface"] == pytest.approx(4.0)
    assert all({0, 2} <= set(triangle) for triangle in mesh.triangles.tolist())


# not flat


def test_a_face_written_in_a_few_digits_is_as_good_as_flat(tmp_path):
    random = np.random.default_rng(7)
    corners = np.round(in_space(random, np.array(COMB) * 100.0), 2)
    mesh = read_mesh(write(tmp_path, "a.obj", obj(corners, [range(12)])), 1)
    # 5e-3 across parts 100 wide
    assert 1e4 * COMB_AREA == pytest.approx(mesh.areas_mm2["surface"], rel=1e-4)
    assert mesh.notes == ()


def test_a_bent_face_is_cut_and_what_hangs_on_the_cut_is_said(tmp_path):
    """Two triangles of sqrt(1 + 0.2^2) / 2 each; no surface with this rim is under sqrt(1.02)."""
    corners = [(0, 0, 0), (1, 0, 0), (1, 1, 0.2), (0, 1, 0)]
    mesh = read_mesh(write(tmp_path, "a.obj", obj(corners, [range(4)])), 1)
    assert mesh.areas_mm2["surface"] == pytest.approx(np.sqrt(1.04))
    share = 1 - np.sqrt(1.02 / 1.04)
    (note,) = mesh.notes
    assert note.startswith("one face is not flat")
    assert f"by about {100 * share:.1g} %" in note


def test_bent_faces_are_counted_and_flat_ones_are_not(tmp_path):
    corners, faces = prism(COMB, 3)
    corners[12] += (0, 0, 2)  # a corner of the upper end and of two sides
    mesh = read_mesh(write(tmp_path, "a.off", off(corners, faces)), 1)
    (note,) = mesh.notes
    assert note.startswith("one face is not flat")  # the sides stay flat, as it moved along them


# what cannot be read


L = [(0, 0, 0), (4, 0, 0), (4, 1, 0), (1, 1, 0), (1, 4, 0), (0, 4, 0)]


@pytest.mark.parametrize(
    ("face", "says"),
    [
        ((0, 1, 4, 3, 2, 5), "crosses or touches itself; fix it in the program"),
        ((0, 1, 5, 2), "crosses itself"),  # its halves cancel out
        ((0, 1, 4, 2), "crosses or touches itself"),
        ((98, 0, 1), "uses a corner that is not in the file"),
        ((0, 1, 2, 3, 0, 4, 5), "uses a corner twice, as a face with a hole does"),
        ((0, 1, 2, 98), "uses a corner that is not in the file, which has 6 corners"),
    ],
)
def test_a_face_that_cannot_be_read_is_named_by_its_line(tmp_path, face, says):
    faces = [(0, 1, 3), face]
    refused(write(tmp_path, "a.obj", obj(L, faces)), f"the face on line 8 {says}")
    refused(write(tmp_path, "a.off", off(L, faces)), f"the face on line 11 {says}")
    refused(write(tmp_path, "a.ply", ply(L, faces)), f"the face on line 19 {says}")
    binary = ply(L, faces, "binary_little_endian")
    refused(write(tmp_path, "b.ply", binary), f"face 2 {says}")


def test_two_squares_that_meet_in_their_crossing_have_no_area_of_their_own(tmp_path):
    """A bow tie whose halves cancel out: its vector area is zero, yet it is not flat as a line."""
    corners = [(0, 0, 0), (1, 1, 0), (1, 0, 0), (0, 1, 0)]
    refused(write(tmp_path, "a.obj", obj(corners, [range(4)])), "line 5 crosses itself")


def test_several_bad_faces_are_counted(tmp_path):
    faces = [(0, 1, 2), (0, 1, 4, 3, 2, 5), (5, 2, 3, 4, 1, 0)]
    refused(
        write(tmp_path, "a.obj", obj(L, faces)),
        "line 8 crosses or touches itself \\(and 1 more like it\\)",
    )


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("f 0 1 2", "line 7 uses a corner that is not in the file"),
        ("f -7 1 2", "line 7 uses a corner that is not in the file"),
        ("f 1 2 x", '"x" is not a whole number'),
        ("f 1 2 2.5", '"2.5" is not a whole number'),
        ("f 1 2 99999999999999999999", "is not a whole number"),
        ("v 1 2\nf 1 2 3", "fewer than three numbers"),
        ("v 1 b 3\nf 1 2 3", '"b" is not a number'),
        ("f 1 2 3\nsurf 0 1 0 1 1 2 3 4", "curved surfaces"),
        ("l 1 2", "empty: it has no face"),
        ("f 1 2", "empty: it has no triangle"),
    ],
)
def test_a_line_of_obj_that_cannot_be_read_is_told(tmp_path, line, says):
    refused(write(tmp_path, "a.obj", obj(L, []) + line + "\n"), says)


def test_a_cut_that_leaves_a_corner_out_is_not_taken(tmp_path, monkeypatch):
    """It would have the whole area, yet crack a neighbour open; none is known of this library."""
    corners = [(0, 0, 0), (1, 0, 0), (2, 0, 0), (2, 2, 0), (0, 2, 0)]

    def without_corner_1(polygons):
        rings = shapely.get_coordinates(polygons, include_z=True)
        cut = [shapely.Polygon(rings[list(three)]) for three in ((0, 2, 3), (0, 3, 4))]
        return np.array([shapely.GeometryCollection(cut)])

    monkeypatch.setattr(shapely, "constrained_delaunay_triangles", without_corner_1)
    refused(write(tmp_path, "a.obj", obj(corners, [range(5)])), "line 6 crosses or touches itself")


@pytest.mark.parametrize("number", ["1e200", "-1e16"])
def test_a_corner_beyond_all_furniture_is_refused_without_a_warning(tmp_path, number):
    refused(write(tmp_path, "a.obj", obj(L, [range(6)]).replace("v 4", f"v {number}")), "farther")


def test_a_header_of_ply_cut_within_a_line_is_told(tmp_path):
    data = ply(L, [range(6)]).replace(b"property double z", b"property")
    refused(write(tmp_path, "a.ply", data), 'the line "property" of its header is not PLY')
    data = ply(L, [range(6)]).replace(b"element vertex 6", b"element vertex 6l")
    refused(write(tmp_path, "a.ply", data), "a count in the header is not a number")


# lines of OBJ


@pytest.mark.parametrize(
    "line",
    [
        "f 3 4 5 \\\n 6 1 2 # remark",
        "f  3/9/9\t4/9/9 5//9 6/9 1 2",
        "  f 3 4 5 6 1 2",
        "f 3 4 4 5 6 1 1 2 3",
        "f 3 4 5 6 1 2\nf 1 2\nf 1 2 2",
        "f -4 -3 -2 -1 -6 -5",
    ],
)
def test_ways_to_write_one_face(tmp_path, line):
    text = obj(L, []) + line
    for end in ("\n", "\r\n", "\r"):
        path = write(tmp_path, "a.obj", text.replace("\n", end) + end)
        assert {"surface": 7.0} == read_mesh(path, 1).areas_mm2


def test_corners_after_the_face_and_colours_of_corners_are_read(tmp_path):
    rows = "".join(f"v {x} {y} {z} 0.5 0.5 0.5\n" for x, y, z in L)
    path = write(tmp_path, "a.obj", "f 1 2 3 4 5 6\n" + rows)
    assert {"surface": 7.0} == read_mesh(path, 1).areas_mm2


def test_a_ply_file_of_strips_is_refused(tmp_path):
    data = ply(L, []).replace(b"element face 0", b"element face 0\nelement tristrips 1")
    data = data.replace(b"end_header\n", b"property list int int n\nend_header\n")
    refused(write(tmp_path, "a.ply", data + b"3 0 1 2\n"), "strips .* are not read")


@pytest.mark.parametrize("share", [1, 0.9, 0.6])
@pytest.mark.parametrize("name", ["a.off", "a.ply", "little.ply", "big.ply"])
def test_faces_of_many_sizes_cut_short_are_refused(tmp_path, name, share):
    """An OFF file ends with a colour, which may be missing."""
    data = FILES[name](*prism(COMB, 3))
    data = data if isinstance(data, bytes) else data.encode()
    short = data[: int(len(data) * share) - (14 if name == "a.off" else 5)]
    refused(write(tmp_path, name, short), "truncated|fewer")
