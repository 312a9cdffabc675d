"""Dished seats: the key `dish` of an outline that lies flat."""

from typing import TYPE_CHECKING

from surfacecalc.reading.solids.solid_plans import SolidPlan, pair_of_lengths
from surfacecalc.reading.tables import Table

if TYPE_CHECKING:
    from shapes.outlines import Points, Ring

DISH_EXAMPLE = "{ oval = [380, 320], depth = 12 }"


def dished_plan(
    table: Table, thickness: float, outline: "Ring | Points", holes: "list[Ring | Points]"
) -> SolidPlan:
    """Read the bowl in a board whose outline and holes are read."""
    from shapes.dished_seats import dished_seat

    keys = ("thickness", "lies", "outline", "holes", "dish")
    if table.values.get("lies", "flat") != "flat":
        table.mend('has a dish, which goes into the top of a board that lies "flat"', "lies")
    dish, deep, centre = _dish(table)
    return SolidPlan(
        keys,
        lambda: dished_seat(outline, thickness, dish=dish, deep=deep, centre=centre, holes=holes),
    )


def _dish(table: Table) -> tuple[tuple[float, float], float, tuple[float, float] | None]:
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
        across = pair_of_lengths(inner, "oval")
    else:
        across = (inner.size_mm("circle"),) * 2
    centre = pair_of_lengths(inner, "centre") if "centre" in inner else None
    return across, inner.size_mm("depth"), centre
