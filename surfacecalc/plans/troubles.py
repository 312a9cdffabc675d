"""What makes a plan impossible: each one clear line with its place in the file."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby

from surfacecalc.model.workshop import DEFAULT_HOURS, Workshop
from surfacecalc.plans.heuristics import in_turn
from surfacecalc.plans.hours import WorkingHours, time_of
from surfacecalc.plans.schedule import Shop
from surfacecalc.plans.tasks import Task
from surfacecalc.problems import Problem, listing
from surfacecalc.work.task_words import format_day, format_hours

LONGEST_YEARS = 10
LONGEST_MIN = LONGEST_YEARS * 365 * 24 * 60

Tasks = Mapping[str, tuple[Task, ...]]


def check_order(tasks: Tasks) -> Iterator[Problem]:
    """Yield the zones that wait for each other for ever."""
    waits_for = {
        chain: dict.fromkeys(other for task in own for other in task.follows)
        for chain, own in tasks.items()
    }
    told: set[str] = set()
    for chain in tasks:
        circle = _circle(waits_for, chain)
        if circle and not told & set(circle):
            told |= set(circle)
            yield _circle_told(tasks, circle)


def _circle_told(tasks: Tasks, circle: Sequence[str]) -> Problem:
    """Return what is wrong where chains wait for each other, in the words of their zones."""
    places = [place for place, _ in groupby(tasks[chain][0].place for chain in circle)]
    line = next(task.line for task in tasks[circle[0]] if circle[1] in task.follows)
    where = f'zone "{tasks[circle[0]][0].zone}"'
    if all(len(task.zones) == 1 for chain in circle for task in tasks[chain]):
        path = ", which waits for ".join(f'"{name}"' for name in places[1:])
        message = f"waits for {path}: each is waiting for another; remove one name from after"
        return Problem("mend", line, where, message)
    found = [task.line for chain in circle for task in tasks[chain] if task.also]
    lines = listing(str(line) for line in sorted(set(found)))
    message = (
        f"can never begin: the session of line {lines} takes in zones that wait for each other; put"
        " the steps of these zones in the same order, or remove a name from after"
    )
    return Problem("mend", line, where, message)


def check_stretches(tasks: Tasks, hours: WorkingHours, workshop: Workshop) -> Iterator[Problem]:
    """Yield the tasks that cannot be stopped and are longer than any working hours, by step."""
    told: set[tuple[str, int]] = set()
    for chain in tasks.values():
        for task in chain:
            zone = task.place
            longest = hours.longest
            fits = task.can_pause or longest is None or task.unbroken_min <= longest
            if fits or longest is None or (zone, task.step) in told:
                continue
            told.add((zone, task.step))
            work = format_hours(task.unbroken_min / 60)
            whose = "" if workshop.windows else f" ({DEFAULT_HOURS}, assumed)"
            whose += ", time over closing included" if workshop.over_min else ""
            yield Problem(
                "mend",
                task.line,
                f'zone "{zone}" step {task.step}',
                f"{task.words} needs {work} without a break, and the"
                f" longest working hours are {format_hours(longest / 60)}{whose}; give longer hours"
                " in [workshop] or a faster rate, or split the zone in two",
            )


def check_length(shop: Shop, workshop: Workshop) -> Problem | None:
    """Return what is wrong where even one zone after the other takes many years."""
    latest = shop.start + LONGEST_MIN
    if shop.hours.opening(shop.start) > latest:
        message = (
            f"closed leaves no day to work within {LONGEST_YEARS} years of"
            f" {format_day(time_of(shop.start))}; check its dates"
        )
        return Problem("mend", workshop.line, "workshop", message)
    finish = shop.finish(in_turn(shop))
    if finish is None or finish <= latest:
        return None
    what = "hours, closed" if workshop.closed else "hours"
    message = (
        f"the work would take more than {LONGEST_YEARS} years; check {what}, and every time, rate"
        " and wait"
    )
    return Problem("mend", workshop.line, "workshop", message)


def _circle(waits_for: Mapping[str, Mapping[str, None]], zone: str) -> list[str]:
    """Return the zones on the way from a zone back to itself, or nothing."""
    came_from: dict[str, str] = {}
    coming = [zone]
    while coming:
        at = coming.pop(0)
        for other in waits_for.get(at, {}):
            if other == zone:
                return _way_back(came_from, zone, at)
            if other not in came_from:
                came_from[other] = at
                coming.append(other)
    return []


def _way_back(came_from: Mapping[str, str], zone: str, last: str) -> list[str]:
    way = [zone]
    while last != zone:
        way.append(last)
        last = came_from[last]
    return [*way, zone][::-1]
