"""Outline boards, and mouldings with their profiles."""

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any

from surfacecalc.reading.shape_rules import obeying
from surfacecalc.reading.solids.solid_plans import SolidPlan, flag, rows_of_lengths
from surfacecalc.reading.tables import Table

if TYPE_CHECKING:
    from shapes.outlines import Points, Ring

POINTS_EXAMPLE = "[[0, 0], [600, 0], [600, 90, 40], [0, 90]]"
PROFILE = "a form with its sizes, or points [out, up] from the foot to the top"
PROFILE_EXAMPLE = '{ form = "ogee", depth = 12, height = 15 }'
LIES = {"flat": "z", "across": "y", "along": "x"}


def outline_plan(table: Table) -> SolidPlan:
    """Read a board of an outline, with holes."""
    from shapes.outline_boards import outline_board

    thickness = table.size_mm("thickness")
    lies = table.choice("lies", LIES) if "lies" in table else "flat"
    outline = _ring(table, "outline", table.values.get("outline"), ("outline",))
    holes = table.values.get("holes", [])
    if not isinstance(holes, list):
        right = table.context.example(f"[{POINTS_EXAMPLE}]")
        table.refuse("holes", f"must be a list of outlines, such as holes = {right}")
        holes = []
    rings = [_ring(table, "holes", hole, ("holes", k)) for k, hole in enumerate(holes)]
    return SolidPlan(
        ("thickness", "lies", "outline", "holes"),
        lambda: outline_board(
            outline or [], thickness, holes=[ring for ring in rings if ring], along=LIES[lies]
        ),
    )


def _ring(
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

    centre = _pair(inner, "centre") if "centre" in inner else None
    if "circle" in inner:
        diameter = inner.size_mm("circle")
        return circle(diameter, centre=centre) if inner.is_sound else None
    if "oval" in inner:
        axes = _pair(inner, "oval")
        return oval(*axes, centre=centre) if inner.is_sound else None
    if "rounded" in inner:
        across, radius = _pair(inner, "rounded"), inner.size_mm("radius")
        corner = _pair(inner, "corner") if "corner" in inner else (0.0, 0.0)
        if inner.is_sound:
            return rounded_rectangle(*across, radius=radius, corner=corner)
        return None
    curves = inner.context.example("circle = 300, oval = [400, 300] or rounded = [400, 300]")
    inner.mend(f"must have {curves} with a radius")
    return None


def _pair(inner: Table, key: str) -> tuple[float, float]:
    value = inner.values[key]
    if not isinstance(value, list) or len(value) != 2:
        right = inner.context.example("[400, 300]")
        inner.refuse(key, f"must be two lengths, such as {key} = {right}")
        return 1.0, 1.0
    first, second = (inner.length_mm(item, key, k) or 0.0 for k, item in enumerate(value))
    return first, second


def moulding_plan(table: Table) -> SolidPlan:
    """Read a moulding, straight or mitred around a box."""
    from shapes.mouldings import mitred_moulding, moulding

    profile = read_profile(table, "profile")
    keys = ("profile", "length", "around", "all_round")
    if ("length" in table) == ("around" in table):
        table.mend("must have either length, or around = [width, depth] of the box it runs around")
        return SolidPlan(keys, lambda: moulding(1, profile))
    if "length" in table:
        length = table.size_mm("length")
        return SolidPlan(keys, lambda: moulding(length, profile))
    box, all_round = _pair(table, "around"), flag(table, "all_round")
    return SolidPlan(keys, lambda: mitred_moulding(*box, profile, all_round=all_round))


def read_profile(table: Table, key: str) -> list[list[float]]:
    """Return a profile given by points, or by its form and sizes [mm]."""
    if not isinstance(table.values.get(key), dict):
        return rows_of_lengths(table, key, (2, 3), PROFILE, PROFILE_EXAMPLE)
    inner = table.inner(table.values[key], (key,))
    from shapes.profiles import flipped

    forms = _profile_forms()
    form = inner.choice("form", forms)
    if inner.values.get("form") != form:
        return []
    build, sizes = forms[form]
    inner.only(("form", "flipped", *sizes))
    lengths = [inner.size_mm(size) for size in sizes]
    upside_down = flag(inner, "flipped")
    profile = obeying(inner, lambda: build(*lengths)) or []
    return flipped(profile) if upside_down and profile else profile


def _profile_forms() -> dict[str, tuple[Callable[..., list[list[float]]], Sequence[str]]]:
    from shapes.profiles import bead, chamfer, cove, ogee, quarter_round

    return {
        "bead": (bead, ("diameter",)),
        "cove": (cove, ("radius",)),
        "ogee": (ogee, ("depth", "height")),
        "quarter round": (quarter_round, ("radius",)),
        "chamfer": (chamfer, ("depth", "height")),
    }
