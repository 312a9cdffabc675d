"""Posts with their corners taken off: octagonal and chamfered legs."""

from surfacecalc.reading.solids.solid_plans import SolidPlan, optional_size
from surfacecalc.reading.tables import Table

STOPS = ("square", "plain", "lamb's tongue")
STOPS_EXAMPLE = "[100, 600]"


def octagonal_plan(table: Table) -> SolidPlan:
    """Read an octagonal leg, straight or tapered."""
    from shapes.chamfered_legs import octagonal_leg

    height, width = table.size_mm("height"), table.size_mm("width")
    foot = optional_size(table, "foot")
    return SolidPlan(("height", "width", "foot"), lambda: octagonal_leg(height, width, foot=foot))


def chamfered_plan(table: Table) -> SolidPlan:
    """Read a square leg with chamfered corners."""
    from shapes.chamfered_legs import chamfered_leg

    height, width, chamfer = (table.size_mm(key) for key in ("height", "width", "chamfer"))
    depth = optional_size(table, "depth")
    stops = _stops(table)
    stop, length = _stop(table)
    return SolidPlan(
        ("height", "width", "depth", "chamfer", "stops", "stop", "stop_length"),
        lambda: chamfered_leg(
            height,
            width,
            depth,
            chamfer=chamfer,
            stops=stops,
            stop_length=length,
            is_tongue=stop == STOPS[2],
        ),
    )


def _stops(table: Table) -> list[float] | None:
    """Return where the chamfer begins and ends [mm], None where it runs the whole height."""
    right = table.context.example(f"stops = {STOPS_EXAMPLE}")
    if "stops" not in table:
        for key in ("stop", "stop_length"):
            if key in table:
                table.mend(f"has {key} but no stops; add the heights of both ends, {right}", key)
        return None
    value = table.values["stops"]
    if not isinstance(value, list) or len(value) != 2:
        table.refuse("stops", f"must be two heights, where the chamfer begins and ends: {right}")
        return None
    return [table.length_mm(item, "stops", k) or 0.0 for k, item in enumerate(value)]


def _stop(table: Table) -> tuple[str, float]:
    """Return the form and the length of the stops [mm]."""
    length = optional_size(table, "stop_length")
    if "stop" not in table:
        return STOPS[0 if length is None else 1], length or 0.0
    stop = table.choice("stop", STOPS)
    if stop == STOPS[0] and length is not None:
        table.mend("has a stop_length, but a square stop has none; take it out", "stop_length")
    elif stop != STOPS[0]:
        length = table.size_mm("stop_length")
    return stop, length or 0.0
