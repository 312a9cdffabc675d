"""Boards with worked edges against the CAD kernel, with other parts on and under their edges.

Source: Open CASCADE Technology, https://dev.opencascade.org , through the package
cadquery-ocp-novtk 8.
"""

import random

import pytest
from cad_exposed import worst_share_off
from cad_twins import plain, turned, worked_board

from shapes import profiles

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
    pieces = [top]
    for level in ("above", "below"):
        x = rng.choice([-13, 0, 3, width - 50, width - 21]) + rng.choice([0, 0.7])
        y = rng.choice([-11, 0, 4, depth - 44, depth - 17]) + rng.choice([0, 0.3])
        tall = rng.randint(30, 300)
        z = height if level == "above" else -tall
        if rng.random() < 0.3:
            pieces.append(turned([[0, 40, "straight"], [tall, 30]], (x, y, z)))
        else:
            pieces.append(plain(rng.randint(30, 90), rng.randint(20, 80), tall, (x, y, z)))
    return pieces


@pytest.mark.parametrize("seed", range(PIECES))
def test_what_stands_on_or_under_a_worked_edge_covers_what_it_truly_covers(seed, worst_errors):
    error = worst_share_off(random_pieces(seed))
    worst_errors["parts at worked edges"] = max(worst_errors["parts at worked edges"], error)
    assert error < OFF
