"""How time and memory of a row of spindles grow with their number.

    pytest --import-mode=importlib -o addopts= --benchmark-only tests/benchmarks

Time is judged as a ratio within one run. Memory is that of a process of its own, which does nothing
else; it is the same on every machine but for what the kernel keeps for each core.
"""

import statistics
import subprocess
import sys
import time
from pathlib import Path

import pytest

from shapes.boards import board
from shapes.exposure import exposure
from shapes.placement import place, row
from shapes.spindles import spindle

ROUNDS = 3
MOST_TIMES_OF_FOUR = 5.5
"""400 spindles beside 100: 4 is proportional, 16 would be every pair."""
MOST_MB_EACH = 2.5
MOST_MB = 2_048.0

PROFILE: list[list[float | str]] = [[0, 4], [60, 5], [250, 7], [440, 5], [500, 3.5]]
STEP = 9.0

RUN = """
import sys
from pathlib import Path
sys.path.insert(0, {folder!r})
import test_spindle_rows as rows
rows.exposure(rows.gallery({count}))
status = Path("/proc/self/status").read_text()  # getrusage would count the parent's memory as well
print(int(status.split("VmHWM:")[1].split()[0]) / 1024)
"""


def gallery(count):
    """Return two rails and spindles that are tenoned into both."""
    long = STEP * count + 40
    return [
        place("seat", board(long, 60, 40)),
        place("rail", board(long, 60, 40), (0, 0, 520)),
        *row("spindle", spindle(PROFILE), (20, 26, 30), of=count, apart=(STEP, 0, 0)),
    ]


def processor_time(parts):
    start = time.process_time()
    exposure(parts)
    return time.process_time() - start


def test_four_times_as_many_spindles_take_about_four_times_as_long(benchmark):
    few, many = gallery(100), gallery(400)
    exposure(few)
    least = statistics.median(processor_time(few) for _ in range(ROUNDS))
    times = []
    benchmark.pedantic(lambda: times.append(processor_time(many)), rounds=ROUNDS)
    ratio = statistics.median(times) / least
    benchmark.extra_info["times as long"] = round(ratio, 2)
    assert ratio <= MOST_TIMES_OF_FOUR


@pytest.mark.skipif(sys.platform != "linux", reason="the peak is read from /proc")
@pytest.mark.parametrize("count", [200, 1_000])
def test_memory_grows_little_for_each_spindle(benchmark, count):
    folder = str(Path(__file__).parent)
    code = RUN.format(folder=folder, count=count)
    found = benchmark.pedantic(
        lambda: subprocess.run(
            [sys.executable, "-c", code], capture_output=True, text=True, check=True
        ),
        rounds=1,
    )
    peak = float(found.stdout)
    benchmark.extra_info["MB"] = round(peak)
    assert peak <= min(MOST_MB, 100 + MOST_MB_EACH * count)
