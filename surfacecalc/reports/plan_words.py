"""A plan in sentences: how sure its dates and hours are, and on which days nobody works."""

import math
from collections.abc import Iterator
from datetime import datetime, time

from surfacecalc.model.workshop import ClosedDays
from surfacecalc.plans.plan import Plan
from surfacecalc.plans.time_draws import IN_NINE_OF_TEN
from surfacecalc.work.task_words import format_date, format_day, format_hours_span

CASES = "in 9 of 10 cases"
_LESS, _MORE = (abs(math.exp(sign * IN_NINE_OF_TEN) - 1) for sign in (-1, 1))
SPREAD = (
    "Assumed for the 9 of 10 cases: a time, a set-up or a drying time given as one number turns out"
    f" between {100 * _LESS:.0f} % less and {100 * _MORE:.0f} % more. The same hands do every task,"
    " and the same air dries every coat, so slow ones tend to come together."
)


def likely_ends_words(plan: Plan) -> str:
    """Return one sentence: by when it is ready for delivery, and how much work it is."""
    ends = plan.likely_ends
    if ends is None:
        return ""
    work = f"{format_hours_span(ends.low_h, ends.high_h)} of work"
    if plan.unknown:
        return f"It is {work} {CASES}."
    return f"Ready by {format_day(ends.delivered)} {CASES}, with {work}."


def calendar_words(plan: Plan) -> Iterator[str]:
    """Yield which days are closed, and on which nights of the plan the clock changes."""
    if plan.closed:
        yield f"Closed: {', '.join(map(_days, plan.closed))}."
    if plan.clock_changes:
        days = " and ".join(
            format_date(datetime.combine(day, time())) for day in plan.clock_changes
        )
        yield f"The clock changes on {days}; waits are counted in real hours."


def together_words(plan: Plan) -> Iterator[str]:
    """Yield which zones are worked in one session, and which hardware beside the piece."""
    found = [entry.task for entry in plan.entries if entry.task.also]
    for place in dict.fromkeys(task.place for task in found):
        lines = dict.fromkeys(str(task.line) for task in found if task.place == place)
        yield (
            f"Done in one session (line {', '.join(lines)}): {place}. It has one set-up, and each"
            " of them waits for the others."
        )
    for name in dict.fromkeys(entry.task.off for entry in plan.entries if entry.task.off):
        yield f"Worked on while they are off the piece, beside it: {name}."


def rules_words(plan: Plan) -> Iterator[str]:
    """Yield how much later it is ready since dust is kept off and zones are worked together."""
    cost = plan.rules_cost
    if not cost.days:
        return
    rules = [
        *(["keeping dust off wet coats"] if cost.is_for_dust else []),
        *(["working the zones of one schedule together"] if cost.is_for_zones else []),
    ]
    words = " and ".join(rules)
    makes = "make" if len(rules) > 1 else "makes"
    days = f"{cost.days} day{'s' if cost.days != 1 else ''}"
    yield f"{words[:1].upper()}{words[1:]} {makes} this plan {days} longer."


def _days(days: ClosedDays) -> str:
    first, last = (format_date(datetime.combine(day, time())) for day in (days.first, days.last))
    return first if first == last else f"{first} to {last}"
