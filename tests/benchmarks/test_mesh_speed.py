"""How long large meshes take beside what their libraries alone take.

    pytest --import-mode=importlib -o addopts= --benchmark-only tests/benchmarks/test_meshes.py

Only ratios measured in one run are judged, never absolute times. The million triangles stand in a
binary STL file, the commonest kind, where corners come three to a triangle and have to be found
equal before anything is known of the body, on both sides; and in PLY and GLB files, where they are
numbered and loading is a matter of copying. Each kind is compared with the loading of that kind.
"""

import re
import statistics
import subprocess
import sys
import time
from pathlib import Path

import numpy as np
import pytest

from shapes.meshes.imported import ImportedMesh
from shapes.meshes.mesh_exposure import mesh_exposure
from shapes.meshes.mesh_files import read_mesh
from shapes.meshes.rays import Caster
from shapes.meshes.sight import LIFT

KINDS = ("stl", "ply", "glb")
ROUNDS = 5
MOST_TIMES_LOAD = 2.5
MOST_TIMES_RAYS = 2.0
MOST_MEMORY = 1.5e9
"""Bytes at the peak, of a process of its own, with all libraries."""


PEAK_OF_ONE = """
import pathlib, re, resource, sys
from shapes.meshes.mesh_files import read_mesh
from shapes.meshes.mesh_exposure import mesh_exposure
assert mesh_exposure(read_mesh(sys.argv[1], 1)).way == 'union'
status = pathlib.Path('/proc/self/status')
if status.exists():  # getrusage would tell the peak of the process that started this one, if higher
    print(1024 * int(re.search(r'VmHWM:\\s*(\\d+) kB', status.read_text())[1]))
else:
    unit = 1 if sys.platform == 'darwin' else 1024
    print(unit * resource.getrusage(resource.RUSAGE_SELF).ru_maxrss)
"""


def turned(around, along, length=700.0):
    """Return corners and triangles of a turned leg, closed at both ends."""
    angles = np.arange(around) * 2 * np.pi / around
    z = np.linspace(0, length, along + 1)
    radius = 25 + 6 * np.sin(9 * np.pi * z / length)
    side = np.stack(
        [
            np.outer(radius, np.cos(angles)),
            np.outer(radius, np.sin(angles)),
            np.outer(z, np.ones(around)),
        ],
        axis=-1,
    ).reshape(-1, 3)
    number = np.arange(len(side)).reshape(along + 1, around)
    after = np.roll(number, -1, axis=1)
    a, b, c, d = number[:-1], after[:-1], after[1:], number[1:]
    sides = [np.stack(three, axis=-1).reshape(-1, 3) for three in ((a, b, c), (a, c, d))]
    low, high = np.full(around, len(side)), np.full(around, len(side) + 1)
    ends = [np.stack([after[0], number[0], low], 1), np.stack([number[-1], after[-1], high], 1)]
    corners = np.vstack([side, [[0, 0, 0], [0, 0, length]]])
    return corners, np.concatenate([*sides, *ends])


@pytest.fixture(scope="module")
def million(tmp_path_factory):
    """Return the folder of a closed mesh of 1 002 000 triangles: million.stl, .ply and .glb."""
    import trimesh

    folder = tmp_path_factory.mktemp("meshes")
    vertices, faces = turned(1000, 500)
    mesh = trimesh.Trimesh(vertices, faces, process=False)
    for kind in KINDS:
        mesh.export(folder / f"million.{kind}")
    return folder


def timed(call):
    start = time.perf_counter()
    result = call()
    return time.perf_counter() - start, result


@pytest.mark.parametrize("kind", KINDS)
def test_a_million_triangles_take_at_most_two_and_a_half_times_their_loading(
    benchmark, million, kind
):
    import trimesh

    path = million / f"million.{kind}"
    loads = []

    def load():
        loads.append(timed(lambda: trimesh.load_mesh(path).area))

    load()  # warm, as the other is
    loads.clear()
    # turn about, so that what else the machine does falls on both
    seen = benchmark.pedantic(
        lambda: mesh_exposure(read_mesh(path, 1)), setup=load, rounds=ROUNDS, warmup_rounds=1
    )
    assert seen.way == "union"
    # 1e-6: corners rounded to the grid, on edges of 0.2 mm and more
    assert loads[0][1] == pytest.approx(seen.area_mm2, rel=1e-6)
    ratio = benchmark.stats.stats.median / statistics.median(load[0] for load in loads)
    benchmark.extra_info["times loading and summing"] = round(ratio, 2)
    assert ratio <= MOST_TIMES_LOAD


@pytest.mark.parametrize("kind", KINDS)
def test_a_million_triangles_stay_within_one_and_a_half_gigabytes(benchmark, million, kind):
    root = Path(__file__).parents[2]
    run = benchmark.pedantic(
        lambda: subprocess.run(
            [sys.executable, "-c", PEAK_OF_ONE, str(million / f"million.{kind}")],
            cwd=root,
            capture_output=True,
            text=True,
            check=True,
        )
    )
    peak = int(run.stdout)
    benchmark.extra_info["peak bytes"] = peak
    assert peak <= MOST_MEMORY


def nested_tubes():
    """Return some 100 000 triangles: four open turned legs, each with an open core."""
    pieces = []
    for place in range(4):
        for share in (1.0, 0.6):
            corners, faces = turned(78, 80)
            at = [300 * (place % 2), 300 * (place // 2), 0]
            pieces.append((corners * [share, share, 1] + at, faces[: 2 * 78 * 80]))
    starts = np.cumsum([0, *[len(corners) for corners, _ in pieces]])
    faces = [part + start for (_, part), start in zip(pieces, starts, strict=False)]
    region = np.repeat(np.arange(8) // 2, [len(part) for part in faces])
    names = ("first", "second", "third", "fourth")
    corners = np.concatenate([corners for corners, _ in pieces])
    return ImportedMesh(corners, np.concatenate(faces), region, names)


def bare_rays(mesh, count):
    """Return the time to cast so many rays from the mesh, the tree over its triangles included."""
    rng = np.random.default_rng(1)
    middle, size = mesh.vertices.mean(axis=0), np.ptp(mesh.vertices, axis=0).max() / 2
    corners = (mesh.vertices - middle) / size
    chosen = rng.integers(0, len(mesh.triangles), count)
    a, b, c = (corners[mesh.triangles[chosen, k]] for k in range(3))
    directions = rng.normal(size=(count, 3))
    directions /= np.linalg.norm(directions, axis=1, keepdims=True)
    normals = np.cross(b - a, c - a)
    normals /= np.linalg.norm(normals, axis=1, keepdims=True)
    side = np.sign((normals * directions).sum(axis=1, keepdims=True))
    origins = ((a + b + c) / 3 + LIFT * side * normals).astype(np.float32)
    ways = directions.astype(np.float32)
    return timed(lambda: Caster(corners, mesh.triangles).hits(origins, ways))[0]


def test_a_hundred_thousand_triangles_take_at_most_twice_their_bare_rays(benchmark):
    mesh = nested_tubes()
    seen = benchmark.pedantic(lambda: mesh_exposure(mesh), rounds=2 * ROUNDS, warmup_rounds=1)
    assert seen.way == "reach"
    assert seen.error_mm2 < 0.01 * seen.area_mm2
    rays = int(re.search(r"(\d+) rays", seen.notes[0])[1])
    bare = statistics.median(bare_rays(mesh, rays) for _ in range(2 * ROUNDS))
    ratio = benchmark.stats.stats.median / bare
    benchmark.extra_info |= {"times the bare rays": round(ratio, 2), "rays": rays}
    assert ratio <= MOST_TIMES_RAYS
