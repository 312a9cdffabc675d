"""`[[part]]` tables become parts with a solid and a place."""

from dataclasses import dataclass, field

from shapes.parts import Part
from shapes.solids import Solid
from surfacecalc.reading import part_positions
from surfacecalc.reading.part_positions import PartDraft, Places
from surfacecalc.reading.part_uprights import is_upright, resized, with_some_height
from surfacecalc.reading.solids.solid import LOOSE_SHAPES, read_solid
from surfacecalc.reading.tables import Table, shown_key
from surfacecalc.reading.wood import read_veneer

COMMON_KEYS = ("name", "shape", "loose", "veneer", *part_positions.KEYS)
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
        mesh_units: the unit of the file of each part that is a mesh, by name.
        veneered: names of the parts that are veneer.
    """

    parts: list[Part] = field(default_factory=list)
    lines: dict[str, int] = field(default_factory=dict)
    groups: dict[str, tuple[str, ...]] = field(default_factory=dict)
    unsound: set[str] = field(default_factory=set)
    mesh_units: dict[str, str] = field(default_factory=dict)
    veneered: set[str] = field(default_factory=set)


def read_parts(document: Table) -> Parts:
    """Return the parts of a file; mistakes are recorded."""
    found = Parts()
    drafts: dict[str, PartDraft] = {}
    for table in document.tables("part", "[[part]]"):
        name = read_name(table, "part", found.lines)
        if not name:
            table.context.unsure.add("part")
        draft = _draft(table, name)
        if draft is None:
            found.unsound.add(name)
        else:
            drafts[name] = draft
    if not document.values.get("part") and "part" not in document.context.unsure:
        document.mend("has no part; add at least one [[part]]")
    standing = Places(drafts, found.lines)
    placed = {name: standing.parts_of(name) for name in drafts}
    for name, draft in drafts.items():
        _add(found, draft, placed[name])
    return found


def read_name(table: Table, what: str, lines: dict[str, int]) -> str:
    """Return the name of a table, unlike any in `lines`, and add it there."""
    table.where = what
    table.respell("name")
    name = table.text("name", f'"{what}"')
    if name:
        table.where = f'{what} "{name}"'
    if what == "part" and set(name) & set(".*"):
        table.refuse(
            "name", "must not have . or * in it; they have a meaning of their own in a zone"
        )
    if name in lines:
        table.refuse(
            "name", f"is already used on line {lines[name]}; give each {what} its own name"
        )
    elif name:
        lines[name] = table.line_of("name")
    return name


def _draft(table: Table, name: str) -> PartDraft | None:
    loose = table.values.get("loose", table.values.get("shape") in LOOSE_SHAPES)
    if not isinstance(loose, bool) and not (isinstance(loose, str) and loose.strip()):
        table.refuse(
            "loose",
            "must be true, false, or one word in quotes, the same for all parts joined to it",
        )
    is_veneer = "veneer" in table and read_veneer(table).is_veneer
    with_some_height(table)
    # until its parts are known an upright has no length on which a line could be marked
    cuts = table.values.pop("cuts", None) if is_upright(table) else None
    solid = read_solid(table, COMMON_KEYS)
    if solid is None or not table.is_sound:
        return None

    def resize(length_mm: float) -> Solid | None:
        table.values.update({} if cuts is None else {"cuts": cuts})
        return resized(table, lambda other: read_solid(other, COMMON_KEYS), length_mm)

    return PartDraft(table, name, solid, loose, resize, is_veneer)


def _add(found: Parts, draft: PartDraft, parts: list[Part] | None) -> None:
    """Add placed parts under their names, which must be free."""
    if parts is None:
        found.unsound.add(draft.name)
        return
    if len(found.parts) + len(parts) > MOST_PARTS:
        draft.table.mend(
            f"brings the piece to more than {MOST_PARTS:,} parts; check the number in row"
        )
        return
    names = tuple(part.name for part in parts)
    if names != (draft.name,):
        found.groups[draft.name] = names
        for name in names:
            if name in found.lines:
                draft.table.mend(
                    f"makes a part {shown_key(name)}, but the part on line"
                    f" {found.lines[name]} already has that name"
                )
            found.lines.setdefault(name, draft.table.line)
    found.parts += parts
    if draft.is_veneer:
        found.veneered.update(names)
    if draft.table.values.get("shape") == "mesh":
        found.mesh_units.update(dict.fromkeys(names, str(draft.table.values.get("unit"))))
