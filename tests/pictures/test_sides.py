"""A surface that does not close is seen from both sides, against areas worked out by hand."""

import numpy as np
import pytest

from shapes.boards import board
from shapes.meshes.imported import ImportedMesh
from shapes.meshes.mesh_solids import open_surface
from shapes.placement import place
from shapes.surfaces import surfaces
from surfacecalc.pictures.scenes import scene
from surfacecalc.pictures.sides import with_both_sides
from surfacecalc.pictures.views import FRONT, TOP

WIDTH, DEPTH, HEIGHT = 300.0, 200.0, 100.0
ROUNDED = 1e-6
"""As in the tests of scenes."""
FLOOR = [[0, 3, 2], [0, 2, 1]]
WALLS = [
    [0, 1, 5], [0, 5, 4], [1, 2, 6], [1, 6, 5], [2, 3, 7], [2, 7, 6], [3, 0, 4], [3, 4, 7],
]  # fmt: skip


def tray(*, inward: bool = False):
    """Return an open tray of sheets without thickness, wound outward or inward."""
    plan = [(0.0, 0.0), (WIDTH, 0.0), (WIDTH, DEPTH), (0.0, DEPTH)]
    corners = np.array([[x, y, z] for z in (0.0, HEIGHT) for x, y in plan])
    triangles = np.array(FLOOR + WALLS)
    region_of = np.array([0] * len(FLOOR) + [1] * len(WALLS))
    mesh = ImportedMesh(
        corners, triangles[:, ::-1] if inward else triangles, region_of, ("floor", "walls")
    )
    solid = open_surface(mesh, mesh.areas_mm2)
    (found,) = surfaces([place("tray", solid, loose=True)])
    return found


@pytest.mark.parametrize("inward", [False, True])
def test_from_above_an_open_tray_shows_its_floor(inward):
    found = scene(with_both_sides(tray(inward=inward)), TOP).areas_mm2()
    assert {("tray", "floor"): WIDTH * DEPTH} == pytest.approx(found, rel=ROUNDED)


@pytest.mark.parametrize("inward", [False, True])
def test_from_the_front_an_open_tray_shows_its_nearest_wall_once(inward):
    found = scene(with_both_sides(tray(inward=inward)), FRONT).areas_mm2()
    assert {("tray", "walls"): WIDTH * HEIGHT} == pytest.approx(found, rel=ROUNDED)


def test_one_side_alone_would_leave_the_floor_out():
    assert scene(tray(), TOP).regions == {}


def test_what_closes_is_left_as_it_is():
    (found,) = surfaces([place("b", board(30, 20, 10))])
    assert found is with_both_sides(found)
