"""What anybody can hold against a plan with a calendar and a pencil: hours, hands and waits.

It reads when the plan does what, and knows nothing of how the plan was made.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from datetime import datetime, time, timedelta
from itertools import pairwise
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from surfacecalc.plans.plan import Plan

Hours = Mapping[int, tuple[time, time]]
"""By weekday, Monday 0: when work begins and ends."""


def outside_hours(made: "Plan", hours: Hours) -> Iterator[tuple[datetime, datetime]]:
    """Yield every sitting that does not lie within the hours of its day."""
    for entry in made.entries:
        for start, end in entry.sessions:
            opens, closes = hours.get(start.weekday(), (time.max, time.min))
            if start.time() < opens or end.time() > closes or start.date() != end.date():
                yield start, end


def at_once(made: "Plan") -> Iterator[tuple[datetime, datetime]]:
    """Yield where one sitting begins before the one before it is over: there is one worker."""
    sittings = sorted(sitting for entry in made.entries for sitting in entry.sessions)
    for (_, end), (start, _) in pairwise(sittings):
        if start < end:
            yield end, start


def too_soon(
    made: "Plan", waits_h: Mapping[tuple[str, int], float]
) -> Iterator[tuple[str, int, timedelta]]:
    """Yield each task of a zone that follows sooner than the pencil allows.

    Args:
        made: the plan.
        waits_h: by zone and step, the hours after each sitting of that step; none where the next
            may follow at once.
    """
    of_zone = defaultdict(list)
    for entry in made.entries:
        for zone in entry.task.zones:
            of_zone[zone].append(entry)
    for zone, entries in of_zone.items():
        for one, then in pairwise(entries):
            is_denib = one.task.words.startswith("sand lightly")
            wait_h = 0.0 if is_denib else waits_h.get((zone, one.task.step), 0.0)
            if then.starts - one.ends < timedelta(hours=wait_h):
                yield zone, one.task.step, then.starts - one.ends
