"""How much is used up of cloths, gloves, brushes and the like."""

from collections.abc import Callable, Iterator

from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Evaluate, Factor, Number
from surfacecalc.model.shelf import Consumable, SupplyKey
from surfacecalc.model.steps import Coat, Fill, Sand, Step, Wash
from surfacecalc.needs.coating import coat_count
from surfacecalc.needs.uses import StepSite, Taken
from surfacecalc.work.sittings import sittings
from surfacecalc.zones.areas import Measured, ZoneArea


def passes(step: Step, evaluate: Evaluate) -> Number:
    """Return how often a step goes over its area: each coat, grit or washing once."""
    if isinstance(step, Coat):
        return coat_count(step, evaluate)
    if isinstance(step, Sand):
        return float(len(step.grits))
    if isinstance(step, Wash):
        return float(step.times)
    return float(step.applications) if isinstance(step, Fill) else 1.0


def pass_factors(step: Step) -> list[Factor]:
    """Return the inputs of how often a step goes over its area."""
    if not isinstance(step, Coat):
        return []
    return [step.coats, *([step.more_coats] if step.more_coats else [])]


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
        yield SupplyKey("consumable", name), place.use(amount, [item.lasts, *counted])


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
        counts_once = isinstance(step, Coat) and step.hardware is not None
        area_m2 = place.area_m2 * (place.share if counts_once else 1.0)
        return lambda evaluate: area_m2 * passes(step, evaluate)
    if item.by == "sessions":
        return lambda evaluate: place.share * passes(step, evaluate)
    if item.by == "time":
        hours = sum(sitting.work_h for sitting in sittings(piece, zone, step, place.share))
        return lambda _: hours
    uses = [name for z in measured.zones for s in z.zone.steps for name in s.work.uses]
    return lambda _: 1 / uses.count(item.name)
