"""What the file counts on one piece of a set, counted on all of them.

A piece file describes one piece; count in [piece] says how many there are. Areas are multiplied
where they are measured. Here it is what a file counts itself: hardware, holes, things to repair,
the time it gives to a step, and what is covered with film. A test patch is made once for the set.
"""

from dataclasses import replace
from typing import assert_never

from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Factor, Range
from surfacecalc.model.steps import (
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
    Work,
)


def of_whole_set(piece: Piece) -> Piece:
    """Return a piece with everything that is counted on it counted for the whole set."""
    count = piece.settings.count
    if count == 1:
        return piece
    hardware = {
        name: replace(one, count=one.count * count) for name, one in piece.shelf.hardware.items()
    }
    zones = tuple(
        replace(zone, steps=tuple(_for_all(step, count) for step in zone.steps))
        for zone in piece.zones
    )
    return replace(piece, zones=zones, shelf=replace(piece.shelf, hardware=hardware))


def _for_all(step: Step, count: int) -> Step:
    """Return a step with what it counts on one piece counted on all."""
    match step:
        case Trial():
            return step
        case Coat() | Sand() | Wash() | Unmask():
            return replace(step, work=_work(step.work, count))
        case Fill():
            holes = tuple(replace(hole, count=hole.count * count) for hole in step.holes)
            return replace(step, holes=holes, work=_work(step.work, count))
        case Mask():
            return replace(step, film_m2=step.film_m2 * count, work=_work(step.work, count))
        case Handwork():
            decor = step.decor and _decor(step.decor, count)
            work = _work(step.work, count)
            return replace(step, count=step.count * count, work=work, decor=decor)
        case _:
            assert_never(step)


def _decor(decor: Decor, count: int) -> Decor:
    return decor if decor.area_m2 is None else replace(decor, area_m2=decor.area_m2 * count)


def _work(work: Work, count: int) -> Work:
    return replace(work, time_h=_longer(work.time_h, count)) if work.time_h else work


def _longer(time_h: Factor, count: int) -> Factor:
    """Return the time for all pieces, of the time that a file gives for one."""
    low, likely, high = (
        hours * count for hours in (time_h.range.low, time_h.range.likely, time_h.range.high)
    )
    return replace(time_h, range=Range(low, likely, high))
