"""Which boxes and planes of two parts meet, and the solid that fills a gap, by plain rules."""

import itertools

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from shapes import shared_patches
from shapes.boards import board
from shapes.chamfered_legs import octagonal_leg
from shapes.fillers import filler
from shapes.gaps import Gap
from shapes.solids import Floats
from shapes.tolerances import GRID_PER_MM

Flat = tuple[Floats, Floats, Floats]
UP, BACK = (0.0, 0.0, 1.0), (0.0, 1.0, 0.0)


@settings(deadline=None, max_examples=50)
@given(seed=st.integers(0, 2**32 - 1))
def test_pairs_are_those_whose_boxes_share_a_volume(seed: int) -> None:
    chance = np.random.default_rng(seed)
    low = chance.integers(0, 20, (25, 3)).astype(float)
    high = low + chance.integers(1, 9, (25, 3)).astype(float)
    expected = {
        frozenset((a, b))
        for a, b in itertools.combinations(range(25), 2)
        if all(np.minimum(high[a], high[b]) > np.maximum(low[a], low[b]))
    }
    found = list(shared_patches.overlapping_boxes(low, high))
    assert expected == {frozenset(pair) for pair in found}
    assert len(expected) == len(found)


def patch(normal: tuple[float, float, float], level: float, start: float) -> Flat:
    """A flat patch whose box is a square of 10 that starts at x."""
    box = [[start, 0.0, level], [start + 10.0, 10.0, level]]
    return np.array([normal]), np.array([level]), np.array([box])


@pytest.mark.parametrize(
    ("other", "is_shared"),
    [
        (patch(UP, 5.0, 4.0), True),
        (patch(UP, 5.4, 4.0), True),  # less than half a grid unit
        (patch(UP, 5.6, 4.0), False),  # another plane
        (patch(BACK, 5.0, 4.0), False),  # looks another way
        (patch(UP, 5.0, 10.0), False),  # only an edge in common
        (patch(UP, 5.0, 40.0), False),  # elsewhere
    ],
)
def test_a_plane_is_shared_by_patches_that_overlap_in_it(other: Flat, is_shared: bool) -> None:
    assert is_shared == shared_patches._share_a_plane(patch(UP, 5.0, 0.0), other)


def test_a_filler_has_two_ends_and_a_wall_for_each_stretch_of_its_outline() -> None:
    """Over a square of 4 with a hole of 2, 3 high: ends of 12, walls of 12 and 6."""
    ring = shapely.box(0, 0, 4, 4).difference(shapely.box(1, 1, 3, 3))
    found = filler(Gap(0, 1, 3.0, 7.0, np.eye(3), shapely.MultiPolygon([ring])))
    solid = found.solid
    corners = solid.vertices[solid.triangles]
    areas = (
        np.linalg.norm(
            np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]), axis=1
        )
        / 2
    )
    by_patch = np.bincount(solid.patch_of, areas)
    assert [12.0, 12.0, *[6.0] * 4, *[12.0] * 4] == pytest.approx(
        [*by_patch[:2], *sorted(by_patch[2:])]
    )
    assert (7.0, 10.0) == found.levels
    assert len(found.walls) == 8 == len(solid.patches) - 2
    for number, level in ((0, 7.0), (1, 10.0)):
        assert {level} == set(corners[solid.patch_of == number][:, :, 2].ravel())


def test_only_square_solids_are_taken_out_of_each_other():
    post, box = octagonal_leg(60, 30), board(30, 30, 60)
    places = np.array([[0.0, 0, 0], [10.0 * GRID_PER_MM, 0, 0]])
    for solids, expected in (([box, box], [(0, 1)]), ([box, post], []), ([post, box], [])):
        assert expected == list(shared_patches.flush_pairs(solids, places))
