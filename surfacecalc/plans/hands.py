"""What the hands do in a step: its sittings, each one coat, one grit or one pass.

`time` in a step is for the whole of it in each zone and is shared out evenly over its coats, grits
or passes; `rate` is for each of them. Denibbing between coats comes on top, at its usual rate.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from surfacecalc.needs.masking import masked_m
from surfacecalc.pieces import Piece
from surfacecalc.plans.rates import Sort, usual_rate, usual_time
from surfacecalc.plans.words import coat_words, time_words
from surfacecalc.ranges import Factor
from surfacecalc.steps import Coat, Fill, Handwork, Mask, Sand, Step, Trial, Wash
from surfacecalc.zones.areas import ZoneArea


@dataclass(frozen=True)
class Sitting:
    """What is done at one go.

    Attributes:
        words: what it is.
        sort: what setting out and cleaning up depends on.
        work_h: hands-on time [h].
        can_pause: whether it may stop at closing time and go on later.
        is_turn: whether the piece is turned over after it, and the same goes on.
        is_denib: whether it is the light pass between two coats.
        rests: what its time rests on.
    """

    words: str
    sort: Sort
    work_h: float
    can_pause: bool
    is_turn: bool = False
    is_denib: bool = False
    rests: tuple[Factor, ...] = ()


def sittings(piece: Piece, zone: ZoneArea, step: Step) -> Iterator[Sitting]:
    """Yield what is done in a step of a zone, in order."""
    for sitting in _plain_sittings(piece, zone, step):
        if step.work.sides == 1 or sitting.is_denib:
            yield sitting
            continue
        for side in range(1, step.work.sides + 1):
            yield replace(
                sitting,
                words=f"{sitting.words}, side {side} of {step.work.sides}",
                work_h=sitting.work_h / step.work.sides,
                is_turn=side < step.work.sides,
            )


def _plain_sittings(piece: Piece, zone: ZoneArea, step: Step) -> Iterator[Sitting]:
    if isinstance(step, Coat):
        yield from _coats(piece, zone, step)
    elif isinstance(step, Sand):
        work_h, rests = _time(step, zone.area_m2, len(step.grits), usual_rate(step.do, step.by))
        for grit in step.grits:
            words = f"{step.do} P{grit}, by {step.by}"
            yield Sitting(words, "sand", work_h, can_pause=True, rests=rests)
    elif isinstance(step, Wash):
        work_h, rests = _time(step, zone.area_m2, step.times, usual_rate("wash", "hand"))
        for number in range(step.times):
            words = f"wash with {step.product}{time_words(number, step.times)}"
            yield Sitting(words, "wash", work_h, can_pause=True, rests=rests)
    elif isinstance(step, Fill):
        yield from _fillings(zone, step)
    else:
        yield _by_piece(zone, step)


def _coats(piece: Piece, zone: ZoneArea, step: Coat) -> Iterator[Sitting]:
    more = step.more_coats.range.likely if step.more_coats else 0.0
    coats = math.ceil(step.coats.range.likely + more)
    area_m2 = zone.area_m2 * (step.spot.range.likely if step.spot else 1.0)
    if step.hardware is None:
        work_h, rests = _time(step, area_m2, coats, usual_rate(step.do, step.by))
    else:
        count = piece.hardware[step.hardware].count
        each = usual_time("coat of one piece of hardware")
        work_h, rests = _time(step, area_m2, coats, each, count * each.range.likely)
    for coat in range(coats):
        words = coat_words(step, coat, coats)
        yield Sitting(words, "coat", work_h, can_pause=False, rests=rests)
        if step.between and coat < coats - 1:
            rate = usual_rate("denib", "hand")
            yield Sitting(
                f"rub down P{step.between.grit}, by hand",
                "sand",
                area_m2 / rate.range.likely,
                can_pause=True,
                is_denib=True,
                rests=(rate,),
            )


def _fillings(zone: ZoneArea, step: Fill) -> Iterator[Sitting]:
    holes = sum(hole.count for hole in step.holes)
    each = usual_time("hole")
    usual_h = holes * each.range.likely
    work_h, rests = _time(step, zone.area_m2, step.applications, each, usual_h)
    for number in range(step.applications):
        words = f"fill {holes} {'hole' if holes == 1 else 'holes'} with {step.product}"
        words += time_words(number, step.applications)
        yield Sitting(words, "fill", work_h, can_pause=False, rests=rests)


def _by_piece(zone: ZoneArea, step: Mask | Trial | Handwork) -> Sitting:
    if isinstance(step, Mask):
        tape, film = usual_time("metre of tape"), usual_time("m2 of film")
        usual_h = masked_m(zone, step) * tape.range.likely + step.film_m2 * film.range.likely
        work_h, rests = _time(step, zone.area_m2, 1, tape, usual_h)
        against = ", ".join(step.against) or "all that it meets"
        return Sitting(f"mask {against} with {step.tape}", "mask", work_h, True, rests=rests)
    if isinstance(step, Trial):
        each = usual_time("product tested")
        usual_h = len(step.products) * each.range.likely
        work_h, rests = _time(step, step.patch_m2, 1, each, usual_h)
        words = f"test patch: {', '.join(step.products)}"
        return Sitting(words, "test", work_h, False, rests=rests)
    return _handwork(zone, step)


def _handwork(zone: ZoneArea, step: Handwork) -> Sitting:
    if step.do == "dust off":
        work_h, rests = _time(step, zone.area_m2, 1, usual_rate("dust off", "hand"))
        return Sitting("dust off", "handwork", work_h, True, rests=rests)
    each = usual_time(step.do)
    work_h, rests = _time(step, zone.area_m2, 1, each, step.count * each.range.likely)
    words = f"{step.do} {step.what}" + (f" ({step.count})" if step.count > 1 else "")
    return Sitting(words, "handwork", work_h, True, rests=rests)


def _time(
    step: Step, area_m2: float, passes: int, usual: Factor, usual_h: float | None = None
) -> tuple[float, tuple[Factor, ...]]:
    """Return the hands-on time of each pass [h], and what it rests on.

    Args:
        step: the step.
        area_m2: what each pass goes over [m2].
        passes: how many.
        usual: the rate [m2/h], or what `usual_h` rests on, where the step says nothing.
        usual_h: the usual time of each pass [h], None where the rate tells.
    """
    if step.work.time_h is not None:
        return step.work.time_h.range.likely / passes, (step.work.time_h,)
    if step.work.rate_m2_per_h is not None:
        rate = step.work.rate_m2_per_h
        return area_m2 / rate.range.likely, (rate,)
    if usual_h is None:
        usual_h = area_m2 / usual.range.likely
    return usual_h, (usual,)
