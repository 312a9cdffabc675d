"""Boards and cases that lean and turn as one, each placed by its rounded corner as a user would.

The turning is written out here from the words of `shapes.transforms`, so its corners and those of
the solids it returns have to agree for anything to touch.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from shapes.parts import Part
from shapes.placement import place
from shapes.solids import Solid
from shapes.transforms import lean, turn

Place = tuple[float, float, float]


@dataclass(frozen=True)
class Pose:
    """A lean to one side, then a turn about the vertical.

    Attributes:
        lean: from the vertical [degrees].
        towards: where the top moves: left, right, front or back.
        turn: counter-clockwise seen from above [degrees].
    """

    lean: float = 0.0
    towards: str = "back"
    turn: float = 0.0

    def solid(self, upright: Solid) -> Solid:
        """Return the solid in this pose."""
        return turn(lean(upright, self.lean, towards=self.towards), self.turn)

    def points(self, upright: np.ndarray) -> np.ndarray:
        """Return points [mm], shape (n, 3), in this pose."""
        tilt, round_ = math.radians(self.lean), math.radians(self.turn)
        across = {"left": (-1, 0), "right": (1, 0), "front": (0, -1), "back": (0, 1)}[self.towards]
        side = np.array([*across, 0.0])
        up = np.array([0.0, 0.0, 1.0])
        along, height = upright @ side, upright @ up
        rest = upright - np.outer(along, side) - np.outer(height, up)
        moved = np.outer(along * math.cos(tilt) + height * math.sin(tilt), side)
        raised = np.outer(height * math.cos(tilt) - along * math.sin(tilt), up)
        leaning = rest + moved + raised
        x, y, z = leaning.T
        cos, sin = math.cos(round_), math.sin(round_)
        return np.stack([x * cos - y * sin, x * sin + y * cos, z], axis=1)

    def part(self, name: str, upright: Solid, at: Place, base: Place = (0, 0, 0)) -> Part:
        """Return a part that stands at `at` [mm] upright, in this pose, all moved by `base`."""
        ends = [(0.0, size) for size in upright.size_mm]
        corners = np.array([[x, y, z] for x in ends[0] for y in ends[1] for z in ends[2]])
        low = self.points(corners + np.array(at)).min(axis=0) + base
        return place(name, self.solid(upright), low.tolist())


def posed(
    pose: Pose, upright: Sequence[tuple[str, Solid, Place]], base: Place = (0, 0, 0)
) -> list[Part]:
    """Return parts of an assembly, given upright as (name, solid, place), in a pose."""
    return [pose.part(name, solid, at, base) for name, solid, at in upright]
