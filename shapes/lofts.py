"""Shaped legs: lofted through sections, straight or on smooth curves from each to the next.

Cabriole, splayed, sabre and bracket feet. Between two rectangular sections every side is a flat
trapezium, because both of its edges run the same way, so square legs are exact. Between two round
or oval sections the side is ruled, point of one to the point of the other at the same angle; its
area comes from quadrature, to a relative error below 1e-12. So does the area of smooth legs, whose
sizes and offsets run on monotone cubics; straight stretches stand for these only where they tell
what share of a face is hidden.
"""

import itertools
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from shapes.boards import FACES as SIX_SIDES
from shapes.errors import ShapeError
from shapes.grid import position_units, size_units, to_mm2
from shapes.outline_boards import walls
from shapes.solids import Floats, Patch, Solid, flat_patch
from shapes.spindles import hermite, monotone_slopes
from shapes.tolerances import CURVE_SEGMENTS

Sections = Sequence[Sequence[float]]
"""[height, width, depth, offset x, offset y] [mm]; the offsets, of the middle, may be left out."""

LARGEST_TWIST = 0.03
"""Angle [radians] that a strip of a round leg may twist: it is then off by less than 1.2e-4 of
itself where another part cuts it, and the average strip by far less."""

SQUARE_STEPS = 32
"""Straight stretches for a smooth curve between two square sections."""

ROUND_STEPS = 16
"""The same between two round ones, which have 256 strips in each stretch; see `SMOOTH_STEPS`."""

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(10)


@dataclass(frozen=True)
class _Section:
    """A section: its height, its two sizes and the place of its middle [grid units]."""

    height: float
    size: tuple[float, float]
    middle: tuple[float, float]

    @property
    def low(self) -> tuple[float, float]:
        """Its least x and y."""
        return self.middle[0] - self.size[0] / 2, self.middle[1] - self.size[1] / 2

    @property
    def high(self) -> tuple[float, float]:
        """Its greatest x and y."""
        return self.middle[0] + self.size[0] / 2, self.middle[1] + self.size[1] / 2


@dataclass(frozen=True, eq=False)
class _Run:
    """What lies between two sections, at the nodes of the quadrature [grid units].

    Attributes:
        size: the two sizes, shape (nodes, 2).
        grown: how fast these grow from the one to the other, shape (nodes, 2).
        shift: how fast the middle moves, shape (nodes, 2).
        rise: from the one to the other.
    """

    size: Floats
    grown: Floats
    shift: Floats
    rise: float


def shaped_leg(sections: Sections, *, smooth: bool = False) -> Solid:
    """Return a leg of rectangular sections.

    Args:
        sections: [height, width, depth] or [height, width, depth, offset x, offset y] [mm], from
            height 0 upward. The offsets say where the section's middle lies from any one upright
            line.
        smooth: whether sizes and offsets run on monotone cubics through the sections; else they
            run straight from each to the next.

    Returns:
        A solid with the faces front, back, left, right, top and bottom.

    Raises:
        ShapeError: fewer than two sections, not starting at height 0, not rising, a size out of
            range.

    Source: trapezium, (a + b) / 2 times its height in its own plane; elementary. Smooth: F. N.
    Fritsch, R. E. Carlson, SIAM Journal on Numerical Analysis 17 (1980) 238-246; its area is the
    integral of width times length along the curve, by Gauss-Legendre quadrature.

    >>> splayed = shaped_leg([[0, 30, 30, -40, 0], [400, 30, 30, 0, 0]])
    >>> round(splayed.area_mm2_of["left"], 6)  # 30 sqrt(400^2 + 40^2)
    12059.850745
    """
    cuts, runs = _cuts_and_runs(sections, lambda *_: SQUARE_STEPS if smooth else 1, smooth=smooth)
    rings = [_rectangle(cut) for cut in cuts]
    groups: list[tuple[str, list[int]]] = []
    for k in range(len(cuts) - 1):
        for number, face in enumerate(("front", "right", "back", "left")):
            a, b = 4 * k + number, 4 * k + (number + 1) % 4
            groups.append((face, [a, b, b + 4, a + 4]))
    last = 4 * (len(cuts) - 1)
    groups += [("top", [last, last + 1, last + 2, last + 3]), ("bottom", [3, 2, 1, 0])]
    groups.sort(key=lambda group: SIX_SIDES.index(group[0]))
    vertices = np.concatenate(rings)
    quads = np.array([quad for _, quad in groups])
    patches = tuple(flat_patch(face, vertices[quad]) for face, quad in groups)
    if smooth:
        areas = _smooth_areas(runs)
        patches = tuple(
            replace(patch, area_mm2=areas[patch.face][quad[0] // 4])
            if patch.face in areas
            else patch
            for patch, (_, quad) in zip(patches, groups, strict=True)
        )
    triangles = quads[:, [0, 1, 2, 0, 2, 3]].reshape(-1, 3)
    return Solid(vertices, triangles, np.repeat(np.arange(len(groups)), 2), patches, _size(cuts))


def shaped_round_leg(sections: Sections, *, smooth: bool = False) -> Solid:
    """Return a leg of round or oval sections.

    Args:
        sections: as for `shaped_leg`; width and depth are the axes of the oval.
        smooth: as for `shaped_leg`.

    Returns:
        A solid with the faces side, top and bottom.

    Raises:
        ShapeError: as for `shaped_leg`.

    Source: area of a ruled surface, integral of |P_t x P_s|, by Gauss-Legendre quadrature.

    >>> leg = shaped_round_leg([[0, 20, 20], [300, 40, 40]])  # a frustum: pi (10 + 20) l
    >>> round(leg.area_mm2_of["side"], 6)
    28290.037485
    """
    cuts, runs = _cuts_and_runs(
        sections, _untwisted_smooth if smooth else _untwisted, smooth=smooth
    )
    rings = [_ellipse(cut) for cut in cuts]
    patches, groups = [], []
    between = walls([rings[0]])
    for number, run in enumerate(runs):
        patches += [Patch("side", to_mm2(float(area)), None) for area in _strip_areas(run)]
        groups.append(between + number * CURVE_SEGMENTS)
    spokes = np.arange(1, CURVE_SEGMENTS - 1)
    cap = np.stack([0 * spokes, spokes, spokes + 1], axis=1)
    groups += [cap + CURVE_SEGMENTS * (len(cuts) - 1), cap[:, ::-1]]
    strips = len(patches)
    for face, cut, up in (("top", cuts[-1], 1.0), ("bottom", cuts[0], -1.0)):
        area = math.pi * cut.size[0] * cut.size[1] / 4
        patches.append(Patch(face, to_mm2(area), (0.0, 0.0, up)))
    counts = [2] * strips + [len(cap)] * 2
    patch_of = np.repeat(np.arange(len(patches)), counts)
    return Solid(
        np.concatenate(rings),
        np.concatenate(groups),
        patch_of,
        tuple(patches),
        _size(cuts),
        rings=tuple(range(0, CURVE_SEGMENTS * len(cuts), CURVE_SEGMENTS)),
    )


def _checked(sections: Sections) -> list[_Section]:
    if len(sections) < 2:
        raise ShapeError("sections", "at least two")
    cuts = [_section(number, section) for number, section in enumerate(sections, start=1)]
    if cuts[0].height != 0:
        raise ShapeError("sections", "a list that starts at height 0")
    for number, (below, above) in enumerate(itertools.pairwise(cuts), start=2):
        if above.height <= below.height:
            raise ShapeError("sections", f"rising: section {number} is not above the one before")
    return cuts


def _section(number: int, section: Sequence[float]) -> _Section:
    if len(section) not in (3, 5):
        rule = f"[height, width, depth], with offset x and offset y or without: section {number}"
        raise ShapeError("sections", rule)
    where = f"section {number}"
    height, width, depth, x, y = [*section, 0.0, 0.0][:5]
    return _Section(
        position_units(f"{where} height", height),
        (size_units(f"{where} width", width), size_units(f"{where} depth", depth)),
        (position_units(f"{where} offset x", x), position_units(f"{where} offset y", y)),
    )


def _in_box(cuts: list[_Section]) -> list[_Section]:
    """Move sections so that their box starts at the origin."""
    x, y = (min(cut.low[k] for cut in cuts) for k in range(2))
    return [_Section(cut.height, cut.size, (cut.middle[0] - x, cut.middle[1] - y)) for cut in cuts]


def _cuts_and_runs(
    sections: Sections, steps_of: Callable[[_Section, _Section], int], *, smooth: bool
) -> tuple[list[_Section], list[_Run]]:
    """Return all sections, the given ones and those between, and the runs between them.

    Args:
        sections: as for `shaped_leg`.
        steps_of: how many runs there are from one given section to the next.
        smooth: as for `shaped_leg`.
    """
    given = _checked(sections)
    at = np.array([cut.height for cut in given])
    values = np.array([[*cut.size, *cut.middle] for cut in given])
    slopes = np.stack([monotone_slopes(at, column) for column in values.T], axis=1)
    cuts, runs = given[:1], []
    for k, rise in enumerate(np.diff(at)):
        straight = values[k + 1] - values[k]
        tangents = (slopes[k] * rise, slopes[k + 1] * rise) if smooth else (straight, straight)
        steps = steps_of(*given[k : k + 2])
        for number in range(steps):
            nodes = (number + (_NODES[:, None] + 1) / 2) / steps
            size, grown = hermite(nodes, values[k], values[k + 1], *tangents)
            grown = grown / steps
            runs.append(_Run(size[:, :2], grown[:, :2], grown[:, 2:], rise / steps))
        for share in np.arange(1, steps) / steps:
            found = hermite(share, values[k], values[k + 1], *tangents)[0]
            width, depth, x, y = np.asarray(found).tolist()
            cuts.append(_Section(float(at[k] + rise * share), (width, depth), (x, y)))
        cuts.append(given[k + 1])
    return _in_box(cuts), runs


def _untwisted(below: _Section, above: _Section) -> int:
    """Return how many runs keep the side between two ovals from twisting much in any of them.

    The strips of a twisted side are not flat, and two triangles each would be too large by an
    eighth of the square of the angle.
    """
    ratio = below.size[0] * above.size[1] / (below.size[1] * above.size[0])
    return math.ceil(abs(math.asin((ratio - 1) / (ratio + 1))) / LARGEST_TWIST) or 1


def _untwisted_smooth(below: _Section, above: _Section) -> int:
    """Return the same on smooth curves, which are at most three times as steep as straight ones."""
    return max(ROUND_STEPS, 3 * _untwisted(below, above))


def _size(cuts: list[_Section]) -> tuple[int, int, int]:
    across, along = (math.ceil(max(cut.high[k] for cut in cuts)) for k in range(2))
    return across, along, round(cuts[-1].height)


def _rectangle(cut: _Section) -> Floats:
    (left, front), (right, back), z = cut.low, cut.high, cut.height
    corners = [(left, front, z), (right, front, z), (right, back, z), (left, back, z)]
    return np.array(corners, dtype=np.float64)


def _ellipse(cut: _Section) -> Floats:
    """Return the polygon of an oval's area, flat sides towards the ends of its axes."""
    step = 2 * math.pi / CURVE_SEGMENTS
    angles = (np.arange(CURVE_SEGMENTS) + 0.5) * step
    half = np.array(cut.size) / 2 * math.sqrt(step / math.sin(step))
    plan = np.array(cut.middle) + half * np.stack([np.cos(angles), np.sin(angles)], axis=1)
    return np.column_stack([plan, np.full(CURVE_SEGMENTS, float(cut.height))])


def _smooth_areas(runs: list[_Run]) -> dict[str, list[float]]:
    """Return the areas of the four sides, run by run [mm2]."""
    areas: dict[str, list[float]] = {"front": [], "right": [], "back": [], "left": []}
    for run in runs:
        for face, across, along, sign in (
            ("front", 0, 1, -1), ("back", 0, 1, 1), ("left", 1, 0, -1), ("right", 1, 0, 1),
        ):  # fmt: skip
            out = run.shift[:, along] + sign * run.grown[:, along] / 2
            density = run.size[:, across] * np.hypot(run.rise, out)
            areas[face].append(to_mm2(float(density @ _WEIGHTS) / 2))
    return areas


def _strip_areas(run: _Run) -> Floats:
    """Return the area of the side between two ovals, strip by strip, shape (n,)."""
    step = 2 * math.pi / CURVE_SEGMENTS
    starts = (np.arange(CURVE_SEGMENTS) + 0.5) * step
    t = (starts[:, None] + step * (_NODES + 1) / 2)[:, :, None]
    a, b = (run.size / 2).T
    grown = run.grown / 2
    along = np.stack(np.broadcast_arrays(-a * np.sin(t), b * np.cos(t), 0.0), axis=-1)
    up = np.stack(
        np.broadcast_arrays(
            run.shift[:, 0] + grown[:, 0] * np.cos(t),
            run.shift[:, 1] + grown[:, 1] * np.sin(t),
            run.rise,
        ),
        axis=-1,
    )
    density = np.linalg.norm(np.cross(along, up), axis=-1)
    areas: Floats = np.einsum("nts,t,s->n", density, _WEIGHTS, _WEIGHTS) * step / 4
    return areas
