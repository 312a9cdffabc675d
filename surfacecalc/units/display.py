"""Amounts as people read them, metric or US."""

from enum import Enum

from surfacecalc.units.known import factor


class Units(Enum):
    """Which units a report shows."""

    METRIC = "metric"
    US = "us"

    @classmethod
    def of(cls, unit: str) -> "Units":
        """Return the units that suit a piece measured in a unit."""
        return cls.US if unit in ("in", "ft") else cls.METRIC


def format_area(area_m2: float, units: Units) -> str:
    """Return an area: m2 or sq ft."""
    if units is Units.US:
        return f"{area_m2 / float(factor('ft2')):,.2f} sq ft"
    return f"{area_m2:,.4f} m2" if area_m2 < 1 else f"{area_m2:,.3f} m2"


def format_run(length_m: float, units: Units) -> str:
    """Return the length of a line: m or ft."""
    if units is Units.US:
        return f"{length_m * 1000 / float(factor('ft')):,.2f} ft"
    return f"{length_m:,.2f} m"


def format_length(length_mm: float, units: Units) -> str:
    """Return a measure: mm, or inches as a decimal."""
    if units is Units.US:
        return f"{length_mm / float(factor('in')):.4g} in"
    return f"{length_mm:.4g} mm"


def format_amount(amount: float, unit: str, units: Units) -> str:
    """Return an amount of a supply that is kept in "L", "kg" or "each"."""
    if unit == "each":
        return f"{amount:,.0f}"
    name = _unit_for(amount, unit, units)
    return f"{_digits(amount / float(factor(name)))} {name}"


def format_span(low: float, high: float, unit: str, units: Units) -> str:
    """Return a range of amounts, its unit once: that of its high end."""
    if unit == "each":
        return f"{low:,.0f} to {high:,.0f}"
    name = _unit_for(high, unit, units)
    size = float(factor(name))
    return f"{_digits(low / size)} to {_digits(high / size)} {name}"


def format_coverage(coverage: float, unit: str, units: Units) -> str:
    """Return a coverage that is kept in m2/L or m2/kg."""
    if units is Units.METRIC:
        return f"{coverage:.4g} m2/{unit}"
    per = "quart" if unit == "L" else "lb"
    return f"{coverage * float(factor(per)) / float(factor('ft2')):.4g} sq ft/{per}"


def format_share(share: float) -> str:
    """Return a share in per cent."""
    return f"{share * 100:.4g} %"


def _unit_for(amount: float, unit: str, units: Units) -> str:
    """Return the large unit from one of it on, else the small one."""
    large, small = _UNITS[unit, units]
    return large if abs(amount) >= float(factor(large)) else small


def _digits(value: float) -> str:
    """Return three figures that count, never an exponent."""
    if value == 0:
        return "0"
    places = 0 if abs(value) >= 100 else 1 if abs(value) >= 10 else 2
    return f"{value:,.{places}f}"


_UNITS = {
    ("L", Units.METRIC): ("L", "ml"),
    ("kg", Units.METRIC): ("kg", "g"),
    ("L", Units.US): ("quart", "fl oz"),
    ("kg", Units.US): ("lb", "oz"),
}
