"""Noise that scanning adds is taken off; true detail keeps its area.

The scans are made here: known shapes, sampled each 4 to 10 mm, with seeded noise.
"""

import itertools

import numpy as np
import pytest

from shapes.meshes.imported import ImportedMesh
from shapes.meshes.mesh_exposure import mesh_exposure
from shapes.meshes.scans import clean_scan, scan_exposure

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
    outline = [(0, 0), (20, 0), *zip(26 + 4 * np.cos(bead), 4 + 4 * np.sin(bead), strict=True)]
    outline = np.array([*outline, (30, 0), (34, 0), (34, -6), (38, -6), (38, -30)])
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


@pytest.mark.parametrize(
    ("share", "normal_to", "excess"),
    [(0.25, 2, 0.11), (0.5, 2, 0.37), (0.25, None, 0.14), (0.5, None, 0.71)],
)
def test_noise_makes_a_panel_measure_too_large(share, normal_to, excess):
    """The trap itself: 1 and 2 mm of noise at 4 mm sampling, across the panel and all ways."""
    mesh, area = scanned(panel, 4, share, normal_to=normal_to)
    # 0.02: scatter of the noise, and of the quoted figures
    assert sum(mesh.areas_mm2.values()) / area - 1 == pytest.approx(excess, abs=0.02)


@pytest.mark.parametrize("shape", [*SHAPES, small_box])
@pytest.mark.parametrize("spacing", [4, 6, 10])
@pytest.mark.parametrize("seed", [1, 2])
def test_noise_up_to_a_quarter_of_the_sampling_is_taken_off_to_2_percent(shape, spacing, seed):
    if shape is small_box and spacing == 10:
        spacing = 5  # ten samples a side are the fewest that are promised to do; 20 here
    for share in (0.05, 0.1, 0.25):
        mesh, area = scanned(shape, spacing, share, seed)
        assert area == pytest.approx(clean_scan(mesh).area_mm2, rel=QUARTER), share


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("spacing", [4, 6, 10])
@pytest.mark.parametrize("seed", [1, 2])
def test_noise_of_half_the_sampling_is_taken_off_to_6_percent(shape, spacing, seed):
    mesh, area = scanned(shape, spacing, 0.5, seed)
    assert sum(mesh.areas_mm2.values()) > 1.6 * area
    assert area == pytest.approx(clean_scan(mesh).area_mm2, rel=HALF)


@pytest.mark.parametrize(("share", "allowed"), [(0.1, QUARTER), (0.25, QUARTER), (0.5, HALF)])
def test_noise_across_the_surface_alone_is_taken_off_too(share, allowed):
    """The method takes noise for alike all ways; a scanner's is mostly along its line of sight."""
    mesh, area = scanned(panel, 4, share, normal_to=2)
    assert area == pytest.approx(clean_scan(mesh).area_mm2, rel=allowed)


@pytest.mark.parametrize(
    ("shape", "spacing"),
    [
        (fluted, 1),
        (fluted, 2),
        (fluted, 4),
        (moulded, 1),
        (moulded, 2),
        (knob, 2),
        (small_box, 10),
        *[(s, 4) for s in SHAPES],
    ],
)
def test_true_detail_without_noise_loses_nothing(shape, spacing):
    mesh, area = scanned(shape, spacing, 0.0)
    scan = clean_scan(mesh)
    assert scan.mesh is mesh
    assert scan.removed_mm2 == 0
    assert "nothing to take off" in scan.notes[0]
    if shape is not leg:  # whose true area is that of the round surface
        assert area == pytest.approx(scan.area_mm2, rel=1e-12)


@pytest.mark.parametrize(
    ("shape", "spacing"), [(fluted, 1), (fluted, 2), (moulded, 1), (moulded, 2)]
)
@pytest.mark.parametrize("share", [0.1, 0.25])
def test_true_detail_under_noise_keeps_its_area_to_2_percent(shape, spacing, share):
    mesh, area = scanned(shape, spacing, share)
    assert area == pytest.approx(clean_scan(mesh).area_mm2, rel=QUARTER)


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("share", [0.05, 0.1, 0.25, 0.5])
def test_the_noise_is_estimated(shape, share):
    mesh, _ = scanned(shape, 4, share)
    # 20 %: curves of the leg add to small noise, some 7 000 corners scatter by 2 %
    assert share * 4 == pytest.approx(clean_scan(mesh).noise_mm, rel=0.2)


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


@pytest.mark.parametrize("shape", [cylinder, cone, ring, bracket, ogee])
@pytest.mark.parametrize("spacing", [4, 6])
@pytest.mark.parametrize(("share", "allowed"), [(0.25, QUARTER), (0.5, HALF)])
def test_noise_of_more_shapes_is_taken_off(shape, spacing, share, allowed):
    for seed in (31, 32):
        mesh, area = scanned(shape, spacing, share, seed)
        assert area == pytest.approx(clean_scan(mesh).area_mm2, rel=allowed), seed


@pytest.mark.parametrize("spacing", [4, 6])
def test_flutes_of_two_or_three_samples_keep_their_area_to_2_percent_under_a_quarter(spacing):
    """Smoothing alike in all directions took 5 % off them."""
    found = [
        clean_scan(mesh).area_mm2 / area - 1
        for mesh, area in (scanned(fluted, spacing, 0.25, seed) for seed in (31, 32, 33))
    ]
    assert np.mean(found) == pytest.approx(0, abs=QUARTER)


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


CLEAN = {
    "a twisted column of 12 sides": lambda: twisted(12),
    "a twisted column of 24": lambda: twisted(24),
    "a box of 12 triangles": clean_box,
    "a box of 48": lambda: halved(*clean_box()),
    "a leg of 8 sides": lambda: turned(steps(700, 30), 20, radius),
    "a leg of 16 sides": lambda: turned(steps(700, 20), 10, radius),
    "a column of coarse flutes": lambda: fluted(9)[:2],
    "a knob": lambda: knob(8)[:2],
    "a ring": lambda: ring(20)[:2],
    "a cone": lambda: turned(steps(400, 400), 10, lambda z: 1 + z / 10),
    "a ball of 32": lambda: ball(1),
    "a ball of 128": lambda: ball(2),
    "a ball of 512": lambda: ball(3),
}


@pytest.mark.parametrize("name", CLEAN)
def test_a_clean_coarse_mesh_is_left_as_it_is_and_a_note_says_so(name):
    corners, faces = CLEAN[name]()
    mesh = ImportedMesh(corners, faces, np.zeros(len(faces), np.int64), ("all",))
    scan = clean_scan(mesh)
    assert scan.areas_mm2 == mesh.areas_mm2
    assert scan.mesh is mesh
    assert "nothing to take off" in scan.notes[0] or "nothing is taken off" in scan.notes[0]


def test_the_note_says_why_a_mesh_is_no_scan():
    notes = []
    for corners, faces in (clean_box(), turned(steps(700, 30), 10, radius), ball(2)):
        mesh = ImportedMesh(corners, faces, np.zeros(len(faces), np.int64), ("all",))
        notes += clean_scan(mesh).notes
    few, flat, alike = notes
    assert "8 corners are too few" in few
    assert "lie within a plane" in flat
    assert "bend the same way" in alike


@pytest.mark.parametrize("shape", [panel, box, leg, small_box, fluted, ring, bracket])
@pytest.mark.parametrize("share", [0.1, 0.25])
def test_no_noisy_scan_is_taken_for_a_clean_mesh(shape, share):
    mesh, _ = scanned(shape, 5, share)
    assert "taken off: noise" in clean_scan(mesh).notes[0]


def test_noise_adds_area_and_none_is_ever_put_on():
    for seed in (1, 2, 3):
        mesh, _ = scanned(knob, 8, 0.1, seed)
        assert clean_scan(mesh).removed_mm2 >= 0


def test_irregular_sampling_is_no_noise():
    """Samples scattered within the panel by a quarter of their distance."""
    corners, faces, _ = panel(4)
    inside = ((corners[:, :2] > 0) & (corners[:, :2] < [400, 300])).all(axis=1)
    shift = np.random.default_rng(1).uniform(-1, 1, corners.shape) * inside[:, None] * [1, 1, 0]
    mesh = ImportedMesh(corners + shift, faces, np.zeros(len(faces), np.int64), ("all",))
    scan = clean_scan(mesh)
    assert scan.noise_mm == pytest.approx(0, abs=1e-4)  # rounding to the grid
    assert scan.area_mm2 == pytest.approx(120_000, rel=1e-9)


def test_what_was_taken_off_is_reported_with_its_reason():
    mesh, _ = scanned(panel, 4, 0.25)
    scan = clean_scan(mesh)
    assert scan.scanned_mm2 == mesh.areas_mm2
    assert scan.removed_mm2 == pytest.approx(scan.scanned_mm2["all"] - scan.area_mm2)
    assert f"{scan.removed_mm2:.0f} mm2" in scan.notes[0]
    share = scan.noise_mm / scan.spacing_mm
    assert f"{share:.0%} of the sampling" in scan.notes[0]
    # 0.03: noise along the panel makes neighbours lie further apart
    assert share == pytest.approx(0.25, abs=0.03)
    assert scan.spacing_mm == pytest.approx(4, rel=0.1)  # half the edges are diagonals or longer


def test_noise_beyond_what_was_tried_is_said_to_be():
    mesh, _ = scanned(panel, 4, 0.9)
    assert any("uncertain" in note for note in clean_scan(mesh).notes)
    mesh, _ = scanned(panel, 4, 0.5)
    assert not any("uncertain" in note for note in clean_scan(mesh).notes)


def test_each_region_gets_its_own_area():
    mesh, _ = scanned(box, 5, 0.2)
    centres = mesh.vertices[mesh.triangles].mean(axis=1)
    region = (centres[:, 0] > 200).astype(np.int64)
    halves = ImportedMesh(mesh.vertices, mesh.triangles, region, ("left", "right"))
    scan = clean_scan(halves)
    half = 2 * (200 * 300 + 200 * 200) + 300 * 200
    # 3 %: the border between the halves runs along triangles that the noise has moved
    assert scan.areas_mm2 == pytest.approx({"left": half, "right": half}, rel=0.03)
    assert scan.area_mm2 == pytest.approx(2 * half, rel=QUARTER)


def test_one_seed_gives_one_answer_and_another_hardly_another():
    mesh, _ = scanned(leg, 6, 0.25)
    first, again, other = (clean_scan(mesh, seed=seed).area_mm2 for seed in (1, 1, 2))
    assert first == again
    assert first == pytest.approx(other, rel=0.01)  # the noise that is added, on 3 000 corners
    assert first != other


def test_exposure_of_a_scan_counts_a_sheet_once_and_without_its_noise():
    mesh, area = scanned(panel, 5, 0.25)
    seen = scan_exposure(mesh)
    assert seen.way == "reach"
    assert area == pytest.approx(seen.area_mm2, rel=QUARTER)
    assert "taken off" in seen.notes[0]
    assert mesh.size_mm == seen.size_mm


def test_exposure_of_a_clean_closed_mesh_is_its_exposure():
    mesh, _ = scanned(small_box, 10, 0.0)
    assert scan_exposure(mesh).areas_mm2 == mesh_exposure(mesh).areas_mm2 == {"all": 60_000.0}


def test_progress_rises_and_an_interrupt_passes_through():
    mesh, _ = scanned(leg, 6, 0.25)
    told = []
    scan_exposure(mesh, progress=told.append)
    assert sorted(told) == told
    assert told[-1] == 1

    def stop(share):
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        clean_scan(mesh, progress=stop)
