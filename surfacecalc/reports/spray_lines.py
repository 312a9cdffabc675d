"""What goes through the spray gun, coat by coat, for whoever asks where the cups come from."""

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from rich.console import Console

from surfacecalc.needs.spraying import SprayLoad
from surfacecalc.problems import printable
from surfacecalc.units.display import Units, format_amount

if TYPE_CHECKING:  # of no use to the supply list, which starts sooner without it
    from surfacecalc.plans.plan import Plan


def print_spray(out: Console, plan: "Plan", units: Units) -> None:
    """Print how much is sprayed in each session of a plan; nothing where nothing is sprayed."""
    found = [(entry.task, entry.task.spray) for entry in plan.entries if entry.task.spray]
    if not found:
        return
    out.print("How much is sprayed", style="bold")
    for task, load in found:
        if load is not None:
            out.print(printable(f"{task.zone}, {task.words}: {load_words(load, units)}"))
    out.print()


def load_words(load: SprayLoad, units: Units) -> str:
    """Return what one coat takes of the gun."""
    amount = format_amount(load.litres, "L", units)
    if load.cup is None or load.fillings is None:
        return amount
    holds = format_amount(load.cup.range.likely, "L", units)
    mark = ", assumed" if load.cup.source == "assumed" else ""
    cups = "cup" if load.fillings == 1 else "cups"
    return f"{amount}, {load.fillings} {cups} of {holds}{mark}"


def coats_sprayed(loads: Iterable[SprayLoad], units: Units, sides: int = 1) -> Iterator[str]:
    """Yield what each coat, or each side of it, takes of the gun; one line where all are alike.

    Args:
        loads: what each coat takes, or one side of it.
        units: the units to show.
        sides: how many sides are sprayed one after the other.
    """
    lines = [load_words(load, units) for load in loads]
    side = "each side of " if sides > 1 else ""
    told = [f"{side}coat {number} {line}" for number, line in enumerate(lines, start=1)]
    if len(lines) > 1 and len(set(lines)) == 1:
        told = [f"{'each side of a' if side else 'each'} coat {lines[0]}"]
    for line in told:
        yield f"sprayed, with what is stirred in: {line}"
