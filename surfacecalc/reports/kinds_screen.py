"""What kinds of products the catalogue knows, as a table to read, for the README, and as JSON."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from rich.console import Console

from surfacecalc.catalogue.entries import ProductClass, product_classes
from surfacecalc.model.ranges import Factor, Values
from surfacecalc.reports.json_shapes import SCHEMA, KindData, ValueData, printed
from surfacecalc.reports.table_style import plain_table
from surfacecalc.units.display import Units, format_share
from surfacecalc.units.known import factor

HEADINGS = ("kind", "family", "covers", "covers, US", "first coat", "recoat", "published")
NOTE = (
    "Figures that are not published are assumed. First coat: the share of its coverage that it"
    " reaches on bare wood."
)
NONE = "-"
MINUTES_BELOW_H = 1.0
DAYS_FROM_H = 72.0


@dataclass(frozen=True)
class KindRow:
    """One class as it is shown.

    Attributes:
        name: what it is called.
        family: what it belongs to.
        metric: its coverage in metric units, "-" where it makes no coat.
        us: the same in US units.
        first_coat: share of the coverage that its first coat reaches on bare wood.
        recoat: how long until the next coat, "-" where it is never left on the wood.
        published: which of its values were published.
    """

    name: str
    family: str
    metric: str
    us: str
    first_coat: str
    recoat: str
    published: str

    @property
    def cells(self) -> tuple[str, ...]:
        """Its values in the order of the headings."""
        return (
            self.name, self.family, self.metric, self.us, self.first_coat, self.recoat,
            self.published,
        )  # fmt: skip


def kind_rows() -> list[KindRow]:
    """Return the classes in the order of the catalogue."""
    return [_row(entry) for entry in product_classes()]


def kinds_markdown() -> str:
    """Return the classes as a table in Markdown."""
    lines = [HEADINGS, tuple("---" for _ in HEADINGS), *(row.cells for row in kind_rows())]
    return "".join(f"| {' | '.join(cells)} |\n" for cells in lines)


def kinds_json() -> str:
    """Return the classes as one JSON object: m2/L or m2/kg, hours, degrees Celsius."""
    return printed({"schema": SCHEMA, "kinds": [_as_json(entry) for entry in product_classes()]})


def print_kinds(out: Console, units: Units) -> None:
    """Print the classes, family by family."""
    headings = ("Kind", "Covers", "First coat", "Recoat", "Published")
    table = plain_table(*((heading, "left") for heading in headings))
    for row in kind_rows():
        covers = row.us if units is Units.US else row.metric
        table.add_row(row.name, covers, row.first_coat, row.recoat, row.published)
    out.print(table)
    out.print()
    out.print(NOTE)


def _row(entry: ProductClass) -> KindRow:
    metric, us = (_coverage(entry, units) for units in (Units.METRIC, Units.US))
    first = _span(entry.first_coat.range, format_share) if entry.coverage else NONE
    recoat = _span(entry.drying.recoat_h.range, _time) if entry.drying else NONE
    published = ", ".join(_published(entry)) or NONE
    return KindRow(entry.name, entry.family, metric, us, first, recoat, published)


def _coverage(entry: ProductClass, units: Units) -> str:
    if entry.coverage is None:
        return NONE
    unit = "kg" if entry.basis == "weight" else "L"
    if units is Units.METRIC:
        return _span(entry.coverage, lambda value: f"{value:.3g} m2/{unit}")
    per, short = ("lb", "lb") if unit == "kg" else ("quart", "qt")
    size = float(factor(per)) / float(factor("ft2"))
    return _span(entry.coverage, lambda value: f"{value * size:.3g} sq ft/{short}")


def _span(values: Values, text_of: Callable[[float], str]) -> str:
    """Return low to high, the unit once where both have the same."""
    low, high = text_of(values.low), text_of(values.high)
    if low == high:
        return high
    number, _, unit = low.partition(" ")
    return f"{number} to {high}" if high.endswith(f" {unit}") else f"{low} to {high}"


def _time(time_h: float) -> str:
    if time_h < MINUTES_BELOW_H:
        return f"{60 * time_h:.3g} min"
    return f"{time_h:.3g} h" if time_h < DAYS_FROM_H else f"{time_h / 24:.3g} days"


def _published(entry: ProductClass) -> Iterable[str]:
    if entry.source == "published":
        yield "covers"
    if entry.first_coat.source == "published":
        yield "first coat"
    for key, found in _factors(entry).items():
        if found.source == "published":
            yield key


def _factors(entry: ProductClass) -> dict[str, Factor]:
    drying = entry.drying
    if drying is None:
        return {}
    coldest = {} if drying.coldest_c is None else {"min_temp": drying.coldest_c}
    rub_out = {} if drying.rub_out_h is None else {"rub_out": drying.rub_out_h}
    times = {"dry": drying.dry_h, "recoat": drying.recoat_h, "cure": drying.cure_h}
    return {**times, **rub_out, **coldest}


def _as_json(entry: ProductClass) -> KindData:
    coverage = entry.coverage
    values = _factors(entry)
    return {
        "kind": entry.name,
        "family": entry.family,
        "spellings": list(entry.spellings),
        "unit": "kg" if entry.basis == "weight" else "L",
        "chemistry": entry.nature.chemistry,
        "cleanup": entry.nature.cleanup,
        "film": entry.nature.forms_film,
        "covers": _covers(entry),
        "first_coat": None if coverage is None else _factor(entry.first_coat),
        "dry_h": _factor(values.get("dry")),
        "recoat_h": _factor(values.get("recoat")),
        "cure_h": _factor(values.get("cure")),
        "rub_out_h": _factor(values.get("rub_out")),
        "min_temp_c": _factor(values.get("min_temp")),
    }


def _covers(entry: ProductClass) -> ValueData | None:
    """Return a coverage and where it was published; of one number the ends are not."""
    if entry.coverage is None:
        return None
    ends = "; low and high assumed" if entry.is_band_assumed else ""
    return _value(entry.coverage, entry.source, f"{entry.reference}{ends}")


def _factor(found: Factor | None) -> ValueData | None:
    return None if found is None else _value(found.range, found.source, found.reference)


def _value(values: Values, source: str, reference: str) -> ValueData:
    return {
        "low": values.low,
        "likely": values.likely,
        "high": values.high,
        "source": reference or source,
    }
