"""The next larger choice at the counter, told where it costs little more and holds much more.

The rule: it holds at least one and a half times as much as what is bought and costs at most a
quarter more. Anything less is not worth the talk, and what nobody needs is no bargain.

Source: the two limits are ours, assumed.
"""

from dataclasses import dataclass
from decimal import Decimal

from surfacecalc.model.pieces import Piece
from surfacecalc.model.shelf import Pack
from surfacecalc.supplies.packs import TooManyPacksError, choose_packs
from surfacecalc.supplies.shopping import Supply

HOLDS_TIMES = 1.5
"""Times as much as what is bought that a larger choice holds at least; assumed."""
COSTS_TIMES = Decimal("1.25")
"""Times as much as what is bought that a larger choice costs at most; assumed."""


@dataclass(frozen=True)
class LargerChoice:
    """More for little more money.

    Attributes:
        buy: the packs.
        more: what they cost more than those that are bought.
        times: how many times as much they hold.
    """

    buy: tuple[tuple[Pack, int], ...]
    more: Decimal
    times: float


def larger_choice(piece: Piece, supply: Supply) -> LargerChoice | None:
    """Return the cheapest packs that hold much more than what is bought, if they cost little more.

    Args:
        piece: the piece whose shelf says in what packs it is sold.
        supply: a line of its supply list.
    """
    goods = piece.shelf.find(supply.key)
    if goods is None or not supply.buy or not supply.cost:
        return None
    priced = [pack for pack in goods.packs if pack.price is not None]
    try:
        buy = choose_packs(priced, HOLDS_TIMES * supply.bought)
    except TooManyPacksError:
        return None
    cost = sum(((pack.price or 0) * count for pack, count in buy), Decimal(0))
    if cost > COSTS_TIMES * supply.cost:
        return None
    holds = sum(pack.size * count for pack, count in buy)
    return LargerChoice(buy, cost - supply.cost, holds / supply.bought)
