"""Does everything last to the end? The chance of all lines together, and buying for that.

Each line is bought for its own point, so that of many lines one or another runs out more often than
any single one. The lines go together all the same: one hand that uses much uses much of everything.
The chance is therefore counted over the draws, with the packs as they are bought.
"""

import math
from collections.abc import Iterable
from dataclasses import replace

import numpy as np

from surfacecalc.model.pieces import Piece
from surfacecalc.needs.draws import Draws, is_enough
from surfacecalc.needs.mixing import with_batches
from surfacecalc.needs.uses import Need
from surfacecalc.supplies.shopping import Supply, supplies_of

FINENESS = 1_000
"""The common point is looked for in steps of one in so many."""
SUREST = FINENESS - 1
"""No point beyond is bought for: so few of the draws lie there that it would be a guess."""


def chance_all_lasts(supplies: Iterable[Supply]) -> float:
    """Return the chance that everything on a list lasts to the end.

    Args:
        supplies: the list. Where no pack is given, the amount bought for counts as bought; what
            comes from the tap never runs out.
    """
    lasts = np.array([True])
    for supply in supplies:
        if supply.what != "water":
            lasts = lasts & is_enough(supply.drawn, supply.at_hand)
    return float(np.mean(lasts))


def bought_for(piece: Piece, needs: list[Need], draws: Draws) -> tuple[Piece, list[Need]]:
    """Return a piece and its needs at the point that is bought for.

    That is the piece's own, or a higher one where it asks for a chance that everything together
    lasts: the lowest that reaches it, of those between which packs do not jump back.

    Args:
        piece: the piece.
        needs: what the job needs.
        draws: what the needs were drawn with.

    Raises:
        SupplyError: a need takes more packs than any job does.
    """
    wanted = piece.settings.buy_for_all
    low = math.ceil(piece.settings.buy_for * FINENESS)
    if wanted is None or _chance(piece, needs, draws) >= wanted:
        return piece, needs
    high = SUREST
    while low < high:
        middle = (low + high) // 2
        if _chance(*_at(middle / FINENESS, piece, needs), draws) >= wanted:
            high = middle
        else:
            low = middle + 1
    return _at(max(high / FINENESS, piece.settings.buy_for), piece, needs)


def _at(point: float, piece: Piece, needs: list[Need]) -> tuple[Piece, list[Need]]:
    """Return a piece that is bought for at another point, and its needs with batches for that."""
    raised = replace(piece, settings=replace(piece.settings, buy_for=point))
    return raised, with_batches(raised, needs)


def _chance(piece: Piece, needs: list[Need], draws: Draws) -> float:
    return chance_all_lasts(supplies_of(piece, needs, draws, with_drivers=False))
