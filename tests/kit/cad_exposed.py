"""What an assembly shows in the CAD kernel, and how far `shapes` is off that."""

from collections import defaultdict
from typing import Any

import numpy as np
from cad_kernel import (
    Same,
    area_and_middle,
    faces_of,
    fuse,
    images_of,
    moved,
    normal_of,
    together,
)

from shapes.exposure import exposure
from shapes.placement import place

Areas = defaultdict[Any, float]


def cad_areas(pieces):
    """Return whole areas [mm2] by (number, face), exposed ones by claims, and the curved faces."""
    shapes = [moved(piece.shape, piece.at) for piece in pieces]
    operation = fuse(shapes) if len(shapes) > 1 else None
    whole: Areas = defaultdict(float)
    claims: defaultdict[Any, set[Any]] = defaultdict(set)
    curved: set[Any] = set()
    for number, (piece, shape) in enumerate(zip(pieces, shapes, strict=True)):
        for face in faces_of(shape):
            area, middle = area_and_middle(face)
            normal, is_flat = normal_of(face)
            key = number, piece.name(middle - np.array(piece.at), normal, is_flat)
            whole[key] += area
            if not is_flat:
                curved.add(key)
            for image in images_of(face, operation):
                claims[Same(image)].add(key)
    shown: Areas = defaultdict(float)
    for face in faces_of(operation.Shape() if operation else shapes[0]):
        assert claims[Same(face)]  # every face of the result is the image of a part's face
        shown[frozenset(claims[Same(face)])] += area_and_middle(face)[0]
    return whole, shown, curved


def worst_share_off(pieces):
    """Return the greatest error of an exposed area, as a share of the whole face or group."""
    whole, shown, _ = cad_areas(pieces)
    parts = [place(str(k), piece.solid, piece.at) for k, piece in enumerate(pieces)]
    areas = exposure(parts, gap=0).areas_mm2
    assert {(str(k), face) for k, face in whole} == set(areas)
    errors = []
    for keys in together(whole, shown):
        expected = sum(area for claim, area in shown.items() if claim <= keys)
        actual = sum(areas[str(number), face] for number, face in keys)
        errors.append(abs(expected - actual) / sum(whole[key] for key in keys))
    return max(errors)
