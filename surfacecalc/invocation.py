"""How this program and its files are typed in a shell."""

import shlex
import shutil
import sys
from pathlib import Path

NAME = "surfacecalc"


def program() -> str:
    """Return what to type for this program: its name, or the path it was called by.

    In an environment that is not active its name alone would not be found.
    """
    called = Path(sys.argv[0])
    is_found = shutil.which(NAME) is not None
    return NAME if is_found or called.stem != NAME else shown(called)


def shown(file: Path) -> str:
    """Return a path as it is typed in a shell."""
    from surfacecalc.problems import printable

    return printable(shlex.quote(str(file)))
