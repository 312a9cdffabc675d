"""How much surface a person is shown: tenths of a square foot, or hundredths of a square metre.

Both are about as fine as a tape measures a piece. A part of a piece has one number, whatever is
shown beside it, and a total is the sum of the numbers that are shown: so they add up on every
paper, and the total is off by half a tenth a line at most. Amounts are worked out from exact areas.
"""

from collections.abc import Iterable
from decimal import Decimal

from surfacecalc.units.display import Units
from surfacecalc.units.known import factor

PLACES = {Units.US: 1, Units.METRIC: 2}
_NAMES = {Units.US: "sq ft", Units.METRIC: "m2"}


def format_area(area_m2: float, units: Units) -> str:
    """Return the area of a zone, or of anything else that is one line of a list.

    >>> [format_area(area_m2, Units.METRIC) for area_m2 in (1.2345, 0.004, 0.0)]
    ['1.23 m2', 'under 0.01 m2', '0.00 m2']
    """
    return format_area_sum([area_m2], units)


def format_area_sum(areas_m2: Iterable[float], units: Units) -> str:
    """Return what areas come to, each as it is shown by itself.

    >>> format_area_sum([1.004, 1.004, 1.004], Units.METRIC)
    '3.00 m2'
    """
    areas = list(areas_m2)
    total = sum((_shown(area_m2, units) for area_m2 in areas), Decimal(0))
    if not total and any(areas):
        return f"under {Decimal(1).scaleb(-PLACES[units])} {_NAMES[units]}"
    return f"{total:,.{PLACES[units]}f} {_NAMES[units]}"


def _shown(area_m2: float, units: Units) -> Decimal:
    """Return an area in the unit in which it is shown, rounded to the nearest."""
    size = float(factor("ft2")) if units is Units.US else 1.0
    return Decimal(f"{area_m2 / size:.{PLACES[units]}f}")
