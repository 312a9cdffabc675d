"""Dished seats: the key `dish` of a board or an outline."""

from shapes.solids import Solid
from surfacecalc.reading.solids.solid_plans import SolidPlan
from surfacecalc.reading.tables import Table

DISH_EXAMPLE = "{ oval = [380, 320], depth = 12 }"
Pair = tuple[float, float]


def with_dish(table: Table, plan: SolidPlan) -> SolidPlan:
    """Return the plan of a board, with a bowl in its top if its table says so."""
    keys = (*plan.keys, "dish")
    if "dish" not in table:
        return SolidPlan(keys, plan.build)
    if table.values.get("lies", "flat") != "flat":
        table.mend('has a dish, which goes into the top of a board that lies "flat"', "lies")
    across, deep, centre = _dish(table)

    def build() -> Solid:
        from shapes.dished_seats import dished

        return dished(plan.build(), across, deep, centre=centre)

    return SolidPlan(keys, build)


def _dish(table: Table) -> tuple[Pair, float, Pair | None]:
    """Return the width and depth of a bowl at its rim, its depth, and its middle if given [mm]."""
    right = table.context.example(DISH_EXAMPLE)
    inner = table.table("dish", right)
    if inner is None:
        return (1.0, 1.0), 1.0, None
    inner.only(("oval", "circle", "depth", "centre"))
    across = (1.0, 1.0)
    if ("oval" in inner) == ("circle" in inner):
        inner.mend(f"must have either an oval or a circle, such as dish = {right}")
    elif "oval" in inner:
        across = _two_lengths(inner, "oval")
    else:
        across = (inner.size_mm("circle"),) * 2
    centre = _two_lengths(inner, "centre") if "centre" in inner else None
    return across, inner.size_mm("depth"), centre


def _two_lengths(inner: Table, key: str) -> Pair:
    """Return two lengths [mm] of a key that is there."""
    value = inner.values[key]
    if not isinstance(value, list) or len(value) != 2:
        right = inner.context.example("[380, 320]")
        inner.refuse(key, f"must be two lengths, such as {key} = {right}")
        return 1.0, 1.0
    first, second = (inner.length_mm(item, key, k) or 0.0 for k, item in enumerate(value))
    return first, second
