"""Sizes of units as `pint` has them: for the table of sizes, and for units that are not in it."""

import sys
from fractions import Fraction
from functools import cache
from typing import Any

from surfacecalc.units.table import BASE, Unit


def size_of(unit: Unit) -> Fraction:
    """Return how many base units (mm, m2, L, kg, h) a unit is, exactly.

    It takes 0.3 s the first time, since `pint` reads its own list of all units.
    """
    quantity = _registry().Quantity(Fraction(1), unit.pint_name)
    return Fraction(quantity.to(BASE[unit.dimension]).magnitude)


@cache
def _registry() -> Any:
    """Return pint's registry, without scipy, which pint loads where it finds it and never needs."""
    found = sys.modules.get("scipy")
    sys.modules["scipy"] = None  # type: ignore[assignment]  # an import of it now fails
    try:
        import pint
    finally:
        del sys.modules["scipy"]
        if found is not None:
            sys.modules["scipy"] = found
    return pint.UnitRegistry(non_int_type=Fraction)
