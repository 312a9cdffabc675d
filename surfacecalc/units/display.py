"""Amounts as people read them, metric or US."""

import math
from enum import Enum
from fractions import Fraction

from surfacecalc.closeness import OFF_MARK_IN
from surfacecalc.units.known import factor
from surfacecalc.units.number_words import mixed_number

MM_IN_M, IN_IN_FT = 1000, 12
FINEST_MARK = 64
"""Finest fraction of an inch that is shown."""
TENTHS_FROM_MM = 10.0
"""Lengths [mm] from here on are shown to a tenth, as finely as anyone measures."""

ROUGH_DIGITS = 2


class Units(Enum):
    """Which units a report shows."""

    METRIC = "metric"
    US = "us"

    @classmethod
    def of(cls, unit: str) -> "Units":
        """Return the units that suit a piece measured in a unit."""
        return cls.US if unit in ("in", "ft") else cls.METRIC


def format_worked_area(area_m2: float, units: Units) -> str:
    """Return an area in an explanation, finely enough to work on with it: m2 or sq ft.

    How much surface a piece has is shown by `shown_areas` instead.
    """
    if units is Units.US:
        return f"{area_m2 / float(factor('ft2')):,.2f} sq ft"
    return f"{area_m2:,.4f} m2" if 0 < area_m2 < 1 else f"{area_m2:,.3f} m2"


def format_run(length_m: float, units: Units) -> str:
    """Return the length of a line: m or ft."""
    if units is Units.US:
        return f"{length_m * 1000 / float(factor('ft')):,.2f} ft"
    return f"{length_m:,.2f} m"


def format_line(length_m: float, units: Units) -> str:
    """Return how long a line is on a tape: m, or feet and inches.

    >>> [format_line(length, Units.US) for length in (1.71, 0.61, 0.2, 0.004)]
    ['5 ft 7 in', '2 ft', '8 in', '1 in']
    """
    if units is Units.METRIC:
        return format_run(length_m, units)
    feet, inches = divmod(max(1, round(length_m * MM_IN_M / float(factor("in")))), IN_IN_FT)
    return " ".join([f"{feet} ft"] * bool(feet) + [f"{inches} in"] * bool(inches))


def format_length(length_mm: float, units: Units) -> str:
    """Return a measure: mm, or inches with the fraction that a tape shows."""
    if units is Units.METRIC:
        if length_mm < TENTHS_FROM_MM:
            return f"{_figures(length_mm, 3)} mm"
        return f"{f'{length_mm:.1f}'.removesuffix('.0')} mm"
    inches = length_mm / float(factor("in"))
    marks = Fraction(round(inches * FINEST_MARK), FINEST_MARK)
    if abs(inches - marks) > OFF_MARK_IN:
        return f"{_figures(inches, 4)} in"
    return f"{mixed_number(marks)} in"


def format_amount(amount: float, unit: str, units: Units) -> str:
    """Return an amount of a supply that is kept in "L", "kg", "each", "m" or "m2"."""
    if unit == "each":
        return f"{amount:,.0f}"
    if unit in ("m", "m2"):
        return format_run(amount, units) if unit == "m" else format_worked_area(amount, units)
    name = _unit_for(amount, unit, units)
    return f"{_digits(amount / float(factor(name)))} {_SHORT.get(name, name)}"


def format_span(low: float, high: float, amount: float, unit: str, units: Units) -> str:
    """Return a range without its unit, which is the one that `format_amount(amount)` shows."""
    if unit == "each":
        return f"{low:,.0f} to {high:,.0f}"
    if unit in ("m", "m2"):
        return f"{format_amount(low, unit, units).split()[0]} to {format_amount(high, unit, units)}"
    size = float(factor(_unit_for(amount, unit, units)))
    return f"{_digits(low / size)} to {_digits(high / size)}"


def format_coverage(coverage: float, unit: str, units: Units) -> str:
    """Return a coverage that is kept in m2/L or m2/kg."""
    number, area, per = _coverage(coverage, unit, units)
    return f"{number} {area}/{_SHORT.get(per, per)}"


def format_coverage_span(low: float, high: float, unit: str, units: Units) -> str:
    """Return both ends of a coverage [m2/L or m2/kg], or one text where they are the same.

    >>> format_coverage_span(8.0, 12.5, "L", Units.METRIC)
    '8 to 12.5 m2/L'
    """
    text = format_coverage(high, unit, units)
    return text if low == high else f"{_coverage(low, unit, units)[0]} to {text}"


def format_coverage_words(coverage: float, unit: str, units: Units, digits: int = 4) -> str:
    """Return a coverage that is kept in m2/L or m2/kg, as it is said in a sentence."""
    number, area, per = _coverage(coverage, unit, units, digits)
    return f"{number} {area} a {_SAID.get(per, per)}"


def format_usual_coverage(low: float, high: float, unit: str, units: Units) -> str:
    """Return a usual coverage [m2/L or m2/kg] in two digits, since it is no more than rough.

    >>> format_usual_coverage(8.0, 12.0, "L", Units.US)
    '81 to 120 sq ft/qt'
    """
    (low_text, area, per), (high_text, _, _) = (
        _coverage(value, unit, units, ROUGH_DIGITS) for value in (low, high)
    )
    return f"{_rough(low_text)} to {_rough(high_text)} {area}/{_SHORT.get(per, per)}"


def _rough(number: str) -> str:
    """Return a whole number with zeros after its first two digits; others have no more."""
    value = float(number)
    return number if value < 100 else f"{round(value, ROUGH_DIGITS - len(f'{value:.0f}')):.0f}"


def _coverage(coverage: float, unit: str, units: Units, digits: int = 4) -> tuple[str, str, str]:
    """Return a coverage as its number, the unit of area, and what it is for."""
    if units is Units.METRIC:
        return _figures(coverage, digits), "m2", unit
    per = "quart" if unit == "L" else "lb"
    area = coverage * float(factor(per)) / float(factor("ft2"))
    return _figures(area, digits), "sq ft", per


def format_share(share: float) -> str:
    """Return a share in per cent."""
    return f"{_figures(share * 100, 4)} %"


def _unit_for(amount: float, unit: str, units: Units) -> str:
    """Return the large unit from one of it on, else the small one."""
    large, small = _UNITS[unit, units]
    return large if abs(amount) >= float(factor(large)) else small


def _figures(value: float, count: int) -> str:
    """Return so many figures that count, never an exponent, no zeros at the end."""
    if value == 0:
        return "0"
    places = max(0, count - 1 - math.floor(math.log10(abs(value))))
    text = f"{value:.{places}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _digits(value: float) -> str:
    """Return three figures that count, never an exponent."""
    if value == 0:
        return "0"
    places = 0 if abs(value) >= 100 else 1 if abs(value) >= 10 else 2
    return f"{value:,.{places}f}"


_SHORT = {"quart": "qt"}
_SAID = {"L": "litre", "kg": "kilo", "lb": "pound"}
_UNITS = {
    ("L", Units.METRIC): ("L", "ml"),
    ("kg", Units.METRIC): ("kg", "g"),
    ("L", Units.US): ("quart", "fl oz"),
    ("kg", Units.US): ("lb", "oz"),
}
