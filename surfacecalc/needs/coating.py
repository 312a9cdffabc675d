"""How much of a product a coating step takes."""

from collections.abc import Sequence

import numpy as np

from surfacecalc.pieces import Coat, Product
from surfacecalc.ranges import Evaluate, Number

FILM_M2_PER_L_UM = 1_000.0
"""One litre of solids covers 1 000 m2 at 1 um."""


def coverage(product: Product, evaluate: Evaluate) -> Number:
    """Return the area that one litre or kilo covers in one coat [m2/L or m2/kg].

    Source: written on the label; or from volume solids and dry film, VS% x 10 / DFT[um]: UFC
    3-190-06 (MIL-HDBK-1110) section 2.1.5, https://buildingcriteria1.tpub.com/ufc_3_190_06/
    """
    factors = product.coverage
    if len(factors) == 1:
        return evaluate(factors[0])
    solids, dry_film_um = factors
    return FILM_M2_PER_L_UM * evaluate(solids) / evaluate(dry_film_um)


def coat_amount(
    area_m2: float,
    coat: Coat,
    product: Product,
    evaluate: Evaluate,
    *,
    bare: bool,
    at_most: int | None = None,
) -> Number:
    """Return what the coats of a step take [L or kg].

    Args:
        area_m2: area of the zone.
        coat: the step.
        product: its product.
        evaluate: turns factors into numbers.
        bare: whether the first of its coats goes on a bare surface.
        at_most: count only this many of its coats, the first ones.

    Source: practical coverage = theoretical x (1 - loss),
    https://www.corrosionpedia.com/definition/2294/practical-coverage ; a first coat that reaches a
    share of its coverage counts as 1 / share coats.
    """
    first = evaluate(coat.first_coat) if bare else 1.0
    number = evaluate(coat.coats)
    if at_most is not None:
        number = np.minimum(number, at_most)
    coats = 1 / first + number - 1
    put_on = area_m2 / coverage(product, evaluate) * coats
    return put_on / (1 - evaluate(coat.loss)) * (1 + evaluate(coat.allowance))


def takes_first_coat(steps: Sequence[object], number: int, surface: str | None) -> bool:
    """Whether a step of a zone is its first coat on a bare surface; sanding bares nothing again."""
    return surface == "bare" and not any(isinstance(step, Coat) for step in steps[:number])
