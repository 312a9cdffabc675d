"""A piece file taken apart into its tables, paragraphs of comment and empty lines, and back.

Joined again they are the same text, letter by letter. A table is taken apart into the statements of
its keys, so that one value can be replaced and all around it stays.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

import tomli

from surfacecalc.reading.positions import Path
from surfacecalc.reading.syntax.scan import line_index

Identity = tuple[str | int, ...]
NAMED = ("part", "zone", "product", "abrasive", "consumable", "mix", "tape", "hardware")
"""Tables that are told apart by their names."""
HEAD = ("comment", "head")
MADE_BY_NEW = "started with `surfacecalc new`"


@dataclass(frozen=True)
class KeyLines:
    """A key of a table with its value.

    Attributes:
        key: the key.
        before: lines of comment right above it.
        text: its lines.
    """

    key: str
    before: str
    text: str

    @property
    def value_span(self) -> tuple[int, int]:
        """Where the value begins and ends in the text."""
        begin = self.text.index("=") + 1
        begin += len(self.text[begin:]) - len(self.text[begin:].lstrip())
        whole = tomli.loads(self.text)
        for found in re.finditer(r"#|$", self.text):
            end = found.start()
            if end > begin and _parsed(self.text[:end]) == whole:
                return begin, begin + len(self.text[begin:end].rstrip())
        return begin, len(self.text.rstrip())

    @property
    def value_text(self) -> str:
        """The value as it is written."""
        begin, end = self.value_span
        return self.text[begin:end]

    def with_value(self, value_text: str) -> "KeyLines":
        """Return the statement with another value; a comment behind it stays."""
        begin, end = self.value_span
        return replace(self, text=self.text[:begin] + value_text + self.text[end:])


def _parsed(text: str) -> Any:
    try:
        return tomli.loads(text)
    except tomli.TOMLDecodeError:
        return None


@dataclass(frozen=True)
class FilePiece:
    """A table, a paragraph of comment, or empty lines.

    Attributes:
        identity: what it is told apart by; empty for empty lines.
        text: its lines.
        values: the values of a table, by key; None where it is no table.
    """

    identity: Identity
    text: str
    values: dict[str, Any] | None = None

    @property
    def comment(self) -> list[str]:
        """The lines of comment above the header of a table."""
        lines = _lines(self.text)
        return lines[: _header_at(lines)]

    @property
    def header(self) -> str:
        """The header of a table."""
        lines = _lines(self.text)
        return lines[_header_at(lines)]

    def statements(self) -> tuple[list[KeyLines], str]:
        """Return the statements of a table, and what comes after the last of them."""
        lines = _lines(self.text)
        first = _header_at(lines) + 1
        index = line_index(self.text)
        depth = max(len(path) for path, line in index.items() if line == first)
        starts = sorted(
            (line - 1, str(path[depth]))
            for path, line in index.items()
            if len(path) == depth + 1 and line > first
        )
        found: list[KeyLines] = []
        begin = first
        ends = [start for start, _ in starts[1:]] + [len(lines)]
        for (start, key), after in zip(starts, ends, strict=True):
            end = _end(lines, start, after)
            found.append(KeyLines(key, "".join(lines[begin:start]), "".join(lines[start:end])))
            begin = end
        return found, "".join(lines[begin:])

    def rebuilt(
        self, comment: Sequence[str], statements: Sequence[KeyLines], rest: str
    ) -> "FilePiece":
        """Return the table with other comments and statements."""
        body = "".join(statement.before + statement.text for statement in statements)
        text = "".join(comment) + self.header + body + rest
        tables = tomli.loads(text)
        (_, path), *_ = _headers(text, _lines(text), tables)
        return replace(self, text=text, values=_at(tables, path))


def taken_apart(text: str) -> list[FilePiece]:
    """Return the pieces of a text that is a piece file."""
    lines = _lines(text)
    tables = tomli.loads(text)
    headers = _headers(text, lines, tables)
    starts = [_start(lines, line) for line, _ in headers]
    found: list[FilePiece] = []
    done = 0
    for (line, path), start, after in zip(
        headers, starts, [*starts, len(lines)][1:], strict=bool(starts)
    ):
        found += _loose(lines[done:start])
        end = _end(lines, line - 1, after)
        while end < after and lines[end].lstrip().startswith("#"):
            end += 1
        values = _at(tables, path)
        found.append(FilePiece(_identity(path, values), "".join(lines[start:end]), values))
        done = end
    return [*found, *_loose(lines[done:])]


def _lines(text: str) -> list[str]:
    """Return the lines with their ends; only a line feed ends a line."""
    parts = text.split("\n")
    ended = [f"{part}\n" for part in parts[:-1]]
    return [*ended, parts[-1]] if parts[-1] else ended


def _headers(text: str, lines: Sequence[str], tables: dict[str, Any]) -> list[tuple[int, Path]]:
    """Return the line of each header and the path of its table."""
    found: dict[int, Path] = {}
    for path, line in line_index(text).items():
        is_table = path and isinstance(_at(tables, path), dict)
        if is_table and lines[line - 1].lstrip().startswith("["):
            found[line] = max(found.get(line, ()), path, key=len)
    return sorted(found.items())


def _at(tables: Any, path: Path) -> Any:
    for key in path:
        tables = tables[key]
    return tables


def _identity(path: Path, values: dict[str, Any]) -> Identity:
    is_named = len(path) == 2 and path[0] in NAMED
    return (path[0], str(values.get("name"))) if is_named else tuple(path)


def _header_at(lines: Sequence[str]) -> int:
    return next(n for n, line in enumerate(lines) if line.lstrip().startswith("["))


def _start(lines: Sequence[str], header: int) -> int:
    """Return where a table begins: with the comment right above its header."""
    start = header - 1
    while start and lines[start - 1].lstrip().startswith("#"):
        start -= 1
    return start


def _end(lines: Sequence[str], start: int, after: int) -> int:
    """Return where the last statement before a line ends; comments and empty lines may follow."""
    end = after
    while end > start + 1 and _is_bare(lines[end - 1]):
        end -= 1
    return end


def _is_bare(line: str) -> bool:
    return not line.strip() or line.lstrip().startswith("#")


def _loose(lines: Sequence[str]) -> Iterator[FilePiece]:
    """Yield paragraphs of comment, and the empty lines between them."""
    paragraph: list[str] = []
    for line in [*lines, ""]:
        if line.strip():
            paragraph.append(line)
            continue
        if paragraph:
            yield FilePiece(_paragraph_identity(paragraph), "".join(paragraph))
        paragraph = []
        if line:
            yield FilePiece((), line)


def _paragraph_identity(paragraph: Sequence[str]) -> Identity:
    words = " ".join(" ".join(line.lstrip("# ").split()) for line in paragraph)
    if MADE_BY_NEW in words:
        return HEAD
    return ("comment", paragraph[0].strip().rstrip("-"))


def steps_by_schedule(pieces: Sequence[FilePiece]) -> dict[str, list[FilePiece]]:
    """Return the steps of each schedule."""
    found: dict[str, list[FilePiece]] = {}
    for piece in pieces:
        if piece.identity[:1] == ("schedule",) and len(piece.identity) == 3:
            found.setdefault(str(piece.identity[1]), []).append(piece)
    return found
