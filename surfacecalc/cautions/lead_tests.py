"""Where in a plan a lead test belongs: before an old finish is first sanded or stripped."""

import re
from typing import TYPE_CHECKING

from surfacecalc.cautions.old_coatings import zones_with_lead
from surfacecalc.model.pieces import Piece, Zone
from surfacecalc.model.step_facts import handwork_of, wears_coating
from surfacecalc.work.task_words import TaskKey

if TYPE_CHECKING:
    from surfacecalc.plans.plan import Plan

LEAD_TEST = "Test the old finish for lead (see Safety)"


def tasks_after_lead_test(piece: Piece, plan: "Plan") -> frozenset[TaskKey]:
    """Return the task of each zone before which its old finish is to be tested for lead.

    It is the first of the step that uses a lead test, or else of the first step that wears the old
    finish off. A zone with a step that is the test itself needs no other.
    """
    if piece.settings.lead is not None:
        return frozenset()
    steps = {zone.name: _step_after_test(zone) for zone in zones_with_lead(piece)}
    found: dict[str, int] = {}
    for entry in plan.entries:
        task = entry.task
        if steps.get(task.zone) == task.step:
            found[task.zone] = min(task.number, found.get(task.zone, task.number))
    return frozenset(found.items())


def untested_zones(piece: Piece) -> list[Zone]:
    """Return the zones with an old finish that is worn off and that nobody tests for lead first."""
    if piece.settings.lead is not None:
        return []
    return [zone for zone in zones_with_lead(piece) if not _is_tested(zone)]


def _step_after_test(zone: Zone) -> int | None:
    """Return the number of the step before which a zone is tested; None if a step is the test."""
    for number, step in enumerate(zone.steps, start=1):
        done = handwork_of(step)
        if done and _names_lead(done.what):
            return None
        if wears_coating(step) or any(map(_names_lead, step.work.uses)):
            return number
    return None


def _is_tested(zone: Zone) -> bool:
    """Whether a zone is tested for lead before it is worn: a step does so or uses a lead test."""
    for step in zone.steps:
        done = handwork_of(step)
        if any(map(_names_lead, [*step.work.uses, *([done.what] if done else [])])):
            return True
        if wears_coating(step):
            return False
    return False


def _names_lead(words: str) -> bool:
    return re.search(r"\blead\b", words.lower()) is not None
