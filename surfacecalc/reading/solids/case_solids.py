"""Cases: closed or open on some sides, undivided or in bays."""

from typing import TYPE_CHECKING, Any

from shapes.boards import FACES as SIX_SIDES
from shapes.cases import case
from surfacecalc.problems import suggestion
from surfacecalc.reading.solids.solid_plans import SIZES, SolidPlan, optional_size, sizes
from surfacecalc.reading.tables import Table

if TYPE_CHECKING:
    from shapes.cases import Bays

BAYS_EXAMPLE = "{ across = 3, up = 2 }"
MOST_BAYS = 50


def case_plan(table: Table) -> SolidPlan:
    """Read a case."""
    size, wall = sizes(table), table.size_mm("board")
    opened = table.values.get("open", [])
    if not isinstance(opened, list) or not all(isinstance(side, str) for side in opened):
        table.refuse("open", 'must be a list of sides, such as open = ["front"]')
        opened = []
    for number, side in enumerate(opened):
        if side not in SIX_SIDES:
            table.refuse("open", f"is not a side; {suggestion(side, SIX_SIDES)}", number)
    bays = _bays(table)
    return SolidPlan(
        (*SIZES, "board", "open", "bays"),
        lambda: case(*size, board=wall, open_sides=opened, bays=bays),
    )


def _bays(table: Table) -> "Bays | None":
    """Return how a case is divided, None where it is not."""
    inner = table.table("bays", BAYS_EXAMPLE) if "bays" in table else None
    if inner is None:
        return None
    from shapes.cases import Bays

    inner.only(("across", "up", "board", "closed"))
    if "across" not in inner and "up" not in inner and inner.is_sound:
        inner.mend(f"has neither across nor up; write it like bays = {BAYS_EXAMPLE}")
    across, up = (_division(inner, key) for key in ("across", "up"))
    return Bays(across, up, optional_size(inner, "board"), _closed(inner))


def _division(inner: Table, key: str) -> int | list[float]:
    """Return how many bays there are one way, or the clear sizes of all but the last [mm]."""
    value: Any = inner.values.get(key, 1)
    if isinstance(value, list):
        return [inner.length_mm(item, key, k) or 0.0 for k, item in enumerate(value)]
    if isinstance(value, int) and not isinstance(value, bool) and 1 <= value <= MOST_BAYS:
        return value
    sizes_example = inner.context.example("[300, 200]")
    inner.refuse(
        key,
        f"must be how many bays, such as {key} = 3, or the clear sizes of all but the last,"
        f" such as {key} = {sizes_example}",
    )
    return 1


def _closed(inner: Table) -> list[int]:
    """Return the numbers of the bays that are closed."""
    value = inner.values.get("closed", [])
    if isinstance(value, list) and all(type(number) is int for number in value):
        return value
    inner.refuse("closed", "must be a list of numbers of bays, such as closed = [1, 3]")
    return []
