"""Headers of tables, and what is given twice."""

import re

from surfacecalc.reading.shown import shown_key
from surfacecalc.reading.syntax.slip import PAIR, Slip, Told
from surfacecalc.reading.unknown_keys import BELONGING, HEADERS, TELLING

_HEADER = re.compile(r"^\s*(\[[\[\s]*)([^\[\]#=,]*)([\]\s]*)(.*)$")


def brackets(slip: Slip) -> Told:
    """Explain a header whose brackets do not match, or that is not alone on its line."""
    header = _header_match(slip)
    if header is None:
        return None
    opened, closed = header[1].count("["), header[3].count("]")
    name = header[2].strip()
    if header[4].startswith("=") and not closed:
        return f"take out the {header[1].strip()} before {name} ="
    right = _header(name)
    if re.search(r"\w\s+\w", name) and "'" not in name and '"' not in name:
        return "a heading has no space in its name; write it like [[part]] or [[zone.step]]"
    if opened == closed and opened in (1, 2) and " " not in header[1].strip():
        if header[4] and not header[4].startswith("#"):
            return f"put the heading {right} on a line of its own"
        if re.search(r"""[^\w.\s"'-]|[^\x00-\x7f]""", name) and "'" not in name and '"' not in name:
            return f"put quotes around a name with other characters in it: {_quoted(header)}"
        return None
    many = "two brackets" if right.startswith("[[") else "one bracket"
    return f"a heading is written {right}, with {many} on each side"


def table_twice(slip: Slip) -> Told:
    """Explain a table that is given twice, or once with one bracket and once with two."""
    header = _header_match(slip)
    if header is None:
        return None
    name = header[2].strip()
    right = _header(name)
    if f"{header[1].strip()}{name}" == "[[zone":
        return "a [[zone.step]] is above the first [[zone]]; put it below its zone"
    if not right.startswith("[["):
        return f"the heading {right} is given twice; keep one of them"
    if name == "schedule":
        return f"the heading of a schedule has the schedule's name in it: {right}"
    written = re.compile(rf"\s*(\[\[?)\s*{re.escape(name)}\s*\]")
    headers = [(k, written.match(line)) for k, line in enumerate(slip.lines[: slip.number], 1)]
    given = [(k, found[1]) for k, found in headers if found]
    if len(given) < 2:
        return None
    first = next((k for k, mark in given if mark == "["), slip.number)
    return first, f"write every {right} with two brackets on each side"


def key_twice(slip: Slip) -> Told:
    """Explain a key that is given twice in one table, where a header may be missing."""
    twice = slip.before.twice
    if twice is None:
        return None
    last = str(twice.path[-1])
    key = last if re.fullmatch(r"[\w-]{1,40}", last) else shown_key(last)
    if slip.bracket is not None:
        return f"{key} is given twice between {{ and }}; keep one of them"
    kind = _kind_of_table(slip.lines, twice.line)
    if kind is not None:
        lost = f"is a {HEADERS[kind]} line missing above line {twice.line}?"
    else:
        lost = "keep one of them, or is a heading such as [[part]] missing between them?"
    return twice.line, f"{key} is given twice, first on line {twice.first}; {lost}"


def _header_match(slip: Slip) -> re.Match[str] | None:
    """Return the parts of a header that is on the line, None where the line is not one."""
    header = None if slip.starts_open else _HEADER.match(slip.line)
    return header if header and header[2].strip() else None


def _quoted(header: re.Match[str]) -> str:
    """Return a header with quotes around each name in it that needs them."""
    names = (name.strip() for name in header[2].split("."))
    safe = (name if re.fullmatch(r"[A-Za-z0-9_-]+", name) else f'"{name}"' for name in names)
    return f"{header[1].strip()}{'.'.join(safe)}{header[3].strip()}"


def _kind_of_table(lines: list[str], number: int) -> str | None:
    """Return which kind of table the lines from one on are of, if they may start a table."""
    keys: list[str] = []
    for line in lines[number - 1 :]:
        pair = PAIR.match(line)
        if line.lstrip().startswith("[") or len(keys) > 12:
            break
        if pair:
            keys.append(pair[1])
    if keys[:1] not in (["name"], ["do"], ["shape"], ["faces"]):
        return None
    told = next((TELLING[key] for key in keys if key in TELLING), None)
    counts = {kind: len(set(keys) & set(belonging)) for kind, belonging in BELONGING.items()}
    most = max(counts, key=lambda kind: counts[kind])
    return told or (most if counts[most] else None)


def _header(name: str) -> str:
    """Return the right way to write a header that was written wrong."""
    first = name.split(".", maxsplit=1)[0].strip()
    if name.startswith("zone."):
        return HEADERS["step"]
    if first == "schedule":
        return f"[[{name}]]" if "." in name else HEADERS["schedule"]
    if first in HEADERS:
        return HEADERS[first] if name == first else f"[[{name}]]"
    return f"[[{name}]]" if len(name) <= 40 else shown_key(name)
