"""Noise that scanning adds is taken off; true detail keeps its area.

The scans are made here: known shapes, sampled each 4 to 10 mm, with seeded noise.
"""

import numpy as np
import pytest
from scan_makers import (
    SHAPES,
    bracket,
    cone,
    cylinder,
    fluted,
    knob,
    leg,
    moulded,
    ogee,
    panel,
    ring,
    scanned,
    small_box,
)

from shapes.meshes.scans import clean_scan

pytest.importorskip("trimesh")
pytest.importorskip("embreex")

QUARTER, HALF = 0.02, 0.06
"""Errors allowed where the noise is up to a quarter and half of the sampling: what the package
promises. Plain panels measure 14 % and 71 % too large there."""


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
@pytest.mark.parametrize(("spacing", "seed"), [(4, 1), (6, 2), (10, 1)])
def test_noise_up_to_a_quarter_of_the_sampling_is_taken_off_to_2_percent(shape, spacing, seed):
    if shape is small_box and spacing == 10:
        spacing = 5  # ten samples a side are the fewest that are promised to do; 20 here
    for share in (0.05, 0.1, 0.25):
        mesh, area = scanned(shape, spacing, share, seed)
        assert area == pytest.approx(clean_scan(mesh).area_mm2, rel=QUARTER), share


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("spacing", [4, 6, 10])
def test_noise_of_half_the_sampling_is_taken_off_to_6_percent(shape, spacing):
    mesh, area = scanned(shape, spacing, 0.5, 1)
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
