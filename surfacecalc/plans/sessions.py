"""From when to when a job is worked, session by session, and which of that is each zone's."""

from collections.abc import Iterator, Sequence

from surfacecalc.plans.schedule import Operation, Shop

Session = tuple[int, int]


def sessions(shop: Shop, job: Operation, start: int, end: int) -> Sequence[Session]:
    """Return from when to when a job is worked, that begins and ends at some moments."""
    if end - start == job.work:
        return [(start, end)]
    if job.parts:
        return shop.hours.spans(start, job.parts)
    return list(shop.hours.stretches(start, end))


def sessions_apart(found: Sequence[Session], works: Sequence[int]) -> Iterator[tuple[Session, ...]]:
    """Yield the sessions of each work, where several follow each other in the same sessions.

    Args:
        found: the sessions of all of them, as long as they are in total.
        works: how long each takes [min].

    >>> list(sessions_apart([(0, 60), (100, 130)], [40, 50]))
    [((0, 40),), ((40, 60), (100, 130))]
    """
    coming = iter(found)
    at, close = next(coming)
    for work in works:
        left, of_work = work, []
        while left:
            if at == close:
                at, close = next(coming)
            done = min(left, close - at)
            of_work.append((at, at + done))
            at, left = at + done, left - done
        yield tuple(of_work)
