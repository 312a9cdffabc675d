"""Which tests run which functions, and how long each takes: found by running them once."""

import gc
import pickle
import sys
from collections import defaultdict
from collections.abc import Iterator
from functools import _lru_cache_wrapper
from pathlib import Path
from time import process_time
from types import CodeType, FrameType
from typing import Any

import pytest
from _pytest.runner import runtestprotocol
from fault_places import ROOT

Function = tuple[str, str]
"""A source file from the top of the project, and the name of a function in it."""


class Runs:
    """For each test the functions that it runs and its time, kept in a file from run to run.

    A file of tests is run again when it was changed.
    """

    def __init__(self, kept_in: Path) -> None:
        self._kept_in = kept_in
        self._files = self._kept()

    def _kept(self) -> "dict[str, tuple[float, dict[str, tuple[float, frozenset[Function]]]]]":
        kept_in = self._kept_in
        return pickle.loads(kept_in.read_bytes()) if kept_in.exists() else {}  # noqa: S301 (ours)

    def is_known(self, file: str, names: set[str]) -> bool:
        """Tell whether a file of tests was run as it is now, with some tests in it."""
        changed, tests = self._files.get(file, (0.0, {}))
        return changed == _changed(file) and names <= tests.keys()

    def keep(self, file: str, found: dict[str, tuple[float, list[Function]]]) -> None:
        """Remember what the tests of a file run."""
        some = {name: (time, frozenset(map(tuple, ran))) for name, (time, ran) in found.items()}
        self._files[file] = _changed(file), some  # type: ignore[assignment]
        self._kept_in.parent.mkdir(exist_ok=True)
        self._kept_in.write_bytes(pickle.dumps(self._kept() | {file: self._files[file]}))

    def times(self, names: set[str]) -> dict[str, float]:
        """Return the time of each test that is named [s]."""
        tests = [tests for _, tests in self._files.values()]
        return {name: found[name][0] for found in tests for name in names & found.keys()}

    def by_function(self, names: set[str]) -> dict[Function, dict[str, float]]:
        """Return for each function the tests that run it, of those named, and their times [s]."""
        found: defaultdict[Function, dict[str, float]] = defaultdict(dict)
        for _, tests in self._files.values():
            for name in names & tests.keys():
                time, functions = tests[name]
                for function in functions:
                    found[function][name] = time
        return found


def _changed(file: str) -> float:
    return (ROOT / file).stat().st_mtime


class Watch:
    """Sees which functions of ours are called, and what was called to make shared fixtures."""

    def __init__(self) -> None:
        self.seen: set[CodeType] = set()
        self.shared: defaultdict[Any, set[CodeType]] = defaultdict(set)

    def _call(self, frame: FrameType, _event: str, _argument: Any) -> None:
        self.seen.add(frame.f_code)

    @pytest.hookimpl(hookwrapper=True)
    def pytest_fixture_setup(self, fixturedef: Any) -> Iterator[None]:
        before, self.seen = self.seen, set()
        yield
        if fixturedef.scope != "function":
            self.shared[fixturedef] |= self.seen
        self.seen |= before

    def run(self, item: pytest.Item, following: pytest.Item | None) -> tuple[float, list[Function]]:
        """Run a test; return its time [s] and the functions that it or its fixtures run."""
        self.seen = set()
        sys.settrace(self._call)
        start_s = process_time()
        try:
            reports = runtestprotocol(item, log=False, nextitem=following)
        finally:
            sys.settrace(None)
        time_s = process_time() - start_s
        for definitions in item._fixtureinfo.name2fixturedefs.values():  # type: ignore[attr-defined]
            self.seen |= self.shared[definitions[-1]]
        failed = any(report.failed for report in reports)
        return time_s, [] if failed else sorted(set(_ours(self.seen)))


def _ours(codes: set[CodeType]) -> Iterator[Function]:
    top = str(ROOT) + "/"
    for code in codes:
        file = code.co_filename.removeprefix(top)
        if file.startswith(("surfacecalc/", "shapes/")):
            yield file, plain_name(code.co_qualname)


def plain_name(qualified: str) -> str:
    """Return the name of a function without what Python puts into it: `outer.inner`."""
    parts = [part for part in qualified.split(".") if not part.startswith("<")]
    return ".".join(parts)


def watched(items: list[pytest.Item], watch: Watch) -> dict[str, tuple[float, list[Function]]]:
    """Return for each test of one file its time and the functions that it runs."""
    for found in gc.get_objects():
        if isinstance(found, _lru_cache_wrapper):
            found.cache_clear()
    pairs = zip(items, [*items[1:], None], strict=True)
    return {item.nodeid: watch.run(item, following) for item, following in pairs}
