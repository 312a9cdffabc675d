"""What each task of a plan uses of each product, so that all tasks of a step add up to its use.

Amounts have every input at its likely value. Of a coat it is what that coat alone takes: the first
one on bare wood takes more than the next. What is counted once for zones that share a schedule is
shared out over them by area, as on the supply list.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from surfacecalc.closeness import whole_up
from surfacecalc.model.ranges import Evaluate, Factor, Number, highest, likely
from surfacecalc.model.step_facts import (
    any_washing_of,
    coat_of,
    filling_of,
    is_one_session,
    likely_coats,
)
from surfacecalc.model.steps import Step, Wash
from surfacecalc.needs.coating import coat_count
from surfacecalc.needs.uses import Role, Use
from surfacecalc.needs.washing import rinse_l, solution_l
from surfacecalc.plans.plan import Plan, PlanEntry
from surfacecalc.supplies.shopping import Supply, Unit
from surfacecalc.work.task_words import TaskKey

POURED: tuple[Unit, ...] = ("L", "kg")


@dataclass(frozen=True)
class Portion:
    """What one task uses of one supply.

    Attributes:
        supply: its name.
        role: what it is used as; "rinse" for clean water after washing.
        amount: with every input at its likely value [L or kg].
        unit: "L" or "kg".
        share: of the product that it is stirred into, None where it is not stirred in.
    """

    supply: str
    role: Role
    amount: float
    unit: Unit
    share: float | None = None


@dataclass(frozen=True)
class Turn:
    """One task of a step that uses something, or a coat that only some jobs need.

    Attributes:
        entry: the task; for a coat beyond the planned ones, the last coat of its step.
        step: its step.
        coat: which coat of its step it is, from 1; 0 for what is not a coat.
        number: which of the tasks of its step that use something, from 0.
        count: how many such tasks its step has.
        is_planned: whether it is in the plan.
    """

    entry: PlanEntry
    step: Step
    coat: int
    number: int
    count: int
    is_planned: bool = True

    @property
    def key(self) -> TaskKey:
        """The task in the plan."""
        return self.entry.task.zone, self.entry.task.number

    @property
    def zones(self) -> tuple[str, ...]:
        """The zones that the task is done in."""
        return self.entry.task.zones

    @property
    def is_only_if_needed(self) -> bool:
        """Whether some jobs do without this coat."""
        coat = coat_of(self.step)
        return coat is not None and self.coat > int(coat_count(coat, _lowest))


def turns_of(plan: Plan, steps: Mapping[str, tuple[Step, ...]]) -> list[Turn]:
    """Return the tasks that may use a product, in the order of the plan.

    Args:
        plan: the plan.
        steps: those of each zone, by its name.
    """
    found: dict[tuple[str, int], list[PlanEntry]] = {}
    for entry in plan.entries:
        step = steps[entry.task.zone][entry.task.step - 1]
        if coat_of(step) is None or entry.task.sort == "coat":  # sanding between coats uses none
            found.setdefault((entry.task.zone, entry.task.step), []).append(entry)
    turns = [
        turn
        for (zone, number), entries in found.items()
        for turn in _of_step(steps[zone][number - 1], entries)
    ]
    return sorted(turns, key=lambda turn: (turn.entry.starts, turn.key))


def _of_step(step: Step, entries: Iterable[PlanEntry]) -> Iterator[Turn]:
    """Yield the tasks of one step in one zone; a coat may go on side by side."""
    ordered = sorted(entries, key=lambda entry: entry.task.number)
    is_coat = coat_of(step) is not None
    for number, entry in enumerate(ordered):
        coat = number // step.work.sides + 1 if is_coat else 0
        yield Turn(entry, step, coat, number, len(ordered))


def coats_beyond(turn: Turn) -> Iterator[Turn]:
    """Yield the coats after the last planned one of a step, which only some jobs need."""
    coat = coat_of(turn.step)
    if coat is None or turn.number < turn.count - 1:
        return
    for number in range(likely_coats(coat) + 1, whole_up(float(coat_count(coat, highest))) + 1):
        yield Turn(turn.entry, turn.step, number, turn.number, turn.count, is_planned=False)


def amount_of(use: Use, turn: Turn, evaluate: Evaluate) -> Number:
    """Return what a turn takes of a use of its step, given that it is done [L, kg or pieces].

    Args:
        use: what its step takes in its zone.
        turn: the turn.
        evaluate: turns factors into numbers: `likely`, or draws.
    """
    if use.first_coats is not None and turn.coat:
        every = _with_every_coat(evaluate)
        before = use.first_coats(every, turn.coat - 1) if turn.coat > 1 else 0.0
        sides = turn.step.work.sides if turn.is_planned else 1
        return (use.first_coats(every, turn.coat) - before) / sides
    whole = use.amount(evaluate) if use.amount is not None else use.likely
    return whole * _weight(turn)


def _with_every_coat(evaluate: Evaluate) -> Evaluate:
    """Return an evaluator by which every coat is done that any job may need."""
    return lambda factor: highest(factor) if factor.unit == "coats" else evaluate(factor)


def _lowest(factor: Factor) -> float:
    return factor.range.low


def _weight(turn: Turn) -> float:
    """Return the part of its step's use that a turn takes where it is not a coat.

    Holes are filled again with what shrank, as in `needs.filling`; all else goes on evenly.
    """
    fill = filling_of(turn.step)
    if fill is None:
        return 1 / turn.count
    sides = fill.work.sides
    filled = [likely(fill.shrinkage) ** time for time in range(fill.applications)]
    return filled[turn.number // sides] / sum(filled) / sides


def portions(turn: Turn, supplies: Iterable[Supply]) -> Iterator[Portion]:
    """Yield what a turn uses of each supply that is poured, brushed or rubbed in."""
    for supply in supplies:
        if supply.unit not in POURED:
            continue
        for use in uses_of(supply, turn):
            share = None if use.share is None else float(likely(use.share))
            amount = float(amount_of(use, turn, likely))
            one = Portion(supply.name, use.role, amount, supply.unit, share)
            yield from _split(one, use, any_washing_of(turn.step))


def uses_of(supply: Supply, turn: Turn) -> list[Use]:
    """Return what the step of a turn takes of a supply in its zones, but for parts of a batch."""
    return [
        use
        for use in supply.uses
        if use.zone in turn.zones
        and use.role != "part of mix"
        and is_one_session(use.step, turn.step)
    ]


def _split(one: Portion, use: Use, wash: Wash | None) -> Iterator[Portion]:
    """Yield the water of a wash in two: for the cleaner, and clean for the rinse."""
    if wash is None or use.role != "water":
        yield one
        return
    rinse = float(rinse_l(use.area_m2, wash, likely))
    mixed = float(solution_l(use.area_m2, wash, likely)) * (1 - float(likely(wash.strength)))
    parts: tuple[tuple[Role, float], ...] = (("water", mixed), ("rinse", rinse))
    for role, part in parts:
        if part > 0:
            yield replace(one, role=role, amount=one.amount * part / (mixed + rinse))
