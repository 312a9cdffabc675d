"""What a mix is made of: one batch for the whole job, rounded up to what can be measured."""

import numpy as np

from surfacecalc.closeness import ROUNDING, whole_up
from surfacecalc.model.pieces import Piece
from surfacecalc.model.shelf import Component, Product, SupplyKey
from surfacecalc.needs.uses import Need, Use


def batch(mix: Product, need: Need, buy_for: float) -> float:
    """Return how much of a mix to make beyond what is on hand [L or kg]."""
    wanted = float(np.quantile(need.drawn, buy_for))
    missing = wanted - mix.on_hand
    if missing <= wanted * ROUNDING:
        return 0.0
    return whole_up(missing / mix.batch_step) * mix.batch_step


def with_batches(piece: Piece, needs: list[Need]) -> list[Need]:
    """Return needs whose mixes are made for the point of a piece, in their order."""
    found = {need.supplied: Need(need.supplied) for need in needs}
    for need in needs:
        found[need.supplied].uses += [use for use in need.uses if use.role != "part of mix"]
    add_components(piece, found)
    return [need for need in found.values() if need.uses]


def add_components(piece: Piece, found: dict[SupplyKey, Need]) -> None:
    """Add to the needs what the batches of all mixes are made of."""
    for need in [need for need in found.values() if need.what == "product"]:
        mix = piece.shelf.products[need.name]
        made = batch(mix, need, piece.settings.buy_for) if mix.recipe else 0.0
        for part in mix.recipe if made else ():
            supplied = SupplyKey("product", part.product.name)
            uses = found.setdefault(supplied, Need(supplied)).uses
            uses += [_part_use(mix, part, use, need, made) for use in need.uses]


def _part_use(mix: Product, part: Component, use: Use, need: Need, made: float) -> Use:
    """Return what one use of a mix takes of a product in it: its share of the batch."""
    amount = made * part.per_unit * (use.likely / need.likely if need.likely else 0.0)
    return Use(
        zone=use.zone,
        area_m2=use.area_m2,
        step=use.step,
        role="part of mix",
        share=None,
        likely=amount,
        drawn=amount,
        factors=(),
        text=mix.name,
    )
