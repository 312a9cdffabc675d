"""The cheapest packs that cover what is needed. Exact, not greedy."""

import heapq
from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction
from math import lcm

from surfacecalc.closeness import ROUNDING
from surfacecalc.model.shelf import Pack
from surfacecalc.supplies.unpriced import TooManyWaysError, least_left_over

PARTS_IN_ONE = 16 * 10**12
"""Sizes and needs are compared in whole numbers of this share of a litre or kilo: one ml, g, fl oz
and oz are all a whole number of them."""
MOST_PACKS = 10_000
"""More packs than a job takes; beyond it the size of the pack is a mistake."""


class TooManyPacksError(ValueError):
    """A need takes more packs than any job does."""


def choose_packs(packs: Sequence[Pack], needed: float) -> tuple[tuple[Pack, int], ...]:
    """Return which packs to buy and how many of each, larger first.

    The cheapest set that covers the need; of equally cheap ones the one with least left over, then
    with fewest packs, then with more of the larger ones. Where any pack has no price: least left
    over, then fewest packs, then more of the larger ones.

    Args:
        packs: the sizes on offer.
        needed: what they must cover, in the unit of the sizes.

    Returns:
        Nothing where nothing is needed or nothing is on offer.

    Raises:
        TooManyPacksError: the need takes more than 10 000 of the largest pack.
    """
    offers = sorted(packs, key=lambda pack: (-pack.size, pack.price or 0))
    target = int(Fraction(needed) * PARTS_IN_ONE * (1 - Fraction(str(ROUNDING))))
    if target <= 0 or not offers:
        return ()
    sizes = [max(1, round(Fraction(pack.size) * PARTS_IN_ONE)) for pack in offers]
    if target > MOST_PACKS * sizes[0]:
        raise TooManyPacksError(
            f"more than {MOST_PACKS:,} packs of {offers[0].text or offers[0].size}"
        )
    prices = [pack.price for pack in offers if pack.price is not None]
    if len(prices) < len(offers):
        counts = _least_left_over(sizes, target)
    else:
        counts = _cheapest(sizes, _whole_prices(prices), target)
    return tuple((pack, count) for pack, count in zip(offers, counts, strict=True) if count)


def _least_left_over(sizes: list[int], target: int) -> tuple[int, ...]:
    try:
        return least_left_over(sizes, target)
    except TooManyWaysError as error:
        raise TooManyPacksError(str(error)) from error


def _whole_prices(prices: Sequence[Decimal]) -> list[int]:
    """Return prices as whole numbers of a common small coin."""
    known = [Fraction(price) for price in prices]
    coin = lcm(*(price.denominator for price in known))
    return [int(price * coin) for price in known]


def _cheapest(sizes: list[int], prices: list[int], target: int) -> tuple[int, ...]:
    """Return the count of each size, the best by (cost, amount, packs, larger first).

    Works through (cost, amount) pairs that sets of packs reach, lowest first; whatever leads to a
    pair comes before it. A pair is dropped when a cheaper one reaches as much.
    """
    best: dict[tuple[int, int], tuple[int, ...]] = {(0, 0): (0,) * (len(sizes) + 1)}
    queue = [(0, 0)]
    cheaper_reach, reach, level = -1, -1, 0
    while True:
        cost, amount = heapq.heappop(queue)
        if cost > level:
            cheaper_reach, level = max(cheaper_reach, reach), cost
        if amount >= target:
            return tuple(-count for count in best[cost, amount][1:])
        if amount <= cheaper_reach:
            continue
        reach = max(reach, amount)
        for number, (size, price) in enumerate(zip(sizes, prices, strict=True)):
            after = (cost + price, amount + size)
            label = _one_more(best[cost, amount], number)
            if after not in best:
                heapq.heappush(queue, after)
                best[after] = label
            else:
                best[after] = min(best[after], label)


def _one_more(label: tuple[int, ...], number: int) -> tuple[int, ...]:
    """Add a pack to a label: how many packs, then minus the count of each size, larger first."""
    counts = list(label)
    counts[0] += 1
    counts[number + 1] -= 1
    return tuple(counts)
