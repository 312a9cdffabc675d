"""What a zone is made of: `species` and `veneer`, in [piece] and [[zone]]; a part says veneer."""

from collections.abc import Collection, Mapping
from dataclasses import replace

from shapes.parts import FaceKey
from surfacecalc.model.pieces import Wood, Zone
from surfacecalc.reading.tables import Table

KEYS = ("species", "veneer")
THICKEST_VENEER_MM = 6.0
"""What is thicker is a board. Assumed; sawn veneer was up to 3 mm."""


def read_wood(table: Table, usual: Wood) -> Wood:
    """Return what a table says of its wood; mistakes are recorded.

    Args:
        table: [piece] or a zone.
        usual: what holds where it says nothing.
    """
    species = usual.species
    if "species" in table:
        species = table.text("species", '"oak"').strip().lower()
    if "veneer" not in table:
        return replace(usual, species=species)
    return read_veneer(table, species)


def read_veneer(table: Table, species: str = "") -> Wood:
    """Return the veneer that a table says: true, false, or how thick it is."""
    value = table.values["veneer"]
    if isinstance(value, bool):
        return Wood(species, value)
    if isinstance(value, str) and not any(sign.isdigit() for sign in value):
        table.refuse("veneer", 'must be true without quotes, or how thick it is, such as "0.6 mm"')
        return Wood(species, True)
    thick_mm = table.length_mm(value, "veneer")
    if thick_mm is not None and not 0 < thick_mm <= THICKEST_VENEER_MM:
        table.refuse(
            "veneer", f"must be true, or its thickness, at most {THICKEST_VENEER_MM:.0f} mm"
        )
    return Wood(species, True, thick_mm)


def with_veneer(zone: Zone, zone_of: Mapping[FaceKey, str], veneered: Collection[str]) -> Zone:
    """Return a zone that is veneer where one of its parts is."""
    parts = {part for (part, _), name in zone_of.items() if name == zone.name}
    if parts.isdisjoint(veneered):
        return zone
    return replace(zone, wood=replace(zone.wood, is_veneer=True))
