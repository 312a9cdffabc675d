"""Answers of a start that was stopped half-way, kept beside the file they are meant for."""

import contextlib
import json
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from surfacecalc.writing import write_whole

ENDING = ".unfinished"
LARGEST_BYTES = 100_000
"""Answers take a few hundred bytes; a larger file does not hold any."""


@dataclass(frozen=True)
class Kept:
    """Answers that were kept.

    Attributes:
        answers: in the order they were given, by the question's key.
        earlier: answers that were taken back, to be proposed again.
        assumed: keys of the answers that were taken as proposed.
    """

    answers: Mapping[str, str]
    earlier: Mapping[str, str]
    assumed: frozenset[str]


def kept_beside(target: Path) -> Path:
    """Return where the answers for a piece file are kept."""
    return target.with_name(target.name + ENDING)


def keep(path: Path, kept: Kept) -> None:
    """Write answers.

    Raises:
        OSError: the folder cannot be written to.
    """
    content = {
        "answers": dict(kept.answers),
        "earlier": dict(kept.earlier),
        "assumed": sorted(kept.assumed),
    }
    write_whole(path, (json.dumps(content, indent=1) + "\n").encode())


def load(path: Path) -> Kept | None:
    """Return the answers of a file, None where it holds none."""
    try:
        if path.stat().st_size > LARGEST_BYTES:
            return None
        content = json.loads(path.read_text("utf-8"))
    except (OSError, ValueError, RecursionError):
        return None
    if not isinstance(content, dict):
        return None
    answers, earlier = (_texts(content.get(key)) for key in ("answers", "earlier"))
    assumed = content.get("assumed")
    keys = assumed if isinstance(assumed, list) else []
    known = frozenset(key for key in keys if isinstance(key, str))
    return Kept(answers, earlier, known) if answers else None


def forget(path: Path) -> None:
    """Remove kept answers, if there are any."""
    with contextlib.suppress(OSError):
        path.unlink()


def begun(folder: Path) -> list[Path]:
    """Return the files of kept answers in a folder, the latest first."""
    try:
        found = [path for path in folder.iterdir() if path.name.endswith(f".toml{ENDING}")]
        return sorted(found, key=lambda path: (path.stat().st_mtime, path.name), reverse=True)
    except OSError:
        return []


def _texts(value: object) -> dict[str, str]:
    if not isinstance(value, dict):
        return {}
    return {str(key): text for key, text in value.items() if isinstance(text, str)}
