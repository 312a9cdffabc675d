"""Working hours that come back week after week but for closed days, in whole minutes.

A moment is a whole number of minutes from Monday, 1 January of the year 1, 00:00; local time
without a zone. Things dry at all hours; hands work in these only.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
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
        longest: minutes that can be worked at a stretch, `over` with them; None where the hours
            never end.
        over: minutes that a task may run over closing time.
    """

    def __init__(
        self, windows: Iterable[Window], closed: Iterable[tuple[int, int]] = (), *, over: int = 0
    ) -> None:
        """Make working hours.

        Args:
            windows: hours of the week that do not overlap; those that touch become one.
            closed: from which moment to which nobody works, in any order.
            over: minutes that a task may run over closing time, rather than go on another day.
        """
        self.over = over
        spans = _joined(windows)
        self._starts = [start for start, _ in spans]
        self._ends = [end for _, end in spans]
        self._before = [0]
        for start, end in spans:
            self._before.append(self._before[-1] + end - start)
        self._weekly = self._before[-1]
        self._runs_on = self._starts[0] == 0 and self._ends[-1] == WEEK
        endless = self._weekly == WEEK
        self.longest = None if endless else max(map(self._longest_from, self._starts))
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
            return start, self._end_with_over(start, work) if self.over else self.end(start, work)
        wanted = work if self.longest is None else min(work, self.longest)
        while self._room(start) < wanted:
            start = self.opening(start + self._stretch(start))
        return start, start + work

    def spans(self, ready: int, works: Sequence[int]) -> list[tuple[int, int]]:
        """Return when works begin and end that follow each other; none of them can pause.

        They are done at one go where today's hours or the next ones are long enough for that, else
        as many of them as fit, and the rest in the next hours.

        Args:
            ready: when the first may begin.
            works: how long each takes [min].
        """
        total = sum(works)
        at, _ = self.span(ready, works[0], can_pause=False)
        coming = self.opening(at + self._stretch(at))
        if self._room(at) < total <= self._room(coming):
            at = coming
        found: list[tuple[int, int]] = []
        close = at + self._room(at)
        for work in works:
            if at + work > close:
                at, _ = self.span(at, work, can_pause=False)
                close = at + self._room(at)
            found.append((at, at + work))
            at += work
        return found

    def _end_with_over(self, start: int, work: int) -> int:
        """Return when work is done that stops at closing time, but for a rest that may run over.

        All but the last `over` minutes are done by some moment; from there on it is seen at each
        closing time whether the rest may run over.
        """
        left = min(self.over, work)
        at = self.end(start, work - left)
        while left:
            close = at if self._is_closing(at) else at + self._stretch(at)
            if at + left <= close + self._over_at(close):
                break
            left -= close - at
            at = self.opening(close)
        return at + left

    def _is_closing(self, at: int) -> bool:
        return self.opening(at) > at

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
            close = start + self._stretch(start)
            coming = self.opening(close)
            yield start, end if end <= coming else close
            start = coming

    def widened(self) -> "WorkingHours":
        """Return the hours with `over` in them: no work is ever done outside these."""
        if not self.over or self.longest is None:
            return self
        windows = [
            Window(day % 7, low - day * MINUTES_IN_DAY, high - day * MINUTES_IN_DAY)
            for start, end in zip(self._starts, self._ends, strict=True)
            for day, low, high in _by_day(start, end + self._weekly_over(end))
        ]
        closed = zip(self._closed_from, self._closed_to, strict=True)
        return WorkingHours(windows, closed)

    def _stretch(self, start: int) -> int:
        """Return how long work can go on from a moment within the hours [min]."""
        left = ENDLESS if self.longest is None else self._weekly_stretch(start)
        k = bisect_left(self._closed_from, start)
        return left if k == len(self._closed_from) else min(left, self._closed_from[k] - start)

    def _room(self, start: int) -> int:
        """Return how long a task may take that begins at a moment within the hours [min]."""
        left = self._stretch(start)
        return left if left >= ENDLESS else left + self._over_at(start + left)

    def _over_at(self, close: int) -> int:
        """Return how long work may run over a closing time [min]; not into what is closed."""
        if not self.over:
            return 0
        k = bisect_left(self._closed_from, close)
        closed = ENDLESS if k == len(self._closed_from) else self._closed_from[k]
        return min(self.over, closed - close, self.opening(close) - close)

    def _longest_from(self, start: int) -> int:
        left = self._weekly_stretch(start)
        return left + self._weekly_over((start + left) % WEEK)

    def _weekly_over(self, close: int) -> int:
        """Return how long work may run over the closing time of an ordinary week [min]."""
        coming = min((start - close) % WEEK for start in self._starts)
        return min(self.over, coming)

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


def _by_day(start: int, end: int) -> Iterator[tuple[int, int, int]]:
    """Yield the days that a span of a week is on, and from when to when on each [min]."""
    while start < end:
        day = start // MINUTES_IN_DAY
        midnight = (day + 1) * MINUTES_IN_DAY
        yield day, start, min(end, midnight)
        start = midnight


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
