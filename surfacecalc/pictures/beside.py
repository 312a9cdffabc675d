"""Loose parts: which are the same, their names, and where they are put beside the piece."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from shapes.grid import to_mm
from shapes.parts import FaceKey, Part, box_of
from shapes.solids import Floats
from shapes.surfaces import Surface
from surfacecalc.pictures.layout import SET_BESIDE_SHARE
from surfacecalc.units.display import Units, format_length

Key = tuple[object, ...]


@dataclass(frozen=True, eq=False)
class Loose:
    """Loose parts that are the same.

    Attributes:
        surface: the first of them.
        name: what they are called.
        size_mm: width, depth, height of one.
    """

    surface: Surface
    name: str
    size_mm: tuple[float, float, float]


def loose_parts(surfaces: Sequence[Surface], zone_of: Mapping[FaceKey, str]) -> list[Loose]:
    """Return the loose parts, those that are the same once, in the order of the file."""
    alike: dict[Key, list[Surface]] = {}
    for surface in surfaces:
        if not surface.is_joined:
            alike.setdefault(_key(surface.parts, zone_of), []).append(surface)
    return [Loose(same[0], _name(same), size_mm(same[0].parts)) for same in alike.values()]


def size_mm(parts: Sequence[Part]) -> tuple[float, float, float]:
    """Return width, depth and height of the parts' box [mm]."""
    box = box_of(list(parts))
    if box is None:
        return 0.0, 0.0, 0.0
    width, depth, height = (to_mm(high - low) for low, high in zip(*box, strict=True))
    return width, depth, height


def size_text(size: Sequence[float], units: Units) -> str:
    """Return a size as it is to be read."""
    return " x ".join(format_length(length, units) for length in size)


def set_beside(surfaces: Sequence[Surface]) -> list[Floats]:
    """Return how far each surface is moved [mm] so that none is on another, each shape (3,).

    The piece stays. Loose parts are in rows to its right, low ones in front, on its floor. A row
    is about as long as the piece is wide.
    """
    moves: list[Floats] = [np.zeros(3) for _ in surfaces]
    joined = [surface.box_mm for surface in surfaces if surface.is_joined]
    loose = [k for k, surface in enumerate(surfaces) if not surface.is_joined]
    boxes = joined or [(np.zeros(3), np.zeros(3))]
    low, high = np.min([box[0] for box in boxes], axis=0), np.max([box[1] for box in boxes], axis=0)
    sizes = {k: surfaces[k].box_mm[1] - surfaces[k].box_mm[0] for k in loose}
    longest = max([*(high - low).tolist(), *[float(size.max()) for size in sizes.values()]])
    gap = SET_BESIDE_SHARE * longest
    start = high[0] + gap if joined else low[0]
    widest = max([high[0] - low[0], *[size[0] for size in sizes.values()]])
    x, y, deepest = start, low[1], 0.0
    for k in sorted(loose, key=lambda k: (sizes[k][2], k)):
        if x > start and x + sizes[k][0] > start + widest * (1 + SET_BESIDE_SHARE):
            x, y, deepest = start, y + deepest + gap, 0.0
        moves[k] = np.array([x, y, low[2]]) - surfaces[k].box_mm[0]
        x += sizes[k][0] + gap
        deepest = max(deepest, float(sizes[k][1]))
    return moves


def _key(parts: Sequence[Part], zone_of: Mapping[FaceKey, str]) -> Key:
    """Return what is the same of parts that look the same: solids, places and zones."""
    corner = parts[0].at
    return tuple(
        (
            id(part.solid),
            tuple(part.at[k] - corner[k] for k in range(3)),
            tuple(zone_of.get((part.name, face)) for face in part.solid.faces),
        )
        for part in parts
    )


def _name(same: Sequence[Surface]) -> str:
    """Return what parts that are the same are called: those of one solid are of one row."""
    first = same[0].parts[0]
    called = first.loose if isinstance(first.loose, str) else first.name
    if len(same) == 1:
        return called
    if not isinstance(first.loose, str) and first.row:
        called = first.row
    return f"{called} ({len(same)} of these)"
