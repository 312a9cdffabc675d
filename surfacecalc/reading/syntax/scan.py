"""A TOML text followed for its positions: the line of every key, and what is open at its end.

The values are the parser's. This follows only keys, brackets and quotes of what the parser has
accepted: a whole text, or all of it before the position where the parser stopped. It keeps a list
of what is open instead of calling itself, so that deep brackets cost no stack.
"""

import re
from bisect import bisect_left
from dataclasses import dataclass

import tomli

from surfacecalc.reading.positions import Lines, Path

_KEY = re.compile(
    r"""[ \t]*+("(?:[^"\\\n]|\\.)*+"|'[^'\n]*+'|[^\s="'.\[\]{},#]++)[ \t]*+(\.?)""",
)
_QUOTED = re.compile(
    r'"""(?s:[^"\\]|\\.|"(?!""))*+"{3,5}'
    r"|'''(?:[^']|'(?!''))*+'{3,5}"
    r'|"(?!"")(?:[^"\\\n]|\\.)*+"'
    r"|'(?!'')[^'\n]*+'"
)
_PLAIN = re.compile(r"[^,\]}#\n]*+")
_BETWEEN = re.compile(r"(?:[ \t\n]|#[^\n]*+)*+")
_BLANKS = re.compile(r"[ \t]*+")


@dataclass
class Opened:
    """A list, a { } or a quote that is not closed yet.

    Attributes:
        path: the path of the value that it opens.
        at: where it opens, counted in characters from 0.
        line: its line, counted from 1.
        mark: a bracket, [ or {, or the quote, single or double, one or three of it.
        count: how many items of a list have begun.
        is_fresh: whether an item may come next: nothing but a bracket or a comma is before it.
    """

    path: Path
    at: int
    line: int
    mark: str
    count: int = 0
    is_fresh: bool = True


@dataclass(frozen=True)
class Twice:
    """A key that is given a second time in one table: its path, and the lines of both."""

    path: Path
    line: int
    first: int


class Scan:
    """A text, or the beginning of one, followed to its end.

    Attributes:
        text: the text, its lines ended by a line feed each.
        lines: the line of each table, key and item, by its path.
        opened: what is open at the end, the outermost first.
        twice: the first key that is given twice, if any.
        awaits: what must come next at the end: "key", "=", "value", "," (or a closing bracket),
            or "" for anything.
    """

    def __init__(self, text: str) -> None:
        self.text = text
        self.lines: Lines = {(): 1}
        self.opened: list[Opened] = []
        self.twice: Twice | None = None
        self.awaits = ""
        self._ends = [found.start() for found in re.finditer("\n", text)]
        self._counts: dict[Path, int] = {}
        self._follow()

    def line(self, at: int) -> int:
        """Return the line of a position, counted from 1."""
        return bisect_left(self._ends, at) + 1

    def _follow(self) -> None:
        table: Path = ()
        at: int | None = self._next(0)
        while at is not None and at < len(self.text):
            if self.text[at] == "[":
                found = self._header(at)
                table, at = found or (table, None)
            else:
                pair = self._pair(at, table)
                at = self._value(*pair) if pair else None
            at = None if at is None else self._next(at)

    def _next(self, at: int) -> int:
        """Return where the next thing begins, after spaces, comments and ends of lines."""
        found = _BETWEEN.match(self.text, at)
        return found.end() if found else at

    def _sign(self, at: int) -> str:
        return self.text[at : at + 1]

    def _keys(self, at: int) -> tuple[list[str], int] | None:
        """Return the keys of a dotted key and where it ends."""
        keys = []
        while True:
            found = _KEY.match(self.text, at)
            if found is None:
                self.awaits = "key"
                return None
            keys.append(_unquoted(found[1]))
            at = found.end()
            if not found[2]:
                return keys, at

    def _header(self, at: int) -> tuple[Path, int] | None:
        """Note the line of a header, and return the path of its table and where it ends."""
        marks = 2 if self.text.startswith("[[", at) else 1
        found = self._keys(at + marks)
        if found is None or not self.text.startswith("]" * marks, found[1]):
            return None
        keys, end = found
        path: Path = ()
        for key in keys[:-1]:
            path = (*path, key)
            if path in self._counts:
                path = (*path, self._counts[path] - 1)
        path = (*path, keys[-1])
        if marks == 2:
            self.lines.setdefault(path, self.line(at))
            self._counts[path] = self._counts.get(path, 0) + 1
            path = (*path, self._counts[path] - 1)
        self._note(path, self.line(at))
        return path, end + marks

    def _pair(self, at: int, table: Path) -> tuple[int, Path] | None:
        """Note the line of a key, and return where its value begins and the path of it."""
        if self._open_quote(_KEY, at, table):
            return None
        found = self._keys(at)
        if found is None:
            return None
        path = (*table, *found[0])
        if self._sign(found[1]) != "=":
            self.awaits = "="
            return None
        if path in self.lines and self.twice is None:
            self.twice = Twice(path, self.line(at), self.lines[path])
        self._note(path, self.line(at))
        blanks = _BLANKS.match(self.text, found[1] + 1)
        return (blanks.end() if blanks else found[1] + 1), path

    def _value(self, at: int, path: Path) -> int | None:
        """Follow a value with everything in it, and return where it ends."""
        while True:
            if self._sign(at) in ("", "\n"):
                self.awaits = "value"
                return None
            if self._sign(at) in "[{":
                self.opened.append(Opened(path, at, self.line(at), self._sign(at)))
                at += 1
            elif self._open_quote(_QUOTED, at, path):
                return None
            else:
                end = _QUOTED.match(self.text, at) or _PLAIN.match(self.text, at)
                at = end.end() if end else at
            at = self._closed(at)
            if not self.opened:
                return at
            inner = self._item(at)
            if inner is None:
                return None
            at, path = inner

    def _closed(self, at: int) -> int:
        """Close what ends here, and return where the next item begins."""
        while self.opened:
            at = self._next(at)
            if self._sign(at) == ",":
                self.opened[-1].is_fresh = True
                at = self._next(at + 1)
            if self._sign(at) not in ("]", "}"):
                break
            self.opened.pop()
            at += 1
        return at

    def _item(self, at: int) -> tuple[int, Path] | None:
        """Return where the next item of what is open begins, and its path; None at the end."""
        around = self.opened[-1]
        if at >= len(self.text):
            inner = "key" if around.mark == "{" else "value"
            self.awaits = inner if around.is_fresh else ","
            return None
        around.is_fresh = False
        if around.mark == "{":
            return self._pair(at, around.path)
        path = (*around.path, around.count)
        around.count += 1
        self.lines[path] = self.line(at)
        return at, path

    def _open_quote(self, whole: re.Pattern[str], at: int, path: Path) -> bool:
        """Note a quote that is not closed before the text ends, and return whether it is one."""
        sign = self._sign(at)
        if sign not in ('"', "'") or whole.match(self.text, at):
            return False
        mark = sign * 3 if self.text.startswith(sign * 3, at) else sign
        self.opened.append(Opened(path, at, self.line(at), mark))
        return True

    def _note(self, path: Path, line: int) -> None:
        for length in range(1, len(path)):
            self.lines.setdefault(path[:length], line)
        self.lines[path] = line


def line_index(text: str) -> Lines:
    """Return the line of each table, key and item of a list of a whole document, by its path."""
    return Scan(text.replace("\r\n", "\n")).lines


def _unquoted(key: str) -> str:
    return next(iter(tomli.loads(f"{key} = 0"))) if key[0] in "\"'" else key
