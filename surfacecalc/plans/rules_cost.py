"""How much sooner a job would be over without the rules that keep it clean and simple."""

from dataclasses import dataclass, replace
from datetime import timedelta

from surfacecalc.plans.bounds import Bounds
from surfacecalc.plans.hours import time_of
from surfacecalc.plans.rounds import Tasks, operations, rounds_apart
from surfacecalc.plans.schedule import Order, Shop
from surfacecalc.plans.search import SEARCHED_UP_TO, shortest_order


@dataclass(frozen=True)
class RulesCost:
    """What rules a plan keeps to, and how many days later it is over for them.

    Attributes:
        days: days later; 0 where it is over on the same day.
        is_for_dust: whether dust is kept off what is wet.
        is_for_zones: whether zones share a schedule and are worked together.
    """

    days: int
    is_for_dust: bool
    is_for_zones: bool


def rules_cost(tasks: Tasks, shop: Shop, order: Order) -> RulesCost:
    """Return what it costs to keep dust off what is wet and to work zones of a schedule together.

    Args:
        tasks: of each zone.
        shop: the same as jobs under the rules.
        order: the plan made of these.
    """
    chains = rounds_apart(tasks)
    is_for_dust = _keeps_dust_off(shop)
    is_for_zones = len(shop.chains) < len(chains)
    days = 0
    if (is_for_dust or is_for_zones) and sum(map(len, chains)) <= SEARCHED_UP_TO:
        free = replace(shop, chains=operations(chains, {}))
        days = _days_sooner(free, shop.finish(order) or 0)
    return RulesCost(days, is_for_dust, is_for_zones)


def _keeps_dust_off(shop: Shop) -> bool:
    """Whether one chain makes dust where another one leaves films."""
    chains = list(enumerate(shop.chains))
    dusty = {(c, body) for c, jobs in chains for job in jobs if job.is_dusty for body in job.bodies}
    films = {(c, body) for c, jobs in chains for job in jobs if job.dry for body in job.bodies}
    return any(c != other and body == near for c, body in dusty for other, near in films)


def _days_sooner(free: Shop, finish: int) -> int:
    """Return how many days before a moment a job can be over; 0 where not even the bound is."""
    least = Bounds(free).least(free.opening())
    if _days_between(least, finish) <= 0:
        return 0
    order, _ = shortest_order(free)
    return max(0, _days_between(free.finish(order) or finish, finish))


def _days_between(sooner: int, later: int) -> int:
    return (time_of(later).date() - time_of(sooner).date()) // timedelta(days=1)
