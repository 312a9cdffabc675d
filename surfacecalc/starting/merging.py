"""What other answers change of a piece file, done to the file as it is now.

Three texts: what `new` writes for the answers that are in the file, what it writes for the changed
ones, and the file itself. Only what differs between the first two is done to the third; where the
file was changed by hand in that very place, nothing is done and a sentence says so.
"""

import difflib
import itertools
import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from surfacecalc.starting.file_pieces import (
    HEAD,
    FilePiece,
    Identity,
    KeyLines,
    steps_by_schedule,
    taken_apart,
)

SUPPLIES = ("product", "abrasive", "consumable")
"""Tables that stay where somebody changed them, although no step needs them any more."""


@dataclass
class Merged:
    """The file with the changes.

    Attributes:
        pieces: its pieces, in their order.
        refused: why some change cannot be made, a sentence each.
        notes: what was left as it is, a sentence each.
    """

    pieces: list[FilePiece]
    refused: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)

    @property
    def text(self) -> str:
        """The file's text."""
        return "".join(piece.text for piece in self.pieces)

    def place(self, identity: Identity) -> int | None:
        """Return where a piece is, None where it is not."""
        return next((n for n, p in enumerate(self.pieces) if p.identity == identity), None)


def merged(old_text: str, new_text: str, file_text: str) -> Merged:
    """Return a file with what differs between two texts of the guided start."""
    file = taken_apart(file_text)
    old = _aligned(taken_apart(old_text), file, "by earlier answers")
    new = _aligned(taken_apart(new_text), old, "by new answers")
    result = Merged(file)
    gone = _schedules_by_hand(old, file)
    before, after = _by_identity(old), _by_identity(new)
    for identity, piece in after.items():
        if identity in before and before[identity].text != piece.text:
            _change(result, before[identity], piece)
    for identity in [identity for identity in after if identity not in before]:
        _add(result, identity, list(after), after[identity])
    for identity in [identity for identity in before if identity not in after]:
        is_whole = not any(key[:2] == identity[:2] for key in after)
        is_by_hand = is_whole and identity[:2] in gone
        _take_out(result, before[identity], is_by_hand=is_by_hand)
    result.notes = list(dict.fromkeys(result.notes))
    return result


def _schedules_by_hand(old: Sequence[FilePiece], file: Sequence[FilePiece]) -> set[Identity]:
    """Return the schedules of a file in which a step was changed or added by hand."""
    written = {piece.identity: piece.text.strip() for piece in old}
    return {
        piece.identity[:2]
        for steps in steps_by_schedule(file).values()
        for piece in steps
        if written.get(piece.identity) != piece.text.strip()
    }


def _by_identity(pieces: Sequence[FilePiece]) -> dict[Identity, FilePiece]:
    return {piece.identity: piece for piece in pieces if piece.identity}


def step_matches(own: Sequence[FilePiece], others: Sequence[FilePiece]) -> list[tuple[int, int]]:
    """Return which steps of one schedule are which of another list, by their places in both."""
    marks, others_marks = ([_step_mark(step) for step in steps] for steps in (own, others))
    matcher = difflib.SequenceMatcher(None, marks, others_marks, autojunk=False)
    return [
        (block.a + n, block.b + n)
        for block in matcher.get_matching_blocks()
        for n in range(block.size)
    ]


def _step_mark(step: FilePiece) -> str:
    """Return what a step is told apart by: its word, and whether it has grits or a product."""
    values = step.values or {}
    return f"{values.get('do')} {'grits' in values} {'product' in values}"


def _aligned(
    pieces: Sequence[FilePiece], others: Sequence[FilePiece], mark: str
) -> list[FilePiece]:
    """Return pieces whose steps have the identities of the same steps in other pieces.

    A step that the others do not have gets one of its own.

    Args:
        pieces: the pieces.
        others: those that may have the same steps.
        mark: whose steps they are.
    """
    there = steps_by_schedule(others)
    renamed: dict[int, FilePiece] = {}
    for name, steps in steps_by_schedule(pieces).items():
        same = dict(step_matches(steps, there.get(name, [])))
        for place, step in enumerate(steps):
            identity: Identity = ("schedule", name, f"{place} {mark}")
            if place in same:
                identity = there[name][same[place]].identity
            renamed[id(step)] = FilePiece(identity, step.text, step.values)
    return [renamed.get(id(piece), piece) for piece in pieces]


def _called(piece: FilePiece) -> str:
    """Return what a piece is called in a sentence."""
    kind, *name = piece.identity
    if kind == "schedule":
        word = (piece.values or {}).get("do")
        return f'the step "{word}" of the schedule "{name[0]}"'
    return f'the {kind} "{name[0]}"' if name else f"[{kind}]"


def _change(result: Merged, old: FilePiece, new: FilePiece) -> None:
    """Do to a piece of the file what differs between two."""
    place = result.place(old.identity)
    if place is None:
        if old.values is not None:
            result.notes.append(f"{_called(old)} was taken out by hand, so it stays out")
        return
    file = result.pieces[place]
    if file.text == old.text:
        result.pieces[place] = FilePiece(file.identity, new.text, new.values)
        return
    if old.values is None or new.values is None or file.values is None:
        lines, missed = changed_lines(*(_lines(p.text) for p in (old, new, file)))
        result.pieces[place] = FilePiece(file.identity, "".join(lines))
        if missed and old.identity == HEAD:
            result.refused.append(
                "the list of measurements at the top was changed by hand, in the line"
                f' "{missed[0].strip("# ").strip()}"'
            )
        return
    result.pieces[place] = _changed_table(result, old, new, file)


def _changed_table(result: Merged, old: FilePiece, new: FilePiece, file: FilePiece) -> FilePiece:
    """Return a table of the file with the keys that differ between two tables."""
    comment, _ = changed_lines(old.comment, new.comment, file.comment)
    statements, rest = file.statements()
    own = {statement.key: statement for statement in old.statements()[0]}
    wanted = {statement.key: statement for statement in new.statements()[0]}
    values = file.values or {}
    for key in dict.fromkeys([*own, *wanted]):
        before, after = (piece.values or {} for piece in (old, new))
        was, becomes, found = before.get(key), after.get(key), values.get(key)
        if was == becomes or found == becomes:
            continue
        if found == was and key not in wanted:
            statements = _without(statements, own[key])
        elif found == was and found is None:
            statements = _with(statements, wanted[key], list(wanted))
        elif found == was:
            statements = _with_value(statements, key, wanted[key].value_text)
        elif (items := _with_items(was, becomes, found)) is not None:
            statements = _with_value(statements, key, f"[{', '.join(items)}]")
        else:
            result.refused.append(_clash(file, key, was, becomes, found))
    return file.rebuilt(comment, statements, rest)


def _with_value(statements: Sequence[KeyLines], key: str, text: str) -> list[KeyLines]:
    return [s.with_value(text) if s.key == key else s for s in statements]


def _with_items(was: Any, becomes: Any, found: Any) -> list[str] | None:
    """Return a list of names in the file with the names that go and come; None for other values."""
    was, becomes = was or [], becomes or []
    lists = [was, becomes, found]
    if not all(isinstance(v, list) and all(isinstance(i, str) for i in v) for v in lists):
        return None
    kept = [item for item in found if item not in was or item in becomes]
    added = [item for item in becomes if item not in was and item not in kept]
    return [json.dumps(item, ensure_ascii=False) for item in [*kept, *added]]


def _clash(file: FilePiece, key: str, was: Any, becomes: Any, found: Any) -> str:
    """Return what is said where a value was changed by hand that an answer changes too."""
    return (
        f"{key} of {_called(file)} was changed by hand: it is {_shown(found)} in the file,"
        f" {_shown(was)} by the earlier answers and {_shown(becomes)} by the new ones (change"
        " that line in a text editor, so that it is one of these two)"
    )


def _shown(value: Any) -> str:
    if value is None:
        return "not there"
    if isinstance(value, list):
        return f"[{', '.join(map(_shown, value))}]"
    if isinstance(value, Mapping):
        return f"{{ {', '.join(f'{key} = {_shown(item)}' for key, item in value.items())} }}"
    return f'"{value}"' if isinstance(value, str) else str(value).lower()


def _without(statements: Sequence[KeyLines], gone: KeyLines) -> list[KeyLines]:
    """Return statements without one, and without the comment that came with it."""
    found: list[KeyLines] = []
    carried = ""
    for statement in statements:
        if statement.key == gone.key:
            carried = statement.before.replace(gone.before, "", 1)
            continue
        found.append(KeyLines(statement.key, carried + statement.before, statement.text))
        carried = ""
    return found


def _with(statements: Sequence[KeyLines], added: KeyLines, order: Sequence[str]) -> list[KeyLines]:
    """Return statements with one more, after those that come before it in an order."""
    earlier = order[: order.index(added.key)]
    places = [n for n, statement in enumerate(statements) if statement.key in earlier]
    place = places[-1] + 1 if places else 0
    before = [*statements[:place]]
    if before and not before[-1].text.endswith("\n"):
        last = before.pop()
        before.append(KeyLines(last.key, last.before, f"{last.text}\n"))
    return [*before, added, *statements[place:]]


def _lines(text: str) -> list[str]:
    return text.splitlines(keepends=True)


def changed_lines(
    old: Sequence[str], new: Sequence[str], file: Sequence[str]
) -> tuple[list[str], list[str]]:
    """Return lines with what differs between two others, and the old lines that were not found.

    >>> changed_lines(["a", "b"], ["a", "c"], ["x", "a", "b"])
    (['x', 'a', 'c'], [])
    """
    matcher = difflib.SequenceMatcher(None, old, file, autojunk=False)
    where = {
        block.a + n: block.b + n
        for block in matcher.get_matching_blocks()
        for n in range(block.size)
    }
    edits: list[tuple[int, int, Sequence[str]]] = []
    missed: list[str] = []
    changes = difflib.SequenceMatcher(None, old, new, autojunk=False).get_opcodes()
    for tag, low, high, start, stop in changes:
        if tag == "equal":
            continue
        places = [where.get(n) for n in range(low, high)]
        if low == high:
            near = where[low - 1] + 1 if low - 1 in where else where.get(low, len(file))
            edits.append((near, near, new[start:stop]))
        elif None in places or any(
            int(b or 0) - int(a or 0) != 1 for a, b in itertools.pairwise(places)
        ):
            missed += old[low:high]
        else:
            edits.append((int(places[0] or 0), int(places[-1] or 0) + 1, new[start:stop]))
    lines = list(file)
    for low, high, text in sorted(edits, key=lambda edit: edit[:2], reverse=True):
        lines[low:high] = text
    return lines, missed


def _add(result: Merged, identity: Identity, order: Sequence[Identity], piece: FilePiece) -> None:
    """Put a new piece after the one that comes before it where nothing was changed by hand."""
    if result.place(identity) is not None:
        if identity[0] in ("part", "zone"):
            result.refused.append(
                f"{_called(piece)} was added by hand, and your answers give one of that name too"
            )
        return
    before = reversed(order[: order.index(identity)])
    places = [place for place in map(result.place, before) if place is not None]
    blank = FilePiece((), "\n")
    if not places:
        result.pieces += [blank, piece]
        return
    last = result.pieces[places[0]]
    if not last.text.endswith("\n"):
        result.pieces[places[0]] = FilePiece(last.identity, f"{last.text}\n", last.values)
    result.pieces[places[0] + 1 : places[0] + 1] = [blank, piece]


def _take_out(result: Merged, old: FilePiece, *, is_by_hand: bool) -> None:
    """Take a piece out that the answers no longer give, unless somebody changed or needs it.

    Args:
        result: the file.
        old: what `new` once wrote.
        is_by_hand: whether it is a step of a schedule that goes and was changed by hand elsewhere.
    """
    place = result.place(old.identity)
    if place is None:
        return
    file = result.pieces[place]
    is_own = file.text.strip() != old.text.strip()
    kind = old.identity[0]
    if kind == "comment":
        if not is_own:
            _delete(result, place)
        return
    if kind == "schedule" and not is_by_hand and is_own:
        result.refused.append(f"{_called(old)} was changed by hand, and your answers take it out")
        return
    if kind in ("part", "zone") and is_own:
        result.refused.append(
            f"{_called(old)} was changed by hand, and your answers take it out; take it out of the"
            " file yourself first, with what is about it elsewhere"
        )
        return
    if kind in (*SUPPLIES, "schedule") and (is_own or is_by_hand or _is_needed(result, old)):
        result.notes.append(
            f'the {kind} "{old.identity[1]}" stays in the file, since it was changed by hand or is'
            " used elsewhere"
        )
        return
    _delete(result, place)


def _delete(result: Merged, place: int) -> None:
    """Take out a piece with the empty line after it, or before it where it is the last."""
    del result.pieces[place]
    beside = place if place < len(result.pieces) else place - 1
    if result.pieces and not result.pieces[beside].identity:
        del result.pieces[beside]


def _is_needed(result: Merged, old: FilePiece) -> bool:
    """Whether something else in the file names a supply or a schedule."""
    name = old.identity[1]
    rest = [piece for piece in result.pieces if piece.identity[:2] != old.identity[:2]]
    named = itertools.chain.from_iterable(_texts(piece.values) for piece in rest)
    return name in set(named)


def _texts(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, Mapping):
        for item in value.values():
            yield from _texts(item)
    elif isinstance(value, list):
        for item in value:
            yield from _texts(item)
