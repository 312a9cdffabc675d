"""How much cleaner and water washing takes."""

from collections.abc import Iterator

from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Evaluate, Number
from surfacecalc.model.shelf import Product, SupplyKey
from surfacecalc.model.steps import Wash
from surfacecalc.needs.uses import StepSite, Taken

WATER = "water from the tap"


def solution_l(area_m2: float, wash: Wash, evaluate: Evaluate) -> Number:
    """Return the cleaning solution that washing takes [L].

    Source: area / coverage of the solution, each time; common practice.
    """
    return wash.times * area_m2 / evaluate(wash.covers)


def rinse_l(area_m2: float, wash: Wash, evaluate: Evaluate) -> Number:
    """Return the clean water that rinsing takes [L]."""
    return wash.times * area_m2 / evaluate(wash.rinse) if wash.rinse else 0.0


def wash_uses(piece: Piece, wash: Wash, place: StepSite) -> Iterator[Taken]:
    """Yield what washing takes: the cleaner, and the water of the solution and of the rinse.

    Hardware is washed once for all zones that share the schedule.
    """
    product = piece.shelf.products[wash.product]
    litre = _unit_of_litre(product)
    once = wash.hardware is not None

    def cleaner(evaluate: Evaluate) -> Number:
        return solution_l(place.area_m2, wash, evaluate) * evaluate(wash.strength) * litre

    def water(evaluate: Evaluate) -> Number:
        rest = 1 - evaluate(wash.strength)
        return solution_l(place.area_m2, wash, evaluate) * rest + rinse_l(
            place.area_m2, wash, evaluate
        )

    inputs = [wash.covers, wash.strength]
    yield (
        SupplyKey("product", product.name),
        place.use(cleaner, inputs, used_up=product.name, role="cleaner", once=once),
    )
    if wash.rinse is None and wash.strength.range.low >= 1:
        return  # a cleaner used neat and wiped off takes no water
    rinse = [wash.rinse] if wash.rinse else []
    use = place.use(water, [*inputs, *rinse], used_up=product.name, role="water", once=once)
    yield SupplyKey("water", WATER), use


def _unit_of_litre(product: Product) -> float:
    """Return how much of what a product is sold by is one litre of it."""
    return (product.density_kg_per_l or 1.0) if product.basis == "weight" else 1.0
