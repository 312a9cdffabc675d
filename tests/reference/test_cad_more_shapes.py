"""Outlines, mouldings, raised panels, shaped legs and spindles against an independent CAD kernel.

Source: Open CASCADE Technology, https://dev.opencascade.org , through the package
cadquery-ocp-novtk 8. It knows no triangles: arcs, ovals and Bezier curves are exact, and so are the
surfaces made of them by extrusion, revolution, ruling and intersection. Mitres are made there by
cutting straight runs, not by the formula under test. Faces are followed through its general fuse
by its history.
"""

import itertools
from collections.abc import Callable
from functools import partial
from typing import Any

import pytest
from cad_compare import UNCUT, compare
from cad_exposed import cad_areas
from cad_moves import leaned, mirrored, turned_piece
from cad_smooth import smooth
from cad_twins import (
    around,
    glazed,
    oval_board,
    panelled,
    plain,
    raised,
    sawn,
    shaped,
    shaped_round,
    straight_run,
    tapered_below_a_block,
    turned,
    worked_board,
)

from shapes import profiles

# ---- specimens

APRON = [[0, 0], [60, 0, -35], [540, 0], [600, 0], [600, 90], [0, 90]]
BOW = [[0, 30, 30], [500, 30], [500, 300], [0, 300]]
SHEET = [[0, 0], [200, 0], [200, 200], [0, 200]]
SLAT = [[0, 0], [80, 0], [80, 300, 40], [0, 300]]
PIERCING = [[25, 100], [55, 100, 5], [55, 200, 15], [25, 200, 5]]
OGEE = profiles.ogee(18, 24)
PROFILES = {
    "chamfer": profiles.chamfer(6, 9),
    "quarter round": profiles.quarter_round(15),
    "cove": profiles.cove(15),
    "bead": profiles.bead(14),
    "ogee": OGEE,
    "cornice": profiles.flipped(
        profiles.stacked(profiles.stood_out(OGEE, 12), [[10, 0], [10, 5]], profiles.cove(10))
    ),
    "base": profiles.edge_of(OGEE, 70),
}
CABRIOLE = [
    [0, 48, 48, 22, -22], [18, 50, 50, 22, -22], [45, 27, 27, 14, -14], [150, 30, 30, 3, -3],
    [290, 54, 54, 7, -7], [360, 60, 60, 0, 0], [420, 56, 56, 0, 0],
]  # fmt: skip
SABRE = [[0, 24, 30, 0, -70], [140, 28, 33, 0, -30], [300, 32, 38, 0, -5], [430, 36, 42, 0, 0]]
BRACKET = [[0, 90, 60, 0, 0], [40, 100, 70, 5, 5], [110, 150, 90, 30, 15]]
OVAL_LEG = [[0, 30, 18, 10, 0], [200, 34, 30], [400, 60, 20, 0, 15]]
BALUSTER = [
    [0, 30], [20, 30, 8], [50, 30, "straight"], [50, 44, 6], [80, 44, -3], [100, 40],
    [180, 62], [330, 26], [420, 40, "straight"], [420, 56, "straight"], [450, 56],
]  # fmt: skip
SPINDLE = [[0, 12], [120, 18], [210, 22], [300, 18], [440, 12]]
BUN = [[0, 50, 20], [60, 50]]
TIP = [[0, 0], [60, 34], [150, 20], [240, 0]]


def alone(make: Callable[..., Any], *sizes: Any, **more: Any) -> list[Any]:
    return [make(*sizes, **more)]


ALONE: dict[str, Callable[[], Any]] = {
    **{f"apron along {a}": partial(alone, sawn, APRON, 20, a, at=(3, -5, 7)) for a in "xyz"},
    "bow front": lambda: [sawn(BOW, 18)],
    "slat": lambda: [sawn(SLAT, 12, "y", holes=[PIERCING])],
    "pierced": lambda: [
        sawn(SLAT, 12, "y", [PIERCING, [[10, 20], [70, 20], [40, 60]]], [((20, 20, (40, 290)))])
    ],
    "hand hole": lambda: [sawn(SHEET, 12, "x", ovals=[(100, 32, (100, 150))])],
    "oval top": lambda: [oval_board(900, 600, 22)],
    "thin oval": lambda: [oval_board(900, 90, 22)],
    "round top": lambda: [oval_board(700, 700, 22)],
    **{f"straight {name}": partial(alone, straight_run, 800, p) for name, p in PROFILES.items()},
    **{f"mitred {name}": partial(alone, around, 500, 300, p) for name, p in PROFILES.items()},
    **{
        f"all round {name}": partial(alone, around, 500, 300, p, True)
        for name, p in PROFILES.items()
    },
    "raised": lambda: [raised(400, 22, 600, frame=60, recess=9, bevel=40, field=1)],
    "raised, step": lambda: [raised(400, 22, 600, frame=60, recess=9, bevel=40, field=1, step=3)],
    "raised both": lambda: [
        raised(400, 22, 600, frame=60, recess=9, bevel=40, field=2, step=3, raised_back=True)
    ],
    "square step": lambda: [raised(400, 22, 600, frame=60, recess=9, bevel=40, field=0, step=9)],
    "glazed": lambda: [glazed(450, 22, 900, 55, (2, 3), 18)],
    "frame": lambda: [glazed(450, 22, 900, 55, (1, 1), 0)],
    "panelled": lambda: [panelled(900, 40, 2000, 110, 12, (2, 2), 100)],
    "cabriole": lambda: [shaped(CABRIOLE)],
    "sabre": lambda: [shaped(SABRE)],
    "bracket": lambda: [shaped(BRACKET)],
    "round cabriole": lambda: [shaped_round(CABRIOLE)],
    "oval leg": lambda: [shaped_round(OVAL_LEG)],
    "leg straight at its top": lambda: [tapered_below_a_block(700, 50, 40, 25, 120)],
    "smooth cabriole": lambda: [smooth(CABRIOLE)],
    "smooth sabre": lambda: [smooth(SABRE)],
    "smooth oval leg": lambda: [smooth(OVAL_LEG, is_round=True)],
    "smooth round cabriole": lambda: [smooth(CABRIOLE, is_round=True)],
    "leaned smooth leg": lambda: [leaned(smooth(SABRE), 8, "left")],
    "baluster": lambda: [turned(BALUSTER)],
    "bun": lambda: [turned(BUN)],
    "tip": lambda: [turned(TIP)],
    "turned board": lambda: [turned_piece(plain(300, 40, 200), 30)],
    "turned moulding": lambda: [turned_piece(around(300, 200, OGEE), 90)],
    "leaned slat": lambda: [leaned(sawn(SLAT, 12, "y", holes=[PIERCING]), 12, "back")],
    "leaned leg": lambda: [leaned(shaped(SABRE), 8, "left")],
    "laid leg": lambda: [leaned(shaped(SABRE), 90, "front")],
    "mirrored leg": lambda: [mirrored(shaped(CABRIOLE), "left-right")],
    "mirrored bracket": lambda: [mirrored(shaped(BRACKET), "front-back")],
}  # fmt: skip


def table():
    """A top, an arched apron in front and four shaped legs, whose heads are 56 square."""
    width, depth = 800, 500
    head = 420 - 90
    legs = []
    for right, back in itertools.product((False, True), repeat=2):
        sections = [
            [z, w, d, -x if not right else x, y if not back else -y] for z, w, d, x, y in CABRIOLE
        ]
        leg = shaped(sections)
        low = [min(s[k] - s[m] / 2 for s in sections) for k, m in ((3, 1), (4, 2))]
        corner = (width - 100 if right else 44, depth - 100 if back else 44)
        legs.append(shaped(sections, at=(corner[0] + 28 + low[0], corner[1] + 28 + low[1], 0)))
        assert leg.solid.size == legs[-1].solid.size
    apron = [[0, 0], [40, 0, -30], [560, 0], [600, 0], [600, 80], [0, 80]]
    return [
        plain(width, depth, 20, (0, 0, 420)), *legs,
        sawn(apron, 20, "y", at=(100, 60, head + 10)),
    ]  # fmt: skip


JOINED = {
    "table": table,
    "plinth under a body": lambda: [
        plain(500, 300, 400), around(500, 300, PROFILES["base"], at=(-18, -18, 0))
    ],
    "cornice on a body": lambda: [
        plain(500, 300, 400), around(500, 300, PROFILES["cornice"], at=(-30, -30, 361)),
        plain(560, 340, 20, (-30, -30, 400)),
    ],
    "moulding all round": lambda: [
        plain(500, 300, 400), around(500, 300, PROFILES["bead"], True, at=(-7, -7, 200))
    ],
    "moulding cut by a rail": lambda: [
        straight_run(800, OGEE), plain(50, 60, 10, (300, -20, 5)),
    ],
    "mouldings end to end": lambda: [straight_run(300, OGEE), straight_run(200, OGEE, (300, 0, 0))],
    "oval top on a column": lambda: [
        oval_board(900, 600, 22, (0, 0, 450)), turned(BALUSTER, (422, 272, 0))
    ],
    "post through a hole": lambda: [
        sawn(SHEET, 20, ovals=[(40, 40, (100, 100))], at=(0, 0, 200)),
        turned(BALUSTER, (69, 69, 0)),
    ],
    "slats in rails": lambda: [
        plain(400, 30, 40, (0, 0, 0)), plain(400, 30, 40, (0, 0, 330)),
        *[sawn(SLAT, 12, "y", holes=[PIERCING], at=(x, 9, 20)) for x in (40, 160, 280)],
    ],
    "bow front on a body": lambda: [
        sawn(BOW, 18, at=(0, 0, 300)), plain(500, 270, 300, (0, 30, 0))
    ],
    "rail into sabre legs": lambda: [
        shaped(SABRE), shaped(SABRE, (400, 0, 0)), plain(400, 18, 60, (18, 70, 300)),
    ],
    "rail into round legs": lambda: [
        shaped_round(CABRIOLE), shaped_round(CABRIOLE, (400, 0, 0)),
        plain(400, 18, 50, (25, 35, 180)),
    ],
    "rail into oval legs": lambda: [
        shaped_round(OVAL_LEG),
        plain(400, 9, 50, (25, 12, 180)),
    ],
    "apron at a block": lambda: [
        tapered_below_a_block(700, 50, 40, 25, 120), plain(300, 20, 100, (25, 10, 590))
    ],
    "leaning spindles between rails": lambda: [
        plain(300, 60, 40), plain(300, 60, 40, (0, 50, 420)),
        *[leaned(turned(SPINDLE), 8, "back", at=(x, 10, 20)) for x in (30, 130, 230)],
    ],
    "spindles through a rail": lambda: [
        plain(300, 60, 12, (0, -15, 200)), *[turned(SPINDLE, (x, 0, 0)) for x in (30, 130, 230)]
    ],
    "rail into smooth sabre legs": lambda: [
        smooth(SABRE), smooth(SABRE, at=(400, 0, 0)), plain(400, 18, 60, (18, 70, 300)),
    ],
    "seat on smooth legs": lambda: [
        plain(300, 200, 30, (-50, -50, 340)), smooth(CABRIOLE),
        smooth(OVAL_LEG, is_round=True, at=(120, 20, 0)),
    ],
    "rail into smooth oval legs": lambda: [
        smooth(OVAL_LEG, is_round=True), plain(400, 9, 50, (25, 12, 180)),
    ],
    "rail through a baluster": lambda: [turned(BALUSTER), plain(400, 18, 30, (20, 25, 200))],
    "bun under a case": lambda: [turned(BUN), plain(300, 200, 250, (0, 0, 60))],
    "tip in a block": lambda: [turned(TIP), plain(60, 50, 40, (-11, -9, -13))],
    "door before a body": lambda: [
        raised(400, 22, 600, frame=60, recess=9, bevel=40, field=0),
        plain(400, 300, 300, (0, 22, 0)),
        plain(60, 20, 60, (170, -20, 270)),
    ],
    "glazed door and a shelf": lambda: [
        glazed(450, 22, 900, 55, (2, 3), 18), plain(400, 200, 20, (25, 5, 440))
    ],
    "raked back": lambda: [
        leaned(plain(300, 20, 400), 10, "back"), plain(340, 200, 25, (-20, -10, 60))
    ],
    "turned board on a board": lambda: [
        turned_piece(plain(300, 40, 100), 30), plain(400, 300, 20, (-30, -30, -20))
    ],
    "mirrored pair": lambda: [
        shaped(SABRE), mirrored(shaped(CABRIOLE), "left-right", (300, 0, 0)),
        plain(300, 30, 20, (10, 35, 400)),
    ],
}  # fmt: skip


@pytest.mark.parametrize("name", ALONE)
def test_a_shape_alone_has_the_areas_that_the_cad_kernel_says(name, worst_errors):
    compare(name, ALONE[name](), worst_errors)


@pytest.mark.parametrize("name", JOINED)
def test_a_joined_assembly_shows_what_the_cad_kernel_says(name, worst_errors):
    compare(name, JOINED[name](), worst_errors)


EDGES = {
    "all four": ("front", "back", "left", "right"),
    "three": ("front", "left", "right"),
    "front": ("front",),
    "corner": ("front", "right"),
}
EDGE_PROFILES = {
    "chamfer": profiles.edge_of(profiles.chamfer(6, 9), 24),
    "quarter round": profiles.edge_of(profiles.quarter_round(15), 24),
    "cove": profiles.edge_of(profiles.cove(15), 24),
    "bullnose": profiles.bead(24),
    "ogee": profiles.edge_of(profiles.ogee(12, 16), 24),
    "thumb": [[8, 0], [8, 8, 2], [5, 20], [2, 21], [2, 24]],
}


@pytest.mark.parametrize("edges", EDGES)
@pytest.mark.parametrize("name", EDGE_PROFILES)
def test_a_board_with_profiled_edges_has_the_areas_of_the_carved_solid(name, edges, worst_errors):
    """There two boards, profiled along and across, and what they have in common."""
    piece = worked_board(600, 400, 24, EDGE_PROFILES[name], EDGES[edges])
    whole, _, _ = cad_areas([piece])
    expected = {face: area for (_, face), area in whole.items()}
    assert expected == pytest.approx(piece.solid.area_mm2_of, rel=UNCUT)
    worst = max(abs(piece.solid.area_mm2_of[f] / a - 1) for f, a in expected.items())
    worst_errors["profiled edges"] = max(worst_errors["profiled edges"], worst)
