"""What work by the piece takes: glue, new hardware, the products of a sample board."""

from collections.abc import Callable, Iterator

from surfacecalc.catalogue.step_defaults import loss_of
from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Evaluate, Factor, Number
from surfacecalc.model.shelf import Product, SupplyKey
from surfacecalc.model.step_facts import fits_hardware
from surfacecalc.model.steps import Decor, Handwork, Trial
from surfacecalc.needs.coverage import coverage, coverage_factors
from surfacecalc.needs.uses import StepSite, Taken


def handwork_uses(piece: Piece, step: Handwork, place: StepSite) -> Iterator[Taken]:
    """Yield what a step by the piece takes; hardware is bought where it is put on again."""
    if step.product is not None and step.decor is not None:
        yield _decoration(piece.shelf.products[step.product], step.decor, place)
    each = step.each
    if step.product is not None and each is not None:
        yield (
            SupplyKey("product", step.product),
            place.use(lambda evaluate: step.count * evaluate(each), [each], once=True),
        )
    for name in step.hardware if fits_hardware(step.do) else ():
        hardware = piece.shelf.hardware[name]
        if hardware.plan == "replace":
            yield SupplyKey("hardware", name), place.use(_fixed(hardware.count), [], once=True)


def _decoration(product: Product, decor: Decor, place: StepSite) -> Taken:
    """Return the paint, glue or medium of a decoration.

    Source: area / (coverage x (1 - loss)) for each time it goes over; common practice.
    """
    share = decor.share
    whole_m2 = place.area_m2 / share.range.likely if share else place.area_m2

    def amount(evaluate: Evaluate) -> Number:
        area = whole_m2 * evaluate(share) if share else whole_m2
        return decor.coats * area / coverage(product, evaluate) / (1 - evaluate(decor.loss))

    inputs = [*coverage_factors(product), decor.loss, *([share] if share else [])]
    use = place.use(amount, inputs, used_up=product.name, way="brush")
    return SupplyKey("product", product.name), use


def test_uses(piece: Piece, step: Trial, place: StepSite) -> Iterator[Taken]:
    """Yield what a test patch takes: one coat of each product, by brush."""
    for name in step.products:
        product = piece.shelf.products[name]
        loss = loss_of(product, "brush")
        amount = _one_coat(step.patch_m2, product, loss)
        inputs = [*coverage_factors(product), loss]
        use = place.use(amount, inputs, used_up=name, way="brush", role="sample", once=True)
        yield SupplyKey("product", name), use


def _fixed(count: int) -> Callable[[Evaluate], Number]:
    return lambda _: float(count)


def _one_coat(area_m2: float, product: Product, loss: Factor) -> Callable[[Evaluate], Number]:
    return lambda evaluate: area_m2 / coverage(product, evaluate) / (1 - evaluate(loss))
