"""Steps that abrade: sand, rub out, and strip where it is by sanding to bare wood."""

import re
from typing import Literal

from surfacecalc.catalogue.step_defaults import worn_share
from surfacecalc.model.shelf import Abrasive
from surfacecalc.model.step_facts import rubs_finish, wears_edges
from surfacecalc.model.steps import Between, Sand, SandWord
from surfacecalc.reading.abrasive_tables import nearest_grit, read_grit
from surfacecalc.reading.steps.shares import read_share
from surfacecalc.reading.steps.stock import Stock, check_known, read_product
from surfacecalc.reading.steps.work import WORK_KEYS, read_work
from surfacecalc.reading.tables import Table, shown

KEYS = ("do", "grits", "with", "by", *WORK_KEYS)
RUB_KEYS = (*KEYS, "product")
EDGE_KEYS = (*KEYS, "share")
MOST_WORN = 0.5
"""More than that of a zone is not its edges any more."""
FOR_MACHINES = frozenset({"disc", "discs", "disk", "disks", "belt", "belts"})
"""Words of a form that is used on a machine; every other is held in the hand."""


def read_sanding(table: Table, do: SandWord, stock: Stock) -> Sand | None:
    """Return a step that abrades, None where it has a mistake."""
    table.only(RUB_KEYS if rubs_finish(do) else EDGE_KEYS if wears_edges(do) else KEYS)
    grits = _grits(table)
    name = _abrasive(table, stock, grits)
    by = _by(table, do, stock.shelf.abrasives.get(name))
    product = read_product(table, "product", stock, '"wax"') if "product" in table else None
    worn = read_share(table, "share", worn_share(), _edges_only) if wears_edges(do) else None
    work = read_work(table, stock)
    if not table.is_sound:
        return None
    rubbed_with = None if product is None else product.name
    return Sand(grits, name, table.line, do, by, rubbed_with, worn, work)


def _edges_only(share: float) -> str | None:
    if 0 < share <= MOST_WORN:
        return None
    return (
        f"must be more than 0 % and at most {100 * MOST_WORN:g} %: only edges and corners are worn"
    )


def _by(table: Table, do: SandWord, abrasive: Abrasive | None) -> Literal["machine", "hand"]:
    """Return how it is done: as the step says, else as the form of its abrasive tells."""
    if "by" in table:
        return "hand" if table.choice("by", ("machine", "hand")) == "hand" else "machine"
    words = set(re.findall(r"[a-z]+", abrasive.form.lower())) if abrasive else set()
    by_hand = rubs_finish(do) or wears_edges(do)
    return "machine" if not by_hand and words & FOR_MACHINES else "hand"


def read_between(table: Table, stock: Stock) -> Between | None:
    """Return what denibs between the coats of a step, None where nothing does."""
    inner = table.table("between", '{ grit = 320, with = "pad" }') if "between" in table else None
    if inner is None:
        return None
    inner.only(("grit", "with"))
    grit = read_grit(inner.values["grit"]) if inner.has("grit", "320") else None
    if grit is None and "grit" in inner:
        value = inner.values["grit"]
        inner.mend(f"grit {shown(value)} is not a standard grit; {nearest_grit(value)}", "grit")
    name = _abrasive(inner, stock, () if grit is None else (grit,))
    return None if grit is None else Between(grit, name)


def _abrasive(table: Table, stock: Stock, grits: tuple[int, ...]) -> str:
    """Return the name of the abrasive, which must have a life for every grit."""
    name = table.text("with", '"disc"')
    check_known(table, "with", name, stock.abrasive_lines, "abrasive")
    abrasive = stock.shelf.abrasives.get(name)
    for grit in dict.fromkeys(grits) if abrasive else ():
        if abrasive and grit not in abrasive.life:
            _record_no_life(table, abrasive, grit)
    return name


def _record_no_life(table: Table, abrasive: Abrasive, grit: int) -> None:
    table.mend(
        f'abrasive "{abrasive.name}" on line {abrasive.line} has no life for grit {grit}; add'
        f' {grit} = "0.5 m2" to its life',
        "grits" if "grits" in table else "grit",
    )


def _grits(table: Table) -> tuple[int, ...]:
    if not table.has("grits", "[80, 120, 180]"):
        return ()
    value = table.values["grits"]
    if not isinstance(value, list) or not value:
        table.refuse("grits", "must be a list of grits, such as grits = [80, 120, 180]")
        return ()
    grits = []
    for number, item in enumerate(value):
        grit = read_grit(item)
        if grit is None:
            table.mend(
                f"grit {shown(item)} is not a standard grit; {nearest_grit(item)}", "grits", number
            )
        else:
            grits.append(grit)
    return tuple(grits)
