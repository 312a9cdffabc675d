"""How much of a coat's mixed stuff is the product, and how much its hardener."""

from surfacecalc.model.ranges import Evaluate, Number
from surfacecalc.model.shelf import Basis, Product, SupplyKey
from surfacecalc.model.steps import Addition


def hardener_key(product: Product, added: Addition) -> SupplyKey:
    """Return the line of the supply list that a hardener is on."""
    if added.product is not None:
        return SupplyKey("product", added.product)
    return SupplyKey("hardener", f"hardener for {product.name}")


def product_share(
    product: Product, hardener: Product | None, added: Addition, evaluate: Evaluate
) -> Number:
    """Return the share of the mixed stuff [in what the product is sold by] that is the product.

    A label's coverage is that of the mixed stuff, so the hardener is part of what is put on.
    """
    stirred_in = hardener_per_unit(product, hardener, added, evaluate)
    if hardener is not None and hardener.basis != product.basis:
        stirred_in = stirred_in * _turned(hardener, hardener.basis, product.basis)
    return 1 / (1 + stirred_in)


def hardener_per_unit(
    product: Product, hardener: Product | None, added: Addition, evaluate: Evaluate
) -> Number:
    """Return the hardener [L or kg, as it is sold] to one litre or kilo of the product.

    Args:
        product: what it is stirred into.
        hardener: the hardener; None where the file does not name it, and it goes by volume.
        added: its share.
        evaluate: turns factors into numbers.
    """
    amount = _turned(product, product.basis, added.by) * evaluate(added.share)
    return amount * _turned(hardener, added.by, hardener.basis) if hardener else amount


def _turned(product: Product, given: Basis, wanted: Basis) -> float:
    """Return how many of the wanted unit one of the given unit is, by the product's density."""
    if given == wanted:
        return 1.0
    density = product.density_kg_per_l or 1.0
    return density if wanted == "weight" else 1 / density
