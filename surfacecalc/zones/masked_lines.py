"""The lines along which a zone is masked: where it meets others."""

from surfacecalc.model.steps import Mask
from surfacecalc.zones.areas import ZoneArea

SHORTEST_M = 0.001
"""A shorter line is the rounding of a corner, and nothing that is taped [m]."""


def masked_m(zone: ZoneArea, mask: Mask) -> float:
    """Return how far a zone meets those that are masked [m]."""
    return sum(zone.meets_m[name] for name in masked_zones(zone, mask))


def masked_zones(zone: ZoneArea, mask: Mask) -> list[str]:
    """Return the zones that tape is put on: those that are named, or all, that the zone meets."""
    against = mask.against or tuple(zone.meets_m)
    return [name for name in against if zone.meets_m.get(name, 0.0) >= SHORTEST_M]
