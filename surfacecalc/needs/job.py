"""What the whole job needs, summed by supply over all zones and steps."""

from collections.abc import Iterator
from dataclasses import replace
from typing import assert_never

from surfacecalc.model.pieces import Piece
from surfacecalc.model.shelf import SupplyKey
from surfacecalc.model.step_facts import abrading_of, any_washing_of, coat_of, handwork_of
from surfacecalc.model.steps import Coat, Fill, Handwork, Mask, Sand, Trial, Unmask, Wash
from surfacecalc.needs.coating import coat_uses
from surfacecalc.needs.consumables import consumable_uses
from surfacecalc.needs.draws import Draws
from surfacecalc.needs.filling import fill_uses
from surfacecalc.needs.hand import Hand, hand_of
from surfacecalc.needs.handwork import handwork_uses, test_uses
from surfacecalc.needs.masking import mask_uses
from surfacecalc.needs.mixing import add_components
from surfacecalc.needs.pot_life import add_thrown_away
from surfacecalc.needs.sanding import sanding_uses
from surfacecalc.needs.uses import Need, StepSite, Taken
from surfacecalc.needs.washing import wash_uses
from surfacecalc.zones.areas import Measured, ZoneArea
from surfacecalc.zones.worked_surfaces import (
    coated_m2,
    decorated_m2,
    share_of_session,
    slender_share,
    takes_first_coat,
    tape_error,
    thirsty_m2,
    washed_m2,
    worn_m2,
)


def job_needs(piece: Piece, measured: Measured, draws: Draws, job: str = "") -> list[Need]:
    """Return what a job needs: supplies by first use, abrasives by grit, coarse first.

    Args:
        piece: the piece.
        measured: its areas.
        draws: what evaluates the inputs.
        job: name of the piece where several may share one; default: its own.
    """
    found: dict[SupplyKey, Need] = {}
    hand = hand_of(piece, job)
    for zone in measured.zones:
        for number in range(len(zone.zone.steps)):
            for supplied, use in _step_uses(piece, measured, zone, number, draws, hand):
                found.setdefault(supplied, Need(supplied)).uses.append(use)
    add_thrown_away(piece, measured, found, draws)
    add_components(piece, found)
    return list(in_order(list(found.values())))


def _step_uses(
    piece: Piece, measured: Measured, zone: ZoneArea, number: int, draws: Draws, hand: Hand
) -> Iterator[Taken]:
    """Yield what one step in one zone takes."""
    step = zone.zone.steps[number]
    share = share_of_session(zone, step, measured.zones)
    tape = tape_error(zone, piece.settings.measured_to_mm)
    place = StepSite(zone.zone.name, zone.area_m2, step, draws, share, tape, hand)
    coat = coat_of(step)
    if coat is not None:
        product = piece.shelf.products[coat.product]
        place = replace(place, area_m2=coated_m2(zone, coat, product, piece))
    wash = any_washing_of(step)
    if wash is not None:
        place = replace(place, area_m2=washed_m2(zone, wash, piece))
    abrading, handwork = abrading_of(step), handwork_of(step)
    if abrading is not None:
        place = replace(place, area_m2=worn_m2(zone, abrading))
    if handwork is not None and handwork.decor is not None:
        place = replace(place, area_m2=decorated_m2(zone, handwork.decor, share))
        place = place if handwork.decor.share else replace(place, tape=None)
    yield from _own_uses(piece, zone, number, place)
    yield from consumable_uses(piece, measured, zone, place)


def _own_uses(piece: Piece, zone: ZoneArea, number: int, place: StepSite) -> Iterator[Taken]:
    """Yield what a step takes by what it is; consumables are the same for all."""
    step = place.step
    match step:
        case Coat():
            bare = takes_first_coat(zone.zone.steps, number, zone.zone.surface)
            product = piece.shelf.products[step.product]
            extra_m2, slender = thirsty_m2(zone, step, product), slender_share(zone, step, product)
            yield from coat_uses(piece, step, place, bare=bare, extra_m2=extra_m2, slender=slender)
        case Sand():
            yield from sanding_uses(piece, zone, step, place)
        case Wash():
            yield from wash_uses(piece, step, place)
        case Fill():
            yield from fill_uses(piece, step, place)
        case Mask():
            yield from mask_uses(piece, zone, step, replace(place, tape=None))
        case Trial():
            yield from test_uses(piece, step, place)
        case Unmask():
            pass  # what is taken off needs nothing
        case Handwork():
            yield from handwork_uses(piece, step, place)
        case _:
            assert_never(step)


def in_order(needs: list[Need]) -> Iterator[Need]:
    """Yield needs by first use, all grits of an abrasive where its first one stands."""
    done: set[str] = set()
    for need in needs:
        if need.grit is None:
            yield need
        elif need.name not in done:
            done.add(need.name)
            grits = [other for other in needs if other.grit and other.name == need.name]
            yield from sorted(grits, key=lambda other: other.grit or 0)
