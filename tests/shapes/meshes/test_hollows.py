"""Hollows behind doors: open or closed by the width of the crack, whatever the number of rays.

Cabinets of known areas, whose doors leave a crack of a known width, are measured by rays alone.
Unless said otherwise, a tolerance is two standard errors as the result states them.
"""

import numpy as np
import pytest
from open_mesh_makers import block, cabinet, mesh_of

from shapes.meshes import settled_reach
from shapes.meshes.mesh_exposure import mesh_exposure
from shapes.meshes.visibility import SeenArea, reach
from surfacecalc.reading.solids.mesh_notes import SURE

pytest.importorskip("trimesh")
pytest.importorskip("embreex")

SIZE = (600, 400, 800)


def seen(mesh, **options):
    return mesh_exposure(mesh, way="reach", **options)


@pytest.mark.parametrize("crack", [2, 8])
def test_the_areas_of_the_cabinets_are_those_of_the_solid_kernel(crack):
    mesh, outside, inside = cabinet(SIZE, 18, crack, shelves=2)
    assert outside + inside == pytest.approx(mesh_exposure(mesh).area_mm2, rel=1e-9)


@pytest.mark.parametrize("crack", [0.3, 0.9])
def test_what_is_behind_a_crack_narrower_than_the_gap_is_closed_and_its_area_given(crack):
    mesh, outside, inside = cabinet(SIZE, 18, crack, shelves=1)
    found = seen(mesh)
    assert outside == pytest.approx(found.area_mm2, abs=3 * found.error_mm2)
    assert inside == pytest.approx(found.behind_mm2, rel=0.01)
    assert found.narrow_mm2 < 1e-3 * outside


@pytest.mark.parametrize("crack", [1.1, 1.5, 4.5])
def test_what_is_behind_a_wider_crack_is_reached_and_its_area_given(crack):
    mesh, outside, inside = cabinet(SIZE, 18, crack, shelves=1)
    found = seen(mesh)
    assert outside + inside == pytest.approx(found.area_mm2, abs=3 * found.error_mm2)
    assert inside == pytest.approx(found.narrow_mm2, rel=0.01)
    assert found.behind_mm2 < 1e-3 * outside


@pytest.mark.parametrize("crack", [6, 20])
def test_what_is_behind_a_door_that_is_ajar_is_reached_and_not_named(crack):
    mesh, outside, inside = cabinet(SIZE, 18, crack, shelves=1)
    found = seen(mesh)
    assert outside + inside == pytest.approx(found.area_mm2, abs=3 * found.error_mm2)
    assert found.narrow_mm2 < 1e-3 * outside


@pytest.mark.parametrize(("gap", "is_closed"), [(2, False), (2.9, False), (3.1, True), (5, True)])
def test_the_gap_of_the_piece_decides(gap, is_closed):
    mesh, outside, inside = cabinet(SIZE, 18, 3, shelves=1)
    found = seen(mesh, gap=gap, points=4_000)
    expected = outside if is_closed else outside + inside
    assert expected == pytest.approx(found.area_mm2, abs=3 * found.error_mm2)


def test_a_crack_that_leans_is_as_wide_as_it_is():
    """The same doors, turned about an axis that is askew to everything."""
    axis = np.array([2.0, 3.0, 6.0]) / 7
    cross = np.cross(np.eye(3), axis)
    turn = np.eye(3) + np.sin(0.7) * cross + (1 - np.cos(0.7)) * cross @ cross
    for crack, is_closed in ((0.9, True), (1.1, False)):
        mesh, outside, inside = cabinet(SIZE, 18, crack)
        mesh.vertices[:] = mesh.vertices @ turn
        found = seen(mesh, points=6_000)
        expected = outside if is_closed else outside + inside
        assert expected == pytest.approx(found.area_mm2, abs=3 * found.error_mm2)


def test_sixteen_times_the_rays_and_the_truth_lie_within_the_error_that_is_stated():
    """Cabinets of random sizes with random cracks: 95 % within what a note says."""
    rng, within, true = np.random.default_rng(10), [], []
    for seed in range(40):
        size = rng.uniform(200, 900, 3)
        crack = float(np.exp(rng.uniform(np.log(0.2), np.log(20))))
        mesh, outside, inside = cabinet(size, rng.uniform(6, 22), crack, int(rng.integers(0, 3)))
        few = seen(mesh, points=500, directions=16, seed=seed)
        many = seen(mesh, points=2_000, directions=64, seed=seed + 100)
        stated = SURE * few.error_mm2
        within.append(abs(many.area_mm2 - few.area_mm2) <= stated)
        area = outside + inside * (crack > 1)
        true.append(abs(area - few.area_mm2) <= stated)
    assert np.mean(within) >= 0.95
    assert np.mean(true) >= 0.95


def holed_box(hole):
    """Return a box of 400 mm with walls of 3 mm and a square hole, and its area outside and in."""
    half, near = 200, hole / 2
    plates = [
        ("wall", block((-half, -half, half - 3), (-near, half, half))),
        ("wall", block((near, -half, half - 3), (half, half, half))),
        ("wall", block((-near, -half, half - 3), (near, -near, half))),
        ("wall", block((-near, near, half - 3), (near, half, half))),
        ("wall", block((-half, -half, -half), (half, half, -half + 3))),
    ]
    for axis in (0, 1):
        for side in (-half, half - 3):
            low, high = [-float(half)] * 3, [float(half)] * 3
            low[axis], high[axis] = side, side + 3
            plates.append(("wall", block(low, high)))
    outside = 6 * 400**2 - hole**2
    return mesh_of(plates), outside, 6 * 394**2 - hole**2 + 4 * hole * 3


def test_a_hollow_that_few_lines_lead_out_of_makes_the_error_half_its_area():
    """Through a hole of 20 mm in a box of 400 mm, few lines of 400 points are seen to leave."""
    mesh, outside, inside = holed_box(20)
    opened = []
    for seed in range(16):
        found = by_reach(mesh, seed)
        if found.areas.sum() > 1.5 * outside:
            opened.append(found.error > 0.4 * inside)
            assert found.areas.sum() == pytest.approx(outside + inside, rel=0.1)
        if found.error > 0.4 * inside:
            assert found.error == pytest.approx(inside / 2, rel=0.1)
    assert len(opened) > 1
    # one line that all others see may seem to be many
    assert np.mean(opened) > 0.75


def by_reach(mesh, seed):
    return reach(
        mesh.vertices, mesh.triangles, mesh.region_of, 1, points=400, directions=8, seed=seed
    )


@pytest.mark.parametrize("answers", [(1.0, 1.02, 9.0), (1.0, 5.0, 1.0, 5.0)])
def test_points_are_multiplied_while_the_answer_moves_and_the_last_move_is_error(
    answers, monkeypatch
):
    asked = []

    def fake(*_, points, **__):
        asked.append(points)
        area = answers[len(asked) - 1]
        return SeenArea(np.array([area]), np.array([0.02]), 0.02, points, 64, 100)

    monkeypatch.setattr(settled_reach, "reach", fake)
    none = np.zeros((0, 3))
    found = settled_reach.settled_reach(none, none.astype(int), np.zeros(0, int), 1, points=800)
    if answers[1] < 2:
        assert asked == [200, 800]
        assert (found.areas.tolist(), found.error, found.rays) == ([1.02], 0.02, 200)
    else:
        assert asked == [200, 800, 3200, 12800]
        assert (found.areas.tolist(), found.rays) == ([5.0], 400)
        assert settled_reach.AGREED * found.error == pytest.approx(4.0, rel=1e-3)
        assert found.errors.tolist() == pytest.approx([found.error])
