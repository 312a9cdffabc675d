"""Which zone each face belongs to.

A zone names faces by selectors. Of several that name a face the highest rank wins: a part and a
face; a part and what a cut is called; a part and several faces, such as the inside of a case in
bays, or all pieces of a face that is cut; the same three of a pattern; a part; a pattern;
everything.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from shapes.parts import FaceKey
from surfacecalc.model.pieces import Zone
from surfacecalc.problems import listing, suggestion
from surfacecalc.reading.part_tables import Parts
from surfacecalc.reading.tables import Table, shown

PART_FACE, PATTERN_FACE, PART, PATTERN, EVERYTHING = 0, 3, 6, 7, 8
EXACT, CUT, SEVERAL = range(3)
"""Added to the rank of a part, or of a pattern, with a face: how close the name of the face is."""
FaceNames = Mapping[str, tuple[str, ...]]
"""For each face of a part the name of the whole face, and what cuts added to it."""


@dataclass(frozen=True)
class _Claim:
    """A zone's claim to a face."""

    rank: int
    zone: str
    line: int


def claim_faces(zones: list[tuple[Table, Zone]], parts: Parts) -> dict[FaceKey, str]:
    """Return the zone of each face that has one; mistakes are recorded in the zones' tables."""
    faces = _faces_of(parts)
    best: dict[FaceKey, list[_Claim]] = {}
    for table, zone in zones:
        for number, selector in enumerate(zone.selectors):
            for key, rank in _selected(table, "faces", number, selector, faces, parts):
                claim = _Claim(rank, zone.name, table.line_of("faces", number))
                _add(best.setdefault(key, []), claim)
    _record_conflicts(zones, best)
    return {key: claims[0].zone for key, claims in best.items()}


def selected_faces(
    table: Table, key: str, number: int, selector: str, parts: Parts
) -> Iterator[tuple[FaceKey, int]]:
    """Yield the faces that a selector in a list names, with its rank; record where it names none.

    Args:
        table: the table that has the list.
        key: the key of the list.
        number: where the selector stands in it.
        selector: the selector.
        parts: the parts of the file.
    """
    yield from _selected(table, key, number, selector, _faces_of(parts), parts)


def _faces_of(parts: Parts) -> dict[str, FaceNames]:
    return {
        part.name: {face: part.solid.names_of(face) for face in part.solid.faces}
        for part in parts.parts
    }


def _add(claims: list[_Claim], claim: _Claim) -> None:
    """Keep the claims of the highest rank, one for each zone."""
    if claims and claim.rank > claims[0].rank:
        return
    if claims and claim.rank < claims[0].rank:
        claims.clear()
    if claim.zone not in [other.zone for other in claims]:
        claims.append(claim)


def _record_conflicts(
    zones: list[tuple[Table, Zone]], best: Mapping[FaceKey, list[_Claim]]
) -> None:
    """Record each two zones that claim faces at the same rank."""
    tables = {zone.name: table for table, zone in zones}
    shared: dict[tuple[_Claim, _Claim], list[str]] = {}
    for (part, face), claims in best.items():
        for later in claims[1:]:
            shared.setdefault((claims[0], later), []).append(f"{part}.{face}")
    for (first, later), faces in shared.items():
        tables[later.zone].mend(
            f'has {listing(faces, 3)}, and so has zone "{first.zone}" on line {first.line};'
            " in one of the two zones, name fewer faces",
            "faces",
        )


def _selected(
    table: Table,
    key: str,
    number: int,
    selector: str,
    faces: Mapping[str, FaceNames],
    parts: Parts,
) -> Iterator[tuple[FaceKey, int]]:
    """Yield the faces that a selector names, with its rank; record it where it names none."""
    if selector.strip() == "*":
        yield from (((part, face), EVERYTHING) for part in faces for face in faces[part])
        return
    name, dot, face = selector.partition(".")
    face = face.strip()
    if name not in faces and name not in parts.groups:
        name = name.strip()
    is_pattern = "*" in name
    members = _members(name, faces, parts)
    if not members:
        if "part" not in table.context.unsure and not _may_be_unsound(name, parts):
            known = list(dict.fromkeys([*parts.lines, *parts.groups]))
            hint = f"the parts are {listing(known)}" if is_pattern else suggestion(name, known)
            table.mend(f"{key}: {shown(selector)} matches no part; {hint}", key, number)
        return
    if not dot:
        rank = PATTERN if is_pattern else PART
        yield from (((part, key), rank) for part in members for key in faces[part])
        return
    found = [(part, key) for part in members for key in _faces_called(face, faces[part]).items()]
    if not found:
        known = list(dict.fromkeys(key for part in members for key in faces[part]))
        hint = suggestion(face, known)
        if face in ("front", "back", "left", "right", "top", "bottom") and "edge" in known:
            hint = f"an open side has no face, only an edge; the faces are {listing(known)}"
        table.mend(f"{key}: {shown(selector)} matches no face; {hint}", key, number)
    rank = PATTERN_FACE if is_pattern else PART_FACE
    yield from (((part, called), rank + close) for part, (called, close) in found)


def _faces_called(name: str, faces: FaceNames) -> dict[str, int]:
    """Return the faces that a name means, with how close it is: of a face, its pieces too.

    Where there is none of that name it means the numbered ones: `inside 1`, `inside 2`.
    """
    found = {}
    for face, (whole, *words) in faces.items():
        if name == face:
            found[face] = EXACT
        elif name in words:
            found[face] = CUT
        elif name == whole:
            found[face] = SEVERAL
    if found:
        return found
    numbered = re.compile(rf"{re.escape(name)} \d+")
    return {face: SEVERAL for face, names in faces.items() if numbered.fullmatch(names[0])}


def _members(name: str, faces: Mapping[str, FaceNames], parts: Parts) -> list[str]:
    """Return the sound parts that a name, the name of a row, or a pattern means."""
    if "*" in name:
        pattern = _pattern(name)
        return [part for part in faces if pattern.fullmatch(part)]
    return [part for part in parts.groups.get(name, (name,)) if part in faces]


def _may_be_unsound(name: str, parts: Parts) -> bool:
    """Whether a name may mean a part whose own mistake is recorded already."""
    pattern = _pattern(name)
    return any(
        pattern.fullmatch(part) or pattern.fullmatch(f"{part} 1") or name.startswith(f"{part} ")
        for part in parts.unsound
    )


def _pattern(name: str) -> re.Pattern[str]:
    return re.compile(".*".join(re.escape(text) for text in name.split("*")), re.DOTALL)
