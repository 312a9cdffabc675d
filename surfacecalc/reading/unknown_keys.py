"""Keys and tables that do not belong where they stand.

A slip of the finger is told once, with what was meant; what stands there is read as if it had been
spelled right, so that one slip does not make ten mistakes. A file with a slip yields no piece.
"""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from surfacecalc.problems import is_close, listing, nearest, suggestion
from surfacecalc.reading.positions import Path, lines_moved
from surfacecalc.reading.shown import shown_key

if TYPE_CHECKING:
    from surfacecalc.reading.tables import Table

HEADERS = {
    "piece": "[piece]",
    "part": "[[part]]",
    "zone": "[[zone]]",
    "step": "[[zone.step]]",
    "schedule": "[[schedule.NAME]]",
    "product": "[[product]]",
    "abrasive": "[[abrasive]]",
    "mix": "[[mix]]",
    "tape": "[[tape]]",
    "hardware": "[[hardware]]",
    "consumable": "[[consumable]]",
    "price": "[price]",
}
"""The line that starts each kind of table."""
TELLING = {"shape": "part", "faces": "zone", "do": "step"}
"""Keys that one kind of table alone has, and always has."""
BELONGING = {
    "part": ("shape", "width", "depth", "height", "at", "row", "corners", "loose", "board"),
    "zone": ("faces", "surface", "schedule", "leave"),
    "step": ("do", "grits", "with", "product", "coats", "by"),
    "product": ("kind", "covers", "solids", "dry_film", "packs", "on_hand"),
    "abrasive": ("form", "life", "packs", "on_hand"),
}
"""Keys that show, two of them together, what kind of table they belong to."""


def record_strays(table: "Table", keys: Sequence[str]) -> None:
    """Record every key of a table that is none of those that belong there."""
    strays = [key for key in table.values if key not in keys]
    if strays and not table.path:
        strays = _without_head(table, strays)
    lost = _lost_kind(table, strays)
    if lost:
        strays = _lost_header(table, strays, lost)
    for key in strays:
        meant = table.misspelt(key, keys)
        if table.path:
            hint = f'did you mean "{meant}"?' if meant else suggestion("", keys)
            table.mend(f"{shown_key(key)} is not known here; {hint}", key)
        else:
            table.mend(_no_table(key, table.values[key], meant, keys), key)


def take_as(table: "Table", key: str, meant: str) -> None:
    """Let what stands under a key be found under the one that was meant, where that can be."""
    value, before = table.values[key], table.values.get(meant)
    if meant == "step" and not _is_table(value):
        return
    both = isinstance(value, list) and isinstance(before, list)
    if before is not None and not both:
        return
    shift = len(before) if isinstance(before, list) else 0
    table.values = {**table.values, meant: [*before, *value] if both and before else value}
    lines = table.context.lines
    moved = lines_moved(lines, (*table.path, key), (*table.path, meant), shift)
    lines.update({path: line for path, line in moved.items() if path not in lines})


def meant_key(table: "Table", key: str, keys: Sequence[str]) -> str | None:
    """Return the key that a misspelt one may mean; at the top also what its own keys tell."""
    near = nearest(key, keys)
    if table.path:
        return near
    if near is not None and is_close(key, near):
        return near
    value = table.values[key]
    first = value[0] if isinstance(value, list) and value else value
    told = [TELLING[inner] for inner in first if inner in TELLING] if _is_table(value) else []
    return told[0] if told and told[0] in keys else None


def _no_table(key: str, value: Any, meant: str | None, keys: Sequence[str]) -> str:
    """Return what is wrong with a key at the top of the file."""
    is_list = isinstance(value, list) and _is_table(value)
    name = key if len(key) <= 60 else f"{key[:57]}..."
    written = f"[[{name}]]" if is_list else f"[{name}]" if isinstance(value, dict) else f'"{name}"'
    if meant:
        return (
            f"{written} is not a heading that a piece file can have; did you mean {_header(meant)}?"
        )
    if not is_list and not isinstance(value, dict):
        return f"{written} is not under any heading; put it below one, such as [piece]"
    known = listing(_header(k) for k in keys)
    return f"{written} is not a heading that a piece file can have; use one of {known}"


def _header(kind: str) -> str:
    return HEADERS.get(kind, f"[[{kind}]]")


def _without_head(table: "Table", strays: list[str]) -> list[str]:
    """Return the strays but those that show that the line [piece] is missing, which is told."""
    head = [key for key in strays if key in ("name", "unit")]
    if not head or "piece" in table.values:
        return strays
    line = table.line_of(head[0])
    table.mend(
        f"{head[0]} is not under any heading; is a [piece] line missing above line {line}?", *head
    )
    loose = [key for key in strays if not _is_table(table.values[key])]
    table.values = {**table.values, "piece": {key: table.values[key] for key in loose}}
    for key in loose:
        table.context.lines.update(lines_moved(table.context.lines, (key,), ("piece", key)))
    table.context.lines["piece",] = line
    return [key for key in strays if key not in loose]


def _is_table(value: Any) -> bool:
    if isinstance(value, list):
        return bool(value) and all(isinstance(item, dict) for item in value)
    return isinstance(value, dict)


def _lost_kind(table: "Table", strays: list[str]) -> str | None:
    """Return the kind of table that strays belong to whose header is missing, or None."""
    own = _kind(table.path)
    if own is None:
        return None
    for key in strays:
        if TELLING.get(key, own) != own:
            return TELLING[key]
    for kind, belonging in BELONGING.items():
        if kind != own and len(set(strays).intersection(belonging)) > 1:
            return kind
    return None


def _lost_header(table: "Table", strays: list[str], kind: str) -> list[str]:
    """Record that a header is missing, and return the strays that this does not explain."""
    found = [key for key in strays if key in BELONGING[kind]]
    first = min(found, key=table.line_of)
    own = HEADERS[str(_kind(table.path))]
    table.mend(
        f"{shown_key(first)} belongs under {HEADERS[kind]}, not under {own};"
        f" is a {HEADERS[kind]} line missing above line {table.line_of(first)}?",
        first,
    )
    table.context.unsure.add(kind)
    if kind == "step" and _kind(table.path) == "zone":
        _gather(table, found)
    return [key for key in strays if key not in found]


def _gather(zone: "Table", keys: list[str]) -> None:
    """Let keys of a step that stand in a zone be a step of it, so that it has a finish."""
    steps = zone.values.get("step", [])
    if not isinstance(steps, list):
        return
    zone.values = {**zone.values, "step": [*steps, {key: zone.values[key] for key in keys}]}
    lines, step = zone.context.lines, (*zone.path, "step", len(steps))
    for key in keys:
        lines.update(lines_moved(lines, (*zone.path, key), (*step, key)))


def _kind(path: Path) -> str | None:
    """Return which kind of table stands at a path, None for a table in a table."""
    if path[2:3] == ("step",) or (path[:1] == ("schedule",) and len(path) == 3):
        return "step"
    return str(path[0]) if len(path) in (1, 2) and path[0] in HEADERS else None
