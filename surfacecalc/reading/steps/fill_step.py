"""The step that fills holes."""

from collections.abc import Iterator
from typing import Literal

from surfacecalc.catalogue.step_defaults import filler_loss, filler_shrinkage
from surfacecalc.model.inputs import Input
from surfacecalc.model.shelf import Product
from surfacecalc.model.steps import Fill, Hole
from surfacecalc.reading.steps.hardeners import filler_hardener
from surfacecalc.reading.steps.shares import (
    assumed,
    below_one,
    read_loss,
    read_share,
)
from surfacecalc.reading.steps.stock import Stock, read_hardware_name, read_product
from surfacecalc.reading.steps.work import WORK_KEYS, read_work
from surfacecalc.reading.tables import Table

KEYS = ("do", "product", "pits", "gouges", "grooves", "loss", "shrinkage", "applications",
        "hardener", "batch", "hardware", *WORK_KEYS)  # fmt: skip
MOST_HOLES = 10_000
MOST_APPLICATIONS = 10
LIST_EXAMPLE = '[{ count = 3, length = "40 mm", width = "6 mm", depth = "3 mm" }]'
PIT_EXAMPLE = '[{ count = 12, diameter = "5 mm", depth = "3 mm" }]'
EXAMPLES = {"diameter": '"5 mm"', "length": '"40 mm"', "width": '"6 mm"', "depth": '"3 mm"'}


def read_filling(table: Table, stock: Stock) -> Fill | None:
    """Return a step that fills, None where it has a mistake."""
    table.only(KEYS)
    product = read_product(table, "product", stock, '"wood filler"')
    holes = tuple(_holes(table))
    if not any(key in table for key in ("pits", "gouges", "grooves")):
        table.mend(f"has no holes to fill; add pits = {PIT_EXAMPLE}, or gouges, or grooves")
    _check_density(table, product)
    loss = read_loss(table, "loss", assumed(Input("filler loss"), filler_loss()), below_one)
    usual_shrinkage = assumed(Input("shrinkage"), filler_shrinkage())
    shrinkage = read_share(table, "shrinkage", usual_shrinkage, below_one)
    times = table.whole("applications", 1, MOST_APPLICATIONS) if "applications" in table else 1
    hardener = filler_hardener(table, product, stock)
    batch = _batch(table, product)
    hardware = read_hardware_name(table, stock)
    work = read_work(table, stock)
    if not table.is_sound or product is None:
        return None
    return Fill(
        product.name, holes, loss, shrinkage, times, hardener, batch, table.line, hardware, work
    )


def _check_density(table: Table, product: Product | None) -> None:
    if product is not None and product.basis == "weight" and product.density_kg_per_l is None:
        table.refuse(
            "product",
            "is sold by weight, but holes are measured by volume; add density ="
            f' "1.6 kg/L" to the product on line {product.line}',
        )


def _holes(table: Table) -> Iterator[Hole]:
    for pit in table.tables("pits", PIT_EXAMPLE):
        pit.only(("count", "diameter", "depth"))
        diameter = _size(pit, "diameter")
        yield _hole(pit, "pit", diameter, diameter)
    for key, kind in (("gouges", "gouge"), ("grooves", "groove")):
        for inner in table.tables(key, LIST_EXAMPLE):
            inner.only(("count", "length", "width", "depth"))
            length, width = _size(inner, "length"), _size(inner, "width")
            yield _hole(inner, "gouge" if kind == "gouge" else "groove", length, width)


def _size(table: Table, key: str) -> float:
    return table.size_mm(key) if table.has(key, EXAMPLES[key]) else 1.0


def _hole(
    table: Table, kind: Literal["pit", "gouge", "groove"], length: float, width: float
) -> Hole:
    count = table.whole("count", 1, MOST_HOLES) if "count" in table else 1
    return Hole(kind, count, length, width, _size(table, "depth"))


def _batch(table: Table, product: Product | None) -> float | None:
    if "batch" not in table or product is None:
        return None
    batch = table.amount(table.values["batch"], product.basis, "batch")
    if batch is not None and batch <= 0:
        table.refuse("batch", "must be more than zero")
    return batch
