"""How close counts as equal: every tolerance of the estimate and its pictures, unit and reason.

Those of the geometry are in `shapes.tolerances`.
"""

import math

ROUNDING = 1e-9
"""Share of an amount that is rounding: 6.0000000001 sheets are 6, a jar that has all but so little
of a need has all of it, and no pack is bought for the last digits."""

SAME_SIZE_PLACES = 9
"""Decimals of a pack's size or a recipe's share [L, kg or a count] in which two files must agree;
the digits beyond come from converting units."""

ROUNDING_MIN = 1e-6
"""Minutes taken off before times are rounded up, so that just 5 minutes do not become 10."""

OFF_MARK_IN = 1e-4
"""How far from a mark a length may be to be shown as a fraction [in]; closer is rounding."""

SAME_HEIGHT_MM = 1e-9
"""Two heights that a file gives for one solid are the same when they differ by less [mm]."""

UNTOUCHED = 1e-9
"""Share of a part's area that may be missing for it to touch nothing: rounding of sums."""

EDGE_ON = 1e-6
"""A triangle whose unit normal leans less than this to the viewer shows no area."""

PROJECTED_PLACES = 6
"""Decimals of projected millimetres that are kept, so that lines meant to coincide do."""

BETWEEN_SHEETS_MM = 1e-5
"""Regions are joined on a grid of this [mm]: ten times coarser than projected points are kept, so
that edges which rounding drew apart close again."""

SAME_DEPTH_MM = 1e-4
"""Facets nearer to each other than this [mm] along the line of sight touch."""

LEAST_WIDTH_MM = 2e-3
"""A region narrower than this [mm] is rounding: a fiftieth of a line's width at any scale."""

ONE_LAYER = 1e-7
"""Pieces are one layer when their areas add up to their union's but for this share."""

UNSEEN_MM = 0.02
"""How far a line on paper may be off [mm] without being seen: a tenth of the finest line."""

OUT_OF_PLANE_MM = 0.1
"""How far a strip may rise out of its plane [mm]: a tenth of a narrow line at scale 1:4, and
about what a strip around a leg of 100 mm does anyway."""


def whole_up(value: float) -> int:
    """Return the next whole number from a value on; what is over by rounding is not rounded up.

    >>> whole_up(6.0000000001), whole_up(6.001)
    (6, 7)
    """
    return math.ceil(value * (1 - ROUNDING))


def whole_down(value: float) -> int:
    """Return the last whole number up to a value; what is short by rounding is not rounded down.

    >>> whole_down(5.9999999999), whole_down(5.999)
    (6, 5)
    """
    return math.floor(value * (1 + ROUNDING))
