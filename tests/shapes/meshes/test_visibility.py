"""What can see out: known shares, honest errors, and work that can be watched and stopped.

Unless said otherwise, a tolerance is four standard errors as the result states them.
"""

import numpy as np
import pytest

from shapes.meshes.imported import ImportedMesh
from shapes.meshes.mesh_exposure import mesh_exposure
from shapes.meshes.visibility import reach

pytest.importorskip("trimesh")
pytest.importorskip("embreex")


def sheet(width, depth, at=(0, 0, 0), cells=1, up=True):
    """Return corners and triangles of a flat, level sheet."""
    across, along = np.meshgrid(
        np.linspace(0, width, cells + 1), np.linspace(0, depth, cells + 1), indexing="ij"
    )
    corners = np.stack([across, along, 0 * across], axis=-1).reshape(-1, 3) + at
    number = np.arange(len(corners)).reshape(cells + 1, cells + 1)
    a, b, c, d = number[:-1, :-1], number[1:, :-1], number[1:, 1:], number[:-1, 1:]
    faces = np.concatenate(
        [np.stack(three, axis=-1).reshape(-1, 3) for three in ((a, b, c), (a, c, d))]
    )
    return corners, faces if up else faces[:, ::-1]


def ball(radius, steps=24, at=(0, 0, 0)):
    """Return corners and triangles of a ball, open at a small hole at each pole."""
    height = np.cos(np.linspace(0.02, np.pi - 0.02, steps + 1))
    around = np.arange(2 * steps) * np.pi / steps
    flat = np.sqrt(1 - height**2)
    corners = radius * np.stack(
        [
            np.outer(flat, np.cos(around)),
            np.outer(flat, np.sin(around)),
            np.outer(height, np.ones(2 * steps)),
        ],
        axis=-1,
    ).reshape(-1, 3)
    number = np.arange(len(corners)).reshape(steps + 1, -1)
    after = np.roll(number, -1, axis=1)
    a, b, c, d = number[:-1], number[1:], after[1:], after[:-1]
    faces = np.concatenate(
        [np.stack(three, axis=-1).reshape(-1, 3) for three in ((a, b, c), (a, c, d))]
    )
    return corners + at, faces


def joined(*pieces):
    starts = np.cumsum([0, *[len(corners) for corners, _ in pieces]])
    faces = [part + start for (_, part), start in zip(pieces, starts, strict=False)]
    region = np.repeat(np.arange(len(pieces)), [len(part) for part in faces])
    return np.concatenate([corners for corners, _ in pieces]), np.concatenate(faces), region


def found(*pieces, **options):
    corners, faces, region = joined(*pieces)
    return reach(corners, faces, region, len(pieces), **options)


def mesh(*pieces):
    corners, faces, region = joined(*pieces)
    return ImportedMesh(corners, faces, region, tuple("abcdef"[: len(pieces)]))


def test_a_sheet_alone_is_seen_whole_and_counted_once():
    result = found(sheet(300, 200))
    assert result.areas.tolist() == [60_000.0]
    # as if one more of two points had not seen out: 1 in 20 000
    assert 0 < result.error < 60_000 * 2e-4


@pytest.mark.parametrize("up", [True, False])
def test_sheets_that_lie_on_each_other_count_once_however_they_are_cut(up):
    """Other triangles, other side up: as exporters draw what is to be seen from both sides."""
    result = found(sheet(300, 200), sheet(300, 200, cells=7, up=up))
    assert result.areas.sum() == pytest.approx(60_000, abs=4 * result.error)


def test_sheets_half_on_each_other_count_their_common_part_once():
    result = found(sheet(300, 200, cells=3), sheet(300, 200, (150, 0, 0), cells=5))
    assert result.areas.sum() == pytest.approx(90_000, abs=4 * result.error)


def test_sheets_with_air_between_are_both_seen():
    result = found(sheet(300, 200), sheet(300, 200, (0, 0, 20)))
    assert result.areas.tolist() == pytest.approx([60_000, 60_000], abs=4 * result.error)


def test_what_a_ball_holds_is_hidden():
    """A ball with two holes of 4 mm, which a gap of 5 mm closes."""
    result = found(ball(100), ball(40), gap=5.0)
    assert result.areas[1] < 0.02 * 4 * np.pi * 40**2
    corners, faces, _ = joined(ball(100))
    whole = (
        np.linalg.norm(
            np.cross(
                corners[faces[:, 1]] - corners[faces[:, 0]],
                corners[faces[:, 2]] - corners[faces[:, 0]],
            ),
            axis=1,
        ).sum()
        / 2
    )
    assert result.areas[0] == pytest.approx(whole, rel=1e-3)


def test_half_of_a_sheet_that_sticks_out_of_a_ball_is_seen():
    result = found(ball(100, 48), sheet(200, 20, (0, -10, 0)), gap=5.0)
    # 4 standard errors, and the ball's facets, within 1 - cos(pi / 48) of its radius
    assert result.areas[1] == pytest.approx(200 * 20 / 2, abs=4 * result.errors[1] + 0.3 * 20)


def test_more_points_make_the_error_smaller_as_one_over_their_root_or_better():
    pieces = ball(100), sheet(200, 20, (0, -10, 0)), ball(60, at=(80, 0, 0))
    few, many = (found(*pieces, points=points, gap=5.0) for points in (2_000, 32_000))
    # 16 times the points: a quarter; 0.35 leaves room for what the estimate itself scatters
    assert many.error < 0.35 * few.error


def test_the_stated_error_is_what_answers_scatter_by():
    pieces = ball(100), sheet(200, 20, (0, -10, 0)), ball(60, at=(80, 0, 0))
    results = [
        found(*pieces, points=2_000, directions=32, seed=seed, gap=5.0) for seed in range(30)
    ]
    scatter = np.std([result.areas.sum() for result in results], ddof=1)
    stated = np.mean([result.error for result in results])
    # pairs of shares overstate it, never by much; 30 answers tell the scatter to 13 %
    assert 0.3 * stated < scatter < 1.4 * stated


def test_one_seed_gives_one_answer_and_another_seed_another():
    pieces = ball(100), ball(60, at=(80, 0, 0))
    first, again, other = (found(*pieces, points=2_000, seed=seed) for seed in (3, 3, 4))
    assert first.areas.tolist() == again.areas.tolist()
    assert first.areas.tolist() != other.areas.tolist()


@pytest.mark.parametrize("scale", [1e-3, 1e3])
def test_size_k_gives_k2_area(scale):
    corners, faces, region = joined(ball(100), ball(60, at=(80, 0, 0)))
    plain = reach(corners, faces, region, 2, points=4_000, gap=5.0)
    scaled = reach(corners * scale, faces, region, 2, points=4_000, gap=5.0 * scale)
    # not to the last bit: 32-bit rays may pass an edge on the other side
    assert plain.areas * scale**2 == pytest.approx(scaled.areas, rel=0.01)


def test_a_place_far_from_the_origin_changes_little():
    corners, faces, region = joined(ball(100), ball(60, at=(80, 0, 0)))
    far = corners + np.array([9_000, -9_000, 9_000])
    plain, moved = (
        reach(where, faces, region, 2, points=4_000, gap=5.0) for where in (corners, far)
    )
    assert plain.areas == pytest.approx(moved.areas, rel=0.01)  # the same reason


def test_a_small_region_gets_points_enough():
    result = found(sheet(1000, 1000), sheet(3, 3, (100, 100, 50)))
    assert result.areas[1] == pytest.approx(9)
    assert result.errors[1] < 0.01 * 9
    assert result.points > 20_000


def test_a_region_without_triangles_has_no_area_and_no_error():
    corners, faces, region = joined(sheet(10, 10))
    result = reach(corners, faces, 2 * region, 2)
    assert (result.areas.tolist(), result.errors[1]) == ([100.0, 0.0], 0.0)


def test_it_says_how_many_points_directions_and_rays_it_took():
    result = found(sheet(300, 200), points=1_000, directions=16)
    assert (result.points, result.directions) == (1_000, 16)
    # one ray to see which sheet is uppermost, one that leaves
    assert result.rays == 2_000


def test_counts_out_of_range_are_refused(check_refused):
    one = sheet(10, 10)
    for points in (99, 10_000_001):
        check_refused(lambda: found(one, points=points), "points", "100 to 10 million")  # noqa: B023
    for directions in (3, 4_097):
        check_refused(lambda: found(one, directions=directions), "directions", "4 to 4 096")  # noqa: B023


def test_progress_rises_from_0_to_1():
    told: list[float] = []
    mesh_exposure(mesh(ball(100), ball(60, at=(80, 0, 0))), progress=told.append)
    assert sorted(told) == told
    assert 0 <= told[0] < 0.5
    assert told[-1] == 1
    assert len(told) > 5


def test_an_interrupt_between_chunks_passes_through():
    def stop(share):
        if share > 0.5:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        mesh_exposure(mesh(ball(100), ball(60, at=(80, 0, 0))), progress=stop)
    # and nothing is left behind
    assert mesh_exposure(mesh(sheet(10, 10))).area_mm2 == pytest.approx(100)


def test_both_ways_agree_on_closed_bodies_that_run_through_each_other():
    """Three bars across each other, 60 mm thick and 600 long; exact by counting."""
    quads = [(0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3)]
    faces = np.array(
        [[quad[k] for k in three] for quad in quads for three in ((0, 1, 2), (0, 2, 3))]
    )
    unit = np.array([[x, y, z] for x in (0, 1) for y in (0, 1) for z in (0, 1)], dtype=np.float64)
    bars = []
    for axis in range(3):
        size = np.full(3, 60.0)
        size[axis] = 600
        bars.append(((unit - 0.5) * size, faces))
    exact = mesh_exposure(mesh(*bars))
    rays = mesh_exposure(mesh(*bars), way="reach")
    # six arms of 270 with four sides and an end each
    assert exact.area_mm2 == pytest.approx(6 * (4 * 270 * 60 + 3_600), rel=1e-9)
    assert rays.area_mm2 == pytest.approx(exact.area_mm2, abs=4 * rays.error_mm2)
    assert rays.error_mm2 < 0.01 * rays.area_mm2
