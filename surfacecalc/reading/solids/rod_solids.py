"""Rods: round stock, straight or bent along a path."""

from typing import Any

from surfacecalc.reading.solids.outline_solids import LIES
from surfacecalc.reading.solids.solid_plans import SolidPlan
from surfacecalc.reading.tables import Table

PATH_EXAMPLE = '[[400, 0], [400, 300, "smooth"], [0, 300], [0, 0]]'
SMOOTH = "smooth"


def rod_plan(table: Table) -> SolidPlan:
    """Read round stock along a path."""
    from shapes.rods import rod

    diameter = table.size_mm("diameter")
    lies = table.choice("lies", LIES) if "lies" in table else "across"
    path = _path(table)
    return SolidPlan(("diameter", "lies", "path"), lambda: rod(path, diameter, along=LIES[lies]))


def _path(table: Table) -> list[list[Any]]:
    """Return the points of a path [mm], each with the rise that follows it, or "smooth"."""
    right = f"path = {table.context.example(PATH_EXAMPLE)}"
    if not table.has("path", right.removeprefix("path = ")):
        return []
    value = table.values["path"]
    if not isinstance(value, list) or not all(
        isinstance(point, list) and len(point) in (2, 3) for point in value
    ):
        table.refuse("path", f"must be points along the middle of the rod, such as {right}")
        return []
    return [
        [_entry(table, item, number, k) for k, item in enumerate(point)]
        for number, point in enumerate(value)
    ]


def _entry(table: Table, item: Any, number: int, k: int) -> float | str:
    """Return a length of a point [mm], or the word that may follow two of them."""
    if k == 2 and isinstance(item, str) and not any(sign.isdigit() for sign in item):
        if item != SMOOTH:
            table.refuse("path", f'is not known; write "{SMOOTH}" or the rise of an arc', number, k)
        return SMOOTH
    return table.length_mm(item, "path", number, k) or 0.0
