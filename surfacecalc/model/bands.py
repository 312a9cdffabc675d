"""The band that is assumed around a loss or a life that is given as one number.

A loss of "10 %" is taken as 5 % to 15 %, a life of "2 m2" as 1.5 to 2.5 m2; both most likely the
number itself, which stays the median. A range that is written stays that range, also one whose
three values are equal.

Source: assumed. No published figure was found of how far either may be off.
"""

from dataclasses import replace

from surfacecalc.model.ranges import Factor, Range

LOSS_BAND = 0.5
"""A loss, or extra tape, may be off by this share of itself; assumed."""
LIFE_BAND = 0.25
"""The life of an abrasive or of what wears out may be off by this share of itself; assumed."""


def banded(factor: Factor, share: float, below: float = float("inf")) -> Factor:
    """Return a factor with a band around its one number; a range stays as it is.

    Args:
        factor: the factor.
        share: how far it may be off, as a share of itself.
        below: what it is always less than; the band is as wide on both sides.
    """
    known = factor.range
    if not known.is_fixed:
        return factor
    off = min(known.likely * share, (below - known.likely) / 2)
    if off <= 0:
        return factor
    band = Range(known.likely - off, known.likely, known.likely + off)
    return replace(factor, range=band, is_band_assumed=True)
