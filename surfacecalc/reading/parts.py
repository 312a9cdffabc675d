"""`[[part]]` tables become parts with a solid and a place."""

from collections.abc import Callable
from dataclasses import dataclass, field

from shapes.boards import FACES as SIX_SIDES
from shapes.boards import board
from shapes.cases import case
from shapes.drawers import drawer
from shapes.errors import ShapeError
from shapes.legs import round_leg, square_leg, tapered_leg, turned_leg
from shapes.panels import panel
from shapes.parts import Part
from shapes.placement import MOST_IN_A_ROW, ORIGIN, corners, place, row
from shapes.solids import Solid
from surfacecalc.problems import suggestion
from surfacecalc.reading.tables import Table, shown_key

COMMON_KEYS = ("name", "shape", "at", "row", "corners", "loose")
MOST_PARTS = 10_000
"""More parts than any piece has; a row that was meant to be shorter is caught here."""


@dataclass
class Parts:
    """The parts of a file.

    Attributes:
        parts: those without a mistake, rows and corners spelled out.
        lines: line of each part, by name.
        groups: names of the parts in a row or at corners, by the name of the whole.
        unsound: names that stand in the file but whose parts have a mistake.
    """

    parts: list[Part] = field(default_factory=list)
    lines: dict[str, int] = field(default_factory=dict)
    groups: dict[str, tuple[str, ...]] = field(default_factory=dict)
    unsound: set[str] = field(default_factory=set)


@dataclass(frozen=True)
class _Draft:
    """A part whose solid is known, waiting for its place."""

    table: Table
    name: str
    solid: Solid
    loose: bool | str


def read_parts(document: Table) -> Parts:
    """Return the parts of a file; mistakes are recorded."""
    found = Parts()
    drafts: dict[str, _Draft] = {}
    for table in document.tables("part", "[[part]]"):
        name = read_name(table, "part", found.lines)
        draft = _draft(table, name)
        if draft is None:
            found.unsound.add(name)
        else:
            drafts[name] = draft
    if not document.values.get("part"):
        document.mend("has no part; add at least one [[part]]")
    placed = {name: _place(draft) for name, draft in drafts.items() if "corners" not in draft.table}
    _place_at_corners(drafts, placed, found)
    for name, draft in drafts.items():
        _add(found, draft, placed.get(name))
    return found


def read_name(table: Table, what: str, lines: dict[str, int]) -> str:
    """Return the name of a table, unlike any in `lines`, and add it there."""
    table.where = what
    name = table.text("name", f'"{what}"')
    if name:
        table.where = f'{what} "{name}"'
    if what == "part" and set(name) & set(".*"):
        table.refuse("name", "must have no . and no * in it; they mean something in a zone")
    if name in lines:
        table.refuse("name", f"is taken: another {what} on line {lines[name]} has this name")
    elif name:
        lines[name] = table.line_of("name")
    return name


def _draft(table: Table, name: str) -> _Draft | None:
    shape = table.choice("shape", _SHAPES)
    loose = table.values.get("loose", shape == "drawer")
    if not isinstance(loose, bool) and not (isinstance(loose, str) and loose.strip()):
        table.refuse("loose", "must be true, false or a word that the parts it is joined to share")
    if not isinstance(table.values.get("shape"), str) or table.values["shape"] not in _SHAPES:
        return None
    keys, build = _SHAPES[shape](table)
    table.only([*COMMON_KEYS, *keys])
    solid = _built(table, build)
    return None if solid is None or not table.is_sound else _Draft(table, name, solid, loose)


def _built(table: Table, build: Callable[[], Solid]) -> Solid | None:
    """Return the solid, or None where its measures are wrong or do not go together."""
    if not table.is_sound:
        return None
    try:
        return build()
    except ShapeError as error:
        _record(table, error)
        return None


def _record(table: Table, error: ShapeError) -> None:
    """Record a broken rule of a shape in the words and the unit of the file."""
    limit = "" if error.limit_mm is None else f" ({table.context.length_text(error.limit_mm)})"
    key = error.argument.split()[0]
    if error.argument in table:
        table.refuse(key, f"must be {error.rule}{limit}")
    elif key in table:
        table.mend(f"{error.argument} must be {error.rule}{limit}", key)
    else:
        table.mend(f"{error.argument} must be {error.rule}{limit}")


_Plan = tuple[tuple[str, ...], Callable[[], Solid]]


def _board(table: Table) -> _Plan:
    size = [table.size_mm(key) for key in ("width", "depth", "height")]
    return ("width", "depth", "height"), lambda: board(*size)


def _case(table: Table) -> _Plan:
    size = [table.size_mm(key) for key in ("width", "depth", "height")]
    wall = table.size_mm("board")
    opened = table.values.get("open", [])
    if not isinstance(opened, list) or not all(isinstance(side, str) for side in opened):
        table.refuse("open", 'must be a list of sides, such as open = ["front"]')
        opened = []
    for number, side in enumerate(opened):
        if side not in SIX_SIDES:
            table.refuse("open", f"is no side; {suggestion(side, SIX_SIDES)}", number)
    keys = ("width", "depth", "height", "board", "open")
    return keys, lambda: case(*size, board=wall, open_sides=opened)


def _drawer(table: Table) -> _Plan:
    size = [table.size_mm(key) for key in ("width", "depth", "height")]
    front, wall = table.size_mm("front"), table.size_mm("board")
    keys = ("width", "depth", "height", "front", "board")
    return keys, lambda: drawer(*size, front=front, board=wall)


def _panel(table: Table) -> _Plan:
    size = [table.size_mm(key) for key in ("width", "depth", "height")]
    frame, recess = table.size_mm("frame"), table.size_mm("recess")
    keys = ("width", "depth", "height", "frame", "recess")
    return keys, lambda: panel(*size, frame=frame, recess=recess)


def _leg(table: Table) -> _Plan:
    form = table.choice("form", _LEGS) if "form" in table else "square"
    if not table.is_sound and table.values.get("form") != form:
        return tuple(table.values), lambda: square_leg(1, 1)
    keys, build = _LEGS[form](table)
    return (*keys, "form"), build


def _square_leg(table: Table) -> _Plan:
    height, width = table.size_mm("height"), table.size_mm("width")
    depth = table.size_mm("depth") if "depth" in table else None
    return ("height", "width", "depth"), lambda: square_leg(height, width, depth)


def _tapered_leg(table: Table) -> _Plan:
    height, width, foot = (table.size_mm(key) for key in ("height", "width", "foot"))
    depth = table.size_mm("depth") if "depth" in table else None
    keys = ("height", "width", "depth", "foot")
    return keys, lambda: tapered_leg(height, width, depth, foot=foot)


def _round_leg(table: Table) -> _Plan:
    height, width = table.size_mm("height"), table.size_mm("width")
    return ("height", "width"), lambda: round_leg(height, width)


def _turned_leg(table: Table) -> _Plan:
    profile = _profile(table)
    height = table.size_mm("height") if "height" in table else None
    if table.is_sound and height is not None and abs(height - profile[-1][0]) > 1e-9:
        table.refuse("height", "is not the height of the last point of the profile")
    return ("height", "profile"), lambda: turned_leg(profile)


def _profile(table: Table) -> list[tuple[float, float]]:
    example = "[[0, 30], [400, 45]]"
    if not table.has("profile", example):
        return [(0.0, 1.0), (1.0, 1.0)]
    value = table.values["profile"]
    if (
        not isinstance(value, list)
        or not value
        or not all(isinstance(point, list) and len(point) == 2 for point in value)
    ):
        table.refuse("profile", f"must be points [height, diameter], such as {example}")
        return [(0.0, 1.0), (1.0, 1.0)]
    points = []
    for number, point in enumerate(value):
        height, diameter = (table.length_mm(item, "profile", number, k) or 0.0
                            for k, item in enumerate(point))  # fmt: skip
        points.append((height, diameter))
    return points


_SHAPES: dict[str, Callable[[Table], _Plan]] = {
    "board": _board,
    "case": _case,
    "drawer": _drawer,
    "leg": _leg,
    "panel": _panel,
}
_LEGS: dict[str, Callable[[Table], _Plan]] = {
    "square": _square_leg,
    "tapered": _tapered_leg,
    "round": _round_leg,
    "turned": _turned_leg,
}


def _place(draft: _Draft) -> list[Part] | None:
    """Return the part or the row of parts where the table says, None after a mistake."""
    table = draft.table
    at = table.place_mm("at") if "at" in table else ORIGIN
    if "row" not in table:
        return _placed(table, lambda: [place(draft.name, draft.solid, at, loose=draft.loose)])
    inner = table.table("row", "{ of = 3, apart = [0, 0, 8] }")
    if inner is None:
        return None
    inner.only(["of", "apart"])
    count = inner.whole("of", 1, MOST_IN_A_ROW, "3")
    step = inner.place_mm("apart") if inner.has("apart", "[0, 0, 8]") else ORIGIN
    return _placed(
        inner,
        lambda: row(draft.name, draft.solid, at, of=count, apart=step, loose=draft.loose),
    )


def _placed(table: Table, build: Callable[[], list[Part]]) -> list[Part] | None:
    if not table.is_sound:
        return None
    try:
        return build()
    except ShapeError as error:
        _record(table, error)
        return None


def _place_at_corners(
    drafts: dict[str, _Draft], placed: dict[str, list[Part] | None], found: Parts
) -> None:
    """Place the parts that stand under the corners of others."""
    for name, draft in drafts.items():
        if "corners" in draft.table:
            placed[name] = _at_corners(draft, drafts, placed, found)


def _at_corners(
    draft: _Draft, drafts: dict[str, _Draft], placed: dict[str, list[Part] | None], found: Parts
) -> list[Part] | None:
    table = draft.table
    for key in ("at", "row"):
        if key in table:
            table.mend(f"has both corners and {key}; keep one of them", key)
    inner = table.table("corners", '{ of = "case", set_in = 0 }')
    if inner is None:
        return None
    inner.only(["of", "set_in"])
    of = inner.text("of", '"case"')
    set_in = inner.length_mm(inner.values["set_in"], "set_in") if "set_in" in inner else 0.0
    if not table.is_sound or set_in is None or of in found.unsound:
        return None
    if of not in drafts:
        inner.refuse("of", f"is no part; {suggestion(of, found.lines)}")
        return None
    if "corners" in drafts[of].table or "row" in drafts[of].table:
        inner.refuse("of", "stands in several places; corners need a part that stands once")
        return None
    under = placed.get(of)
    if under is None:
        return None
    return _placed(
        inner,
        lambda: corners(draft.name, draft.solid, under=under[0], set_in=set_in, loose=draft.loose),
    )


def _add(found: Parts, draft: _Draft, parts: list[Part] | None) -> None:
    """Add placed parts under their names, which must be free."""
    if parts is None:
        found.unsound.add(draft.name)
        return
    if len(found.parts) + len(parts) > MOST_PARTS:
        draft.table.mend(f"brings the piece to more than {MOST_PARTS:,} parts")
        return
    names = tuple(part.name for part in parts)
    if names != (draft.name,):
        found.groups[draft.name] = names
        for name in names:
            if name in found.lines:
                draft.table.mend(
                    f"makes a part {shown_key(name)}, which the part on line"
                    f" {found.lines[name]} is called already"
                )
            found.lines.setdefault(name, draft.table.line)
    found.parts += parts
