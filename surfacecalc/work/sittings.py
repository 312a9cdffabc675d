"""What the hands do in a step: its sittings, each one coat, one grit or one pass.

`time` in a step is for the whole of it in each zone and is shared out evenly over its coats, grits
or passes; `rate` is for each of them. Denibbing between coats comes on top, at its usual rate.
What is counted (joints, holes, hardware, a test patch) is done once for all zones that share a
schedule: each zone has its share of the time by area, also of a written one.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import assert_never

from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Factor
from surfacecalc.model.step_facts import is_by_area, likely_coats
from surfacecalc.model.steps import (
    Between,
    Coat,
    Decor,
    Fill,
    Handwork,
    Mask,
    Sand,
    Step,
    Trial,
    Unmask,
    Wash,
)
from surfacecalc.model.taped_steps import masks_taken_off
from surfacecalc.work.rates import Sort, usual_rate, usual_time
from surfacecalc.work.task_words import GritPass, coat_words, grit_words, hand_words, time_words
from surfacecalc.zones.areas import ZoneArea
from surfacecalc.zones.masked_lines import masked_m, masked_zones
from surfacecalc.zones.worked_surfaces import decorated_m2, hardware_m2


@dataclass(frozen=True)
class Sitting:
    """What is done at one go.

    Attributes:
        words: what it is.
        sort: what set-up and clean-up depend on.
        work_h: hands-on time [h].
        can_pause: whether it may stop at closing time and go on later.
        is_turn: whether the piece is turned over after it, and the same goes on.
        is_denib: whether it is the light pass between two coats.
        rests: what its time rests on.
        share: of what is counted once for several zones, the part that is this zone's.
        grit_pass: the pass that it is with one grit, None for anything else.
    """

    words: str
    sort: Sort
    work_h: float
    can_pause: bool
    is_turn: bool = False
    is_denib: bool = False
    rests: tuple[Factor, ...] = ()
    share: float = 1.0
    grit_pass: GritPass | None = None


def sittings(piece: Piece, zone: ZoneArea, step: Step, share: float) -> Iterator[Sitting]:
    """Yield what is done in a step of a zone, in order; nothing where there is nothing to mask.

    Args:
        piece: the piece.
        zone: the zone.
        step: the step.
        share: of what zones that share a schedule do once between them, the part that is this
            zone's.
    """
    for sitting in _plain_sittings(piece, zone, step, share):
        if step.work.sides == 1 or sitting.is_denib:
            yield sitting
            continue
        for side in range(1, step.work.sides + 1):
            yield replace(
                sitting,
                words=f"{sitting.words}, side {side} of {step.work.sides}",
                work_h=sitting.work_h / step.work.sides,
                is_turn=side < step.work.sides,
                grit_pass=None,
            )


def _plain_sittings(piece: Piece, zone: ZoneArea, step: Step, share: float) -> Iterator[Sitting]:
    match step:
        case Coat():
            yield from _coats(piece, zone, step, share)
        case Sand():
            yield from _sandings(zone, step)
        case Wash():
            yield from _washings(piece, zone, step, share)
        case Fill():
            yield from _fillings(zone, step, share)
        case Mask():
            yield from _masking(zone, step, share)
        case Unmask():
            yield from _unmasking(zone, step)
        case Trial():
            yield _trial(step, share)
        case Handwork():
            yield from _handwork(zone, step, share)
        case _:
            assert_never(step)


def _sandings(zone: ZoneArea, step: Sand) -> Iterator[Sitting]:
    usual = usual_rate(step.do, step.by)
    worn = step.worn.range.likely if step.worn else 1.0
    work_h, rests = _time(step, zone.labour_m2 * worn, len(step.grits), usual)
    slower = usual_rate(step.do, "hand")
    if usual.what in {factor.what for factor in rests} and step.by == "machine" and zone.by_hand_m2:
        by_machine_m2 = zone.labour_m2 - zone.by_hand_m2
        work_h = by_machine_m2 / usual.range.likely + zone.by_hand_m2 / slower.range.likely
        work_h, rests = work_h * worn, (*rests, slower)
    for grit in step.grits:
        one = GritPass(step.do, grit, step.by)
        yield Sitting(grit_words([one]), "sand", work_h, can_pause=True, rests=rests, grit_pass=one)


def _washings(piece: Piece, zone: ZoneArea, step: Wash, share: float) -> Iterator[Sitting]:
    if step.hardware is None:
        share, what = 1.0, ""
        work_h, rests = _time(step, zone.labour_m2, step.times, usual_rate("wash", "hand"))
    else:
        hardware, each = piece.shelf.hardware[step.hardware], usual_time("piece of hardware washed")
        what = f" {hardware.name}{_total(hardware.count, share)}"
        area_m2, usual_h = hardware_m2(hardware) * share, hardware.count * each.range.likely
        work_h, rests = _time(step, area_m2, step.times, each, usual_h, share=share)
    for number in range(step.times):
        words = f"wash{what} with {step.product}{time_words(number, step.times)}"
        yield Sitting(words, "wash", work_h, can_pause=True, rests=rests, share=share)


def _coats(piece: Piece, zone: ZoneArea, step: Coat, share: float) -> Iterator[Sitting]:
    coats = likely_coats(step)
    if step.hardware is None:
        share, pieces = 1.0, ""
        area_m2 = zone.labour_m2 * (step.spot.range.likely if step.spot else 1.0)
        work_h, rests = _time(step, area_m2, coats, usual_rate(step.do, step.by))
    else:
        hardware, each = (
            piece.shelf.hardware[step.hardware],
            usual_time("coat of one piece of hardware"),
        )
        pieces = _total(hardware.count, share)
        area_m2 = hardware_m2(hardware) * share
        usual_h = hardware.count * each.range.likely
        work_h, rests = _time(step, area_m2, coats, each, usual_h, share=share)
    for coat in range(coats):
        words = coat_words(step, coat, coats, pieces)
        yield Sitting(words, "coat", work_h, can_pause=False, rests=rests, share=share)
        if step.between and coat < coats - 1:
            yield _denibbing(step.between, area_m2, share)


def _denibbing(between: Between, area_m2: float, share: float) -> Sitting:
    rate = usual_rate("denib", "hand")
    return Sitting(
        f"sand lightly P{between.grit}, by hand",
        "sand",
        area_m2 / rate.range.likely,
        can_pause=True,
        is_denib=True,
        rests=(rate,),
        share=share,
    )


def _fillings(zone: ZoneArea, step: Fill, share: float) -> Iterator[Sitting]:
    holes = sum(hole.count for hole in step.holes)
    each = usual_time("hole")
    usual_h = holes * each.range.likely
    work_h, rests = _time(step, zone.area_m2, step.applications, each, usual_h, share=share)
    what = f"{holes} {'hole' if holes == 1 else 'holes'}"
    if share < 1:
        what = f"holes ({holes} total)"
    if step.hardware is not None:
        what += f" of {step.hardware}"
    for number in range(step.applications):
        words = f"fill {what} with {step.product}{time_words(number, step.applications)}"
        yield Sitting(words, "fill", work_h, can_pause=False, rests=rests, share=share)


def _masking(zone: ZoneArea, step: Mask, share: float) -> Iterator[Sitting]:
    """Yield the masking of a zone; film is laid once for all zones that share the schedule."""
    met = masked_zones(zone, step)
    if not met and not step.film_m2:
        return
    tape, film = usual_time("metre of tape"), usual_time("m2 of film")
    usual_h = masked_m(zone, step) * tape.range.likely + step.film_m2 * film.range.likely * share
    work_h, rests = _time(step, zone.area_m2, 1, tape, usual_h)
    against = (step.against and ", ".join(met)) or "every zone it touches"
    yield Sitting(f"mask {against} with {step.tape}", "mask", work_h, True, rests=rests)


def _unmasking(zone: ZoneArea, step: Unmask) -> Iterator[Sitting]:
    """Yield the tape coming off a zone; nothing where it has no length and no film."""
    masks = masks_taken_off(zone.zone.steps, step)
    tape_m = sum(masked_m(zone, mask) for mask in masks)
    if not tape_m and not any(mask.film_m2 for mask in masks):
        return
    each = usual_time("metre of tape taken off")
    work_h, rests = _time(step, zone.area_m2, 1, each, tape_m * each.range.likely)
    words = "take the tape off" if step.tape is None else f"take {step.tape} off"
    yield Sitting(words, "mask", work_h, True, rests=rests)


def _trial(step: Trial, share: float) -> Sitting:
    each = usual_time("product tested")
    usual_h = len(step.products) * each.range.likely
    work_h, rests = _time(step, step.patch_m2 * share, 1, each, usual_h, share=share)
    words = f"test patch: {', '.join(step.products)}" if step.products else "test"
    if step.work.uses and not step.products:  # a lead test, for example, tries no product
        words = f"test: {', '.join(step.work.uses)}"
    words += " (one total)" if share < 1 else ""
    return Sitting(words, "test", work_h, False, rests=rests, share=share)


def _handwork(zone: ZoneArea, step: Handwork, share: float) -> Iterator[Sitting]:
    if step.decor is not None:
        yield from _decorating(zone, step, step.decor, share)
        return
    if is_by_area(step.do):
        work_h, rests = _time(step, zone.labour_m2, 1, usual_rate(step.do, "hand"))
        yield Sitting(step.do, "handwork", work_h, True, rests=rests)
        return
    each = usual_time(step.do)
    usual_h = step.count * each.range.likely
    work_h, rests = _time(step, zone.area_m2, 1, each, usual_h, share=share)
    words = f"{hand_words(step.do)} {step.what}{_total(step.count, share)}"
    yield Sitting(words, "handwork", work_h, True, rests=rests, share=share)


def _decorating(zone: ZoneArea, step: Handwork, decor: Decor, share: float) -> Iterator[Sitting]:
    """Yield each coat of a decoration; an area is that of all zones that share the schedule."""
    area_m2, usual = decorated_m2(zone, decor, share), usual_rate(step.do, "hand")
    counted = 1.0 if decor.area_m2 is None else share
    whole_h = (decor.area_m2 or area_m2) / usual.range.likely / decor.coats
    work_h, rests = _time(step, area_m2, decor.coats, usual, whole_h, share=counted)
    using = f", using {step.product}" if step.product else ""
    for number in range(decor.coats):
        words = f"{hand_words(step.do)} {step.what}{using}{time_words(number, decor.coats)}"
        yield Sitting(words, "handwork", work_h, True, rests=rests, share=counted)


def _total(count: int, share: float) -> str:
    """Return how many there are; of what zones share, how many in total."""
    if share < 1:
        return f" ({count} total)"
    return f" ({count})" if count > 1 else ""


def _time(
    step: Step,
    area_m2: float,
    passes: int,
    usual: Factor,
    usual_h: float | None = None,
    *,
    share: float = 1.0,
) -> tuple[float, tuple[Factor, ...]]:
    """Return the hands-on time of each pass [h], and what it rests on.

    Args:
        step: the step.
        area_m2: what each pass goes over [m2].
        passes: how many.
        usual: the rate [m2/h], or what `usual_h` rests on, where the step says nothing.
        usual_h: the usual time of each pass [h], None where the rate tells.
        share: of a written or a usual time, the part that is the zone's.
    """
    if step.work.time_h is not None:
        return step.work.time_h.range.likely / passes * share, (step.work.time_h,)
    if step.work.rate_m2_per_h is not None:
        rate = step.work.rate_m2_per_h
        return area_m2 / rate.range.likely, (rate,)
    if usual_h is None:
        usual_h = area_m2 / usual.range.likely
    return usual_h * share, (usual,)
