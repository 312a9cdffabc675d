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
    zones = [
        zone
        for zone in piece.zones
        if zone.surface not in ("bare", None) and any(map(wears_coating, zone.steps))
    ]
    built = piece.settings.built
    if not zones or (isinstance(built, int) and built >= LEAD_YEAR):
        return None
    when = f"built {built}" if isinstance(built, int) else "the year it was built is not known"
    old = ", ".join(f"{_names([zone])} is {zone.surface}" for zone in sorted(zones, key=_name)[:3])
    return caution_texts.LEAD.applied(f"{old}; {when}")


def wood_dust(piece: Piece, measured: Measured) -> Caution | None:
    """Apply where anything is sanded; rubbing out wears the finish alone."""
    zones = [zone for zone in piece.zones if any(map(sands_wood, zone.steps))]
    return caution_texts.WOOD_DUST.applied(f"sanding {_names(zones)}") if zones else None


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
