"""The plan of a job: every task with its time, and when the piece can be handled and used."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from functools import cached_property

from surfacecalc import clock
from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Factor
from surfacecalc.model.workshop import DEFAULT_WINDOWS, ClosedDays, Window
from surfacecalc.plans.batch_remarks import remarks_on_batches
from surfacecalc.plans.clock_changes import LocalClock, Offset, local_clock
from surfacecalc.plans.drying import remarks_on_air
from surfacecalc.plans.dust import DustCase, DustSpan, dust_cases, remark_on_dust
from surfacecalc.plans.hours import WorkingHours, moment, time_of
from surfacecalc.plans.likely_ends import Course, LikelyEnds, likely_ends
from surfacecalc.plans.rounded_minutes import wait_min
from surfacecalc.plans.rounds import bodies_of, operations, rounds_together
from surfacecalc.plans.rules_cost import RulesCost, rules_cost
from surfacecalc.plans.schedule import Shop
from surfacecalc.plans.search import best_order
from surfacecalc.plans.sessions import Session, sessions, sessions_apart
from surfacecalc.plans.stripping import remarks_on_stripper
from surfacecalc.plans.taped_films import remarks_on_tape
from surfacecalc.plans.tasks import Task, tasks_of
from surfacecalc.plans.tracks import chains_of
from surfacecalc.plans.troubles import LONGEST_MIN, check_length, check_order, check_stretches
from surfacecalc.plans.waits import wet_products
from surfacecalc.problems import Problem
from surfacecalc.zones.areas import Measured


@dataclass(frozen=True)
class PlanEntry:
    """A task in the plan.

    Attributes:
        task: what to do.
        sessions: when, from and to; more than one where it stops at closing time.
        next_from: when the next task of its zone may follow.
        handled_from: when what was done can be handled.
        used_from: when what was done can be used.
    """

    task: Task
    sessions: tuple[tuple[datetime, datetime], ...]
    next_from: datetime
    handled_from: datetime
    used_from: datetime

    @property
    def starts(self) -> datetime:
        """When it begins."""
        return self.sessions[0][0]

    @property
    def ends(self) -> datetime:
        """When it is over."""
        return self.sessions[-1][1]


@dataclass(frozen=True)
class Plan:
    """What to do when.

    Attributes:
        entries: the tasks in the order in which they are done.
        windows: when there is time to work.
        has_own_hours: whether the file says so.
        delivered: the first working hours after all can be handled; None if nothing is to be done.
        course: what it was made from.
        is_shortest: whether it is proven that no plan is over sooner.
        unknown: products whose drying time is not known, so that all may take longer.
        mind: what to watch while it dries.
        assumed: what is assumed, each once.
        has_usual_air: whether the temperature is assumed; then `mind` begins with that.
        rules_cost: how much later all can be handled than where dust may fall on what is wet and
            every zone is worked by itself.
        dust: what to do where dust falls on a wet coat; empty where none does.
        dusty: zone and number of each task whose dust does.
        closed: the closed days from its beginning to delivery, in order.
        clock_changes: the days on which a wait goes over a change of the clock, in order.
    """

    entries: tuple[PlanEntry, ...]
    windows: tuple[Window, ...]
    has_own_hours: bool
    delivered: datetime | None
    course: Course = field(repr=False)
    is_shortest: bool
    unknown: tuple[str, ...]
    mind: tuple[str, ...]
    assumed: tuple[Factor, ...]
    has_usual_air: bool
    rules_cost: RulesCost
    dust: str
    dusty: frozenset[tuple[str, int]]
    closed: tuple[ClosedDays, ...]
    clock_changes: tuple[date, ...]

    @cached_property
    def likely_ends(self) -> LikelyEnds | None:
        """By when it is over in nine of ten cases; None if nothing is to be done."""
        planned = [self.worked, self.handled, self.delivered, self.used]
        known = [time for time in planned if time is not None]
        return likely_ends(self.course, known) if self.entries else None

    @property
    def hands_on_h(self) -> float:
        """Hands-on time, set-up and clean-up with it; the sum of its tasks [h]."""
        return sum(entry.task.work_min for entry in self.entries) / 60

    @property
    def set_up_h(self) -> float:
        """Time for set-up and clean-up [h]."""
        return sum(entry.task.set_up_h for entry in self.entries)

    @property
    def days(self) -> int:
        """On how many days there is something to do."""
        return len({start.date() for entry in self.entries for start, _ in entry.sessions})

    @property
    def worked(self) -> datetime | None:
        """When the last hand is laid on; None if nothing is to be done."""
        return max((entry.ends for entry in self.entries), default=None)

    @property
    def handled(self) -> datetime | None:
        """When all can be handled; None if nothing is to be done."""
        return max((entry.handled_from for entry in self.entries), default=None)

    @property
    def used(self) -> datetime | None:
        """When all can be used; None if nothing is to be done."""
        return max((entry.used_from for entry in self.entries), default=None)


def make_plan(
    piece: Piece, measured: Measured, now: datetime, offset: Offset = clock.offset
) -> Plan | list[Problem]:
    """Return the plan of a job, or what must be mended for it.

    Args:
        piece: the piece.
        measured: its areas.
        now: when the work may begin if the file does not say.
        offset: how far the workshop's clock is ahead of UTC; this computer's.
    """
    tasks = chains_of(tasks_of(piece, measured))
    windows = piece.workshop.windows or DEFAULT_WINDOWS
    start = moment(piece.workshop.start or now)
    local = local_clock(start, start + LONGEST_MIN, offset)
    closed = [*map(_span, piece.workshop.closed), *local.missing]
    hours = WorkingHours(windows, closed, over=piece.workshop.over_min)
    problems = [*check_order(tasks), *check_stretches(tasks, hours, piece.workshop)]
    if problems:
        return problems
    bodies = bodies_of(piece, measured)
    chains = rounds_together(piece, tasks)
    kept_clean = {} if piece.workshop.sand_near_wet else bodies
    shop = Shop(operations(chains, kept_clean), hours, start, local)
    too_long = check_length(shop, piece.workshop)
    if too_long:
        return [too_long]
    order, is_shortest = best_order(shop)
    course = Course(chains, shop, order)
    entries = tuple(sorted(_entries(course), key=lambda entry: entry.starts))
    handled = max((moment(entry.handled_from) for entry in entries), default=None)
    cases = dust_cases([one for entry in entries for one in _dust_spans(shop, entry)])
    return Plan(
        entries=entries,
        windows=windows,
        has_own_hours=piece.workshop.windows is not None,
        delivered=None if handled is None else time_of(hours.opening(handled)),
        course=course,
        is_shortest=is_shortest,
        unknown=_unknown(entries),
        mind=tuple(_mind(piece, measured, entries)),
        assumed=_assumed(entries),
        has_usual_air=piece.workshop.temperature_c is None,
        rules_cost=rules_cost(tasks, shop, order),
        dust=remark_on_dust(cases, bodies),
        dusty=frozenset(_makers(cases, entries)),
        closed=tuple(_closed_until(piece, start, hours.opening(handled or start))),
        clock_changes=tuple(_changed_days(local, entries)),
    )


def _span(days: ClosedDays) -> tuple[int, int]:
    return (
        moment(datetime.combine(days.first, time())),
        moment(datetime.combine(days.last, time()) + timedelta(days=1)),
    )


def _closed_until(piece: Piece, start: int, end: int) -> list[ClosedDays]:
    """Return the closed days that a plan from one moment to another goes round."""
    spans = ((days, *_span(days)) for days in piece.workshop.closed)
    found = {days for days, first, last in spans if first < end and start < last}
    return sorted(found, key=lambda days: (days.first, days.last))


def _changed_days(local: LocalClock, entries: tuple[PlanEntry, ...]) -> list[date]:
    """Return the days on which the clock is changed between a task and the next of its zone."""
    spans = [(moment(entry.ends), moment(entry.next_from)) for entry in entries]
    changes = {change.at for span in spans for change in local.changes_between(*span)}
    return [time_of(at).date() for at in sorted(changes)]


def _entries(course: Course) -> Iterator[PlanEntry]:
    coming = [iter(chain) for chain in course.chains]
    for chain, (job, start, end) in zip(
        course.order, course.shop.course(course.order), strict=True
    ):
        tasks = next(coming[chain])
        found = sessions(course.shop, job, start, end)
        apart = sessions_apart(found, [task.work_min for task in tasks])
        for task, of_task in zip(tasks, apart, strict=True):
            yield _entry(course.shop, task, of_task)


def _entry(shop: Shop, task: Task, of_task: Sequence[Session]) -> PlanEntry:
    end, wait = of_task[-1][1], task.wait
    next_from, handled_from, used_from = (
        time_of(shop.clock.later(end, wait_min(hours)))
        for hours in (wait.next_h, wait.handled_h, wait.used_h)
    )
    return PlanEntry(
        task=task,
        sessions=tuple((time_of(one), time_of(other)) for one, other in of_task),
        next_from=next_from,
        handled_from=handled_from,
        used_from=used_from,
    )


def _mind(piece: Piece, measured: Measured, entries: tuple[PlanEntry, ...]) -> Iterator[str]:
    steps = [step for zone in piece.zones for step in zone.steps]
    names = dict.fromkeys(name for step in steps for name in wet_products(step))
    yield from remarks_on_air(piece.workshop, [piece.shelf.products[name] for name in names])
    yield from remarks_on_batches(piece, measured)
    yield from remarks_on_tape(measured, entries)
    yield from remarks_on_stripper(piece, entries)
    if any(len(entry.sessions) > 1 and not entry.task.can_pause for entry in entries):
        yield "Where a coat goes on over closing time, stop between two pieces, never on one."
    unknown = _unknown(entries)
    if unknown:
        yield (
            f"No drying time is known for {', '.join(unknown)}, so no wait is counted. Add dry,"
            " recoat and cure to the product, or wait to the step."
        )


def _makers(cases: list[DustCase], entries: tuple[PlanEntry, ...]) -> Iterator[tuple[str, int]]:
    """Yield zone and number of each task that makes dust while a coat is wet."""
    found = {(dusty.zone, dusty.starts) for dusty, _ in cases}
    for entry in entries:
        if any((place, entry.starts) in found for place in _dust_places(entry.task)):
            yield entry.task.zone, entry.task.number


def _dust_places(task: Task) -> tuple[str, ...]:
    """Return where a task makes dust or is wet: its zones, or the hardware that is off them."""
    return (task.off,) if task.off else task.zones


def _dust_spans(shop: Shop, entry: PlanEntry) -> Iterator[DustSpan]:
    """Yield a task as far as dust goes, once for each of its zones."""
    task = entry.task
    dry_from = shop.clock.later(moment(entry.ends), wait_min(task.wait.dry_h))
    for place in _dust_places(task):
        yield DustSpan(place, entry.starts, task.dust, task.wet, time_of(dry_from))


def _unknown(entries: tuple[PlanEntry, ...]) -> tuple[str, ...]:
    names = dict.fromkeys(name for entry in entries for name in entry.task.wait.unknown)
    return tuple(names)


def _assumed(entries: tuple[PlanEntry, ...]) -> tuple[Factor, ...]:
    rests = {factor.draw_key: factor for entry in entries for factor in entry.task.rests}
    return tuple(factor for factor in rests.values() if factor.source == "assumed")
