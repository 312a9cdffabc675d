"""Which supplies of the shelf a step takes, by name: one function for each table of the file."""

from collections.abc import Iterator
from typing import assert_never

from surfacecalc.model.pieces import Piece
from surfacecalc.model.shelf import Product
from surfacecalc.model.steps import Coat, Fill, Handwork, Mask, Sand, Step, Trial, Unmask, Wash


def steps_of(piece: Piece) -> Iterator[Step]:
    """Yield every step of every zone; one of a schedule comes once for each zone that has it."""
    for zone in piece.zones:
        yield from zone.steps


def products_of(step: Step) -> tuple[str, ...]:
    """Return the names of the products that a step takes, what is stirred in included."""
    match step:
        case Coat():
            stirred = (added for added in (step.tint, step.hardener) if added)
            names = [step.product, *(added.product for added in stirred)]
        case Fill():
            names = [step.product, step.hardener.product if step.hardener else None]
        case Trial():
            names = [*step.products]
        case Wash() | Handwork() | Sand():
            names = [step.product]
        case Mask() | Unmask():
            names = []
        case _:
            assert_never(step)
    return tuple(name for name in names if name is not None)


def abrasives_of(step: Step) -> tuple[str, ...]:
    """Return the names of the abrasives that a step takes."""
    match step:
        case Coat():
            return (step.between.abrasive,) if step.between else ()
        case Sand():
            return (step.abrasive,)
        case Wash() | Fill() | Mask() | Unmask() | Trial() | Handwork():
            return ()
        case _:
            assert_never(step)


def tapes_of(step: Step) -> tuple[str, ...]:
    """Return the names of the tape and film that a step takes."""
    match step:
        case Mask():
            return (step.tape, step.film) if step.film is not None else (step.tape,)
        case Unmask():
            return () if step.tape is None else (step.tape,)
        case Coat() | Sand() | Wash() | Fill() | Trial() | Handwork():
            return ()
        case _:
            assert_never(step)


def hardware_of(step: Step) -> tuple[str, ...]:
    """Return the names of the hardware that a step is about."""
    match step:
        case Coat() | Wash() | Fill():
            return (step.hardware,) if step.hardware is not None else ()
        case Handwork():
            return step.hardware
        case Sand() | Mask() | Unmask() | Trial():
            return ()
        case _:
            assert_never(step)


def products_in(piece: Piece) -> dict[str, Product]:
    """Return the products that steps take, what they are thinned with and mixed from, by name."""
    found: dict[str, Product] = {}
    waiting = [name for step in steps_of(piece) for name in products_of(step)]
    while waiting:
        product = piece.shelf.products.get(waiting.pop(0))
        if product is not None and product.name not in found:
            found[product.name] = product
            waiting += [component.product.name for component in product.recipe]
            waiting += [product.thinner] if product.thinner else []
    return found
