"""Where in a plan a lead test belongs: before an old finish is first sanded or stripped."""

import re
from typing import TYPE_CHECKING

from surfacecalc.cautions.old_coatings import zones_with_lead
from surfacecalc.model.pieces import Piece, Zone
from surfacecalc.model.step_facts import handwork_of, wears_coating

if TYPE_CHECKING:
    from surfacecalc.plans.plan import Plan

LEAD_TEST = "Test the old finish for lead (see Safety)"
TaskKey = tuple[str, int]
"""The zone of a task, and its number in it."""


def tasks_after_lead_test(piece: Piece, plan: "Plan") -> frozenset[TaskKey]:
    """Return the first task of each zone that wears off an old finish which may contain lead.

    A zone whose schedule has a lead test of its own needs no other.
    """
    zones = {zone.name: zone for zone in untested_zones(piece)}
    found: dict[str, int] = {}
    for entry in plan.entries:
        task = entry.task
        zone = zones.get(task.zone)
        if zone is not None and wears_coating(zone.steps[task.step - 1]):
            found[zone.name] = min(task.number, found.get(zone.name, task.number))
    return frozenset(found.items())


def untested_zones(piece: Piece) -> list[Zone]:
    """Return the zones with an old finish that is worn off and that nobody tests for lead first."""
    if piece.settings.lead is not None:
        return []
    return [zone for zone in zones_with_lead(piece) if not _is_tested(zone)]


def _is_tested(zone: Zone) -> bool:
    """Whether a zone is tested for lead before it is worn: a step does so or uses a lead test."""
    for step in zone.steps:
        done = handwork_of(step)
        words = [*step.work.uses, *([done.what] if done else [])]
        if any(re.search(r"\blead\b", one.lower()) for one in words):
            return True
        if wears_coating(step):
            return False
    return False
