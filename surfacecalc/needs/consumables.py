"""How much is used up of cloths, gloves, brushes and the like."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import assert_never

from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Evaluate, Factor, Number
from surfacecalc.model.shelf import Consumable, SupplyKey
from surfacecalc.model.step_facts import coat_of, hardware_worked
from surfacecalc.model.steps import Coat, Fill, Handwork, Mask, Sand, Step, Trial, Unmask, Wash
from surfacecalc.needs.coating import coat_count
from surfacecalc.needs.uses import StepSite, Taken
from surfacecalc.work.sittings import sittings
from surfacecalc.zones.areas import Measured, ZoneArea


def passes(step: Step, evaluate: Evaluate) -> Number:
    """Return how often a step goes over its area: each coat, grit or washing once."""
    match step:
        case Coat():
            return coat_count(step, evaluate)
        case Sand():
            return float(len(step.grits))
        case Wash():
            return float(step.times)
        case Fill():
            return float(step.applications)
        case Mask() | Unmask() | Trial() | Handwork():
            return 1.0
        case _:
            assert_never(step)


def pass_factors(step: Step) -> list[Factor]:
    """Return the inputs of how often a step goes over its area."""
    match step:
        case Coat():
            return [step.coats, *([step.more_coats] if step.more_coats else [])]
        case Sand() | Wash() | Fill() | Mask() | Unmask() | Trial() | Handwork():
            return []
        case _:
            assert_never(step)


def consumable_uses(
    piece: Piece, measured: Measured, zone: ZoneArea, place: StepSite
) -> Iterator[Taken]:
    """Yield what a step uses up.

    Args:
        piece: the piece.
        measured: its areas.
        zone: where the step is done.
        place: the same, with the area that the step goes over.
    """
    for name in place.step.work.uses:
        item = piece.shelf.consumables[name]
        counted = pass_factors(place.step) if item.by in ("area", "sessions") else []
        amount = _amount(item, _counted(piece, measured, zone, place, item))
        worn = name if item.by in ("area", "time") else ""
        # sessions and jobs are counted: no area, and no error of a tape, is in them
        site = place if worn else replace(place, tape=None)
        use = site.use(amount, [item.lasts, *counted], used_up=worn)
        yield SupplyKey("consumable", name), use


def _amount(
    item: Consumable, counted: Callable[[Evaluate], Number]
) -> Callable[[Evaluate], Number]:
    return lambda evaluate: counted(evaluate) / evaluate(item.lasts)


def _counted(
    piece: Piece, measured: Measured, zone: ZoneArea, place: StepSite, item: Consumable
) -> Callable[[Evaluate], Number]:
    """Return how much of what a consumable lasts for a step takes: m2, h, sessions or jobs."""
    step = place.step
    if item.by == "area":
        area_m2 = place.area_m2 * (place.share if hardware_worked(step) is not None else 1.0)
        return lambda evaluate: area_m2 * passes(step, evaluate)
    if item.by == "sessions":
        sides = step.work.sides if coat_of(step) is not None else 1
        return lambda evaluate: place.share * sides * passes(step, evaluate)
    if item.by == "time":
        hours = sum(sitting.work_h for sitting in sittings(piece, zone, step, place.share))
        return lambda _: hours
    uses = [name for z in measured.zones for s in z.zone.steps for name in s.work.uses]
    return lambda _: 1 / uses.count(item.name)
