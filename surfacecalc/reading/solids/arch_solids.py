"""Panels and doors whose top rail is arched."""

from surfacecalc.reading.solids.solid_plans import SolidPlan, flag, length_or, sizes
from surfacecalc.reading.tables import Table

SEVERAL = ("panels", "rail", "panes", "bar")
"""Keys of several fields or panes, which an arched one has not."""


def is_arched(table: Table) -> bool:
    """Whether a panel is arched, or meant to be."""
    return "arch" in table or "arched_top" in table


def arched_plan(table: Table, form: str) -> SolidPlan:
    """Read an arched panel of a form that is known."""
    from shapes.arched_panels import arched_frame, arched_panel

    size, frame = sizes(table), table.size_mm("frame")
    arch, is_round = table.size_mm("arch"), flag(table, "arched_top")
    for key in SEVERAL:
        if key in table:
            table.mend(f"has arch and {key}; under an arch goes one field, so take out {key}", key)
    if form == "open":
        return SolidPlan(
            ("arch", "arched_top", *SEVERAL),
            lambda: arched_frame(*size, frame=frame, arch=arch, is_round=is_round),
        )
    recess = table.size_mm("recess")
    if form == "flat":
        return SolidPlan(
            ("arch", "arched_top", "recess", *SEVERAL),
            lambda: arched_panel(*size, frame=frame, arch=arch, recess=recess, is_round=is_round),
        )
    bevel, both = table.size_mm("bevel"), flag(table, "raised_back")
    field, step = length_or(table, "field", 0.0), length_or(table, "step", 0.0)
    return SolidPlan(
        ("arch", "arched_top", "recess", "bevel", "field", "step", "raised_back", *SEVERAL),
        lambda: arched_panel(
            *size,
            frame=frame,
            arch=arch,
            recess=recess,
            bevel=bevel,
            field=field,
            step=step,
            raised_back=both,
            is_round=is_round,
        ),
    )
