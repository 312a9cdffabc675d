"""Where a plan sands or strips beside a wet film: found anew from its entries, piece by piece."""

from datetime import datetime, timedelta

from surfacecalc.api import MeasuredPiece
from surfacecalc.plans.plan import Plan

STARTS = (datetime(2026, 11, 28, 9), datetime(2026, 12, 2, 19, 40), datetime(2027, 5, 7, 0, 5))
"""A Saturday morning, the middle of a Wednesday evening, and the night before a Friday."""


def bodies(job: MeasuredPiece) -> dict[str, set[str]]:
    """Return what each zone is on: the piece, or the loose parts that are joined by a word."""
    loose = {part.name: part.loose for part in job.piece.parts}
    found: dict[str, set[str]] = {}
    for (part, _), zone in job.piece.zone_of.items():
        word = loose[part]
        name = "the piece" if word is False else f"alone {part}" if word is True else f"with {word}"
        found.setdefault(zone, set()).add(name)
    return found


def dust_near_films(job: MeasuredPiece, plan: Plan) -> list[str]:
    """Return each task that makes dust while a film on the same joined parts is wet.

    The zone's own film is among these: no example and no new piece has a wait that is too short.
    """
    on = bodies(job)
    wet = [
        (entry.task.zone, entry.starts, entry.ends + timedelta(hours=entry.task.wait.dry_h))
        for entry in plan.entries
        if entry.task.wet
    ]
    return [
        f"{entry.task.zone}: {entry.task.words} {entry.starts} while {zone} is wet until {dry}"
        for entry in plan.entries
        for zone, begun, dry in wet
        if entry.task.dust
        and on[entry.task.zone] & on[zone]
        and entry.starts < dry
        and entry.ends > begun
    ]
