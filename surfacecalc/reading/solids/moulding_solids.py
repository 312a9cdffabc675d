"""Mouldings: straight, around a box or an outline, inside an opening, or along a line."""

from collections.abc import Callable
from typing import Any

from shapes.solids import Solid
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
            "must have one of these: length; around = [width, depth] of the box it goes around; "
            "opening = [width, height] of the frame it goes inside; or along = the points of the "
            "line it follows"
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
            "has lies, but a straight moulding and one with around = [width, depth] always lie "
            "flat; remove lies, and tilt the part with lean",
            "lies",
        )


def _is_pair(value: Any) -> bool:
    """Whether a value is meant as two lengths, and not as an outline."""
    if isinstance(value, list):
        return not any(isinstance(item, list) for item in value)
    return not isinstance(value, dict)


def _around(table: Table, run: str, profile: list[list[float]]) -> Callable[[], Solid]:
    """Return how a moulding is built that runs around something, or inside its opening."""
    from shapes.mouldings import mitred_moulding, moulding_around
    from shapes.outline_boards import as_ring
    from shapes.outlines import rectangle

    inside, value = run == "opening", table.values[run]
    lies = way_up(table, "across" if inside else "flat")
    size, outline = (0.0, 0.0), None
    if not _is_pair(value):
        outline = read_outline(table, run, value, (run,))
    else:
        size, all_round = pair(table, run), flag(table, "all_round")
        if not inside:
            return lambda: mitred_moulding(*size, profile, all_round=all_round)

    def build() -> Solid:
        ring = rectangle(*size) if outline is None else as_ring(outline, run)
        return moulding_around(ring, profile, inside=inside, lies=lies)

    return renamed(build, {"width": run, "height": run, "outline": run})


def _along(table: Table, profile: list[list[float]]) -> Callable[[], Solid]:
    """Return how a moulding is built that follows an open line."""
    from shapes.mouldings import moulding_along

    what = "the points of a line, [x, y] or [x, y, rise]"
    line = rows_of_lengths(table, "along", (2, 3), what, LINE_EXAMPLE)
    lies = way_up(table, "flat")
    named = {"line": "along", "outline": "along"}
    return renamed(lambda: moulding_along(line, profile, lies=lies), named)
