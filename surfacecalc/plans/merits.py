"""What makes one plan better than another that is over as soon: less dust, fewer set-ups and days.

A set-up counts where another kind of work begins than was done before, and where the same goes on
another day. Dust counts where it is made while any film is wet, also one that dries elsewhere.
"""

from dataclasses import dataclass

from surfacecalc.model.workshop import MINUTES_IN_DAY
from surfacecalc.plans.schedule import Operation, Order, Shop
from surfacecalc.plans.sessions import sessions

Merits = tuple[int, int, int]
"""Jobs that make dust while something is wet, set-ups, days; less is better, the first first."""


@dataclass(frozen=True)
class Trail:
    """What an order has come to so far.

    Attributes:
        merits: of the jobs done.
        kind: what is set up.
        day: on which day that was last worked with.
        dry: when every film is dry.
    """

    merits: Merits = (0, 0, 0)
    kind: str = ""
    day: int = -1
    dry: int = 0

    def after(self, shop: Shop, job: Operation, start: int, end: int) -> "Trail":
        """Return what it comes to with one more job, that begins and ends at some moments."""
        dusty, set_ups, days = self.merits
        kind, day = self.kind, self.day
        for begun, _ in sessions(shop, job, start, end):
            today = begun // MINUTES_IN_DAY
            set_ups += (kind, day) != (job.kind, today)
            days += day != today
            kind, day = job.kind, today
        dusty += job.is_dusty and start < self.dry
        dry = max(self.dry, shop.clock.later(end, job.dry)) if job.dry else self.dry
        return Trail((dusty, set_ups, days), kind, day, dry)


def merits_of(shop: Shop, order: Order) -> Merits:
    """Return the merits of an order."""
    trail = Trail()
    for job, start, end in shop.course(order):
        trail = trail.after(shop, job, start, end)
    return trail.merits
