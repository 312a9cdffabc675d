"""Which assumed figures matter most: how much the cost of what is needed moves with each of them.

The measure: one figure at a time goes from its low end to its high end, all others stay at their
likely values; every need is worked out at both ends, and the difference is worth what so much of
the supply costs. A figure without a range goes from 10 % below to 10 % above. Ends, not packs: a
pack more or less would hide most figures and make a few jump. A figure that holds for every
supply by itself (how much more a hand uses of one of them) counts as the root of the sum of
squares, since no supply's draw goes with another's.

A supply without a price counts as if its smallest pack cost as much as that of the others does
on average, so that an unpriced list is ranked by packs: much of a cheap cleaner moves less than a
little of a varnish that fills its can. What comes from the tap costs nothing.
"""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from surfacecalc.model.pieces import Piece
from surfacecalc.model.ranges import Evaluate, Factor
from surfacecalc.needs.hand import as_figure
from surfacecalc.plans.assumed_hours import hands_on_by_input
from surfacecalc.plans.tasks import Task
from surfacecalc.prices.materials import Material, materials
from surfacecalc.prices.quotes import Quote
from surfacecalc.supplies.shopping import Supply

AROUND_FIXED = 0.1
"""How far a figure without a range is moved to each side; assumed."""
SMALL_PACK = {"L": 0.5, "kg": 0.5, "each": 5.0, "m": 50.0, "m2": 10.0}
"""What a small pack holds, by unit, for a supply whose packs the file does not give; assumed."""


@dataclass(frozen=True)
class Moved:
    """An assumed figure and what moves with it.

    Attributes:
        factor: the figure.
        by: how much: money, or hours; comparable only with others of the same list.
    """

    factor: Factor
    by: float


def ends(factor: Factor) -> tuple[float, float]:
    """Return the two values between which a figure is moved.

    >>> from surfacecalc.model.inputs import Input
    >>> from surfacecalc.model.ranges import Range
    >>> ends(Factor(Input("allowance"), Range.fixed(20), "assumed"))
    (18.0, 22.0)
    """
    known = factor.range
    if not known.is_fixed:
        return known.low, known.high
    return known.likely * (1 - AROUND_FIXED), known.likely * (1 + AROUND_FIXED)


def figures_of_supplies(
    piece: Piece, supplies: Iterable[Supply], *, only_priced: bool = False
) -> list[Moved]:
    """Return the assumed figures of a supply list, the one that moves its cost most first.

    Args:
        piece: the piece, or the shelf of several.
        supplies: the supply list.
        only_priced: leave out what has no price instead of taking an average for it.
    """
    found = materials(piece, supplies)
    worth = _worth_of_one(piece, found)
    usual = 0.0 if only_priced else _usual_pack(piece, found, worth)
    factors = {factor.draw_key: factor for item in found for factor in item.supply.assumed}
    squares: dict[Factor, float] = {}
    for factor in factors.values():
        swing = sum(_swing(piece, item, factor, worth, usual) for item in found)
        figure = as_figure(factor)
        squares[figure] = squares.get(figure, 0.0) + swing**2
    return ranked(Moved(figure, math.sqrt(square)) for figure, square in squares.items())


def figures_of_quote(piece: Piece, found: Quote, tasks: Iterable[Task]) -> list[Moved]:
    """Return the assumed figures behind a quote, the one that moves its price most first.

    Args:
        piece: the piece.
        found: its quote.
        tasks: those that its hours come from, where they are planned.
    """
    supplies = [item.supply for item in found.materials]
    moved = figures_of_supplies(piece, supplies, only_priced=True)
    told = found.wanted or found.given
    if found.are_hours_planned and told is not None:
        moved += figures_of_hours(hands_on_by_input(tasks), abs(float(told.rate)))
    return ranked(moved)


def figures_of_hours(hours: Mapping[Factor, float], worth_of_hour: float = 1.0) -> list[Moved]:
    """Return the assumed figures behind hours, the one that moves them most first.

    Args:
        hours: how many hours come from each [h].
        worth_of_hour: what an hour is worth.
    """
    moved = []
    for factor, of_it in hours.items():
        if factor.source != "assumed":
            continue
        low, high = (_times(factor, end) for end in ends(factor))
        moved.append(Moved(factor, abs(high - low) * of_it * worth_of_hour))
    return ranked(moved)


def _times(factor: Factor, value: float) -> float:
    """Return how many times as long work takes with another speed or time."""
    if not factor.range.likely:
        return 1.0
    times = value / factor.range.likely
    return 1 / times if factor.what.quantity == "rate" and times else times


def ranked(moved: Iterable[Moved]) -> list[Moved]:
    """Return figures, the one that moves most first; of equal ones, in their order."""
    return sorted(moved, key=lambda one: -one.by)


def _worth_of_one(piece: Piece, found: Iterable[Material]) -> dict[str, float]:
    """Return what one L, kg, m, m2 or piece costs, by supply; nothing where that is not known."""
    worth = {
        _key(item.supply): float(item.per_unit)
        for item in found
        if item.is_counted and not _is_mixed(piece, item.supply)
    }
    for product in piece.shelf.products.values():
        parts = [(part.per_unit, worth.get(part.product.name)) for part in product.recipe]
        known = [share * price for share, price in parts if price is not None]
        if known:
            worth[product.name] = sum(known)
    return worth


def _is_mixed(piece: Piece, supply: Supply) -> bool:
    product = piece.shelf.products.get(supply.name) if supply.what == "product" else None
    return product is not None and bool(product.recipe)


def _key(supply: Supply) -> str:
    return supply.title if supply.grit else supply.name


def _usual_pack(piece: Piece, found: Iterable[Material], worth: dict[str, float]) -> float:
    """Return what the smallest pack of a supply costs on average; 1 where no price is known."""
    known = [
        worth[_key(item.supply)] * _small_pack(piece, item.supply)
        for item in found
        if worth.get(_key(item.supply))
    ]
    return sum(known) / len(known) if known else 1.0


def _small_pack(piece: Piece, supply: Supply) -> float:
    """Return what the smallest pack of a supply holds [L, kg, pieces, m or m2]."""
    goods = piece.shelf.find(supply.key)
    sizes = [pack.size for pack in goods.packs] if goods else []
    return min(sizes, default=SMALL_PACK[supply.unit])


def _swing(
    piece: Piece, item: Material, factor: Factor, worth: dict[str, float], usual: float
) -> float:
    """Return by how much more a supply costs at the high end of a figure than at the low one."""
    supply = item.supply
    if all(one.draw_key != factor.draw_key for one in supply.factors):
        return 0.0
    low, high = (_need(supply, _moved(factor, end)) for end in (0, 1))
    of_one = worth.get(_key(supply))
    if of_one is None:
        of_one = usual / _small_pack(piece, supply)
    return (high - low) * of_one


def _moved(moved: Factor, end: int) -> Evaluate:
    def value(factor: Factor) -> float:
        is_moved = factor.draw_key == moved.draw_key
        return ends(factor)[end] if is_moved else factor.range.likely

    return value


def _need(supply: Supply, evaluate: Evaluate) -> float:
    return float(sum(use.amount(evaluate) for use in supply.uses if use.amount is not None))
