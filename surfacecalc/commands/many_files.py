"""The same work on many piece files, in several processes; answers come in the order asked."""

import contextlib
import io
import os
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import partial
from pathlib import Path

import typer

FILES_AT_ONCE = 8
"""Files handed to a worker in one go: enough to hide the hand-over, few enough to share evenly."""


@dataclass(frozen=True)
class FileAnswer:
    """What the work on one file printed.

    Attributes:
        file: the piece file.
        output: what went to standard output.
        errors: what went to standard error.
        code: its exit code.
    """

    file: Path
    output: str
    errors: str
    code: int


def work_on_each(work: Callable[[Path], None], files: Sequence[Path]) -> Iterator[FileAnswer]:
    """Yield the answer for each file, in order.

    Args:
        work: prints about one file, and raises `typer.Exit` where it ends with a code; it must be
            importable from a module, since other processes run it.
        files: the piece files.
    """
    workers = min(os.cpu_count() or 1, len(files))
    if workers == 1:
        yield from map(partial(_answer, work), files)
        return
    at_once = max(1, min(FILES_AT_ONCE, len(files) // workers))
    with ProcessPoolExecutor(workers) as pool:
        yield from pool.map(partial(_answer, work), files, chunksize=at_once)


def _answer(work: Callable[[Path], None], file: Path) -> FileAnswer:
    output, errors = io.StringIO(), io.StringIO()
    code = 0
    with contextlib.redirect_stdout(output), contextlib.redirect_stderr(errors):
        try:
            work(file)
        except typer.Exit as end:
            code = end.exit_code
    return FileAnswer(file, output.getvalue(), errors.getvalue(), code)
