"""Chances as people say them."""

from fractions import Fraction

from surfacecalc.units.display import format_share

OUT_OF = (10, 20, 100)


def times_out_of(chance: float) -> str:
    """Return how often something holds.

    Args:
        chance: a fraction of one.

    >>> times_out_of(0.9), times_out_of(0.95), times_out_of(0.995)
    ('9 times out of 10', '19 times out of 20', '99.5 % of the time')
    """
    exact = Fraction(str(chance))
    for count in OUT_OF:
        if (exact * count).denominator == 1:
            return f"{exact * count} times out of {count}"
    return f"{format_share(chance)} of the time"
