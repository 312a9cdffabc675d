"""What each sitting of a step is followed by: the wait for the next, handling, use."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import assert_never

from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Factor
from surfacecalc.model.step_facts import coat_left, coat_of, filling_of, washing_of
from surfacecalc.model.steps import Coat, Fill, Handwork, Mask, Sand, Step, Trial, Wash
from surfacecalc.plans.drying import Dries, drying_of, workshop_factor
from surfacecalc.work.rates import usual_drying
from surfacecalc.work.sittings import Sitting


@dataclass(frozen=True)
class Wait:
    """What comes after a task.

    Attributes:
        next_h: until the next task of the zone [h].
        dry_h: until it can be touched and turned over, and no dust sticks to it [h].
        handled_h: until what was done can be handled if nothing more is done [h]: it is dry, and
            hard enough for the next task.
        used_h: until what was done can be used [h].
        unknown: products of which no drying time is known, so that no wait is counted.
        rests: what that rests on.
    """

    next_h: float = 0.0
    dry_h: float = 0.0
    handled_h: float = 0.0
    used_h: float = 0.0
    unknown: tuple[str, ...] = ()
    rests: tuple[Factor, ...] = ()


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
        case Coat() | Fill() | Mask() | Trial() | Handwork():
            return False
        case _:
            assert_never(step)


def _written(usual: Wait, step: Step) -> Wait:
    """Return the usual wait, or what the step says instead."""
    written = step.work.wait_h
    if written is None:
        return usual
    wait_h = written.range.likely
    if usual.unknown or washing_of(step):
        return _until(wait_h, written)
    handled_h = max(wait_h, usual.dry_h)
    rests_on_dry = usual.rests[:1] if handled_h > wait_h else ()
    return Wait(
        next_h=wait_h,
        dry_h=usual.dry_h,
        handled_h=handled_h,
        used_h=max(handled_h, usual.used_h),
        rests=(written, *rests_on_dry, *usual.rests[2:]),
    )


def _turned(usual: Wait, step: Step) -> Wait:
    """Return the wait before the piece is turned over: as soon as it can be handled."""
    written = step.work.wait_h
    if usual.unknown and written is not None:
        return _until(written.range.likely, written)
    return replace(_until(usual.dry_h, *usual.rests[:1]), unknown=usual.unknown)


def _until(hours: float, *rests: Factor) -> Wait:
    """Return a wait after which what was done is dry, and can be gone on with, handled or used."""
    return Wait(next_h=hours, dry_h=hours, handled_h=hours, used_h=hours, rests=rests)


def _usual(piece: Piece, step: Step) -> Wait:
    if washing_of(step):
        drying = usual_drying("wash")
        return _until(drying.range.likely * workshop_factor(piece.workshop), drying)
    names = wet_products(step)
    dries = {name: drying_of(piece.shelf.products[name], piece.workshop) for name in names}
    known = [found for found in dries.values() if found is not None]
    unknown = tuple(name for name, found in dries.items() if found is None)
    if not known:
        return Wait(unknown=unknown)
    return _of_product(step, max(known, key=lambda found: found.dry_h), unknown)


def _of_product(step: Step, dries: Dries, unknown: tuple[str, ...]) -> Wait:
    """Return the wait for a product; its times come in the order dry, recoat, cure when read."""
    if coat_left(step):
        next_h = dries.recoat_h
        return Wait(next_h, dries.dry_h, next_h, dries.cure_h, unknown, dries.rests)
    next_h = dries.recoat_h if coat_of(step) or filling_of(step) else dries.dry_h
    return Wait(next_h, dries.dry_h, next_h, next_h, unknown, dries.rests[:2])


def wet_products(step: Step) -> tuple[str, ...]:
    """Return the products that dry after a step."""
    match step:
        case Coat() | Fill():
            return (step.product,)
        case Trial():
            return step.products
        case Handwork():
            return () if step.product is None else (step.product,)
        case Sand() | Wash() | Mask():
            return ()
        case _:
            assert_never(step)
