"""Two boards with air between them."""

from shapes.boards import board
from shapes.placement import place

ROUNDING = 1e-9
"""Areas found by overlaying polygons are sums of rounded products of 1e7 grid lines."""


def pair(air, *, height=30):
    """Two boards side by side, the second one lower."""
    return [
        place("a", board(100, 50, height)),
        place("b", board(80, 50, 20), (100 + air, 0, 0)),
    ]
