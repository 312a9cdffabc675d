"""When a job is over in nine of ten cases, and how many hours it takes.

The plan is run again with drawn times (`time_draws`): the same order of tasks, the same working
hours, closed days and changes of the clock. Nobody changes the order of the work because a coat
dries slowly, so no run looks for a better one.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

import numpy as np

from surfacecalc.closeness import whole_up
from surfacecalc.needs.draws import HIGH_POINT, LOW_POINT
from surfacecalc.plans.assumed_hours import WORKED
from surfacecalc.plans.hours import time_of
from surfacecalc.plans.rounded_minutes import Minutes, wait_min, work_min
from surfacecalc.plans.schedule import Operation, Order, Shop
from surfacecalc.plans.tasks import Task
from surfacecalc.plans.time_draws import TimeDraws

CASES = 0.9
"""Share of the cases in which a date holds."""
RUNS = 200
"""How often the plan is run again: from seed to seed the time to a date moves by up to 5 %."""
HOURS_DRAWN = 5_000
"""Draws of the hours, which need no run: their ends move by less than 1 % from seed to seed."""


@dataclass(frozen=True)
class Course:
    """What a plan was made from.

    Attributes:
        tasks: of each zone, in their order.
        shop: the same as jobs with their likely times.
        order: the zone of each next task.
    """

    tasks: Mapping[str, Sequence[Task]]
    shop: Shop
    order: Order


@dataclass(frozen=True)
class LikelyEnds:
    """By when a job is over in nine of ten cases; times are never before those of the plan.

    Attributes:
        worked: the last hand is laid on.
        handled: all can be handled.
        delivered: the first working hours after that.
        used: all can be used.
        low_h: hands-on time that one case in twenty stays below [h].
        high_h: hands-on time that one case in twenty goes beyond [h].
    """

    worked: datetime
    handled: datetime
    delivered: datetime
    used: datetime
    low_h: float
    high_h: float


def likely_ends(
    course: Course, planned: Sequence[datetime], runs: int = RUNS, seed: int = 1
) -> LikelyEnds:
    """Return by when a job is over in nine of ten cases.

    Args:
        course: what the plan was made from.
        planned: what the plan says of the four dates of `LikelyEnds`, in their order.
        runs: how often the plan is run again.
        seed: changes all draws.
    """
    points = (time_of(_point(found, CASES)) for found in _ends(course, TimeDraws(runs, seed)))
    worked, handled, delivered, used = map(max, points, planned)
    minutes = _work_min(course, TimeDraws(HOURS_DRAWN, seed))
    low, high = (_point(minutes, share) / 60 for share in (LOW_POINT, HIGH_POINT))
    return LikelyEnds(worked, handled, delivered, used, low, high)


def _point(found: Iterable[int], share: float) -> int:
    """Return the least value that a share of the cases does not go beyond."""
    ordered = sorted(found)
    return ordered[whole_up(share * len(ordered)) - 1]


def _work_min(course: Course, draws: TimeDraws) -> list[int]:
    """Return the hands-on time of the whole job in each draw [min]."""
    tasks = (task for chain in course.tasks.values() for task in chain)
    total = sum((_drawn_work(task, draws) for task in tasks), np.zeros(draws.count, np.int64))
    return [int(minutes) for minutes in total]


def _drawn_work(task: Task, draws: TimeDraws) -> Minutes:
    timed = next(factor for factor in task.rests if factor.what.quantity in WORKED)
    set_up = next(factor for factor in task.rests if factor.what.quantity == "set-up")
    work_h = task.work_h * draws.work_times(timed, task.sort)
    return work_min(work_h + task.set_up_h * draws.work_times(set_up, task.sort))


def _ends(course: Course, draws: TimeDraws) -> Iterable[Iterable[int]]:
    """Return the four moments of `LikelyEnds`, each in all runs."""
    chains = [
        [_drawn(task, job, draws) for task, job in zip(tasks, jobs, strict=True)]
        for tasks, jobs in zip(course.tasks.values(), course.shop.chains, strict=True)
    ]
    runs = (
        replace(course.shop, chains=tuple(tuple(drawn[run] for drawn in chain) for chain in chains))
        for run in range(draws.count)
    )
    return zip(*(_ends_of_run(shop, course.order) for shop in runs), strict=True)


def _drawn(task: Task, job: Operation, draws: TimeDraws) -> list[Operation]:
    """Return a job of the plan as it is in each run."""
    waits = (task.wait.next, task.wait.handled, task.wait.used)
    minutes = (_drawn_work(task, draws), *(wait_min(draws.hours(times)) for times in waits))
    return [
        Operation(work, wait, done, job.can_pause, job.after, used)
        for work, wait, done, used in zip(*(one.tolist() for one in minutes), strict=True)
    ]


def _ends_of_run(shop: Shop, order: Order) -> tuple[int, int, int, int]:
    """Return the four moments of `LikelyEnds` in one run, moment by moment."""
    later = shop.clock.later
    worked = handled = used = shop.start
    for job, _, end in shop.course(order):
        worked = max(worked, end)
        handled = max(handled, later(end, job.done))
        used = max(used, later(end, job.used))
    return worked, handled, shop.hours.opening(handled), used
