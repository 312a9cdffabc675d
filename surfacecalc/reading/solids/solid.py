"""All shapes by their names: the measures of a part become its solid."""

from collections.abc import Callable

from shapes.solids import Solid
from surfacecalc.reading.shape_rules import obeying
from surfacecalc.reading.solids import turns
from surfacecalc.reading.solids.case_solids import case_plan
from surfacecalc.reading.solids.drawer_solids import drawer_plan
from surfacecalc.reading.solids.leg_solids import leg_plan
from surfacecalc.reading.solids.mesh_tables import mesh_plan
from surfacecalc.reading.solids.moulding_solids import moulding_plan
from surfacecalc.reading.solids.outline_solids import outline_plan
from surfacecalc.reading.solids.panel_solids import panel_plan
from surfacecalc.reading.solids.plain_solids import board_plan
from surfacecalc.reading.solids.rod_solids import rod_plan
from surfacecalc.reading.solids.seat_solids import with_dish
from surfacecalc.reading.solids.solid_plans import SolidPlan
from surfacecalc.reading.tables import Table

LOOSE_SHAPES = ("drawer", "door")
"""Shapes that are taken off to be finished unless the file tells otherwise."""

_SHAPES: dict[str, Callable[[Table], SolidPlan]] = {
    "board": board_plan,
    "case": case_plan,
    "drawer": drawer_plan,
    "leg": leg_plan,
    "panel": panel_plan,
    "door": panel_plan,
    "outline": outline_plan,
    "moulding": moulding_plan,
    "rod": rod_plan,
    "mesh": mesh_plan,
}


def read_solid(table: Table, other_keys: tuple[str, ...]) -> Solid | None:
    """Return the solid of a part, or None after recording what is wrong.

    Args:
        table: the part's table.
        other_keys: keys that belong to every part, whatever its shape.
    """
    shape = table.choice("shape", _SHAPES)
    if table.values.get("shape") != shape:
        return None
    plan = _SHAPES[shape](table)
    if shape in ("board", "outline"):
        plan = with_dish(table, plan)
    table.only([*plan.keys, *other_keys, *turns.KEYS])
    solid = obeying(table, plan.build)
    if solid is None:
        return None
    whole = solid
    return obeying(table, lambda: turns.changed(table, whole))
