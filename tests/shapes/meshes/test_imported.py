"""Imported meshes as they come: their arrays, and the libraries they wait for."""

import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from mesh_makers import box, joined, soup

from shapes.meshes.imported import ImportedMesh, MeshError
from shapes.meshes.mesh_exposure import mesh_exposure
from shapes.meshes.repair import clean

pytest.importorskip("trimesh")
pytest.importorskip("embreex")


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


# slow imports


def test_nothing_imports_the_mesh_libraries_before_they_are_needed():
    code = (
        "import sys\n"
        "from shapes.meshes import cuts, mesh_files, scans, visibility\n"
        "print(sorted({'trimesh', 'embreex', 'scipy', 'shapely'} & set(sys.modules)))"
    )
    root = Path(__file__).parents[3]
    found = subprocess.run(
        [sys.executable, "-c", code], cwd=root, capture_output=True, text=True, check=True
    )
    assert found.stdout.strip() == "[]"
