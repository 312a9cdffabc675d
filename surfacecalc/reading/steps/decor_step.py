"""Decoration on a part of a zone: a stencil, a transfer, decoupage."""

from surfacecalc.catalogue.step_defaults import usual_loss
from surfacecalc.model.inputs import Input
from surfacecalc.model.ranges import Factor, Range
from surfacecalc.model.steps import Decor, HandWord, Handwork
from surfacecalc.reading.steps.shares import (
    assumed,
    below_one,
    part_of_one,
    read_loss,
    read_share,
)
from surfacecalc.reading.steps.stock import Stock, read_product
from surfacecalc.reading.steps.work import WORK_KEYS, read_work
from surfacecalc.reading.tables import Table

KEYS = ("do", "what", "area", "share", "product", "coats", "loss", *WORK_KEYS)
MOST_M2 = 50.0
MOST_COATS = 20


def read_decoration(table: Table, do: HandWord, stock: Stock) -> Handwork | None:
    """Return a decoration: how much of the zone it is, and with what; None with a mistake."""
    table.only(KEYS)
    what = table.text("what", '"a stencilled border"')
    area_m2, share = _area(table), _share(table)
    if "area" in table and "share" in table:
        table.mend("has both area and share; keep one of them", "share")
    elif "area" not in table and "share" not in table:
        table.mend('does not say how much is decorated; add area = "0.3 m2", or share = "10 %"')
    product = _product(table, stock)
    coats = table.whole("coats", 1, MOST_COATS) if "coats" in table else 1
    loss = read_loss(table, "loss", usual_loss("brush"), below_one)
    work = read_work(table, stock)
    if not table.is_sound:
        return None
    decor = Decor(area_m2, share, coats, loss)
    return Handwork(do, what, 1, product, None, (), table.line, work, decor)


def _area(table: Table) -> float | None:
    if "area" not in table:
        return None
    area_m2 = table.amount(table.values["area"], "area", "area")
    if area_m2 is not None and not 0 < area_m2 <= MOST_M2:
        table.refuse("area", f"must be more than zero and at most {MOST_M2:g} m2")
    return area_m2


def _share(table: Table) -> Factor | None:
    if "share" not in table:
        return None
    return read_share(table, "share", assumed(Input("decorated"), Range.fixed(1.0)), part_of_one)


def _product(table: Table, stock: Stock) -> str | None:
    """Return the name of what it is painted or pasted with; a transfer needs nothing."""
    if "product" not in table:
        for key in ("coats", "loss"):
            if key in table:
                right = 'product = "stencil paint"'
                table.mend(f"has {key}, but does not say of which product; add {right}", key)
        return None
    product = read_product(table, "product", stock, '"stencil paint"')
    if product is not None and not product.stays_on:
        right = 'add covers = "8 m2/L" to it, or name another product'
        table.refuse("product", f"has no coverage, so its amount is not known; {right}")
    return None if product is None else product.name
