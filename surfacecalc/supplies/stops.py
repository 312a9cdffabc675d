"""Where to stop and stir: how much must be left of a mix or a jar before the next coat is begun.

Two batches of a mix, and often two cans, differ a little in colour, so no coat may run out halfway.
Coats of one product follow each other as the plan has them. Those of the same number that follow
each other directly are one run: the second coat of the case, then of the fronts. Before a run one
can still stop. After the run before it there must be left what the whole run takes at the
certainty that is bought for: the point of the draws below which that share of them lies, given that
the coat is done.

A stop is shown unless it is over 99 % sure that so much is left: the stock when the work begins,
less what the runs before take in the same draws. A jar that is not sure of its first run is poured
together with what was bought before the first coat; one that half of the jobs stop at is taken to
be filled up there. What goes into a mix is gone from its jar: the batch is made before its first
coat. What was poured together holds all that was bought, so a later stop asks to buy.

What is only stirred in, such as thinner, has no stop: it has no colour of its own to match, and
its next bottle is opened where the first one ends. Nor has what is washed with.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from surfacecalc.model.ranges import HALF, Evaluate, Number
from surfacecalc.model.shelf import Product
from surfacecalc.needs.draws import chance_enough, points
from surfacecalc.supplies.portions import Turn, amount_of, coats_beyond, uses_of
from surfacecalc.supplies.shopping import Supply, Unit
from surfacecalc.work.task_words import TaskKey

MEASURED_OUT = ("thinner", "hardener", "cleaner", "water", "rinse", "thrown away")
"""As what a product is used up without a stop before it."""
SURE = 0.99
"""More often than this nothing runs out; the same share that `jars` calls over 99 % sure."""


@dataclass(frozen=True)
class StopPoint:
    """What must be left of a product after a task, or one stops before the next coat.

    Attributes:
        supply: its name.
        unit: "L" or "kg".
        least: with less than this left, there may not be enough for the next coat [L or kg].
        coat: the number of that coat in its step, from 1; 0 where it is not a coat.
        zones: where it goes.
        is_planned: whether it is in the plan; else only some jobs need it.
        is_mix: whether more of it is mixed; else a can is opened.
        is_bought: whether more of it was bought that is not poured together with it yet.
    """

    supply: str
    unit: Unit
    least: float
    coat: int
    zones: tuple[str, ...]
    is_planned: bool
    is_mix: bool
    is_bought: bool


@dataclass(frozen=True)
class Stops:
    """When to stop and stir a mix or a jar.

    Attributes:
        after: by task, what must be left after it.
        first: the task before which the jar is poured together with what was bought, or None.
    """

    after: dict[TaskKey, tuple[StopPoint, ...]]
    first: TaskKey | None


@dataclass(frozen=True)
class _Run:
    """Turns that follow each other with the same coat, and what they take together."""

    turns: tuple[Turn, ...]
    taken: Number

    @property
    def is_planned(self) -> bool:
        return self.turns[0].is_planned

    @property
    def last(self) -> TaskKey:
        return self.turns[-1].key


def stops_of(product: Product, supply: Supply, turns: Sequence[Turn], draws: Evaluate) -> Stops:
    """Return when to stop and stir a mix, or a product that is on hand.

    Args:
        product: the product.
        supply: its line on the supply list.
        turns: the tasks that may use something, in the order of the plan.
        draws: what evaluates the inputs.
    """
    if all(use.role in MEASURED_OUT for use in supply.uses):
        return Stops({}, None)
    runs = list(_runs([turn for turn in turns if uses_of(supply, turn)], supply, draws))
    if not runs:
        return Stops({}, None)
    sure = supply.need.bought_at
    in_mixes = sum(use.likely for use in supply.uses if use.role == "part of mix")
    stock, first = supply.on_hand + supply.mixed - in_mixes, None
    is_bought = supply.missing > 0
    if not chance_enough(points(runs[0].taken, sure).buy_for, stock):
        first, stock, is_bought = runs[0].turns[0].key, supply.at_hand - in_mixes, False
    found: dict[TaskKey, tuple[StopPoint, ...]] = {}
    used: Number = 0.0
    for place, run in enumerate(runs):
        if not run.is_planned:
            continue
        used = used + run.taken
        for coming in _next_runs(runs[place + 1 :]):
            least = points(coming.taken, sure).buy_for
            chance = 1 - chance_enough(used + least, stock)
            if chance >= 1 - SURE:
                point = _stop(product, supply, coming, least, is_bought=is_bought)
                found[run.last] = (*found.get(run.last, ()), point)
            if chance >= HALF and coming.is_planned:
                stock, is_bought = supply.at_hand - in_mixes, False
    return Stops(found, first)


def _runs(turns: Sequence[Turn], supply: Supply, draws: Evaluate) -> Iterator[_Run]:
    """Yield runs of turns; coats that only some jobs need come after the last planned ones."""
    for _, same in groupby(turns, lambda turn: turn.coat or turn.key):
        planned = list(same)
        yield _run(planned, supply, draws)
        beyond = sorted(
            (coat for turn in planned for coat in coats_beyond(turn)), key=lambda turn: turn.coat
        )
        for _, extra in groupby(beyond, lambda turn: turn.coat):
            yield _run(list(extra), supply, draws)


def _run(turns: list[Turn], supply: Supply, draws: Evaluate) -> _Run:
    taken: Number = 0.0
    for turn in turns:
        for use in uses_of(supply, turn):
            taken = taken + amount_of(use, turn, draws)
    return _Run(tuple(turns), float(taken) if isinstance(taken, int | float) else taken)


def _next_runs(later: Sequence[_Run]) -> Iterator[_Run]:
    """Yield the next run; where only some jobs need that, the next planned one as well."""
    yield from later[:1]
    if later and not later[0].is_planned:
        yield from [run for run in later if run.is_planned][:1]


def _stop(
    product: Product, supply: Supply, run: _Run, least: float, *, is_bought: bool
) -> StopPoint:
    return StopPoint(
        supply=supply.name,
        unit=supply.unit,
        least=least,
        coat=run.turns[0].coat,
        zones=tuple(dict.fromkeys(zone for turn in run.turns for zone in turn.zones)),
        is_planned=run.is_planned,
        is_mix=bool(product.recipe),
        is_bought=is_bought,
    )
