"""Notes on areas: faces without a zone, zones without an area, air between parts."""

from collections.abc import Iterator

from shapes.exposure import NearMiss
from surfacecalc.model.pieces import Piece
from surfacecalc.model.step_facts import handwork_of
from surfacecalc.model.steps import Handwork
from surfacecalc.problems import Problem, listing
from surfacecalc.units.display import Units, format_length, format_worked_area
from surfacecalc.units.shown_areas import format_area
from surfacecalc.zones.areas import MM2_IN_M2, Measured


def check_faces_in_no_zone(piece: Piece, measured: Measured) -> Iterator[Problem]:
    """Yield the exposed faces that no zone claims, in one note."""
    if measured.in_no_zone:
        faces = [f"{face.part}.{face.face}" for face in measured.in_no_zone]
        area = format_area(measured.in_no_zone_m2, Units.of(piece.settings.unit))
        message = f"{area} is in no zone, so it gets no finish: {listing(faces, 6)}"
        yield Problem("note", None, "faces", message)


def check_zones_without_area(piece: Piece, measured: Measured) -> Iterator[Problem]:
    """Yield zones of which nothing is exposed."""
    for zone in measured.zones:
        if zone.area_m2 == 0:
            reason = "all its faces are hidden" if zone.faces else "other zones have all its faces"
            yield Problem(
                "note", zone.zone.line, f'zone "{zone.zone.name}"', f"has no area: {reason}"
            )


def check_gaps(piece: Piece, measured: Measured) -> Iterator[Problem]:
    """Yield air between joined parts, closed or not, one note for each two parts."""
    yield from _gap_notes(piece, measured.closed, "counts as touching")
    yield from _gap_notes(
        piece,
        measured.gaps,
        "stays exposed; if they should touch, correct a size; if one of them is taken off for"
        " finishing, write loose = true",
    )


def check_decorated_areas(piece: Piece, measured: Measured) -> Iterator[Problem]:
    """Yield decorations that are larger than all zones that their step is for."""
    steps: dict[int, Handwork] = {}
    areas: dict[int, float] = {}
    for zone in measured.zones:
        for step in filter(None, map(handwork_of, zone.zone.steps)):
            steps[step.line] = step
            areas[step.line] = areas.get(step.line, 0.0) + zone.area_m2
    units = Units.of(piece.settings.unit)
    for line, step in steps.items():
        area_m2 = step.decor.area_m2 if step.decor is not None else None
        if area_m2 is not None and area_m2 > areas[line]:
            message = (
                f"has an area of {format_area(area_m2, units)}, and there are only"
                f" {format_area(areas[line], units)} to put it on; is a digit or the unit wrong?"
            )
            yield Problem("note", line, f'decorate "{step.what}"', message)


def _gap_notes(piece: Piece, found: tuple[NearMiss, ...], meaning: str) -> Iterator[Problem]:
    by_parts: dict[tuple[str, str, float], list[NearMiss]] = {}
    for miss in found:
        by_parts.setdefault((miss.face[0], miss.other[0], miss.distance_mm), []).append(miss)
    units = Units.of(piece.settings.unit)
    for (part, other, distance_mm), misses in by_parts.items():
        faces = listing(dict.fromkeys(f"{part}.{miss.face[1]}" for miss in misses), 3)
        others = listing(dict.fromkeys(f"{other}.{miss.other[1]}" for miss in misses), 3)
        area = format_worked_area(sum(miss.area_mm2 for miss in misses) / MM2_IN_M2, units)
        air = f"{format_length(distance_mm, units)} of air to {others} ({area})"
        yield Problem("note", piece.part_lines.get(part), faces, f"{air} {meaning}")
