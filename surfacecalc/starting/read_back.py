"""The answers of a piece file that `new` wrote, read back from it.

Measurements are in the list at the top of the file, which `new` wrote and people can read. All else
is in the tables: [piece], the zones, the first step of a schedule, and the products of the steps.
Where the list and the parts disagree, somebody changed a part by hand: the list has the answers,
and the part keeps what it has (see `merging`).
"""

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from surfacecalc.problems import listing
from surfacecalc.starting.file_pieces import HEAD, FilePiece, steps_by_schedule, taken_apart
from surfacecalc.starting.file_text import MEASURED, NOT_MEASURED
from surfacecalc.starting.finishes import AS_IN_FILE, CONDITIONS, FINISHES, LEAVE
from surfacecalc.starting.measurements import Measure
from surfacecalc.starting.name_questions import UNKNOWN
from surfacecalc.starting.piece_kinds import KINDS, MESH, kind_of
from surfacecalc.starting.questions import condition_key, finish_key
from surfacecalc.starting.scales import UNITS

_MADE = re.compile(r": (?:a|a set of) (\w+), started with `surfacecalc new`")
_WAY = re.compile(rf"({'|'.join(FINISHES)}) on ({'|'.join(CONDITIONS)})")


class NotReadBackError(Exception):
    """A file's answers cannot be read back; says why in one sentence."""


@dataclass
class EarlierAnswers:
    """What a file answers.

    Attributes:
        answers: by the questions' keys, in words.
        assumed: keys of the measures that were taken as proposed.
        pieces: the file's pieces.
    """

    answers: dict[str, str]
    assumed: set[str]
    pieces: list[FilePiece] = field(default_factory=list)


def answers_in(text: str, target: Path) -> EarlierAnswers:
    """Return the answers of a piece file's text.

    Raises:
        NotReadBackError: the file was not written by `new`, or lacks an answer that all rests on.
    """
    pieces = taken_apart(text)
    head = next((piece for piece in pieces if piece.identity == HEAD), None)
    if head is None:
        raise NotReadBackError(
            "it does not begin with the list of measurements that `new` writes, so its answers are"
            " not known; change it in a text editor"
        )
    piece = next((p.values for p in pieces if p.identity == ("piece",)), None) or {}
    kind = _kind(head, piece)
    answers = {
        "kind": kind,
        "file": str(target),
        "name": str(piece.get("name")),
        "unit": _unit(piece),
        "built": str(piece.get("built", UNKNOWN)),
        "currency": str(piece.get("currency", "none")),
    }
    if kind == MESH:
        answers |= _mesh(pieces, target)
    listed, assumed = _listed(head, kind_of(kind).measures)
    found = EarlierAnswers({**answers, **listed}, assumed, pieces)
    found.answers |= _finishes(pieces)
    found.answers |= _stripping(pieces)
    return found


def _kind(head: FilePiece, piece: Mapping[str, Any]) -> str:
    made = _MADE.search(_words(head.text))
    kind = made[1] if made else ""
    if kind not in [known.key for known in KINDS] or piece.get("kind", kind) != kind:
        raise NotReadBackError(
            "the list at its top and kind in [piece] do not say the same kind of piece"
        )
    return kind


def _unit(piece: Mapping[str, Any]) -> str:
    unit = str(piece.get("unit"))
    if unit not in UNITS:
        raise NotReadBackError(f"unit in [piece] is not one of {listing(UNITS)}")
    return unit


def _mesh(pieces: Sequence[FilePiece], target: Path) -> dict[str, str]:
    values = next((p.values for p in pieces if p.identity == ("part", "model")), None)
    if not values or "file" not in values or "unit" not in values:
        raise NotReadBackError('it has no part "model" with its file and unit')
    return {"mesh": str(target.parent / values["file"]), "mesh-unit": str(values["unit"])}


def _words(comment: str) -> str:
    return " ".join(line.lstrip("#").strip() for line in comment.splitlines())


def _listed(head: FilePiece, measures: Sequence[Measure]) -> tuple[dict[str, str], set[str]]:
    """Return the measures of the list at the top, and the keys of those that were not measured."""
    found: dict[str, str] = {}
    assumed: set[str] = set()
    is_assumed = False
    for line in _entries(head):
        if line in (f"{MEASURED}:", f"{NOT_MEASURED}:"):
            is_assumed = line.startswith(NOT_MEASURED)
            continue
        for measure in measures:
            if line.startswith(f"{measure.what}: "):
                text = line.removeprefix(f"{measure.what}: ")
                found[measure.key] = text.removesuffix(f", {measure.how}").strip()
                assumed |= {measure.key} if is_assumed else set()
    return found, assumed


def _entries(head: FilePiece) -> list[str]:
    """Return the lines of the list, those that are wrapped made one."""
    entries: list[str] = []
    for line in head.text.splitlines():
        if line.startswith("#     ") and entries:
            entries[-1] = f"{entries[-1]} {line.lstrip('# ')}".rstrip()
        else:
            entries.append(line.lstrip("# ").rstrip())
    return entries


def _finishes(pieces: Sequence[FilePiece]) -> dict[str, str]:
    """Return how each zone is finished and what is on it; a zone that is made by hand as it is."""
    found: dict[str, str] = {}
    for piece in pieces:
        if piece.identity[:1] != ("zone",) or piece.values is None:
            continue
        zone, way = str(piece.identity[1]), _WAY.fullmatch(str(piece.values.get("schedule")))
        if piece.values.get("leave") is True:
            found[finish_key(zone)] = LEAVE
        elif way is None:
            found[finish_key(zone)] = AS_IN_FILE
        else:
            found |= {finish_key(zone): way[1], condition_key(zone): way[2]}
    return found


def _stripping(pieces: Sequence[FilePiece]) -> dict[str, str]:
    """Return how the old finish comes off, by the first step that takes it off."""
    for steps in steps_by_schedule(pieces).values():
        first = steps[0].values or {}
        if first.get("do") == "strip":
            return {"stripping": "stripper" if "product" in first else "sanding"}
    return {}


def names_in(
    steps: Mapping[str, Sequence[FilePiece]],
    pairs: Mapping[str, Sequence[tuple[int, int]]],
    written: Mapping[str, Sequence[FilePiece]],
) -> dict[str, str]:
    """Return what a file calls the supplies that `new` called otherwise, or the same.

    Args:
        steps: the steps of the file, by schedule.
        pairs: which step that `new` wrote is which of the file, by schedule.
        written: the steps that `new` wrote.
    """
    called: dict[str, Counter[str]] = {}
    for name, matches in pairs.items():
        for own, other in matches:
            for supply, title in _named(written[name][own], steps[name][other]):
                called.setdefault(supply, Counter())[title] += 1
    return {
        supply: supply if supply in titles else titles.most_common(1)[0][0]
        for supply, titles in called.items()
    }


def _named(written: FilePiece, step: FilePiece) -> list[tuple[str, str]]:
    """Return the names in a step that `new` wrote, each with that in the same step of a file."""
    found = []
    for key in ("product", "with"):
        ours, theirs = ((piece.values or {}).get(key) for piece in (written, step))
        if isinstance(ours, str) and isinstance(theirs, str):
            found.append((ours, theirs))
    return found
