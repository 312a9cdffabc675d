"""Boards, cases and drawers."""

from shapes.boards import FACES as SIX_SIDES
from shapes.boards import board
from shapes.cases import case
from shapes.drawers import drawer
from surfacecalc.problems import suggestion
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


def drawer_plan(table: Table) -> SolidPlan:
    """Read a drawer."""
    size = sizes(table)
    front, wall = table.size_mm("front"), table.size_mm("board")
    return SolidPlan((*SIZES, "front", "board"), lambda: drawer(*size, front=front, board=wall))
