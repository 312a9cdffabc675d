"""Panels and doors: flat, raised, with several panels, or open for glass."""

from collections.abc import Callable

from shapes.panels import panel
from surfacecalc.reading.solids.arch_solids import arched_plan, is_arched
from surfacecalc.reading.solids.solid_plans import (
    SIZES,
    SolidPlan,
    counts_of_two,
    flag,
    length_or,
    nothing,
    optional_size,
    sizes,
)
from surfacecalc.reading.tables import Table


def panel_plan(table: Table) -> SolidPlan:
    """Read a panel of any form."""
    form = table.choice("form", _FORMS) if "form" in table else "flat"
    if table.values.get("form", "flat") != form:
        return nothing(table)
    plan = arched_plan(table, form) if is_arched(table) else _FORMS[form](table)
    return SolidPlan((*SIZES, "form", "frame", *plan.keys), plan.build)


def _flat(table: Table) -> SolidPlan:
    from shapes.raised_panels import panelled_door

    size, frame, recess = sizes(table), table.size_mm("frame"), table.size_mm("recess")
    keys = ("recess", "panels", "rail")
    if "panels" not in table:
        if "rail" in table:
            table.mend(
                "has rail but no panels; a rail goes between panels, so add panels = [1, 2]", "rail"
            )
        return SolidPlan(keys, lambda: panel(*size, frame=frame, recess=recess))
    panels, rail = counts_of_two(table, "panels", (1, 1)), optional_size(table, "rail")
    return SolidPlan(
        keys,
        lambda: panelled_door(*size, frame=frame, recess=recess, panels=panels, rail=rail),
    )


def _raised(table: Table) -> SolidPlan:
    from shapes.raised_panels import raised_panel

    size, frame, recess = sizes(table), table.size_mm("frame"), table.size_mm("recess")
    bevel = table.size_mm("bevel")
    field, step = length_or(table, "field", 0.0), length_or(table, "step", 0.0)
    both = flag(table, "raised_back")
    return SolidPlan(
        ("recess", "bevel", "field", "step", "raised_back"),
        lambda: raised_panel(
            *size,
            frame=frame,
            recess=recess,
            bevel=bevel,
            field=field,
            step=step,
            raised_back=both,
        ),
    )


def _open(table: Table) -> SolidPlan:
    from shapes.raised_panels import open_panel

    size, frame = sizes(table), table.size_mm("frame")
    panes, bar = counts_of_two(table, "panes", (1, 1)), length_or(table, "bar", 0.0)
    return SolidPlan(("panes", "bar"), lambda: open_panel(*size, frame=frame, panes=panes, bar=bar))


_FORMS: dict[str, Callable[[Table], SolidPlan]] = {"flat": _flat, "raised": _raised, "open": _open}
