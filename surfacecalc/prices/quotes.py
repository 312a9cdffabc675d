"""A quote: the price to ask for a wanted rate, the rate that a given price pays, or both."""

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from surfacecalc.model.pieces import Piece
from surfacecalc.prices.material_coins import MaterialCoins, material_coins
from surfacecalc.prices.materials import Material, materials
from surfacecalc.prices.statements import JobCosts, Statement, pay_for, price_for
from surfacecalc.problems import Problem
from surfacecalc.supplies.shopping import Supply
from surfacecalc.units.coins import coin_of, rounded

HUNDREDTH_H = Decimal("0.01")
"""Planned hours are rounded to it, so that what is shown is what is counted with."""


@dataclass(frozen=True)
class Quote:
    """What a job costs and brings.

    Attributes:
        job: what it is worked out from.
        currency: the code of its money, None where the file gives none.
        materials: each supply with its price.
        are_hours_planned: whether the hours come from the plan instead of the file.
        wanted: the price for the wanted rate, None where the file gives no rate.
        given: what the given price pays, None where the file gives no price.
        count: how many pieces it is for.
    """

    job: JobCosts
    currency: str | None
    materials: tuple[Material, ...]
    are_hours_planned: bool
    wanted: Statement | None
    given: Statement | None
    count: int = 1

    def each(self, amount: Decimal) -> Decimal:
        """Return what of an amount falls on one piece of a set, in whole coins."""
        return rounded(amount / self.count, self.job.coin)

    @property
    def difference(self) -> Decimal | None:
        """How much more the given price is than the wanted rate takes; None without both."""
        if self.wanted is None or self.given is None:
            return None
        return self.given.total - self.wanted.total

    def with_margin(self, told: Statement) -> Decimal:
        """Return what an hour brings to one who keeps the margin as well, in whole coins."""
        return rounded((told.work + told.margin) / self.job.hours, self.job.coin)

    @property
    def coins(self) -> tuple[tuple[MaterialCoins, ...], MaterialCoins]:
        """What each supply is worth in whole coins, and what all of them are."""
        return material_coins(self.materials, self.job.pricing.supplies, self.job.coin)

    @property
    def not_counted(self) -> tuple[str, ...]:
        """Names of the supplies without a price, each once."""
        names = (item.supply.name for item in self.materials if not item.is_counted)
        return tuple(dict.fromkeys(names))

    @property
    def assumed(self) -> tuple[str, ...]:
        """What it rests on that nobody measured."""
        names = dict.fromkeys(item.supply.name for item in self.materials if item.supply.assumed)
        needs = f"needs use assumed figures, see the supply list: {', '.join(names)}"
        hours = (
            ("hours come from the plan, which uses assumed figures",)
            if self.are_hours_planned
            else ()
        )
        return (*hours, needs) if names else hours


def quote(
    piece: Piece, supplies: Iterable[Supply], planned_h: float | None = None
) -> Quote | Problem:
    """Return the quote of a piece, or what its file must say for it.

    Args:
        piece: the piece.
        supplies: its supply list.
        planned_h: hands-on time [h] where [price] gives none; None where it is not known.
    """
    pricing = piece.pricing
    if pricing is None:
        right = "rate = 40 (what you want to earn an hour) or asked = 320 (what the customer pays)"
        return Problem("mend", None, "", f"has no [price]; add [price] with {right}")
    hours = pricing.hours
    if hours is None and planned_h is not None:
        hours = rounded(Decimal(str(planned_h)), HUNDREDTH_H)
    if not hours:
        message = "has no hours; add hours = 4, the hands-on time of the whole job"
        return Problem("mend", pricing.line, "price", message)
    found = materials(piece, supplies)
    values = (item.used if pricing.supplies == "used" else item.emptied for item in found)
    job = JobCosts(pricing, sum(values, Decimal(0)), hours, coin_of(piece.settings.currency))
    return Quote(
        job=job,
        currency=piece.settings.currency,
        materials=found,
        are_hours_planned=pricing.hours is None,
        wanted=None if pricing.rate is None else price_for(job, pricing.rate),
        given=None if pricing.asked is None else pay_for(job, pricing.asked),
        count=piece.settings.count,
    )
