"""Boards with worked edges against the CAD kernel, with other parts on and under their edges.

Source: Open CASCADE Technology, https://dev.opencascade.org , through the package
cadquery-ocp-novtk 8.
"""

import random

import pytest
from cad_edges import along, round_ended, round_topped, worked
from cad_exposed import cad_areas, worst_share_off
from cad_twins import plain, turned, worked_board

from shapes import outlines, profiles

UNCUT = 1e-8
"""Of a whole face: their integration over a curved patch is good to 1e-9."""
SIDES = ("front", "back", "left", "right")
PIECES = 60
OFF = 1e-4
"""Share of a face: what the polygons of curved profiles may be off where another part cuts them."""


def random_profile(rng, height, deepest):
    """Return the profile of a whole edge, at most that deep."""
    low = min(deepest, height)
    size = round(rng.uniform(0.2, 0.9) * low, 1)
    form = rng.choice(["chamfer", "quarter round", "cove", "ogee", "bead", "points"])
    if form == "bead":
        return profiles.bead(height) if height / 2 < deepest else profiles.bead(low)
    if form == "points":
        out = round(size, 2)
        a, b = (
            round(rng.uniform(0.2, 0.45) * height, 2),
            round(rng.uniform(0.55, 0.8) * height, 2),
        )
        return [
            [out, 0],
            [out, a],
            [out / 2, a + 0.5],
            [out / 3, b, min(size / 9, 0.5)],
            [0, height],
        ]
    make = {
        "chamfer": lambda: profiles.chamfer(size, round(rng.uniform(0.2, 1) * height, 1)),
        "quarter round": lambda: profiles.quarter_round(size),
        "cove": lambda: profiles.cove(size),
        "ogee": lambda: profiles.ogee(size, round(rng.uniform(0.3, 1) * height, 1)),
    }[form]
    return profiles.edge_of(make(), height)


def random_pieces(seed):
    """Return a worked board, and blocks or a leg on it and under it, near or over its edges."""
    rng = random.Random(seed)  # noqa: S311
    width, depth = rng.randint(120, 700), rng.randint(100, 500)
    height = rng.randint(16, 40)
    edges = rng.sample(SIDES, rng.randint(1, 4))
    profile = random_profile(rng, height, min(width, depth) / 4)
    top = worked_board(width, depth, height, profile, edges)
    return [top, *neighbours(rng, width, depth, height)]


def neighbours(rng, width, depth, height):
    """Return a block or a leg on a board and one under it, near or over its edges."""
    found = []
    for level in ("above", "below"):
        x = rng.choice([-13, 0, 3, width - 50, width - 21]) + rng.choice([0, 0.7])
        y = rng.choice([-11, 0, 4, depth - 44, depth - 17]) + rng.choice([0, 0.3])
        tall = rng.randint(30, 300)
        z = height if level == "above" else -tall
        if rng.random() < 0.3:
            found.append(turned([[0, 40, "straight"], [tall, 30]], (x, y, z)))
        else:
            found.append(plain(rng.randint(30, 90), rng.randint(20, 80), tall, (x, y, z)))
    return found


def random_outline(rng):
    """Return points, the edges worked (None: all) and inner corners."""
    width, depth = rng.randint(200, 700), rng.randint(160, 400)
    a, b = rng.randint(60, width - 60), rng.randint(60, depth - 60)
    rise = rng.randint(12, 50)
    ell = [[0, 0], [width, 0], [width, b], [a, b], [a, depth], [0, depth]]
    notched = [[0, 0], [width, 0], [width, depth], [a, depth - 50], [0, depth]]
    # the twin of a bow is within the whole circle of its arc
    deep = min(depth, width * width // (4 * rise))
    bow = [[0, rise, rise], [width, rise], [width, deep], [0, deep]]
    hollow = [[0, 0, -rise], [width, 0], [width, depth], [0, depth]]
    skew = [[0, rise], [width - 50, 0], [width, depth - 30], [rise, depth]]
    half = [[0, 0], [width, 0, width / 2]]
    return rng.choice([
        (ell, rng.choice([None, [1, 3, 4], [4], [3, 6], [2, 4, 5]]), (4,)),
        (notched, rng.choice([None, [3, 4], [1, 4]]), (4,)),
        (bow, rng.choice([None, [1], [1, 2, 4], [2, 3, 1]]), ()),
        (hollow, rng.choice([None, [1], [4, 1]]), ()),
        (skew, rng.choice([None, [1], [1, 3], [2, 3, 4]]), ()),
        (half, rng.choice([None, [2]]), ()),
    ])  # fmt: skip


def random_outlines(seed):
    """Return a board of an outline with worked edges, and what stands on it and under it."""
    rng = random.Random(seed)  # noqa: S311
    points, edges, inner = random_outline(rng)
    height = rng.randint(16, 40)
    profile = random_profile(rng, height, 24)
    width, depth = (outlines.polygon(points).box[1] / 80_000).round().astype(int).tolist()
    board = worked(points, height, profile, edges, inner)
    return [board, *neighbours(rng, width, depth, height)]


@pytest.mark.parametrize("seed", range(PIECES))
def test_what_stands_on_or_under_a_worked_edge_covers_what_it_truly_covers(seed, worst_errors):
    error = worst_share_off(random_pieces(seed))
    worst_errors["parts at worked edges"] = max(worst_errors["parts at worked edges"], error)
    assert error < OFF


@pytest.mark.parametrize("seed", range(PIECES))
def test_so_it_does_on_outlines_with_inner_corners_and_arcs(seed, worst_errors):
    error = worst_share_off(random_outlines(seed))
    worst_errors["parts at outlines"] = max(worst_errors["parts at outlines"], error)
    assert error < OFF


PROFILES = {
    "chamfer": profiles.chamfer(6, 9),
    "cove": profiles.cove(15),
    "ogee": profiles.ogee(12, 16),
}
OUTLINES = {
    "L": [[0, 0], [300, 0], [300, 100], [120, 100], [120, 200], [0, 200]],
    "skew": [[0, 40], [260, 0], [300, 180], [50, 220]],
    "bow": [[0, 30, 30], [500, 30], [500, 300], [0, 300]],
    "hollow": [[0, 0, -30], [500, 0], [500, 200], [0, 200]],
    "half": [[0, 0], [400, 0, 200]],
    "round": [[0, 150, 150], [300, 150, 150]],
}


def check_whole(piece, worst_errors, what):
    whole, _, _ = cad_areas([piece])
    expected = {face: area for (_, face), area in whole.items()}
    worst = max(abs(piece.solid.area_mm2_of[face] / area - 1) for face, area in expected.items())
    worst_errors[what] = max(worst_errors[what], worst)
    assert expected == pytest.approx(piece.solid.area_mm2_of, rel=UNCUT)


@pytest.mark.parametrize("profile", PROFILES)
@pytest.mark.parametrize("name", OUTLINES)
def test_a_worked_outline_has_the_areas_of_the_carved_solid(name, profile, worst_errors):
    edge = profiles.edge_of(PROFILES[profile], 24)
    inner = (4,) if name == "L" else ()
    check_whole(worked(OUTLINES[name], 24, edge, inner=inner), worst_errors, "worked outlines")


@pytest.mark.parametrize("profile", PROFILES)
def test_round_ends_are_worked_as_if_turned(profile, worst_errors):
    edge = profiles.edge_of(PROFILES[profile], 24)
    check_whole(round_ended(400, 120, 24, edge), worst_errors, "round ends")


@pytest.mark.parametrize("name", ["bow", "half"])
def test_a_rail_into_a_bullnose_cuts_it_where_it_truly_does(name, worst_errors):
    """The rail ends within the round of the edge, above its middle, across a curve."""
    rail = plain(90, 60, 9, (40, -40, 13) if name == "half" else (180, -50, 13))
    board = worked([[0, 60, 60], [400, 60], [400, 300], [0, 300]], 24, profiles.bead(24))
    if name == "half":
        board = worked([[0, 0], [400, 0, 200]], 24, profiles.bead(24))
    error = worst_share_off([board, rail])
    worst_errors["rails into bullnoses"] = max(worst_errors["rails into bullnoses"], error)
    assert error < OFF


@pytest.mark.parametrize("profile", [*PROFILES, "bullnose"])
def test_a_cut_stops_where_the_edge_runs_on(profile, worst_errors):
    """Blocks stand over the stop and under the round end."""
    bullnose = profile == "bullnose"
    edge = profiles.bead(24) if bullnose else profiles.edge_of(PROFILES[profile], 24)
    board = round_topped(200, 300, 24, edge)
    check_whole(board, worst_errors, "stopped edges")
    blocks = [plain(60, 50, 40, (-17, 283, 24)), plain(60, 50, 40, (-7, 340, -40))]
    assert worst_share_off([board, *blocks]) < OFF


@pytest.mark.parametrize("profile", PROFILES)
@pytest.mark.parametrize(
    ("name", "inside"),
    [*[(name, False) for name in ("skew", "bow", "half")],
     *[(name, True) for name in ("skew", "bow", "hollow", "half")]],
)  # fmt: skip
def test_a_moulding_along_an_outline_has_the_areas_of_joined_runs(
    name, inside, profile, worst_errors
):
    piece = along(OUTLINES[name], PROFILES[profile], inside)
    check_whole(piece, worst_errors, "mouldings along outlines")


@pytest.mark.parametrize("profile", PROFILES)
def test_a_moulding_in_a_frame_hides_its_sticking_and_the_rim_of_the_panel(profile, worst_errors):
    """Its back lies against the frame, its foot on the panel; a block stands half over it."""
    run = along([[0, 0], [300, 0], [300, 180], [0, 180]], PROFILES[profile], True, (50, 40, 20))
    pieces = [
        plain(400, 260, 20), plain(50, 260, 16, (0, 0, 20)), plain(50, 260, 16, (350, 0, 20)),
        plain(300, 40, 16, (50, 0, 20)), plain(300, 40, 16, (50, 220, 20)), run,
        plain(60, 30, 50, (170, 45, 20)),
    ]  # fmt: skip
    error = worst_share_off(pieces)
    worst_errors["mouldings in frames"] = max(worst_errors["mouldings in frames"], error)
    assert error < OFF
