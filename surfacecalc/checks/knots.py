"""Note on knots and resin that bleed through a finish. Common practice."""

from collections.abc import Iterator

from surfacecalc.catalogue.bases import says
from surfacecalc.checks.layers import FILM, Layer, layers, note
from surfacecalc.model.pieces import Piece, Zone
from surfacecalc.model.step_facts import coat_nature, takes_off
from surfacecalc.problems import Problem

HOLD_RESIN = ("shellac", "blocking", "blocker")
"""Words in the kind of a product that keeps resin and tannin in."""


def check_knots(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield the first film on bare wood with knots that nothing holds back."""
    if not zone.has_knots:
        return
    found = layers(zone, piece.shelf.products)
    places = [place for place, step in enumerate(zone.steps) if takes_off(step)]
    bare_from = places[-1] if places else -1
    if not places and zone.surface != "bare":
        return
    for layer in found:
        if layer.place < bare_from:
            continue
        if _holds_back(layer):
            return
        if layer.role in FILM:
            message = (
                "goes on bare wood with knots, which bleed through it: first block them with a"
                ' shellac-based coat (do = "block"; add spot to block the knots alone)'
            )
            yield note(layer, message)
            return


def _holds_back(layer: Layer) -> bool:
    """Whether a coat keeps resin in, all over or on the knots alone."""
    return coat_nature(layer.step.do) == "blocker" or says(layer.product, *HOLD_RESIN)
