"""Cautions on what sanding and stripping set free: lead, wood dust, silica."""

from surfacecalc.cautions import caution_texts
from surfacecalc.cautions.caution import Caution
from surfacecalc.model.pieces import Piece, Zone
from surfacecalc.model.step_facts import fills, sands_wood, wears_coating
from surfacecalc.problems import listing
from surfacecalc.zones.areas import Measured

LEAD_YEAR = 1978
"""Lead paint was banned for goods made after 27 Feb 1978 (16 CFR 1303.4)."""


def lead(piece: Piece, measured: Measured) -> Caution | None:
    """Apply where an old coating is sanded, rubbed or stripped on a piece that may be as old.

    Washing alone sets no dust free, so it does not count.
    """
    zones = zones_with_lead(piece)
    built = piece.settings.built
    if not zones:
        return None
    when = f"built {built}" if isinstance(built, int) else "the year it was built is not known"
    old = ", ".join(f"{_names([zone])} is {zone.surface}" for zone in sorted(zones, key=_name)[:3])
    return caution_texts.LEAD.applied(f"{old}; {when}")


def zones_with_lead(piece: Piece) -> list[Zone]:
    """Return the zones whose old coating may contain lead and is sanded, rubbed or stripped."""
    built = piece.settings.built
    if isinstance(built, int) and built >= LEAD_YEAR:
        return []
    return [
        zone
        for zone in piece.zones
        if zone.surface not in ("bare", None) and any(map(wears_coating, zone.steps))
    ]


def wood_dust(piece: Piece, measured: Measured) -> Caution | None:
    """Apply where anything is sanded; rubbing out wears the finish alone.

    Where there may be lead too, it asks for the vacuum and the respirator that lead needs.
    """
    zones = [zone for zone in piece.zones if any(map(sands_wood, zone.steps))]
    if not zones:
        return None
    is_lead_possible = lead(piece, measured) is not None
    caution = caution_texts.WOOD_DUST_WITH_LEAD if is_lead_possible else caution_texts.WOOD_DUST
    return caution.applied(f"sanding {_names(zones)}")


def silica(piece: Piece, measured: Measured) -> Caution | None:
    """Apply where a filler is sanded after it has set."""
    for zone in piece.zones:
        filled = [k for k, step in enumerate(zone.steps) if fills(step)]
        if filled and any(map(sands_wood, zone.steps[filled[0] :])):
            return caution_texts.SILICA.applied(f"filler is sanded on {_names([zone])}")
    return None


def _names(zones: list[Zone]) -> str:
    return listing(sorted(f'"{zone.name}"' for zone in zones), 3)


def _name(zone: Zone) -> str:
    return zone.name
