"""Working hours that come back week after week but for closed days, in whole minutes.

A moment is a whole number of minutes from Monday, 1 January of the year 1, 00:00; local time
without a zone. Things dry at all hours; hands work in these only.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator
from datetime import datetime, timedelta

from surfacecalc.model.workshop import MINUTES_IN_DAY, Window

WEEK = 7 * MINUTES_IN_DAY
ENDLESS = 10**12
"""Minutes of a stretch that never ends, and a moment that never comes."""
_FIRST = datetime(1, 1, 1)
"""A Monday, so that a moment tells its day of the week."""


def moment(time: datetime) -> int:
    """Return the minutes of a time, the next whole one."""
    return -((_FIRST - time) // timedelta(minutes=1))


def time_of(minutes: int) -> datetime:
    """Return the time of a moment."""
    return _FIRST + timedelta(minutes=minutes)


class WorkingHours:
    """The hours of a week in which there is time to work, without the days that are closed.

    Attributes:
        longest: minutes that can be worked at a stretch; None where the hours never end.
    """

    def __init__(self, windows: Iterable[Window], closed: Iterable[tuple[int, int]] = ()) -> None:
        """Make working hours.

        Args:
            windows: hours of the week that do not overlap; those that touch become one.
            closed: from which moment to which nobody works, in any order.
        """
        spans = _joined(windows)
        self._starts = [start for start, _ in spans]
        self._ends = [end for _, end in spans]
        self._before = [0]
        for start, end in spans:
            self._before.append(self._before[-1] + end - start)
        self._weekly = self._before[-1]
        self._runs_on = self._starts[0] == 0 and self._ends[-1] == WEEK
        endless = self._weekly == WEEK
        self.longest = None if endless else max(map(self._weekly_stretch, self._starts))
        self._close(closed)

    def _close(self, closed: Iterable[tuple[int, int]]) -> None:
        """Take closed spans out, and keep how many working minutes come before each."""
        spans = _united(closed)
        self._closed_from = [start for start, _ in spans]
        self._closed_to = [end for _, end in spans]
        self._taken = [0]
        self._worked_at_closing: list[int] = []
        for start, end in spans:
            before = self._worked_weekly(start)
            self._worked_at_closing.append(before - self._taken[-1])
            self._taken.append(self._taken[-1] + self._worked_weekly(end) - before)

    def opening(self, at: int) -> int:
        """Return the first moment from a given one on at which work can begin."""
        at = self._weekly_opening(at)
        while (k := bisect_right(self._closed_from, at)) and at < self._closed_to[k - 1]:
            at = self._weekly_opening(self._closed_to[k - 1])
        return at

    def _weekly_opening(self, at: int) -> int:
        weeks, minute = divmod(at, WEEK)
        k = bisect_right(self._ends, minute)
        if k == len(self._ends):
            return (weeks + 1) * WEEK + self._starts[0]
        return weeks * WEEK + max(minute, self._starts[k])

    def span(self, ready: int, work: int, *, can_pause: bool) -> tuple[int, int]:
        """Return when work begins and ends that may begin at a moment.

        Args:
            ready: the moment.
            work: how long it takes [min].
            can_pause: whether it stops at closing time and goes on at the next opening. What
                cannot, and is longer than all hours, begins in the longest and runs over.
        """
        start = self.opening(ready)
        if can_pause:
            return start, self.end(start, work)
        wanted = work if self.longest is None else min(work, self.longest)
        while (left := self._stretch(start)) < wanted:
            start = self.opening(start + left)
        return start, start + work

    def end(self, ready: int, work: int) -> int:
        """Return when so much work is done, paused at closing times, if it begins at a moment."""
        if work == 0:
            return ready
        last = self._worked(ready) + work - 1
        last += self._taken[bisect_right(self._worked_at_closing, last)]
        weeks, rest = divmod(last, self._weekly)
        k = bisect_left(self._before, rest + 1) - 1
        return weeks * WEEK + self._starts[k] + rest + 1 - self._before[k]

    def stretches(self, start: int, end: int) -> Iterator[tuple[int, int]]:
        """Yield the stretches that are worked between two moments."""
        while start < end:
            left = self._stretch(start)
            yield start, min(end, start + left)
            start = self.opening(start + left)

    def _stretch(self, start: int) -> int:
        """Return how long work can go on from a moment within the hours [min]."""
        left = ENDLESS if self.longest is None else self._weekly_stretch(start)
        k = bisect_left(self._closed_from, start)
        return left if k == len(self._closed_from) else min(left, self._closed_from[k] - start)

    def _weekly_stretch(self, start: int) -> int:
        minute = start % WEEK
        end = self._ends[bisect_right(self._ends, minute)]
        runs_on = self._ends[0] if end == WEEK and self._runs_on else 0
        return end - minute + runs_on

    def _worked(self, at: int) -> int:
        """Return the working minutes from the first moment to a given one."""
        k = bisect_right(self._closed_from, at)
        if k and at < self._closed_to[k - 1]:
            return self._worked_at_closing[k - 1]
        return self._worked_weekly(at) - self._taken[k]

    def _worked_weekly(self, at: int) -> int:
        weeks, minute = divmod(at, WEEK)
        k = bisect_right(self._starts, minute)
        open_now = min(minute, self._ends[k - 1]) - self._starts[k - 1] if k else 0
        return weeks * self._weekly + (self._before[k - 1] if k else 0) + open_now


def _united(spans: Iterable[tuple[int, int]]) -> list[tuple[int, int]]:
    """Return spans in order, those that touch or overlap as one."""
    united: list[tuple[int, int]] = []
    for start, end in sorted(spans):
        if united and start <= united[-1][1]:
            first, before = united.pop()
            united.append((first, max(end, before)))
        else:
            united.append((start, end))
    return united


def _joined(windows: Iterable[Window]) -> list[tuple[int, int]]:
    """Return the spans of a week [min], in order, those that touch as one."""
    spans: list[tuple[int, int]] = []
    for window in sorted(windows, key=lambda window: (window.day, window.starts_min)):
        midnight = window.day * MINUTES_IN_DAY
        start, end = midnight + window.starts_min, midnight + window.ends_min
        if spans and spans[-1][1] == start:
            start = spans.pop()[0]
        spans.append((start, end))
    return spans
