"""From the steps of each zone to tasks: one coat, one grit, one pass, in words and hours."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from surfacecalc.model.inputs import Input
from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Factor, Range
from surfacecalc.model.step_facts import coat_of, masking_of, trial_of
from surfacecalc.model.steps import Step
from surfacecalc.plans.dust import dust_of, wet_of
from surfacecalc.plans.rounded_minutes import work_min
from surfacecalc.plans.waits import Wait, waits
from surfacecalc.work.rates import Sort, usual_set_up
from surfacecalc.work.sittings import Sitting, sittings
from surfacecalc.work.task_words import GritPass
from surfacecalc.zones.areas import Measured, ZoneArea
from surfacecalc.zones.worked_surfaces import share_of_session


@dataclass(frozen=True)
class Task:
    """One thing to do in one zone, without a break but for closing time.

    Attributes:
        zone: the zone.
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
        grit_pass: the pass that it is with one grit, None for anything else.
        pieces: how many pieces of a set it goes over, one after the other.
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
    grit_pass: GritPass | None = None
    pieces: int = 1

    @property
    def may_stop(self) -> bool:
        """Whether it may stop at closing time: anywhere, or after any piece of a set."""
        return self.can_pause or self.pieces > 1

    @property
    def unbroken_min(self) -> int:
        """What of it must be done without a break, if it cannot stop anywhere [min]."""
        return work_min(self.work_h / self.pieces + self.set_up_h)

    @property
    def work_min(self) -> int:
        """Hands-on time, with set-up and clean-up, as it is planned [min]."""
        return work_min(self.work_h + self.set_up_h)

    @property
    def hands_on_h(self) -> float:
        """Hands-on time, with set-up and clean-up, as it is planned [h]."""
        return self.work_min / 60


def tasks_of(piece: Piece, measured: Measured) -> dict[str, tuple[Task, ...]]:
    """Return the tasks of each zone, in their order; none for a zone that is left as it is."""
    return {zone.zone.name: tuple(_of_zone(piece, measured, zone)) for zone in measured.zones}


def hands_on_h(piece: Piece, measured: Measured) -> float:
    """Return the hands-on time of the whole job, set-up and clean-up with it [h]."""
    tasks = tasks_of(piece, measured)
    return sum(task.work_min for zone in tasks.values() for task in zone) / 60


def _of_zone(piece: Piece, measured: Measured, zone: ZoneArea) -> Iterator[Task]:
    number = 0
    after: tuple[str, ...] = ()
    for step_number, (step, found) in enumerate(_sittings_by_step(piece, measured, zone), start=1):
        after += step.work.after
        for sitting, wait in zip(found, waits(piece, step, found), strict=True):
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
                set_up_h=set_up.range.likely * sitting.share,
                wait=wait,
                can_pause=sitting.can_pause,
                dust=dust_of(step, sitting),
                wet=wet_of(step, sitting),
                after=after,
                rests=(*sitting.rests, set_up, *wait.rests),
                grit_pass=sitting.grit_pass,
                pieces=1 if trial_of(step) else piece.settings.count,
            )
            after = ()  # it holds for the first task; of a step without any, for the next


def _sittings_by_step(
    piece: Piece, measured: Measured, zone: ZoneArea
) -> list[tuple[Step, list[Sitting]]]:
    """Return the steps of a zone and what is done in each; the tape comes off with a last coat."""
    steps = zone.zone.steps
    shares = [share_of_session(zone, step, measured.zones) for step in steps]
    found = [
        (step, list(sittings(piece, zone, step, share)))
        for step, share in zip(steps, shares, strict=True)
    ]
    for place in _tape_comes_off(found):
        of_step = found[place][1]
        of_step[-1] = replace(of_step[-1], words=f"{of_step[-1].words}, then take the tape off")
    return found


def _tape_comes_off(found: Sequence[tuple[Step, list[Sitting]]]) -> Iterator[int]:
    """Yield the places of the steps whose last coat the tape comes off with, while it is soft.

    It is the last coat on the zone before it is masked again, or the last of all.
    """
    is_taped, last_coat = False, None
    for place, (step, of_step) in enumerate(found):
        coat = coat_of(step)
        if masking_of(step) and of_step:
            if last_coat is not None:
                yield last_coat
            is_taped, last_coat = True, None
        elif is_taped and coat is not None and coat.hardware is None:
            last_coat = place
    if last_coat is not None:
        yield last_coat


def _set_up(piece: Piece, sitting: Sitting) -> Factor:
    written = piece.workshop.set_up_h
    if written is None:
        return usual_set_up(sitting.sort)
    return Factor(Input("set-up", where="workshop"), Range.fixed(written), "piece file", unit="h")
