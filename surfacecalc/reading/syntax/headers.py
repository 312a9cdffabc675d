"""Headers of tables, and what stands twice."""

import re

from surfacecalc.reading.shown import shown_key
from surfacecalc.reading.syntax.slip import PAIR, Slip, Told
from surfacecalc.reading.unknown_keys import BELONGING, HEADERS, TELLING

_HEADER = re.compile(r"^\s*(\[[\[\s]*)([^\[\]#=,]*)([\]\s]*)(.*)$")


def brackets(slip: Slip) -> Told:
    """Tell a header whose brackets do not match, or that does not stand alone."""
    header = _HEADER.match(slip.line)
    if header is None or not header[2].strip():
        return None
    opened, closed = header[1].count("["), header[3].count("]")
    right = _header(header[2].strip())
    if re.search(r"\w\s+\w", header[2]) and "'" not in header[2] and '"' not in header[2]:
        return "a header has no blank in its name, such as [[part]] or [[zone.step]]"
    if opened == closed and opened in (1, 2) and " " not in header[1].strip():
        alone = not header[4] or header[4].startswith("#")
        return None if alone else f"something follows the header {right}; it stands alone on a line"
    many = "two brackets" if right.startswith("[[") else "one bracket"
    return f"a header is written {right}, with {many} on each side"


def table_twice(slip: Slip) -> Told:
    """Tell a table that stands twice, or once with one bracket and once with two."""
    header = _HEADER.match(slip.line)
    if header is None or not slip.said.startswith(("Cannot", "Duplicate")):
        return None
    name = header[2].strip()
    right = _header(name)
    if f"{header[1].strip()}{name}" == "[[zone":
        return "a [[zone.step]] stands above the first [[zone]]; it belongs below its zone"
    if not right.startswith("[["):
        return f"{right} stands twice; keep one of them"
    single = re.compile(rf"\s*\[\s*{re.escape(name)}\s*\]")
    first = next((k for k, line in enumerate(slip.lines, start=1) if single.match(line)), None)
    return first or slip.number, f"every {right} is written with two brackets on each side"


def key_twice(slip: Slip) -> Told:
    """Tell a key that stands twice in one table, where a header may be missing."""
    inline = re.match(r"Duplicate inline table key '(.*)'", slip.said)
    if inline:
        return f"{inline[1]} stands twice between {{ and }}; keep one of them"
    if not slip.said.startswith("Cannot"):
        return None
    number = slip.number
    while number > 1 and not PAIR.match(slip.lines[number - 1]):
        number -= 1
    pair = PAIR.match(slip.lines[number - 1])
    key = pair[1] if pair else "a key"
    before = _line_before(slip.lines, number, key)
    first = f", first on line {before}" if before else ""
    kind = _kind_of_table(slip.lines, number)
    if kind is not None:
        lost = f"; is a {HEADERS[kind]} line missing above line {number}?"
    else:
        lost = "; keep one of them, or is a header such as [[part]] missing between them?"
    return number, f"{key} stands twice in one table{first}{lost}"


def _line_before(lines: list[str], number: int, key: str) -> int | None:
    """Return the line above one on which the same key stands in the same table."""
    for above in range(number - 1, 0, -1):
        line = lines[above - 1]
        pair = PAIR.match(line)
        if pair and pair[1] == key:
            return above
        if line.lstrip().startswith("["):
            return None
    return None


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
