"""Notes on old finish that is worn off before anyone knows whether there is lead in it."""

from collections.abc import Iterator

from surfacecalc.cautions.lead_tests import untested_zones
from surfacecalc.cautions.old_coatings import zones_with_lead
from surfacecalc.model.pieces import Piece, Zone
from surfacecalc.model.step_facts import abrading_of, wears_coating
from surfacecalc.problems import Problem

DO_TEST = (
    'put uses = ["lead test"] on a step before it, or, once a test has shown none, write'
    ' lead = "none found" in [piece]'
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
        sanded = [step for step in map(abrading_of, zone.steps) if step and not step.product]
        for dry in sanded[:1]:
            message = (
                "makes dust of a finish in which lead was found: take it off with a stripper, or"
                " leave it to a licensed shop"
            )
            yield Problem("note", dry.line, dry.do, message)
