"""Boards and cases."""

from shapes.boards import FACES as SIX_SIDES
from shapes.boards import board
from shapes.cases import case
from surfacecalc.problems import suggestion
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


def case_plan(table: Table) -> SolidPlan:
    """Read a case, closed or open on some sides."""
    size, wall = sizes(table), table.size_mm("board")
    opened = table.values.get("open", [])
    if not isinstance(opened, list) or not all(isinstance(side, str) for side in opened):
        table.refuse("open", 'must be a list of sides, such as open = ["front"]')
        opened = []
    for number, side in enumerate(opened):
        if side not in SIX_SIDES:
            table.refuse("open", f"is not a side; {suggestion(side, SIX_SIDES)}", number)
    return SolidPlan((*SIZES, "board", "open"), lambda: case(*size, board=wall, open_sides=opened))
