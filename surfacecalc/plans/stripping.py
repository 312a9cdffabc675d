"""How a stripper is taken off the wood where no step does it, and where it stays on too long."""

from collections.abc import Iterator, Sequence
from datetime import timedelta
from typing import TYPE_CHECKING

from surfacecalc.catalogue.bases import is_caustic, taken_off_with
from surfacecalc.model.pieces import Piece
from surfacecalc.model.step_facts import stripper_of, washing_of
from surfacecalc.model.steps import Step
from surfacecalc.work.task_words import format_moment

if TYPE_CHECKING:  # which asks this module
    from surfacecalc.plans.plan import PlanEntry

LONGEST_WET = timedelta(hours=4)
"""How long a stripper may stay on before it dries on the wood: assumed, common practice."""

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


def remarks_on_dried_stripper(piece: Piece, entries: Sequence["PlanEntry"]) -> Iterator[str]:
    """Yield the first stripper in each zone that stays on longer than it works.

    Args:
        piece: the piece.
        entries: the tasks of its plan, in the order in which they are done.
    """
    steps = {zone.name: zone.steps for zone in piece.zones}
    told: set[str] = set()
    for one in entries:
        zone = one.task.zone
        stripper = stripper_of(steps[zone][one.task.step - 1])
        then = next((k for k in entries if k.task.zone == zone and k.starts > one.starts), None)
        if stripper is None or then is None or zone in told:
            continue
        put_on = one.sessions[0][1]
        if then.starts - put_on > LONGEST_WET:
            told.add(zone)
            yield (
                f'Left on "{zone}" from {format_moment(put_on)} to {format_moment(then.starts)},'
                f" {stripper.product} dries on. Strip only as much as you can also scrape and wash"
                " on the same day, or begin on a day with more hours."
            )
