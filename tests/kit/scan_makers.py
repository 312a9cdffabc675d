"""Scanned shapes of known area: sampled, with noise."""

import itertools

import numpy as np
import pytest

from shapes.meshes.imported import ImportedMesh
from shapes.meshes.scan_noise import corner_normals
from shapes.meshes.scan_smoothing import averaging, links_of

pytest.importorskip("trimesh")
pytest.importorskip("embreex")

QUARTER, HALF = 0.02, 0.06
"""Errors allowed where the noise is up to a quarter and half of the sampling: what the package
promises. Plain panels measure 14 % and 71 % too large there."""


def grid(points, closed=False):
    """Return corners and triangles of a grid of points, shape (n, m, 3), closed along the first."""
    number = np.arange(points.shape[0] * points.shape[1]).reshape(points.shape[:2])
    if closed:
        number = np.vstack([number, number[:1]])
    a, b, c, d = number[:-1, :-1], number[1:, :-1], number[1:, 1:], number[:-1, 1:]
    faces = [np.stack(three, axis=-1).reshape(-1, 3) for three in ((a, b, c), (a, c, d))]
    return points.reshape(-1, 3), np.concatenate(faces)


def steps(length, spacing):
    return np.linspace(0, length, round(length / spacing) + 1)


def panel(spacing):
    x, y = np.meshgrid(steps(400, spacing), steps(300, spacing), indexing="ij")
    return *grid(np.stack([x, y, 0 * x], axis=-1)), 400 * 300


def box(spacing, size=(400, 300, 200)):
    corners, faces, count = [], [], 0
    for axis in range(3):
        first, second = (axis + 1) % 3, (axis + 2) % 3
        for side in (0, 1):
            u, v = np.meshgrid(
                steps(size[first], spacing), steps(size[second], spacing), indexing="ij"
            )
            points = np.zeros((*u.shape, 3))
            points[..., first], points[..., second], points[..., axis] = u, v, side * size[axis]
            new, triangles = grid(points)
            corners.append(new)
            faces.append((triangles if side else triangles[:, ::-1]) + count)
            count += len(new)
    # corners on edges are one, so that the noise moves both sides alike
    used, number = np.unique(np.round(np.concatenate(corners), 6), axis=0, return_inverse=True)
    area = 2 * (size[0] * size[1] + size[1] * size[2] + size[0] * size[2])
    return used, number.reshape(-1)[np.concatenate(faces)], area


def small_box(spacing):
    return box(spacing, (100, 100, 100))


def radius(z):
    return 25 + 6 * np.sin(2 * np.pi * z / 175) + 4 * np.cos(2 * np.pi * z / 90)


def turned(z, spacing, shape):
    angles = np.linspace(0, 2 * np.pi, max(8, round(2 * np.pi * 25 / spacing)), endpoint=False)
    points = np.stack(
        [
            np.outer(np.cos(angles), shape(z)),
            np.outer(np.sin(angles), shape(z)),
            np.tile(z, (len(angles), 1)),
        ],
        axis=-1,
    )
    return grid(points, closed=True)


def leg(spacing):
    """Source of the area: surface of revolution, integral of 2 pi r ds, by 20 000 trapezia."""
    fine = np.linspace(0, 700, 20_001)
    slope = np.gradient(radius(fine), fine)
    area = np.trapezoid(2 * np.pi * radius(fine) * np.hypot(1, slope), fine)
    return *turned(steps(700, spacing), spacing, radius), float(area)


def mesh_area(corners, faces):
    a, b, c = (corners[faces[:, k]] for k in range(3))
    return float(np.linalg.norm(np.cross(b - a, c - a), axis=1).sum() / 2)


def with_own_area(corners, faces):
    return corners, faces, mesh_area(corners, faces)


def fluted(spacing):
    """A column of 40 mm radius with 20 flutes, 12.6 mm wide and 3 mm deep, meeting in arrises."""
    angles = np.linspace(0, 2 * np.pi, round(2 * np.pi * 40 / spacing), endpoint=False)
    z = steps(300, spacing)
    out = 40 - 3 * np.abs(np.sin(10 * angles))
    flat = np.stack([out * np.cos(angles), out * np.sin(angles)], axis=1)
    points = np.concatenate(
        [np.repeat(flat[:, None], len(z), axis=1), np.tile(z[None, :, None], (len(flat), 1, 1))],
        axis=2,
    )
    return with_own_area(*grid(points, closed=True))


def moulded(spacing):
    """An edge with a bead, fillets and steps of 4 to 6 mm."""
    bead = np.linspace(np.pi, 0, 12)
    start = [(0, 0), (20, 0), *zip(26 + 4 * np.cos(bead), 4 + 4 * np.sin(bead), strict=True)]
    outline = np.array([*start, (30, 0), (34, 0), (34, -6), (38, -6), (38, -30)])
    along = np.append(0, np.cumsum(np.linalg.norm(np.diff(outline, axis=0), axis=1)))
    places = np.unique(np.round(np.append(along, np.arange(0, along[-1], spacing)), 3))
    x, z = (np.interp(places, along, outline[:, k]) for k in (0, 1))
    y = steps(200, spacing)
    points = np.stack(
        [
            np.repeat(x[:, None], len(y), 1),
            np.tile(y, (len(x), 1)),
            np.repeat(z[:, None], len(y), 1),
        ],
        axis=-1,
    )
    return with_own_area(*grid(points))


def knob(spacing):
    def shape(z):
        return np.sqrt(np.maximum(20**2 - (z - 20) ** 2, 4))

    return with_own_area(*turned(steps(40, spacing), spacing, shape))


def scanned(shape, spacing, share, seed=1, normal_to=None):
    """Return a scan of a shape with noise of a share of the spacing, and the shape's area."""
    corners, faces, area = shape(spacing)
    noise = np.random.default_rng(seed).normal(scale=share * spacing, size=corners.shape)
    if normal_to is not None:
        noise = noise * np.eye(3)[normal_to]
    return ImportedMesh(corners + noise, faces, np.zeros(len(faces), np.int64), ("all",)), area


SHAPES = [panel, box, leg]


# more shapes: cylinder, cone and ring were never looked at while the method was chosen; bracket and
# ogee were, with other noise than here


def cylinder(spacing):
    return with_own_area(*turned(steps(500, spacing), spacing, lambda z: 0 * z + 25))


def cone(spacing):
    return with_own_area(*turned(steps(400, spacing), spacing, lambda z: 20 + 0.15 * z))


def ring(spacing):
    """A ring of 120 mm radius, 60 mm thick."""
    around, across = round(2 * np.pi * 120 / spacing), round(2 * np.pi * 30 / spacing)
    u, v = np.arange(around) * 2 * np.pi / around, np.arange(across + 1) * 2 * np.pi / across
    u, v = np.meshgrid(u, v, indexing="ij")
    out = 120 + 30 * np.cos(v)
    corners, faces = grid(np.stack([out * np.cos(u), out * np.sin(u), 30 * np.sin(v)], -1), True)
    used, number = np.unique(np.round(corners, 6), axis=0, return_inverse=True)
    return with_own_area(used, number.reshape(-1)[faces[:, ::-1]])


def drawn_along(outline, length, spacing, closed=False):
    """Return a surface that an outline sweeps along y; corners of the outline are samples."""
    points = [outline[0]]
    for start, end in itertools.pairwise(np.array(outline, dtype=np.float64)):
        count = max(1, round(float(np.linalg.norm(end - start)) / spacing))
        points += [start + (end - start) * k / count for k in range(1, count + 1)]
    x, z = np.array(points[:-1] if closed else points).T
    y = steps(length, spacing)
    sheet = np.stack(
        [np.tile(x[:, None], len(y)), np.tile(y, (len(x), 1)), np.tile(z[:, None], len(y))], -1
    )
    return with_own_area(*grid(sheet, closed=closed))


def bracket(spacing):
    outline = [(0, 0), (100, 0), (100, 20), (20, 20), (20, 100), (0, 100), (0, 0)]
    return drawn_along(outline, 300, spacing, closed=True)


def ogee(spacing):
    """Two quarter circles of 20 mm radius, one hollow and one round, between flats."""
    bend = np.linspace(0, np.pi / 2, 1 + max(3, round(10 * np.pi / spacing)))
    hollow = zip(50 - 20 * np.cos(bend), 20 * np.sin(bend), strict=True)
    bulge = zip(50 + 20 * np.sin(bend[1:]), 40 - 20 * np.cos(bend[1:]), strict=True)
    return drawn_along([(0, 0), *hollow, *bulge, (70, 70), (100, 70)], 300, spacing)


def clean_box():
    corners = np.array([[x, y, z] for x in (0, 400) for y in (0, 300) for z in (0, 200.0)])
    quads = [(0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3)]
    return corners, np.array([[q[k] for k in t] for q in quads for t in ((0, 1, 2), (0, 2, 3))])


def halved(corners, faces):
    """Return each triangle cut in four."""
    middles = (corners[faces] + corners[faces[:, [1, 2, 0]]]) / 2
    corners = np.concatenate([corners[faces], middles], axis=1).reshape(-1, 3)
    used, number = np.unique(corners, axis=0, return_inverse=True)
    number = number.reshape(-1, 6)
    parts = [number[:, k] for k in ((0, 3, 5), (3, 1, 4), (5, 4, 2), (3, 4, 5))]
    return used, np.concatenate(parts)


def ball(times):
    """Return an eight-sided solid cut finer and blown up to a ball: nowhere flat."""
    corners = np.array([[1, 0, 0], [0, 1, 0], [-1, 0, 0], [0, -1, 0], [0, 0, 1], [0, 0, -1.0]])
    top = [(0, 1, 4), (1, 2, 4), (2, 3, 4), (3, 0, 4)]
    faces = np.array([*top, *[(b, a, 5) for a, b, _ in top]])
    for _ in range(times):
        corners, faces = halved(corners, faces)
    return 50 * corners / np.linalg.norm(corners, axis=1, keepdims=True), faces


def twisted(around):
    """A column of four lobes that turns as it rises: no two triangles in one plane."""
    z, angle = np.linspace(0, 500, 25), np.arange(around) * 2 * np.pi / around
    turn = angle[:, None] + z / 120
    out = np.tile((30 + 6 * np.cos(4 * angle))[:, None], len(z))
    return grid(
        np.stack([out * np.cos(turn), out * np.sin(turn), np.tile(z, (around, 1))], -1), True
    )


def rounded(size, radius):
    """Return a box like those above whose edges and corners came out round.

    Its area is that of the sharp box: what a scanner should have seen.
    """

    def shape(spacing):
        corners, faces, area = box(spacing, size)
        inner = np.clip(corners, radius, np.asarray(size) - radius)
        out = corners - inner
        length = np.maximum(np.linalg.norm(out, axis=1, keepdims=True), 1e-12)
        return inner + radius * out / length, faces, area

    return shape


def waves(corners, faces, height, rounds, seed=1):
    """Return corners moved by waves: noise that neighbours share, some root of `rounds` samples.

    Args:
        corners: shape (v, 3).
        faces: corner numbers, shape (t, 3).
        height: standard deviation of the waves [mm].
        rounds: how often noise is averaged over neighbours.
        seed: of the noise.
    """
    average = averaging(links_of(faces, len(corners)))
    moves = np.random.default_rng(seed).normal(size=len(corners))
    for _ in range(rounds):
        moves = average @ moves
    moves *= height / moves.std()
    return corners + moves[:, None] * corner_normals(corners, faces)


def wavy(shape, spacing, share, height, rounds, seed=1):
    """Return a scan with noise of a share of the spacing and waves, and the shape's area."""
    corners, faces, area = shape(spacing)
    moved = waves(corners, faces, height, rounds, seed)
    noise = np.random.default_rng(seed + 7).normal(scale=share * spacing, size=corners.shape)
    return ImportedMesh(moved + noise, faces, np.zeros(len(faces), np.int64), ("all",)), area
