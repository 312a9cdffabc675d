"""What the bench needs for each task: amounts, the batch to mix, and where to stop and stir."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Evaluate
from surfacecalc.model.shelf import Product
from surfacecalc.model.steps import Step
from surfacecalc.plans.plan import Plan
from surfacecalc.supplies.portions import Portion, Turn, coats_beyond, portions, turns_of, uses_of
from surfacecalc.supplies.shopping import Supply, Unit
from surfacecalc.supplies.stops import StopPoint, Stops, stops_of
from surfacecalc.work.task_words import TaskKey


@dataclass(frozen=True)
class Batch:
    """A mix that is made before its first use.

    Attributes:
        mix: its name.
        amount: how much is made [L or kg].
        unit: "L" or "kg".
        parts: how much of each product goes into it: name, amount and unit.
        on_hand: how much of the mix is there already, to be stirred in [L or kg].
    """

    mix: str
    amount: float
    unit: Unit
    parts: tuple[tuple[str, float, Unit], ...]
    on_hand: float


@dataclass(frozen=True)
class SpareCoat:
    """A coat beyond the planned ones, which only some jobs need.

    Attributes:
        coat: which coat of its step it is, from 1.
        portions: what it uses.
    """

    coat: int
    portions: tuple[Portion, ...]


@dataclass(frozen=True)
class BenchTask:
    """What a task of the plan uses.

    Attributes:
        step: its step.
        portions: what it uses.
        coat: which coat of its step it is, from 1; 0 where it is not a coat.
        is_only_if_needed: whether some jobs do without this coat.
        batches: mixes that are made before it.
        fresh_batches: in how many batches it is mixed so that none sets before it is used up; 0
            for what does not set.
        stir_first: jars that are poured together with what was bought before it.
        stops: what must be left after it.
        spare: coats that may follow the last planned one of its step.
    """

    step: Step
    portions: tuple[Portion, ...]
    coat: int
    is_only_if_needed: bool
    batches: tuple[Batch, ...]
    fresh_batches: int
    stir_first: tuple[str, ...]
    stops: tuple[StopPoint, ...]
    spare: tuple[SpareCoat, ...]


Bench = dict[TaskKey, BenchTask]
"""What each task uses that uses anything, by its zone and its number in it."""


def bench_of(piece: Piece, plan: Plan, supplies: Sequence[Supply], draws: Evaluate) -> Bench:
    """Return what each task of a plan uses that uses a product or water.

    The amounts of all tasks of a step add up to what the supply list says that the step uses.

    Args:
        piece: the piece.
        plan: its plan.
        supplies: its supply list.
        draws: what evaluates the inputs.
    """
    turns = turns_of(plan, {zone.name: zone.steps for zone in piece.zones})
    stops = {
        supply.name: stops_of(product, supply, turns, draws)
        for supply in supplies
        for product in [piece.shelf.product(supply.key)]
        if product is not None and (product.recipe or supply.on_hand)
        if product.family != "stripper"  # it comes off again, whichever can it came from
    }
    made: set[str] = set()
    found: Bench = {}
    for turn in turns:
        used = tuple(portions(turn, supplies))
        if used:
            batches = tuple(_batches(piece, turn, supplies, made))
            found[turn.key] = _task(turn, used, batches, supplies, stops)
    return found


def _task(
    turn: Turn,
    used: tuple[Portion, ...],
    batches: tuple[Batch, ...],
    supplies: Sequence[Supply],
    stops: dict[str, Stops],
) -> BenchTask:
    return BenchTask(
        step=turn.step,
        portions=used,
        coat=turn.coat,
        is_only_if_needed=turn.is_only_if_needed,
        batches=batches,
        fresh_batches=_fresh_batches(turn, supplies),
        stir_first=tuple(name for name, stop in stops.items() if stop.first == turn.key),
        stops=tuple(one for stop in stops.values() for one in stop.after.get(turn.key, ())),
        spare=tuple(
            SpareCoat(coat.coat, tuple(portions(coat, supplies))) for coat in coats_beyond(turn)
        ),
    )


def _batches(
    piece: Piece, turn: Turn, supplies: Sequence[Supply], made: set[str]
) -> Iterator[Batch]:
    """Yield the mixes that a task is the first to use; their names go into what is made."""
    for supply in supplies:
        product = piece.shelf.product(supply.key)
        if product is None or not supply.mixed or supply.name in made:
            continue
        if uses_of(supply, turn):
            made.add(supply.name)
            parts = tuple(
                (part.product.name, supply.mixed * part.per_unit, _unit(part.product))
                for part in product.recipe
            )
            yield Batch(supply.name, supply.mixed, supply.unit, parts, supply.on_hand)


def _fresh_batches(turn: Turn, supplies: Sequence[Supply]) -> int:
    """Return in how many batches a task is mixed of what sets in the cup; 0 for nothing."""
    mixed = (use.batches for supply in supplies for use in uses_of(supply, turn))
    return max(mixed, default=0) // turn.step.work.sides


def _unit(product: Product) -> Unit:
    return "kg" if product.basis == "weight" else "L"
