"""Cautions on what sanding and stripping set free: lead, wood dust, silica."""

from collections.abc import Iterator

from surfacecalc.catalogue.lead_bans import BANS, LATEST, LeadBan, ban_in
from surfacecalc.cautions import caution_texts
from surfacecalc.cautions.caution import Caution
from surfacecalc.model.pieces import NO_OLD_COATING, Piece, Zone
from surfacecalc.model.step_facts import fills, sands_wood, wears_coating
from surfacecalc.problems import listing
from surfacecalc.zones.areas import Measured


def lead(piece: Piece, measured: Measured) -> Caution | None:
    """Apply where an old coating is sanded, rubbed or stripped on a piece that may be as old.

    Washing alone sets no dust free, so it does not count.
    """
    zones = zones_with_lead(piece)
    if not zones:
        return None
    old = ", ".join(f"{_names([zone])} is {zone.surface}" for zone in sorted(zones, key=_name)[:3])
    if piece.settings.lead == "found":
        return caution_texts.LEAD_FOUND.applied(old)
    texts = [old, _age(piece), *_why_so_late(piece)]
    return caution_texts.LEAD.applied("; ".join(texts))


def _age(piece: Piece) -> str:
    built = piece.settings.built
    return f"built {built}" if isinstance(built, int) else "the year it was built is not known"


def _why_so_late(piece: Piece) -> Iterator[str]:
    """Yield which ban the year is compared with, where a country or its absence decides."""
    country, built = piece.workshop.country, piece.settings.built
    if country is not None and (ban := ban_in(country)) is not None:
        yield f"lead paint was banned in {ban.country} on {ban.began}"
    elif isinstance(built, int) and any(built > ban.year for ban in BANS):
        none_given = "[workshop] gives no country"
        lacking = none_given if country is None else f'no ban is known here for "{country}"'
        yield f"{lacking}, so the latest ban counts ({LATEST.country}, {LATEST.began})"


def zones_with_lead(piece: Piece) -> list[Zone]:
    """Return the zones whose old coating may contain lead and is sanded, rubbed or stripped."""
    built, lead_found = piece.settings.built, piece.settings.lead
    is_young = isinstance(built, int) and built > _ban(piece).year
    if lead_found == "none found" or (is_young and lead_found is None):
        return []
    return [
        zone
        for zone in piece.zones
        if zone.surface not in (*NO_OLD_COATING, None) and any(map(wears_coating, zone.steps))
    ]


def _ban(piece: Piece) -> LeadBan:
    """Return the ban that the year of a piece is compared with."""
    country = piece.workshop.country
    return (ban_in(country) if country is not None else None) or LATEST


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
