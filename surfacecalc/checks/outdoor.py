"""Note on finishes for indoors on a piece that will stand outside. Common practice."""

from collections.abc import Iterator

from surfacecalc.catalogue.bases import says
from surfacecalc.checks.layers import layers, note
from surfacecalc.model.pieces import Piece, Zone
from surfacecalc.problems import Problem

FOR_INDOORS = (
    "shellac", "lacquer", "wax", "furniture paint", "chalk", "milk", "casein", "interior", "gel",
    "hardwax", "glaze",
)  # fmt: skip
"""Words in the kind of what rain and sun soon spoil."""
FOR_OUTDOORS = ("exterior", "outdoor", "marine", "spar", "deck")


def check_outdoor(piece: Piece, zone: Zone) -> Iterator[Problem]:
    """Yield the first coat of a zone that is made for indoors, where the piece stands outside."""
    if not piece.settings.is_outdoor:
        return
    for layer in layers(zone, piece.shelf.products):
        product = layer.product
        if says(product, *FOR_INDOORS) and not says(product, *FOR_OUTDOORS, by_name=True):
            message = (
                "is made for indoors, and rain and sun soon spoil it: use one whose label says"
                " exterior"
            )
            yield note(layer, message)
            return
