"""What the rules of a plan take beside a plan without them: 8 zones of one body, 120 tasks.

    pytest -o addopts="--import-mode=importlib" --benchmark-only tests/benchmarks

Under the rules the order is looked for among those that keep dust off wet films, and once more
without the rules, to say what these cost. So it may take three times as long, and no more.
"""

import statistics
import time
from dataclasses import replace
from datetime import datetime

import pytest
from piece_texts import BOARD, measured, piece_text

from surfacecalc import api

ZONES = 8
ROUNDS = 5
MOST_TIMES_WITHOUT = 3.0
START = datetime(2026, 11, 28, 9)
SAND = {"do": "sand", "grits": [120, 180], "with": "disc"}
COAT = {"do": "coat", "product": "paint", "coats": 2, "by": "brush"}
DENIB = {**COAT, "between": {"grit": 320, "with": "disc"}}
STEPS = [SAND, DENIB, SAND, DENIB, SAND, COAT, COAT]


def job():
    """Return a job of 8 boards, each a zone of its own with 16 tasks."""
    names = [f"board {k}" for k in range(ZONES)]
    return measured(
        piece_text(
            part=[{**BOARD, "name": name, "at": [0, 0, 50 * k]} for k, name in enumerate(names)],
            zone=[{"name": n, "faces": [n], "surface": "bare", "step": STEPS} for n in names],
            product=[{"name": "paint", "kind": "waterborne furniture paint"}],
            abrasive=[{"name": "disc", "form": "125 mm disc"}],
        )
    )


def seconds(work) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


@pytest.mark.benchmark(group="whole job")
def test_rules_beside_the_plan_without_them(benchmark) -> None:
    clean = job()
    workshop = replace(clean.piece.workshop, sand_near_wet=True)
    dusty = replace(clean, piece=replace(clean.piece, workshop=workshop))
    assert 16 * ZONES == len(api.plan(clean, START).entries)
    works = {"rules": lambda: api.plan(clean, START), "without": lambda: api.plan(dusty, START)}
    times: dict[str, list[float]] = {name: [] for name in works}
    for _ in range(ROUNDS):  # in turns, so that load falls on both
        for name, work in works.items():
            times[name].append(seconds(work))
    found = {name: statistics.median(values) for name, values in times.items()}
    benchmark.extra_info.update(found)
    benchmark.pedantic(works["rules"], rounds=1)
    print(found)
    assert found["rules"] <= MOST_TIMES_WITHOUT * found["without"]
