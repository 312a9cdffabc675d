"""Boards of an outline, and how an outline is read."""

from typing import TYPE_CHECKING, Any

from surfacecalc.reading.shape_rules import obeying
from surfacecalc.reading.solids.profile_tables import renamed, worked_edge
from surfacecalc.reading.solids.solid_plans import SolidPlan
from surfacecalc.reading.tables import Table

if TYPE_CHECKING:
    from shapes.outlines import Points, Ring

POINTS_EXAMPLE = "[[0, 0], [600, 0], [600, 90, 40], [0, 90]]"
LIES = {"flat": "z", "across": "y", "along": "x"}


def outline_plan(table: Table) -> SolidPlan:
    """Read a board of an outline, with holes, its edges square or worked."""
    from shapes.outline_boards import outline_board

    thickness, lies = table.size_mm("thickness"), way_up(table, "flat")
    outline = read_outline(table, "outline", table.values.get("outline"), ("outline",))
    holes = table.values.get("holes", [])
    if not isinstance(holes, list):
        right = table.context.example(f"[{POINTS_EXAMPLE}]")
        table.refuse("holes", f"must be a list of outlines, such as holes = {right}")
        holes = []
    found = [read_outline(table, "holes", hole, ("holes", k)) for k, hole in enumerate(holes)]
    rings = [ring for ring in found if ring]
    keys = ("thickness", "lies", "outline", "holes", "edge_profile", "profiled_edges")
    worked = worked_edge(table)
    if worked is None:
        return SolidPlan(
            keys, lambda: outline_board(outline or [], thickness, holes=rings, along=lies)
        )
    from shapes.profiles import edge_of
    from shapes.worked_edges import worked_outline

    edges = _numbers(table, "profiled_edges") if "profiled_edges" in table else None
    return SolidPlan(
        keys,
        renamed(
            lambda: worked_outline(
                outline or [], thickness, profile=edge_of(worked, thickness), edges=edges,
                holes=rings, along=lies,
            ),
            {"profile": "edge_profile", "edges": "profiled_edges"},
        ),
    )  # fmt: skip


def way_up(table: Table, default: str) -> str:
    """Return the direction in which the top of what lies along an outline looks."""
    return LIES[table.choice("lies", LIES) if "lies" in table else default]


def _numbers(table: Table, key: str) -> list[int]:
    """Return the numbers of an outline's points."""
    value = table.values[key]
    if (
        isinstance(value, list)
        and value
        and all(isinstance(n, int) and not isinstance(n, bool) and n > 0 for n in value)
    ):
        return value
    table.refuse(
        key,
        "must be the numbers of the points whose line to the next point is worked, "
        f"such as {key} = [1, 3]",
    )
    return []


def read_outline(
    table: Table, key: str, value: Any, keys: tuple[str | int, ...]
) -> "Ring | Points | None":
    """Return an outline given by points, or as a circle, an oval or a rounded rectangle."""
    right = table.context.example(POINTS_EXAMPLE)
    if not table.has(key, right):
        return None
    if isinstance(value, dict):
        inner = table.inner(value, keys)
        inner.only(("circle", "oval", "rounded", "radius", "centre", "corner"))
        return obeying(inner, lambda: _curve(inner))
    points = [
        [table.length_mm(item, *keys, number, k) or 0.0 for k, item in enumerate(point)]
        for number, point in enumerate(value if isinstance(value, list) else [])
        if isinstance(point, list)
    ]
    if not isinstance(value, list) or len(points) < len(value):
        curve = table.context.example("{ circle = 300 }")
        table.mend(f"{key} must be points, such as {right}, or {curve}", *keys)
    return points


def _curve(inner: Table) -> "Ring | None":
    from shapes.outlines import circle, oval, rounded_rectangle

    centre = pair(inner, "centre") if "centre" in inner else None
    if "circle" in inner:
        diameter = inner.size_mm("circle")
        return circle(diameter, centre=centre) if inner.is_sound else None
    if "oval" in inner:
        axes = pair(inner, "oval")
        return oval(*axes, centre=centre) if inner.is_sound else None
    if "rounded" in inner:
        across, radius = pair(inner, "rounded"), inner.size_mm("radius")
        corner = pair(inner, "corner") if "corner" in inner else (0.0, 0.0)
        if inner.is_sound:
            return rounded_rectangle(*across, radius=radius, corner=corner)
        return None
    curves = inner.context.example("circle = 300, oval = [400, 300] or rounded = [400, 300]")
    inner.mend(f"must have {curves} with a radius")
    return None


def pair(inner: Table, key: str) -> tuple[float, float]:
    """Return two lengths that must be there [mm]."""
    value = inner.values[key]
    if not isinstance(value, list) or len(value) != 2:
        right = inner.context.example("[400, 300]")
        inner.refuse(key, f"must be two lengths, such as {key} = {right}")
        return 1.0, 1.0
    first, second = (inner.length_mm(item, key, k) or 0.0 for k, item in enumerate(value))
    return first, second
