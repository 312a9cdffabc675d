"""The packs with least left over, where prices are not known. Exact, not greedy.

Sizes are split in two groups that share a measure as far as they can (litres here, quarts there).
The amounts that each group reaches are few; for each amount of the one, the least amount of the
other that completes it is looked up.
"""

import bisect
import heapq
import itertools
from collections.abc import Sequence
from math import gcd, prod

MOST_AMOUNTS = 2_000_000
"""Amounts that one group may reach; beyond it the sizes are a mistake."""

Label = tuple[int, ...]
"""How many packs, then minus the count of each size: the lower one is better."""


class TooManyWaysError(ValueError):
    """The sizes reach too many different amounts."""


def least_left_over(sizes: Sequence[int], target: int) -> tuple[int, ...]:
    """Return the count of each size that covers a target with least left over.

    Of those the one with fewest packs, then with more of the earlier sizes.

    Args:
        sizes: whole numbers, the larger first.
        target: what they must cover, more than zero.

    Raises:
        TooManyWaysError: the sizes are too small and too different for the target.
    """
    first, second = _split(sizes, target)
    here, there = (_reached(sizes, group, target) for group in (first, second))
    amounts = sorted(there)
    best: tuple[int, Label] | None = None
    for amount, label in here.items():
        place = bisect.bisect_left(amounts, target - amount)
        if place == len(amounts):
            continue
        other = amounts[place]
        both = tuple(a + b for a, b in zip(label, there[other], strict=True))
        best = min(best, (amount + other, both)) if best else (amount + other, both)
    assert best is not None  # noqa: S101 - either group reaches the target by itself, or is empty
    return tuple(-count for count in best[1][1:])


def _split(sizes: Sequence[int], target: int) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Return two groups of size numbers, such that the larger reach is as small as can be."""
    numbers = range(len(sizes))
    groups = [
        (chosen, tuple(k for k in numbers if k not in chosen))
        for count in range(len(sizes) // 2 + 1)
        for chosen in itertools.combinations(numbers, count)
    ]
    reach, best = min(
        (max(_most_reached([sizes[k] for k in group], target) for group in pair), pair)
        for pair in groups
    )
    if reach > MOST_AMOUNTS:
        raise TooManyWaysError("too many different small pack sizes")
    return best


def _most_reached(sizes: list[int], target: int) -> int:
    """Return how many amounts up to a target some sizes can reach at most."""
    if not sizes:
        return 1
    ways = prod(target // size + 2 for size in sizes)
    return min(ways, target // gcd(*sizes) + max(sizes) // gcd(*sizes) + 1)


def _reached(sizes: Sequence[int], group: tuple[int, ...], target: int) -> dict[int, Label]:
    """Return the amounts that a group reaches, the last step at most past the target."""
    best: dict[int, Label] = {0: (0,) * (len(sizes) + 1)}
    queue = [0]
    while queue:
        amount = heapq.heappop(queue)
        if amount >= target:
            continue
        for number in group:
            label = list(best[amount])
            label[0] += 1
            label[number + 1] -= 1
            after = amount + sizes[number]
            if after not in best:
                heapq.heappush(queue, after)
                best[after] = tuple(label)
            else:
                best[after] = min(best[after], tuple(label))
    return best
