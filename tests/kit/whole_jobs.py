"""Whole jobs of tests/reference/whole_jobs, written from the guide alone, as plain values.

Nothing here computes: it reads what the program says, so that paper can be laid beside it.
"""

from pathlib import Path

from surfacecalc import api
from surfacecalc.plans.plan import Plan

FOLDER = Path(__file__).parent.parent / "reference" / "whole_jobs"


def whole_job(name: str) -> api.MeasuredPiece:
    """Return a job, measured."""
    reading = api.read_piece(FOLDER / f"{name}.toml")
    assert reading.piece is not None, reading.lines
    return api.measure(reading)


def notes(name: str) -> list[str]:
    """Return what `check` says of a job."""
    return [one.message for one in api.check(api.read_piece(FOLDER / f"{name}.toml"))]


def areas_m2(job: api.MeasuredPiece) -> dict[str, float]:
    """Return the area of each zone [m2]."""
    return {zone.zone.name: zone.area_m2 for zone in job.measured.zones}


def needs(job: api.MeasuredPiece) -> dict[str, float]:
    """Return what the list says that is needed, by the name on it [L, kg, pieces or m]."""
    return {one.title: float(one.need.buy_for) for one in api.supplies(job)}


def bought(job: api.MeasuredPiece) -> dict[str, tuple[int, float]]:
    """Return how many packs are bought of each supply, and what they cost."""
    return {
        one.title: (sum(count for _, count in one.buy), float(one.cost or 0))
        for one in api.supplies(job)
        if one.buy
    }


def rows(plan: Plan) -> list[str]:
    """Return each stretch of work: day, from, to, zone, and what its words begin with."""
    found = [
        (start, end, entry.task.place, entry.task.words)
        for entry in plan.entries
        for start, end in entry.sessions
    ]
    return [
        f"{start:%a %-d %b %H:%M}-{end:%H:%M} {zone}: {words}"
        for start, end, zone, words in sorted(found)
    ]
