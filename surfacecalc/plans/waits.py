"""What each sitting of a step is followed by: the wait for the next, handling, use.

A wait is the longest of some times, each an input; so the plan, which takes the likely ones, and
the draws behind its dates, which take all, cannot drift apart.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import assert_never

from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Factor
from surfacecalc.model.step_facts import (
    any_washing_of,
    coat_left,
    coat_of,
    filling_of,
    hardware_worked,
)
from surfacecalc.model.steps import Coat, Fill, Handwork, Mask, Sand, Step, Trial, Unmask, Wash
from surfacecalc.plans.drying import Dries, Lasting, drying_of, workshop_factor
from surfacecalc.work.rates import usual_drying
from surfacecalc.work.sittings import Sitting


@dataclass(frozen=True)
class Wait:
    """What comes after a task; where several times are named, the longest of them.

    Attributes:
        next: until the next task of the zone.
        dry: until it can be touched and turned over, and no dust sticks to it.
        handled: until what was done can be handled if nothing more is done: it is dry, and hard
            enough for the next task.
        used: until what was done can be used.
        unknown: products of which no drying time is known, so that no wait is counted.
        rests: what that rests on.
    """

    next: tuple[Lasting, ...] = ()
    dry: tuple[Lasting, ...] = ()
    handled: tuple[Lasting, ...] = ()
    used: tuple[Lasting, ...] = ()
    unknown: tuple[str, ...] = ()
    rests: tuple[Factor, ...] = ()

    @property
    def next_h(self) -> float:
        """Until the next task of the zone [h]."""
        return _likely_h(self.next)

    @property
    def dry_h(self) -> float:
        """Until it is dry [h]."""
        return _likely_h(self.dry)

    @property
    def handled_h(self) -> float:
        """Until it can be handled [h]."""
        return _likely_h(self.handled)

    @property
    def used_h(self) -> float:
        """Until it can be used [h]."""
        return _likely_h(self.used)


def _likely_h(times: tuple[Lasting, ...]) -> float:
    return max((one.likely_h for one in times), default=0.0)


def waits(piece: Piece, step: Step, found: Sequence[Sitting]) -> Iterator[Wait]:
    """Yield what comes after each sitting of a step."""
    usual = _usual(piece, step)
    for k, sitting in enumerate(found):
        follower = found[k + 1] if k + 1 < len(found) else None
        if sitting.is_turn:
            yield _turned(usual, step)
        elif sitting.is_denib or (_goes_straight_on(step) and follower is not None):
            yield Wait()  # the next grit, wash or coat follows at once
        else:
            yield _written(usual, step)


def _goes_straight_on(step: Step) -> bool:
    """Whether the next grit or washing of a step follows at once."""
    match step:
        case Sand() | Wash():
            return True
        case Coat() | Fill() | Mask() | Unmask() | Trial() | Handwork():
            return False
        case _:
            assert_never(step)


def _written(usual: Wait, step: Step) -> Wait:
    """Return the usual wait, or what the step says instead."""
    written = step.work.wait_h
    if written is None:
        return usual
    wait = (Lasting(written),)
    if usual.unknown or any_washing_of(step):
        return _until(wait, written)
    rests_on_dry = usual.rests[:1] if usual.dry_h > _likely_h(wait) else ()
    return Wait(
        next=wait,
        dry=usual.dry,
        handled=(*wait, *usual.dry),
        used=(*wait, *usual.dry, *usual.used),
        rests=(written, *rests_on_dry, *usual.rests[2:]),
    )


def _turned(usual: Wait, step: Step) -> Wait:
    """Return the wait before the piece is turned over: as soon as it can be handled."""
    written = step.work.wait_h
    if usual.unknown and written is not None:
        return _until((Lasting(written),), written)
    return replace(_until(usual.dry, *usual.rests[:1]), unknown=usual.unknown)


def _until(times: tuple[Lasting, ...], *rests: Factor) -> Wait:
    """Return a wait after which what was done is dry, and can be gone on with, handled or used."""
    return Wait(next=times, dry=times, handled=times, used=times, rests=rests)


def _usual(piece: Piece, step: Step) -> Wait:
    if any_washing_of(step):
        drying = usual_drying("wash" if hardware_worked(step) is None else "washing hardware")
        return _until((Lasting(drying, workshop_factor(piece.workshop)),), drying)
    names = wet_products(step)
    dries = {name: drying_of(piece.shelf.products[name], piece.workshop) for name in names}
    known = [found for found in dries.values() if found is not None]
    unknown = tuple(name for name, found in dries.items() if found is None)
    if not known:
        return Wait(unknown=unknown)
    return _of_product(step, max(known, key=lambda found: found.dry.likely_h), unknown)


def _of_product(step: Step, dries: Dries, unknown: tuple[str, ...]) -> Wait:
    """Return the wait for a product; its times come in the order dry, recoat, cure when read."""
    dry, recoat = (dries.dry,), (dries.recoat,)
    if coat_left(step):
        return Wait(recoat, dry, recoat, (dries.cure,), unknown, dries.rests)
    then = recoat if coat_of(step) or filling_of(step) else dry
    return Wait(then, dry, then, then, unknown, dries.rests[:2])


def wet_products(step: Step) -> tuple[str, ...]:
    """Return the products that dry after a step."""
    match step:
        case Coat() | Fill():
            return (step.product,)
        case Trial():
            return step.products
        case Handwork():
            return () if step.product is None else (step.product,)
        case Sand() | Wash() | Mask() | Unmask():
            return ()
        case _:
            assert_never(step)
