"""One pair of hands, chains of jobs with waits between them, and the hours there are.

An order names the chain of each next job. Every job begins as soon as its chain, the chains it
follows, the hands and the hours allow, so the order says everything; and since nothing gets better
by beginning later, the best order is the best plan. What makes dust waits until every film that
other chains left on the same body is dry; when a chain sands its own films its waits say.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from surfacecalc.plans.clock_changes import UNCHANGED, LocalClock
from surfacecalc.plans.hours import WorkingHours

Order = tuple[int, ...]


@dataclass(frozen=True)
class Operation:
    """One thing to do.

    Attributes:
        work: hands-on [min].
        wait: until the next job of its chain [min].
        done: until what was done can be handled [min].
        used: until what was done can be used [min].
        can_pause: whether it may stop at closing time and go on later.
        after: chains that must be over before, their last wait included.
        parts: the work of each zone, where several are done at one go that cannot pause [min].
        dry: until the film that it leaves is dry [min]; 0 where it leaves none.
        is_dusty: whether it makes dust.
        bodies: numbers of the bodies that it is worked on, where dust must not fall on wet films.
        kind: what is set up for it.
    """

    work: int
    wait: int = 0
    done: int = 0
    can_pause: bool = True
    after: tuple[int, ...] = ()
    used: int = 0
    parts: tuple[int, ...] = ()
    dry: int = 0
    is_dusty: bool = False
    bodies: tuple[int, ...] = ()
    kind: str = ""


@dataclass(frozen=True)
class State:
    """Where the work stands.

    Attributes:
        free: when the hands are free.
        handled: when all that was done so far can be handled.
        counts: how many jobs of each chain are done.
        ready: when the next job of each chain may begin; of a chain that is over, when it is.
        dry: when the films of each chain are dry on each body, body by body.
    """

    free: int
    handled: int
    counts: tuple[int, ...]
    ready: tuple[int, ...]
    dry: tuple[int, ...] = ()


@dataclass(frozen=True)
class Shop:
    """What is to be done, and when there is time.

    Attributes:
        chains: jobs in the order in which each chain needs them.
        hours: when there is time to work.
        start: when the work may begin.
        clock: adds waits, which are real time, to local time.
    """

    chains: tuple[tuple[Operation, ...], ...]
    hours: WorkingHours
    start: int
    clock: LocalClock = UNCHANGED

    @cached_property
    def bodies(self) -> int:
        """How many bodies there are."""
        numbers = (body for jobs in self.chains for job in jobs for body in job.bodies)
        return max(numbers, default=-1) + 1

    def opening(self) -> State:
        """Return the state before anything is done."""
        start, count = self.start, len(self.chains)
        return State(start, start, (0,) * count, (start,) * count, self._all_dry())

    def is_over(self, state: State, chain: int) -> bool:
        """Whether a chain has no job left."""
        return state.counts[chain] == len(self.chains[chain])

    def candidates(self, state: State) -> list[int]:
        """Return the chains whose next job may be the next of all."""
        return [
            chain
            for chain, jobs in enumerate(self.chains)
            if state.counts[chain] < len(jobs)
            and all(self.is_over(state, other) for other in jobs[state.counts[chain]].after)
        ]

    def run(self, job: Operation, ready: int) -> tuple[int, int]:
        """Return when a job begins and ends that may begin at a moment."""
        if job.parts:
            spans = self.hours.spans(ready, job.parts)
            return spans[0][0], spans[-1][1]
        return self.hours.span(ready, job.work, can_pause=job.can_pause)

    def span(self, state: State, chain: int) -> tuple[int, int]:
        """Return when the next job of a chain begins and ends if it is done next."""
        job = self.chains[chain][state.counts[chain]]
        ready = max(state.free, state.ready[chain], *(state.ready[other] for other in job.after))
        if job.is_dusty:
            ready = max(ready, self._clean(state.dry, job, chain))
        return self.run(job, ready)

    def done(self, state: State, chain: int) -> State:
        """Return the state when the next job of a chain is done."""
        job = self.chains[chain][state.counts[chain]]
        _, end = self.span(state, chain)
        return State(
            free=end,
            handled=max(state.handled, self.clock.later(end, job.done)),
            counts=(*state.counts[:chain], state.counts[chain] + 1, *state.counts[chain + 1 :]),
            ready=(
                *state.ready[:chain],
                self.clock.later(end, job.wait),
                *state.ready[chain + 1 :],
            ),
            dry=self._dry_after(state.dry, job, chain, end),
        )

    def _all_dry(self) -> tuple[int, ...]:
        return (self.start,) * (self.bodies * len(self.chains))

    def _clean(self, dry: tuple[int, ...], job: Operation, chain: int) -> int:
        """Return from when on the dust of a job falls on no wet film of another chain."""
        count = len(self.chains)
        found = self.start
        for body in job.bodies:
            films = dry[body * count : (body + 1) * count]
            found = max((found, *films[:chain], *films[chain + 1 :]))
        return found

    def _dry_after(
        self, dry: tuple[int, ...], job: Operation, chain: int, end: int
    ) -> tuple[int, ...]:
        """Return when all films are dry after a job of a chain that ends at a moment."""
        if not job.dry or not job.bodies:
            return dry
        until, after = self.clock.later(end, job.dry), list(dry)
        for body in job.bodies:
            film = body * len(self.chains) + chain
            after[film] = max(after[film], until)
        return tuple(after)

    def finish(self, order: Sequence[int]) -> int | None:
        """Return when all can be handled; None if a job would come before one it follows."""
        handled, count = self.start, 0
        for job, _, end in self.course(order):
            handled = max(handled, self.clock.later(end, job.done))
            count += 1
        return handled if count == len(order) else None

    def course(self, order: Sequence[int]) -> Iterator[tuple[Operation, int, int]]:
        """Yield each job of an order, when it begins and ends; stops where one must wait for more.

        Written out for speed: many orders are tried, and one order with many draws.
        """
        run, later = self.run, self.clock.later
        free, counts, ready = self.start, [0] * len(self.chains), [self.start] * len(self.chains)
        dry = self._all_dry()
        for chain in order:
            job = self.chains[chain][counts[chain]]
            begin = max(free, ready[chain])
            for other in job.after:
                if counts[other] < len(self.chains[other]):
                    return
                begin = max(begin, ready[other])
            if job.is_dusty:
                begin = max(begin, self._clean(dry, job, chain))
            start, free = run(job, begin)
            counts[chain] += 1
            ready[chain] = later(free, job.wait)
            dry = self._dry_after(dry, job, chain, free)
            yield job, start, free
