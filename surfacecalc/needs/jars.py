"""Will the jar do? How far what is on hand goes, coat by coat.

It counts every use of the product that the supply list counts, with the same draws, so that the
chance of all coats is the chance of the supply line. What no coat takes (a test patch, a product
rubbed in or mixed into another) counts in full from the first coat on, as nobody knows when.
"""

from dataclasses import dataclass

from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Evaluate, Factor, Number, highest
from surfacecalc.model.shelf import Product
from surfacecalc.model.step_facts import coat_of
from surfacecalc.needs.coating import coat_count
from surfacecalc.needs.draws import Draws, chance_enough, points
from surfacecalc.needs.uses import Need, Use


@dataclass(frozen=True)
class JarReach:
    """How sure a jar is to last through the first coats of all its zones.

    Attributes:
        coats: how many coats, the first ones.
        likely: what half of all jobs take no more than [L or kg].
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
        is_exact: whether nothing in its need may be off.
        confidence: the point bought for, a fraction of one.
    """

    product: Product
    reaches: tuple[JarReach, ...]
    sure_coats: int
    assumed: tuple[Factor, ...]
    is_exact: bool
    confidence: float

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
        if product is not None and product.on_hand > 0 and is_coated(need):
            found.append(jar_of(product, need, draws, piece.settings.buy_for))
    return found


def is_coated(need: Need) -> bool:
    """Whether the job coats with what is needed."""
    return any(use.role == "step" and coat_of(use.step) for use in need.uses)


def jar_of(product: Product, need: Need, draws: Draws, confidence: float) -> Jar:
    """Return how far what is on hand of a product goes.

    Args:
        product: the product.
        need: what the job takes of it.
        draws: what the need was drawn with.
        confidence: the point bought for, a fraction of one.
    """
    most = max(_most_coats(use) for use in need.uses)
    reaches = tuple(_reach(product, need, count, draws, confidence) for count in range(1, most + 1))
    sure = sum(reach.chance >= confidence for reach in reaches)
    inputs = {factor.draw_key: factor for factor in need.factors}
    assumed = tuple(factor for factor in inputs.values() if factor.source == "assumed")
    return Jar(
        product,
        reaches,
        sure,
        assumed,
        is_exact=isinstance(need.drawn, float),
        confidence=confidence,
    )


def _most_coats(use: Use) -> int:
    coat = coat_of(use.step)
    return int(coat_count(coat, highest)) if coat and use.first_coats else 1


def _reach(product: Product, need: Need, coats: int, draws: Draws, confidence: float) -> JarReach:
    taken = _taken(need, coats, draws)
    found = points(taken, confidence)
    return JarReach(coats, found.likely, found.buy_for, chance_enough(taken, product.on_hand))


def _taken(need: Need, coats: int, evaluate: Evaluate) -> Number:
    """Return what the first coats of all uses take, and all that no coat takes."""
    total: Number = 0.0
    for use in need.uses:
        total = total + (use.first_coats(evaluate, coats) if use.first_coats else use.drawn)
    return float(total) if isinstance(total, int | float) else total
