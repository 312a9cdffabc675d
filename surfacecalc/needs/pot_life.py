"""What is mixed for each session of a coat that sets, and what of it is thrown away.

A session is one coat on all zones that share the step, or one side of it where the piece is turned
over. Its batch is mixed before anybody knows what it will take, so it is made for the point that is
bought for and rounded up to what can be measured. What is left when the pot life ends is waste.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from surfacecalc.closeness import whole_up
from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Evaluate, Factor, Number, highest, likely
from surfacecalc.model.shelf import SupplyKey
from surfacecalc.model.step_facts import coat_of, coats_of, is_one_session, session_key
from surfacecalc.model.steps import Coat
from surfacecalc.needs.coating import coat_count
from surfacecalc.needs.draws import Draws
from surfacecalc.needs.uses import Need, Role, Use
from surfacecalc.work.sittings import sittings
from surfacecalc.zones.areas import Measured
from surfacecalc.zones.worked_surfaces import share_of_session

MEASURE = 0.005
"""L or kg: 5 ml on a measuring cup, 5 g on kitchen scales; assumed, as for a mix of colours."""
MIXED: tuple[Role, ...] = ("step", "thinner", "tint", "hardener")
"""What is in the cup."""


@dataclass(frozen=True)
class Batches:
    """How a coat is mixed.

    Attributes:
        coat: the step.
        hours: hands-on time of one session [h].
        pot_life: how long a batch stays usable [h].
        sides: sessions of one coat.
        each: batches in one session, so many that none sets before it is used up.
    """

    coat: Coat
    hours: float
    pot_life: Factor
    sides: int
    each: int

    @property
    def in_coat(self) -> int:
        """How many batches one coat takes."""
        return self.sides * self.each


def each_coat(piece: Piece) -> Iterator[Coat]:
    """Yield each coat once, whatever zones share it; one in another colour is another coat."""
    coats = (coat for zone in piece.zones for coat in coats_of(zone.steps))
    yield from {(coat.line, coat.product): coat for coat in coats}.values()


def batches_of(piece: Piece, measured: Measured, coat: Coat) -> Batches | None:
    """Return how a coat is mixed, None where nothing in it sets.

    A pot life that is a range counts with its shorter end: a batch that sets in the cup is lost.
    """
    if coat.pot_life is None:
        return None
    hours = session_hours(piece, measured, coat)
    each = max(1, whole_up(hours / coat.pot_life.range.low))
    return Batches(coat, hours, coat.pot_life, coat.work.sides, each)


def session_hours(piece: Piece, measured: Measured, coat: Coat) -> float:
    """Return how long one coat takes on all zones that share the step [h], of a side if turned."""
    total = 0.0
    for zone in measured.zones:
        for step in zone.zone.steps:
            if is_one_session(step, coat):
                share = share_of_session(zone, step, measured.zones)
                total += next(sittings(piece, zone, step, share)).work_h
    return total


def add_thrown_away(
    piece: Piece, measured: Measured, found: dict[SupplyKey, Need], draws: Draws
) -> None:
    """Add to the needs what is left of each batch when it sets: of all that is in the cup."""
    for mixed in dict.fromkeys(map(session_key, _setting(found))):
        in_cup = [
            (need, use)
            for need in found.values()
            for use in need.uses
            if session_key(use.step) == mixed and use.role in MIXED and use.first_coats
        ]
        coat = coat_of(in_cup[0][1].step)
        how = batches_of(piece, measured, coat) if coat else None
        if how is not None:
            waste = _Waste(piece, how, [use for _, use in in_cup], draws)
            for need, use in in_cup:
                need.uses.append(waste.of(use, draws))


def _setting(found: dict[SupplyKey, Need]) -> Iterator[Coat]:
    for need in found.values():
        for coat in (coat_of(use.step) for use in need.uses):
            if coat is not None and coat.pot_life is not None:
                yield coat


def one_coat(use: Use, number: int, evaluate: Evaluate) -> Number:
    """Return what one coat takes of what is in a use [L or kg].

    Args:
        use: of a coat.
        number: of the coat, from 1.
        evaluate: turns factors into numbers.
    """
    assert use.first_coats is not None  # noqa: S101 - only uses of coats are asked
    before = use.first_coats(evaluate, number - 1) if number > 1 else 0.0
    return use.first_coats(evaluate, number) - before


def of_product(uses: Iterable[Use], number: int, evaluate: Evaluate) -> Number:
    """Return what one coat takes of its product in all zones that share the step [L or kg]."""
    total: Number = 0.0
    for use in uses:
        if use.role == "step":
            total = total + one_coat(use, number, evaluate)
    return total


class _Waste:
    """What is thrown away of the batches of a coat.

    Attributes:
        coats: the most coats that it may get.
        mixed: how much of the product goes into the cup for each coat [L or kg].
    """

    def __init__(self, piece: Piece, how: Batches, uses: list[Use], draws: Draws) -> None:
        self._how, self._uses, self._draws = how, uses, draws
        self.coats = int(coat_count(how.coat, highest))
        step = piece.shelf.products[how.coat.product].batch_step or MEASURE
        taken = [of_product(uses, number, draws) for number in range(1, self.coats + 1)]
        self.mixed = [made_for(one, how, step, piece.settings.buy_for) for one in taken]
        self._over = [_over(mixed, one) for mixed, one in zip(self.mixed, taken, strict=True)]

    def _wasted(self, number: int, evaluate: Evaluate) -> Number:
        """Return what is wasted of a coat as a share of what it takes; of the draws it is known."""
        if evaluate is self._draws:
            return self._over[number - 1]
        return _over(self.mixed[number - 1], of_product(self._uses, number, evaluate))

    def of(self, use: Use, draws: Draws) -> Use:
        """Return what is thrown away of something in the cup, as a use of its own."""

        def amount(evaluate: Evaluate) -> Number:
            return self._of_coats(use, evaluate, self.coats)

        def first(evaluate: Evaluate, coats: int) -> Number:
            return self._of_coats(use, evaluate, min(coats, self.coats))

        drawn = amount(draws)
        return Use(
            zone=use.zone,
            area_m2=use.area_m2,
            step=use.step,
            role="thrown away",
            share=use.share,
            likely=float(amount(likely)),
            drawn=float(drawn) if isinstance(drawn, int | float) else drawn,
            factors=(*use.factors, self._how.pot_life),
            batches=self._how.in_coat,
            amount=amount,
            first_coats=first,
        )

    def _of_coats(self, use: Use, evaluate: Evaluate, coats: int) -> Number:
        total: Number = 0.0
        for number in range(1, coats + 1):
            total = total + one_coat(use, number, evaluate) * self._wasted(number, evaluate)
        return total if np.ndim(total) else float(total)


def _over(mixed: float, taken: Number) -> Number:
    """Return how much more is mixed than taken, as a share of what is taken."""
    return np.maximum(mixed / np.where(np.greater(taken, 0), taken, 1.0) - 1, 0.0)


def made_for(taken: Number, how: Batches, step: float, point: float) -> float:
    """Return how much of the product is mixed for one coat [L or kg].

    Args:
        taken: what the coat takes, one number or one for each draw; nothing where it is not put on.
        how: the batches it is mixed in.
        step: each batch is rounded up to a multiple of this [L or kg].
        point: that the batches are made for, a fraction of one.
    """
    put_on = np.atleast_1d(taken)
    put_on = put_on[put_on > 0]
    if not put_on.size:
        return 0.0
    each = float(np.quantile(put_on, point)) / how.in_coat
    return whole_up(each / step) * step * how.in_coat
