"""How much of a piece is exposed and is to be finished, and the lines to mask, in words."""

from surfacecalc.units.display import Units, format_line
from surfacecalc.units.shown_areas import format_area, format_area_sum
from surfacecalc.zones.areas import Measured, ZoneArea


def areas_in_words(measured: Measured, units: Units) -> str:
    """Return how much is to be finished and how much is not, such as "2 m2 to finish"."""
    texts = [f"{to_finish_text(measured, units)} to finish"]
    if measured.left_m2 > 0:
        texts.append(f"{left_text(measured, units)} left as it is")
    if measured.in_no_zone_m2 > 0:
        texts.append(f"{format_area(measured.in_no_zone_m2, units)} in no zone")
    return ", ".join(texts)


def to_finish_text(measured: Measured, units: Units) -> str:
    """Return how much is to be finished: what its zones come to as they are shown."""
    return format_area_sum((zone.area_m2 for zone in measured.to_finish), units)


def left_text(measured: Measured, units: Units) -> str:
    """Return how much is left as it is: what its zones come to as they are shown."""
    left = (zone for zone in measured.zones if zone not in measured.to_finish)
    return format_area_sum((zone.area_m2 for zone in left), units)


def exposed_text(measured: Measured, units: Units) -> str:
    """Return how much is exposed: what all zones, and what is in none, come to."""
    areas = [zone.area_m2 for zone in measured.zones]
    return format_area_sum([*areas, measured.in_no_zone_m2], units)


def lines_to_mask(zone: ZoneArea, units: Units) -> list[tuple[str, str]]:
    """Return each zone that a zone meets, and how long the line between them is."""
    return [(other, format_line(length_m, units)) for other, length_m in zone.meets_m.items()]
