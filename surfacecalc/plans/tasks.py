"""From the steps of each zone to tasks: one coat, one grit, one pass, in words and hours."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from surfacecalc.model.inputs import Input
from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Factor, Range
from surfacecalc.model.step_facts import coat_of, is_one_session, masking_of, trial_of, unmasking_of
from surfacecalc.model.steps import Step
from surfacecalc.model.taped_steps import masks_on
from surfacecalc.needs.spraying import SprayLoad, zone_loads
from surfacecalc.plans.dust import dust_of, wet_of
from surfacecalc.plans.rounded_minutes import work_min
from surfacecalc.plans.stripping import unwashed_strippers
from surfacecalc.plans.tracks import with_tracks
from surfacecalc.plans.waits import Wait, waits
from surfacecalc.work.rates import Sort, usual_set_up
from surfacecalc.work.sittings import Sitting, sittings
from surfacecalc.work.task_words import GritPass
from surfacecalc.zones.areas import Measured, ZoneArea
from surfacecalc.zones.worked_surfaces import share_of_session


@dataclass(frozen=True)
class Task:
    """One thing to do, in one zone or in several at once, without a break but for closing time.

    Attributes:
        zone: the zone, the first one of several.
        step: number of its step, from 1.
        number: of the task in its zone, from 1.
        line: where the step stands.
        words: what it is.
        sort: what set-up and clean-up depend on.
        work_h: hands-on time, not rounded [h].
        set_up_h: for set-up and clean-up, not rounded [h].
        wait: what comes after it.
        can_pause: whether it may stop at closing time and go on later.
        dust: what makes dust in it, such as "sanded"; empty for nothing.
        wet: the product that is wet after it, where dust would stick to it; else empty.
        after: zones that must be over before.
        rests: what its times rest on.
        pieces: how many pieces of a set it goes over, one after the other.
        grit_pass: the pass that it is with one grit, None for anything else.
        spray: what it takes of the spray gun, None for what is not sprayed.
        also: the other zones that it is done in.
        chain: the chain of tasks that it is in; tasks of different chains may go on side by side.
        follows: chains that must be over before.
        off: the hardware that it is about while that is off the piece; else empty.
    """

    zone: str
    step: int
    number: int
    line: int
    words: str
    sort: Sort
    work_h: float
    set_up_h: float
    wait: Wait
    can_pause: bool
    dust: str
    wet: str
    after: tuple[str, ...]
    rests: tuple[Factor, ...]
    pieces: int
    grit_pass: GritPass | None = None
    spray: SprayLoad | None = None
    also: tuple[str, ...] = ()
    chain: str = ""
    follows: tuple[str, ...] = ()
    off: str = ""

    @property
    def may_stop(self) -> bool:
        """Whether it may stop at closing time: anywhere, or after any piece of a set."""
        return self.can_pause or self.pieces > 1

    @property
    def unbroken_min(self) -> int:
        """What of it must be done without a break, if it cannot stop anywhere [min]."""
        return work_min(self.work_h / self.pieces + self.set_up_h)

    @property
    def zones(self) -> tuple[str, ...]:
        """The zones that it is done in."""
        return (self.zone, *self.also)

    @property
    def place(self) -> str:
        """The zones that it is done in, in words."""
        return " and ".join(filter(None, [", ".join(self.zones[:-1]), self.zones[-1]]))

    @property
    def work_min(self) -> int:
        """Hands-on time, with set-up and clean-up, as it is planned [min]."""
        return work_min(self.work_h + self.set_up_h)

    @property
    def hands_on_h(self) -> float:
        """Hands-on time, with set-up and clean-up, as it is planned [h]."""
        return self.work_min / 60


def tasks_of(piece: Piece, measured: Measured) -> dict[str, tuple[Task, ...]]:
    """Return the tasks of each zone, in their order; none for a zone that is left as it is.

    What several zones do in one session is a task of the first of them.
    """
    zones = {zone.zone.name: list(_of_zone(piece, measured, zone)) for zone in measured.zones}
    tracks = with_tracks(piece, measured, zones)
    return {name: tuple(map(_with_cups, own)) for name, own in tracks.items()}


def hands_on_h(piece: Piece, measured: Measured) -> float:
    """Return the hands-on time of the whole job, set-up and clean-up with it [h]."""
    tasks = tasks_of(piece, measured)
    return sum(task.work_min for zone in tasks.values() for task in zone) / 60


def _of_zone(piece: Piece, measured: Measured, zone: ZoneArea) -> Iterator[Task]:
    number, steps = 0, zone.zone.steps
    after: tuple[str, ...] = ()
    for step_number, (step, found) in enumerate(_sittings_by_step(piece, measured, zone), start=1):
        after += step.work.after
        loads = _sprayed(zone_loads(piece, measured, zone, step_number - 1), step, found)
        times = waits(piece, steps, step_number - 1, found)
        share = _share_of_set_up(piece, measured, zone, step)
        for sitting, wait, spray in zip(found, times, loads, strict=True):
            number += 1
            set_up = _set_up(piece, sitting)
            yield Task(
                zone=zone.zone.name,
                step=step_number,
                number=number,
                line=step.line,
                words=sitting.words,
                sort=sitting.sort,
                work_h=sitting.work_h,
                set_up_h=set_up.range.likely * share,
                wait=wait,
                can_pause=sitting.can_pause,
                dust=dust_of(step, sitting),
                wet=wet_of(step, sitting),
                after=after,
                rests=(*sitting.rests, set_up, *wait.rests),
                grit_pass=sitting.grit_pass,
                spray=spray,
                pieces=1 if trial_of(step) else piece.settings.count,
            )
            after = ()  # it holds for the first task; of a step without any, for the next


def _sprayed(
    loads: Sequence[SprayLoad], step: Step, found: Sequence[Sitting]
) -> Iterator[SprayLoad | None]:
    """Yield what each sitting of a step takes of the gun."""
    coming = iter(loads)
    load = next(coming, None)
    for sitting in found:
        if load is None or sitting.is_denib:
            yield None
            continue
        yield load.on_one_side(step.work.sides)
        if not sitting.is_turn:
            load = next(coming, None)


def _with_cups(task: Task) -> Task:
    """Return a task that says how often the cup is filled, for all zones of its session."""
    if task.spray is None or task.spray.fillings is None:
        return task
    cups = f"{task.spray.fillings} {'cup' if task.spray.fillings == 1 else 'cups'}"
    return replace(task, words=f"{task.words}, {cups}")


def _sittings_by_step(
    piece: Piece, measured: Measured, zone: ZoneArea
) -> list[tuple[Step, list[Sitting]]]:
    """Return the steps of a zone and what is done in each.

    The tape comes off with a last coat, and what is left of a stripper once it has worked.
    """
    steps = zone.zone.steps
    shares = [share_of_session(zone, step, measured.zones) for step in steps]
    found = [
        (step, list(sittings(piece, zone, step, share)))
        for step, share in zip(steps, shares, strict=True)
    ]
    for place in _tape_comes_off(found):
        of_step = found[place][1]
        of_step[-1] = replace(of_step[-1], words=f"{of_step[-1].words}, then take the tape off")
    for place, words in unwashed_strippers(piece, steps):
        of_step = found[place][1]
        of_step[-1] = replace(of_step[-1], words=f"{of_step[-1].words}, then {words}")
    return found


def _tape_comes_off(found: Sequence[tuple[Step, list[Sitting]]]) -> Iterator[int]:
    """Yield the places of the steps whose last coat the tape comes off with, while it is soft.

    It is the last coat on the zone before it is masked again, or the last of all.
    """
    is_taped, last_coat = False, None
    still_on = list(masks_on([step for step, _ in found]))
    for place, (step, of_step) in enumerate(found):
        coat = coat_of(step)
        if masking_of(step) and of_step:
            if last_coat is not None:
                yield last_coat
            is_taped, last_coat = True, None
        elif unmasking_of(step) and not still_on[place + 1]:
            is_taped, last_coat = False, None
        elif is_taped and coat is not None and coat.hardware is None:
            last_coat = place
    if last_coat is not None:
        yield last_coat


def _share_of_set_up(piece: Piece, measured: Measured, zone: ZoneArea, step: Step) -> float:
    """Return a zone's share of one set-up, where a step is done on several zones at one go.

    A zone that has nothing to mask needs no set-up for it, and so has no share.
    """
    zones = [
        other
        for other in measured.zones
        if any(is_one_session(one, step) for one in other.zone.steps)
        and any(sittings(piece, other, step, 1.0))
    ]
    return share_of_session(zone, step, zones) if zone in zones else 1.0


def _set_up(piece: Piece, sitting: Sitting) -> Factor:
    written = piece.workshop.set_up_h
    if written is None:
        return usual_set_up(sitting.sort)
    return Factor(Input("set-up", where="workshop"), Range.fixed(written), "piece file", unit="h")
