"""Faces of a part cut at a plane or by a box, so that one side of the line is faces of its own.

The wood is not cut: only its faces are told apart, as by a line of tape around it. A leg that is
dipped below a line has `front` above it and `front dip` below. A flat face is split exactly; a
curved one by the area of its triangles, which is exact for cones and cylinders.
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import numpy.typing as npt

from shapes.errors import ShapeError
from shapes.grid import position_units
from shapes.plane_splits import split_at
from shapes.solids import Floats, Ints, Patch, Solid, sums, triangle_areas
from shapes.tolerances import NO_UNITS

Bools = npt.NDArray[np.bool_]
AXES = "xyz"


def cut_at(solid: Solid, axis: str, level: float, below: str = "", above: str = "") -> Solid:
    """Return a solid whose faces are split at a plane, the pieces on one side with a word more.

    Args:
        solid: the solid.
        axis: what the plane is square to: x, y or z.
        level: where it lies, from the left, the front or the foot of the solid's box [mm].
        below: what is added to the names of the faces on the side towards that; empty for nothing.
        above: what is added to the others.

    Raises:
        ShapeError: another axis, a level that is not within the box, or a word that will not do.

    >>> from shapes.boards import board
    >>> cut_at(board(50, 50, 700), "z", 100, "dip").area_mm2_of["front dip"]
    5000.0
    """
    if axis not in AXES:
        raise ShapeError("axis", "x, y or z")
    number = AXES.index(axis)
    units = position_units("level", level)
    if not 0 < units < solid.size[number]:
        raise ShapeError("level", "within the part, so that the line cuts it", level)
    split = _split(solid, [(number, units)])
    return _named(solid, split, split.centres[:, number] > units, below, above)


def cut_by_box(
    solid: Solid, low: Sequence[float], high: Sequence[float], inside: str = "", outside: str = ""
) -> Solid:
    """Return a solid whose faces are split by a box, the pieces in it with a word more.

    Args:
        solid: the solid.
        low: left, front, bottom corner of the box, from that corner of the solid's box [mm].
        high: right, back, top corner [mm].
        inside: what is added to the names of the faces in the box; empty for nothing.
        outside: what is added to the others.

    Raises:
        ShapeError: a box without room or with nothing in it, or a word that will not do.

    >>> from shapes.boards import board
    >>> cut_by_box(board(600, 20, 300), (0, 0, 0), (200, 20, 300), "dark").area_mm2_of["front dark"]
    60000.0
    """
    if not len(low) == len(high) == 3:
        raise ShapeError("box", "two corners of three lengths each: x, y, z")
    ends = [
        (position_units(f"low {axis}", least), position_units(f"high {axis}", most))
        for axis, least, most in zip(AXES, low, high, strict=True)
    ]
    if any(least >= most for least, most in ends):
        raise ShapeError("box", "from a lower corner to a higher one, in all three directions")
    split = _split(solid, [(number, level) for number, both in enumerate(ends) for level in both])
    least, most = np.array(ends, dtype=np.float64).T
    is_inside = ((split.centres >= least) & (split.centres <= most)).all(axis=1)
    return _named(solid, split, is_inside, outside, inside)


class _Split:
    """The triangles of a solid, split."""

    def __init__(self, vertices: Floats, triangles: Ints, patch_of: Ints) -> None:
        self.vertices, self.triangles, self.patch_of = vertices, triangles, patch_of
        self.centres: Floats = vertices[triangles].mean(axis=1)


def _split(solid: Solid, planes: Sequence[tuple[int, int]]) -> _Split:
    vertices, triangles, patch_of = solid.vertices, solid.triangles, solid.patch_of
    for axis, level in planes:
        vertices, triangles, owners = split_at(vertices, triangles, axis, level, near=NO_UNITS)
        patch_of = patch_of[owners]
    if solid.is_square:
        vertices = np.round(vertices)  # what was not whole lies within a flat face, and stays in it
    return _Split(vertices, triangles, patch_of)


def _named(solid: Solid, split: _Split, chosen: Bools, rest: str, name: str) -> Solid:
    """Return the split solid with a word added to the faces on each side."""
    _check_words(solid, rest, name)
    if chosen.all() or not chosen.any():
        raise ShapeError("cuts", "a line or a box that cuts the part: all of it is on one side")
    used, patch_of = np.unique(2 * split.patch_of + chosen, return_inverse=True)
    areas = triangle_areas(split.vertices, split.triangles)
    pieces = sums(patch_of, areas, len(used))
    wholes = sums(used // 2, pieces, len(solid.patches))
    called = dict(solid.called)
    patches = []
    for number, area in zip(used.tolist(), pieces.tolist(), strict=True):
        patch, word = solid.patches[number // 2], (rest, name)[number % 2]
        face, names = patch.face, solid.names_of(patch.face)
        if word and word not in names:  # a piece has a word of two cuts once
            face = f"{face} {word}"
            called[face] = (*names, word)
        share = area / wholes[number // 2]
        patches.append(Patch(face, patch.area_mm2 * float(share), patch.normal))
    return replace(
        solid,
        vertices=split.vertices,
        triangles=split.triangles,
        patch_of=patch_of.reshape(-1),
        patches=tuple(patches),
        rings=(),
        called=called,
    )


def _check_words(solid: Solid, *words: str) -> None:
    given = [word for word in words if word]
    if not given or len(set(given)) < len(given):
        raise ShapeError("cuts", "given a name for one side of the line, or one for each side")
    for word in given:
        if word in solid.faces:
            raise ShapeError("cuts", f"given a name that no face of the part has; {word} is a face")
        if set(word) & set(".*") or word.strip() != word:
            raise ShapeError("cuts", "given a name without . and *, and without spaces around it")
