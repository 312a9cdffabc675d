"""One fault at a time in a process of its own: forked, faulty, asked by tests that run its code.

All tests are collected once. A fault inside a function is put into a fork of that process: the
function gets the code of the faulty source, so whoever imported it has the fault. A fault that an
import runs is tried in a fork of a process that has not imported the package yet, by a loader of
its own. The source files themselves are never written.
"""

import gc
import importlib
import json
import math
import os
import resource
import select
import signal
import sys
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from contextlib import suppress
from functools import partial
from importlib.abc import MetaPathFinder
from importlib.machinery import ModuleSpec, SourceFileLoader
from importlib.util import find_spec, spec_from_file_location
from pathlib import Path
from time import monotonic
from types import CodeType, FunctionType, ModuleType
from typing import Any

import pytest
from _pytest.runner import runtestprotocol
from fault_places import ROOT, Fault

TOO_LONG, CRASH = "the time limit", "a crash of the process"
WAITED = 30
"""How many times as long as it may compute a process may take, which waits for nothing."""
FOREIGN = (
    "numpy",
    "shapely",
    "manifold3d",
    "hypothesis",
    "scipy.sparse.csgraph",
    "rich.console",
    "pint",
)
"""What takes long to import and is not ours."""


def in_a_fork(work: Callable[[], Any], limit_s: float) -> Any:
    """Return what a function returns in a child process; TOO_LONG if it is not done in time.

    Args:
        work: the function.
        limit_s: the most time of the processor [s]; a busy machine takes nothing from it.
    """
    reads, writes = os.pipe()
    child = os.fork()
    if not child:
        os.setpgid(0, 0)
        os.close(reads)
        resource.setrlimit(resource.RLIMIT_CPU, (math.ceil(limit_s), resource.RLIM_INFINITY))
        try:
            answer = work()
        except BaseException as error:
            answer = f"{type(error).__name__}: {error}"
        with os.fdopen(writes, "w") as pipe:
            json.dump(answer, pipe)
        os._exit(0)
    os.close(writes)
    text = _read(reads, WAITED * limit_s)
    with suppress(ProcessLookupError):
        os.killpg(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    if text is None or (os.WIFSIGNALED(status) and os.WTERMSIG(status) == signal.SIGXCPU):
        return TOO_LONG
    return json.loads(text) if text else CRASH


def _read(pipe: int, limit_s: float) -> bytes | None:
    """Return all that comes through a pipe until it is closed; None if that takes too long."""
    end_s = monotonic() + limit_s
    found = b""
    with os.fdopen(pipe, "rb", buffering=0) as reads:
        while select.select([reads], [], [], max(0.0, end_s - monotonic()))[0]:
            if not (more := reads.read(1 << 16)):
                return found
            found += more
    return None


def functions_in_memory() -> dict[str, list[FunctionType]]:
    """Return all functions of ours that there are, by their file as a fault names it.

    The package may be installed apart from its source.
    """
    found: defaultdict[str, list[FunctionType]] = defaultdict(list)
    package = find_spec("surfacecalc")
    assert package is not None
    top = f"{Path(str(package.origin)).parents[1]}/"
    for one in gc.get_objects():
        if isinstance(one, FunctionType) and one.__code__.co_filename.startswith(top):
            found[one.__code__.co_filename.removeprefix(top)].append(one)
    return found


def swap_code(fault: Fault, functions: dict[str, list[FunctionType]]) -> int:
    """Give every function that a fault changes its faulty code; return how many."""
    codes = dict(_codes(compile(fault.planted(), str(ROOT / fault.file), "exec")))
    swapped = 0
    for one in functions.get(fault.file, []):
        new = codes.get((one.__code__.co_qualname, one.__code__.co_firstlineno))
        if new not in (None, one.__code__):
            one.__code__ = new
            swapped += 1
    return swapped


def _codes(code: CodeType) -> Iterator[tuple[tuple[str, int], CodeType]]:
    for inner in code.co_consts:
        if isinstance(inner, CodeType):
            yield (inner.co_qualname, inner.co_firstlineno), inner
            yield from _codes(inner)


class _FaultyLoader(SourceFileLoader):
    def __init__(self, name: str, path: str, source: str) -> None:
        super().__init__(name, path)
        self._source = source

    def get_code(self, fullname: str) -> CodeType:
        return compile(self._source, self.path, "exec", dont_inherit=True)


class FaultyImport(MetaPathFinder):
    """Finds one module with a fault in it, wherever it is imported from."""

    def __init__(self, fault: Fault) -> None:
        self._name = module_name(fault.file)
        self._path = str(ROOT / fault.file)
        self._source = fault.planted()

    def find_spec(
        self, name: str, path: Any = None, target: ModuleType | None = None
    ) -> ModuleSpec | None:
        """Return the faulty module's spec, None for any other."""
        if name != self._name:
            return None
        loader = _FaultyLoader(name, self._path, self._source)
        places = [str(Path(self._path).parent)] if self._path.endswith("__init__.py") else None
        return spec_from_file_location(
            name, self._path, loader=loader, submodule_search_locations=places
        )


def module_name(file: str) -> str:
    """Return the dotted name of a source file."""
    return ".".join(Path(file).with_suffix("").parts).removesuffix(".__init__")


def first_failure(items: Iterable[pytest.Item]) -> str | None:
    """Run tests until one fails; return which, None if all pass."""
    row = list(items)
    for item, following in zip(row, [*row[1:], None], strict=True):
        for report in runtestprotocol(item, log=False, nextitem=following):
            if report.failed:
                return item.nodeid
    return None


def warm_trial(
    fault: Fault,
    functions: dict[str, list[FunctionType]],
    items: list[pytest.Item],
    limit_s: float,
) -> str | None:
    """Return what found a fault inside a function: a test, or the limit; None if nothing did.

    Raises:
        LookupError: there is no such function in memory, or it cannot take the code.
    """

    def work() -> dict[str, str | None]:
        try:
            if not swap_code(fault, functions):
                return {"cold": "no function"}
        except ValueError as error:  # the fault drops a name that an outer function gives
            return {"cold": str(error)}
        return {"found": first_failure(items)}

    answer = in_a_fork(work, limit_s)
    if isinstance(answer, str):
        return answer
    if "cold" in answer:
        raise LookupError(answer["cold"])
    found: str | None = answer["found"]
    return found


class _OnlyThese:
    """A plugin that runs some tests, in an order, until one fails; it knows which."""

    def __init__(self, wanted: list[str]) -> None:
        self.order = {name: number for number, name in enumerate(wanted)}
        self.found: str | None = None

    @pytest.hookimpl(trylast=True)
    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        items[:] = sorted(
            (item for item in items if item.nodeid in self.order),
            key=lambda item: self.order[item.nodeid],
        )

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        self.found = first_failure(session.items)
        return True


def _cold_work(fault: Fault, wanted: list[str], options: list[str]) -> str | None:
    sys.meta_path.insert(0, FaultyImport(fault))
    importlib.invalidate_caches()
    chosen = _OnlyThese(wanted)
    os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
    files = list(dict.fromkeys(name.split("::")[0] for name in wanted))
    code = pytest.main([*options, *files], plugins=[chosen])
    if chosen.found:
        return chosen.found
    return None if code in (0, 5) else "the import"


class ColdProcess:
    """A process that has imported what is not ours, and forks for each fault of an import."""

    def __init__(self, options: list[str]) -> None:
        self._options = options
        to_child, self._orders = os.pipe()
        self._answers, to_parent = os.pipe()
        self._child = os.fork()
        if not self._child:
            os.close(self._orders)
            os.close(self._answers)
            self._serve(to_child, to_parent)
        os.close(to_child)
        os.close(to_parent)
        self._from_child = os.fdopen(self._answers, "r")

    def _serve(self, reads: int, writes: int) -> None:
        for name in FOREIGN:
            importlib.import_module(name)
        with os.fdopen(reads) as orders, os.fdopen(writes, "w", buffering=1) as answers:
            for line in orders:
                order = json.loads(line)
                fault = Fault(**order["fault"])
                work = partial(_cold_work, fault, order["wanted"], self._options)
                answer = in_a_fork(work, order["limit_s"])
                print(json.dumps(answer), file=answers)
        os._exit(0)

    def trial(self, fault: Fault, wanted: list[str], limit_s: float) -> str | None:
        """Return what found a fault; None if nothing did."""
        order = {"fault": vars(fault), "wanted": wanted, "limit_s": limit_s}
        os.write(self._orders, (json.dumps(order) + "\n").encode())
        answer: str | None = json.loads(self._from_child.readline())
        return answer

    def close(self) -> None:
        """End the process."""
        os.close(self._orders)
        os.waitpid(self._child, 0)
