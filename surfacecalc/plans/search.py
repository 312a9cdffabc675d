"""The shortest order: branch and bound where the job is small, good rules where it is not."""

from surfacecalc.plans.bounds import Bounds
from surfacecalc.plans.heuristics import better_order, good_order
from surfacecalc.plans.schedule import Order, Shop, State
from surfacecalc.plans.tie_breaks import best_merits

MOST_STATES = 4_000
"""States looked at before the search is given up."""
STATES_TIMES_JOBS = 40_000
"""So many fewer where there are many jobs, since each state takes longer: half a second in all."""
LEAST_STATES = 50
SEARCHED_UP_TO = 1_000
"""Jobs up to which orders are tried out; beyond, one rule has to do, so that it stays quick."""


def best_order(shop: Shop) -> tuple[Order, bool]:
    """Return an order of all jobs, and whether it is known that none is over sooner.

    Of those that are over equally soon it is the one with the best merits, as far as is seen.
    """
    order, is_proven = shortest_order(shop)
    if not order or len(order) > SEARCHED_UP_TO:
        return order, is_proven
    return best_merits(shop, Bounds(shop), order), is_proven


def shortest_order(shop: Shop) -> tuple[Order, bool]:
    """Return an order of all jobs, and whether it is known that none is over sooner."""
    bounds = Bounds(shop)
    least = bounds.least(shop.opening())
    order = good_order(shop, bounds)
    is_least = shop.finish(order) == least
    if is_least or len(order) > SEARCHED_UP_TO:
        return order, is_least
    found, is_proven = _search(shop, bounds, order)
    if is_proven:
        return found, True
    better = better_order(shop, found, least)
    return better, shop.finish(better) == least


def _search(shop: Shop, bounds: Bounds, order: Order) -> tuple[Order, bool]:
    """Return the best order found from a first one on, and whether everything was looked at."""
    best, finish = order, shop.finish(order) or 0
    seen: dict[tuple[int, ...], list[State]] = {}
    stack: list[tuple[int, State, Order]] = [(0, shop.opening(), ())]
    for _ in range(max(LEAST_STATES, min(MOST_STATES, STATES_TIMES_JOBS // len(order)))):
        if not stack:
            return best, True
        least, state, done = stack.pop()
        if least >= finish or _is_beaten(state, seen):
            continue
        chains = bounds.worth_trying(state)
        if not chains:
            best, finish = done, state.handled
            continue
        after = [(chain, shop.done(state, chain)) for chain in chains]
        branches = [(bounds.least(then), then, (*done, chain)) for chain, then in after]
        stack.extend(sorted(branches, key=lambda branch: branch[0], reverse=True))
    return best, not stack


def _is_beaten(state: State, seen: dict[tuple[int, ...], list[State]]) -> bool:
    """Whether a state with the same jobs done is no later in anything; else remember this one."""
    others = seen.setdefault(state.counts, [])
    if any(_is_no_later(other, state) for other in others):
        return True
    others[:] = [other for other in others if not _is_no_later(state, other)]
    others.append(state)
    return False


def _is_no_later(one: State, other: State) -> bool:
    if one.free > other.free or one.handled > other.handled:
        return False
    times = zip((*one.ready, *one.dry), (*other.ready, *other.dry), strict=True)
    return all(early <= max(late, other.free) for early, late in times)
