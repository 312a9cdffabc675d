"""Needs become supplies: what is on hand, what to buy, what it costs, what is left over."""

from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Literal, assert_never

from surfacecalc.closeness import ROUNDING, whole_up
from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Factor, Number
from surfacecalc.model.shelf import (
    Abrasive,
    Consumable,
    Hardware,
    Pack,
    Product,
    SupplyKey,
    Tape,
    What,
)
from surfacecalc.needs.draws import MIDDLE, Draws, Points, points, quantiles, shares_of_spread
from surfacecalc.needs.mixing import batch
from surfacecalc.needs.uses import Need, Use
from surfacecalc.supplies.packs import TooManyPacksError, choose_packs

Unit = Literal["L", "kg", "each", "m", "m2"]


@dataclass(frozen=True)
class Supply:
    """One line of the supply list. Amounts are L, kg, pieces, m or m2, as `unit` says.

    Attributes:
        name: of the product, the abrasive or the thinner.
        what: the kind of thing.
        kind: generic class or form.
        grit: of an abrasive, else None.
        unit: "L", "kg", "each", "m" or "m2".
        need: its points.
        uses: what it is needed for.
        factors: the inputs of its arithmetic, each once.
        drivers: what share of the need's variance each ranged input brings, the largest first.
        on_hand: what is there already.
        buy: packs and how many of each.
        mixed: how much of a mix is made [L or kg].
        cost: of what is bought, None where a price is missing.
    """

    name: str
    what: What
    kind: str
    grit: int | None
    unit: Unit
    need: Points
    uses: tuple[Use, ...]
    factors: tuple[Factor, ...]
    drivers: tuple[tuple[Factor, float], ...]
    on_hand: float
    buy: tuple[tuple[Pack, int], ...]
    mixed: float
    cost: Decimal | None

    @property
    def key(self) -> SupplyKey:
        """What it is on the shelf."""
        return SupplyKey(self.what, self.name, self.grit)

    @property
    def title(self) -> str:
        """What it is called on a list: its name, with its grit."""
        return f"{self.name} P{self.grit}" if self.grit else self.name

    @property
    def drawn(self) -> Number:
        """The need, one number or one for each draw; pieces are not rounded up."""
        return sum((use.drawn for use in self.uses), 0.0)

    @property
    def is_exact(self) -> bool:
        """Whether it has no range: it is counted, or nothing it comes from may be off."""
        return isinstance(self.drawn, float)

    @property
    def worked_out(self) -> float:
        """The need with every input at its likely value; half of all jobs may take more."""
        return sum(use.likely for use in self.uses)

    @property
    def by_zone(self) -> dict[str, float]:
        """The likely need, shared out over the zones as it is worked out."""
        times = self.likely_not_rounded / self.worked_out if self.worked_out else 0.0
        zones: dict[str, float] = {}
        for use in self.uses:
            zones[use.zone] = zones.get(use.zone, 0.0) + use.likely * times
        return zones

    @property
    def likely_not_rounded(self) -> float:
        """The need that half of all jobs do not go beyond; pieces are not rounded up."""
        drawn = self.drawn
        return float(drawn if isinstance(drawn, float) else quantiles(drawn, (MIDDLE,))[0])

    @property
    def at_hand(self) -> float:
        """What is there when the work begins: on hand, bought and mixed.

        Where no pack is given, as much as is bought for.
        """
        whole = self.on_hand + self.bought + self.mixed
        return max(whole, self.need.buy_for) if not self.buy else whole

    @property
    def bought(self) -> float:
        """The amount in the packs to buy."""
        return sum(pack.size * count for pack, count in self.buy)

    @property
    def left_over(self) -> float:
        """What is there after the job if it takes what was bought for; the tap keeps nothing."""
        if self.what == "water" and not self.on_hand:
            return 0.0
        left = self.on_hand + self.bought + self.mixed - self.need.buy_for
        return left if abs(left) > self.need.buy_for * ROUNDING else 0.0

    @property
    def missing(self) -> float:
        """What is needed beyond what is on hand."""
        return _missing(self.need.buy_for, self.on_hand)

    @property
    def assumed(self) -> tuple[Factor, ...]:
        """The inputs that are assumed."""
        return tuple(factor for factor in self.factors if factor.source == "assumed")


def supplies_of(
    piece: Piece, needs: list[Need], draws: Draws, *, with_drivers: bool = True
) -> list[Supply]:
    """Return the supply list of a job.

    Args:
        piece: the piece.
        needs: what the job needs.
        draws: what the needs were drawn with.
        with_drivers: whether it is asked where the spread of each need comes from.

    Raises:
        SupplyError: a need takes more packs than any job does.
    """
    supplies = []
    for need in needs:
        try:
            found = _supply(piece, need)
        except TooManyPacksError as error:
            raise SupplyError(need, str(error)) from error
        if with_drivers:
            drivers = shares_of_spread(found.drawn, found.factors, draws)
            found = replace(found, drivers=drivers)
        supplies.append(found)
    return supplies


class SupplyError(ValueError):
    """A need that no sensible number of packs covers.

    Attributes:
        need: the need.
    """

    def __init__(self, need: Need, reason: str) -> None:
        self.need = need
        super().__init__(f"the job needs {reason}; check the size of the packs")


def _supply(piece: Piece, need: Need) -> Supply:
    found = points(need.drawn, piece.settings.buy_for)
    goods = _stocked(piece, need)
    if goods.unit == "each":
        low, middle, high, bought = (
            _rounded_up(v) for v in (found.low, found.likely, found.high, found.buy_for)
        )
        found = Points(low, middle, high, bought, found.bought_at)
    missing = _missing(found.buy_for, goods.on_hand)
    buy = choose_packs(goods.packs, missing)
    mixed = (
        batch(piece.shelf.products[need.name], need, piece.settings.buy_for)
        if goods.is_mix
        else 0.0
    )
    return Supply(
        name=need.name,
        what=need.what,
        kind=goods.kind,
        grit=need.grit,
        unit=goods.unit,
        need=found,
        uses=tuple(need.uses),
        factors=need.factors,
        drivers=(),
        on_hand=goods.on_hand,
        buy=buy,
        mixed=mixed,
        cost=Decimal(0) if goods.is_free else _cost(buy, missing),
    )


@dataclass(frozen=True)
class _Stocked:
    """What the shelf says of a supply.

    Attributes:
        kind: generic class or form.
        unit: what it is counted in.
        packs: what it is sold in.
        on_hand: what is there.
        is_mix: whether it is mixed, not bought.
        is_free: whether it costs nothing by itself.
    """

    kind: str
    unit: Unit
    packs: tuple[Pack, ...]
    on_hand: float
    is_mix: bool = False
    is_free: bool = False


def _stocked(piece: Piece, need: Need) -> _Stocked:
    """Return what the shelf says of what is needed."""
    goods = piece.shelf.find(need.supplied)
    match goods:
        case Product():
            unit: Unit = "kg" if goods.basis == "weight" else "L"
            is_mix = bool(goods.recipe)
            kind = "mix" if is_mix else goods.kind
            return _Stocked(kind, unit, goods.packs, goods.on_hand, is_mix, is_free=is_mix)
        case Abrasive():
            on_hand = float(goods.on_hand.get(need.grit or 0, 0))
            return _Stocked(goods.form, "each", goods.packs, on_hand)
        case Tape():
            kind = "masking tape" if goods.unit == "m" else "masking film"
            return _Stocked(kind, goods.unit, goods.packs, goods.on_hand)
        case Hardware():
            return _Stocked("hardware", "each", goods.packs, float(goods.on_hand))
        case Consumable():
            return _Stocked("used up", "each", goods.packs, float(goods.on_hand))
        case None:
            return _Stocked(need.what, "L", (), 0.0, is_free=need.what == "water")
        case _:
            assert_never(goods)


def _missing(need: float, on_hand: float) -> float:
    """Return what is needed beyond what is on hand; a difference in the last digits is none."""
    missing = need - on_hand
    return missing if missing > need * ROUNDING else 0.0


def _rounded_up(count: float) -> float:
    return float(whole_up(count))


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


def total_cost(supplies: list[Supply]) -> Decimal:
    """Return the cost of everything whose price is known."""
    return sum((supply.cost for supply in supplies if supply.cost is not None), Decimal(0))


def is_unpriced(supplies: list[Supply]) -> bool:
    """Whether nothing of what is to buy has a price, so that a total would mean nothing."""
    costs = [supply.cost for supply in supplies if supply.missing and supply.cost != 0]
    return bool(costs) and all(cost is None for cost in costs)


def unpriced(supplies: list[Supply]) -> list[str]:
    """Return the names of supplies whose cost is not known, each once."""
    return list(dict.fromkeys(supply.name for supply in supplies if supply.cost is None))
