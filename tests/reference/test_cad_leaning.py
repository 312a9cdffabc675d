"""Leaning and turned boards that touch, against an independent CAD kernel.

Source: Open CASCADE Technology, https://dev.opencascade.org , through the package
cadquery-ocp-novtk 8. It leans and turns exact boxes, where no place is rounded to a grid, and fuses
them. Half a millimetre of air counts as touching here, so there the second board touches.
"""

import numpy as np
import pytest
from leaning import Pose, posed

from shapes.boards import board
from shapes.exposure import exposure

pytest.importorskip("OCP")

from cad_kernel import area_and_middle, box, faces_of, fuse, transformed
from cad_moves import rotation

PLACED = 1e-7
"""Of the area: places here are rounded to 1/80 000 mm, theirs are not."""

ANGLES = (1, 3, 5, 8, 10, 12, 15, 18, 20, 22.5, 25, 27, 30, 33, 36, 40, 45, 52.5, 60, 75)
AXES = {"left": (0, -1, 0), "right": (0, 1, 0), "front": (1, 0, 0), "back": (-1, 0, 0)}
LID = (600.0, 420.0, 22.0)


def leaned_box(size, at, pose):
    """Return a box in a pose in the CAD kernel."""
    upright = box(at, np.add(at, size))
    leaning = transformed(upright, rotation(AXES[pose.towards], pose.lean))
    return transformed(leaning, rotation((0, 0, 1), pose.turn))


def cleats(rng):
    """Return two cleats on the lid, (size, place): one within its edges, one over an edge."""
    size = rng.uniform([40, 20, 12], [200, 60, 40]).round(1)
    within = rng.uniform((0, 0), (LID[0] - size[0], 150)).round(1)
    over = rng.uniform((-size[0] / 2, 250), (0, LID[1])).round(1)
    return [(tuple(size), (*corner, LID[2])) for corner in (within, over)]


@pytest.mark.parametrize("air", [0.0, 0.5])
@pytest.mark.parametrize("towards", list(AXES))
@pytest.mark.parametrize("angle", ANGLES)
def test_a_leaning_lid_with_cleats_shows_what_the_cad_kernel_shows(angle, towards, air):
    rng = np.random.default_rng([ANGLES.index(angle), list(AXES).index(towards)])
    pose = Pose(angle, towards, float(rng.choice([0, 90, *ANGLES])))
    placed = cleats(rng)
    operation = fuse(
        [leaned_box(LID, (0, 0, 0), pose), *[leaned_box(size, at, pose) for size, at in placed]]
    )
    expected = sum(area_and_middle(face)[0] for face in faces_of(operation.Shape()))
    upright = [("lid", board(*LID), (0, 0, 0))]
    for number, (size, (x, y, z)) in enumerate(placed):
        upright.append((f"cleat {number}", board(*size), (x, y, z + air)))
    shown = exposure(posed(pose, upright))
    assert expected == pytest.approx(shown.area_mm2, rel=PLACED)
