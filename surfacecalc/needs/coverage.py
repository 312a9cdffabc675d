"""The area that a product covers."""

from surfacecalc.model.ranges import Evaluate, Factor, Number
from surfacecalc.model.shelf import Product

FILM_M2_PER_L_UM = 1_000.0
"""One litre of solids covers 1 000 m2 at 1 um."""


def coverage(product: Product, evaluate: Evaluate) -> Number:
    """Return the area that one litre or kilo covers in one coat [m2/L or m2/kg].

    A mix covers what the products in it cover, each by its share; thinner and water cover nothing.

    Source: written on the label; or from volume solids and dry film, VS% x 10 / DFT[um]: UFC
    3-190-06 (MIL-HDBK-1110) section 2.1.5, https://buildingcriteria1.tpub.com/ufc_3_190_06/
    """
    factors = product.coverage
    if len(factors) == 1:
        return evaluate(factors[0])
    if len(factors) == 2:
        solids, dry_film_um = factors
        return FILM_M2_PER_L_UM * evaluate(solids) / evaluate(dry_film_um)
    total: Number = 0.0
    for part in product.recipe:
        total = total + part.per_unit * coverage(part.product, evaluate)
    return total


def coverage_factors(product: Product) -> tuple[Factor, ...]:
    """Return the inputs of a product's coverage."""
    inner = (factor for part in product.recipe for factor in coverage_factors(part.product))
    return product.coverage or tuple(inner)
