"""What the dates in nine of ten cases take beside the plan itself: 8 zones, 120 tasks.

    pytest -o addopts="--import-mode=importlib" --benchmark-only tests/benchmarks

A plan looks for a good order among many; the dates go through that one order 200 times. So they
may take no longer than the plan, and no longer than three times their passes alone: the rest is
drawing the times. Only ratios measured in one run are judged.
"""

import statistics
import time
from datetime import datetime

import pytest
from piece_texts import BOARD, measured, piece_text

from surfacecalc import api
from surfacecalc.plans.likely_ends import RUNS, likely_ends

ZONES = 8
ROUNDS = 7
MOST_TIMES_PLAN = 1.0
MOST_TIMES_PASSES = 3.0
SAND = {"do": "sand", "grits": [120, 180], "with": "disc"}
COAT = {"do": "coat", "product": "paint", "coats": 2, "by": "brush"}
DENIB = {**COAT, "between": {"grit": 320, "with": "disc"}}
STEPS = (SAND, DENIB, SAND, DENIB, SAND, COAT, COAT)


def job():
    """Return a job of 8 boards, each a zone of its own with 16 tasks."""
    names = [f"board {k}" for k in range(ZONES)]
    return measured(
        piece_text(
            *STEPS,
            part=[{**BOARD, "name": name, "at": [0, 0, 50 * k]} for k, name in enumerate(names)],
            zone=[{"name": name, "faces": [name], "surface": "bare"} for name in names],
            product=[{"name": "paint", "kind": "waterborne furniture paint"}],
            abrasive=[{"name": "disc", "form": "125 mm disc"}],
        )
    )


def seconds(work) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


@pytest.mark.benchmark(group="whole job")
def test_dates_beside_the_plan(benchmark) -> None:
    piece = job()
    start = datetime(2026, 11, 28, 9)
    plan = api.plan(piece, start)
    assert 16 * ZONES == len(plan.entries)
    planned = [at for at in (plan.worked, plan.handled, plan.delivered, plan.used) if at]

    def passes() -> None:
        for _ in range(RUNS):
            for _ in plan.course.shop.course(plan.course.order):
                pass

    works = {
        "dates": lambda: likely_ends(plan.course, planned),
        "plan": lambda: api.plan(piece, start),
        "passes": passes,
    }
    times: dict[str, list[float]] = {name: [] for name in works}
    for _ in range(ROUNDS):  # in turns, so that load falls on all of them
        for name, work in works.items():
            times[name].append(seconds(work))
    found = {name: statistics.median(values) for name, values in times.items()}
    benchmark.extra_info.update(found)
    benchmark.pedantic(works["dates"], rounds=1)
    print(found)
    assert found["dates"] <= MOST_TIMES_PLAN * found["plan"]
    assert found["dates"] <= MOST_TIMES_PASSES * found["passes"]
