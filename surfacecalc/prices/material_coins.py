"""What each supply of a list is worth in whole coins, so that a list of them adds up.

A supply by itself is worth a share of a pack, which is hardly ever in whole coins. So the total is
rounded once, and the lines get whole coins by largest remainder; packs are in whole coins anyway.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from surfacecalc.model.pricing import Basis
from surfacecalc.prices.materials import Material
from surfacecalc.units.coins import apportioned, rounded


@dataclass(frozen=True)
class MaterialCoins:
    """What one supply is worth, or all of them, in whole coins.

    Attributes:
        used: what is likely to be used.
        bought: the packs to buy.
        on_hand: what is on hand, used or not.
        charged: what the customer pays for, by `supplies` of [price].
    """

    used: Decimal
    bought: Decimal
    on_hand: Decimal
    charged: Decimal

    @property
    def kept(self) -> Decimal:
        """What is left over; below zero if the packs will not do."""
        return self.bought + self.on_hand - self.used


def material_coins(
    found: Sequence[Material], basis: Basis, coin: Decimal
) -> tuple[tuple[MaterialCoins, ...], MaterialCoins]:
    """Return what each supply is worth, nothing where it has no price, and what all are.

    Args:
        found: the supplies with their prices.
        basis: whether what is used of a pack is charged, or the whole pack.
        coin: the smallest coin.
    """
    used = _in_coins([item.used for item in found], coin)
    bought = [item.bought for item in found]
    on_hand = _in_coins([item.on_hand for item in found], coin)
    charged = used if basis == "used" else _in_coins([item.emptied for item in found], coin)
    lines = zip(used, bought, on_hand, charged, strict=True)
    sums = (sum(column, Decimal(0)) for column in (used, bought, on_hand, charged))
    return tuple(MaterialCoins(*line) for line in lines), MaterialCoins(*sums)


def _in_coins(amounts: Sequence[Decimal], coin: Decimal) -> tuple[Decimal, ...]:
    return apportioned(amounts, rounded(sum(amounts, Decimal(0)), coin), coin)
