"""Boards."""

from shapes.boards import board
from surfacecalc.reading.solids.outline_solids import PROFILE_EXAMPLE, read_profile
from surfacecalc.reading.solids.solid_plans import SIZES, SolidPlan, sizes, words
from surfacecalc.reading.tables import Table

EDGES = ("front", "back", "left", "right")


def board_plan(table: Table) -> SolidPlan:
    """Read a board, plain or with a profile worked on some of its edges."""
    size = sizes(table)
    keys = (*SIZES, "edge_profile", "profiled_edges")
    if "edge_profile" not in table:
        if "profiled_edges" in table:
            right = table.context.example(PROFILE_EXAMPLE)
            table.mend(
                f"has profiled_edges but no edge_profile; add edge_profile = {right}",
                "profiled_edges",
            )
        return SolidPlan(keys, lambda: board(*size))
    from shapes.mouldings import profiled_board
    from shapes.profiles import edge_of

    profile = read_profile(table, "edge_profile")
    edges = words(table, "profiled_edges", EDGES, ("front", "left", "right"))
    return SolidPlan(
        keys, lambda: profiled_board(*size, profile=edge_of(profile, size[2]), edges=edges)
    )
