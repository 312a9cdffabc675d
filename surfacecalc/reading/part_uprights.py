"""Uprights placed between a part below and a part above, whose length follows from these."""

from collections.abc import Callable
from typing import Any

from shapes.errors import ShapeError
from shapes.parts import Part
from shapes.solids import Solid
from surfacecalc.reading.tables import Table

ENDS = ("below", "above")
KEYS = (*ENDS, "of", "tenon", "axis", "set_in")
SHAPES = ("leg", "board")
"""Shapes with a height that may be another one."""
ANY_HEIGHT = "100 mm"
"""Of an upright whose own height is not given, until its parts are known."""


def is_upright(table: Table) -> bool:
    """Whether a part is placed between one below and one above."""
    value = table.values.get("between")
    return isinstance(value, dict) and any(key in value for key in ENDS)


def with_some_height(table: Table) -> None:
    """Let an upright be read that has no height yet; one with points has it there."""
    has_height = {"height", "profile", "sections"} & table.values.keys()
    if is_upright(table) and table.values.get("shape") in SHAPES and not has_height:
        table.values["height"] = ANY_HEIGHT


def resized(table: Table, read: Callable[[Table], Solid | None], length_mm: float) -> Solid | None:
    """Return the solid of a part, as it is but so long; its points keep their proportions.

    Args:
        table: the part's table, known to have no mistake.
        read: returns the solid of a table.
        length_mm: its length from end to end.

    Raises:
        ShapeError: a shape that has no height.
    """
    if table.values.get("shape") not in SHAPES:
        raise ShapeError("below", f"for a {' or a '.join(SHAPES)} only")
    values = {**table.values}
    for key in ("profile", "sections"):
        if key in values:
            values[key] = _stretched(table, key, length_mm)
            values.pop("height", None)
    if not {"profile", "sections"} & values.keys():
        values["height"] = _text(length_mm)
    return read(Table(values, table.path, table.where, table.context))


def parts_between(
    name: str,
    solid: Solid,
    resize: Callable[[float], Solid | None],
    below: Part,
    above: Part,
    *,
    tenon: float,
    **more: Any,
) -> list[Part] | None:
    """Return uprights of the length that fits, or None after a mistake; see `shapes.uprights`."""
    from shapes.uprights import upright_length, uprights

    fitting = resize(upright_length(solid, below, above, tenon=tenon))
    return None if fitting is None else uprights(name, fitting, below, tenon=tenon, **more)


def _stretched(table: Table, key: str, length_mm: float) -> list[list[Any]]:
    rows = table.values[key]
    heights = [table.length_mm(row[0], key, number, 0) or 0.0 for number, row in enumerate(rows)]
    scale = length_mm / heights[-1]
    return [[_text(height * scale), *row[1:]] for height, row in zip(heights, rows, strict=True)]


def _text(length_mm: float) -> str:
    return f"{length_mm:.6f} mm"
