"""Tape that goes on a zone which is not finished: it lifts a soft film, and work goes on under it.

The order of the work stays, since the file says it; the plan tells where it happens and what to
write. Common practice: tape goes on what is finished and hard.
"""

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from surfacecalc.model.step_facts import coat_of, masking_of, unmasking_of
from surfacecalc.model.steps import Mask
from surfacecalc.work.task_words import format_moment
from surfacecalc.zones.areas import Measured, ZoneArea
from surfacecalc.zones.masked_lines import masked_zones

if TYPE_CHECKING:  # which asks this module
    from surfacecalc.plans.plan import PlanEntry

WORKED_ON = ("coat", "sand", "wash")
"""What tape does not stay clean and tight under."""


def remarks_on_tape(measured: Measured, entries: Sequence["PlanEntry"]) -> Iterator[str]:
    """Yield where tape goes on a wet film, or on a zone that is worked on before it comes off.

    Args:
        measured: the areas of the piece.
        entries: the tasks of a plan, in the order in which they are done.
    """
    zones = {zone.zone.name: zone for zone in measured.zones}
    for taped in entries:
        zone = zones[taped.task.zone]
        mask = masking_of(zone.zone.steps[taped.task.step - 1])
        if mask is not None:
            yield from _on(zone, mask, taped, entries)


def _on(
    zone: ZoneArea, mask: Mask, taped: "PlanEntry", entries: Sequence["PlanEntry"]
) -> Iterator[str]:
    off = _comes_off(zone, taped, entries)
    for name in masked_zones(zone, mask):
        beside = [one for one in entries if name in one.task.zones and not one.task.off]
        wet = [one for one in beside if one.task.wet and one.starts < taped.starts < one.next_from]
        under = [
            one
            for one in beside
            if one.task.sort in WORKED_ON
            and zone.zone.name not in one.task.zones
            and taped.starts < one.starts < off.starts
        ]
        # zones that later share a coat cannot wait for each other's end
        shares = any({name, zone.zone.name} <= set(one.task.zones) for one in entries)
        if not wet and (shares or not under):
            continue
        why = f"is worked on before that tape comes off {format_moment(off.ends)}"
        if wet:
            why = f"is not dry until {format_moment(wet[-1].next_from)}"
        text = f'Tape goes on "{name}" {format_moment(taped.starts)}, which {why}.'
        if not shares:
            text += (
                f' To finish "{name}" first, add after = ["{name}"] to the mask step (line'
                f" {mask.line})."
            )
        yield text


def _comes_off(zone: ZoneArea, taped: "PlanEntry", entries: Sequence["PlanEntry"]) -> "PlanEntry":
    """Return the task with which tape comes off a zone: an unmask step, or its last coat."""
    last = taped
    for one in entries:
        if zone.zone.name not in one.task.zones or one.starts <= taped.starts or one.task.off:
            continue
        step = zone.zone.steps[one.task.step - 1] if one.task.zone == zone.zone.name else None
        if step is not None and unmasking_of(step):
            return one
        if step is not None and masking_of(step):
            break
        coat = coat_of(step) if step is not None else None
        if coat is not None and coat.hardware is None:
            last = one
    return last
