"""Parts of a new piece as text: each a table of the piece file, with the zones of its faces."""

import json
import textwrap
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from surfacecalc.starting.scales import Scale


@dataclass(frozen=True)
class Block:
    """One [[part]] of the file.

    Attributes:
        name: the part's name.
        shape: its shape.
        keys: its other keys; fractions are lengths [mm], whole numbers are counts.
        zones: the zone of each of its faces: zone to names of faces, none for all the others.
        comment: a comment above it; empty for none.
    """

    name: str
    shape: str
    keys: Mapping[str, Any]
    zones: Mapping[str, tuple[str, ...]]
    comment: str = ""


@dataclass(frozen=True)
class ZoneFaces:
    """A zone and the selectors of its faces."""

    name: str
    selectors: tuple[str, ...] = field(default=())


def block_text(block: Block, scale: Scale) -> str:
    """Return a part as it is written in the file."""
    lines = textwrap.wrap(block.comment, 80, initial_indent="# ", subsequent_indent="# ")
    lines += [
        "[[part]]",
        f"name = {toml(block.name, scale)}",
        f"shape = {toml(block.shape, scale)}",
    ]
    lines += [f"{key} = {toml(value, scale)}" for key, value in block.keys.items()]
    return "\n".join(lines)


def toml(value: Any, scale: Scale) -> str:
    """Return a value as TOML; a Fraction is a length [mm].

    >>> toml({"of": 2, "apart": (Fraction("25.4"), Fraction(0))}, Scale("in"))
    '{ of = 2, apart = [1, 0] }'
    """
    if isinstance(value, Fraction):
        return scale.toml(value)
    if isinstance(value, Mapping):
        inner = ", ".join(f"{key} = {toml(item, scale)}" for key, item in value.items())
        return f"{{ {inner} }}"
    if isinstance(value, tuple):
        return f"[{', '.join(toml(item, scale) for item in value)}]"
    return json.dumps(value, ensure_ascii=False)


def zones_of(blocks: Iterable[Block], order: Iterable[str]) -> list[ZoneFaces]:
    """Return the zones that parts have faces in, with their selectors, in a given order."""
    found: dict[str, list[str]] = {}
    for block in blocks:
        for zone, faces in block.zones.items():
            selectors = [f"{block.name}.{face}" for face in faces] or [block.name]
            found.setdefault(zone, []).extend(selectors)
    return [ZoneFaces(zone, tuple(found[zone])) for zone in order if zone in found]


def row(count: int, step: tuple[Fraction, Fraction, Fraction]) -> dict[str, Any]:
    """Return the key that puts several parts in a row; nothing for a single one."""
    return {"row": {"of": count, "apart": step}} if count > 1 else {}
