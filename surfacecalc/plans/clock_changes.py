"""The nights on which the clock is changed: plans say local time, and things dry in real hours.

Where the clock goes forward an hour of the local day is missing: nobody works in it, nothing dries
in it. Where it goes back an hour comes twice. Work is planned in the first of the two, and what is
dry in the second counts as dry at its end, so no wait is ever too short.
"""

from bisect import bisect_right
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

from surfacecalc.plans.hours import ENDLESS, moment, time_of

Offset = Callable[[datetime], timedelta]
"""How far a clock is ahead of UTC at a time in UTC."""
_LOOKED_AT_DAYS = 7
"""How far apart the clock is looked at; no country changes it twice within a week."""


@dataclass(frozen=True)
class ClockChange:
    """A night on which the clock is changed.

    Attributes:
        at: the moment on the local clock at which its hours are plain again: the end of the one
            that is missing, or that comes twice.
        forward_min: by how much it goes forward; below zero where it goes back.
    """

    at: int
    forward_min: int

    @property
    def counts_from(self) -> int:
        """The moment up to which a wait must have begun to be changed by it."""
        return self.at - max(self.forward_min, 0)


class LocalClock:
    """Adds real time to local time."""

    def __init__(self, changes: Iterable[ClockChange] = ()) -> None:
        """Make a clock with the changes there are, in their order."""
        self.changes = tuple(changes)
        self._at = [change.at for change in self.changes]
        self._first = min((change.counts_from for change in self.changes), default=ENDLESS)

    @property
    def missing(self) -> Iterator[tuple[int, int]]:
        """The spans that the local clock leaves out."""
        for change in self.changes:
            if change.forward_min > 0:
                yield change.counts_from, change.at

    def later(self, at: int, minutes: int) -> int:
        """Return the moment that is so many real minutes after another."""
        end = at + minutes
        if end < self._first or not minutes:
            return end
        for change in self.changes[bisect_right(self._at, at) :]:
            if end < change.counts_from:
                break
            if change.forward_min < 0:
                end = max(change.at, end + change.forward_min)
            else:  # what begins in the hour that is left out begins at its end
                end += change.at - max(at, change.counts_from)
        return end

    def changes_between(self, start: int, end: int) -> Iterator[ClockChange]:
        """Yield the changes between two moments."""
        yield from (change for change in self.changes if start <= change.counts_from < end)


UNCHANGED = LocalClock()
"""A clock that is never changed."""


def local_clock(start: int, end: int, offset: Offset) -> LocalClock:
    """Return the local clock between two moments.

    Args:
        start: the first moment.
        end: the last one.
        offset: how far the clock is ahead of UTC; where it knows nothing of these years, no
            change is known either.
    """
    try:
        return LocalClock(_changes(start, end, offset))
    except (OSError, OverflowError, ValueError):
        return UNCHANGED


def _changes(start: int, end: int, offset: Offset) -> Iterator[ClockChange]:
    step = timedelta(days=_LOOKED_AT_DAYS)
    early = time_of(start).replace(tzinfo=UTC) - step
    before = offset(early)
    while early < time_of(end).replace(tzinfo=UTC):
        late = early + step
        after = offset(late)
        if after != before:
            local = _change(early, late, offset) + max(before, after)
            forward = after - before
            yield ClockChange(moment(local.replace(tzinfo=None)), forward // timedelta(minutes=1))
        early, before = late, after


def _change(early: datetime, late: datetime, offset: Offset) -> datetime:
    """Return the minute in UTC at which the offset has changed between two times."""
    before = offset(early)
    while late - early > timedelta(minutes=1):
        middle = early + (late - early) // timedelta(minutes=2) * timedelta(minutes=1)
        early, late = (middle, late) if offset(middle) == before else (early, middle)
    return late
