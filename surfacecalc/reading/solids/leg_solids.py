"""Legs of every form."""

from collections.abc import Callable
from typing import Any

from shapes.legs import round_leg, square_leg, tapered_leg, turned_leg
from surfacecalc.closeness import SAME_HEIGHT_MM
from surfacecalc.reading.solids.post_solids import chamfered_plan, octagonal_plan
from surfacecalc.reading.solids.solid_plans import (
    SolidPlan,
    flag,
    length_or,
    nothing,
    optional_size,
    rows_of_lengths,
)
from surfacecalc.reading.solids.splay_tables import with_splay
from surfacecalc.reading.tables import Table

TURNED = "points [height, diameter]"
SHAPED = "sections [height, width, depth] from the floor up, with their offsets or without"
TURNED_EXAMPLE = "[[0, 30], [400, 45]]"
CURVED_EXAMPLE = '[[0, 30], [200, 50, "straight"], [400, 40]]'
SHAPED_EXAMPLE = "[[0, 30, 30, 20, 0], [400, 50, 50]]"
LINES = ("smooth", "straight")


def leg_plan(table: Table) -> SolidPlan:
    """Read a leg of any form."""
    form = table.choice("form", _FORMS) if "form" in table else "square"
    if table.values.get("form", "square") != form:
        return nothing(table)
    plan = _FORMS[form](table)
    plan = with_splay(table, form, plan, lambda: _curved_profile(table))
    return SolidPlan((*plan.keys, "form"), plan.build)


def _square(table: Table) -> SolidPlan:
    height, width = table.size_mm("height"), table.size_mm("width")
    depth = optional_size(table, "depth")
    return SolidPlan(("height", "width", "depth"), lambda: square_leg(height, width, depth))


def _tapered(table: Table) -> SolidPlan:
    height, width, foot = (table.size_mm(key) for key in ("height", "width", "foot"))
    depth, straight = optional_size(table, "depth"), length_or(table, "straight", 0.0)
    return SolidPlan(
        ("height", "width", "depth", "foot", "straight"),
        lambda: tapered_leg(height, width, depth, foot=foot, straight=straight),
    )


def _round(table: Table) -> SolidPlan:
    height, width = table.size_mm("height"), table.size_mm("width")
    return SolidPlan(("height", "width"), lambda: round_leg(height, width))


def _turned(table: Table) -> SolidPlan:
    profile = rows_of_lengths(table, "profile", (2,), TURNED, TURNED_EXAMPLE)
    _check_height(table, profile)
    return SolidPlan(("height", "profile"), lambda: turned_leg(profile))


def _spindle(table: Table) -> SolidPlan:
    """Read a turned leg with curves between its points."""
    from shapes.spindles import spindle

    # older files say between, a word that places parts as well
    key = "between" if isinstance(table.values.get("between"), str) else "lines"
    between = table.choice(key, LINES) if key in table else LINES[0]
    profile = _curved_profile(table)
    _check_height(table, [point[:2] for point in profile])
    return SolidPlan(("height", "profile", "lines"), lambda: spindle(profile, between=between))


def _curved_profile(table: Table) -> list[list[Any]]:
    """Return [height, diameter] or [height, diameter, form]; the form a word or a rise [mm]."""
    value = table.values.get("profile")
    if not isinstance(value, list) or not all(isinstance(point, list) for point in value):
        return rows_of_lengths(table, "profile", (2, 3), TURNED, CURVED_EXAMPLE)
    points: list[list[Any]] = []
    right = f"profile = {table.context.example(CURVED_EXAMPLE)}"
    for number, point in enumerate(value):
        if len(point) not in (2, 3):
            table.refuse("profile", f"must be written like {right}", number)
            continue
        read = [table.length_mm(item, "profile", number, k) for k, item in enumerate(point[:2])]
        forms = [_line(table, item, number) for item in point[2:]]
        points.append([*[length or 0.0 for length in read], *forms])
    return points


def _line(table: Table, item: Any, number: int) -> str | float:
    if item in LINES:
        return str(item)
    return table.length_mm(item, "profile", number, 2) or 0.0


def _bun(table: Table) -> SolidPlan:
    from shapes.spindles import bun_foot

    height, width, neck = (table.size_mm(key) for key in ("height", "width", "neck"))
    return SolidPlan(("height", "width", "neck"), lambda: bun_foot(height, width, neck=neck))


def _shaped(table: Table) -> SolidPlan:
    """Read a leg that is shaped through sections, square or round."""
    from shapes.lofts import shaped_leg, shaped_round_leg

    sections = rows_of_lengths(table, "sections", (3, 5), SHAPED, SHAPED_EXAMPLE)
    section = table.choice("section", ("square", "round")) if "section" in table else "square"
    smooth = flag(table, "smooth")
    build = shaped_leg if section == "square" else shaped_round_leg
    return SolidPlan(
        ("sections", "section", "smooth"),
        lambda: build(sections, smooth=smooth),
    )


def _check_height(table: Table, profile: list[list[float]]) -> None:
    """Record a height that is not that of the profile; it may be missing."""
    height = optional_size(table, "height")
    if table.is_sound and height is not None and abs(height - profile[-1][0]) > SAME_HEIGHT_MM:
        table.refuse("height", "must be the height of the last point of the profile")


_FORMS: dict[str, Callable[[Table], SolidPlan]] = {
    "square": _square,
    "tapered": _tapered,
    "round": _round,
    "turned": _turned,
    "spindle": _spindle,
    "bun": _bun,
    "shaped": _shaped,
    "octagonal": octagonal_plan,
    "chamfered": chamfered_plan,
}
