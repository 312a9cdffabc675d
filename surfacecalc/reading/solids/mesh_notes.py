"""What is said of a mesh: its size, its area and how sure that is, and what lies behind cracks."""

import math
from collections.abc import Iterator
from typing import TYPE_CHECKING

from shapes.tolerances import WIDEST_GAP_MM
from surfacecalc.closeness import whole_up
from surfacecalc.units.display import Units, format_length, format_worked_area

if TYPE_CHECKING:
    from shapes.meshes.mesh_exposure import MeshExposure

SURE = 2.5
"""Standard errors that are said. Two hold 19 times in 20; half a one more leaves reserve for a
second answer, with other rays, that is off as well."""

WORTH_SAYING = 1e-3
"""Share of the area that is worth a word: a tenth of what a tape shows."""


def mesh_note(seen: "MeshExposure", gap_mm: float, units: Units) -> str:
    """Return what is said of a mesh that was measured.

    Args:
        seen: what was found.
        gap_mm: air narrower than this counts as closed.
        units: those that sizes and areas are shown in.
    """
    size = " x ".join(format_length(length, units) for length in seen.size_mm)
    area = format_worked_area(seen.area_mm2 / 1e6, units)
    off = SURE * seen.error_mm2 + seen.doubt_mm2
    sure = give_or_take(off / seen.area_mm2) if off else ""
    about = "about " if seen.doubt_mm2 else ""
    found = (*_behind(seen, gap_mm, units), *_between(seen, gap_mm, units))
    return "; ".join([f"{size}, {about}{area}{sure}", *seen.notes, *found])


def give_or_take(share: float) -> str:
    """Return how far off something may be, 19 times in 20, rounded up to one digit.

    >>> give_or_take(0.0031)
    ', give or take 0.4 %'
    """
    percent = 100 * share
    step = 10.0 ** math.floor(math.log10(percent))
    return f", give or take {whole_up(percent / step) * step:.1g} %"


def _behind(seen: "MeshExposure", gap_mm: float, units: Units) -> Iterator[str]:
    """Yield what is reached through narrow openings only, and what is not reached."""
    gap, widest = format_length(gap_mm, units), format_length(WIDEST_GAP_MM, units)
    if seen.narrow_mm2 > WORTH_SAYING * seen.area_mm2:
        area = format_worked_area(seen.narrow_mm2 / 1e6, units)
        yield f"{area} of it is reached only through openings of {gap} to {widest}"
    if seen.behind_mm2 > WORTH_SAYING * seen.area_mm2:
        area = format_worked_area(seen.behind_mm2 / 1e6, units)
        yield f"{area} more is behind cracks narrower than {gap} and counts as closed"


def _between(seen: "MeshExposure", gap_mm: float, units: Units) -> Iterator[str]:
    """Yield the narrow air between the bodies of a mesh."""
    gap, widest = format_length(gap_mm, units), format_length(WIDEST_GAP_MM, units)
    for air, what in (
        (seen.closed, f"air narrower than {gap} between its bodies counts as touching"),
        (seen.gaps, f"air of {gap} to {widest} between its bodies stays exposed"),
    ):
        area = sum(miss.area_mm2 for miss in air)
        if area > WORTH_SAYING * seen.area_mm2:
            yield f"{what} ({format_worked_area(area / 1e6, units)} on each side)"
