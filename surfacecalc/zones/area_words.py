"""How much of a piece is to be finished, and the lines to mask, in words."""

from surfacecalc.units.display import Units, format_area, format_line
from surfacecalc.zones.areas import Measured, ZoneArea


def areas_in_words(measured: Measured, units: Units) -> str:
    """Return how much is to be finished and how much is not, such as "2 m2 to finish"."""
    texts = [f"{format_area(measured.to_finish_m2, units)} to finish"]
    if measured.left_m2 > 0:
        texts.append(f"{format_area(measured.left_m2, units)} left as it is")
    if measured.in_no_zone_m2 > 0:
        texts.append(f"{format_area(measured.in_no_zone_m2, units)} in no zone")
    return ", ".join(texts)


def lines_to_mask(zone: ZoneArea, units: Units) -> list[tuple[str, str]]:
    """Return each zone that a zone meets, and how long the line between them is."""
    return [(other, format_line(length_m, units)) for other, length_m in zone.meets_m.items()]
