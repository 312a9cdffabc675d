"""More forms of parts against an independent CAD kernel: drawers with a lip and low sides.

Source: Open CASCADE Technology, https://dev.opencascade.org , through the package
cadquery-ocp-novtk 8. Each is built there board by board, or cut from a block, not by the formula
under test.
"""

import math
from collections.abc import Callable
from functools import partial
from typing import Any

import pytest

pytest.importorskip("OCP")

from cad_compare import compare
from cad_forms import arched, bent, boxed_drawer, dished_seat, divided
from cad_leg_forms import chamfered, octagonal, splayed
from cad_twins import plain

SIZE, THICK = (400, 450, 150), (20, 12)
POST = (60, 50, 700)
BOW = [[400, 0], [400, 250, 200], [0, 250], [0, 0]]
SEAT = [[0, 40, 40], [420, 40], [400, 420, 20], [20, 420]]
DOOR = (500, 22, 700)
TWO_WAYS = {"left": 8, "front": 11}
COS = math.hypot(math.tan(math.radians(8)), math.tan(math.radians(11)), 1)
WINDSOR = [[0, 26], [60, 30], [150, 44], [150, 36], [165, 36], [180, 44], [330, 28], [420, 26]]
LIP = {"left": 10, "right": 8, "top": 6}


def alone(make: Callable[..., Any], *sizes: Any) -> list[Any]:
    return [make(*sizes)]


ALONE: dict[str, Callable[[], Any]] = {
    "drawer, lip": lambda: [boxed_drawer(SIZE, THICK, LIP)],
    "drawer, lip all round": lambda: [boxed_drawer(SIZE, THICK, dict.fromkeys(LIP, 9))],
    "drawer, lip below": lambda: [boxed_drawer(SIZE, THICK, {"bottom": 15})],
    "drawer, rebated lip": lambda: [boxed_drawer(SIZE, THICK, LIP, lip_thickness=9)],
    "drawer, low sides": lambda: [boxed_drawer(SIZE, THICK, None, (110, None))],
    "drawer, low back": lambda: [boxed_drawer(SIZE, THICK, None, (None, 90))],
    "splayed square": lambda: [splayed([[0, 30], [0, 30]], {"left": 10}, 400, is_round=False)],
    "splayed two ways": lambda: [splayed([[0, 30], [0, 30]], TWO_WAYS, 400, 45, is_round=False)],
    "splayed tapered": lambda: [splayed([[0, 24], [0, 40]], TWO_WAYS, 400, 30, is_round=False)],
    "splayed round": lambda: [splayed([[0, 32], [0, 32]], TWO_WAYS, 420)],
    "splayed, tapered round": lambda: [splayed([[0, 24], [400, 38]], {"right": 14, "back": 9})],
    "splayed turned": lambda: [splayed(WINDSOR, TWO_WAYS)],
    "splayed far": lambda: [splayed(WINDSOR, {"front": 32})],
    "octagonal": lambda: [octagonal(700, 60)],
    "octagonal, tapered": lambda: [octagonal(700, 60, 40)],
    "octagonal, spread": lambda: [octagonal(700, 40, 60, at=(3, -5, 7))],
    "chamfered": lambda: [chamfered(POST, 8)],
    "stop-chamfered, square": lambda: [chamfered(POST, 8, (100, 600))],
    "stop-chamfered, plain": lambda: [chamfered(POST, 8, (100, 600), 30)],
    "stop-chamfered, no flat": lambda: [chamfered(POST, 8, (300, 400), 50)],
    "stop-chamfered to the floor": lambda: [chamfered(POST, 8, (0, 600), 30)],
    "stop-chamfered to the top": lambda: [chamfered(POST, 8, (100, 700), 30, True)],
    "lamb's tongue": lambda: [chamfered(POST, 8, (100, 600), 30, True)],
    "rung": lambda: [bent([[0, 0], [400, 0]], 22)],
    "slanting rung": lambda: [bent([[0, 0], [400, 90]], 22, "x")],
    "arc": lambda: [bent([[0, 0, 90], [400, 30]], 22, "z", at=(3, -5, 7))],
    **{f"bow across {a}": partial(alone, bent, BOW, 20, a) for a in "xyz"},
    "comb": lambda: [bent([[0, 0, -60], [400, 0]], 20)],
    "S": lambda: [bent([[0, 0, 25], [100, 0, -25], [200, 0]], 20)],
    "mitred rod": lambda: [bent([[0, 0], [0, 300], [250, 380], [300, 0]], 24)],
    "arched": lambda: [arched(DOOR, 60, 90, recess=6)],
    "arched, half a circle": lambda: [arched(DOOR, 60, 190, recess=6, is_round=True)],
    "arched outside": lambda: [arched(DOOR, 60, 90, recess=6, is_round=True, at=(3, -5, 7))],
    "arched, for glass": lambda: [arched(DOOR, 60, 90)],
    "arched outside, for glass": lambda: [arched(DOOR, 60, 90, is_round=True)],
    "arched, raised": lambda: [arched(DOOR, 60, 90, recess=8, raise_by=(40, 1, 0))],
    "arched, raised in a step": lambda: [arched(DOOR, 60, 90, recess=8, raise_by=(40, 1, 3))],
    "arched, raised both": lambda: [
        arched(DOOR, 60, 120, recess=8, raise_by=(40, 1, 3), raised_back=True, is_round=True)
    ],
    "arched in half a circle, raised": lambda: [
        arched(DOOR, 60, 190, recess=8, raise_by=(40, 0, 0))
    ],
    "bays across": lambda: [divided((1000, 400, 600), 18, (200, 400, 328), (564,), 18)],
    "bays both ways": lambda: [
        divided((1000, 400, 600), 18, (300, 652), (100, 200, 240), 12, ("front", "back"))
    ],
    "dished, round": lambda: [dished_seat(SEAT, 45, (300, 300), 15, (210, 230))],
    "dished, oval": lambda: [dished_seat(SEAT, 45, (340, 300), 18, (210, 230), at=(3, -5, 7))],
    "drawer, all": lambda: [boxed_drawer(SIZE, THICK, LIP, (110, 80), 9, at=(3, -5, 7))],
}  # fmt: skip

JOINED = {
    "dished seat on legs, with a spindle in its edge": lambda: [
        dished_seat(SEAT, 45, (300, 260), 15, (210, 220), at=(0, 0, 400)),
        plain(40, 40, 400, (60, 60, 0)), plain(16, 16, 300, (100, 425, 420)),
    ],
    "cushion block in a dish": lambda: [
        dished_seat(SEAT, 45, (340, 300), 18, (210, 220)), plain(90, 60, 100, (180, 180, 28)),
    ],
    "case in bays with a shelf and a door in one": lambda: [
        divided((1000, 400, 600), 18, (200, 400, 328), (564,), 18, at=(0, 0, 50)),
        plain(400, 300, 18, (236, 82, 300)), plain(200, 18, 300, (18, 0, 68)),
        plain(1000, 400, 50),
    ],
    "arched door before a body": lambda: [
        arched(DOOR, 60, 120, recess=8, raise_by=(40, 0, 0), is_round=True),
        plain(500, 300, 300, (0, 22, 0)), plain(60, 20, 60, (230, -20, 200)),
    ],
    "arched frame and a shelf": lambda: [
        arched(DOOR, 60, 90), plain(460, 200, 20, (20, 5, 540)),
    ],
    "bow in a seat, spindles in the bow": lambda: [
        plain(480, 60, 40, (-40, -20, -40)), bent(BOW, 20, at=(-10, 0, 0)),
        *[plain(8, 8, 460, (x, 6, 0)) for x in (90, 200, 290)],
    ],
    "rung between two posts": lambda: [
        plain(40, 40, 300), plain(40, 40, 300, (400, 0, 0)),
        bent([[0, 0], [380, 0]], 22, at=(30, 9, 140)),
    ],
    "rails into chamfered posts": lambda: [
        chamfered(POST, 8, (100, 600), 30, True),
        chamfered(POST, 8, (100, 600), 30, at=(400, 0, 0)),
        plain(360, 20, 90, (50, 10, 580)), plain(360, 46, 40, (50, 2, 95)),
    ],
    "octagonal posts on a block": lambda: [
        octagonal(400, 60, 40, at=(0, 0, 30)), plain(100, 100, 30, (-10, -10, 0)),
        plain(200, 20, 60, (40, 20, 300)),
    ],
    "splayed square legs under a seat": lambda: [
        plain(300, 300, 30, (0, 0, 400)),
        splayed([[0, 30], [0, 30]], TWO_WAYS, 400, 45, is_round=False, at=(-10, -20, 0)),
        splayed([[0, 30], [0, 30]], {"right": 8}, 400, is_round=False, at=(200, 200, 0)),
    ],
    "splayed turned leg under a seat, with a rail": lambda: [
        plain(300, 300, 30, (0, 0, round(WINDSOR[-1][0] * 80_000 / COS) / 80_000)),
        splayed(WINDSOR, TWO_WAYS), plain(250, 20, 20, (40, 60, 150)),
    ],
    "lipped drawer in an opening": lambda: [
        boxed_drawer(SIZE, THICK, LIP, (110, 80), 9, at=(0, -9, 0)),
        plain(30, 500, 150, (-20, 0, 0)), plain(392, 500, 20, (0, 0, -20)),
    ],
}  # fmt: skip


@pytest.mark.parametrize("name", ALONE)
def test_a_form_alone_has_the_areas_that_the_cad_kernel_says(name, worst_errors):
    compare(name, ALONE[name](), worst_errors)


@pytest.mark.parametrize("name", JOINED)
def test_a_joined_form_shows_what_the_cad_kernel_says(name, worst_errors):
    compare(name, JOINED[name](), worst_errors)
