"""A file becomes TOML tables with lines, or the one problem that stops the reading."""

import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import tomli

from surfacecalc.problems import Problem
from surfacecalc.reading.positions import Lines
from surfacecalc.reading.syntax.scan import line_index

MOST_BYTES = 1_000_000
"""A piece file is text typed by hand, a few kilobytes; what is larger is another file."""

_HUGE = re.compile(r"[0-9][0-9_]{4000,}")


@dataclass(frozen=True)
class Document:
    """A parsed piece file.

    Attributes:
        tables: the TOML document.
        lines: the line of each key.
    """

    tables: dict[str, Any]
    lines: Lines


def read_document(path: Path) -> Document | Problem:
    """Return the tables of a file, or the problem that stops the reading."""
    try:
        if path.is_dir():
            return _stop(None, "is a folder; give the piece file in it")
        if not path.exists():
            return _stop(None, "was not found; check the name and the folder")
        if not path.is_file():
            return _stop(None, "is not a regular file")
        size = path.stat().st_size
        if size > MOST_BYTES:
            return _too_long(size)
        content = path.read_bytes()
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
        return _stop(None, f"cannot be read: {reason}")
    return parse_document(content)


def parse_document(content: bytes) -> Document | Problem:
    """Return the tables of a file's content, or the problem that stops the reading."""
    if len(content) > MOST_BYTES:
        return _too_long(len(content))
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        return _stop(line, "is not text in UTF-8; save it as plain text (UTF-8)")
    if "\0" in text:
        return _stop(
            text[: text.index("\0")].count("\n") + 1,
            "is not plain text; save it as plain text (UTF-8)",
        )
    if not text.strip():
        return _stop(1, "is empty; a piece file starts with [piece]")
    try:
        return Document(tomli.loads(text), line_index(text))
    except tomli.TOMLDecodeError as error:
        from surfacecalc.reading.syntax.explain import explain

        line, wrong = explain(error)
        return _stop(line, f"cannot be read: {wrong}")
    except RecursionError:
        return _stop(1, "is not a piece file: too many brackets inside each other")
    except ValueError:
        huge = _HUGE.search(text)
        line = text[: huge.start()].count("\n") + 1 if huge else 1
        return _stop(line, "has a huge number, thousands of digits long; check it")


def _too_long(size: int) -> Problem:
    return _stop(None, f"has {size:,} bytes; a piece file is text of a few thousand")


def _stop(line: int | None, message: str) -> Problem:
    return Problem("mend", line, "", message)
