"""Mouldings: straight, around a box or an outline, inside an opening, or along a line."""

from typing import Any

from surfacecalc.reading.solids.outline_solids import pair, read_outline, way_up
from surfacecalc.reading.solids.profile_tables import read_profile, renamed
from surfacecalc.reading.solids.solid_plans import SolidPlan, flag, rows_of_lengths
from surfacecalc.reading.tables import Table

RUNS = ("length", "around", "opening", "along")
LINE_EXAMPLE = "[[0, 0, 90], [600, 0]]"


def moulding_plan(table: Table) -> SolidPlan:
    """Read a moulding of any run."""
    from shapes.mouldings import moulding

    profile = read_profile(table, "profile")
    keys = ("profile", "all_round", "lies", *RUNS)
    given = [run for run in RUNS if run in table]
    if len(given) != 1:
        table.mend(
            "must have one of these: length; around = [width, depth] of the box that it runs "
            "around; opening = [width, height] of the frame that it runs inside of; or along, the "
            "points of the line that it follows"
        )
        return SolidPlan(keys, lambda: moulding(1, profile))
    (run,) = given
    _check_company(table, run)
    if run == "length":
        length = table.size_mm("length")
        return SolidPlan(keys, lambda: moulding(length, profile))
    if run == "along":
        return SolidPlan(keys, _along(table, profile))
    return SolidPlan(keys, _around(table, run, profile))


def _check_company(table: Table, run: str) -> None:
    """Record keys that do not go with the run."""
    if "all_round" in table and not (run == "around" and _is_pair(table.values[run])):
        table.mend("has all_round, which goes only with around = [width, depth]", "all_round")
    if "lies" in table and (run == "length" or (run == "around" and _is_pair(table.values[run]))):
        table.mend(
            "has lies, which goes only with opening, with along, and with around an outline; "
            "turn this one with lean or turn",
            "lies",
        )


def _is_pair(value: Any) -> bool:
    """Whether a value is two lengths, right or wrong, and not an outline."""
    return isinstance(value, list) and not any(isinstance(item, list) for item in value)


def _around(table: Table, run: str, profile: list[list[float]]) -> Any:
    from shapes.mouldings import mitred_moulding, moulding_around
    from shapes.outline_boards import as_ring
    from shapes.outlines import rectangle

    inside = run == "opening"
    value = table.values[run]
    if _is_pair(value):
        size, all_round = pair(table, run), flag(table, "all_round")
        if not inside:
            return lambda: mitred_moulding(*size, profile, all_round=all_round)
    else:
        outline = read_outline(table, run, value, (run,)) or []
    lies = way_up(table, "across" if inside else "flat")

    def build() -> Any:
        ring = rectangle(*size) if _is_pair(value) else as_ring(outline, run)
        return moulding_around(ring, profile, inside=inside, lies=lies)

    return renamed(build, {"width": run, "height": run})


def _along(table: Table, profile: list[list[float]]) -> Any:
    from shapes.mouldings import moulding_along

    what = "the points of a line, [x, y] or [x, y, rise]"
    line = rows_of_lengths(table, "along", (2, 3), what, LINE_EXAMPLE)
    lies = way_up(table, "flat")
    return renamed(lambda: moulding_along(line, profile, lies=lies), {"line": "along"})
