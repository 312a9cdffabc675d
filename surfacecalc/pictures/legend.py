"""The legend: zones with their look, their area and what is worth saying of them."""

from collections.abc import Collection
from dataclasses import dataclass

from surfacecalc.pictures.beside import size_text
from surfacecalc.pictures.palette import ZoneLook, look_of, looks
from surfacecalc.units.display import Units
from surfacecalc.units.shown_areas import format_area
from surfacecalc.zones.area_words import areas_in_words
from surfacecalc.zones.areas import Measured

NO_ZONE = "in no zone"


@dataclass(frozen=True)
class LegendEntry:
    """A line of the legend.

    Attributes:
        look: how the zone is shown.
        name: the zone's name, or that these faces are in none.
        area: its exposed area, as it is to be read.
        note: what is worth saying; may be empty.
    """

    look: ZoneLook
    name: str
    area: str
    note: str


def legend(
    measured: Measured,
    units: Units,
    *,
    shown: Collection[str | None] | None = None,
    has_areas: bool = True,
) -> list[LegendEntry]:
    """Return the legend in the order of the file; faces in no zone last, if there are any.

    Args:
        measured: the piece's measures; of a set, the areas of one piece are given.
        units: which units to show.
        shown: zones of which the pictures show something, None where they can be turned.
        has_areas: whether areas are given.
    """
    measured = measured.one
    by_name = look_of(looks(measured))
    entries = [
        LegendEntry(
            by_name[area.zone.name],
            area.zone.name,
            format_area(area.area_m2, units) if has_areas else "",
            _note(area.zone.leave, area.area_m2, shown is None or area.zone.name in shown),
        )
        for area in measured.zones
    ]
    if measured.in_no_zone:
        text = format_area(measured.in_no_zone_m2, units) if has_areas else ""
        note = _note(False, measured.in_no_zone_m2, shown is None or None in shown)
        entries.append(LegendEntry(by_name[None], NO_ZONE, text, note))
    return entries


def sizes(measured: Measured, units: Units, *, has_areas: bool = True) -> list[str]:
    """Return the lines under the piece's name: its size, if it has any, and its areas."""
    size = f"{size_text(measured.size_mm, units)} (width x depth x height)"
    each = "each: " if measured.of_one else ""
    areas = f"{each}{areas_in_words(measured.one, units)}"
    return [size] * any(measured.size_mm) + [areas] * has_areas


def _note(leave: bool, area_m2: float, is_shown: bool) -> str:
    notes = ["left as it is"] if leave else []
    if not area_m2:
        notes.append("nothing exposed")
    elif not is_shown:
        notes.append("not seen in these views")
    return ", ".join(notes)
