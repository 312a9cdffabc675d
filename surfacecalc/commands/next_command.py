"""The command to run next where one has stopped: said once, on the error stream."""

import os
from pathlib import Path

from surfacecalc.invocation import program, shown

MOST_FILES = 200
"""Files of a folder that are looked into; a folder of pieces holds fewer."""
HEAD_BYTES = 20_000
"""How much of a file is read to recognise a piece file; [piece] is near its top, as a rule."""


def after_mistakes(file: Path) -> str:
    """Return what to do once a file's mistakes are listed."""
    return f"Fix this first, then run: {check_of(file)}"


def where_no_file(file: Path) -> str:
    """Return what to do where there is no such file: give the one that was meant, or make one."""
    from surfacecalc.problems import nearest

    if os.path.isdir(file):
        inside = piece_files(file)
        return f"For example: {check_of(inside[0])}" if inside else _new()
    beside = {near.stem: near for near in piece_files(file.parent)}
    meant = nearest(file.stem, beside)
    return f"Did you mean this one? {check_of(beside[meant])}" if meant else _new()


def where_none_given(command: str) -> str:
    """Return what to do where a command got no file."""
    here = piece_files(Path())
    return f"For example: {program()} {command} {shown(here[0])}" if here else _new()


def check_of(file: Path) -> str:
    """Return the command that checks a file."""
    return f"{program()} check {shown(file)}"


def _new() -> str:
    return f"To make a piece file: {program()} new"


def piece_files(folder: Path) -> list[Path]:
    """Return the piece files in a folder, in order; none where it cannot be read."""
    try:
        files = sorted(folder.glob("*.toml"))
    except (OSError, ValueError):
        return []
    return [file for file in files[:MOST_FILES] if _is_piece(file)]


def _is_piece(file: Path) -> bool:
    """Whether a file looks like one that describes a piece; the user's own products do not."""
    if not os.path.isfile(file):  # unlike the path's own method, it raises nothing
        return False
    try:
        with file.open("rb") as content:
            return b"[piece]" in content.read(HEAD_BYTES)
    except OSError:
        return False
