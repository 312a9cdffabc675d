"""Many piece files in one call, as a ratio to the same files one after another in one process.

Run: pytest -o addopts="--import-mode=importlib" --benchmark-only tests/benchmarks
"""

import os
import shutil
import time
from functools import partial
from pathlib import Path

import pytest

from surfacecalc.commands.areas_and_supplies import areas_of
from surfacecalc.commands.many_files import _answer, work_on_each

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
FILES = 200
AT_MOST = 0.8
"""Two cores would halve the time at best; starting the workers takes some of that."""


@pytest.mark.skipif((os.cpu_count() or 1) < 2, reason="needs two cores")
def test_areas_of_200_files_are_spread_over_the_cores(benchmark, tmp_path: Path) -> None:
    files = []
    for mesh in EXAMPLES[0].parent.glob("*.obj"):
        shutil.copy(mesh, tmp_path)
    for number in range(FILES):
        source = EXAMPLES[number % len(EXAMPLES)]
        files.append(Path(shutil.copy(source, tmp_path / f"{number}.toml")))
    work = partial(areas_of, json=True, unit=None, faces=False)
    start = time.perf_counter()
    alone = [_answer(work, file) for file in files]
    one_by_one = time.perf_counter() - start
    together = benchmark.pedantic(lambda: list(work_on_each(work, files)), rounds=1)
    assert alone == together
    ratio = benchmark.stats.stats.median / one_by_one
    benchmark.extra_info["ratio"] = ratio
    assert ratio <= AT_MOST
