"""Tasks become jobs: zones of one schedule are worked together, step by step, as one chain.

A round is what is done at one go: the same coat, grit or pass on every zone of a schedule, one zone
after the other. The next round begins when the last of its zones is ready for it.
"""

from collections.abc import Iterable, Mapping, Sequence

from shapes.parts import joined_groups
from surfacecalc.model.pieces import Piece
from surfacecalc.model.step_supplies import hardware_of
from surfacecalc.model.steps import Step
from surfacecalc.plans.rounded_minutes import wait_min
from surfacecalc.plans.schedule import Operation
from surfacecalc.plans.tasks import Task
from surfacecalc.zones.areas import Measured

Round = tuple[Task, ...]
Chain = tuple[Round, ...]
Tasks = Mapping[str, tuple[Task, ...]]


def rounds_together(piece: Piece, tasks: Tasks) -> tuple[Chain, ...]:
    """Return the rounds of each schedule, in the order of the file; zones that share one together.

    A chain that no zone has for itself, such as work on hardware that is off, stays alone.

    Args:
        piece: the piece.
        tasks: of each chain, by its name.
    """
    lines = {zone.name: _lines_on_wood(zone.steps) for zone in piece.zones}
    sharing: dict[tuple[object, ...], list[tuple[Task, ...]]] = {}
    for name, found in tasks.items():
        zone, _, stretch = name.partition("\n")
        schedule = lines.get(zone, ())
        sharing.setdefault((schedule, stretch) if schedule else (name,), []).append(found)
    return tuple(_side_by_side(chains) for chains in sharing.values())


def _lines_on_wood(steps: Sequence[Step]) -> tuple[int, ...]:
    """Return where the steps of a zone stand, without those that are only about its hardware."""
    return tuple(step.line for step in steps if not hardware_of(step))


def rounds_apart(tasks: Tasks) -> tuple[Chain, ...]:
    """Return the tasks of each chain as rounds of one task, every chain by itself."""
    return tuple(tuple((task,) for task in found) for found in tasks.values())


def operations(
    chains: Sequence[Chain], bodies: Mapping[str, tuple[int, ...]]
) -> tuple[tuple[Operation, ...], ...]:
    """Return the rounds as jobs.

    Args:
        chains: the rounds of each chain.
        bodies: on which bodies each zone is, where dust must not fall on wet films.
    """
    place = {task.chain: k for k, chain in enumerate(chains) for one in chain for task in one}
    shared = _shared(chains, bodies)
    return tuple(tuple(_operation(one, place, shared) for one in chain) for chain in chains)


def _shared(
    chains: Sequence[Chain], bodies: Mapping[str, tuple[int, ...]]
) -> dict[str, tuple[int, ...]]:
    """Return the bodies of each zone that another chain works on as well, numbered anew.

    Bodies of the same zones are one: all drawers, for example.
    """
    places: dict[str, set[int]] = {}
    for k, chain in enumerate(chains):
        for zone in (zone for one in chain for task in one for zone in _on_wood(task)):
            places.setdefault(zone, set()).add(k)
    zones: dict[int, list[str]] = {}
    for zone in places:
        for body in bodies.get(zone, ()):
            zones.setdefault(body, []).append(zone)
    alike = dict.fromkeys(tuple(names) for names in zones.values())
    crowded = [names for names in alike if len(set().union(*(places[k] for k in names))) > 1]
    return {
        zone: tuple(number for number, names in enumerate(crowded) if zone in names)
        for zone in places
    }


def _on_wood(task: Task) -> tuple[str, ...]:
    """Return the zones that a task is done on; none for hardware that is off the piece."""
    return () if task.off else task.zones


def bodies_of(piece: Piece, measured: Measured) -> dict[str, tuple[int, ...]]:
    """Return the numbers of the joined bodies that have faces in each zone.

    Parts that are joined are one body; a loose part is one by itself, since it dries elsewhere.
    """
    parts = list(piece.parts)
    body = {parts[k].name: n for n, group in enumerate(joined_groups(parts)) for k in group}
    return {
        zone.zone.name: tuple(sorted({body[face.part] for face in zone.faces if face.area_m2 > 0}))
        for zone in measured.zones
    }


def _side_by_side(chains: Sequence[Sequence[Task]]) -> Chain:
    """Return the rounds of zones whose steps are the same; some may have nothing to mask."""
    rounds: dict[tuple[int, int], list[Task]] = {}
    for found in chains:
        counts: dict[int, int] = {}
        for task in found:
            counts[task.line] = counts.get(task.line, 0) + 1
            rounds.setdefault((task.line, counts[task.line]), []).append(task)
    return tuple(tuple(rounds[key]) for key in sorted(rounds))


def _operation(
    one: Round, place: Mapping[str, int], bodies: Mapping[str, tuple[int, ...]]
) -> Operation:
    works = tuple(task.work_min for task in one)
    can_pause = all(task.may_stop for task in one)
    own = {task.chain for task in one}
    others = (other for task in one for other in task.follows if other not in own)
    return Operation(
        work=sum(works),
        wait=_longest_min(task.wait.next_h for task in one),
        done=_longest_min(task.wait.handled_h for task in one),
        used=_longest_min(task.wait.used_h for task in one),
        can_pause=can_pause,
        after=tuple(dict.fromkeys(place[other] for other in others)),
        parts=() if can_pause or len(works) == 1 else works,
        dry=_longest_min(task.wait.dry_h for task in one if task.wet),
        is_dusty=any(task.dust for task in one),
        bodies=tuple(
            sorted({body for t in one for zone in _on_wood(t) for body in bodies.get(zone, ())})
        ),
        kind=f"{one[0].sort} {one[0].wet}",
    )


def _longest_min(hours: Iterable[float]) -> int:
    return max(map(wait_min, hours), default=0)
