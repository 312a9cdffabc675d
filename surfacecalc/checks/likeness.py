"""Notes on a piece unlike its kind: far too small or large, far too much or little area.

Both point to mistakes that no single size shows: the wrong unit, a part given twice or not at all.
"""

import itertools
from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from surfacecalc.model.pieces import Piece
from surfacecalc.problems import Problem
from surfacecalc.starting.scales import COARSE_FROM_MM, UNITS
from surfacecalc.units.display import Units, format_area, format_length
from surfacecalc.units.known import factor
from surfacecalc.zones.areas import MM2_IN_M2, Measured

if TYPE_CHECKING:  # it reads the guided start's kinds, of no use to a piece without a kind
    from surfacecalc.checks.usual_sizes import UsualSizes

WAYS = ("wide", "deep", "high")
SMALLEST_MM, LARGEST_MM = 50.0, 6_000.0
"""Largest dimension [mm] of a piece of no known kind, at least and at most; common practice."""

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
WIDENED = 1.5
"""How much further than computed a ratio may lie, as pieces have more forms than our layouts;
assumed."""
BUILT_LIKE = {"table": "nightstand", "desk": "dresser", "bench": "chest", "bookcase": "cabinet",
              "cabinet": "dresser"}  # fmt: skip
"""What a kind may hold besides what its layout has: a bedside table is a small case, a desk stands
on pedestals of drawers, a bench may be a box, a bookcase may have doors and a cabinet drawers."""


def check_size(piece: Piece, measured: Measured) -> Iterator[Problem]:
    """Yield a piece that is larger or smaller than such a piece can be."""
    sizes_mm, kind = measured.size_mm, piece.settings.kind
    if not all(sizes_mm):
        return  # nothing is joined, so nothing is known of the whole
    if kind is None:
        yield from _check_any_size(piece, max(sizes_mm))
        return
    from surfacecalc.checks.usual_sizes import usual_sizes

    usual = usual_sizes(kind)
    question = _question(sizes_mm, piece.settings.unit, usual)
    if question is not None:
        message = f"a {kind} {_unlike(sizes_mm, usual, Units.of(piece.settings.unit))}; {question}"
        yield Problem("note", None, "piece", message)


def _question(sizes_mm: Sequence[float], unit: str, usual: "UsualSizes") -> str | None:
    """Return what to ask about sizes, None where they can be."""
    can_be = usual.widened().fit(sizes_mm)
    if can_be and (usual.fit(sizes_mm) or len(usual.unlike(sizes_mm)) < SEVERAL):
        return None
    for other in UNITS:
        larger = float(factor(other) / factor(unit))
        if other != unit and usual.fit([size * larger for size in sizes_mm]):
            return f'is the unit right? unit = "{other}" would fit'
    return None if can_be else "are the unit and the sizes right?"


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


def _check_any_size(piece: Piece, largest_mm: float) -> Iterator[Problem]:
    """Yield a piece of no known kind that is too small or too large for furniture."""
    if SMALLEST_MM <= largest_mm <= LARGEST_MM:
        return
    size, least, most = (
        format_length(length, Units.of(piece.settings.unit))
        for length in (largest_mm, SMALLEST_MM, LARGEST_MM)
    )
    message = (
        f"its largest side is {size}, and furniture is usually {least} to {most}"
        " (common practice); is the unit right?"
    )
    yield Problem("note", None, "piece", message)


def check_area(piece: Piece, measured: Measured) -> Iterator[Problem]:
    """Yield a piece with far more or far less area than such a piece has for its size."""
    kind = piece.settings.kind
    if kind is None or not all(measured.size_mm):
        return
    box_m2 = sum(2 * a * b for a, b in itertools.combinations(measured.size_mm, 2)) / MM2_IN_M2
    ratio = measured.exposed_m2 / box_m2
    least, most = area_to_box(kind)
    if least <= ratio <= most:
        return
    area, box = (
        format_area(area_m2, Units.of(piece.settings.unit))
        for area_m2 in (measured.exposed_m2, box_m2)
    )
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
