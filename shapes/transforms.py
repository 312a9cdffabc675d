"""Transforms: a solid turned, leaned or mirrored, its box back at the origin.

Names stay with the wood: the front of a board turned a quarter still is its front, though it now
looks to the side. Only a mirror image, which no turn can make, swaps the two names that its plane
swaps. True areas stay as they are. Turns by whole quarters are exact and keep whole grid units.

A leaning leg is turned as one rigid piece, so its foot leans too. One that is sawn level at the
floor is in `shapes.splayed_legs`.
"""

import math
from collections.abc import Callable
from dataclasses import replace

import numpy as np

from shapes.errors import ShapeError
from shapes.solids import Floats, Patch, Solid

TOWARDS = ("left", "right", "front", "back")
ACROSS = {"left-right": 0, "front-back": 1}
"""What a mirror swaps, and the axis it looks along."""
_SWAPS = {
    "left-right": {"left": "right", "right": "left"},
    "front-back": {"front": "back", "back": "front"},
}


def turn(solid: Solid, degrees: float) -> Solid:
    """Return a solid turned about the vertical, counter-clockwise seen from above.

    Args:
        solid: the solid.
        degrees: how far; multiples of 90 are exact.

    Returns:
        The solid with its box at the origin. A box of another angle is that of the triangles.

    Raises:
        ShapeError: an angle that is not finite.

    >>> from shapes.boards import board
    >>> turn(board(600, 20, 100), 90).size_mm
    (20.0, 600.0, 100.0)
    """
    cos, sin = _cos_sin(degrees)
    return _rotated(solid, np.array([[cos, -sin, 0], [sin, cos, 0], [0, 0, 1]], dtype=np.float64))


def lean(solid: Solid, degrees: float, *, towards: str) -> Solid:
    """Return a solid tilted so that its top moves to one side, as a raked back or a splayed leg.

    Args:
        solid: the solid.
        degrees: from the vertical; multiples of 90 are exact.
        towards: where its top moves: left, right, front or back.

    Returns:
        The solid with its box at the origin. A box of another angle is that of the triangles.

    Raises:
        ShapeError: an angle that is not finite, or an unknown side.

    >>> from shapes.boards import board
    >>> lean(board(600, 20, 100), 90, towards="back").size_mm  # laid on its back
    (600.0, 100.0, 20.0)
    """
    if towards not in TOWARDS:
        raise ShapeError("towards", f"one of {', '.join(TOWARDS)}")
    cos, sin = _cos_sin(degrees if towards in ("right", "back") else -degrees)
    if towards in ("left", "right"):
        rows = [[cos, 0, sin], [0, 1, 0], [-sin, 0, cos]]
    else:
        rows = [[1, 0, 0], [0, cos, sin], [0, -sin, cos]]
    return _rotated(solid, np.array(rows, dtype=np.float64))


def mirror(solid: Solid, across: str = "left-right") -> Solid:
    """Return the mirror image of a solid, as the other one of a pair.

    Args:
        solid: the solid.
        across: "left-right" swaps left and right, and the faces of these names; "front-back"
            swaps front and back in the same way.

    Raises:
        ShapeError: an unknown pair of sides.

    >>> from shapes.lofts import shaped_leg
    >>> leg = shaped_leg([[0, 30, 30, -40, 0], [400, 30, 40, 0, 0]])
    >>> leg.area_mm2_of["left"] == mirror(leg).area_mm2_of["right"]
    True
    """
    if across not in ACROSS:
        raise ShapeError("across", f"one of {', '.join(ACROSS)}")
    axis = ACROSS[across]
    vertices = solid.vertices.copy()
    vertices[:, axis] = solid.size[axis] - vertices[:, axis]
    signs = np.where(np.arange(3) == axis, -1.0, 1.0)
    swap = _SWAPS[across]
    patches = [
        replace(
            _turned(patch, lambda normal: normal * signs), face=swap.get(patch.face, patch.face)
        )
        for patch in solid.patches
    ]
    return replace(
        solid, vertices=vertices, triangles=solid.triangles[:, ::-1].copy(), patches=tuple(patches)
    )


def laid(solid: Solid, along: str) -> Solid:
    """Return a solid built lying flat as it is told to lie, its names unchanged.

    Args:
        solid: the solid, its top up.
        along: where its top looks: "z" up, "y" to the front, "x" to the right.

    Raises:
        ShapeError: another direction.

    >>> from shapes.boards import board
    >>> laid(board(600, 400, 20), "y").size_mm
    (600.0, 20.0, 400.0)
    """
    if along not in _LAID:
        raise ShapeError("along", f"one of {', '.join(_LAID)}")
    return _rotated(solid, np.array(_LAID[along], dtype=np.float64))


_LAID = {
    "z": [[1, 0, 0], [0, 1, 0], [0, 0, 1]],
    "y": [[1, 0, 0], [0, 0, -1], [0, 1, 0]],
    "x": [[0, 0, 1], [1, 0, 0], [0, 1, 0]],
}
"""Both axes of an outline become x and z, seen from the front, or y and z, from the right."""


def _cos_sin(degrees: float) -> tuple[float, float]:
    if not math.isfinite(degrees):
        raise ShapeError("degrees", "a finite angle")
    quarters, rest = divmod(degrees, 90)
    if rest == 0:
        return ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[int(quarters) % 4]
    return math.cos(math.radians(degrees)), math.sin(math.radians(degrees))


def _rotated(solid: Solid, rotation: Floats) -> Solid:
    """Return a solid turned by a matrix, moved so that its box starts at the origin."""
    is_exact = bool(np.isin(rotation, (-1.0, 0.0, 1.0)).all())
    if is_exact:
        corners = np.array([[0.0, 0.0, 0.0], solid.size]) @ rotation.T
    else:
        corners = solid.vertices @ rotation.T
    low, high = corners.min(axis=0), corners.max(axis=0)
    vertices = solid.vertices @ rotation.T - low + 0.0
    width, depth, height = (round(float(length)) for length in high - low)
    patches = tuple(_turned(patch, lambda normal: rotation @ normal) for patch in solid.patches)
    return replace(solid, vertices=vertices, patches=patches, size=(width, depth, height))


def _turned(patch: Patch, turned: Callable[[Floats], Floats]) -> Patch:
    if patch.normal is None:
        return patch
    x, y, z = (float(value) + 0.0 for value in turned(np.array(patch.normal, dtype=np.float64)))
    return replace(patch, normal=(x, y, z))
