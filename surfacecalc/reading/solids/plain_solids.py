"""Boards."""

from shapes.boards import board
from surfacecalc.reading.solids.profile_tables import renamed, worked_edge
from surfacecalc.reading.solids.solid_plans import SIZES, SolidPlan, sizes, words
from surfacecalc.reading.tables import Table

EDGES = ("front", "back", "left", "right")


def board_plan(table: Table) -> SolidPlan:
    """Read a board, plain or with a profile worked on some of its edges."""
    size = sizes(table)
    keys = (*SIZES, "edge_profile", "profiled_edges")
    profile = worked_edge(table)
    if profile is None:
        return SolidPlan(keys, lambda: board(*size))
    from shapes.profiles import edge_of
    from shapes.worked_edges import profiled_board

    edges = words(table, "profiled_edges", EDGES, ("front", "left", "right"))
    return SolidPlan(
        keys,
        renamed(
            lambda: profiled_board(*size, profile=edge_of(profile, size[2]), edges=edges),
            {"profile": "edge_profile", "edges": "profiled_edges"},
        ),
    )
