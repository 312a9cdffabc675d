"""What the bench needs for a task, in sentences: amounts, what to stir in, where to stop.

Amounts of a coat and what must be left are rounded up to what can be measured out; what is mixed in
a ratio is not, so that the ratio holds.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from fractions import Fraction

from surfacecalc.model.ranges import likely
from surfacecalc.model.step_facts import any_washing_of, coat_of, filling_of
from surfacecalc.model.steps import Step, Wash
from surfacecalc.sheets.rounded_words import need_text, series, stock_text
from surfacecalc.supplies.bench import Batch, Bench, BenchTask, SpareCoat
from surfacecalc.supplies.portions import Portion
from surfacecalc.supplies.stops import StopPoint
from surfacecalc.units.display import Units, format_amount, format_share
from surfacecalc.units.number_words import mixed_number, ordinal
from surfacecalc.work.task_words import TaskKey, format_hours

BenchLines = Mapping[TaskKey, tuple[str, ...]]
"""The sentences of each task that uses a product or water, by its zone and number."""


def bench_lines(bench: Bench, units: Units) -> BenchLines:
    """Return what the bench needs for each task, in sentences."""
    return {key: tuple(_lines(key[0], task, units)) for key, task in bench.items()}


def _lines(zone: str, task: BenchTask, units: Units) -> Iterator[str]:
    for batch in task.batches:
        yield _batch_words(batch, units)
    for supply in task.stir_first:
        yield (
            f"What you have of {supply} may not be enough for this: first pour it together with"
            " what you bought."
        )
    yield f"{_capital(_amounts(task, units))}."
    for spare in task.spare:
        yield _spare_words(spare, task.step, units)
    for stop in task.stops:
        yield _stop_words(zone, stop, units, names=_is_named(stop, task))


def _batch_words(batch: Batch, units: Units) -> str:
    parts = series(f"{format_amount(size, unit, units)} {name}" for name, size, unit in batch.parts)
    made = format_amount(batch.amount, batch.unit, units)
    text = f"First mix {made} of {batch.mix}: {parts}"
    if batch.on_hand:
        text += f"; stir it into the {format_amount(batch.on_hand, batch.unit, units)} you have"
    return f"{text}."


def _amounts(task: BenchTask, units: Units) -> str:
    """Return what a task uses: "8 1/2 fl oz for this coat; stir in 10 % water (0.85 fl oz)"."""
    wash = any_washing_of(task.step)
    if wash is not None:
        return _wash_words(wash, task.portions, units)
    own = [one for one in _in_one(task.portions) if one.share is None]
    if coat_of(task.step) is not None:
        # what a hardener goes into is measured to the millilitre, so that its ratio holds
        is_ratio = any(one.role == "hardener" for one in task.portions)
        shown = format_amount if is_ratio else need_text
        amounts = " and ".join(shown(one.amount, one.unit, units) for one in own)
        side = "this side" if task.step.work.sides > 1 else "this coat"
        text = f"{amounts} for {side}{_to_be_sure(task.portions, units)}"
        text += ", only if it is needed" * task.is_only_if_needed
    else:
        text = series(f"{need_text(one.amount, one.unit, units)} of {one.supply}" for one in own)
        text += _at_a_time(task, units)
    return f"{text}{_stirred_in(task.portions, task.step, units)}{_within(task)}"


def _to_be_sure(used: Iterable[Portion], units: Units) -> str:
    """Return how much of a fresh batch is likely left when it sets, since it is thrown away."""
    left = [one for one in used if one.role == "thrown away" and one.share is None]
    amount = sum(one.amount for one in left)
    return f", {need_text(amount, left[0].unit, units)} of it to be sure" if amount > 0 else ""


def _stirred_in(used: Iterable[Portion], step: Step, units: Units) -> str:
    parts = [
        f"{format_share(one.share)} {one.supply}{_by(one, step)}{_in_brackets(one, units)}"
        for one in _in_one(used)
        if one.share is not None
    ]
    return f"; stir in {series(parts)}" if parts else ""


def _by(one: Portion, step: Step) -> str:
    """Return how a hardener is measured where its amount is given in the other way."""
    mixed = coat_of(step) or filling_of(step)
    if one.role != "hardener" or mixed is None or mixed.hardener is None:
        return ""
    by = mixed.hardener.by
    return f" by {by}" if (by == "weight") == (one.unit == "L") else ""


def _in_one(used: Iterable[Portion]) -> list[Portion]:
    """Return what is used with all of one supply in one, whatever it is used as."""
    found: dict[tuple[str, bool], Portion] = {}
    for one in used:
        key = one.supply, one.share is None
        before = found[key].amount if key in found else 0.0
        found[key] = replace(found.get(key, one), amount=before + one.amount)
    return list(found.values())


def _in_brackets(one: Portion, units: Units) -> str:
    """Return an amount in brackets; nothing for one that is too small to be shown."""
    text = format_amount(one.amount, one.unit, units)
    return f" ({text})" if any(digit in text for digit in "123456789") else ""


def _within(task: BenchTask) -> str:
    """Return how soon what is mixed for a coat must be used up, where it sets."""
    coat = coat_of(task.step)
    if coat is None or coat.pot_life is None:
        return ""
    within = f"used within {format_hours(coat.pot_life.range.low)}"
    count = task.fresh_batches
    return f", in {count} batches, each {within}" if count > 1 else f", {within}"


def _at_a_time(task: BenchTask, units: Units) -> str:
    """Return the most filler that is mixed at once, where the task takes more than that."""
    fill = filling_of(task.step)
    if fill is None or fill.batch is None:
        return ""
    filler = next(one for one in task.portions if one.share is None)
    if filler.amount <= fill.batch:
        return ""
    return f", at most {stock_text(fill.batch, filler.unit, units)} at a time"


def _wash_words(wash: Wash, used: Iterable[Portion], units: Units) -> str:
    """Return how to mix what is washed with once, such as "mix 1 part with 32 parts water"."""
    by_role = {one.role: format_amount(one.amount, one.unit, units) for one in used}
    text = f"use {by_role['cleaner']} undiluted"
    if "water" in by_role:
        parts = _parts(float(likely(wash.strength)))
        text = f"mix {parts}: {by_role['cleaner']} in {by_role['water']} water"
    return f"{text}; rinse with {by_role['rinse']} water" if "rinse" in by_role else text


def _parts(strength: float) -> str:
    """Return a strength as parts.

    >>> _parts(0.03), _parts(0.4), _parts(0.9)
    ('1 part with 32 parts water', '1 part with 1 1/2 parts water', '1 part with 1/2 part water')
    """
    ratio = (1 - strength) / strength
    parts = Fraction(round(ratio)) if ratio >= 10 else Fraction(round(ratio * 2), 2)
    parts = max(parts, Fraction(1, 2))
    return f"1 part with {mixed_number(parts)} part{'' if parts <= 1 else 's'} water"


def _stop_words(zone: str, stop: StopPoint, units: Units, *, names: bool) -> str:
    least = need_text(stop.least, stop.unit, units).removeprefix("up to ")
    of_it = f" of {stop.supply}" if names else ""
    if stop.is_mix:
        then = "mix again and stir the two together"
    elif stop.is_bought:
        then = "pour it together with what you bought"
    else:
        then = "buy more and pour the two together"
    return f"With under {least}{of_it} left after it, {then} before {_coming(zone, stop)}."


def _is_named(stop: StopPoint, task: BenchTask) -> bool:
    """Whether a stop is about something else than the product whose amount a coat's line gives."""
    coat = coat_of(task.step)
    return coat is None or coat.product != stop.supply


def _coming(zone: str, stop: StopPoint) -> str:
    """Return the coat that comes: "the third coat", of other zones with their names."""
    where = "" if stop.zones == (zone,) else f" on {series(stop.zones)}"
    if not stop.coat:
        return f"it is used again{where}"
    return f"{'the' if stop.is_planned else 'a'} {ordinal(stop.coat - 1)} coat{where}"


def _spare_words(spare: SpareCoat, step: Step, units: Units) -> str:
    own = [one for one in _in_one(spare.portions) if one.share is None]
    amounts = [need_text(one.amount, one.unit, units) for one in own]
    stirred = _stirred_in(spare.portions, step, units)
    which = _capital(f"{'an' if spare.coat in (8, 11, 18) else 'a'} {ordinal(spare.coat - 1)} coat")
    return f"{which} only if it is needed: {' and '.join(amounts)}{stirred}."


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
