"""What the estimate of a full job takes beside its geometry: 8 zones, 60 steps, all in ranges.

    pytest -o addopts="--import-mode=importlib" --benchmark-only tests/benchmarks

The limit is three times the geometry, or one bare import process where that is more. Only ratios
measured in one run are judged.
"""

import statistics
import subprocess
import sys
import time

import pytest

from surfacecalc import api
from surfacecalc.zones.areas import measure

ROUNDS = 9
MOST_TIMES_GEOMETRY = 3.0
BARE_IMPORTS = """
from fractions import Fraction
import numpy, manifold3d, typer, rich.table, tomli, pint
pint.UnitRegistry(non_int_type=Fraction)
"""
PART = """
[[part]]
name = "part {k}"
shape = "board"
width = 900
depth = 400
height = 20
at = [0, 0, {z}]
[[zone]]
name = "zone {k}"
faces = ["part {k}"]
surface = "bare"
"""
COAT = """
[[zone.step]]
do = "coat"
product = "product {k}"
coats = [2, 2, 3]
by = "brush"
stays_behind = true
between = {{ grit = 320, with = "disc" }}
uses = ["cloth"]
"""
SAND = """
[[zone.step]]
do = "sand"
grits = [120, 180]
with = "disc"
"""
PRODUCT = """
[[product]]
name = "product {k}"
kind = "paint"
packs = [{{ size = "250 ml", price = 9 }}, {{ size = "1 L", price = 24 }}]
"""
SHELF = """
[[abrasive]]
name = "disc"
form = "125 mm disc"
packs = [{ count = 10, price = 8 }, { count = 50, price = 30 }]
[[consumable]]
name = "cloth"
lasts = ["1 m2", "2 m2", "3 m2"]
packs = [{ count = 12, price = 9 }]
"""


def job_text() -> str:
    """Return a job of 8 zones and 60 steps: 30 of coats of 16 products, 30 of sanding."""
    text = '[piece]\nname = "full job"\nunit = "mm"\n'
    for k in range(8):
        pairs = 4 if k < 6 else 3
        text += PART.format(k=k, z=25 * k)
        text += "".join(SAND + COAT.format(k=2 * k + pair % 2) for pair in range(pairs))
    return text + "".join(PRODUCT.format(k=k) for k in range(16)) + SHELF


def seconds(work) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


@pytest.mark.benchmark(group="whole job")
def test_estimate_beside_the_geometry(benchmark) -> None:
    job = api.measure(api.read_piece_text(job_text()))
    piece = job.piece
    assert (8, 60) == (len(piece.zones), sum(len(zone.steps) for zone in piece.zones))

    def bare_process() -> None:
        subprocess.run([sys.executable, "-c", BARE_IMPORTS], check=True)

    works = {
        "estimate": lambda: api.supplies(job),
        "geometry": lambda: measure(piece),
        "bare": bare_process,
    }
    times: dict[str, list[float]] = {name: [] for name in works}
    for _ in range(ROUNDS):  # in turns, so that load falls on all alike
        for name, work in works.items():
            times[name].append(seconds(work))
    found = {name: statistics.median(values) for name, values in times.items()}
    allowed = max(MOST_TIMES_GEOMETRY * found["geometry"], found["bare"])
    benchmark.extra_info.update(found, share_of_allowed=found["estimate"] / allowed)
    benchmark.pedantic(works["estimate"], rounds=1)
    print(found)
    assert found["estimate"] <= allowed
