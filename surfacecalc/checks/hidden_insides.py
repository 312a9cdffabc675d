"""Note on the inside of a case that is finished by accident, behind its drawers."""

from collections.abc import Iterator

from surfacecalc.checks.clearance import is_drawer
from surfacecalc.checks.layers import FILM, layers
from surfacecalc.model.pieces import Piece, Zone
from surfacecalc.problems import Problem


def check_hidden_inside(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield a zone with a film whose whole cases bring in the inside that drawers hide.

    A zone that names the inside means it.
    """
    found = layers(zone, piece.shelf.products)
    if not any(layer.role in FILM for layer in found) or not any(map(is_drawer, piece.parts)):
        return
    if any("inside" in selector for selector in zone.selectors):
        return
    own = [part for (part, face), name in piece.zone_of.items()
           if face == "inside" and name == zone.name]  # fmt: skip
    drawers = {part.name for part in piece.parts if is_drawer(part)}
    for case in own:
        if case not in drawers:
            message = (
                f'has the inside of "{case}" as well, behind the drawers: if it gets no finish,'
                f' give "{case}.inside" to a zone with leave = true'
            )
            yield Problem("note", zone.line, f'zone "{zone.name}"', message)
