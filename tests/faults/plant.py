"""Plants faults into the source, one at a time, and asks the tests whether they notice.

    python -P tests/faults/plant.py units zones

Without a room it takes all of them. What is stored stays as it is, unless the fault is new or
survived; `--again` plants all. A fault that survives shows an answer that no test holds: write a
test, or, if nothing can ever show the fault, write `equivalent: why` in its place there.
"""

import argparse
import gc
import os
import shutil
import sys
import tempfile
from collections.abc import Iterator
from functools import partial
from pathlib import Path
from time import monotonic
from typing import TextIO

sys.path.insert(0, str(Path(__file__).parents[1] / "kit"))

import pytest
from fault_places import ROOMS, ROOT, Fault, Room, chosen
from fault_results import (
    EQUIVALENT,
    KILLED,
    SURVIVED,
    complaints,
    killed_by,
    store,
    stored,
    summary,
)
from fault_runs import Runs, Watch, watched
from fault_trials import ColdProcess, functions_in_memory, in_a_fork, warm_trial

ASKED = (
    "api", "catalogue", "cautions", "checks", "gear", "model", "needs", "plans", "prices",
    "reading", "reference", "shapes", "sheets", "supplies", "units", "work", "zones",
    "test_closeness.py", "test_elements.py", "test_job_properties.py", "test_problems.py",
)  # fmt: skip
"""The tests that are asked; the others start programs, which do not have the fault, or are slow."""
NOT_ASKED = (
    "in_browser", "printed", "test_access", "test_screens", "cad_", "test_fuzz",
    "tests/shapes/meshes/",
)  # fmt: skip
"""Slow, or about meshes, which have no room here."""
RUNS = ROOT / ".pytest_cache" / "runs-of-functions.pickle"
FILE_LIMIT_S = 600.0
"""For the tests of one file, watched; assumed: ten times what the slowest needs."""


Timed = tuple[str, float]
"""A test and its time [s]."""


class Planter:
    """The plugin that plants in place of running the tests once."""

    def __init__(self, arguments: argparse.Namespace, cold: ColdProcess, screen: TextIO) -> None:
        self.arguments = arguments
        self.cold = cold
        self.screen = screen
        self.watch = Watch()
        self.kept = (KILLED, EQUIVALENT, SURVIVED) if arguments.new else (KILLED, EQUIVALENT)

    def say(self, text: str) -> None:
        """Print, past what pytest captures."""
        print(text, file=self.screen, flush=True)

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Watch what has not been watched, then plant room by room."""
        rooms = self.arguments.rooms or list(ROOMS)
        self.items = {item.nodeid: item for item in session.items if _is_asked(item.nodeid, rooms)}
        self.runs = Runs(RUNS)
        self.look()
        self.functions = functions_in_memory()
        gc.collect()
        gc.freeze()  # what all forks share need not be looked through in each
        self.times = self.runs.times(set(self.items))
        self.by_function = self.runs.by_function(set(self.items))
        for name in rooms:
            self.plant_in(ROOMS[name])
        return True

    def look(self) -> None:
        """Run each file of tests that is new or was changed, and see which functions it runs."""
        files: dict[str, list[pytest.Item]] = {}
        for item in self.items.values():
            files.setdefault(item.nodeid.split("::")[0], []).append(item)
        for file, items in files.items():
            if self.runs.is_known(file, {item.nodeid for item in items}):
                continue
            found = in_a_fork(partial(watched, items, self.watch), FILE_LIMIT_S)
            if isinstance(found, str):
                self.say(f"{file} is left out: {found}")
                continue
            self.runs.keep(file, found)
            self.say(f"watched {file}: {sum(time for time, _ in found.values()):.1f} s")

    def plant_in(self, room: Room) -> None:
        """Plant the chosen faults of a room and store what becomes of them."""
        faults, before = chosen(room), stored(room.name)
        for complaint in complaints(room.name, faults):
            self.say(complaint)
        outcomes: dict[tuple[str, str, str], str] = {}
        for number, fault in enumerate(faults, 1):
            known = before.get(fault.key, "")
            is_kept = known.startswith(self.kept) and not self.arguments.again
            outcomes[fault.key] = known if is_kept else self.outcome(fault, room, known)
            if not is_kept:
                self.say(
                    f"{number}/{len(faults)} {' | '.join(fault.key)}\n    {outcomes[fault.key]}"
                )
                rest = {one.key: before[one.key] for one in faults[number:] if one.key in before}
                store(room.name, outcomes | rest)
        store(room.name, outcomes)
        self.say(summary(room.name, outcomes.values()))

    def outcome(self, fault: Fault, room: Room, known: str) -> str:
        """Return what becomes of a fault; what is called equivalent stays so if it survives."""
        tests = self.tests_for(fault, room)
        start_s = monotonic()
        found = self.trial(fault, list(tests), 5 + 3 * sum(tests.values()))
        if self.arguments.times:
            self.say(f"    {monotonic() - start_s:.1f} s, {len(tests)} tests")
        if found is None:
            return known if known.startswith(EQUIVALENT) else SURVIVED
        if known.startswith(EQUIVALENT):
            self.say(f"It was called equivalent, but it is found: {' | '.join(fault.key)}")
        return killed_by(found)

    def trial(self, fault: Fault, tests: list[str], limit_s: float) -> str | None:
        """Return which of the tests finds a fault; None if none does."""
        if not tests:
            return None
        try:
            if fault.is_inside:
                return warm_trial(
                    fault, self.functions, [self.items[name] for name in tests], limit_s
                )
        except LookupError:
            pass  # it is tried from the import on
        finally:
            shutil.rmtree(BASE, ignore_errors=True)
        return self.cold.trial(fault, tests, limit_s + 30)

    def tests_for(self, fault: Fault, room: Room) -> dict[str, float]:
        """Return the tests that may notice a fault and their times [s], likely files first."""
        ran = self.by_function.get((fault.file, fault.function), {})
        if not fault.is_inside or not ran:
            functions = (one for one in self.by_function if one[0] == fault.file)
            ran = {name: s for one in functions for name, s in self.by_function[one].items()}
            # a table may be read by others, so its namesake is asked whatever it runs
            own = (f"/test_{Path(fault.file).name}", *(room.tests[:1] if not ran else ()))
            files = {name: name.split("::")[0] for name in self.times}
            ran |= {name: s for name, s in self.times.items() if any(w in files[name] for w in own)}
        return dict(_within(_in_order(ran, fault, room), self.arguments.seconds))


def _is_asked(name: str, rooms: list[str]) -> bool:
    """Tell whether a test may notice a fault in some rooms; those of the geometry know no other."""
    file = name.split("::", maxsplit=1)[0]
    sources = {ROOMS[room].sources[0].split("/")[0] for room in rooms}
    if file.startswith(("tests/shapes/", "shapes/")) and "shapes" not in sources:
        return False
    if file.startswith("tests/sheets/") and "sheets" not in rooms:
        return False
    return not any(word in file for word in NOT_ASKED)


def _in_order(ran: dict[str, float], fault: Fault, room: Room) -> Iterator[list[Timed]]:
    """Yield the tests of each file, quick ones first: the namesake, the room's own, then others."""
    files: dict[str, list[Timed]] = {}
    for name, time_s in sorted(ran.items(), key=lambda pair: (pair[1], pair[0])):
        files.setdefault(name.split("::")[0], []).append((name, time_s))

    namesake = f"test_{Path(fault.file).name}"

    def cost(file: str) -> tuple[bool, bool, float, str]:
        is_foreign = not file.startswith(room.tests + room.sources)
        return not file.endswith(namesake), is_foreign, sum(s for _, s in files[file]), file

    yield from (files[file] for file in sorted(files, key=cost))


def _within(
    files: Iterator[list[tuple[str, float]]], limit_s: float
) -> Iterator[tuple[str, float]]:
    """Yield tests of each file until the limit [s] is reached; a file has a third of it at most."""
    left_s = limit_s
    for tests in files:
        of_file_s = limit_s / 3
        for number, (name, time_s) in enumerate(tests):
            if number and time_s > min(left_s, of_file_s):
                break
            left_s, of_file_s = left_s - time_s, of_file_s - time_s
            yield name, time_s
        if left_s <= 0:
            return


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("rooms", nargs="*", metavar="ROOM", help=f"any of: {', '.join(ROOMS)}")
    parser.add_argument("--again", action="store_true", help="plant all, also what is known")
    parser.add_argument("--new", action="store_true", help="plant what was never planted")
    parser.add_argument("--times", action="store_true", help="say how long each fault took")
    parser.add_argument(
        "--seconds", type=float, default=10, help="most seconds of tests for a fault (default: 10)"
    )
    found = parser.parse_args()
    if unknown := set(found.rooms) - set(ROOMS):
        parser.error(f"no such room: {', '.join(sorted(unknown))}; rooms: {', '.join(ROOMS)}")
    return found


BASE = Path(tempfile.mkdtemp(prefix="surfacecalc-faults-"))
OPTIONS = [
    "-n0", "-q", "--no-header", "-p", "no:cacheprovider", "-p", "no:benchmark",
    "-W", "ignore::pytest.PytestAssertRewriteWarning",
    "-o", "addopts=--import-mode=importlib --doctest-modules --pyargs", f"--basetemp={BASE}",
]  # fmt: skip


def _settle_hypothesis() -> None:
    """Draw the same cases each time, keep none, and do not look for the smallest that fails."""
    from hypothesis import HealthCheck, Phase, settings

    settings.register_profile(
        "faults",
        database=None,
        derandomize=True,
        deadline=None,
        phases=[Phase.explicit, Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    settings.load_profile("faults")


def main() -> int:
    """Plant the faults that the command line asks for."""
    arguments = _arguments()
    os.chdir(ROOT)
    screen = os.fdopen(os.dup(1), "w")
    _settle_hypothesis()
    cold = ColdProcess(OPTIONS)
    planter = Planter(arguments, cold, screen)
    tests = ["surfacecalc", "shapes", *(f"tests/{name}" for name in ASKED)]
    try:
        code = pytest.main([*OPTIONS, *tests], plugins=[planter, planter.watch])
    finally:
        cold.close()
        shutil.rmtree(BASE, ignore_errors=True)
    return int(code)


if __name__ == "__main__":
    sys.exit(main())
