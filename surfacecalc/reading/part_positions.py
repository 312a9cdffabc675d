"""Where parts stand: by a corner, in rows, or by their relation to other parts.

A part that is placed by another one waits until that one stands, in whatever order the file has
them.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

from shapes.grid import to_mm
from shapes.parts import Part
from shapes.placement import MOST_IN_A_ROW, ORIGIN, corners, place, row
from shapes.relations import beside, between, grid, within
from shapes.solids import Solid
from shapes.transforms import mirror
from surfacecalc.problems import suggestion
from surfacecalc.reading import part_uprights
from surfacecalc.reading.part_uprights import is_upright, parts_between
from surfacecalc.reading.shape_rules import obeying
from surfacecalc.reading.tables import Table

KEYS = ("at", "row", "corners", "on", "under", "against", "inside", "between")
SIDES = ("front", "back", "left", "right", "top", "bottom")
SET_IN = "{ left = 12, front = 12 }"
APART = "[0, 0, 200]"
"""How far the parts of a row may stand apart [mm], as an example."""
RELATIONS = {
    "on": '{ part = "case" }',
    "under": '{ part = "top", set_in = { left = 12, front = 12 } }',
    "against": '{ part = "case", side = "back" }',
    "inside": '{ part = "case", set_in = { bottom = 10 } }',
}


@dataclass(frozen=True)
class PartDraft:
    """A part whose solid is known, waiting for its place.

    Attributes:
        table: its table.
        name: its name.
        solid: its solid; of any length, where that follows from its place.
        loose: as in `Part`.
        resize: returns its solid with another length [mm].
    """

    table: Table
    name: str
    solid: Solid
    loose: bool | str
    resize: Callable[[float], Solid | None]
    is_veneer: bool = False


class Places:
    """Places drafts, each once, those first that others stand by.

    Args:
        drafts: the parts without a mistake so far, by name.
        names: all names in the file, also of parts with a mistake.
    """

    def __init__(self, drafts: Mapping[str, PartDraft], names: Mapping[str, int]) -> None:
        self._drafts = drafts
        self._names = names
        self._placed: dict[str, list[Part] | None] = {}
        self._waiting: list[str] = []

    def parts_of(self, name: str) -> list[Part] | None:
        """Return where a draft stands: one part or several; None after a mistake."""
        if name not in self._placed:
            self._waiting.append(name)
            self._placed[name] = self._place(self._drafts[name])
            self._waiting.pop()
        return self._placed[name]

    def _place(self, draft: PartDraft) -> list[Part] | None:
        table = draft.table
        given = [key for key in KEYS if key in table and key != "row"]
        if isinstance(table.values.get("between"), str):
            given.remove("between")  # the form of a spindle's lines, as older files have it
        if len(given) > 1:
            first, second = sorted(given, key=lambda key: key == "at")[:2]
            table.mend(f"has both {first} and {second}; keep one of them", second)
        elif given and given[0] in ("corners", "between") and "row" in table:
            table.mend(f"has both {given[0]} and row; keep one of them", "row")
        if not table.is_sound:
            return None
        if given == ["corners"]:
            return self._at_corners(draft)
        if given == ["between"]:
            return self._between(draft)
        if given and given[0] in RELATIONS:
            at = self._by_relation(draft, given[0])
        else:
            at = table.place_mm("at") if given else ORIGIN
        return None if at is None else _in_rows(draft, at)

    def _part(self, inner: Table, key: str) -> Part | None:
        """Return the part that a key names, which must stand once; None after a mistake."""
        name = inner.text(key, '"case"')
        if not name or (name not in self._drafts and name in self._names):
            inner.spoil()  # its own mistake is recorded already
            return None
        base = name if name in self._drafts else name.rpartition(" ")[0]
        if base not in self._drafts and "part" in inner.context.unsure:
            inner.spoil()  # it may be a part whose name or header is missing
            return None
        if base not in self._drafts:
            inner.refuse(key, f"is not a part in this file; {suggestion(name, self._names)}")
            return None
        if base in self._waiting:
            inner.refuse(
                key, "is placed from this part in turn; give one of them its own at = [0, 0, 0]"
            )
            return None
        parts = self.parts_of(base)
        found = [part for part in parts or () if part.name == name]
        if parts is None:
            inner.spoil()
        elif not found and len(parts) > 1 and name == base:
            inner.refuse(key, f'is several parts; name one of them, such as "{name} 1"')
        elif not found:
            hint = suggestion(name, [part.name for part in parts])
            inner.refuse(key, f"is not a part in this file; {hint}")
        return found[0] if found else None

    def _at_corners(self, draft: PartDraft) -> list[Part] | None:
        inner = draft.table.table("corners", '{ of = "case", set_in = 0 }')
        if inner is None:
            return None
        inner.only(["of", "set_in"])
        under = self._part(inner, "of")
        set_in = inner.length_mm(inner.values["set_in"], "set_in") if "set_in" in inner else 0.0
        if under is None or set_in is None:
            return None
        parts = obeying(
            inner,
            lambda: corners(draft.name, draft.solid, under=under, set_in=set_in, loose=draft.loose),
        )
        return _outward(parts) if parts and "splay" in draft.table else parts

    def _by_relation(self, draft: PartDraft, key: str) -> tuple[float, float, float] | None:
        """Return where a part stands by another one [mm]."""
        by_name = isinstance(draft.table.values[key], str) and key != "against"
        inner = (
            draft.table
            if by_name
            else draft.table.table(key, draft.table.context.example(RELATIONS[key]))
        )
        if inner is None:
            return None
        if by_name:
            other, set_in = self._part(inner, key), {}
        else:
            inner.only(["part", "set_in", *(["side", "apart"] if key == "against" else [])])
            other, set_in = self._part(inner, "part"), _insets(inner)
        side = {"on": "top", "under": "bottom"}.get(key, "")
        if key == "against":
            side = inner.choice("side", SIDES)
        apart = inner.length_mm(inner.values["apart"], "apart") if "apart" in inner else 0.0
        if other is None or apart is None:
            return None
        at = obeying(
            inner,
            lambda: (
                within(draft.solid, other, set_in=set_in)
                if key == "inside"
                else beside(draft.solid, other, side, set_in=set_in, apart=apart)
            ),
        )
        return None if at is None else (to_mm(at[0]), to_mm(at[1]), to_mm(at[2]))

    def _between(self, draft: PartDraft) -> list[Part] | None:
        inner = draft.table.table("between", '{ first = "post 1", last = "post 2", of = 5 }')
        if inner is None:
            return None
        if is_upright(draft.table):
            return self._uprights(draft, inner)
        inner.only(["first", "last", "of", "axis", "set_in"])
        first, last = self._part(inner, "first"), self._part(inner, "last")
        of, set_in = inner.whole("of", 1, MOST_IN_A_ROW, "5"), _insets(inner)
        axis = inner.choice("axis", ("x", "y", "z")) if "axis" in inner else "x"
        if first is None or last is None:
            return None
        return obeying(
            inner,
            lambda: between(
                draft.name,
                draft.solid,
                first,
                last,
                of=of,
                axis=axis,
                set_in=set_in,
                loose=draft.loose,
            ),
        )

    def _uprights(self, draft: PartDraft, inner: Table) -> list[Part] | None:
        inner.only(part_uprights.KEYS)
        below, above = self._part(inner, "below"), self._part(inner, "above")
        of, set_in = inner.whole("of", 1, MOST_IN_A_ROW, "5"), _insets(inner)
        axis = inner.choice("axis", ("x", "y")) if "axis" in inner else "x"
        tenon = inner.length_mm(inner.values["tenon"], "tenon") if "tenon" in inner else 0.0
        if below is None or above is None or tenon is None:
            return None
        return obeying(
            inner,
            lambda: parts_between(
                draft.name,
                draft.solid,
                draft.resize,
                below,
                above,
                tenon=tenon,
                of=of,
                axis=axis,
                set_in=set_in,
                loose=draft.loose,
            ),
        )


def _outward(legs: list[Part]) -> list[Part]:
    """Return splayed legs at corners: the first as it is, the others as its mirror images."""
    first = legs[0].solid
    right = mirror(first, "left-right")
    solids = first, right, mirror(first, "front-back"), mirror(right, "front-back")
    return [replace(leg, solid=solid) for leg, solid in zip(legs, solids, strict=True)]


def _insets(table: Table) -> dict[str, float]:
    """Return how far a part is set in from sides of another one's box [mm]."""
    inner = table.table("set_in", table.context.example(SET_IN)) if "set_in" in table else None
    if inner is None:
        return {}
    inner.only(SIDES)
    return {
        side: inner.length_mm(value, side) or 0.0
        for side, value in inner.values.items()
        if side in SIDES
    }


def _in_rows(draft: PartDraft, at: tuple[float, float, float]) -> list[Part] | None:
    """Return the part at a place, or the row of parts that starts there."""
    table, name, solid = draft.table, draft.name, draft.solid
    build: Callable[[], list[Part]]
    if "row" not in table:
        return obeying(table, lambda: [place(name, solid, at, loose=draft.loose)])
    inner = table.table("row", f"{{ of = 3, apart = {table.context.example(APART)} }}")
    if inner is None:
        return None
    inner.only(["of", "apart"])
    if isinstance(inner.values.get("of"), list):
        counts, steps = _two_ways(inner)
        build = lambda: grid(name, solid, at, of=counts, apart=steps, loose=draft.loose)  # noqa: E731
    else:
        count = inner.whole("of", 1, MOST_IN_A_ROW, "3")
        has_step = inner.has("apart", inner.context.example(APART))
        step = inner.place_mm("apart", APART) if has_step else ORIGIN
        build = lambda: row(name, solid, at, of=count, apart=step, loose=draft.loose)  # noqa: E731
    return obeying(inner, build)


def _two_ways(inner: Table) -> tuple[list[int], list[tuple[float, float, float]]]:
    """Return how many parts stand in each of two directions, and how far apart [mm]."""
    steps_example = inner.context.example("[[200, 0, 0], [0, 0, 200]]")
    example = f"row = {{ of = [3, 2], apart = {steps_example} }}"
    counts, steps = inner.values["of"], inner.values.get("apart")
    whole = all(isinstance(n, int) and not isinstance(n, bool) and n > 0 for n in counts)
    if len(counts) != 2 or not whole:
        inner.refuse("of", f"must be two whole numbers, such as {example}")
    if (
        not isinstance(steps, list)
        or len(steps) != 2
        or not all(isinstance(step, list) and len(step) == 3 for step in steps)
    ):
        inner.mend(f"apart must be two lists of three lengths, such as {example}", "apart")
        return [1, 1], [ORIGIN, ORIGIN]
    found = []
    for number, step in enumerate(steps):
        x, y, z = (inner.length_mm(item, "apart", number, k) or 0.0 for k, item in enumerate(step))
        found.append((x, y, z))
    return counts, found
