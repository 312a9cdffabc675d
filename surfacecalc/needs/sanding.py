"""How many of an abrasive a sanding step takes."""

from collections.abc import Callable, Iterator

from surfacecalc.catalogue.step_defaults import loss_of
from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Evaluate, Number
from surfacecalc.model.shelf import Abrasive, Product, SupplyKey
from surfacecalc.model.steps import Sand
from surfacecalc.needs.coverage import coverage, coverage_factors
from surfacecalc.needs.uses import StepSite, Taken
from surfacecalc.zones.areas import ZoneArea


def sanding_count(area_m2: float, abrasive: Abrasive, grit: int, evaluate: Evaluate) -> Number:
    """Return how many pieces one pass takes, not rounded.

    Args:
        area_m2: area of the zone.
        abrasive: the abrasive.
        grit: the grit of the pass.
        evaluate: turns factors into numbers.

    Source: area / life of each; common practice. No life of abrasives on wood was found
    published.
    """
    return area_m2 / evaluate(abrasive.life[grit])


def sanding_uses(piece: Piece, zone: ZoneArea, step: Sand, place: StepSite) -> Iterator[Taken]:
    """Yield what a step that abrades takes: its abrasive by grit, and what it is rubbed with."""
    abrasive = piece.shelf.abrasives[step.abrasive]
    if step.product is not None:
        yield _rubbed_in(piece.shelf.products[step.product], place)
    for grit in step.grits:
        inputs = [abrasive.life[grit], *([step.worn] if step.worn else [])]
        use = place.use(_one_pass(zone, step, abrasive, grit), inputs, used_up=abrasive.name)
        yield SupplyKey("abrasive", abrasive.name, grit), use


def _one_pass(
    zone: ZoneArea, step: Sand, abrasive: Abrasive, grit: int
) -> Callable[[Evaluate], Number]:
    def count(evaluate: Evaluate) -> Number:
        whole = sanding_count(zone.area_m2, abrasive, grit, evaluate)
        return whole * evaluate(step.worn) if step.worn else whole

    return count


def _rubbed_in(product: Product, place: StepSite) -> Taken:
    """Return what is rubbed in with the pad: one thin coat, by cloth."""
    loss = loss_of(product, "cloth")

    def amount(evaluate: Evaluate) -> Number:
        return place.area_m2 / coverage(product, evaluate) / (1 - evaluate(loss))

    factors = [*coverage_factors(product), loss]
    use = place.use(amount, factors, used_up=product.name, way="cloth", role="rub out")
    return SupplyKey("product", product.name), use
