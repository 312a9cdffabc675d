"""Notes on old finish that is worn off before anyone knows whether there is lead in it."""

from collections.abc import Iterator

from surfacecalc.cautions.lead_tests import untested_zones
from surfacecalc.cautions.old_coatings import zones_with_lead
from surfacecalc.model.pieces import Piece, Zone
from surfacecalc.model.step_facts import abrading_of, stripper_of, wears_coating
from surfacecalc.problems import Problem
from surfacecalc.zones.areas import Measured

DO_TEST = (
    'put uses = ["lead test"] on a step before it, or, once a test has shown none, write'
    ' lead = "none found" in [piece]'
)
DRY_SANDED = (
    "makes dust of a finish in which lead was found: take it off with a stripper, or leave it to a"
    " licensed shop"
)
STRIPPED = (
    "lead was found in the old finish, and some may be left in the grain of the stripped wood: do"
    " this wet, or not down to the wood"
)


def check_lead_first(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield the first step that wears off an old finish which nobody tested for lead."""
    first = next((step for step in zone.steps if wears_coating(step)), None)
    if first is None:
        return
    if zone in untested_zones(piece):
        message = (
            "wears off an old finish that may contain lead, and no step tests it: its dust is"
            f" poisonous; {DO_TEST}"
        )
        yield Problem("note", first.line, f'zone "{zone.name}"', message)
    elif piece.settings.lead == "found" and zone in zones_with_lead(piece):
        yield from _dry_sanded(zone)


def _dry_sanded(zone: Zone) -> Iterator[Problem]:
    """Yield the first dry sanding of a zone in whose old finish lead was found."""
    for number, step in enumerate(zone.steps):
        dry = abrading_of(step)
        if dry is not None and not dry.product:
            is_stripped = any(map(stripper_of, zone.steps[:number]))
            yield Problem("note", dry.line, dry.do, STRIPPED if is_stripped else DRY_SANDED)
            return


def check_lead_left_on(piece: Piece, measured: Measured) -> Iterator[Problem]:
    """Yield zones that keep what is on them, on a piece for a nursery on which lead was found."""
    if piece.settings.lead != "found" or "nursery" not in piece.settings.made_for:
        return
    for found in measured.zones:
        if found.zone.leave and found.area_m2 > 0:
            message = (
                "is left as it is, on a piece for a nursery on which lead was found: if there is"
                " old finish on it, strip it too"
            )
            yield Problem("note", found.zone.line, f'zone "{found.zone.name}"', message)
