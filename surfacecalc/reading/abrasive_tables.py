"""`[[abrasive]]` tables become abrasives; a life they leave out comes from the catalogue."""

import re
from collections.abc import Mapping
from typing import Any

from surfacecalc.catalogue.entries import abrasive_forms, grades
from surfacecalc.catalogue.lookup import find_life, nearest_form
from surfacecalc.catalogue.own import NOTHING_OWN, OwnCatalogue
from surfacecalc.model.bands import LIFE_BAND, banded
from surfacecalc.model.inputs import Input
from surfacecalc.model.ranges import Factor, Range, Source
from surfacecalc.model.shelf import Abrasive, Pack
from surfacecalc.problems import suggestion
from surfacecalc.reading.examples import area_example
from surfacecalc.reading.named import read_named
from surfacecalc.reading.part_tables import read_name
from surfacecalc.reading.product_tables import read_price
from surfacecalc.reading.tables import Table, shown

KEYS = ("name", "form", "life", "packs", "on_hand")
MOST_LIFE_M2 = 1_000.0
MOST_COUNT = 100_000
PACKS_EXAMPLE = "[{ count = 10, price = 9 }]"


def read_abrasives(
    document: Table, own: OwnCatalogue = NOTHING_OWN
) -> tuple[dict[str, Abrasive], dict[str, int]]:
    """Return the abrasives by name, and the line of every name, also of those with a mistake.

    Args:
        document: the whole piece file.
        own: what the user's own files have for it.
    """
    abrasives, lines = read_named(document, "abrasive", read_abrasive)
    return {**own.abrasives, **abrasives}, {**own.abrasive_lines, **lines}


def read_grit(value: Any) -> int | None:
    """Return a FEPA grade written 120, "120" or "P120", or None."""
    number = _grade_number(value)
    return number if number in grades() else None


def nearest_grit(value: Any) -> str:
    """Return what to write instead of a grit that is not a FEPA grade."""
    number = _grade_number(value)
    if number is None:
        return "grits are numbers such as 80, 120, 180, 220"
    coarser = [grade for grade in grades() if grade < number]
    finer = [grade for grade in grades() if grade > number]
    near = [str(grade) for grade in (*coarser[-1:], *finer[:1])]
    return f"the nearest {'are' if len(near) > 1 else 'is'} {' and '.join(near)}"


def _grade_number(value: Any) -> int | None:
    """Return the number in 120, "120" or "P120", of five digits at most, or None."""
    if isinstance(value, int) and not isinstance(value, bool):
        return value if 0 <= value < 100_000 else None
    match = re.fullmatch(r"\s*[Pp]?([0-9]{1,5})\s*", value) if isinstance(value, str) else None
    return int(match[1]) if match else None


def read_abrasive(table: Table, lines: dict[str, int]) -> Abrasive | None:
    """Return the abrasive that a table describes, None where it has a mistake.

    Args:
        table: its table.
        lines: the line of each name that is taken; its own is added.
    """
    name = read_name(table, "abrasive", lines)
    table.only(KEYS)
    form = table.text("form", '"125 mm disc"')
    life = _life(table, name, form)
    packs = read_count_packs(table)
    on_hand = _on_hand(table)
    if not table.is_sound:
        return None
    return Abrasive(name, form, life, packs, on_hand, table.line, table.context.file)


def _life(table: Table, name: str, form: str) -> Mapping[int, Factor]:
    """Return the life [m2] by grit, for every grit for which one is known."""
    if "life" not in table:
        return _assumed_life(table, name, form)
    _note_near_form(table, form)
    if not isinstance(table.values["life"], dict):
        life = table.range("life", _area(table), _life_rule)
        if life is None:
            return {}
        one = _life_of(name, None, life, table.context.label)
        return dict.fromkeys(grades(), _with_band(table, "life", one))
    inner = table.table("life", _life_example(table))
    if inner is not None and not inner.values:
        table.mend(f"life has no grit in it; write life = {_life_example(table)}", "life")
    found: dict[int, Factor] = {}
    for key in inner.values if inner else ():
        assert inner is not None  # noqa: S101 - the loop is empty otherwise
        grit = _grit_key(inner, key)
        life = inner.range(key, _area(inner), _life_rule)
        if grit in found:
            inner.mend(f"grit {shown(key)} is given twice; keep one of them", key)
        if grit is not None and life is not None:
            one = _life_of(name, grit, life, table.context.label)
            found[grit] = _with_band(inner, key, one)
    return found


def _life_of(name: str, grit: int | None, values: Range, source: Source) -> Factor:
    return Factor(Input("abrasive life", of=name, grit=grit), values, source, unit="m2")


def _with_band(table: Table, key: str, life: Factor) -> Factor:
    return banded(life, LIFE_BAND) if table.is_one_number(key) else life


def _life_example(table: Table) -> str:
    return f"{{ 240 = {area_example(table.context.unit)} }}"


def _note_near_form(table: Table, form: str) -> None:
    """Note a form with a life of its own that is nearly one of the catalogue, and no slip else."""
    near = nearest_form(form) if form else None
    if near is not None:
        table.note(
            f'form = {shown(form)} is not a form in the built-in list; did you mean "{near}"?',
            "form",
        )


def _assumed_life(table: Table, name: str, form: str) -> Mapping[int, Factor]:
    if form and find_life(form, 80) is None:
        hint, right = suggestion(form, abrasive_forms()), area_example(table.context.unit)
        hint += " Or add" if hint.endswith("?") else ", or add"
        table.refuse("form", f"is not a form in the built-in list; {hint} life = {right}")
    return {
        grit: _life_of(name, grit, life, "assumed")
        for grit in grades()
        if (life := find_life(form, grit)) is not None
    }


def _area(table: Table) -> Any:
    def read(value: Any, *keys: str | int) -> float | None:
        return table.amount(value, "area", *keys)

    return read


def _life_rule(value: float) -> str | None:
    if value <= 0:
        return "must be more than zero"
    return "is over 1,000 m2; check the unit" if value > MOST_LIFE_M2 else None


def _grit_key(table: Table, key: str) -> int | None:
    grit = read_grit(key)
    if grit is None:
        table.mend(f"{shown(key)} is not a standard grit; {nearest_grit(key)}", key)
    return grit


def read_count_packs(table: Table) -> tuple[Pack, ...]:
    """Return packs that are sold by the count."""
    packs = []
    for pack in table.tables("packs", PACKS_EXAMPLE) if "packs" in table else ():
        pack.only(["count", "price"])
        count = pack.whole("count", 1, MOST_COUNT, "10")
        price = read_price(pack)
        if pack.is_sound:
            packs.append(Pack(count, "", price))
    return tuple(packs)


def _on_hand(table: Table) -> Mapping[int, int]:
    found: dict[int, int] = {}
    inner = table.table("on_hand", "{ 120 = 3 }") if "on_hand" in table else None
    for key in inner.values if inner else ():
        assert inner is not None  # noqa: S101 - the loop is empty otherwise
        grit = _grit_key(inner, key)
        count = inner.whole(key, 0, MOST_COUNT)
        if grit in found:
            inner.mend(f"grit {shown(key)} is given twice; keep one of them", key)
        if grit is not None:
            found[grit] = count
    return found
