"""Views: parallel projections of the piece on the sheet.

The elevations are orthographic views of ISO 5456-2, each labelled; the pictorial view is the
isometric projection of ISO 5456-3, true and not enlarged: all three axes are shortened to 0.816.
"""

import math
from dataclasses import dataclass

import numpy as np

from shapes.solids import Floats

Axis = tuple[float, float, float]


@dataclass(frozen=True)
class View:
    """A parallel projection.

    Attributes:
        name: what is written above it.
        right: unit vector that points right on the sheet.
        up: unit vector that points up on the sheet.
        toward: unit vector that points to the viewer.
    """

    name: str
    right: Axis
    up: Axis
    toward: Axis

    def project(self, points: Floats) -> Floats:
        """Return right, up and nearness of points, all in their unit, shape (n, 3).

        >>> FRONT.project(np.array([[1.0, 2.0, 3.0]])).tolist()
        [[1.0, 3.0, -2.0]]
        """
        projected: Floats = points @ np.array([self.right, self.up, self.toward]).T
        return projected


_2, _3, _6 = math.sqrt(2), math.sqrt(3), math.sqrt(6)

FRONT = View("Front", (1, 0, 0), (0, 0, 1), (0, -1, 0))
RIGHT = View("Right side", (0, 1, 0), (0, 0, 1), (1, 0, 0))
TOP = View("Top", (1, 0, 0), (0, 1, 0), (0, 0, 1))
ISOMETRIC = View(
    "From the corner",
    (1 / _2, 1 / _2, 0),
    (-1 / _6, 1 / _6, 2 / _6),
    (1 / _3, -1 / _3, 1 / _3),
)
