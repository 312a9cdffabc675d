"""What the job uses of each supply, and what that is worth.

Of a tin that is bought the job uses a part; the rest stays on the shelf. What is used is worth its
share of what was paid, so "used" and "bought" differ. A mix is worth its parts, which are supplies
of their own: the whole batch, since what is left of it matches no other job.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from surfacecalc.model.pieces import Piece
from surfacecalc.model.shelf import Pack
from surfacecalc.supplies.shopping import Supply

Bought = tuple[tuple[Pack, int], ...]


@dataclass(frozen=True)
class Material:
    """One supply with its price. Amounts are L, kg, m, m2 or pieces, as the supply's unit says.

    Attributes:
        supply: its line of the supply list.
        priced_by: the packs its price is taken from: those that are bought; where nothing is
            bought, the one that is cheapest for its size; nothing where a price is missing.
        is_free: whether it costs nothing by itself.
    """

    supply: Supply
    priced_by: Bought
    is_free: bool = False

    @property
    def amount(self) -> Decimal:
        """What the job is likely to use."""
        return _decimal(self.supply.need.likely)

    @property
    def is_counted(self) -> bool:
        """Whether it has a price, or needs none."""
        return bool(self.priced_by) or self.is_free or not self.amount

    @property
    def paid(self) -> Decimal:
        """The price of the packs that it is priced by."""
        return sum((pack.price * count for pack, count in self.priced_by if pack.price), Decimal(0))

    @property
    def per_unit(self) -> Decimal:
        """The price of one L, kg, m, m2 or piece; 0 where it has none."""
        size = sum((_decimal(pack.size) * count for pack, count in self.priced_by), Decimal(0))
        return self.paid / size if size else Decimal(0)

    @property
    def used(self) -> Decimal:
        """What is likely to be used is worth so much."""
        return self.amount * self.per_unit

    @property
    def bought(self) -> Decimal:
        """What the packs to buy cost; 0 where that is not known."""
        return self.supply.cost or Decimal(0)

    @property
    def on_hand(self) -> Decimal:
        """What is on hand is worth so much, used or not."""
        return _decimal(self.supply.on_hand) * self.per_unit

    @property
    def emptied(self) -> Decimal:
        """The packs to buy, wholly, and what is used of what is on hand are worth so much."""
        from_hand = min(self.amount, _decimal(self.supply.on_hand))
        return self.bought + from_hand * self.per_unit

    @property
    def kept(self) -> Decimal:
        """What stays on the shelf is worth so much; below zero if the packs will not do."""
        return self.bought + self.on_hand - self.used if self.is_counted else Decimal(0)


def materials(piece: Piece, supplies: Iterable[Supply]) -> tuple[Material, ...]:
    """Return each supply with its price."""
    return tuple(
        Material(supply, _priced_by(piece, supply), _is_free(piece, supply)) for supply in supplies
    )


def _is_free(piece: Piece, supply: Supply) -> bool:
    """Whether it costs nothing by itself: water, and a mix that is made from its parts."""
    product = piece.shelf.product(supply.key)
    return bool(product.recipe) and not supply.on_hand if product else supply.what == "water"


def _priced_by(piece: Piece, supply: Supply) -> Bought:
    if supply.cost is None:
        return ()
    if supply.buy:
        return supply.buy
    priced = [(pack.price, pack) for pack in _packs(piece, supply) if pack.price is not None]
    if not priced:
        return ()
    _, cheapest = min(priced, key=lambda pair: (pair[0] / _decimal(pair[1].size), -pair[1].size))
    return ((cheapest, 1),)


def _packs(piece: Piece, supply: Supply) -> tuple[Pack, ...]:
    """Return the packs that a supply is sold in."""
    goods = piece.shelf.find(supply.key)
    return goods.packs if goods else ()


def _decimal(number: float) -> Decimal:
    """Return the shortest decimal that a binary number is written as."""
    return Decimal(str(number))
