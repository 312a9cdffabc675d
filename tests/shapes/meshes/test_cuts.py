"""Zones cut on a mesh: at a height, by a box, by the way they face."""

import numpy as np
import pytest
from mesh_makers import EXACT, SIDES, box, joined

from shapes.meshes.cuts import cut_at_height, cut_by_box, cut_by_facing
from shapes.meshes.imported import ImportedMesh
from shapes.meshes.mesh_exposure import mesh_exposure

pytest.importorskip("trimesh")
pytest.importorskip("embreex")

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
