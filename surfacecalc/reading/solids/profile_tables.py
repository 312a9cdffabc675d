"""Profiles of mouldings and of worked edges, as they are written in a part."""

from collections.abc import Callable, Mapping, Sequence

from shapes.errors import ShapeError
from shapes.solids import Solid
from surfacecalc.reading.shape_rules import obeying
from surfacecalc.reading.solids.solid_plans import flag, rows_of_lengths
from surfacecalc.reading.tables import Table

PROFILE = "a form with its sizes, or points [out, up] from the foot to the top"
PROFILE_EXAMPLE = '{ form = "ogee", depth = 12, height = 15 }'


def worked_edge(table: Table) -> list[list[float]] | None:
    """Return the profile worked on a board's edges [mm], or None where they are square."""
    if "edge_profile" in table:
        return read_profile(table, "edge_profile")
    if "profiled_edges" in table:
        right = table.context.example(PROFILE_EXAMPLE)
        table.mend(
            f"has profiled_edges but no edge_profile; add edge_profile = {right}",
            "profiled_edges",
        )
    return None


def renamed(build: Callable[[], Solid], keys: Mapping[str, str]) -> Callable[[], Solid]:
    """Return a way to build whose mistakes name keys of the file, not arguments of `shapes`."""

    def built() -> Solid:
        try:
            return build()
        except ShapeError as error:
            first, *rest = error.argument.split(" ")
            argument = " ".join([keys.get(first, first), *rest])
            raise ShapeError(argument, error.rule, error.value_mm, error.limit_mm) from None

    return built


def read_profile(table: Table, key: str) -> list[list[float]]:
    """Return a profile given by points, or by its form and sizes [mm]."""
    if not isinstance(table.values.get(key), dict):
        return rows_of_lengths(table, key, (2, 3), PROFILE, PROFILE_EXAMPLE)
    inner = table.inner(table.values[key], (key,))
    from shapes.profiles import flipped

    forms = _profile_forms()
    form = inner.choice("form", forms)
    if inner.values.get("form") != form:
        return []
    build, sizes = forms[form]
    inner.only(("form", "flipped", *sizes))
    lengths = [inner.size_mm(size) for size in sizes]
    upside_down = flag(inner, "flipped")
    profile = obeying(inner, lambda: build(*lengths)) or []
    return flipped(profile) if upside_down and profile else profile


def _profile_forms() -> dict[str, tuple[Callable[..., list[list[float]]], Sequence[str]]]:
    from shapes.profiles import bead, chamfer, cove, ogee, quarter_round

    return {
        "bead": (bead, ("diameter",)),
        "cove": (cove, ("radius",)),
        "ogee": (ogee, ("depth", "height")),
        "quarter round": (quarter_round, ("radius",)),
        "chamfer": (chamfer, ("depth", "height")),
    }
