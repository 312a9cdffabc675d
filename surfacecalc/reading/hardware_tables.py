"""`[[hardware]]` tables: pulls, knobs, hinges; and `[[consumable]]` tables: what is used up."""

from collections.abc import Mapping
from typing import Any, Literal

from surfacecalc.catalogue.own import NOTHING_OWN, OwnCatalogue
from surfacecalc.model.bands import LIFE_BAND, banded
from surfacecalc.model.inputs import Input, InputUnit
from surfacecalc.model.ranges import Factor
from surfacecalc.model.shelf import Consumable, Hardware
from surfacecalc.reading.abrasive_tables import read_count_packs
from surfacecalc.reading.named import read_named
from surfacecalc.reading.part_tables import read_name
from surfacecalc.reading.tables import Table, shown
from surfacecalc.units.grammar import AmountError, parse_amount
from surfacecalc.units.known import Dimension, factor, find_unit

HARDWARE_KEYS = ("name", "count", "plan", "size", "packs", "on_hand", "on")
CONSUMABLE_KEYS = ("name", "lasts", "packs", "on_hand")
PLANS = ("keep", "renew", "replace")
MOST_COUNT = 100_000
MOST_LASTS = 1_000_000.0
LARGEST_MM = 2_000.0
LASTS_EXAMPLE = '"2 m2", "4 h", "3 sessions" or "1 job"'
Unit = Literal["area", "time", "sessions", "jobs"]
WORDS: Mapping[str, Unit] = {
    "session": "sessions", "sessions": "sessions", "job": "jobs", "jobs": "jobs",
}  # fmt: skip

INPUT_UNITS: Mapping[Unit, InputUnit] = {
    "area": "m2", "time": "h", "sessions": "sessions", "jobs": "jobs",
}  # fmt: skip


def read_hardware(document: Table) -> tuple[dict[str, Hardware], dict[str, int]]:
    """Return the hardware by name, and the line of every name, also of what has a mistake."""
    return read_named(document, "hardware", _hardware)


def read_consumables(
    document: Table, own: OwnCatalogue = NOTHING_OWN
) -> tuple[dict[str, Consumable], dict[str, int]]:
    """Return the consumables by name, and the line of every name, also of what has a mistake.

    Args:
        document: the whole piece file.
        own: what the user's own files have for it.
    """
    consumables, lines = read_named(document, "consumable", read_consumable)
    return {**own.consumables, **consumables}, {**own.consumable_lines, **lines}


def _hardware(table: Table, lines: dict[str, int]) -> Hardware | None:
    name = read_name(table, "hardware", lines)
    table.only(HARDWARE_KEYS)
    count = table.whole("count", 1, MOST_COUNT, "8")
    word = table.choice("plan", PLANS)
    plan: Literal["keep", "renew", "replace"] = "keep"
    if word in ("renew", "replace"):
        plan = "renew" if word == "renew" else "replace"
    size = _size(table) if "size" in table else None
    packs = read_count_packs(table)
    if packs and plan != "replace":
        table.mend(
            f'has packs, but nothing is bought with plan = "{plan}"; take packs out, or write'
            ' plan = "replace"',
            "packs",
        )
    on_hand = table.whole("on_hand", 0, MOST_COUNT) if "on_hand" in table else 0
    on = _fitted_to(table)
    if not table.is_sound:
        return None
    return Hardware(name, count, plan, size, packs, on_hand, table.line, on)


def _fitted_to(table: Table) -> tuple[str, ...]:
    """Return the zones that hardware is fitted to; whether the file has them is checked later."""
    if "on" not in table:
        return ()
    if isinstance(table.values["on"], list):
        return tuple(dict.fromkeys(table.texts("on", '["drawer fronts", "doors"]')))
    name = table.text("on", '"drawer fronts"')
    return (name,) if name else ()


def _size(table: Table) -> tuple[float, float, float]:
    sizes = table.place_mm("size", "[80, 25, 20]")
    if table.is_sound and not all(0 < size <= LARGEST_MM for size in sizes):
        table.refuse("size", "must be width, height and depth, each more than zero and at most 2 m")
    return sizes


def read_consumable(table: Table, lines: dict[str, int]) -> Consumable | None:
    """Return the consumable that a table describes, None where it has a mistake.

    Args:
        table: its table.
        lines: the line of each name that is taken; its own is added.
    """
    name = read_name(table, "consumable", lines)
    table.only(CONSUMABLE_KEYS)
    units: set[Unit] = set()

    def read(value: Any, *keys: str | int) -> float | None:
        try:
            amount, unit = _parse_lasts(value)
        except AmountError as error:
            table.mend(f"lasts = {shown(value)} {error}", *keys)
            return None
        units.add(unit)
        return amount

    lasts = table.range("lasts", read, _lasts_rule) if table.has("lasts", LASTS_EXAMPLE) else None
    if len(units) > 1:
        table.refuse("lasts", "must have all values in one unit")
    packs = read_count_packs(table)
    on_hand = table.whole("on_hand", 0, MOST_COUNT) if "on_hand" in table else 0
    if not table.is_sound or lasts is None:
        return None
    unit = next(iter(units))
    factor = Factor(
        Input("consumable life", of=name), lasts, table.context.label, unit=INPUT_UNITS[unit]
    )
    is_counted = unit == "jobs" or (unit == "sessions" and lasts.likely <= 1)
    if not is_counted and table.is_one_number("lasts"):
        factor = banded(factor, LIFE_BAND)
    return Consumable(name, factor, unit, packs, on_hand, table.line, table.context.file)


def _parse_lasts(value: Any) -> tuple[float, Unit]:
    """Return how long one lasts and in what; raise AmountError for what says neither."""
    if not isinstance(value, str):
        raise AmountError(f"has no unit; write it like {LASTS_EXAMPLE}")
    number, _, word = value.strip().partition(" ")
    if word.strip() in WORDS:
        try:
            return float(number), WORDS[word.strip()]
        except ValueError:
            raise AmountError(
                f"has no number before {word.strip()}; write it like {LASTS_EXAMPLE}"
            ) from None
    dimensions: tuple[tuple[Dimension, Unit], ...] = (("area", "area"), ("time", "time"))
    for dimension, unit in () if _is_calendar(value) else dimensions:
        try:
            return float(parse_amount(value, dimension)), unit
        except AmountError:
            continue
    raise AmountError(f"is not an area, a time, sessions or jobs; write it like {LASTS_EXAMPLE}")


def _is_calendar(value: str) -> bool:
    """Whether a time is one of days on the calendar, which say nothing of hours of work."""
    unit = find_unit(value.strip().lstrip("0123456789./- "))
    return unit is not None and unit.dimension == "time" and factor(unit.name) >= factor("days")


def _lasts_rule(value: float) -> str | None:
    if not value > 0:
        return "must be more than zero"
    return "is far too much; check the unit" if not value <= MOST_LASTS else None
