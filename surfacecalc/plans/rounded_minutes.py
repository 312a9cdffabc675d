"""Hours in whole minutes, as a plan has them: work to the nearest five, waits up to the next.

Work is rounded once, for each task, and everything that is said about hours is a sum of these: what
is read in the lines adds up to what is read below them, and to the hours of the price. It goes to
the nearest, since rounding each of many tasks up would add a tenth to the whole job. Waits go up,
so that no coat comes too early.

Every function takes one time, or one for each draw.
"""

from typing import overload

import numpy as np
import numpy.typing as npt

from surfacecalc.closeness import ROUNDING_MIN

ROUNDED_MIN = 5
"""Nobody plans to the second [min]."""
Hours = npt.NDArray[np.float64]
Minutes = npt.NDArray[np.int64]


@overload
def work_min(hours: float) -> int: ...
@overload
def work_min(hours: Hours) -> Minutes: ...
def work_min(hours: float | Hours) -> int | Minutes:
    """Return hands-on time, to the nearest five minutes and at least five [min].

    >>> work_min(0.01), work_min(0.7), work_min(0.71)
    (5, 40, 45)
    """
    steps = (hours * 60 + ROUNDED_MIN / 2 + ROUNDING_MIN) // ROUNDED_MIN
    if isinstance(steps, float):
        return max(1, int(steps)) * ROUNDED_MIN
    return np.maximum(1, steps.astype(np.int64)) * ROUNDED_MIN


@overload
def wait_min(hours: float) -> int: ...
@overload
def wait_min(hours: Hours) -> Minutes: ...
def wait_min(hours: float | Hours) -> int | Minutes:
    """Return a wait, up to the next five minutes [min].

    >>> wait_min(0.0), wait_min(0.51), wait_min(4.0)
    (0, 35, 240)
    """
    steps = -(-(hours * 60 - ROUNDING_MIN) // ROUNDED_MIN)
    if isinstance(steps, float):
        return int(steps) * ROUNDED_MIN
    return steps.astype(np.int64) * ROUNDED_MIN
