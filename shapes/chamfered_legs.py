"""Legs and posts with their corners taken off: chamfered, stop-chamfered, octagonal.

A chamfer is cut at 45 degrees, as wide on both faces. It may stop before the ends of the post:
square, in a plain slope, or in a lamb's tongue. All areas are closed forms. The tongue is an S of
two equal arcs in the plane that halves the corner, an assumed form.
"""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import manifold3d
import numpy as np
import numpy.typing as npt

from shapes.errors import ShapeError
from shapes.grid import position_units, size_units, to_mm, to_mm2
from shapes.outlines import span
from shapes.solids import Floats, Patch, Solid, flat_patch

FACES = ("front", "back", "left", "right", "chamfer", "top", "bottom")
SIDES = ("front", "right", "back", "left")
"""The sides counter-clockwise from above; each begins at the corner of its number."""
OCTAGON = 1 - math.sqrt(0.5)
"""Of its width, what a regular octagon lacks at each corner of its square."""


@dataclass(frozen=True, eq=False)
class _Cut:
    """How a corner is cut, from the foot up: the line of the cut, station by station.

    Attributes:
        at: heights [grid units], shape (n,).
        deep: width taken off each face there [grid units], shape (n,).
        curved: area of the cut surface from each station to the next where it is curved [square
            grid units], None where it is flat and its corners give it.
    """

    at: Floats
    deep: Floats
    curved: list[float | None]

    def moved(self, up: float) -> "_Cut":
        """Return the same line further up."""
        return replace(self, at=self.at + up)

    def turned(self, end: float) -> "_Cut":
        """Return the same line upside down, ending at a height."""
        return _Cut(end - self.at[::-1], self.deep[::-1], self.curved[::-1])


def octagonal_leg(height: float, width: float, *, foot: float | None = None) -> Solid:
    """Return a regular octagonal post, straight or tapered.

    Args:
        height: along z [mm].
        width: across the flats at its top [mm].
        foot: the same at the floor [mm]; left out, the width.

    Returns:
        A solid with the faces front, back, left, right, chamfer (the four slanting sides), top and
        bottom.

    Raises:
        ShapeError: a size out of range.

    Source: side of a regular octagon, (sqrt 2 - 1) times its width; elementary.

    >>> post = octagonal_leg(700, 60)
    >>> round(post.area_mm2_of["front"], 6)  # 700 x 60 (sqrt 2 - 1)
    17396.96962
    """
    up, across = size_units("height", height), size_units("width", width)
    below = across if foot is None else size_units("foot", foot)
    size = max(across, below)
    rings = [
        _ring((size, size), (each, each), OCTAGON * each, at)
        for each, at in ((below, 0), (across, up))
    ]
    strips = [[k, (k + 1) % 8, (k + 1) % 8 + 8, k + 8] for k in range(8)]
    vertices = np.concatenate(rings)
    faces = [
        _Piece(flat_patch("chamfer" if k % 2 == 0 else SIDES[k // 2], vertices[quad]), _fan(quad))
        for k, quad in enumerate(strips)
    ]
    return _solid(vertices, faces, (list(range(8)), list(range(8, 16))), (size, size, up))


def chamfered_leg(
    height: float,
    width: float,
    depth: float | None = None,
    *,
    chamfer: float,
    stops: Sequence[float] | None = None,
    stop_length: float = 0.0,
    is_tongue: bool = False,
) -> Solid:
    """Return a square post with its four corners chamfered, over its length or a part of it.

    Args:
        height: along z [mm].
        width: along x [mm].
        depth: along y [mm]; left out, the width.
        chamfer: how much it takes off each face [mm].
        stops: heights where the chamfer begins and ends, its stops included [mm]; left out, the
            whole height. At an end of the post it runs out without a stop.
        stop_length: of a stop along the corner [mm], 0 for one cut square.
        is_tongue: whether a stop is a lamb's tongue and not a plain slope.

    Returns:
        A solid with the faces front, back, left, right, chamfer (with its stops), top and bottom.

    Raises:
        ShapeError: a size out of range, a chamfer that leaves no face, stops out of the post or
            with no chamfer between them.

    Source: trapezium, and the moment of an arc about its corner, times 2; elementary.

    >>> post = chamfered_leg(700, 60, chamfer=10, stops=[100, 600], stop_length=30)
    >>> round(post.area_mm2_of["front"], 6)  # 700 x 60 - 2 x 10 x (440 + 30)
    32600.0
    """
    up, across = size_units("height", height), size_units("width", width)
    along = across if depth is None else size_units("depth", depth)
    deep, length = size_units("chamfer", chamfer), position_units("stop_length", stop_length)
    if 2 * deep >= min(across, along):
        limit = to_mm(min(across, along)) / 2
        raise ShapeError("chamfer", "less than half of the narrower side", chamfer, limit)
    if length < 0:
        raise ShapeError("stop_length", "0 or more", stop_length)
    # a tongue's arcs run level where it is shorter than its cut is deep
    if is_tongue and length < deep:
        raise ShapeError("stop_length", "no less than the chamfer", stop_length, chamfer)
    cut = _cut(up, deep, _stop_heights(stops, up), (length, is_tongue))
    return _chamfered((across, along, up), cut)


def _stop_heights(stops: Sequence[float] | None, up: int) -> tuple[int, int]:
    """Return where the chamfer begins and ends [grid units]."""
    if stops is None:
        return 0, up
    if len(stops) != 2:
        raise ShapeError("stops", "two heights, where the chamfer begins and where it ends")
    low, high = (position_units("stops", mm) for mm in stops)
    if not 0 <= low < high <= up:
        raise ShapeError("stops", "rising, from 0 to the height", None, to_mm(up))
    return low, high


def _cut(up: int, deep: int, stops: tuple[int, int], stop: tuple[int, bool]) -> _Cut:
    """Return the line of a cut [grid units].

    Args:
        up: height of the post.
        deep: width of the chamfer.
        stops: where the chamfer begins and ends.
        stop: length of a stop, and whether it is a lamb's tongue.
    """
    (low, high), rising = stops, _stop(deep, *stop)
    before, after = (stop[0] if at not in (0, up) else 0 for at in stops)
    if before + after > high - low:
        raise ShapeError("stops", "further apart than both stops are long")
    pieces = []
    if low > 0:
        pieces += [_even(0, low, 0), rising.moved(low)]
    if before + after < high - low:
        pieces.append(_even(low + before, high - after, deep))
    if high < up:
        pieces += [rising.turned(high), _even(high, up, 0)]
    return _Cut(
        at=np.concatenate([*[piece.at[:-1] for piece in pieces], pieces[-1].at[-1:]]),
        deep=np.concatenate([*[piece.deep[:-1] for piece in pieces], pieces[-1].deep[-1:]]),
        curved=[area for piece in pieces for area in piece.curved],
    )


def _even(low: float, high: float, deep: float) -> _Cut:
    """Return a stretch that is cut evenly."""
    return _Cut(np.array([low, high]), np.array([deep, deep]), [None])


def _stop(deep: int, length: int, is_tongue: bool) -> _Cut:
    """Return a stop that begins at the corner at height 0 and reaches the chamfer's depth."""
    if not is_tongue:
        return _Cut(np.array([0.0, length]), np.array([0.0, deep]), [None])
    sunk = deep / math.sqrt(2)  # below the corner, towards the middle of the post
    rise = math.hypot(length, sunk) / 4 * math.tan(math.atan(sunk / length) / 2)
    middle = length / 2, sunk / 2
    arcs = span((0.0, 0.0), middle, rise), span(middle, (float(length), sunk), -rise)
    points = np.concatenate([arc.points for arc in arcs] + [np.array([[length, sunk]])])
    moments = np.concatenate([arc.moments[:, 1] for arc in arcs])
    wide = points[:, 1] * math.sqrt(2)
    wide[0], wide[-1] = 0.0, deep
    return _Cut(points[:, 0], wide, [2 * float(moment) for moment in moments])


def _chamfered(size: tuple[int, int, int], cut: _Cut) -> Solid:
    """Return the post with all four corners cut alike."""
    rings = [_ring(size, size[:2], deep, at) for at, deep in zip(cut.at, cut.deep, strict=True)]
    vertices = np.concatenate(rings)
    count = len(rings)
    pieces = [_side(vertices, number, count) for number in range(4)]
    for corner, k in itertools.product(range(4), range(count - 1)):
        if cut.deep[k] or cut.deep[k + 1]:
            first, after = 8 * k + 2 * corner, 8 * (k + 1) + 2 * corner
            quad = [first, first + 1, after + 1, after]
            patch = flat_patch("chamfer", vertices[quad])
            area = cut.curved[k]
            if area is not None:
                patch = Patch("chamfer", to_mm2(area), None)
            pieces.append(_Piece(patch, _fan(quad)))
    ends = list(range(8)), list(range(8 * (count - 1), 8 * count))
    return _solid(vertices, pieces, ends, size)


def _side(vertices: Floats, number: int, count: int) -> "_Piece":
    """Return one of the four sides, its two edges notched where the corners are cut."""
    first, second = 2 * number + 1, (2 * number + 2) % 8
    up = [8 * k + second for k in range(count)]
    down = [8 * k + first for k in reversed(range(count))]
    loop = [up[0], *up[1:], *down]
    axis = number % 2
    flat = vertices[loop][:, [axis, 2]] * [1 if number < 2 else -1, 1]
    kept = [k for k in range(len(loop)) if (flat[k] != flat[k - 1]).any()]
    triangles = np.array(manifold3d.triangulate([flat[kept]], -1.0), dtype=np.int64)
    x, y = flat[kept].T
    area = float((x * np.roll(y, -1) - np.roll(x, -1) * y).sum()) / 2
    normal = ((0.0, -1.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (-1.0, 0.0, 0.0))[number]
    return _Piece(Patch(SIDES[number], to_mm2(area), normal), np.array(loop)[kept][triangles])


@dataclass(frozen=True, eq=False)
class _Piece:
    """A patch and its triangles, shape (t, 3)."""

    patch: Patch
    triangles: npt.NDArray[np.int64]


def _ring(size: Sequence[int], across: Sequence[float], deep: float, at: float) -> Floats:
    """Return a rectangle in the middle of a box, two points for each of its cut corners."""
    left, front = ((size[k] - across[k]) / 2 for k in range(2))
    right, back = left + across[0], front + across[1]
    plan = [
        (left, front + deep), (left + deep, front), (right - deep, front), (right, front + deep),
        (right, back - deep), (right - deep, back), (left + deep, back), (left, back - deep),
    ]  # fmt: skip
    return np.column_stack([np.array(plan, dtype=np.float64), np.full(8, float(at))])


def _fan(loop: list[int]) -> npt.NDArray[np.int64]:
    """Return the triangles of a convex face from its first corner."""
    return np.array([[loop[0], loop[k], loop[k + 1]] for k in range(1, len(loop) - 1)])


def _solid(
    vertices: Floats,
    pieces: list[_Piece],
    ends: tuple[list[int], list[int]],
    size: tuple[int, int, int],
) -> Solid:
    """Return the solid of its sides and its two ends, corners that coincide made one."""
    for face, loop, up in (("bottom", ends[0][::-1], -1.0), ("top", ends[1], 1.0)):
        x, y = vertices[ends[0] if up < 0 else ends[1]][:, :2].T
        area = float((x * np.roll(y, -1) - np.roll(x, -1) * y).sum()) / 2
        pieces.append(_Piece(Patch(face, to_mm2(area), (0.0, 0.0, up)), _fan(loop)))
    pieces.sort(key=lambda piece: FACES.index(piece.patch.face))
    corners, number = np.unique(vertices, axis=0, return_inverse=True)
    triangles = number.reshape(-1)[np.concatenate([piece.triangles for piece in pieces])]
    patch_of = np.repeat(np.arange(len(pieces)), [len(piece.triangles) for piece in pieces])
    is_whole = np.array([len(set(corners)) == 3 for corners in triangles.tolist()])
    patches = tuple(piece.patch for piece in pieces)
    return Solid(corners, triangles[is_whole], patch_of[is_whole], patches, size)
