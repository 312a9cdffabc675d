"""Legs that lean with both ends sawn level: the key `splay` of a leg."""

from collections.abc import Callable
from typing import Any

from shapes.solids import Solid
from shapes.transforms import TOWARDS
from surfacecalc.problems import listing
from surfacecalc.reading.solids.solid_plans import SolidPlan, optional_size
from surfacecalc.reading.tables import Table

SPLAYED_FORMS = ("square", "tapered", "round", "turned", "spindle")
SPLAY_EXAMPLE = "{ left = 8, front = 10 }"


def with_splay(
    table: Table, form: str, plan: SolidPlan, profile: Callable[[], list[list[Any]]]
) -> SolidPlan:
    """Return the plan of a leg, splayed if its table says so.

    Args:
        table: the leg's table.
        form: its form.
        plan: of the upright leg.
        profile: reads the profile of a turned leg.
    """
    keys = (*plan.keys, "splay")
    if "splay" not in table:
        return SolidPlan(keys if form in SPLAYED_FORMS else plan.keys, plan.build)
    splay = _splay(table)
    if form not in SPLAYED_FORMS:
        table.refuse(
            "splay", f"does not go with a {form} leg; use it with {listing(SPLAYED_FORMS)}"
        )
    depth, foot = optional_size(table, "depth"), optional_size(table, "foot")

    def build() -> Solid:
        from shapes.splayed_legs import splayed_leg, splayed_round_leg, splayed_turned_leg

        if form in ("turned", "spindle"):
            usual = "smooth" if form == "spindle" else "straight"
            between = table.values.get("between", usual)
            return splayed_turned_leg(profile(), splay=splay, between=between)
        height, width = table.size_mm("height"), table.size_mm("width")
        if form == "round":
            return splayed_round_leg(height, width, splay=splay)
        return splayed_leg(height, width, depth, splay=splay, foot=foot)

    return SolidPlan(keys, build)


def _splay(table: Table) -> dict[str, float]:
    """Return where the foot goes, and how far [degrees]."""
    inner = table.table("splay", SPLAY_EXAMPLE)
    if inner is None:
        return {}
    inner.only(TOWARDS)
    found = {
        side: float(inner.number(value, side) or 0)
        for side, value in inner.values.items()
        if side in TOWARDS
    }
    if not found and inner.is_sound:
        inner.mend(f"has no direction; write it like splay = {SPLAY_EXAMPLE}, in degrees")
    return found
