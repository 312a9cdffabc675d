"""How much filler holes take."""

import math
from collections.abc import Iterator
from dataclasses import replace

from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Evaluate, Number
from surfacecalc.model.shelf import Product, SupplyKey
from surfacecalc.model.steps import Addition, Fill, Hole
from surfacecalc.needs.two_part import hardener_per_unit
from surfacecalc.needs.uses import StepSite, Taken

MM3_IN_L = 1_000_000.0


def hole_mm3(hole: Hole) -> float:
    """Return the volume of all holes of a kind [mm3].

    Source: closed forms. A pit is half an ellipsoid, 2/3 pi a b c with its half axes a and b and
    its depth c; a gouge half an ellipse in section, pi/4 width x depth; a groove is square.
    """
    length, width, depth = hole.length_mm, hole.width_mm, hole.depth_mm
    shares = {"pit": math.pi / 6, "gouge": math.pi / 4, "groove": 1.0}
    return hole.count * shares[hole.kind] * length * width * depth


def filler_l(fill: Fill, evaluate: Evaluate) -> Number:
    """Return the filler that holes take [L].

    What shrinks is filled again in the next application: the n-th one fills shrinkage ** (n - 1) of
    the hole. One application leaves a dent of the shrinkage.
    """
    holes_l = sum(hole_mm3(hole) for hole in fill.holes) / MM3_IN_L
    shrinkage = evaluate(fill.shrinkage)
    placed: Number = 0.0
    for number in range(fill.applications):
        placed = placed + holes_l * shrinkage**number
    return placed / (1 - evaluate(fill.loss))


def fill_uses(piece: Piece, fill: Fill, place: StepSite) -> Iterator[Taken]:
    """Yield what filling takes: the filler, and the hardener that is mixed in."""
    product = piece.shelf.products[fill.product]
    per_litre = (product.density_kg_per_l or 1.0) if product.basis == "weight" else 1.0

    def amount(evaluate: Evaluate) -> Number:
        return filler_l(fill, evaluate) * per_litre

    factors = [fill.loss, *([fill.shrinkage] if fill.applications > 1 else [])]
    supplied = SupplyKey("product", product.name)
    yield supplied, place.use(amount, factors, used_up=product.name, once=True)
    if fill.hardener is not None:
        yield _hardener_use(piece, product, fill, fill.hardener, place)


def _hardener_use(
    piece: Piece, product: Product, fill: Fill, added: Addition, place: StepSite
) -> Taken:
    """Return the hardener, which comes on top of the filler."""
    hardener = piece.shelf.products[added.product or ""]
    per_litre = (product.density_kg_per_l or 1.0) if product.basis == "weight" else 1.0

    def amount(evaluate: Evaluate) -> Number:
        filler = filler_l(fill, evaluate) * per_litre
        return filler * hardener_per_unit(product, hardener, added, evaluate)

    factors = [fill.loss, *([fill.shrinkage] if fill.applications > 1 else []), added.share]
    supplied = SupplyKey("product", hardener.name)
    use = place.use(amount, factors, used_up=product.name, role="hardener", once=True)
    return supplied, replace(use, share=added.share)
