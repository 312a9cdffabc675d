"""Of the orders that are over equally soon, the one with the best merits.

On a small job every order is compared, on a larger one those that moving a job gives.
"""

import random
from dataclasses import dataclass, field

from surfacecalc.plans.bounds import Bounds
from surfacecalc.plans.heuristics import SEED, moved
from surfacecalc.plans.merits import Merits, Trail, merits_of
from surfacecalc.plans.schedule import Order, Shop, State

MOST_STATES = 2_000
"""States looked at before the comparison is given up: about a tenth of a second."""
STATES_TIMES_JOBS = 20_000
"""So many fewer where there are many jobs, since each state takes longer."""
LEAST_STATES = 50
MOST_MOVES = 300
"""Jobs moved where not every order can be compared."""
MOVES_TIMES_JOBS = 6_000
MOVED_UP_TO = 200
"""Jobs up to which any are moved."""

Seen = dict[tuple[object, ...], Merits]


def best_merits(shop: Shop, bounds: Bounds, order: Order) -> Order:
    """Return an order that is over no later than a given one and has the best merits found."""
    search = _Search(shop, bounds, order)
    if search.is_done():
        return search.order
    return _moved_about(shop, search.order)


@dataclass
class _Search:
    """Goes through the orders that are over as soon as one that is known.

    Attributes:
        shop: what is to be done.
        bounds: how soon it can be over at best.
        order: the best order so far.
    """

    shop: Shop
    bounds: Bounds
    order: Order
    _seen: Seen = field(default_factory=dict)

    def is_done(self) -> bool:
        """Look for better merits; return whether everything was looked at."""
        finish, best = self.shop.finish(self.order) or 0, merits_of(self.shop, self.order)
        stack: list[tuple[State, Trail, Order]] = [(self.shop.opening(), Trail(), ())]
        states = min(MOST_STATES, STATES_TIMES_JOBS // max(1, len(self.order)))
        for _ in range(max(LEAST_STATES, states)):
            if not stack:
                return True
            state, trail, done = stack.pop()
            if self._least(state, trail) >= best or self._is_beaten(state, trail):
                continue
            if len(done) == len(self.order):
                best, self.order = trail.merits, done
                continue
            for chain in reversed(self.shop.candidates(state)):
                then = self.shop.done(state, chain)
                if self.bounds.least(then) <= finish:
                    stack.append((then, self._after(trail, state, chain), (*done, chain)))
        return not stack

    def _after(self, trail: Trail, state: State, chain: int) -> Trail:
        job = self.shop.chains[chain][state.counts[chain]]
        return trail.after(self.shop, job, *self.shop.span(state, chain))

    def _least(self, state: State, trail: Trail) -> Merits:
        """Return merits that no order of what is left beats: every kind is set up once at least."""
        dusty, set_ups, days = trail.merits
        left = (jobs[count:] for jobs, count in zip(self.shop.chains, state.counts, strict=True))
        kinds = {job.kind for jobs in left for job in jobs}
        return dusty, set_ups + len(kinds - {trail.kind}), days

    def _is_beaten(self, state: State, trail: Trail) -> bool:
        """Whether the same state was reached with merits as good; else remember these.

        The same jobs are done, and whatever follows begins at the same moments.
        """
        times = tuple(max(at, state.free) for at in (*state.ready, *state.dry, trail.dry))
        key = (state.counts, times, state.free, state.handled, trail.kind, trail.day)
        known = self._seen.get(key)
        if known is not None and known <= trail.merits:
            return True
        self._seen[key] = trail.merits
        return False


def _moved_about(shop: Shop, order: Order) -> Order:
    """Return an order made better by moving one job at a time, over no later than before."""
    if len(order) > MOVED_UP_TO:
        return order
    chance = random.Random(SEED)  # noqa: S311  # nothing secret: it picks what to move
    best, finish, merits = order, shop.finish(order) or 0, merits_of(shop, order)
    for _ in range(min(MOST_MOVES, MOVES_TIMES_JOBS // max(1, len(order)))):
        trial = moved(best, chance)
        found = shop.finish(trial)
        if found is None or found > finish:
            continue
        reached = merits_of(shop, trial)
        if found < finish or reached <= merits:
            best, finish, merits = trial, found, reached
    return best
