"""Notes on where parts are: what touches nothing, and what runs deep through another part."""

from collections.abc import Iterator, Sequence

from shapes.neighbours import boxes_in_each_other, heaps
from shapes.parts import FaceKey, Part, box_of, joined_groups
from shapes.tolerances import WIDEST_GAP_MM
from shapes.volumes import shared_mm3, volume_mm3
from surfacecalc.closeness import UNTOUCHED
from surfacecalc.model.pieces import Piece
from surfacecalc.problems import Problem, listing
from surfacecalc.zones.areas import MM2_IN_M2, Measured

DEEP = 0.5
"""Share of the smaller part's wood inside another from which its position must be wrong: no tenon,
dowel or housing sinks half of a part; assumed."""
MOST_TESTS = 1_000
"""Pairs of parts whose shared wood is measured; each takes the kernel about a millisecond."""


def check_standing_apart(piece: Piece, measured: Measured) -> Iterator[Problem]:
    """Yield joined parts that touch nothing of the piece, one note for each [[part]] table."""
    joined = [part for part in piece.parts if part.is_joined]
    if len(joined) < 2:
        return
    main, *others = sorted(heaps(joined, WIDEST_GAP_MM), key=_box_size, reverse=True)
    groups = [*others, *([part] for part in _untouched(main, measured))]
    by_line: dict[int | None, list[Part]] = {}
    for group in groups:
        by_line.setdefault(piece.part_lines.get(group[0].name), []).extend(group)
    for line, parts in by_line.items():
        one = len(parts) == 1
        message = (
            f"{'touches' if one else 'touch'} nothing else: if {'it is' if one else 'they are'}"
            " taken off for finishing, write loose = true; if not, correct a position or a size"
        )
        yield Problem("note", line, _names(parts), message)


def check_deep(piece: Piece, measured: Measured) -> Iterator[Problem]:
    """Yield parts that lie half or more inside another, one note for two [[part]] tables."""
    noted: set[tuple[int | None, int | None]] = set()
    for first, second, share in _deep_pairs(piece.parts, noted, piece):
        message = (
            f'{share:.0%} of it lies inside part "{second.name}" and is hidden:'
            " if that is not what you meant, correct a position or a size"
        )
        yield Problem("note", piece.part_lines.get(first.name), _names([first]), message)


def _deep_pairs(
    parts: Sequence[Part], noted: set[tuple[int | None, int | None]], piece: Piece
) -> Iterator[tuple[Part, Part, float]]:
    """Yield the smaller and the larger of two parts that share wood, and the share of the smaller.

    Two tables with a note are not looked at again: a row would say the same many times.
    """
    tests = 0
    volumes: dict[int, float] = {}
    for group in joined_groups(list(parts)):
        members = [parts[number] for number in group if not parts[number].solid.is_open]
        for first, second, box_mm3 in boxes_in_each_other(members):
            lines = piece.part_lines.get(first.name), piece.part_lines.get(second.name)
            small, large = sorted((first, second), key=lambda part: _volume(part, volumes))
            wood = _volume(small, volumes)
            if lines in noted or box_mm3 < DEEP * wood:
                continue
            tests += 1
            if tests > MOST_TESTS:
                return
            share = shared_mm3(small, large) / wood
            if share >= DEEP:
                noted.add(lines)
                yield small, large, share


def _volume(part: Part, known: dict[int, float]) -> float:
    """Return the wood of a part [mm3]; parts of a row share their solid."""
    key = id(part.solid)
    if key not in known:
        known[key] = volume_mm3(part.solid)
    return known[key]


def _untouched(parts: list[Part], measured: Measured) -> list[Part]:
    """Return the parts of a heap that touch none of it; never all of them.

    All of such a part is left to see, and it shares no wood with another (what lies whole inside a
    part hides nothing of it). Parts beside a gap have a note of their own.
    """
    near = {face[0] for miss in measured.gaps for face in (miss.face, miss.other)}
    faces = [*measured.in_no_zone, *(face for zone in measured.zones for face in zone.faces)]
    exposed = {(face.part, face.face): face.area_m2 for face in faces}
    clear = [part for part in parts if part.name not in near and _hides_nothing(part, exposed)]
    alone = [part for part in clear if not _shares_wood(part, parts)]
    if len(alone) < len(parts):
        return alone
    return sorted(alone, key=lambda part: _box_size([part]))[:-1]


def _shares_wood(part: Part, others: list[Part]) -> bool:
    return any(
        other is not part
        and next(boxes_in_each_other([part, other]), None) is not None
        and shared_mm3(part, other) > 0
        for other in others
    )


def _hides_nothing(part: Part, exposed: dict[FaceKey, float]) -> bool:
    """Whether all of a part is left to see; a closed case or bay hides its own inside."""
    true = {face: area / MM2_IN_M2 for face, area in part.solid.area_mm2_of.items()}
    seen = {face: exposed.get((part.name, face), 0.0) for face in true}
    hidden = sum(true.values()) - sum(seen.values())
    hidden -= sum(
        true[face] for face in true if face.partition(" ")[0] == "inside" and seen[face] == 0
    )
    return hidden <= UNTOUCHED * sum(true.values())


def _box_size(parts: list[Part]) -> int:
    box = box_of(parts)
    if box is None:
        return 0
    (x, y, z), (to_x, to_y, to_z) = box
    return (to_x - x) * (to_y - y) * (to_z - z)


def _names(parts: Sequence[Part]) -> str:
    names = listing([f'"{part.name}"' for part in parts], 3)
    return f"part {names}" if len(parts) == 1 else f"parts {names}"
