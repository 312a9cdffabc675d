"""More forms of parts against an independent CAD kernel: drawers with a lip and low sides.

Source: Open CASCADE Technology, https://dev.opencascade.org , through the package
cadquery-ocp-novtk 8. Each is built there board by board, or cut from a block, not by the formula
under test.
"""

import pytest

pytest.importorskip("OCP")

from cad_compare import compare
from cad_forms import boxed_drawer
from cad_twins import plain

SIZE, THICK = (400, 450, 150), (20, 12)
LIP = {"left": 10, "right": 8, "top": 6}

ALONE = {
    "drawer, lip": lambda: [boxed_drawer(SIZE, THICK, LIP)],
    "drawer, lip all round": lambda: [boxed_drawer(SIZE, THICK, dict.fromkeys(LIP, 9))],
    "drawer, lip below": lambda: [boxed_drawer(SIZE, THICK, {"bottom": 15})],
    "drawer, rebated lip": lambda: [boxed_drawer(SIZE, THICK, LIP, lip_thickness=9)],
    "drawer, low sides": lambda: [boxed_drawer(SIZE, THICK, None, (110, None))],
    "drawer, low back": lambda: [boxed_drawer(SIZE, THICK, None, (None, 90))],
    "drawer, all": lambda: [boxed_drawer(SIZE, THICK, LIP, (110, 80), 9, at=(3, -5, 7))],
}  # fmt: skip

JOINED = {
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
