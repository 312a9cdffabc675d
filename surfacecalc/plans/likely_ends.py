"""When a job is over in nine of ten cases, and how many hours it takes.

The plan is run again with drawn times (`time_draws`): the same order of tasks, the same working
hours, closed days and changes of the clock. Nobody changes the order of the work because a coat
dries slowly, so no run looks for a better one.
"""

import functools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

import numpy as np

from surfacecalc.closeness import whole_up
from surfacecalc.needs.draws import HIGH_POINT, LOW_POINT
from surfacecalc.plans.assumed_hours import WORKED
from surfacecalc.plans.drying import Lasting
from surfacecalc.plans.hours import time_of
from surfacecalc.plans.rounded_minutes import Minutes, wait_min, work_min
from surfacecalc.plans.rounds import Chain, Round
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
        chains: the rounds of each chain, in their order.
        shop: the same as jobs with their likely times.
        order: the chain of each next round.
    """

    chains: Sequence[Chain]
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
    tasks = (task for chain in course.chains for one in chain for task in one)
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
        [_drawn(one, job, draws) for one, job in zip(chain, jobs, strict=True)]
        for chain, jobs in zip(course.chains, course.shop.chains, strict=True)
    ]
    runs = (
        replace(course.shop, chains=tuple(tuple(drawn[run] for drawn in chain) for chain in chains))
        for run in range(draws.count)
    )
    return zip(*(_ends_of_run(shop, course.order) for shop in runs), strict=True)


def _drawn(one: Round, job: Operation, draws: TimeDraws) -> list[Operation]:
    """Return a job of the plan as it is in each run."""
    works = [_drawn_work(task, draws) for task in one]
    wet = [task.wait.dry for task in one if task.wet]
    times = (
        [task.wait.next for task in one],
        [task.wait.handled for task in one],
        wet,
        [task.wait.used for task in one],
    )
    minutes = [sum(works[1:], works[0]), *(_longest(found, draws) for found in times)]
    parts = zip(*(work.tolist() for work in works), strict=True)
    return [
        Operation(
            work, wait, done, job.can_pause, job.after, used, of_zones if job.parts else (),
            dry, job.is_dusty, job.bodies,
        )
        for of_zones, work, wait, done, dry, used in zip(
            parts, *(one.tolist() for one in minutes), strict=True
        )
    ]  # fmt: skip


def _longest(times: Iterable[tuple[Lasting, ...]], draws: TimeDraws) -> Minutes:
    """Return the longest of some waits in each draw [min]."""
    found = (wait_min(draws.hours(one)) for one in times)
    return functools.reduce(np.maximum, found, np.zeros(draws.count, np.int64))


def _ends_of_run(shop: Shop, order: Order) -> tuple[int, int, int, int]:
    """Return the four moments of `LikelyEnds` in one run, moment by moment."""
    later = shop.clock.later
    worked = handled = used = shop.start
    for job, _, end in shop.course(order):
        worked = max(worked, end)
        handled = max(handled, later(end, job.done))
        used = max(used, later(end, job.used))
    return worked, handled, shop.hours.opening(handled), used
