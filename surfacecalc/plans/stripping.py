"""How a stripper is taken off the wood where no step does it, and one that is left on too long."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime
from itertools import groupby, pairwise

from surfacecalc.catalogue.bases import is_caustic, taken_off_with
from surfacecalc.model.pieces import Piece
from surfacecalc.model.step_facts import stripper_of, washing_of
from surfacecalc.model.steps import Step
from surfacecalc.work.task_words import format_moment

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


Span = tuple[str, int, datetime, datetime]
"""Zone and step of a task, from 1, and when it begins and is over."""


def remarks_on_strippers(piece: Piece, spans: Iterable[Span]) -> Iterator[str]:
    """Yield strippers that the hours leave on the wood until another day, where they dry on.

    Args:
        piece: the piece.
        spans: the tasks, those of each zone one after the other in the order of its steps.
    """
    steps = {zone.name: zone.steps for zone in piece.zones}
    for zone, of_zone in groupby(spans, lambda span: span[0]):
        for (_, number, _, ends), (_, then, begins, _) in pairwise(of_zone):
            stripper = stripper_of(steps[zone][number - 1])
            follows = steps[zone][then - 1]
            is_next = stripper_of(follows) or washing_of(follows)
            if stripper and is_next and begins.date() > ends.date():
                yield (
                    f'{stripper.product} stays on "{zone}" from {format_moment(ends)} to'
                    f" {format_moment(begins)}, and a stripper that dries is hard to get off:"
                    " put it on when there is time to take it off on the same day, or give that"
                    " day longer hours."
                )
