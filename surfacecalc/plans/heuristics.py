"""Orders from simple rules, made better step by step: good, and quick however long the job."""

import random
from collections.abc import Callable

from surfacecalc.plans.bounds import Bounds
from surfacecalc.plans.schedule import Order, Shop, State

TRIES = 60_000
"""Jobs placed while an order is made better: about a fifth of a second, alone on a machine."""
LEAST_TRIES, MOST_TRIES = 20, 2_000
SLOW_UP_TO, ALL_UP_TO = 200, 1_000
"""Jobs up to which the rules are used that look at the hours to the end of each chain, and all."""
SEED = 1
"""The same file gives the same plan every time."""

Rule = Callable[[Shop, Bounds, State, int], tuple[int, ...]]


def in_turn(shop: Shop) -> Order:
    """Return the order that finishes one chain after the other, as their `after` allows."""
    state = shop.opening()
    order: list[int] = []
    while chains := shop.candidates(state):
        begun = [chain for chain in chains if order and chain == order[-1]]
        chain = (begun or _whole(shop, state, chains) or chains)[0]
        order.append(chain)
        state = shop.done(state, chain)
    return tuple(order)


def _whole(shop: Shop, state: State, chains: list[int]) -> list[int]:
    """Return the chains that can be done to their end without waiting for another."""
    return [
        chain
        for chain in chains
        if all(
            shop.is_over(state, other)
            for job in shop.chains[chain][state.counts[chain] :]
            for other in job.after
        )
    ]


def good_order(shop: Shop, bounds: Bounds) -> Order:
    """Return the best order that the rules give; never worse than one chain after the other."""
    first = in_turn(shop)
    rules = [*(_SLOW_RULES if len(first) <= SLOW_UP_TO else ()), *_RULES]
    if len(first) > ALL_UP_TO:
        rules = rules[:1]
    orders = [*(_by_rule(shop, bounds, rule) for rule in rules), first]
    return min(orders, key=lambda order: _finish(shop, order))


def better_order(shop: Shop, order: Order, least: int) -> Order:
    """Return an order made better by moving one job at a time; stops where none can be better.

    Args:
        shop: what is to be done.
        order: where to begin.
        least: no order finishes before.
    """
    chance = random.Random(SEED)  # noqa: S311  # nothing secret: it picks what to move
    best, finish = order, _finish(shop, order)
    for _ in range(max(LEAST_TRIES, min(MOST_TRIES, TRIES // len(order)))):
        if finish <= least:
            break
        trial = moved(best, chance)
        found = shop.finish(trial)
        if found is not None and found <= finish:
            best, finish = trial, found
    return best


def moved(order: Order, chance: random.Random) -> Order:
    """Return an order with one job moved, of any chain to any place."""
    trial = list(order)
    trial.insert(chance.randrange(len(trial)), trial.pop(chance.randrange(len(trial))))
    return tuple(trial)


def _by_rule(shop: Shop, bounds: Bounds, rule: Rule) -> Order:
    state = shop.opening()
    order: list[int] = []
    while chains := bounds.worth_trying(state):
        chain = min(chains, key=lambda chain: rule(shop, bounds, state, chain))
        order.append(chain)
        state = shop.done(state, chain)
    return tuple(order)


def _finish(shop: Shop, order: Order) -> int:
    finish = shop.finish(order)
    if finish is None:
        raise AssertionError(order)
    return finish


def _latest_alone(shop: Shop, bounds: Bounds, state: State, chain: int) -> tuple[int, ...]:
    """The chain that would be over last if it had the hands to itself comes first."""
    return -bounds.alone(state, chain), shop.span(state, chain)[0]


def _longest_rest(shop: Shop, bounds: Bounds, state: State, chain: int) -> tuple[int, ...]:
    """The chain that takes longest to its end comes first."""
    return -bounds.rest(state, chain), shop.span(state, chain)[0]


def _earliest_start(shop: Shop, bounds: Bounds, state: State, chain: int) -> tuple[int, ...]:
    """The job that can begin first comes first, of those the one with the longest rest."""
    return shop.span(state, chain)[0], -bounds.rest(state, chain)


def _earliest_end(shop: Shop, bounds: Bounds, state: State, chain: int) -> tuple[int, ...]:
    """The job that is over first comes first, of those the one with the longest rest."""
    return shop.span(state, chain)[1], -bounds.rest(state, chain)


def _most_jobs(shop: Shop, bounds: Bounds, state: State, chain: int) -> tuple[int, ...]:
    """The chain with most jobs left comes first."""
    return state.counts[chain] - len(shop.chains[chain]), shop.span(state, chain)[0]


def _dustiest(shop: Shop, bounds: Bounds, state: State, chain: int) -> tuple[int, ...]:
    """The chain with most dust to come comes first, so that films are made when others are."""
    return -bounds.dusty_left(state, chain), shop.span(state, chain)[0]


def _dust_now(shop: Shop, bounds: Bounds, state: State, chain: int) -> tuple[int, ...]:
    """A job that makes dust comes first if it can begin as soon as any, then the longest rest."""
    job = shop.chains[chain][state.counts[chain]]
    return shop.span(state, chain)[0], not job.is_dusty, -bounds.rest(state, chain)


_RULES: tuple[Rule, ...] = (
    _longest_rest, _earliest_start, _earliest_end, _most_jobs, _dustiest, _dust_now,
)  # fmt: skip
_SLOW_RULES: tuple[Rule, ...] = (_latest_alone,)
