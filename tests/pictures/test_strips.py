"""Broad strips change how fast a picture is drawn, not what it shows."""

import numpy as np
import pytest

from shapes.boards import board
from shapes.placement import place
from shapes.spindles import spindle
from shapes.surfaces import surfaces
from surfacecalc.closeness import OUT_OF_PLANE_MM
from surfacecalc.pictures.scenes import scene
from surfacecalc.pictures.strips import with_broad_strips
from surfacecalc.pictures.views import FRONT, ISOMETRIC, RIGHT, TOP


def surface_of(*parts):
    (found,) = surfaces(parts)
    return found


@pytest.fixture(scope="module")
def turned():
    """Two spindles that stand in a board, one half hiding the other."""
    part = spindle([[0, 14], [60, 30], [140, 18], [200, 26]])
    return surface_of(
        place("seat", board(120, 120, 20)),
        place("near", part, (20, 20, 15)),
        place("far", part, (40, 70, 15)),
    )


def test_a_turned_side_is_drawn_with_less_than_half_its_facets(turned):
    assert len(np.unique(with_broad_strips(turned).facet_of)) < len(np.unique(turned.facet_of)) / 2


def test_triangles_faces_and_smooth_sheets_stay_as_they_are(turned):
    found = with_broad_strips(turned)
    assert turned.triangles is found.triangles
    assert turned.face_of is found.face_of
    assert turned.sheet_of is found.sheet_of


def test_a_strip_lies_on_one_sheet(turned):
    found = with_broad_strips(turned)
    pairs = np.unique(np.stack([found.facet_of, found.sheet_of], axis=1), axis=0)
    assert len(np.unique(found.facet_of)) == len(pairs)


def test_a_strip_of_a_turned_side_stays_near_its_plane(turned):
    """The plane is fitted to its corners here, by least squares, not taken from its normals."""
    found = with_broad_strips(turned)
    for strip in np.unique(found.facet_of):
        corners = found.vertices[np.unique(found.triangles[found.facet_of == strip])]
        middle = corners - corners.mean(axis=0)
        normal = np.linalg.svd(middle, full_matrices=False)[2][-1]
        assert np.ptp(middle @ normal) <= OUT_OF_PLANE_MM


@pytest.mark.parametrize("view", [FRONT, RIGHT, TOP, ISOMETRIC], ids=lambda view: view.name)
def test_the_picture_is_the_same_to_the_width_of_a_line(turned, view):
    plain, broad = scene(turned, view), scene(with_broad_strips(turned), view)
    assert set(plain.regions) == set(broad.regions)
    for face, region in plain.regions.items():
        # a strip's plane may be off by a tenth of a millimetre where it meets another part
        apart = region.symmetric_difference(broad.regions[face]).area
        assert apart <= OUT_OF_PLANE_MM * region.length, face


def test_flat_faces_keep_their_facets():
    boards = surface_of(place("a", board(100, 80, 20)), place("b", board(40, 30, 50), (10, 10, 20)))
    assert np.array_equal(boards.facet_of, with_broad_strips(boards).facet_of)
