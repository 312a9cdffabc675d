"""Files are written whole or not at all.

A file is first written next to its target, under its own name with a dot before it and
`.unwritten` after it, and then moved there. A process that is killed in the middle leaves
this one file, and the next that writes the same file takes it away.
"""

import contextlib
import os
import sys
from collections.abc import Iterator
from pathlib import Path

ENDING = ".unwritten"


def write_whole(path: Path, content: bytes) -> None:
    """Write a file so that a stop in the middle leaves the old one, or none.

    A link stays a link: what it leads to is written. A file that is replaced keeps its permissions.

    Raises:
        OSError: the folder is missing or cannot be written to, or the disk is full.
    """
    target = Path(os.path.realpath(path))
    unwritten = target.with_name(f".{target.name}{ENDING}")
    with _alone_in(target.parent):
        unwritten.unlink(missing_ok=True)
        try:
            _write_new(unwritten, content)
            if target.is_file():
                unwritten.chmod(target.stat().st_mode & 0o777)
            unwritten.replace(target)
        except BaseException:
            with contextlib.suppress(OSError):
                unwritten.unlink()
            raise


def _write_new(path: Path, content: bytes) -> None:
    """Write a file that is not there, down to the disk, so that the power may fail after it."""
    with path.open("xb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


@contextlib.contextmanager
def _alone_in(folder: Path) -> Iterator[None]:
    """Wait until no other process writes in a folder, and keep others waiting.

    The system lets go of the folder when a process ends, however it ends. Where a folder cannot be
    held (Windows, some network drives), two that write one file at once are not kept apart.
    """
    if sys.platform == "win32":
        yield
        return
    import fcntl

    with contextlib.ExitStack() as stack:
        with contextlib.suppress(OSError):
            handle = os.open(folder, os.O_RDONLY)
            stack.callback(os.close, handle)
            fcntl.flock(handle, fcntl.LOCK_EX)
        yield
