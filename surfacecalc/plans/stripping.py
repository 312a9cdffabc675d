"""How a stripper is taken off the wood, in the words of the plan: if no step does it, or late."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from surfacecalc.catalogue.bases import is_caustic, taken_off_with
from surfacecalc.model.pieces import Piece
from surfacecalc.model.step_facts import stripper_of, washing_of
from surfacecalc.model.steps import Step
from surfacecalc.problems import listing

if TYPE_CHECKING:
    from surfacecalc.plans.plan import PlanEntry

NEUTRALISED = "neutralise it with vinegar in water"
"""What a lye needs besides the wash that follows it: common practice."""


def unwashed_strippers(piece: Piece, steps: Sequence[Step]) -> Iterator[tuple[int, str]]:
    """Yield the number of each last step with a stripper and how that is taken off the wood.

    A wash that follows takes it off; only a lye is neutralised before that wash.
    """
    for number, step in enumerate(steps):
        stripper = stripper_of(step)
        following = steps[number + 1 : number + 2]
        if stripper is None or any(map(stripper_of, following)):
            continue
        product = piece.shelf.products[stripper.product]
        if not any(map(washing_of, following)):
            yield number, taken_off_with(product)
        elif is_caustic(product):
            yield number, NEUTRALISED


def remarks_on_stripper(piece: Piece, entries: Sequence["PlanEntry"]) -> Iterator[str]:
    """Yield which zones have stripper on them overnight, where it would dry: common practice."""
    steps = {zone.name: zone.steps for zone in piece.zones}
    done: dict[str, list[tuple[Step, PlanEntry]]] = {name: [] for name in steps}
    for entry in entries:
        task = entry.task
        for name in () if task.off else task.zones:
            done[name].append((steps[task.zone][task.step - 1], entry))
    zones = [f'"{name}"' for name, found in done.items() if _is_wet_overnight(found)]
    if zones:
        yield (
            f"Stripper is still on {listing(zones)} at closing time: scrape it off that day, or"
            " keep it wet under plastic film, since it is hard to remove once it dries."
        )


def _is_wet_overnight(done: Sequence[tuple[Step, "PlanEntry"]]) -> bool:
    """Whether a stripper waits for another day for its next coat or for its wash."""
    return any(
        stripper_of(step) is not None
        and (stripper_of(following) or washing_of(following)) is not None
        and one.ends.date() < then.starts.date()
        for (step, one), (following, then) in pairwise(done)
    )
