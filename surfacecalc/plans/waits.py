"""What each sitting of a step is followed by: the wait for the next, handling, use.

A wait is the longest of some times, each an input; so the plan, which takes the likely ones, and
the draws behind its dates, which take all, cannot drift apart.

A film that is rubbed out or waxed next waits until it is hard. A stripper works for minutes before
its next coat or the wash that takes it off, and the washed wood then dries as long as the stripper
asks: both common practice.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import assert_never

from surfacecalc.model.pieces import Piece
from surfacecalc.model.polishing import polished_in
from surfacecalc.model.ranges import Factor
from surfacecalc.model.step_facts import (
    any_washing_of,
    coat_left,
    coat_of,
    decoration_of,
    filling_of,
    hardware_worked,
    stripper_of,
    washing_of,
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


def waits(
    piece: Piece, steps: Sequence[Step], number: int, found: Sequence[Sitting]
) -> Iterator[Wait]:
    """Yield what comes after each sitting of a step.

    Args:
        piece: the piece.
        steps: of its zone.
        number: of the step among them, from 0.
        found: its sittings.
    """
    step = steps[number]
    usual = _usual(piece, step)
    for k, sitting in enumerate(found):
        is_last = k + 1 == len(found)
        if sitting.is_turn:
            yield _turned(usual, step)
        elif sitting.is_denib or (_goes_straight_on(step) and not is_last):
            yield Wait()  # the next grit, wash or coat follows at once
        else:
            yield _written(_followed(piece, steps, number, usual, is_last=is_last), step)


def _followed(
    piece: Piece, steps: Sequence[Step], number: int, usual: Wait, *, is_last: bool
) -> Wait:
    """Return the usual wait as what comes next, or came before, makes it."""
    step, then = steps[number], steps[number + 1 : number + 2]
    if stripper_of(step):
        if is_last and not any(stripper_of(k) or washing_of(k) for k in then):
            return usual
        works = usual_drying("stripper")
        return _until((Lasting(works, workshop_factor(piece.workshop)),), works)
    if washing_of(step):
        return usual if any(map(washing_of, then)) else _washed(piece, steps[:number], usual)
    return _hardened(piece, steps, number, usual) if is_last else usual


def _washed(piece: Piece, before: Sequence[Step], usual: Wait) -> Wait:
    """Return the wait after a wash; the wood is wet for longer where it took a stripper off."""
    last = next((step for step in reversed(before) if not washing_of(step)), None)
    stripper = stripper_of(last) if last is not None else None
    if stripper is None:
        return usual
    dries = drying_of(piece.shelf.products[stripper.product], piece.workshop)
    if dries is None:
        return usual
    return _until((*usual.next, dries.recoat), *usual.rests, dries.recoat.factor)


def _hardened(piece: Piece, steps: Sequence[Step], number: int, usual: Wait) -> Wait:
    """Return the wait after a last coat, longer where it is rubbed out or waxed next."""
    coat = coat_left(steps[number])
    products = piece.shelf.products
    if coat is None or coat.hardware is not None or coat.spot is not None:
        return usual
    if polished_in(steps, number, products) is None:
        return usual
    dries = drying_of(products[coat.product], piece.workshop)
    if dries is None or dries.rub_out is None:
        return usual
    rests = (*usual.rests, dries.rub_out.factor)
    return replace(usual, next=(*usual.next, dries.rub_out), rests=rests)


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
        rests=(written, *rests_on_dry, *usual.rests[2:3]),
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
    if coat_left(step) or decoration_of(step):  # a stencil is coated over and cures as paint does
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
