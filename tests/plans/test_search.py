"""Orders against every order there is."""

import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from surfacecalc.model.workshop import DEFAULT_WINDOWS, MINUTES_IN_DAY, Window
from surfacecalc.plans.bounds import Bounds
from surfacecalc.plans.heuristics import better_order, good_order, in_turn
from surfacecalc.plans.hours import WEEK, WorkingHours
from surfacecalc.plans.schedule import Operation, Order, Shop
from surfacecalc.plans.search import shortest_order

USUAL = WorkingHours(DEFAULT_WINDOWS)
ALWAYS = WorkingHours([Window(day, 0, MINUTES_IN_DAY) for day in range(7)])
MOST_IN_ALL = 7
LONGEST_COAT = 180
"""Minutes; fits the shortest of the usual hours."""


def best_of_all(shop: Shop) -> int:
    """Return the finish of the best of all orders, each tried from its beginning to its end."""
    found = []

    def go_on(order: Order, left: list[int]) -> None:
        if not any(left):
            finish = shop.finish(order)
            if finish is not None:
                found.append(finish)
        for chain, count in enumerate(left):
            if count:
                go_on((*order, chain), [n - (k == chain) for k, n in enumerate(left)])

    go_on((), [len(chain) for chain in shop.chains])
    return min(found)


def multiples_of_five(most: int) -> st.SearchStrategy[int]:
    return st.integers(0, most // 5).map(lambda number: number * 5)


@st.composite
def shops(draw: st.DrawFn, hours: WorkingHours, most_jobs: int = MOST_IN_ALL) -> Shop:
    """Draw a shop of a few chains; a job may follow chains that stand before its own."""
    sizes = draw(st.lists(st.integers(0, 4), min_size=1, max_size=4))
    while sum(sizes) > most_jobs:
        sizes[sizes.index(max(sizes))] -= 1
    chains = []
    for chain, size in enumerate(sizes):
        before = st.lists(st.integers(0, chain - 1), max_size=1) if chain else st.just([])
        chains.append(
            tuple(
                Operation(
                    work=max(5, draw(multiples_of_five(LONGEST_COAT))),
                    wait=draw(st.sampled_from([0, 0, 30, 120, 480, 1440])),
                    done=draw(st.sampled_from([0, 60, 600])),
                    can_pause=draw(st.booleans()),
                    after=tuple(draw(before)) if draw(st.integers(0, 3)) == 0 else (),
                )
                for _ in range(size)
            )
        )
    return Shop(tuple(chains), hours, draw(st.integers(0, WEEK)))


@settings(deadline=None)
@given(shops(ALWAYS))
def test_order_is_the_best_of_all_where_there_is_always_time(shop: Shop) -> None:
    order, is_proven = shortest_order(shop)
    assert (best_of_all(shop), True) == (shop.finish(order), is_proven)


@settings(deadline=None)
@given(shops(USUAL))
def test_order_is_the_best_of_all_in_working_hours(shop: Shop) -> None:
    order, is_proven = shortest_order(shop)
    assert (best_of_all(shop), True) == (shop.finish(order), is_proven)


@settings(deadline=None)
@given(shops(USUAL))
def test_no_order_is_over_before_the_bound(shop: Shop) -> None:
    assert Bounds(shop).least(shop.opening()) <= best_of_all(shop)


@settings(deadline=None)
@given(shops(USUAL, most_jobs=16))
def test_order_is_never_longer_than_one_zone_after_the_other(shop: Shop) -> None:
    order, _ = shortest_order(shop)
    for better in (order, good_order(shop, Bounds(shop))):
        finish, turn = shop.finish(better), shop.finish(in_turn(shop))
        assert finish is not None
        assert turn is not None
        assert finish <= turn


@settings(deadline=None)
@given(shops(USUAL, most_jobs=16))
def test_order_does_every_job_once_and_keeps_every_wait(shop: Shop) -> None:
    order, _ = shortest_order(shop)
    spans = [(start, end) for _, start, end in shop.course(order)]
    assert sorted(order) == [c for c, chain in enumerate(shop.chains) for _ in chain]
    over = dict.fromkeys(range(len(shop.chains)), shop.start)
    counts = dict.fromkeys(over, 0)
    free = shop.start
    for chain, (start, end) in zip(order, spans, strict=True):
        job = shop.chains[chain][counts[chain]]
        assert start >= max(free, over[chain], *(over[other] for other in job.after))
        assert all(counts[other] == len(shop.chains[other]) for other in job.after)
        free, over[chain] = end, end + job.wait
        counts[chain] += 1


@settings(deadline=None, max_examples=20)
@given(shops(USUAL, most_jobs=16))
def test_order_made_better_is_never_worse(shop: Shop) -> None:
    order = in_turn(shop)
    if order:
        better, was = shop.finish(better_order(shop, order, 0)), shop.finish(order)
        assert better is not None
        assert was is not None
        assert better <= was


def test_second_zone_is_worked_while_the_first_dries() -> None:
    coat, dries = Operation(30, wait=240), Operation(30)
    shop = Shop(((coat, dries), (coat, dries)), ALWAYS, 0)
    order, _ = shortest_order(shop)
    assert 330 == shop.finish(order)  # coat, coat, 3 h 30 min of rest, coat, coat
    assert 600 == shop.finish((0, 0, 1, 1))


def test_order_whose_long_drying_is_seen_late_is_the_best_of_all() -> None:
    """Found by search: hands free at the same time, but not everything handled as soon."""
    chains = (
        (Operation(180, wait=60), Operation(120)),
        (Operation(120, done=1200), Operation(30, wait=60, done=1200)),
        (Operation(60, done=600),),
    )
    shop = Shop(chains, USUAL, 18 * 60)
    order, _ = shortest_order(shop)
    assert best_of_all(shop) == shop.finish(order) == 4590


def test_order_that_breaks_an_after_has_no_finish() -> None:
    shop = Shop(((Operation(10),), (Operation(10, after=(0,)),)), ALWAYS, 0)
    assert shop.finish((1, 0)) is None
    assert 20 == shop.finish((0, 1))


def test_nothing_to_do_is_over_at_once() -> None:
    assert ((), True) == shortest_order(Shop(((), ()), USUAL, 0))


@pytest.mark.parametrize("seed", range(3))
def test_eight_zones_of_sixty_steps_are_planned_well_under_a_second(seed: int) -> None:
    waits = (0, 60, 240, 480, 1440)
    chains = tuple(
        tuple(
            Operation(
                work=5 + (zone * 37 + step * 53 + seed * 19) % 90,
                wait=waits[(zone + 2 * step + seed) % 5],
                can_pause=(zone + step) % 2 == 0,
            )
            for step in range(8 if zone < 4 else 7)
        )
        for zone in range(8)
    )
    shop = Shop(chains, USUAL, 0)
    begin = time.process_time()  # of this process alone, however busy the machine is
    order, _ = shortest_order(shop)
    assert time.process_time() - begin < 0.9
    turn, finish = shop.finish(in_turn(shop)), shop.finish(order)
    least = Bounds(shop).least(shop.opening())
    assert turn is not None
    assert finish is not None
    assert finish < turn
    assert finish - least <= 0.05 * least  # near what no order can beat


def test_thousands_of_jobs_are_planned_by_a_rule() -> None:
    chains = tuple(
        tuple(Operation(work=30, wait=60 * ((zone + step) % 3)) for step in range(400))
        for zone in range(8)
    )
    shop = Shop(chains, USUAL, 0)
    begin = time.process_time()
    order, _ = shortest_order(shop)
    assert time.process_time() - begin < 5
    assert 3200 == len(order)
    turn, finish = shop.finish(in_turn(shop)), shop.finish(order)
    assert turn is not None
    assert finish is not None
    assert finish < turn
