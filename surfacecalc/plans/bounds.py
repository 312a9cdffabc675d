"""How soon a job can be over at best, and which jobs are worth doing next."""

from collections.abc import Sequence

from surfacecalc.plans.schedule import Operation, Shop, State


class Bounds:
    """Bounds for one shop; what was worked out once is kept."""

    def __init__(self, shop: Shop) -> None:
        """Make the bounds of a shop."""
        self._shop = shop
        self._alone: dict[tuple[int, int, int], int] = {}
        self._work = [_sums_from([job.work for job in chain]) for chain in shop.chains]
        self._rest = [_sums_from([job.work + job.wait for job in jobs]) for jobs in shop.chains]
        self._next: list[list[tuple[int, int]]] = [[] for _ in shop.chains]
        for chain, jobs in enumerate(shop.chains):
            for count, job in enumerate(jobs):
                for other in job.after:
                    self._next[other].append((chain, count))
        self._dusty = [_dusty_from(jobs) for jobs in shop.chains]
        self._widened = shop.hours.widened()

    def alone(self, state: State, chain: int) -> int:
        """Return when a chain, and what follows it, can be handled if it alone has the hands."""
        at = max(state.free, state.ready[chain])
        return self._run(chain, state.counts[chain], at)

    def rest(self, state: State, chain: int) -> int:
        """Return the work and the waits that are left of a chain, and of what follows it [min]."""
        return self._rest_from(chain, state.counts[chain])

    def dusty_left(self, state: State, chain: int) -> int:
        """Return how many jobs of a chain are left that make dust."""
        return len(self._dusty[chain][state.counts[chain]])

    def least(self, state: State) -> int:
        """Return a moment before which no order of what is left can be over."""
        left = [c for c in range(len(self._shop.chains)) if not self._shop.is_over(state, c)]
        if not left:
            return state.handled
        work = sum(self._work[chain][state.counts[chain]] for chain in left)
        at = max(state.free, min(state.ready[chain] for chain in left))
        last = min(self._shop.chains[chain][-1].done for chain in left)
        hands = self._shop.clock.later(self._widened.end(at, work), last)
        return max(state.handled, hands, *(self.alone(state, chain) for chain in left))

    def worth_trying(self, state: State) -> list[int]:
        """Return the chains of which one is next in some best order.

        A job that begins no sooner than another could be over leaves time for that other one
        before it, so it need not come next; but what leaves a film where dust is still to be made
        must be dry by then as well.
        """
        spans = {chain: self._shop.span(state, chain) for chain in self._shop.candidates(state)}
        over = {chain: self._clear(state, chain, end) for chain, (_, end) in spans.items()}
        soonest = min(over.values(), default=0)
        return [
            chain
            for chain, (start, _) in spans.items()
            if start < soonest or over[chain] == soonest
        ]

    def _clear(self, state: State, chain: int, end: int) -> int:
        """Return from when on a job that ends at a moment keeps no other chain from anything."""
        job = self._shop.chains[chain][state.counts[chain]]
        if not job.dry or not job.bodies:
            return end
        is_awaited = any(
            not bodies.isdisjoint(job.bodies)
            for other, dusty in enumerate(self._dusty)
            if other != chain
            for bodies in dusty[state.counts[other]]
        )
        return max(end, self._shop.clock.later(end, job.dry)) if is_awaited else end

    def _rest_from(self, chain: int, count: int) -> int:
        follows = (self._rest_from(*place) for place in self._next[chain])
        return self._rest[chain][count] + max(follows, default=0)

    def _run(self, chain: int, count: int, at: int) -> int:
        """Return when a chain can be handled whose job `count` may begin at a moment."""
        jobs = self._shop.chains[chain]
        way: list[tuple[tuple[int, int, int], int]] = []
        handled: int | None = 0
        while count < len(jobs):
            key = chain, count, at
            handled = self._alone.get(key)
            if handled is not None:
                break
            job = jobs[count]
            _, end = self._shop.run(job, at)
            way.append((key, self._shop.clock.later(end, job.done)))
            count, at = count + 1, self._shop.clock.later(end, job.wait)
        if count == len(jobs):  # what follows begins when the chain is over, at the soonest
            handled = max((self._run(*place, at) for place in self._next[chain]), default=0)
        found = handled or 0
        for key, end in reversed(way):
            found = self._alone[key] = max(end, found)
        return found


def _sums_from(minutes: list[int]) -> list[int]:
    """Return the sums from each place to the end."""
    sums = [0]
    for more in reversed(minutes):
        sums.append(sums[-1] + more)
    return sums[::-1]


def _dusty_from(jobs: Sequence[Operation]) -> list[list[frozenset[int]]]:
    """Return, from each place to the end, the bodies of each job that makes dust."""
    found: list[list[frozenset[int]]] = [[]]
    for job in reversed(jobs):
        more = [frozenset(job.bodies)] if job.is_dusty else []
        found.append(more + found[-1])
    return found[::-1]
