"""Where one coat more takes another can: what to buy for fewer coats, and what only for more."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Number
from surfacecalc.model.shelf import Pack
from surfacecalc.model.step_facts import coat_of
from surfacecalc.model.steps import Coat
from surfacecalc.needs.coating import coat_count
from surfacecalc.needs.draws import Draws, quantiles
from surfacecalc.supplies.packs import TooManyPacksError, choose_packs
from surfacecalc.supplies.shopping import Supply

Purchase = tuple[tuple[Pack, int], ...]


@dataclass(frozen=True)
class Jump:
    """A number of coats from which on more has to be bought.

    Attributes:
        supply: what is bought.
        coats: the number of coats that needs more.
        zones: where they are put on; empty where no other coat of it is in doubt.
        fewer: the packs for one coat less.
        more: the packs for that number of coats.
        later: what to buy beyond the packs for one coat less once that coat proves needed.
    """

    supply: Supply
    coats: int
    zones: tuple[str, ...]
    fewer: Purchase
    more: Purchase
    later: Purchase


def jumps(piece: Piece, supplies: list[Supply]) -> Iterator[Jump]:
    """Yield the first jump of each product whose number of coats is in doubt."""
    draws = Draws()
    for supply in supplies:
        if supply.what == "product" and supply.unit != "each" and not supply.mixed:
            found = _first_jump(piece, supply, draws)
            if found is not None:
                yield found


def _first_jump(piece: Piece, supply: Supply, draws: Draws) -> Jump | None:
    goods = piece.shelf.product(supply.key)
    put_on = [use for use in supply.uses if use.first_coats]  # not what a batch of a mix takes
    steps = {use.step.line: coat for use in put_on if (coat := coat_of(use.step))}
    doubtful = {line: coat for line, coat in steps.items() if _is_doubtful(coat)}
    if goods is None or not goods.packs:
        return None
    for line, coat in doubtful.items():
        zones = tuple(dict.fromkeys(use.zone for use in supply.uses if use.step.line == line))
        for coats, missing, fewer, more in _purchases(supply, goods.packs, coat_count(coat, draws)):
            if _size(more) > _size(fewer):
                later = choose_packs(goods.packs, missing - _size(fewer))
                named = zones if len(doubtful) > 1 else ()
                return Jump(supply, coats, named, fewer, more, later)
    return None


def _is_doubtful(coat: Coat) -> bool:
    return not coat.coats.range.is_fixed or coat.more_coats is not None


def _purchases(
    supply: Supply, packs: tuple[Pack, ...], coats: Number
) -> Iterator[tuple[int, float, Purchase, Purchase]]:
    """Yield each number of coats but the lowest.

    With it what is missing for it, the packs for one coat less, and the packs for itself.
    """
    drawn, before = supply.drawn, None
    for number in np.unique(coats):
        at = np.asarray(drawn)[np.asarray(coats) == number]
        (need,) = quantiles(at, (supply.need.bought_at,))
        missing = max(0.0, need - supply.on_hand)
        try:
            packs_now = choose_packs(packs, missing)
        except TooManyPacksError:
            return
        if before is not None:
            yield int(number), missing, before, packs_now
        before = packs_now


def _size(purchase: Purchase) -> float:
    return sum(pack.size * count for pack, count in purchase)
