"""What several of the geometry tests need: a mesh check, and an exact count of exposed cells."""

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import manifold3d
import numpy as np
import pytest
from scipy import ndimage

from shapes.errors import ShapeError
from shapes.parts import Part
from shapes.solids import Solid

SIDES = (("left", "right"), ("front", "back"), ("bottom", "top"))

CURVED = 5e-5
"""A circle's polygon of equal area, with 256 sides, is longer than it by step^2 / 24 = 2.5e-5."""

ROUNDING = 1e-12
"""Sums of a few thousand float64 products, each off by 1.1e-16 of itself."""


@dataclass(frozen=True)
class Count:
    """What a count of cells says of an assembly of boxes.

    Attributes:
        least: exposed area [square units] when air does not pass along a bare edge.
        most: exposed area when it does.
        sole: area of each face of each box that no other box could have claimed.
        shared: area that the face shares with a face of another box in the same plane.
    """

    least: int
    most: int
    sole: dict[tuple[int, str], int]
    shared: dict[tuple[int, str], int]


Box = tuple[tuple[int, int, int], tuple[int, int, int]]


def _count_cells(boxes: list[Box]) -> Count:
    """Count exposed squares of whole boxes, each (corner, size), exactly, in whole numbers."""
    ends = [[(at[k], at[k] + size[k]) for k in range(3)] for at, size in boxes]
    cuts = [sorted({end for box in ends for end in box[k]}) for k in range(3)]
    cuts = [[axis[0] - 1, *axis, axis[-1] + 1] for axis in cuts]
    wood = np.zeros([len(axis) - 1 for axis in cuts], dtype=bool)
    spans = [tuple(slice(*(cuts[k].index(e) for e in box[k])) for k in range(3)) for box in ends]
    for span in spans:
        wood[span] = True
    outside = [_outside(wood, connectivity) for connectivity in (1, 3)]
    lengths = [np.diff(np.array(axis, dtype=object)) for axis in cuts]
    totals = [0, 0]
    sole: Counter[Any] = Counter()
    shared: Counter[Any] = Counter()
    for axis in range(3):
        others = [k for k in range(3) if k != axis]
        for sign in (-1, 1):
            look = [wood & np.roll(air, -sign, axis=axis) for air in outside]
            squares = [np.multiply.outer(lengths[others[0]], lengths[others[1]])] * wood.shape[axis]
            square = np.stack(squares, axis=axis)
            totals = [
                old + int((new * square).sum()) for old, new in zip(totals, look, strict=True)
            ]
            claims = np.zeros(wood.shape, dtype=int)
            layers = []
            for span in spans:
                moved = list(span)
                end = span[axis].stop if sign > 0 else span[axis].start + 1
                moved[axis] = slice(end - 1, end)
                layers.append(tuple(moved))
                claims[layers[-1]] += 1
            for number, layer in enumerate(layers):
                key = (number, SIDES[axis][sign > 0])
                seen = look[0][layer] * square[layer]
                sole[key] = int((seen * (claims[layer] == 1)).sum())
                shared[key] = int((seen * (claims[layer] > 1)).sum())
    return Count(totals[0], totals[1], dict(sole), dict(shared))


def _outside(wood: np.ndarray, connectivity: int) -> np.ndarray:
    steps = ndimage.generate_binary_structure(3, connectivity)
    labels, _ = ndimage.label(~wood, steps)
    return np.asarray(labels == labels[0, 0, 0])


def _check_mesh(solid: Solid, *, volume_mm3: float, fills_box: bool = True) -> None:
    """Assert that a solid's mesh is closed, outward, of its stated size and areas."""
    directed = Counter(
        (int(t[a]), int(t[b])) for t in solid.triangles for a, b in ((0, 1), (1, 2), (2, 0))
    )
    assert {1} == set(directed.values())  # every edge once in each direction: closed, no flips
    assert set(directed) == {(b, a) for a, b in directed}
    assert set(range(len(solid.vertices))) == set(solid.triangles.ravel().tolist())

    body = manifold3d.Manifold(
        manifold3d.Mesh64(
            vert_properties=solid.vertices,
            tri_verts=np.ascontiguousarray(solid.triangles, dtype=np.uint64),
        )
    )
    assert manifold3d.Error.NoError == body.status()
    assert body.volume() > 0
    # 1e-9: the kernel sums products of coordinates up to 1e9 grid lines
    assert volume_mm3 == pytest.approx(body.volume() / 80_000**3, rel=1e-9)

    if fills_box:
        _check_box(solid)
    assert {*range(len(solid.patches))} == set(solid.patch_of.tolist())
    for patch, meshed in zip(solid.patches, solid.patch_mesh_areas / 80_000**2, strict=True):
        tolerance = CURVED if patch.normal is None else ROUNDING
        assert patch.area_mm2 == pytest.approx(meshed, rel=tolerance)
    _check_normals(solid)


def _check_box(solid: Solid) -> None:
    low, high = solid.vertices.min(axis=0), solid.vertices.max(axis=0)
    is_curved = any(patch.normal is None for patch in solid.patches)
    # a circle's polygon may stand out of or keep inside the circle by step^2 / 8 of the radius;
    # a tapered leg's centre may fall between two grid lines
    slack = 1e-4 * max(solid.size) if is_curved else 1.0
    assert (np.abs(low) <= slack).all()
    assert (np.abs(high - solid.size) <= slack).all()


def _check_normals(solid: Solid) -> None:
    corners = solid.vertices[solid.triangles]
    crossed = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    crossed /= np.linalg.norm(crossed, axis=1, keepdims=True)
    for number, patch in enumerate(solid.patches):
        if patch.normal is not None:
            facing = crossed[solid.patch_of == number] @ np.array(patch.normal)
            assert (facing > 1 - 1e-9).all()  # 1e-9: rounding of unit vectors, squared


@pytest.fixture(scope="session")
def count_cells() -> Callable[[list[Box]], Count]:
    return _count_cells


@pytest.fixture(scope="session")
def check_mesh() -> Callable[..., None]:
    return _check_mesh


@pytest.fixture(scope="session")
def check_refused() -> Callable[..., None]:
    """Assert that a call is refused with an argument, words of the rule, a value and a limit."""

    def check(call, argument, rule, value_mm=None, limit_mm=None) -> None:
        with pytest.raises(ShapeError) as caught:
            call()
        error = caught.value
        assert argument == error.argument
        assert rule in error.rule
        assert value_mm == error.value_mm
        assert limit_mm == error.limit_mm
        assert str(error).startswith(f"{argument} must be {error.rule}")

    return check


@pytest.fixture(scope="session")
def boxes_of() -> Callable[[list[Part]], list[Box]]:
    """Return the boxes of parts that are boards, as (corner, size) in grid units."""
    return lambda parts: [(part.at, part.solid.size) for part in parts]
