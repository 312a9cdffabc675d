"""`[[tape]]` tables: masking tape, film and paper by the roll."""

from typing import Any, Literal

from surfacecalc.model.shelf import Pack, Tape
from surfacecalc.reading.named import read_named
from surfacecalc.reading.part_tables import read_name
from surfacecalc.reading.product_tables import read_price
from surfacecalc.reading.tables import Table

KEYS = ("name", "width", "packs", "on_hand")
LONGEST_MM = 10_000_000.0
LARGEST_M2 = 10_000.0
MM_IN_M = 1_000.0
PACKS_EXAMPLE = '[{ length = "50 m", price = 4 }], or area = "20 m2" for film'


def read_tapes(document: Table) -> tuple[dict[str, Tape], dict[str, int]]:
    """Return the tapes by name, and the line of every name, also of those with a mistake."""
    return read_named(document, "tape", _tape)


def _tape(table: Table, lines: dict[str, int]) -> Tape | None:
    name = read_name(table, "tape", lines)
    table.only(KEYS)
    width = table.size_mm("width") if "width" in table else None
    packs, units = _packs(table)
    if len(units) > 1:
        table.mend("has packs by length and packs by area; keep one kind", "packs")
    unit: Literal["m", "m2"] = "m2" if units == {"m2"} else "m"
    if not units and isinstance(table.values.get("on_hand"), str):
        unit = "m2" if table.values["on_hand"].rstrip().endswith("2") else "m"
    on_hand = _size(table, unit, "on_hand") if "on_hand" in table else 0.0
    if not table.is_sound:
        return None
    return Tape(name, unit, width, packs, on_hand, table.line)


def _packs(table: Table) -> tuple[tuple[Pack, ...], set[Literal["m", "m2"]]]:
    packs: list[Pack] = []
    units: set[Literal["m", "m2"]] = set()
    for pack in table.tables("packs", PACKS_EXAMPLE) if "packs" in table else ():
        pack.only(("length", "area", "price"))
        if ("length" in pack) == ("area" in pack):
            pack.mend(f"must have either length or area, such as packs = {PACKS_EXAMPLE}")
            continue
        key = "length" if "length" in pack else "area"
        unit: Literal["m", "m2"] = "m" if key == "length" else "m2"
        units.add(unit)
        size = _size(pack, unit, key)
        if pack.is_sound and size <= 0:
            pack.refuse(key, "must be more than zero")
        price = read_price(pack)
        if pack.is_sound:
            packs.append(Pack(size, str(pack.values[key]), price))
    return tuple(packs), units


def _size(table: Table, unit: Literal["m", "m2"], key: str) -> float:
    """Return a length [m] or an area [m2]; a bare number is a mistake."""
    value: Any = table.values[key]
    found = table.amount(value, "length" if unit == "m" else "area", key)
    if found is None:
        return 0.0
    if not 0 <= found <= (LONGEST_MM if unit == "m" else LARGEST_M2):
        table.refuse(key, "must be from zero to 10,000 m or m2; check the unit")
    return found / MM_IN_M if unit == "m" else found
