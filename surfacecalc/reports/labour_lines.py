"""What each zone counts as work, for whoever asks where the hours come from."""

from collections.abc import Iterator

from rich.console import Console

from surfacecalc.closeness import ROUNDING
from surfacecalc.problems import printable
from surfacecalc.units.display import Units, format_worked_area
from surfacecalc.zones.areas import Measured

RULE = (
    "Slender, panelled and carved parts count as more than their area: under 6 in around as 6 in, 6"
    " to 12 in as 12 in (G. Terry, Pigments, Paint and Painting); panels 1.3 times, carving twice"
    " its flat area (IS 1200, Part 15); the edges of panelled doors and fluting twice (Radford's"
    " Cyclopedia of Construction, vol. 10); a row of spindles three times the flat side of the row"
    " (G. D. Armstrong, Cyclopedia of Painting, 1908, p. 127). Round, moulded, carved and narrow"
    " faces, and 1 in beside inside corners, go by hand (assumed)."
)


def print_labour(out: Console, measured: Measured, units: Units) -> None:
    """Print how much work each zone is, where its shape makes it more than its area."""
    lines = list(_lines(measured, units))
    if not lines:
        return
    out.print("How much work it is", style="bold")
    for line in lines:
        out.print(printable(line))
    out.print(RULE)
    out.print()


def _lines(measured: Measured, units: Units) -> Iterator[str]:
    for zone in measured.zones:
        is_more = abs(zone.labour_m2 - zone.area_m2) > ROUNDING * zone.area_m2
        if not zone.zone.steps or not (is_more or zone.by_hand_m2):
            continue
        flat, labour, by_hand = (
            format_worked_area(area, units)
            for area in (zone.area_m2, zone.labour_m2, zone.by_hand_m2)
        )
        counted = f"{flat} counts as {labour}" if is_more else flat
        yield f"{zone.zone.name}: {counted}" + (
            f", {by_hand} of it by hand" * bool(zone.by_hand_m2)
        )
