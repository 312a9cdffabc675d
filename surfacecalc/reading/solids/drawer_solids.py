"""Drawers: with a front that may be larger than the box, and with low sides."""

from shapes.drawers import LIPS, drawer
from surfacecalc.reading.solids.solid_plans import SIZES, SolidPlan, optional_size, sizes
from surfacecalc.reading.tables import Table

LIP_EXAMPLE = "{ left = 10, right = 10, top = 10 }"


def drawer_plan(table: Table) -> SolidPlan:
    """Read a drawer."""
    size = sizes(table)
    front, wall = table.size_mm("front"), table.size_mm("board")
    lip, lip_thickness = _lip(table)
    side_height, back_height = (optional_size(table, key) for key in ("side_height", "back_height"))
    return SolidPlan(
        (*SIZES, "front", "board", "lip", "side_height", "back_height"),
        lambda: drawer(
            *size,
            front=front,
            board=wall,
            lip=lip,
            lip_thickness=lip_thickness,
            side_height=side_height,
            back_height=back_height,
        ),
    )


def _lip(table: Table) -> tuple[dict[str, float], float | None]:
    """Return the lip on each side [mm], and how thick it is where that is given [mm]."""
    if "lip" not in table:
        return {}, None
    value = table.values["lip"]
    if isinstance(value, int | float | str) and not isinstance(value, bool):
        all_round = table.length_mm(value, "lip")
        return dict.fromkeys(LIPS, all_round or 0.0), None
    right = table.context.example(LIP_EXAMPLE)
    if not isinstance(value, dict):
        alone = table.context.example("lip = 10")
        table.refuse("lip", f"must be one length for all sides, {alone}, or lip = {right}")
        return {}, None
    inner = table.inner(value, ("lip",))
    inner.only((*LIPS, "thickness"))
    found = {side: inner.length_mm(value[side], side) or 0.0 for side in LIPS if side in value}
    if not found and inner.is_sound:
        inner.mend(f"has no side; write it like lip = {right}")
    return found, optional_size(inner, "thickness")
