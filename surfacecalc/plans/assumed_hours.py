"""How many hours of a plan come from each input: hands-on work, set-up, and waiting.

Work and set-up are added up over the tasks, and so is the wait before the next task. Curing goes on
beside everything else, so it counts once, and only where the day on which the piece can be used
comes from it.
"""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from surfacecalc.model.inputs import Quantity
from surfacecalc.model.ranges import Factor

if TYPE_CHECKING:  # a quote has no use for the search of a plan
    from surfacecalc.plans.plan import Plan
    from surfacecalc.plans.tasks import Task

WORKED: tuple[Quantity, ...] = ("rate", "time each", "time")
WAITED: tuple[Quantity, ...] = ("recoat", "drying after", "wait")


def hands_on_by_input(tasks: "Iterable[Task]") -> dict[Factor, float]:
    """Return the hands-on time that comes from each input [h], set-up and clean-up with it."""
    hours: dict[Factor, float] = {}
    for task in tasks:
        for factor in task.rests:
            if factor.what.quantity in WORKED:
                hours[factor] = hours.get(factor, 0.0) + task.work_h
            elif factor.what.quantity == "set-up":
                hours[factor] = hours.get(factor, 0.0) + task.set_up_h
    return hours


def hours_by_input(plan: "Plan") -> dict[Factor, float]:
    """Return the hours of work and of waiting that come from each assumed input of a plan [h]."""
    hours = hands_on_by_input(entry.task for entry in plan.entries)
    for entry in plan.entries:
        for factor in entry.task.rests:
            if factor.what.quantity in WAITED:
                hours[factor] = hours.get(factor, 0.0) + entry.task.wait.next_h
            elif factor.what.quantity == "cure" and entry.used_from == plan.used:
                hours[factor] = entry.task.wait.used_h
    return {factor: hours.get(factor, 0.0) for factor in plan.assumed}
