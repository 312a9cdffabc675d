"""Steps about hardware belong to the zones that the hardware is fitted to: `on` of [[hardware]].

A schedule that zones share may take pulls off, fill their holes and refit them; these steps are for
the zones that have the pulls, and the other zones go without.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from surfacecalc.model.pieces import Zone
from surfacecalc.model.shelf import Hardware
from surfacecalc.model.step_supplies import hardware_of
from surfacecalc.model.steps import Step
from surfacecalc.problems import Problem, listing, suggestion
from surfacecalc.reading.tables import Table

Draft = tuple[Table, Zone]


def with_fitted_hardware(
    drafts: Sequence[Draft], hardware: Mapping[str, Hardware], names: Sequence[str]
) -> list[Draft]:
    """Return the zones without the steps about hardware that other zones have.

    Args:
        drafts: zones, each with its table; mistakes are recorded there.
        hardware: by name.
        names: of all zones of the file, also of those with a mistake.
    """
    for table, _ in drafts[:1]:
        table.context.problems.extend(_unknown_zones(hardware, names))
    kept = {
        step.line for _, zone in drafts for step in zone.steps if _is_here(step, zone, hardware)
    }
    lost: dict[int, Problem] = {}
    found = []
    for table, zone in drafts:
        steps = tuple(step for step in zone.steps if _is_here(step, zone, hardware))
        found.append((table, replace(zone, steps=steps)))
        for step in zone.steps:
            if step.line not in kept:
                lost.setdefault(step.line, _lost(step, zone, hardware))
    if drafts:
        drafts[0][0].context.problems.extend(lost.values())
    return found


def zones_fitted(step: Step, hardware: Mapping[str, Hardware]) -> tuple[str, ...]:
    """Return the zones that the hardware of a step is fitted to; empty where none is named."""
    named = [hardware[name] for name in hardware_of(step) if name in hardware]
    if not named or not all(one.on for one in named):
        return ()
    return tuple(dict.fromkeys(zone for one in named for zone in one.on))


def _is_here(step: Step, zone: Zone, hardware: Mapping[str, Hardware]) -> bool:
    fitted = zones_fitted(step, hardware)
    return not fitted or zone.name in fitted


def _unknown_zones(hardware: Mapping[str, Hardware], names: Sequence[str]) -> Iterator[Problem]:
    for one in hardware.values():
        for name in one.on:
            if name not in names:
                message = f'on = "{name}" is not a zone in this file; {suggestion(name, names)}'
                yield Problem("mend", one.line, f'hardware "{one.name}"', message)


def _lost(step: Step, zone: Zone, hardware: Mapping[str, Hardware]) -> Problem:
    """Return the mistake of a step about hardware that no zone with this step has."""
    on = listing(f'"{name}"' for name in zones_fitted(step, hardware))
    what = " and ".join(hardware_of(step))
    message = (
        f"is about {what}, which on = {on} puts on another zone; move the step there, or change"
        f" on at [[hardware]]"
    )
    return Problem("mend", step.line, f'zone "{zone.name}"', message)
