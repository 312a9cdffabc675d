"""Files are written whole or not at all."""

import contextlib
import os
import tempfile
from pathlib import Path


def write_whole(path: Path, content: bytes) -> None:
    """Write a file so that a stop in the middle leaves the old one, or none.

    Raises:
        OSError: the folder is missing or cannot be written to.
    """
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        Path(name).chmod(0o666 & ~_mask())
        Path(name).replace(path)
    except BaseException:
        with contextlib.suppress(OSError):
            Path(name).unlink()
        raise


def _mask() -> int:
    """Return the mask that new files of this process are made with."""
    mask = os.umask(0)
    os.umask(mask)
    return mask
