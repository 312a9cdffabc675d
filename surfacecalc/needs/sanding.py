"""How many of an abrasive a sanding step takes."""

from surfacecalc.pieces import Abrasive
from surfacecalc.ranges import Evaluate, Number


def sanding_count(area_m2: float, abrasive: Abrasive, grit: int, evaluate: Evaluate) -> Number:
    """Return how many pieces one pass takes, not rounded.

    Args:
        area_m2: area of the zone.
        abrasive: the abrasive.
        grit: the grit of the pass.
        evaluate: turns factors into numbers.

    Source: area / life of each; common practice, no source. No life of abrasives on wood was found
    published.
    """
    return area_m2 / evaluate(abrasive.life[grit])
