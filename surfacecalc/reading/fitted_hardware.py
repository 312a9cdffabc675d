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
    if not drafts:
        return []
    unknown = list(_unknown_zones(hardware, names))
    problems = drafts[0][0].context.problems
    problems.extend(unknown)
    if unknown:
        return list(drafts)  # one wrong name does not make a mistake of each step
    zones = [zone for _, zone in drafts]
    problems.extend(_lost(zones, hardware))
    return [
        (table, replace(zone, steps=tuple(s for s in zone.steps if _is_here(s, zone, hardware))))
        for table, zone in drafts
    ]


def _zones_fitted(step: Step, hardware: Mapping[str, Hardware]) -> tuple[str, ...]:
    """Return the zones that the hardware of a step is fitted to; empty where none is named."""
    named = [hardware[name] for name in hardware_of(step) if name in hardware]
    if not named or not all(one.on for one in named):
        return ()
    return tuple(dict.fromkeys(zone for one in named for zone in one.on))


def _is_here(step: Step, zone: Zone, hardware: Mapping[str, Hardware]) -> bool:
    fitted = _zones_fitted(step, hardware)
    return not fitted or zone.name in fitted


def _unknown_zones(hardware: Mapping[str, Hardware], names: Sequence[str]) -> Iterator[Problem]:
    for one in hardware.values():
        for name in one.on:
            if name not in names:
                message = f'on = "{name}" is not a zone in this file; {suggestion(name, names)}'
                yield Problem("mend", one.line, f'hardware "{one.name}"', message)


def _steps_about(lines: Sequence[int]) -> str:
    where = listing(map(str, lines))
    if len(lines) == 1:
        return f"the step about it (line {where}) is"
    return f"the steps about it (lines {where}) are"


def _zones(names: Sequence[str]) -> str:
    if len(names) == 1:
        return f"zone {names[0]}; name that zone"
    return f"zones {listing(names)}; name one of them"


def _lost(zones: Sequence[Zone], hardware: Mapping[str, Hardware]) -> Iterator[Problem]:
    """Yield hardware that steps are about which none of its zones has."""
    steps = [(step, zone) for zone in zones for step in zone.steps]
    kept = {step.line for step, zone in steps if _is_here(step, zone, hardware)}
    lost = {step.line: step for step, _ in steps if step.line not in kept}
    for one in hardware.values():
        lines = [line for line, step in lost.items() if one.name in hardware_of(step)]
        if lines:
            has = dict.fromkeys(f'"{zone.name}"' for step, zone in steps if step.line in lines)
            on = listing(f'"{name}"' for name in one.on)
            message = (
                f"on = {on}, but {_steps_about(lines)} in {_zones(list(has))} in on, or move the"
                f" step{'s' * (len(lines) > 1)}"
            )
            yield Problem("mend", one.line, f'hardware "{one.name}"', message)
