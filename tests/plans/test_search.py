"""Orders against every order there is, under the same rules."""

import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from surfacecalc.model.workshop import DEFAULT_WINDOWS, MINUTES_IN_DAY, Window
from surfacecalc.plans.bounds import Bounds
from surfacecalc.plans.heuristics import better_order, good_order, in_turn
from surfacecalc.plans.hours import WEEK, WorkingHours
from surfacecalc.plans.schedule import Operation, Order, Shop
from surfacecalc.plans.search import best_order, shortest_order

USUAL = WorkingHours(DEFAULT_WINDOWS)
WITH_OVER = WorkingHours(DEFAULT_WINDOWS, over=30)
ALWAYS = WorkingHours([Window(day, 0, MINUTES_IN_DAY) for day in range(7)])
MOST_IN_ALL = 7
LONGEST_COAT = 180
"""Minutes; fits the shortest of the usual hours."""


def every_order(shop: Shop) -> list[Order]:
    """Return all orders, whole, that keep to what must be over before."""
    found = []

    def go_on(order: Order, left: list[int]) -> None:
        if not any(left) and shop.finish(order) is not None:
            found.append(order)
        for chain, count in enumerate(left):
            if count:
                go_on((*order, chain), [n - (k == chain) for k, n in enumerate(left)])

    go_on((), [len(chain) for chain in shop.chains])
    return found


def best_of_all(shop: Shop) -> int:
    """Return the finish of the best of all orders."""
    return min(shop.finish(order) or 0 for order in every_order(shop))


def merits(shop: Shop, order: Order) -> tuple[int, int, int, int]:
    """Return the finish, the jobs that make dust beside a film, the set-ups and the days.

    Written anew, from when each job begins and ends: its sessions are found minute by minute.
    """
    films: list[int] = []
    worked: list[tuple[int, str]] = []
    dusty = 0
    for job, start, end in shop.course(order):
        dusty += job.is_dusty and any(start < dry for dry in films)
        films += [end + job.dry] if job.dry else []
        minutes = [at for at in range(start, end) if shop.hours.opening(at) == at]
        if len(minutes) < job.work:  # it runs over closing time, on the day on which it is over
            minutes = [start, end - 1]
        worked += [(at // MINUTES_IN_DAY, job.kind) for at in minutes]
    set_ups = sum(one != other for one, other in zip([None, *worked], worked, strict=False))
    days = len({day for day, _ in worked})
    return shop.finish(order) or 0, dusty, set_ups, days


def multiples_of_five(most: int) -> st.SearchStrategy[int]:
    return st.integers(0, most // 5).map(lambda number: number * 5)


def job(draw: st.DrawFn, after: tuple[int, ...]) -> Operation:
    """Draw a job, of one zone or of several."""
    parts = [max(5, draw(multiples_of_five(LONGEST_COAT)))]
    can_pause = draw(st.booleans())
    if not can_pause:
        parts += draw(
            st.lists(multiples_of_five(LONGEST_COAT - 5).map(lambda n: n + 5), max_size=2)
        )
    dry = draw(st.sampled_from([0, 0, 60, 600]))
    return Operation(
        work=sum(parts),
        wait=draw(st.sampled_from([0, 0, 30, 120, 480, 1440])),
        done=draw(st.sampled_from([0, 60, 600])),
        can_pause=can_pause,
        after=after,
        parts=tuple(parts) if len(parts) > 1 else (),
        dry=dry,
        is_dusty=dry == 0 and draw(st.booleans()),
        bodies=draw(st.sampled_from([(), (0,), (0,), (1,), (0, 1)])),
        kind=draw(st.sampled_from(["coat", "sand"])),
    )


@st.composite
def shops(draw: st.DrawFn, hours: WorkingHours, most_jobs: int = MOST_IN_ALL) -> Shop:
    """Draw a shop of a few chains; a job may follow chains that stand before its own.

    Some jobs make dust and some leave films, on one or two bodies or where it does not matter.
    """
    sizes = draw(st.lists(st.integers(0, 4), min_size=1, max_size=4))
    while sum(sizes) > most_jobs:
        sizes[sizes.index(max(sizes))] -= 1
    chains = []
    for chain, size in enumerate(sizes):
        before = st.lists(st.integers(0, chain - 1), max_size=1) if chain else st.just([])
        chains.append(
            tuple(
                job(draw, tuple(draw(before)) if draw(st.integers(0, 3)) == 0 else ())
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
@given(shops(WITH_OVER))
def test_order_is_the_best_of_all_where_tasks_may_run_over(shop: Shop) -> None:
    order, is_proven = shortest_order(shop)
    assert (best_of_all(shop), True) == (shop.finish(order), is_proven)


@settings(deadline=None, max_examples=60)
@given(shops(USUAL, most_jobs=6))
def test_of_all_orders_that_are_over_first_it_has_the_best_merits(shop: Shop) -> None:
    """By comparing all of them: least dust beside films, then fewest set-ups, then fewest days."""
    order, _ = best_order(shop)
    assert min(merits(shop, other) for other in every_order(shop)) == merits(shop, order)


@settings(deadline=None)
@given(st.one_of(shops(USUAL), shops(WITH_OVER)))
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
    films: list[tuple[int, int, set[int]]] = []
    for chain, (start, end) in zip(order, spans, strict=True):
        job = shop.chains[chain][counts[chain]]
        assert start >= max(free, over[chain], *(over[other] for other in job.after))
        near = [dry for dry, of, bodies in films if of != chain and bodies & set(job.bodies)]
        assert not job.is_dusty or start >= max(near, default=start)
        films.append((end + job.dry, chain, set(job.bodies)))
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


def job_of(work: int, wait: int, done: int, dry: int, is_dusty: bool, body: int) -> Operation:
    return Operation(work, wait, done, can_pause=False, dry=dry, is_dusty=is_dusty, bodies=(body,))


@pytest.mark.parametrize(
    ("chains", "finish"),
    [
        # a coat that could be over before sanding begins is still wet then
        (
            [[(120, 60, 120, 120, False, 0), (60, 60, 120, 240, False, 0), (30, 60, 0, 0, True, 1)],
             [(60, 0, 0, 0, False, 1), (30, 0, 0, 240, False, 1)]],
            360,
        ),
        # the same jobs done as soon, but the films are dry later
        (
            [[(60, 0, 120, 240, False, 0)],
             [(120, 0, 0, 0, False, 0), (60, 60, 120, 0, True, 0), (30, 60, 0, 0, False, 0)],
             [(60, 0, 0, 120, False, 1), (120, 60, 0, 0, True, 0)]],
            510,
        ),
    ],
)  # fmt: skip
def test_order_whose_films_are_dry_in_time_is_the_best_of_all(chains: list, finish: int) -> None:
    """Found by search, for a rule that forgets what is wet."""
    shop = Shop(tuple(tuple(job_of(*one) for one in chain) for chain in chains), ALWAYS, 0)
    order, _ = shortest_order(shop)
    assert best_of_all(shop) == shop.finish(order) == finish


def test_what_makes_dust_comes_first_or_waits_until_the_film_is_dry() -> None:
    """By hand: coat 30, dry after 60; sanding 30. Coat first: 30 + 60 + 30; sanding first: 60."""
    coat, sand = Operation(30, dry=60, bodies=(0,)), Operation(30, is_dusty=True, bodies=(0,))
    shop = Shop(((coat,), (sand,)), ALWAYS, 0)
    assert (120, 60) == (shop.finish((0, 1)), shop.finish((1, 0)))
    assert ((1, 0), True) == best_order(shop)


def test_film_that_dries_longer_than_the_next_one_on_it_is_waited_for() -> None:
    """By hand: coated from 0 to 30, dry after 600; coated to 60, dry after 60; sanding at 630."""
    slow, quick = Operation(30, dry=600, bodies=(0,)), Operation(30, dry=60, bodies=(0,))
    sand = Operation(30, is_dusty=True, bodies=(0,))
    assert 660 == Shop(((slow, quick), (sand,)), ALWAYS, 0).finish((0, 0, 1))


def test_dust_on_another_body_waits_for_nothing_but_is_kept_off_where_that_costs_no_time() -> None:
    coat, sand = Operation(30, dry=60, bodies=(0,)), Operation(30, is_dusty=True, bodies=(1,))
    shop = Shop(((coat,), (sand,)), ALWAYS, 0)
    assert (60, 60) == (shop.finish((0, 1)), shop.finish((1, 0)))
    assert ((1, 0), True) == best_order(shop)


def test_same_kind_of_work_is_done_in_one_go_where_that_costs_no_time() -> None:
    """By hand: coat and wash, twice each, as long in any order; two set-ups instead of four."""
    coat, wash = Operation(30, kind="coat"), Operation(30, kind="wash")
    shop = Shop(((coat,), (wash,), (coat,), (wash,)), ALWAYS, 0)
    assert ((0, 2, 1, 3), True) == best_order(shop)


def test_work_is_done_on_fewer_days_where_that_costs_no_time() -> None:
    """By hand: three hours a day; what is over last is the first coat, on Saturday.

    Coat, wash 10 to 11, on Tuesday 2 h of sanding and the repair that may come 24 h after washing:
    two days. Sanding on Monday leaves washing for Tuesday and the repair for Wednesday.
    """
    hours = WorkingHours([Window(day, 540, 720) for day in range(5)])
    coat, sand = (
        Operation(60, done=5 * 1440, kind="coat"),
        Operation(120, can_pause=False, kind="sand"),
    )
    wash, repair = Operation(60, wait=1440, kind="wash"), Operation(60, kind="repair")
    shop = Shop(((coat,), (wash, repair), (sand,)), hours, 0)
    assert [2, 3] == [merits(shop, order)[3] for order in ((0, 1, 2, 1), (0, 2, 1, 1))]
    assert shop.finish((0, 1, 2, 1)) == shop.finish((0, 2, 1, 1))
    assert ((0, 1, 2, 1), True) == best_order(shop)


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
