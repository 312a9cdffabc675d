"""Notes on what is on the shelf and not used by any step."""

from collections.abc import Iterable, Iterator

from surfacecalc.model.pieces import Piece
from surfacecalc.model.shelf import Goods, Product, record_file
from surfacecalc.model.step_supplies import (
    abrasives_of,
    hardware_of,
    products_of,
    steps_of,
    tapes_of,
)
from surfacecalc.problems import Problem

NOT_USED = "not used by any step"
NOT_HANDLED = "not taken off, renewed or fitted by any step"


def check_unused(piece: Piece) -> Iterator[Problem]:
    """Yield the supplies that no step uses.

    A thinner counts as used where a product names it, and what a mix is made of where the mix
    is in the file: the note on the mix is enough. What else the user's own records have is not part
    of the file.
    """
    steps = list(steps_of(piece))
    products = {name for step in steps for name in products_of(step)}
    for product in piece.shelf.products.values():
        products |= {component.product.name for component in product.recipe}
        products |= {product.thinner} if product.thinner else set()
    yield from _unused("product", piece.shelf.products.values(), products)
    abrasives = {name for step in steps for name in abrasives_of(step)}
    yield from _unused("abrasive", piece.shelf.abrasives.values(), abrasives)
    yield from _unused("tape", piece.shelf.tapes.values(), {n for s in steps for n in tapes_of(s)})
    hardware = {name for step in steps for name in hardware_of(step)}
    yield from _unused("hardware", piece.shelf.hardware.values(), hardware, NOT_HANDLED)
    consumables = {name for step in steps for name in step.work.uses}
    yield from _unused("consumable", piece.shelf.consumables.values(), consumables)


def _unused(
    what: str, supplies: Iterable[Goods], used: set[str], message: str = NOT_USED
) -> Iterator[Problem]:
    for supply in supplies:
        if supply.name not in used and not record_file(supply):
            is_mix = isinstance(supply, Product) and supply.recipe
            called = "mix" if is_mix else what
            yield Problem("note", supply.line, f'{called} "{supply.name}"', message)
