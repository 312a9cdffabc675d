"""Needs become supplies: what is on hand, what to buy, what it costs, what is left over."""

import math
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

from surfacecalc.needs.draws import Draws, Points, points, shares_of_spread
from surfacecalc.needs.job import Need, Use
from surfacecalc.pieces import Abrasive, Coat, Pack, Piece, Product
from surfacecalc.ranges import Factor
from surfacecalc.supplies.packs import TooManyPacksError, choose_packs

ROUNDING = 1e-9
"""Share of a need that is rounding: 6.0000000001 sheets are 6, and a jar that holds all but so
little of a need holds all of it."""


@dataclass(frozen=True)
class Supply:
    """One line of the supply list. Amounts are L, kg or pieces, as `unit` says.

    Attributes:
        name: of the product, the abrasive or the thinner.
        kind: generic class or form.
        grit: of an abrasive, else None.
        unit: "L", "kg" or "each".
        need: its points.
        uses: what it is needed for.
        factors: the inputs of its arithmetic, each once.
        drivers: what share of the need's variance each ranged input brings, the largest first.
        on_hand: what is there already.
        buy: packs and how many of each.
        cost: of what is bought, None where a price is missing.
    """

    name: str
    kind: str
    grit: int | None
    unit: Literal["L", "kg", "each"]
    need: Points
    uses: tuple[Use, ...]
    factors: tuple[Factor, ...]
    drivers: tuple[tuple[Factor, float], ...]
    on_hand: float
    buy: tuple[tuple[Pack, int], ...]
    cost: Decimal | None

    @property
    def by_zone(self) -> dict[str, float]:
        """The likely need by zone."""
        zones: dict[str, float] = {}
        for use in self.uses:
            zones[use.zone] = zones.get(use.zone, 0.0) + use.likely
        return zones

    @property
    def bought(self) -> float:
        """The amount in the packs to buy."""
        return sum(pack.size * count for pack, count in self.buy)

    @property
    def left_over(self) -> float:
        """What is there after the job if it takes what was bought for."""
        left = self.on_hand + self.bought - self.need.buy_for
        return left if abs(left) > self.need.buy_for * ROUNDING else 0.0

    @property
    def missing(self) -> float:
        """What is needed beyond what is on hand."""
        return _missing(self.need.buy_for, self.on_hand)

    @property
    def assumed(self) -> tuple[Factor, ...]:
        """The inputs that are assumed."""
        return tuple(factor for factor in self.factors if factor.source == "assumed")


def supplies_of(piece: Piece, needs: list[Need], draws: Draws) -> list[Supply]:
    """Return the supply list of a job.

    Args:
        piece: the piece.
        needs: what the job needs.
        draws: what the needs were drawn with.

    Raises:
        SupplyError: a need takes more packs than any job does.
    """
    supplies = []
    for need in needs:
        try:
            supplies.append(_supply(piece, need, draws))
        except TooManyPacksError as error:
            raise SupplyError(need, str(error)) from error
    return supplies


class SupplyError(ValueError):
    """A need that no sensible number of packs covers.

    Attributes:
        need: the need.
    """

    def __init__(self, need: Need, reason: str) -> None:
        self.need = need
        super().__init__(f"the job takes {reason}; check the size of the packs")


def _supply(piece: Piece, need: Need, draws: Draws) -> Supply:
    factors = _factors(piece, need)
    drivers = shares_of_spread(need.drawn, factors, draws)
    found = points(need.drawn, need.likely, piece.settings.buy_for)
    if need.what == "abrasive":
        return _abrasive_supply(piece.abrasives[need.name], need, factors, drivers, found)
    product = piece.products[need.name] if need.what == "product" else None
    packs, on_hand = (product.packs, product.on_hand) if product else ((), 0.0)
    missing = _missing(found.buy_for, on_hand)
    buy = choose_packs(packs, missing)
    return Supply(
        name=need.name,
        kind=product.kind if product else "thinner",
        grit=None,
        unit="kg" if product and product.basis == "weight" else "L",
        need=found,
        uses=tuple(need.uses),
        factors=factors,
        drivers=drivers,
        on_hand=on_hand,
        buy=buy,
        cost=_cost(buy, missing),
    )


def _abrasive_supply(
    abrasive: Abrasive,
    need: Need,
    factors: tuple[Factor, ...],
    drivers: tuple[tuple[Factor, float], ...],
    found: Points,
) -> Supply:
    """Return the line for one grit; every point is rounded up to whole ones."""
    whole = Points(*(_rounded_up(v) for v in (found.low, found.likely, found.high, found.buy_for)))
    on_hand = float(abrasive.on_hand.get(need.grit or 0, 0))
    missing = _missing(whole.buy_for, on_hand)
    buy = choose_packs(abrasive.packs, missing)
    return Supply(
        name=need.name,
        kind=abrasive.form,
        grit=need.grit,
        unit="each",
        need=whole,
        uses=tuple(need.uses),
        factors=factors,
        drivers=drivers,
        on_hand=on_hand,
        buy=buy,
        cost=_cost(buy, missing),
    )


def _missing(need: float, on_hand: float) -> float:
    """Return what is needed beyond what is on hand; a difference in the last digits is none."""
    missing = need - on_hand
    return missing if missing > need * ROUNDING else 0.0


def _rounded_up(count: float) -> float:
    return float(math.ceil(count * (1 - ROUNDING)))


def _cost(buy: tuple[tuple[Pack, int], ...], missing: float) -> Decimal | None:
    """Return what the packs cost; None where a price is missing or nothing covers the need."""
    if not buy:
        return Decimal(0) if missing <= 0 else None
    total = Decimal(0)
    for pack, count in buy:
        if pack.price is None:
            return None
        total += pack.price * count
    return total


def _factors(piece: Piece, need: Need) -> tuple[Factor, ...]:
    """Return the inputs of a need's arithmetic, each once."""
    found: dict[str, Factor] = {}
    for use in need.uses:
        if isinstance(use.step, Coat):
            inputs = _coat_factors(piece.products[use.step.product], use.step, use)
        else:
            inputs = [piece.abrasives[need.name].life[need.grit or 0]]
        found |= {factor.key: factor for factor in inputs}
    return tuple(found.values())


def _coat_factors(product: Product, coat: Coat, use: Use) -> list[Factor]:
    first = [coat.first_coat] if use.bare else []
    thin = [use.thin] if use.thin else []
    return [*product.coverage, coat.coats, *first, coat.loss, coat.allowance, *thin]


def bought_text(pack: Pack, count: int) -> str:
    """Return how many of a pack to buy: "2 x 1 quart", "2 packs of 5"."""
    if pack.text:
        return f"{count} x {pack.text}"
    return f"{count} {'pack' if count == 1 else 'packs'} of {pack.size:.0f}"


def total_cost(supplies: list[Supply]) -> Decimal:
    """Return the cost of everything whose price is known."""
    return sum((supply.cost for supply in supplies if supply.cost is not None), Decimal(0))


def unpriced(supplies: list[Supply]) -> list[str]:
    """Return the names of supplies whose cost is not known, each once."""
    return list(dict.fromkeys(supply.name for supply in supplies if supply.cost is None))
