"""Will the jar do? How far what is on hand goes, coat by coat."""

from dataclasses import dataclass

import numpy as np

from surfacecalc.closeness import ROUNDING
from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Evaluate, Factor, Number, highest, likely
from surfacecalc.model.shelf import Product
from surfacecalc.model.step_facts import coat_of
from surfacecalc.needs.coating import coat_amount, coat_count
from surfacecalc.needs.draws import Draws
from surfacecalc.needs.uses import Need, Use


@dataclass(frozen=True)
class JarReach:
    """How sure a jar is to last through the first coats of all its zones.

    Attributes:
        coats: how many coats, the first ones.
        likely: what they take with every factor at its likely value [L or kg].
        buy_for: what they take at the point that is bought for [L or kg].
        chance: that what is on hand lasts through them, from 0 to 1.
    """

    coats: int
    likely: float
    buy_for: float
    chance: float


@dataclass(frozen=True)
class Jar:
    """What is on hand of a product that the job uses.

    Attributes:
        product: the product.
        reaches: coat by coat, up to the most coats that any zone gets.
        sure_coats: the largest number of coats that it covers at the confidence bought for.
        assumed: the inputs that are assumed, each once.
    """

    product: Product
    reaches: tuple[JarReach, ...]
    sure_coats: int
    assumed: tuple[Factor, ...]

    @property
    def will_do(self) -> bool:
        """Whether it lasts through all coats at the confidence bought for."""
        return self.sure_coats == len(self.reaches)


def jars(piece: Piece, needs: list[Need], draws: Draws) -> list[Jar]:
    """Return how far each product on hand goes that the job coats with.

    A coat is counted through all zones that get it before the next one begins, the way a batch is
    used up: the second coat of the base after the first coat of everything.
    """
    found = []
    for need in needs:
        product = piece.shelf.product(need.supplied)
        uses = [use for use in need.uses if use.role == "step" and coat_of(use.step)]
        if product is not None and product.on_hand > 0 and uses:
            found.append(_jar(product, uses, draws, piece.settings.buy_for))
    return found


def _jar(product: Product, uses: list[Use], draws: Draws, confidence: float) -> Jar:
    most = max(_most_coats(use) for use in uses)
    reaches = tuple(_reach(product, uses, count, draws, confidence) for count in range(1, most + 1))
    sure = sum(reach.chance >= confidence for reach in reaches)
    inputs = {factor.draw_key: factor for use in uses for factor in use.factors}
    assumed = tuple(factor for factor in inputs.values() if factor.source == "assumed")
    return Jar(product, reaches, sure, assumed)


def _most_coats(use: Use) -> int:
    coat = coat_of(use.step)
    return int(coat_count(coat, highest)) if coat else 0


def _reach(
    product: Product, uses: list[Use], coats: int, draws: Draws, confidence: float
) -> JarReach:
    taken = _taken(product, uses, coats, draws)
    sure = float(_taken(product, uses, coats, likely))
    chance = float(np.mean(np.asarray(taken) * (1 - ROUNDING) <= product.on_hand))
    return JarReach(coats, sure, float(np.quantile(taken, confidence)), chance)


def _taken(product: Product, uses: list[Use], coats: int, evaluate: Evaluate) -> Number:
    """Return what the first coats of all uses take."""
    total: Number = 0.0
    for use in uses:
        coat = coat_of(use.step)
        if coat is not None:
            total = total + use.zone_share * coat_amount(
                use.area_m2,
                coat,
                product,
                evaluate,
                bare=use.laid.bare,
                at_most=coats,
                extra_m2=use.laid.extra_m2,
                kept_by=use.laid.kept_by,
            )
    return total
