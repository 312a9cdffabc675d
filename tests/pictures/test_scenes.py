"""What views show of simple scenes, against areas worked out by hand."""

import math

import numpy as np
import pytest
import shapely

from shapes.boards import board
from shapes.cases import case
from shapes.legs import round_leg, turned_leg
from shapes.placement import ORIGIN, place
from shapes.raised_panels import raised_panel
from shapes.surfaces import surfaces
from surfacecalc.pictures.scenes import scene
from surfacecalc.pictures.views import FRONT, ISOMETRIC, RIGHT, TOP

ROUNDED = 1e-6
"""Projected points are kept to 1e-6 mm and regions joined on a grid of 1e-5 mm: that times the
girth of a region, over its area."""
ISOMETRIC_SHARE = 1 / math.sqrt(3)
"""A face square to an axis shows this share of its area: the cosine of its angle to the viewer."""


def shown(parts, view, **options):
    (surface,) = surfaces(parts, **options)
    return scene(surface, view)


@pytest.mark.parametrize(
    ("view", "expected"),
    [
        (FRONT, {("b", "front"): 300 * 80}),
        (RIGHT, {("b", "right"): 200 * 80}),
        (TOP, {("b", "top"): 300 * 200}),
    ],
)
def test_an_elevation_of_a_box_shows_one_face_and_all_of_it(view, expected):
    found = shown([place("b", board(300, 200, 80))], view)
    assert expected == pytest.approx(found.areas_mm2(), rel=ROUNDED)


def test_the_isometric_view_shortens_all_three_faces_alike():
    found = shown([place("b", board(300, 200, 80))], ISOMETRIC).areas_mm2()
    areas = {"front": 300 * 80, "right": 200 * 80, "top": 300 * 200}
    expected = {("b", face): area * ISOMETRIC_SHARE for face, area in areas.items()}
    assert expected == pytest.approx(found, rel=ROUNDED)


def test_of_a_board_half_behind_another_half_shows():
    parts = [
        place("near", board(100, 10, 50), ORIGIN),
        place("far", board(100, 10, 50), (50, 100, 0)),
        place("link", board(10, 100, 10), (60, 5, 10)),
    ]
    found = shown(parts, FRONT).areas_mm2()
    assert found["far", "front"] == pytest.approx(100 * 50 / 2, rel=ROUNDED)
    assert found["near", "front"] == pytest.approx(100 * 50, rel=ROUNDED)


def test_what_stands_wholly_behind_does_not_show():
    parts = [place("near", board(100, 10, 50)), place("far", board(20, 30, 20), (10, 10, 10))]
    found = shown(parts, FRONT)
    assert set(found.regions) == {("near", "front")}
    lines = shapely.get_coordinates(found.edges)
    assert shapely.box(0, 0, 100, 50).boundary.buffer(1e-3).covers(shapely.multipoints(lines))


def test_the_inside_of_an_open_case_shows_within_its_rim():
    found = shown(
        [place("c", case(300, 200, 100, board=10, open_sides=("front",)))], FRONT
    ).areas_mm2()
    inside = (300 - 20) * (100 - 20)
    expected = {("c", "edge"): 300 * 100 - inside, ("c", "inside"): inside}
    assert expected == pytest.approx(found, rel=ROUNDED)


def test_three_boards_that_each_hide_the_next_come_out_right():
    """No order of drawing whole boards gets this ring right."""
    ring = [
        place("x", board(120, 10, 10), (-40, 0, 30)),
        place("y", board(10, 120, 10), (30, -70, 0)),
        place("z", board(10, 10, 120), (0, -30, -40)),
    ]
    hides = {
        (near.name, far.name)
        for near in ring
        for far in ring
        if near is not far and _shows(far, [near, far]) < 0.99 * _shows(far, [far])
    }
    assert hides in ({("x", "y"), ("y", "z"), ("z", "x")}, {("y", "x"), ("z", "y"), ("x", "z")})
    _check_by_sight_lines(shown(ring, ISOMETRIC), ring)


def _shows(part, parts):
    found = shown(parts, ISOMETRIC).areas_mm2()
    return sum(area for (name, _), area in found.items() if name == part.name)


def _check_by_sight_lines(found, parts):
    step = 0.5
    counted = _count_pixels(parts, found, step)
    assert set(counted) <= set(found.regions)
    for face, region in found.regions.items():
        # sight lines count half a square too much or too little along the girth at most
        assert abs(counted.get(face, 0) - region.area) <= step * region.length / 2, face


@pytest.mark.parametrize("seed", range(6))
def test_a_heap_of_boards_matches_a_count_of_sight_lines(seed):
    """Boards stand in each other; none is flush with another, whose the patch is would be open."""
    rng = np.random.default_rng(seed)
    parts = []
    for number in range(14):
        at, size = rng.uniform(0, 60, 3), rng.uniform(8, 50, 3)
        parts.append(place(f"b{number}", board(*size.tolist()), tuple(at.tolist())))
    (surface,) = surfaces(parts, gap=0)
    _check_by_sight_lines(scene(surface, ISOMETRIC), parts)


def test_visible_regions_do_not_lie_on_each_other_and_fill_the_outline():
    parts = [
        place("leg", turned_leg([[0, 30], [100, 60], [100, 40], [300, 50]])),
        place("top", board(200, 200, 20), (-50, -50, 300)),
        place("rail", board(100, 20, 40), (20, 20, 200)),
    ]
    for view in (FRONT, RIGHT, TOP, ISOMETRIC):
        found = shown(parts, view)
        total = sum(found.areas_mm2().values())
        assert total == pytest.approx(found.outline.area, rel=1e-4)  # strips of a round side


def test_a_round_leg_shows_as_a_rectangle_with_one_line_round_it():
    found = shown([place("leg", round_leg(300, 40))], FRONT)
    # 2.5e-4: the polygon stands out of the circle by step^2 / 12 of the radius at most
    assert found.areas_mm2()["leg", "side"] == pytest.approx(300 * 40, rel=2.5e-4)
    assert found.edges.length == pytest.approx(2 * (300 + 40), rel=2.5e-4)


def test_a_shoulder_of_a_turned_leg_is_a_line_and_its_silhouette_is_the_profile():
    found = shown([place("leg", turned_leg([[0, 20], [100, 40], [100, 30], [200, 30]]))], FRONT)
    profile = 100 * (20 + 40) / 2 + 100 * 30
    assert found.outline.area == pytest.approx(profile, rel=2.5e-4)
    shoulder = found.edges.intersection(shapely.box(-1, 99.99, 41, 100.01))
    # seen edge-on the wider of its two rings, and 0.01 mm of upright lines above and below
    assert shoulder.length == pytest.approx(40, abs=0.01 + 4 * 0.011)


def test_a_flush_joint_is_one_line_and_flat_faces_have_none_inside():
    parts = [place("a", board(50, 10, 40)), place("b", board(30, 10, 40), (50, 0, 0))]
    assert shown(parts, FRONT).edges.length == pytest.approx(2 * (80 + 40) + 40, rel=ROUNDED)


def test_no_hair_of_a_bevel_stands_out_over_the_frame_that_hides_it():
    """The mitres of frame and bevel fall on one line in this view."""
    solid = raised_panel(400, 22, 500, frame=60, recess=9, bevel=40, field=1)
    found = shown([place("p", solid)], ISOMETRIC)
    opening = [[60, 0, 60], [340, 0, 60], [340, 0, 440], [60, 0, 440]]
    hole = shapely.Polygon(ISOMETRIC.project(np.array(opening, dtype=float))[:, :2])
    frame = found.outline.boundary.union(
        shapely.union_all([shapely.LineString(line) for line in _frame_edges()])
    )
    out = found.edges.difference(hole.buffer(1e-3)).difference(frame.buffer(1e-3))
    assert out.length < 0.01  # ends of lines at the rims of the two buffers


def _frame_edges():
    corners = [[400, 0, 0], [400, 0, 500], [0, 0, 500], [400, 22, 500]]
    flat = ISOMETRIC.project(np.array(corners, dtype=float))[:, :2]
    return [flat[[0, 1]], flat[[1, 2]], flat[[1, 3]]]


def test_the_order_of_the_parts_changes_nothing():
    parts = [
        place("a", board(50, 10, 40)),
        place("b", board(30, 30, 70), (20, 10, 0)),
        place("c", round_leg(90, 20), (5, 5, 10)),
    ]
    one, other = shown(parts, ISOMETRIC), shown(parts[::-1], ISOMETRIC)
    assert one.areas_mm2() == pytest.approx(other.areas_mm2(), rel=1e-4)  # strips may differ


def test_shades_cover_what_is_turned_from_the_light_only():
    (surface,) = surfaces([place("b", board(300, 200, 80))])
    found = scene(surface, ISOMETRIC, shaded=True)
    shaded = sum(region.area for region in found.shades.values())
    dark = found.regions["b", "right"].area + found.regions["b", "front"].area
    assert dark == pytest.approx(shaded, rel=ROUNDED)
    assert scene(surface, ISOMETRIC).shades == {}


def _count_pixels(parts, found, step):
    """Count, on a grid of sight lines, which face of which box each one meets first.

    Boxes as slabs (Kay and Kajiya); nothing of the drawing's own geometry is used but its frame.
    """
    left, low, right, high = found.box
    across = np.arange(left + step / 2, right, step)
    upward = np.arange(low + step / 2, high, step)
    grid = np.stack(np.meshgrid(across, upward), axis=-1).reshape(-1, 2)
    view = found.view
    origins = grid[:, :1] * np.array(view.right) + grid[:, 1:] * np.array(view.up)
    toward = np.array(view.toward)
    best = np.full(len(grid), -np.inf)
    faces = np.full(len(grid), -1)
    names = []
    sides = (("left", "right"), ("front", "back"), ("bottom", "top"))
    for part in parts:
        corner = np.array(part.at) / 80_000
        size = np.array(part.solid.size_mm)
        ends = np.stack([(corner - origins) / toward, (corner + size - origins) / toward])
        enter, leave = ends.max(axis=0), ends.min(axis=0)
        near, far = enter.min(axis=1), leave.max(axis=1)
        axis = enter.argmin(axis=1)
        for k in range(3):
            names.append((part.name, sides[k][int(toward[k] > 0)]))
            hit = (near > far) & (axis == k) & (near > best)
            best[hit] = near[hit]
            faces[hit] = len(names) - 1
    return {
        name: float((faces == k).sum() * step**2)
        for k, name in enumerate(names)
        if (faces == k).any()
    }
