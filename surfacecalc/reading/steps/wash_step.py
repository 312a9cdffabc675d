"""The step that washes."""

from surfacecalc.catalogue.step_defaults import rinse_covers, wash_covers
from surfacecalc.model.inputs import Input
from surfacecalc.model.ranges import Factor, Range
from surfacecalc.model.steps import Wash
from surfacecalc.reading.steps.shares import assumed, part_of_one, read_covers, read_share
from surfacecalc.reading.steps.stock import Stock, read_product, read_worked_hardware
from surfacecalc.reading.steps.work import WORK_KEYS, read_work
from surfacecalc.reading.tables import Table

KEYS = ("do", "product", "covers", "strength", "times", "rinse", "hardware", *WORK_KEYS)
MOST_TIMES = 20


def read_washing(table: Table, stock: Stock) -> Wash | None:
    """Return a step that washes, None where it has a mistake."""
    table.only(KEYS)
    product = read_product(table, "product", stock, '"cleaner"')
    if product is not None and product.basis == "weight" and product.density_kg_per_l is None:
        table.refuse(
            "product",
            "is sold by weight, but a solution is mixed by volume; add density ="
            f' "1 kg/L" to the product on line {product.line}',
        )
    covers = read_covers(table, "covers", assumed(Input("wash coverage"), wash_covers(), "m2/L"))
    strength = assumed(Input("strength"), Range.fixed(0.0))
    if table.has("strength", '"3 %"'):
        strength = read_share(table, "strength", strength, part_of_one)
    times = table.whole("times", 1, MOST_TIMES) if "times" in table else 1
    step_work = read_work(table, stock)
    rinse = _rinse(table)
    hardware = read_worked_hardware(table, stock)
    if not table.is_sound or product is None:
        return None
    return Wash(product.name, covers, strength, times, rinse, table.line, hardware, step_work)


def _rinse(table: Table) -> Factor | None:
    default = assumed(Input("rinse coverage"), rinse_covers(), "m2/L")
    if table.values.get("rinse", True) is True:
        return default
    if table.values["rinse"] is False:
        return None
    return read_covers(table, "rinse", default)
