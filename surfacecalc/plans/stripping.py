"""How a stripper is taken off the wood, in the words of the plan, where no step does it."""

from collections.abc import Iterator, Sequence

from surfacecalc.catalogue.bases import is_caustic, taken_off_with
from surfacecalc.model.pieces import Piece
from surfacecalc.model.step_facts import stripper_of, washing_of
from surfacecalc.model.steps import Step

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
