"""From the steps of each zone to tasks: one coat, one grit, one pass, in words and hours."""

from collections.abc import Iterator
from dataclasses import dataclass

from surfacecalc.pieces import Piece
from surfacecalc.plans.hands import Sitting, sittings
from surfacecalc.plans.rates import usual_set_up
from surfacecalc.plans.waits import Wait, waits
from surfacecalc.ranges import Factor, Range
from surfacecalc.steps import Step
from surfacecalc.zones.areas import Measured, ZoneArea


@dataclass(frozen=True)
class Task:
    """One thing to do in one zone, without a break but for closing time.

    Attributes:
        zone: the zone.
        step: number of its step, from 1.
        number: of the task in its zone, from 1.
        line: where the step stands.
        words: what it is.
        work_h: hands-on time [h].
        set_up_h: for setting out and cleaning up [h].
        wait: what comes after it.
        can_pause: whether it may stop at closing time and go on later.
        after: zones that must be over before.
        rests: what its times rest on.
    """

    zone: str
    step: int
    number: int
    line: int
    words: str
    work_h: float
    set_up_h: float
    wait: Wait
    can_pause: bool
    after: tuple[str, ...]
    rests: tuple[Factor, ...]

    @property
    def hands_on_h(self) -> float:
        """Hands-on time, with setting out and cleaning up [h]."""
        return self.work_h + self.set_up_h


def tasks_of(piece: Piece, measured: Measured) -> dict[str, tuple[Task, ...]]:
    """Return the tasks of each zone, in their order; none for a zone that is left as it is."""
    return {zone.zone.name: tuple(_of_zone(piece, zone)) for zone in measured.zones}


def hands_on_h(piece: Piece, measured: Measured) -> float:
    """Return the hands-on time of the whole job, setting out and cleaning up with it [h]."""
    tasks = tasks_of(piece, measured)
    return sum(task.hands_on_h for zone in tasks.values() for task in zone)


def _of_zone(piece: Piece, zone: ZoneArea) -> Iterator[Task]:
    number = 0
    for step_number, step in enumerate(zone.zone.steps, start=1):
        found = list(sittings(piece, zone, step))
        for k, (sitting, wait) in enumerate(zip(found, waits(piece, step, found), strict=True)):
            number += 1
            set_up = _set_up(piece, sitting)
            yield Task(
                zone=zone.zone.name,
                step=step_number,
                number=number,
                line=step.line,
                words=sitting.words,
                work_h=sitting.work_h,
                set_up_h=set_up.range.likely,
                wait=wait,
                can_pause=sitting.can_pause,
                after=_after(step) if k == 0 else (),
                rests=(*sitting.rests, set_up, *wait.rests),
            )


def _after(step: Step) -> tuple[str, ...]:
    return step.work.after


def _set_up(piece: Piece, sitting: Sitting) -> Factor:
    written = piece.workshop.set_up_h
    if written is None:
        return usual_set_up(sitting.sort)
    return Factor("workshop set_up", Range.fixed(written), "piece file")
