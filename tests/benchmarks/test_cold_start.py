"""How long a cold process takes beside one that only imports what the work cannot do without.

    pytest -o addopts="--import-mode=importlib" --benchmark-only tests/benchmarks

Only ratios measured in one run are judged, never absolute times. The two processes take turns,
so that load on the machine falls on both alike. Both may keep their bytecode, as an installed
program does: without it the time to compile our modules would be taken for a start.
"""

import os
import statistics
import subprocess
import sys
import time
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
ROUNDS = 15
"""Medians of so many processes of each kind."""
MOST_TIMES_IMPORTS = 2.8
"""The goal is 1.3; see DEVELOPERS.md for what the rest is."""
MOST_TIMES_TYPER = 1.7

WORK_IMPORTS = "import numpy, manifold3d, typer"
HELP_IMPORTS = "import typer"

BENCH = """
# A piano bench from a stock list in a workshop manual of 1912, Project Gutenberg eBook 23666
[piece]
name = "Bench"
unit = "in"
PARTS
[[zone]]
name = "seat"
faces = ["top"]
surface = "bare"
schedule = "finish"
[[zone]]
name = "frame"
faces = ["*"]
surface = "bare"
schedule = "finish"
[[schedule.finish]]
do = "coat"
product = "oil"
coats = 1
by = "cloth"
[[schedule.finish]]
do = "coat"
product = "shellac"
coats = 1
by = "brush"
[[schedule.finish]]
do = "sand"
grits = [220]
with = "sheet"
[[schedule.finish]]
do = "coat"
product = "wax"
coats = 3
by = "cloth"
[[product]]
name = "oil"
kind = "drying oil"
covers = ["8 m2/L", "10 m2/L", "14 m2/L"]
packs = [{ size = "250 ml", price = 9 }, { size = "1 L", price = 21 }]
[[product]]
name = "shellac"
kind = "shellac"
covers = ["300 ft2/gallon", "350 ft2/gallon", "400 ft2/gallon"]
packs = [{ size = "1 pint", price = 14 }, { size = "1 quart", price = 23 }]
[[product]]
name = "wax"
kind = "paste wax"
covers = "250 ft2/lb"
packs = [{ size = "8 oz", price = 12 }, { size = "16 oz", price = 19 }]
[[abrasive]]
name = "sheet"
form = "9 x 11 in sheet"
life = "0.8 m2"
packs = [{ count = 5, price = 5 }]
"""
STOCK = [  # name, width, depth, height, at, how many, apart
    ("top", 40.5, 16.5, 1, [0, 0, 20], 1, [0, 0, 0]),
    ("front post", 1.5, 1.5, 20, [0.75, 0.25, 0], 2, [37.5, 0, 0]),
    ("back post", 1.5, 1.5, 20, [0.75, 14.75, 0], 2, [37.5, 0, 0]),
    ("long rail", 36, 0.875, 4.25, [2.25, 0.5625, 15.75], 2, [0, 14.5, 0]),
    ("end rail", 0.875, 13, 4.25, [1.0625, 1.75, 15.75], 2, [37.5, 0, 0]),
    ("lower rail", 0.875, 13, 2.5, [1.375, 1.75, 2.25], 2, [36.875, 0, 0]),
    ("stretcher", 36, 0.875, 3.75, [2.25, 7.8125, 1.625], 1, [0, 0, 0]),
    ("left slat", 0.375, 1.25, 11, [1.5, 4.375, 4.75], 3, [0, 3.25, 0]),
    ("right slat", 0.375, 1.25, 11, [38.6875, 4.375, 4.75], 3, [0, 3.25, 0]),
]


def part(name, width, depth, height, at, of, apart):
    lines = [f'[[part]]\nname = "{name}"\nshape = "board"\nat = {at}']
    lines += [f"width = {width}\ndepth = {depth}\nheight = {height}"]
    return "\n".join([*lines, f"row = {{ of = {of}, apart = {apart} }}" if of > 1 else "", ""])


@pytest.fixture
def bench_file(tmp_path):
    path = tmp_path / "bench.toml"
    path.write_text(BENCH.replace("PARTS", "\n".join(part(*row) for row in STOCK)))
    return path


@pytest.fixture(autouse=True)
def bytecode_is_kept(tmp_path_factory, monkeypatch):
    monkeypatch.delenv("PYTHONDONTWRITEBYTECODE", raising=False)
    monkeypatch.setenv("PYTHONPYCACHEPREFIX", str(tmp_path_factory.getbasetemp() / "bytecode"))


def run(*arguments):
    """Run a cold Python process and return what it printed."""
    path = os.pathsep.join([str(ROOT), *filter(None, [os.environ.get("PYTHONPATH")])])
    done = subprocess.run(
        [sys.executable, *arguments],
        capture_output=True, text=True, check=True, env={**os.environ, "PYTHONPATH": path},
    )  # fmt: skip
    return done.stdout


def seconds(*arguments):
    start = time.perf_counter()
    run(*arguments)
    return time.perf_counter() - start


def ratio_of_medians(benchmark, ours, bare):
    """Return how many times as long a process takes as the bare one, taking turns."""
    bare_times = []

    def bare_one():
        bare_times.append(seconds(*bare))

    run(*ours)
    run(*bare)  # both once before, so that files are in the machine's memory
    benchmark.pedantic(run, ours, rounds=ROUNDS, setup=bare_one)
    assert ROUNDS == len(bare_times)
    ratio = benchmark.stats.stats.median / statistics.median(bare_times)
    benchmark.extra_info["times the imports"] = round(ratio, 2)
    return ratio


def test_supplies_takes_at_most_so_many_times_what_its_largest_imports_take(benchmark, bench_file):
    ours = ("-m", "surfacecalc", "supplies", str(bench_file))
    assert "shellac" in run(*ours)
    assert ratio_of_medians(benchmark, ours, ("-c", WORK_IMPORTS)) <= MOST_TIMES_IMPORTS


def test_help_takes_at_most_1_7_times_what_typer_takes(benchmark):
    ours = ("-m", "surfacecalc", "--help")
    assert "supplies" in run(*ours)
    assert ratio_of_medians(benchmark, ours, ("-c", HELP_IMPORTS)) <= MOST_TIMES_TYPER
