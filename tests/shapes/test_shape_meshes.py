"""One catalogue of sawn, moulded, panelled, shaped and turned solids, fed to every mesh test."""

import math
from collections import Counter
from typing import Any

import manifold3d
import numpy as np
import pytest

from shapes import (
    arched_panels,
    chamfered_legs,
    dished_seats,
    lofts,
    mouldings,
    outline_boards,
    outlines,
    profiles,
    raised_panels,
    rods,
    spindles,
    splayed_legs,
    worked_edges,
)
from shapes.exposure import exposure
from shapes.placement import place

SLAT = [[0, 0], [80, 0], [80, 300, 40], [0, 300]]
HOLES: list[Any] = [
    outlines.oval(40, 20, centre=(40, 280)),
    [[25, 100], [55, 100, 5], [55, 200], [25, 200]],
]
CABRIOLE = [[0, 50, 50, 20, 0], [30, 28, 28, 10, 0], [120, 32, 32, 0, 3], [300, 60, 60, 18, -18]]
OVALS = [[0, 30, 18, 10, 0], [200, 34, 30], [400, 60, 20, 0, 15]]
BALUSTER: list[list[float | str]] = [
    [0, 30],
    [20, 30, 8],
    [50, 30, "straight"],
    [50, 44, 6],
    [80, 44, -3],
    [100, 40],
]
OGEE = profiles.ogee(18, 24)
SPLAY = {"left": 8.0, "front": 11.0}
VASE: list[list[float | str]] = [
    [0, 26, "straight"], [60, 30], [150, 44], [150, 36], [330, 28, "straight"], [420, 26],
]  # fmt: skip
BOW: list[list[float | str]] = [[400, 0], [400, 250, "smooth"], [0, 250], [0, 0]]
CHAMFER = profiles.edge_of(profiles.chamfer(6, 9), 24)
ELL = [[0, 0], [300, 0], [300, 100], [120, 100], [120, 200], [0, 200]]
STADIUM = [[0, 0], [80, 0], [80, 300, 40], [0, 300, 0]]
QUARTER = 1 - math.sqrt(0.5)
PANEL = {"frame": 60, "recess": 9, "bevel": 40}

SPECIMENS: dict[str, Any] = {
    **{
        f"slat along {a}": outline_boards.outline_board(SLAT, 12, holes=HOLES, along=a)
        for a in "xyz"
    },
    "oval": outline_boards.outline_board(outlines.oval(90, 60), 22),
    "straight": mouldings.moulding(300, OGEE),
    "mitred": mouldings.mitred_moulding(300, 200, OGEE),
    "all round": mouldings.mitred_moulding(300, 200, profiles.bead(14), all_round=True),
    "profiled": worked_edges.profiled_board(300, 200, 24, profile=profiles.bead(24)),
    "chamfered": worked_edges.profiled_board(
        300, 200, 24, profile=CHAMFER, edges=worked_edges.EDGES
    ),
    "worked L": worked_edges.worked_outline(ELL, 24, profile=CHAMFER, edges=[1, 3, 4]),
    "worked slat": worked_edges.worked_outline(
        SLAT, 12, profile=profiles.quarter_round(12), edges=[2, 3, 4], holes=HOLES[:1], along="y"
    ),
    "stopped": worked_edges.worked_outline(STADIUM, 24, profile=CHAMFER, edges=[3], along="y"),
    "stopped bead": worked_edges.worked_outline(
        STADIUM, 24, profile=profiles.bead(24), edges=[2, 4]
    ),
    "stopped points": worked_edges.worked_outline(
        STADIUM, 24, profile=[[0, 0], [5, 8], [5, 10], [2, 12], [5, 16], [1, 24]], edges=[3]
    ),
    "worked stadium": worked_edges.worked_outline(STADIUM, 24, profile=CHAMFER, holes=HOLES),
    "worked oval": worked_edges.worked_outline(
        outlines.oval(300, 200), 24, profile=CHAMFER, along="x"
    ),
    "inside": mouldings.moulding_around(outlines.rectangle(300, 200), OGEE, inside=True, lies="y"),
    "inside an oval": mouldings.moulding_around(outlines.oval(300, 200), CHAMFER, inside=True),
    "around a stadium": mouldings.moulding_around(STADIUM, OGEE, lies="x"),
    "along an arch": mouldings.moulding_along([[0, 0], [0, 90, -40], [200, 90]], OGEE, lies="y"),
    "raised": raised_panels.raised_panel(400, 22, 600, **PANEL, field=1, step=2, raised_back=True),
    "open": raised_panels.open_panel(450, 22, 900, frame=55, panes=(2, 3), bar=18),
    "panelled": raised_panels.panelled_door(900, 40, 2000, frame=110, recess=12),
    "cabriole": lofts.shaped_leg(CABRIOLE),
    "round": lofts.shaped_round_leg(CABRIOLE),
    "ovals": lofts.shaped_round_leg(OVALS),
    "baluster": spindles.spindle(BALUSTER),
    "octagonal": chamfered_legs.octagonal_leg(400, 60, foot=40),
    "chamfered post": chamfered_legs.chamfered_leg(700, 60, 50, chamfer=8),
    "stopped post": chamfered_legs.chamfered_leg(700, 60, 50, chamfer=8, stops=[0, 500]),
    "tongue": chamfered_legs.chamfered_leg(
        700, 60, 50, chamfer=8, stops=[100, 600], stop_length=30, is_tongue=True
    ),
    **{f"bow across {a}": rods.rod(BOW, 20, along=a) for a in "xyz"},
    "mitred rod": rods.rod([[0, 0], [0, 300], [250, 380], [300, 0]], 24),
    "arched": arched_panels.arched_panel(500, 22, 700, frame=60, arch=190, recess=6),
    "arched, raised": arched_panels.arched_panel(
        500,
        22,
        700,
        frame=60,
        arch=90,
        recess=8,
        bevel=40,
        field=1,
        step=3,
        raised_back=True,
        is_round=True,
    ),
    "arched, open": arched_panels.arched_frame(500, 22, 700, frame=60, arch=90),
    "dished": dished_seats.dished(
        outline_boards.outline_board(
            outlines.rounded_rectangle(420, 380, radius=40, corner=(7, 9)),
            45,
            holes=[outlines.circle(20, centre=(60, 60))],
        ),
        [300, 260],
        15,
    ),
    "splayed square": splayed_legs.splayed_leg(400, 30, 40, foot=24, splay=SPLAY),
    "splayed round": splayed_legs.splayed_round_leg(400, 30, splay=SPLAY),
    "splayed spindle": splayed_legs.splayed_turned_leg(VASE, splay=SPLAY, between="smooth"),
    "ball": spindles.spindle([[0, 0, 25 * QUARTER], [25, 50, 25 * QUARTER], [50, 0]]),
}
OPENING = (450 - 110 - 18) / 2, (900 - 110 - 36) / 3
"""Sizes of an opening of the open panel."""
SLOPES = [math.tan(math.radians(degrees)) for degrees in SPLAY.values()]
MITRED = 300 + math.hypot(250, 80) + math.hypot(50, 380)
VOLUMES = {
    # 1e-12: straight solids and the equal-area polygons of ovals are exact but for rounding
    "oval": (math.pi * 45 * 30 * 22, 1e-12),
    # a 6 x 9 chamfer: a prism that a frustum tops, its corners mitred
    "chamfered": (300 * 200 * 15 + 9 / 6 * (60_000 + 288 * 188 + 4 * 294 * 194), 1e-12),
    "panelled": (900 * 2000 * 40 - 2 * 12 * 4 * 285 * 835, 1e-12),
    "chamfered post": (700 * (60 * 50 - 2 * 8 * 8), 1e-12),
    "stopped post": (700 * 60 * 50 - 500 * 2 * 8 * 8, 1e-12),
    # a frustum of a regular octagon, whose area is 2 (sqrt 2 - 1) of its width's square
    "octagonal": (400 / 3 * 2 * (math.sqrt(2) - 1) * (60**2 + 60 * 40 + 40**2), 1e-12),
    # Pappus; 1e-4: 128 chords of the bend
    "bow across x": (math.pi * 10**2 * (500 + 200 * math.pi), 1e-4),
    # a mitre adds outside what it takes off inside
    "mitred rod": (math.pi * 12**2 * MITRED, 1e-9),
    # a board less twice an opening of a rectangle and half a circle
    "arched": (500 * 22 * 700 - 12 * (380 * 390 + math.pi * 190**2 / 2), 1e-12),
    # half of the cylinder around it; 1e-4: 48 rings from rim to middle
    "dished": (
        45 * (420 * 380 - 40**2 * (4 - math.pi) - math.pi * 10**2) - math.pi * 150 * 130 * 15 / 2,
        1e-4,
    ),
    # a prism between parallel cuts: its section times its length along the stick
    "splayed round": (math.pi * 15**2 * 400 * math.hypot(1, *SLOPES), 1e-9),
    # a third of 754 mm falls between two grid lines
    "open": ((450 * 900 - 6 * OPENING[0] * OPENING[1]) * 22, 1e-7),
    # Pappus: the centroid of a half disc stands 4 r / (3 pi) out, and its polygon's a bit off that
    "all round": (math.pi * 49 / 2 * (1000 + 8 * 28 / (3 * math.pi)), 1e-6),
    # 64 sides along the axis: of equal area there, so of nearly equal volume
    "ball": (4 / 3 * math.pi * 25**3, 1e-3),
}


@pytest.mark.parametrize("name", VOLUMES)
def test_volumes_are_those_of_closed_forms(name):
    expected, tolerance = VOLUMES[name]
    assert expected == pytest.approx(body_of(SPECIMENS[name]).volume() / 80_000**3, rel=tolerance)


def body_of(solid):
    return manifold3d.Manifold(
        manifold3d.Mesh64(
            vert_properties=solid.vertices,
            tri_verts=np.ascontiguousarray(solid.triangles, dtype=np.uint64),
        )
    )


@pytest.mark.parametrize("name", SPECIMENS)
def test_the_mesh_is_closed_and_outward(name):
    solid = SPECIMENS[name]
    edges = Counter(
        (int(t[a]), int(t[b])) for t in solid.triangles for a, b in ((0, 1), (1, 2), (2, 0))
    )
    assert set(edges.values()) == {1}
    assert set(edges) == {(b, a) for a, b in edges}
    body = body_of(solid)
    assert manifold3d.Error.NoError == body.status()
    assert body.volume() > 0


@pytest.mark.parametrize("name", SPECIMENS)
def test_every_patch_has_triangles_and_flat_ones_have_their_true_area(name):
    solid = SPECIMENS[name]
    assert set(range(len(solid.patches))) == set(solid.patch_of.tolist())
    for patch, meshed in zip(solid.patches, solid.patch_mesh_areas / 80_000**2, strict=True):
        assert meshed > 0
        if patch.normal is not None:
            # sums of rounded products; a mitre of an arc at an angle is curved, in short steps
            rel = 1e-6 if name == "along an arch" else 1e-12
            assert patch.area_mm2 == pytest.approx(meshed, rel=rel)


@pytest.mark.parametrize("name", SPECIMENS)
def test_normals_look_the_way_of_their_triangles(name):
    solid = SPECIMENS[name]
    a, b, c = (solid.vertices[solid.triangles[:, k]] for k in range(3))
    crossed = np.cross(b - a, c - a)
    crossed /= np.linalg.norm(crossed, axis=1, keepdims=True)
    for number, patch in enumerate(solid.patches):
        if patch.normal is not None:
            looked = crossed[solid.patch_of == number] @ np.array(patch.normal)
            assert (looked > 1 - 1e-9).all()  # rounding of unit vectors, squared


@pytest.mark.parametrize("name", SPECIMENS)
def test_the_box_starts_at_the_origin_and_holds_the_solid(name):
    solid = SPECIMENS[name]
    # the polygon of a circle keeps inside it by up to 1.2e-3 of its radius along the axis
    slack = 1 + 2e-3 * max(solid.size)
    assert (solid.vertices.min(axis=0) >= -1).all()
    assert (solid.vertices.min(axis=0) <= slack).all()
    assert (solid.vertices.max(axis=0) <= np.array(solid.size) + 1).all()
    assert (solid.vertices.max(axis=0) >= np.array(solid.size) - slack).all()


@pytest.mark.parametrize("name", SPECIMENS)
def test_alone_every_face_shows_all_of_its_true_area(name):
    solid = SPECIMENS[name]
    seen = exposure([place("part", solid, (3, -5, 7))]).areas_mm2
    expected = {("part", face): area for face, area in solid.area_mm2_of.items()}
    assert expected == pytest.approx(seen, rel=1e-12)  # shares of rounded sums
