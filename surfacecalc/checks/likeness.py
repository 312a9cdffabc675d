"""Notes on a piece unlike its kind: far too small or large, far too much or little area.

Both point to mistakes that no single size shows: the wrong unit, a part given twice or not at all.
"""

import itertools
from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from shapes.grid import to_mm
from shapes.parts import Part, box_of
from surfacecalc.model.kind_names import with_article
from surfacecalc.model.pieces import Piece
from surfacecalc.problems import Problem
from surfacecalc.starting.scales import COARSE_FROM_MM, UNITS
from surfacecalc.units.display import Units, format_length
from surfacecalc.units.known import factor
from surfacecalc.units.shown_areas import format_area
from surfacecalc.zones.area_words import exposed_text
from surfacecalc.zones.areas import MM2_IN_M2, Measured

if TYPE_CHECKING:  # it reads the guided start's kinds, of no use to a piece without a kind
    from surfacecalc.checks.usual_sizes import UsualSizes

WAYS = ("wide", "deep", "high")
SMALLEST_MM, LARGEST_MM = 50.0, 6_000.0
"""Largest dimension [mm] of a piece of no known kind, at least and at most; common practice."""
LEAST_PART_MM = 5.0
"""Largest dimension [mm] below which no part is finished, not even a knob or a plug; assumed."""

MESH_UNITS = ("mm", "cm", "m", "in", "ft")
"""Units that programs write meshes in."""
SEVERAL = 2
"""Unusual sizes that make a wrong unit likely where each of them can be; one may well be so."""

AREA_TO_BOX: Mapping[str, tuple[float, float]] = {
    "chest": (1.0, 2.2), "dresser": (0.6, 7.7), "nightstand": (0.6, 5.2), "table": (0.07, 1.4),
    "desk": (0.08, 2.2), "bookcase": (0.05, 6.4), "cabinet": (1.1, 6.1), "chair": (0.07, 1.4),
    "bench": (0.08, 1.3), "headboard": (0.02, 1.1), "mirror": (0.01, 1.6),
}  # fmt: skip
"""Exposed area over that of the six sides of the box around the joined parts, least and most.

Computed from this tool's own layouts, not published. For each kind 1 500 pieces of the guided
start were measured: the proposed sizes, the least, the most, and sizes drawn at random within the
usual ranges and within all that is taken once it is confirmed, absent legs, backs, drawers and
shelves among them. Rounded outwards, further where the ends are drawn seldom.
`tests/checks/test_likeness.py` measures some anew."""
SETS = ("doors",)
"""Kinds that are a set of parts: there is no whole, and each part has a size of its own."""
WIDENED = 1.5
"""How much further than computed a ratio may lie, as pieces have more forms than our layouts;
assumed."""
BUILT_LIKE = {"table": "nightstand", "desk": "dresser", "bench": "chest", "bookcase": "cabinet",
              "cabinet": "dresser"}  # fmt: skip
"""What a kind may hold besides what its layout has: a bedside table is a small case, a desk stands
on pedestals of drawers, a bench may be a box, a bookcase may have doors and a cabinet drawers."""


def check_size(piece: Piece, measured: Measured) -> Iterator[Problem]:
    """Yield a piece that is larger or smaller than such a piece can be."""
    sizes_mm, kind = _whole_mm(piece, measured), piece.settings.kind
    is_whole = len(piece.parts) == 1 or (all(measured.size_mm) and kind not in SETS)
    if kind is None or not is_whole:
        # of several loose parts it is not known how they go together, but how long the longest is
        longest_mm = max(sizes_mm)
        if kind in SETS:  # how far its parts reach together is only how they are drawn
            longest_mm = max(max(part.solid.size_mm) for part in piece.parts)
        yield from _check_any_size(piece, longest_mm)
        return
    from surfacecalc.checks.usual_sizes import usual_sizes

    usual = usual_sizes(kind)
    question = _question(sizes_mm, piece, usual)
    if question is not None:
        sizes = f"{with_article(kind)} {_unlike(sizes_mm, usual, Units.of(piece.settings.unit))}"
        yield Problem("note", None, "piece", f"{sizes}; {question}")


def check_tiny_parts(piece: Piece, measured: Measured) -> Iterator[Problem]:
    """Yield parts too small to be finished, one note for each [[part]] table."""
    if len(piece.parts) == 1:
        return  # that is said of the whole piece
    units = Units.of(piece.settings.unit)
    tiny = [part for part in piece.parts if max(part.solid.size_mm) < LEAST_PART_MM]
    for line, part in {piece.part_lines.get(part.name): part for part in reversed(tiny)}.items():
        size, least = (format_length(mm, units) for mm in (max(part.solid.size_mm), LEAST_PART_MM))
        message = (
            f"its largest side is {size}, and no part that gets a finish is smaller than {least}"
            f" (assumed); is {_unit_in_words(piece, [part])} right?"
        )
        yield Problem("note", line, f'part "{part.row or part.name}"', message)


def _whole_mm(piece: Piece, measured: Measured) -> tuple[float, float, float]:
    """Return the size of the joined parts' box, or of the box of all parts where all are loose."""
    box = None if all(measured.size_mm) else box_of(_counted(piece))
    if box is None:
        return measured.size_mm
    width, depth, height = (to_mm(high - low) for low, high in zip(*box, strict=True))
    return width, depth, height


def _mesh_unit(piece: Piece, parts: Sequence[Part]) -> str | None:
    """Return the one unit of meshes, None where the parts are not all meshes of one unit."""
    found = {piece.mesh_units.get(part.name) for part in parts}
    return found.pop() if len(found) == 1 else None


def _unit_in_words(piece: Piece, parts: Sequence[Part]) -> str:
    unit = _mesh_unit(piece, parts)
    return "the unit" if unit is None else f'unit = "{unit}" of the mesh'


def _question(sizes_mm: Sequence[float], piece: Piece, usual: "UsualSizes") -> str | None:
    """Return what to ask about sizes, None where they can be."""
    can_be = usual.widened().fit(sizes_mm)
    if can_be and (usual.fit(sizes_mm) or len(usual.unlike(sizes_mm)) < SEVERAL):
        return None
    of_mesh = _mesh_unit(piece, _counted(piece))
    unit, others = (of_mesh, MESH_UNITS) if of_mesh else (piece.settings.unit, tuple(UNITS))
    for other in others:
        larger = float(factor(other) / factor(unit))
        if other != unit and usual.fit([size * larger for size in sizes_mm]):
            words = _unit_in_words(piece, _counted(piece))
            return f'is {words} right? unit = "{other}" would fit'
    return None if can_be else "are the unit and the sizes right?"


def _counted(piece: Piece) -> list[Part]:
    """Return the parts whose box is compared: the joined ones, or all where all are loose."""
    return [part for part in piece.parts if part.is_joined] or list(piece.parts)


def _unlike(sizes_mm: Sequence[float], usual: "UsualSizes", units: Units) -> str:
    """Return the first size that cannot be, or else is not usual, with what is usual."""
    number, *_ = [*usual.widened().unlike(sizes_mm), *usual.unlike(sizes_mm)]
    span, way = usual.spans[number], WAYS[number]
    least, most = (_round(length_mm, units) for length_mm in (span.least_mm, span.most_mm))
    size = format_length(sizes_mm[number], units)
    return f"{size} {way}: such a piece is usually {least} to {most} {way}"


def _round(length_mm: float, units: Units) -> str:
    """Return a usual size in round figures."""
    if units is Units.METRIC:
        length_mm = round(length_mm, -1 if length_mm >= COARSE_FROM_MM else 0)
    return format_length(length_mm, units)


def _whole(length_mm: float, units: Units) -> str:
    """Return a rough size in whole inches, or in millimetres."""
    inch_mm = float(factor("in"))
    whole_mm = round(length_mm / inch_mm) * inch_mm if units is Units.US else length_mm
    return format_length(whole_mm, units)


def _check_any_size(piece: Piece, largest_mm: float) -> Iterator[Problem]:
    """Yield a piece of no known kind that is too small or too large for furniture."""
    if SMALLEST_MM <= largest_mm <= LARGEST_MM:
        return
    units = Units.of(piece.settings.unit)
    size = format_length(largest_mm, units)
    least, most = (_whole(length_mm, units) for length_mm in (SMALLEST_MM, LARGEST_MM))
    message = (
        f"its largest side is {size}, and furniture is usually {least} to {most}"
        f" (common practice); is {_unit_in_words(piece, _counted(piece))} right?"
    )
    yield Problem("note", None, "piece", message)


def check_area(piece: Piece, measured: Measured) -> Iterator[Problem]:
    """Yield a piece with far more or far less area than such a piece has for its size."""
    kind = piece.settings.kind
    if kind is None or kind in SETS or not all(measured.size_mm):
        return
    box_m2 = sum(2 * a * b for a, b in itertools.combinations(measured.size_mm, 2)) / MM2_IN_M2
    ratio = measured.exposed_m2 / box_m2
    least, most = area_to_box(kind)
    if least <= ratio <= most:
        return
    units = Units.of(piece.settings.unit)
    area, box = exposed_text(measured, units), format_area(box_m2, units)
    causes = (
        "is a part given twice, is a row or a size too large, or is a closed inside counted?"
        if ratio > most
        else "is a part missing, is a size too small, or is an open inside not counted?"
    )
    message = (
        f"its exposed area of {area} is {ratio:.2g} times that of the box around it ({box}); a"
        f" {kind} usually has {least:.2g} to {most:.2g} times (computed from this program's own"
        f" layouts and widened): {causes}"
    )
    yield Problem("note", None, "piece", message)


def area_to_box(kind: str) -> tuple[float, float]:
    """Return the least and the most area of a kind of piece, over that of its box."""
    spans = [AREA_TO_BOX[kind]]
    if kind in BUILT_LIKE:
        spans.append(AREA_TO_BOX[BUILT_LIKE[kind]])
    return min(least for least, _ in spans) / WIDENED, max(most for _, most in spans) * WIDENED
