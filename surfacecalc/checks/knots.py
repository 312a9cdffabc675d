"""Note on knots and resin that bleed through a finish. Common practice."""

from collections.abc import Iterator

from surfacecalc.checks.layers import FILM, holds_back, layers, note
from surfacecalc.model.pieces import Piece, Zone
from surfacecalc.model.step_facts import takes_off
from surfacecalc.problems import Problem


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
        if holds_back(layer):
            return
        if layer.role in FILM:
            message = (
                "goes on bare wood with knots, which bleed through it: first block them with a"
                ' shellac-based coat (do = "block"; add spot to block the knots alone)'
            )
            yield note(layer, message)
            return
