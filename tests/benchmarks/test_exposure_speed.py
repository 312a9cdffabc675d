"""How long exposure takes beside what else could do the work, and how that grows.

    pytest --import-mode=importlib -o addopts= --benchmark-only tests/benchmarks/test_exposure.py

Only ratios measured in one run are judged, never absolute times. What is measured is `exposure`
with all that it returns: areas by face, sealed voids, lines where faces meet, the search for gaps.
Making the parts (`board`, `place`) is outside on all sides; making the kernels' own solids from
them is inside on all sides.
"""

import math
import statistics
import time

import manifold3d
import numpy as np
import pytest

from shapes.boards import board
from shapes.exposure import exposure
from shapes.placement import place

SIZE = (40.0, 30.0, 20.0)
ROUNDS = 5
"""Medians of so many runs: one that the machine held up does not count."""

MOST_TIMES_BARE_UNION = 3.0
LEAST_TIMES_FASTER_THAN_CAD = 8.0
STEEPEST_GROWTH = 1.3
"""Exponent of time over number of parts: 1 is proportional, 2 would be every pair."""

COUNTS = (500, 1_000, 2_000, 5_000)


def block(count):
    """Return boxes packed without air, as near to a cube of boxes as the count allows."""
    edge = math.ceil(round(count ** (1 / 3), 9))
    return [_box(k, k % edge, k // edge % edge, k // edge**2) for k in range(count)]


def rows(count):
    """Return rows of 50 boxes that touch in their row; the rows stand apart."""
    return [_box(k, k % 50, 3 * (k // 50), 0) for k in range(count)]


def _box(number, *at):
    return place(f"box {number}", board(*SIZE), [n * s for n, s in zip(at, SIZE, strict=True)])


ARRANGEMENTS = {"block": block, "rows": rows}
AREAS_MM2 = {
    # a block of 10 x 10 x 10 boxes; 20 rows of 50
    "block": 2.0 * (400 * 300 + 400 * 200 + 300 * 200),
    "rows": 20 * 2.0 * (2000 * 30 + 2000 * 20 + 30 * 20),
}


def bare_union(parts, at_once):
    """Join the parts with the kernel alone, from the same arrays and with ids, and read it out."""
    first = manifold3d.Manifold.reserve_ids(len(parts))
    bodies = [
        manifold3d.Manifold(
            manifold3d.Mesh64(
                vert_properties=part.solid.vertices + np.array(part.at, dtype=np.float64),
                tri_verts=part.solid.triangles.astype(np.uint64),
                run_index=np.array([0, 3 * len(part.solid.triangles)], dtype=np.uint64),
                run_original_id=np.array([first + k], dtype=np.uint32),
                face_id=part.solid.patch_of.astype(np.uint64),
            )
        )
        for k, part in enumerate(parts)
    ]
    while len(bodies) > 1:
        groups = [bodies[k : k + at_once] for k in range(0, len(bodies), at_once)]
        bodies = [manifold3d.Manifold.batch_boolean(g, manifold3d.OpType.Add) for g in groups]
        assert all(body.status() == manifold3d.Error.NoError for body in bodies)
    return bodies[0].to_mesh64()


def fastest_bare_union(parts):
    """Return the median time of the faster way: all in one call, or neighbours first."""
    return min(median_time(bare_union, parts, at_once) for at_once in (len(parts), 16))


def cad_fuse(parts):
    """Fuse the same boxes with Open CASCADE."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Fuse
    from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox
    from OCP.collections import List_TopoDS_Shape
    from OCP.gp import gp_Pnt

    arguments, tools = List_TopoDS_Shape(), List_TopoDS_Shape()
    for number, part in enumerate(parts):
        corner = gp_Pnt(*[units / 80_000 for units in part.at])
        (tools if number else arguments).Append(BRepPrimAPI_MakeBox(corner, *SIZE).Shape())
    operation = BRepAlgoAPI_Fuse()
    operation.SetArguments(arguments)
    operation.SetTools(tools)
    operation.Build()
    assert operation.IsDone()
    return operation.Shape()


def median_time(call, *arguments, rounds=ROUNDS):
    times = []
    for _ in range(rounds):
        start = time.perf_counter()
        call(*arguments)
        times.append(time.perf_counter() - start)
    return statistics.median(times)


def measured(benchmark, parts):
    """Return the median time of exposure, and what it found."""
    shown = benchmark.pedantic(exposure, (parts,), rounds=ROUNDS, warmup_rounds=1)
    return benchmark.stats.stats.median, shown


@pytest.mark.parametrize("name", ARRANGEMENTS)
def test_exposure_takes_at_most_three_times_the_bare_union(benchmark, name):
    parts = ARRANGEMENTS[name](1_000)
    ours, shown = measured(benchmark, parts)
    # 1e-9: the sum of some thousands of rounded terms
    assert AREAS_MM2[name] == pytest.approx(shown.area_mm2, rel=1e-9)
    ratio = ours / fastest_bare_union(parts)
    benchmark.extra_info["times the bare union"] = round(ratio, 2)
    assert ratio <= MOST_TIMES_BARE_UNION


@pytest.mark.parametrize("name", ARRANGEMENTS)
def test_exposure_is_at_least_eight_times_faster_than_a_cad_kernel(benchmark, name):
    pytest.importorskip("OCP")
    parts = ARRANGEMENTS[name](1_000)
    ours, _ = measured(benchmark, parts)
    ratio = median_time(cad_fuse, parts, rounds=3) / ours
    benchmark.extra_info["times faster than CAD"] = round(ratio, 1)
    assert ratio >= LEAST_TIMES_FASTER_THAN_CAD


@pytest.mark.parametrize("name", ARRANGEMENTS)
def test_time_grows_little_more_than_the_number_of_parts(benchmark, name):
    piles = [ARRANGEMENTS[name](count) for count in COUNTS]
    exposure(piles[0])
    times = [median_time(exposure, pile, rounds=3) for pile in piles[:-1]]
    times.append(measured(benchmark, piles[-1])[0])
    exponent = float(np.polyfit(np.log(COUNTS), np.log(times), 1)[0])
    benchmark.extra_info["exponent"] = round(exponent, 2)
    assert exponent <= STEEPEST_GROWTH
